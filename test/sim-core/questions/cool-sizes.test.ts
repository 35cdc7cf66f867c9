/** What `cool` proposes for a drive whose parts warm within seconds: each chance counted again on the drive with the line written in it, each size beside the next smaller. */
import { HEAT_LIMITS } from '@shaftwork/sim-core/drive/heat-limits';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { cool, othersOf } from '@shaftwork/sim-core/questions/cool';
import { planDoubt } from '@shaftwork/sim-core/questions/doubt/plan';
import { limitBits, rowIndex, rowLength, workDoubt } from '@shaftwork/sim-core/questions/doubt/sample';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import type { CoolResult } from '@shaftwork/sim-core/results/cool-result';
import { describe, expect, it } from 'vitest';
import { HULL, INRUNNER, preparedOf, type Section, TABLE_SCREW } from '../provenance/drives.js';

const SAMPLES = 16;
const TO_AIR = [0.15, 0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 5, 8];
interface Drive {
  /** Ways to the air of controller and cells [W/K], and all cooling of the motor. */
  readonly controller?: number;
  readonly cells?: number;
  readonly cooling?: Section;
  /** Limits [°C]. */
  readonly limits?: Partial<Record<'winding' | 'controller' | 'cells', number>>;
  readonly more?: Section;
}
/** A bench, and beside it another drive with unknowns of its own. */
function drive({ controller = 0.1, cells = 0.1, cooling, limits = {}, more = {} }: Drive) {
  const { candidates, scenario } = preparedOf({
    ambient: { air: '15 °C' },
    profile: [{ for: '4 s', throttle: '60 %' }],
    battery: { cells: { series: 3 }, capacity: '2.2 Ah', cell_resistance: '20 mohm' },
    limits: {
      winding: `${limits.winding ?? 200} °C`,
      magnets: '200 °C',
      controller: `${limits.controller ?? 200} °C`,
      cells: `${limits.cells ?? 200} °C`,
    },
    candidates: [
      { name: 'B', motor: { ...INRUNNER, kv: '700 rpm/V ± 5 %' }, controller: { thermal: { to_air: '5 W/K' } } },
      {
        name: 'A',
        motor:
          limits.winding === undefined
            ? INRUNNER
            : { ...INRUNNER, thermal: { winding_capacity: '0.3 J/K', stator_capacity: '0.3 J/K', can_capacity: '0.3 J/K' } },
        controller: { thermal: { capacity: '1 J/K', to_air: `${controller} W/K` } },
        battery: { thermal: { capacity: '3 J/K', to_air: `${cells} W/K` } },
        ...(cooling === undefined ? {} : { cooling }),
      },
    ],
    ...more,
  });
  return { candidates, input: candidates[1], profile: scenario.profile };
}
function asked(of: Drive, goal: number): CoolResult {
  const { candidates, input, profile } = drive(of);
  return cool(input, candidates, profile, 'coolest', goal, SAMPLES);
}
/** Share of the draws in which `limits` are kept. */
function kept(of: Drive, limits: Parameters<typeof limitBits>[0] = HEAT_LIMITS): number {
  const { candidates, input, profile } = drive(of);
  const plan = planDoubt(candidates, profile, 'coolest', { samples: SAMPLES, seed: 1 });
  const rows = workDoubt({ ...plan, names: ['A'] }, [input], { from: 0, to: SAMPLES });
  const bits = Array.from({ length: SAMPLES }, (_, k) => rows[k * rowLength(plan) + rowIndex('passed')] & limitBits(limits));
  return bits.filter((each) => each === 0).length / SAMPLES;
}
function proposed(found: CoolResult, remedy: CoolResult['remedies'][number]['remedy']) {
  const answer = found.remedies.find((each) => each.remedy === remedy)?.answer;
  if (answer === undefined || !('proposal' in answer)) throw new Error(`nothing of ${remedy}`);
  return answer;
}
/** The conductance that a line of a controller or a pack says [W/K], and the next smaller on the list. */
function sizesOf(entry = ''): readonly [size: number, below: number] {
  const size = Number(/to_air: ([\d.]+) W/.exec(entry)?.[1]);
  return [size, TO_AIR[TO_AIR.indexOf(size) - 1]];
}

describe('a size', () => {
  const hot = { limits: { controller: 17 } };
  it.each([0.25, 0.9])('is the smallest with the chance asked for, %d, counted beside the other drive', (goal) => {
    const found = asked(hot, goal);
    const { kind, proposal } = proposed(found, 'controller');
    const [size, below] = sizesOf(proposal.fittings[0].entry);
    expect([kind, proposal.keepsAll, found.pairs]).toEqual(['enough', true, []]);
    expect(proposal.chance).toBe(kept({ ...hot, controller: size }));
    expect(proposal.chance).toBeGreaterThanOrEqual(goal);
    expect(kept({ ...hot, controller: below })).toBeLessThan(goal);
    const { input, profile } = drive({ ...hot, controller: size });
    const { highest } = simulate(realise(input.data), profile, { method: 'dormand-prince', relative: 1e-5, record: false });
    for (const limit of HEAT_LIMITS) expect(proposal.peaks[limit]).toBeCloseTo(highest[limit].value, 9);
  });

  it('that just has the chance asked for has it, the largest too', () => {
    const cool = { limits: { controller: 15.15 } };
    const most = kept({ ...cool, controller: 8 });
    expect([most > 0, most < 0.8]).toEqual([true, true]);
    const enough = proposed(asked(cool, most), 'controller');
    expect([enough.kind, enough.proposal.chance, enough.proposal.keepsAll]).toEqual(['enough', most, true]);
    const short = proposed(asked(cool, most + 0.01), 'controller');
    expect([short.kind, short.proposal.chance, short.proposal.keepsAll]).toEqual(['not-enough', most, false]);
    expect(sizesOf(short.proposal.fittings[0].entry)[0]).toBe(8);
  });

  it('is not needed where the drive just has the chance as it is', () => {
    const warm = { limits: { controller: 19 } };
    const least = kept(warm);
    expect(least).toBeGreaterThan(0);
    expect(asked(warm, least).failing).toEqual([]);
    expect(asked(warm, least + 0.01).failing).toEqual([{ limit: 'controllerTemperature', chance: least }]);
  });

  it('is one of those that fit', () => {
    const { proposal } = proposed(asked({ limits: { winding: 17 }, more: { space: { diameter: '43 mm' } } }, 0.9), 'heat-sink');
    // 27 mm and twice 7.5 mm, base and all, not twice 9.5
    expect(proposal.fittings[0].entry).toContain('fin_height: 6 mm');
  });
});

describe('a pair', () => {
  it('keeps what none of its two keeps alone, each as small as may be', () => {
    const hot = { limits: { controller: 17, cells: 16 } };
    const goal = 0.6;
    const found = asked(hot, goal);
    expect(found.failing.map(({ limit }) => limit)).toEqual(['controllerTemperature', 'cellTemperature']);
    // alone each keeps its own limit, and not all
    for (const [remedy, limit] of [
      ['controller', 'controllerTemperature'],
      ['cells', 'cellTemperature'],
    ] as const) {
      const { kind, proposal } = proposed(found, remedy);
      const [size] = sizesOf(proposal.fittings[0].entry);
      expect([kind, proposal.keepsAll]).toEqual(['enough', false]);
      expect([proposal.chance, proposal.chanceOfAll]).toEqual([
        kept({ ...hot, [remedy]: size }, [limit]),
        kept({ ...hot, [remedy]: size }),
      ]);
    }
    expect(found.pairs.map(({ fittings }) => fittings.map(({ remedy }) => remedy))).toEqual([['controller', 'cells']]);
    const [{ fittings, chance, chanceOfAll, keepsAll }] = found.pairs;
    const [[controller, below], [cells, less]] = fittings.map(({ entry }) => sizesOf(entry));
    expect([chance, chanceOfAll, keepsAll]).toEqual([kept({ ...hot, controller, cells }), chance, true]);
    expect(chance).toBeGreaterThanOrEqual(goal);
    expect(kept({ ...hot, controller: below, cells: 8 })).toBeLessThan(goal);
    expect(kept({ ...hot, controller, cells: less })).toBeLessThan(goal);
  });

  const remediesOf = ({ pairs }: CoolResult) => pairs.map(({ fittings }) => fittings.map(({ remedy }) => remedy));
  it('reaches all limits that fail: the motor’s cooling with the controller’s, not one of the motor’s with another', () => {
    const both = asked({ limits: { winding: 40, controller: 17 } }, 0.45);
    expect(both.failing.map(({ limit }) => limit)).toEqual(['windingTemperature', 'controllerTemperature']);
    expect(remediesOf(both)).toEqual([
      ['heat-sink', 'controller'],
      ['air', 'controller'],
    ]);
  });

  it('is of two for one limit where neither is enough', () => {
    expect(remediesOf(asked({ limits: { winding: 40 } }, 0.8))).toEqual([['heat-sink', 'air']]);
  });

  it('is none where one is enough or both are not', () => {
    expect(remediesOf(asked({ limits: { winding: 40 } }, 0.45))).toEqual([]);
    expect(remediesOf(asked({ limits: { winding: 30 } }, 0.45))).toEqual([]);
  });

  it('is none of two that fit the space each, and not together', () => {
    const afloat = {
      ambient: { air: '15 °C', water: '15 °C' },
      vehicle: HULL,
      propeller: { ...TABLE_SCREW, diameter: '40 mm', medium: 'water' },
      space: { mass: '89 g' },
    };
    const found = asked({ limits: { winding: 15.01 }, more: afloat }, 0.5);
    const kinds = new Map(found.remedies.map(({ remedy, answer }) => [remedy, answer.kind]));
    expect([kinds.get('heat-sink'), kinds.get('water')]).toEqual(['not-enough', 'not-enough']);
    expect(found.pairs).toEqual([]);
  });

  it('is none where two reach no three limits', () => {
    const three = asked({ limits: { winding: 40, controller: 17, cells: 16 } }, 0.45);
    expect([three.failing.length, three.pairs]).toEqual([3, []]);
  });
});

describe('what no cooling mends', () => {
  const said = (end: Parameters<typeof othersOf>[0]['end'], ...passed: readonly string[]) =>
    othersOf({ end, passed: new Map(passed.map((id) => [id, 1])) as Parameters<typeof othersOf>[0]['passed'] });
  it('is how a run ends', () => {
    expect([said('finished'), said('burnt')]).toEqual([[], []]);
    expect(said('cut-off')).toEqual(['the cells reach their cut-off']);
    expect(said('empty')).toEqual(['the pack is empty before the end']);
    expect(said('failed')).toEqual(['there is no operating point']);
  });
  it('is every ceiling that is no temperature', () => {
    expect(said('finished', 'motorCurrent', 'batteryPower')).toEqual(['motor current passes its limit', 'battery power passes its limit']);
    expect(said('cut-off', 'shaftSpeed')).toEqual(['the cells reach their cut-off', 'motor speed passes its limit']);
    expect(said('finished', 'windingTemperature', 'cellTemperature', 'cellVoltage', 'reserve', 'empty')).toEqual([]);
  });
});
