/** Shares of the motor's heat by way: they sum to one, controller and cells left out. */
import { HEAT_WAY_IDS } from '@shaftwork/sim-core/heat/heat-ways';
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { isSlightWay, MOTOR_WAYS, SLIGHT_SHARE, shareByWay } from '@shaftwork/sim-core/results/surface-heat';
import { describe, expect, it } from 'vitest';

const energy = (of: (way: string, k: number) => number) => ({
  energy: { heatLeaves: recordOf(HEAT_WAY_IDS, of) } as CandidateResult['energy'],
});

it('a motor gives off by all ways but those of controller and cells', () => {
  expect([...MOTOR_WAYS, 'controller', 'cells'].sort()).toEqual([...HEAT_WAY_IDS].sort());
});
it('shares sum to one', () => {
  const run = energy((_, k) => 2 ** k);
  expect(MOTOR_WAYS.reduce((sum, way) => sum + shareByWay(run, way), 0)).toBeCloseTo(1, 12);
  const [first] = MOTOR_WAYS;
  const all = MOTOR_WAYS.reduce((sum, way) => sum + run.energy.heatLeaves[way], 0);
  expect(shareByWay(run, first)).toBeCloseTo(run.energy.heatLeaves[first] / all, 12);
});
it('are nothing where nothing leaves', () => {
  for (const way of MOTOR_WAYS)
    expect(
      shareByWay(
        energy(() => 0),
        way,
      ),
    ).toBe(0);
});

describe('a way is slight', () => {
  const [way, other] = MOTOR_WAYS;
  /** A hundred leave in all: `over` the run and `then`, at the hardest moment, by the way asked for, the rest by another. */
  const candidate = (over: number, then: number) => {
    const by = (share: number) => recordOf(HEAT_WAY_IDS, (id) => (id === way ? share : id === other ? 100 - share : 0));
    return { energy: { heatLeaves: by(over) }, moment: { leaves: by(then) } } as Pick<CandidateResult, 'energy' | 'moment'>;
  };
  const least = 100 * SLIGHT_SHARE;

  it('where less than the share leaves by it, over the run and at the hardest moment, outwards or inwards', () => {
    expect(isSlightWay(way, [candidate(0.9 * least, 0.9 * least)])).toBe(true);
    expect(isSlightWay(way, [candidate(-0.9 * least, -0.9 * least)])).toBe(true);
    expect(isSlightWay(way, [candidate(least, 0)])).toBe(false);
    expect(isSlightWay(way, [candidate(-least, 0)])).toBe(false);
    expect(isSlightWay(way, [candidate(0, 1.1 * least)])).toBe(false);
    expect(isSlightWay(way, [candidate(0, -1.1 * least)])).toBe(false);
    expect(isSlightWay(other, [candidate(0, 0)])).toBe(false);
  });

  it('of every candidate, and where nothing leaves at all', () => {
    expect(isSlightWay(way, [candidate(0, 0), candidate(50, 50)])).toBe(false);
    expect(isSlightWay(way, [candidate(50, 50), candidate(0, 0)])).toBe(false);
    const none = recordOf(HEAT_WAY_IDS, () => 0);
    const idle = { energy: { heatLeaves: none }, moment: { leaves: none } } as Pick<CandidateResult, 'energy' | 'moment'>;
    expect(isSlightWay(way, [idle])).toBe(true);
  });
});
