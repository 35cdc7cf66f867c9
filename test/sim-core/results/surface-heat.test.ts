/** Shares of the motor's heat by way: they sum to one, controller and cells left out. */
import { HEAT_WAY_IDS } from '@shaftwork/sim-core/heat/heat-ways';
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { MOTOR_WAYS, shareByWay } from '@shaftwork/sim-core/results/surface-heat';
import { expect, it } from 'vitest';

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
