/** Why one of two small drives is hotter, against the runs themselves: every mixture driven here, its Shapley values written out for two and for four. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { differsIn, mixedDrive, withWays } from '@shaftwork/sim-core/questions/why/mixed-drive';
import { type WhyAsk, why } from '@shaftwork/sim-core/questions/why/why';
import { type WayPartId, WHY_PARTS, type WhyPartId } from '@shaftwork/sim-core/results/why-result';
import { describe, expect, it } from 'vitest';
import { OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';

const BODY = { body: 'windingTemperature', bodyWords: 'peak winding temperature' } as const;
function pair(a: Section, b: Section, more: Section = {}, ask: Partial<WhyAsk> = {}) {
  const { candidates, scenario } = preparedOf({
    profile: [{ for: '20 s', throttle: '80 %' }],
    ...more,
    candidates: [
      { name: 'A', motor: OUTRUNNER, ...a },
      { name: 'B', motor: OUTRUNNER, ...b },
    ],
  });
  const [first, second] = candidates.map(({ data }) => realise(data));
  const run = (system: DriveSystem, again = false) =>
    simulate(system, scenario.profile, { method: 'dormand-prince', relative: 1e-5, record: false, ...(again ? { again } : {}) });
  const peak = (system: DriveSystem): number => run(system).highest[ask.body ?? BODY.body].value;
  const mixed = (...from: readonly WhyPartId[]): DriveSystem => mixedDrive(first, second, (part) => from.includes(part));
  return {
    first,
    second,
    run,
    peak,
    mixed,
    players: WHY_PARTS.filter((part) => differsIn(part, first, second)),
    found: why(candidates[0], candidates[1], scenario.profile, { ...BODY, ...ask }),
  };
}
const motor = (more: Section): Section => ({ motor: { ...OUTRUNNER, ...more } });

describe('why', () => {
  it('one part that differs has all of the difference', () => {
    const { found, peak, first, second } = pair({}, motor({ no_load: { current: '1.8 A', voltage: '10 V' } }));
    const [split] = found.splits;
    expect(found.splits).toHaveLength(1);
    expect([split.quantity, split.words, split.dimension]).toEqual(['peak', 'peak winding temperature', 'temperature']);
    expect([split.from, split.to]).toEqual([peak(first), peak(second)]);
    expect(split.difference).toBeCloseTo(split.to - split.from, 12);
    expect(split.parts).toEqual([{ id: 'lossTorque', words: 'iron and friction loss', value: expect.closeTo(split.difference, 9) }]);
    expect([split.interaction, split.interactionsExceedParts]).toEqual([undefined, false]);
    expect([found.from, found.to, found.simulations, found.capped, found.schema]).toEqual(['A', 'B', 2, [], 'shaftwork.why/1']);
    expect(found.sentence).toContain('(2 simulations)');
  });

  it('two share what they do together evenly, the greater first', () => {
    const { found, peak, mixed, first, second, players } = pair({}, motor({ resistance: '140 mohm' }));
    expect(players).toEqual(['motorConstant', 'lossTorque']);
    const [v0, v1, v2, v12] = [first, mixed('motorConstant'), mixed('lossTorque'), second].map(peak);
    const [{ parts, interaction, interactionsExceedParts }] = found.splits;
    expect(parts.map(({ id }) => id)).toEqual(['motorConstant', 'lossTorque']);
    expect(parts[0].value).toBeCloseTo(0.5 * (v1 - v0 + v12 - v2), 6);
    expect(parts[1].value).toBeCloseTo(0.5 * (v2 - v0 + v12 - v1), 6);
    expect(Math.abs(parts[0].value)).toBeGreaterThan(Math.abs(parts[1].value));
    expect(interaction?.between).toEqual(['motorConstant', 'lossTorque']);
    expect(interaction?.value).toBeCloseTo(v12 - v1 - v2 + v0, 6);
    expect(interactionsExceedParts).toBe(false);
    expect(found.simulations).toBe(4);
  });

  it('of another body is split by that body’s peak', () => {
    const { found, peak, second } = pair(
      {},
      motor({ resistance: '140 mohm' }),
      {},
      { body: 'canTemperature', bodyWords: 'peak can temperature' },
    );
    expect(found.splits[0].to).toBe(peak(second));
    expect(found.splits[0].words).toBe('peak can temperature');
  });

  it('heat paths are told way by way: in the mean of both ends, what is left over shared out, the greatest first', () => {
    const { found, peak, first, second, players } = pair(
      {},
      motor({
        can: { diameter: '27 mm', length: '40 mm' },
        thermal: { winding_to_stator: '1.4 W/K', winding_capacity: '9 J/K', stator_capacity: '12 J/K', can_capacity: '15 J/K' },
      }),
    );
    expect(players).toContain('heatPaths');
    const part = found.splits[0].parts.find(({ id }) => id === 'heatPaths');
    const ways = part?.ways ?? [];
    expect(ways.map(({ id }) => id).sort()).toEqual(['elsewhere', 'inside', 'side']);
    expect(ways.reduce((sum, { value }) => sum + value, 0)).toBeCloseTo(part?.value ?? 0, 9);
    const sizes = ways.map(({ value }) => Math.abs(value));
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
    // Shapley values of the ways, at either end
    const ids = ways.map(({ id }) => id);
    const alone = (drive: DriveSystem, other: DriveSystem, sign: number): ReadonlyMap<WayPartId, number> => {
      const value = (set: number): number =>
        peak(withWays(drive, other, (way) => ids.includes(way) && (set & (1 << ids.indexOf(way))) !== 0));
      const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
      const size = (set: number): number => ids.filter((_, k) => (set & (1 << k)) !== 0).length;
      const n = ids.length;
      return new Map(
        ids.map((id, k) => [
          id,
          Array.from({ length: 2 ** n }, (_, set) => set)
            .filter((set) => (set & (1 << k)) === 0)
            .reduce(
              (sum, set) =>
                sum + ((factorial(size(set)) * factorial(n - size(set) - 1)) / factorial(n)) * sign * (value(set | (1 << k)) - value(set)),
              0,
            ),
        ]),
      );
    };
    const [one, other] = [alone(first, second, 1), alone(second, first, -1)];
    const means = ids.map((id) => 0.5 * ((one.get(id) ?? 0) + (other.get(id) ?? 0)));
    const over = ((part?.value ?? 0) - means.reduce((sum, each) => sum + each, 0)) / ids.length;
    ways.forEach(({ value, words }, k) => {
      expect(value).toBeCloseTo(means[k] + over, 6);
      expect(words).toBe(
        { inside: 'the way from winding to can', side: 'the can’s side', ends: 'its ends', elsewhere: 'mount and the air through it' }[
          ids[k]
        ],
      );
    });
    expect(found.simulations).toBe(2 ** players.length + 2 * 2 ** ids.length);
  });

  it('one way alone is the whole of the heat paths, two are told one by one', () => {
    const one = pair({}, motor({ thermal: { winding_to_stator: '1.4 W/K' } })).found;
    expect([one.splits[0].parts.map(({ id, words, ways }) => [id, words, ways]), one.simulations]).toEqual([
      [['heatPaths', 'the motor’s own heat paths', undefined]],
      2,
    ]);
    const two = pair({}, { ...motor({ thermal: { winding_to_stator: '1.4 W/K' } }), cooling: { mount: { conductance: '0.9 W/K' } } });
    const [ways] = two.found.splits[0].parts.flatMap((part) => (part.ways === undefined ? [] : [part.ways]));
    expect(ways.map(({ id, words }) => [id, words]).sort()).toEqual([
      ['elsewhere', 'mount and the air through it'],
      ['inside', 'the way from winding to can'],
    ]);
    // half of all but what the two ways do together, at either end
    const value = (drive: DriveSystem, other: DriveSystem, ...taken: readonly WayPartId[]): number =>
      two.peak(withWays(drive, other, (way) => taken.includes(way)));
    const inside = (a: DriveSystem, b: DriveSystem): number =>
      0.5 * (value(a, b, 'inside') - value(a, b) + value(a, b, 'inside', 'elsewhere') - value(a, b, 'elsewhere'));
    const { first, second } = two;
    const told = ways.find(({ id }) => id === 'inside')?.value ?? Number.NaN;
    expect(told).toBeCloseTo(0.5 * (inside(first, second) - inside(second, first)), 2);
  });

  it('each part has its words', () => {
    const { found } = pair(
      {},
      { ...motor({ kv: '1000 rpm/V', resistance: '140 mohm', thermal: { winding_capacity: '9 J/K' } }), other_loads: '5 W' },
    );
    expect(found.splits[0].parts.map(({ words }) => words).sort()).toEqual([
      'heat capacity and mass',
      'iron and friction loss',
      'other loads',
      'the choice of winding (Kv)',
      'the motor constant',
    ]);
  });

  it('a gear is named with what is taken behind it; what else differs by its own words', () => {
    const { found } = pair({}, { ...motor({ kv: '1840 rpm/V' }), gearbox: { ratio: 2.5, efficiency: '95 %', mass: '30 g' } });
    const words = new Map(found.splits[0].parts.map(({ id, words: each }) => [id, each]));
    expect(words.get('speedConstant')).toBe('the choice of winding and gear');
    expect(words.get('motorConstant')).toBe('the motor constant behind its gear');
    expect(words.get('lossTorque')).toBe('iron and friction loss behind the gear');
    expect(words.get('heatPaths')).toBe('the motor’s own heat paths and the speed it turns at');
    expect(words.get('overrides')).toBe('the gear’s loss and mass');
    const plain = pair({}, { ...motor({ kv: '1000 rpm/V' }), battery: { cells: { series: 3 }, capacity: '2.4 Ah' } }).found;
    expect(plain.splits[0].parts.map(({ words: each }) => each)).toEqual(
      expect.arrayContaining(['the choice of winding (Kv)', 'the battery']),
    );
  });

  it('run time has its split where it differs by more than a second, and the time to the cut-off where it is asked for', () => {
    const small = { battery: { cells: { series: 3 }, capacity: '0.3 Ah' }, profile: [{ for: '200 s', throttle: '70 %' }] };
    const { found, run, first, second } = pair({}, motor({ kv: '1200 rpm/V' }), small, { lasting: true });
    expect(pair({}, motor({ kv: '922 rpm/V' }), small).found.splits.map(({ quantity }) => quantity)).toEqual(['peak']);
    expect(Math.abs(run(first).time - run(second).time)).toBeGreaterThan(1);
    expect(found.splits.map(({ quantity, dimension }) => [quantity, dimension])).toEqual([
      ['peak', 'temperature'],
      ['runTime', 'time'],
      ['timeToCutoff', 'time'],
    ]);
    const [, time, lasting] = found.splits;
    expect([time.from, time.to]).toEqual([run(first).time, run(second).time]);
    expect([lasting.from, lasting.to]).toEqual([run(first, true).time, run(second, true).time]);
    for (const split of [time, lasting]) expect(split.parts.reduce((sum, { value }) => sum + value, 0)).toBeCloseTo(split.difference, 6);
    expect(found.splits.map(({ words }) => words)).toEqual(['peak winding temperature', 'run time', 'time to cut-off']);
  });
});
