/** Which runs a bench day is made of, and what it says of them: models made up, worked out by hand. */
import { deviationAfter, pickedRuns, planOf } from '@shaftwork/sim-core/questions/identify/bench-plan';
import type { BenchRun } from '@shaftwork/sim-core/questions/identify/plan-runs';
import type { Outcome } from '@shaftwork/sim-core/questions/judge/outcome';
import { describe, expect, it } from 'vitest';
import { OUTRUNNER } from './heat-bench.js';

const { system } = OUTRUNNER;

describe('a day planned', () => {
  const words = ['a', 'b'];
  const run = (k: number): BenchRun => ({ words: `run ${k}`, duration: 10 * k, read: () => [], winding: () => 300 + k });
  const made = (gradient: readonly number[], jacobians: readonly (readonly (readonly number[])[])[], names = words) => ({
    words: names,
    gradient,
    runs: jacobians.map((_, k) => run(k)),
    jacobians,
    sweep: [[2, 0]],
    readings: () => [],
    nominal: {} as Outcome,
    system,
    limit: { words: 'winding', margin: 0.3 },
  });
  /** Of two unknowns: each read alone, the second twice as well, and their sum. */
  const two = made([3, 4], [[[1, 0]], [[0, 2]], [[1, 1]]]);

  it('takes the run that leaves least of the decision, again and again', () => {
    expect(deviationAfter([3, 4], [])).toBe(5);
    // by hand: (J^T J + 1)^-1 of two unknowns
    expect(deviationAfter([3, 4], [[1, 1]])).toBeCloseTo(Math.sqrt(26 / 3), 12);
    expect(pickedRuns(two, 3)).toEqual([2, 2, 1]);
  });

  it('says what each run leaves and what it narrows', () => {
    const day = planOf('boat', two, 3);
    const near = (x: number) => expect.closeTo(x, 12);
    expect(day).toEqual({
      candidate: 'boat',
      decides: 'winding',
      margin: 0.3,
      deviation: 5,
      runs: [
        {
          words: 'run 2',
          left: near(Math.sqrt(26 / 3) / 5),
          narrows: [
            { words: 'b', left: near(Math.sqrt(2 / 3)) },
            { words: 'a', left: near(Math.sqrt(2 / 3)) },
          ],
          winding: 302,
          duration: 20,
        },
        {
          words: 'run 2',
          left: near(Math.sqrt(5.4) / 5),
          narrows: [
            { words: 'b', left: near(Math.sqrt(0.6)) },
            { words: 'a', left: near(Math.sqrt(0.6)) },
          ],
          winding: 302,
          duration: 20,
        },
        {
          words: 'run 1',
          left: near(Math.sqrt(63 / 17) / 5),
          narrows: [
            { words: 'b', left: near(Math.sqrt(3 / 17)) },
            { words: 'a', left: near(Math.sqrt(7 / 17)) },
          ],
          winding: 301,
          duration: 10,
        },
      ],
      // the sweep reads the first alone: 9/5 + 16
      better: near(Math.sqrt((17.8 * 17) / 63)),
      limit: system.limits.windingTemperature,
    });
  });

  it('names what has more than a tenth of a run’s gain, three at most', () => {
    const names = (gradient: readonly number[]) => {
      const each = gradient.map((_, k) => gradient.map((__, j) => (j === k ? 1 : 0)));
      const { runs } = planOf('boat', { ...made(gradient, [each], [...'abcde'].slice(0, gradient.length)), sweep: [] }, 1);
      return runs[0].narrows.map((one) => one.words).join('');
    };
    expect([names([1, 2, 3, 4, 0.5]), names([3, 1]), names([3, 1.01]), names([2, 2.1, 2.3, 2.2])]).toEqual(['dcb', 'a', 'ab', 'cdb']);
  });
});
