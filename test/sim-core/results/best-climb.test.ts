/** The greatest climb rate of a run. */
import { bestClimb } from '@shaftwork/sim-core/results/best-climb';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { expect, it } from 'vitest';

const of = (climbRate: readonly number[], carriedBy: CandidateResult['facts']['carriedBy'] = 'wing') =>
  bestClimb({ trace: { climbRate } as CandidateResult['trace'], facts: { carriedBy } });

it('is the greatest there was', () => expect(of([-1, 0.4, 3.2, 2.9])).toBe(3.2));
it('is none of a car, whose slope sets it', () => expect(of([0.4, 3.2], 'wheels')).toBeUndefined());
it('is none for what never climbs', () => {
  expect([of([]), of([0, 0]), of([-2, -0.1])]).toEqual([undefined, undefined, undefined]);
});
