/** Steps as a result tells them, a log as one, and findings of its pieces told once. */

import type { GivenScenario } from '@shaftwork/sim-core/provenance/given';
import { asOneStep } from '@shaftwork/sim-core/questions/run/as-one-step';
import { stepsOf } from '@shaftwork/sim-core/questions/run/steps-shown';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { expect, it } from 'vitest';
import { preparedOf } from '../../provenance/drives.js';

const blank = { name: 'A' } as CandidateResult;
const { scenario } = preparedOf({
  profile: [
    { for: '10 s', throttle: '70 %', label: 'out' },
    { repeat: 2, steps: [{ for: '5 s', thrust: '3 N' }] },
  ],
});

it('each step has its time, its hold and its name', () => {
  expect(stepsOf(scenario)).toEqual([
    { from: 0, to: 10, hold: 'throttle', label: 'out' },
    { from: 10, to: 15, hold: 'thrust' },
    { from: 15, to: 20, hold: 'thrust' },
  ]);
});

it('a log is one step, named as it says, else by its file', () => {
  const log = { file: 'run.csv', rows: 9, pieces: 3, from: 0, to: 20, deviations: [], taken: [] };
  const of = (profile: GivenScenario['profile']) => stepsOf({ ...scenario, profile, log });
  expect(of(scenario.profile)).toEqual([{ from: 0, to: 20, hold: 'throttle', label: 'out' }]);
  expect(of(scenario.profile.slice(1))).toEqual([{ from: 0, to: 10, hold: 'thrust', label: 'run.csv' }]);
});

it('findings of a log’s pieces are told once a kind, others as they are', () => {
  const stalled = (step: number) => ({ candidate: 'A', kind: 'motor-stalled', step }) as const;
  const limit = { candidate: 'A', kind: 'limit-passed', limit: 'motorCurrent', value: 3, bound: 2 } as const;
  const spun = { candidate: 'A', kind: 'wheels-spin', step: 4, bound: 3 } as const;
  const findings = [stalled(3), limit, stalled(5), spun, limit];
  expect(asOneStep({ ...blank, findings }).findings).toEqual([stalled(0), limit, { ...spun, step: 0 }, limit]);
});
