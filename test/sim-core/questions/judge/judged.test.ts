/** A result gets the verdict of its ranking, the best first, whatever the order in which its candidates stand. */
import { judged } from '@shaftwork/sim-core/questions/judge/judged';
import type { Oddity } from '@shaftwork/sim-core/results/audit-result';
import type { CandidateResult, RunResult } from '@shaftwork/sim-core/results/run-result';
import { verdictOf } from '@shaftwork/sim-core/words/verdict';
import { expect, it } from 'vitest';
import { limitResult } from '../../words/limit-result.js';

const candidate = (name: string, mass: number, feasible = true, more: Partial<CandidateResult> = {}): CandidateResult =>
  ({
    name,
    feasible,
    limits: [limitResult({ id: 'motorCurrent', worst: feasible ? 20 : 40, ...(feasible ? {} : { passed: { at: 3 } }) })],
    end: 'finished',
    headline: {
      peakWindingTemperature: { dimension: 'temperature', nominal: 350 },
      topSpeed: { dimension: 'speed', nominal: 5 },
      runTime: { dimension: 'time', nominal: 60 },
    },
    facts: { fits: true, mass, canLength: 0.05, canDiameter: 0.04 },
    findings: [],
    ...more,
  }) as CandidateResult;
const [hot, heavy, light] = [candidate('Hot', 0.1, false), candidate('Heavy', 0.3), candidate('Light', 0.2)];
const resultOf = (more: Partial<RunResult> = {}) =>
  ({
    scenario: { objective: 'lightest', duration: 60 },
    candidates: [hot, heavy, light],
    ranking: ['Light', 'Heavy', 'Hot'],
    ...more,
  }) as RunResult;
const result = resultOf();

it('two of three are as good as the first', () => {
  const { verdict, ...others } = judged(result);
  expect(others).toEqual(result);
  expect(verdict).toEqual(verdictOf([light, heavy, hot], 'lightest', 2, result));
  expect(verdict[0]).toContain('Light');
});

it('of those that all fail says what sets the first before the next, and what is odd of its sheet', () => {
  const early = candidate('Early', 0.05, false, { headline: { ...hot.headline, runTime: { dimension: 'time', nominal: 30 } } });
  const oddity: Oddity = {
    kind: 'rated-power-over-product',
    candidates: ['Hot'],
    weight: 'contradiction',
    says: 'It gives more than it takes.',
    means: 'a misprint',
    settles: 'a bench',
    basis: 'physics',
    value: 2,
    bound: 1,
    unit: '1',
  };
  const audit = { candidates: [], frames: [], oddities: [oddity] };
  const told = resultOf({ candidates: [early, hot], ranking: ['Hot', 'Early'], audit });
  const { verdict } = judged(told);
  expect(verdict).toEqual(verdictOf([hot, early], 'lightest', 1, { ...told, nearestBy: 'driven' }));
  expect(verdict.join(' ')).toContain('It gives more than it takes.');
});
