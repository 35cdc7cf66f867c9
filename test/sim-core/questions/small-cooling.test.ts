/** Cooling asked for of small drives: what fails, what mends it, and what nothing mends. */
import { HEAT_LIMITS } from '@shaftwork/sim-core/drive/heat-limits';
import type { RunInput } from '@shaftwork/sim-core/questions/candidate';
import { cool, USUAL_CHANCE } from '@shaftwork/sim-core/questions/cool';
import { planDoubt } from '@shaftwork/sim-core/questions/doubt/plan';
import { limitBits, rowIndex, rowLength, workDoubt } from '@shaftwork/sim-core/questions/doubt/sample';
import { describe, expect, it } from 'vitest';
import { INRUNNER, preparedOf, type Section } from '../provenance/drives.js';

/** An inrunner on a bench that passes its winding's limit in a minute. */
const HOT: Section = { motor: INRUNNER, profile: [{ for: '60 s', throttle: '60 %' }] };
const asked = (more: Section, goal?: number) => {
  const { candidates, scenario } = preparedOf({ ...HOT, ...more });
  return {
    input: candidates[0],
    profile: scenario.profile,
    found: cool(candidates[0], candidates, scenario.profile, 'coolest', goal, SAMPLES),
  };
};
const limits = (winding: string, more: Section = {}): Section => ({
  limits: { winding, magnets: '200 °C', controller: '200 °C', cells: '200 °C', ...more },
});
/** As few as may be. */
const SAMPLES = 16;
/** Share of the draws in which limits are kept. */
function kept(
  input: RunInput,
  profile: Parameters<typeof cool>[2],
  ids: Parameters<typeof limitBits>[0],
  all: readonly RunInput[] = [input],
): number {
  const plan = planDoubt(all, profile, 'coolest', { samples: SAMPLES, seed: 1 });
  const rows = workDoubt({ ...plan, names: [input.name] }, [input], { from: 0, to: SAMPLES });
  return (
    Array.from({ length: SAMPLES }, (_, k) => rows[k * rowLength(plan) + rowIndex('passed')] & limitBits(ids)).filter((each) => each === 0)
      .length / SAMPLES
  );
}

describe('cooling', () => {
  it('is not needed where all limits are kept', () => {
    const { found } = asked(limits('250 °C'));
    expect([found.name, found.goal, found.failing, found.others, found.pairs]).toEqual(['A', USUAL_CHANCE, [], [], []]);
    expect(found.remedies.map(({ remedy }) => remedy)).toEqual(['heat-sink', 'air', 'water', 'controller', 'cells']);
    for (const { answer } of found.remedies) expect(answer).toEqual({ kind: 'not-needed' });
  });

  it('is told with the limit that fails and its chance, remedy by remedy', () => {
    const { found, input, profile } = asked(limits('24 °C'));
    expect(found.failing.map(({ limit }) => limit)).toEqual(['windingTemperature']);
    expect(found.failing[0].chance).toBe(kept(input, profile, ['windingTemperature']));
    expect(found.failing[0].chance).toBeLessThan(0.9);
    const answers = new Map(found.remedies.map(({ remedy, answer }) => [remedy, answer]));
    // controller and pack reach no winding; there is no water on a bench
    expect([answers.get('controller'), answers.get('cells')]).toEqual([{ kind: 'not-needed' }, { kind: 'not-needed' }]);
    expect(answers.get('water')).toEqual({ kind: 'useless', why: 'there is no water to cool with' });
    for (const remedy of ['heat-sink', 'air'] as const) {
      const answer = answers.get(remedy);
      if (answer === undefined || !('proposal' in answer)) throw new Error(`nothing of ${remedy}`);
      const { chance, chanceOfAll, keepsAll, peaks, fittings } = answer.proposal;
      expect(answer.kind).toBe(chance >= 0.9 ? 'enough' : 'not-enough');
      expect(keepsAll).toBe(chance >= 0.9);
      expect(chanceOfAll).toBeLessThanOrEqual(chance);
      expect(Object.keys(peaks)).toEqual([...HEAT_LIMITS]);
      expect(fittings).toEqual([{ remedy, words: expect.any(String), entry: expect.stringContaining('cooling: {') }]);
    }
  });

  it('has the chance that `run` tells of it, beside a candidate with unknowns of its own', () => {
    const { candidates, scenario } = preparedOf({
      ...limits('16.3 °C'),
      profile: [{ for: '2 s', throttle: '60 %' }],
      candidates: [
        { name: 'B', motor: { ...INRUNNER, kv: '700 rpm/V ± 5 %' }, cooling: { air: { speed: '4 m/s' } } },
        { name: 'A', motor: INRUNNER },
      ],
    });
    const [, input] = candidates;
    const [failing] = cool(input, candidates, scenario.profile, 'coolest', undefined, SAMPLES).failing;
    expect(failing.chance).toBe(kept(input, scenario.profile, ['windingTemperature'], candidates));
    // alone it would be drawn otherwise
    expect(failing.chance).not.toBe(kept(input, scenario.profile, ['windingTemperature']));
  });

  it('says what no cooling mends', () => {
    const { found } = asked({
      ...limits('250 °C'),
      motor: { ...INRUNNER, maker_limits: { current: '2 A' } },
      battery: { cells: { series: 3 }, capacity: '0.05 Ah' },
    });
    expect(found.others).toContain('motor current passes its limit');
    expect(found.others.some((each) => each === 'the cells reach their cut-off' || each === 'the pack is empty before the end')).toBe(true);
  });

  it('that does not fit the space is of no use', () => {
    const { found } = asked({ ...limits('24 °C'), space: { diameter: '27.5 mm' } });
    const sink = found.remedies.find(({ remedy }) => remedy === 'heat-sink');
    expect(sink?.answer).toEqual({ kind: 'useless', why: 'no size of it fits the space' });
  });

  it('is asked for with a chance between none and all', () => {
    for (const goal of [0, 1, -0.1, Number.NaN]) expect(() => asked(limits('250 °C'), goal)).toThrow(/between 0 and 100 %/);
  });
});
