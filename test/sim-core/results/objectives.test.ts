import { OBJECTIVES } from '@shaftwork/sim-core/provenance/given';
import { OBJECTIVE, objectiveFigures, objectiveOf } from '@shaftwork/sim-core/results/objectives';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';

const worse = { winding: 400, time: 100, topSpeed: 3, mass: 0.5 };
const better = { winding: 350, time: 200, topSpeed: 4, mass: 0.4 };

describe('the list of objectives', () => {
  it('has a row for every name of the schema, in its order', () => {
    expect(Object.keys(OBJECTIVE)).toEqual([...OBJECTIVES]);
  });

  it.each(OBJECTIVES)('%s: ranks by its own figure and no other, the better one first', (objective) => {
    expect(objectiveOf(better, objective)).toBeLessThan(objectiveOf(worse, objective));
    const { figure } = OBJECTIVE[objective];
    expect(objectiveOf({ ...better, [figure]: worse[figure] }, objective)).toBe(objectiveOf(worse, objective));
    expect(objectiveOf({ ...worse, [figure]: better[figure] }, objective)).toBe(objectiveOf(better, objective));
  });

  it('no two are read from one figure', () => {
    expect(new Set(OBJECTIVES.map((objective) => OBJECTIVE[objective].figure)).size).toBe(OBJECTIVES.length);
  });
});

describe('the figures of a run', () => {
  const figures = (times: Record<string, number>, more: Pick<CandidateResult, 'outlasts'> = {}) =>
    objectiveFigures({
      ...more,
      headline: {
        peakWindingTemperature: { dimension: 'temperature', nominal: 350 },
        topSpeed: { dimension: 'speed', nominal: 4 },
        ...Object.fromEntries(Object.entries(times).map(([key, nominal]) => [key, { dimension: 'time', nominal }])),
      } as CandidateResult['headline'],
      facts: { mass: 0.2 } as CandidateResult['facts'],
    });
  it('are its peak, its top speed, its mass, and how long it lasts: to the reserve, to the cut-off, or as far as it was followed', () => {
    expect(figures({ runTime: 60 })).toEqual({ winding: 350, topSpeed: 4, mass: 0.2, time: 60 });
    expect(figures({ runTime: 60, timeToCutoff: 900 }).time).toBe(900);
    expect(figures({ runTime: 60, timeToCutoff: 900, timeToReserve: 700 }).time).toBe(700);
    // what nothing ends within a day lasts longer than what ends after an hour, not as long as one run
    expect(figures({ runTime: 60 }, { outlasts: 86_400 }).time).toBe(86_400);
  });
});
