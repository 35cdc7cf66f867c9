/** A profile of many laps: the reach of each lap over the whole run, and the hottest lap to be drawn large. @module */

import type { CandidateResult, RunResult, StepResult } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import { stepBrackets } from '../drawing/step-brackets.js';
import type { DrawnPoint } from '../drawing/thin-trace.js';

export interface Laps {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** The lap in which the leader's winding is hottest, counted from 1, with its steps. */
  readonly hottest: { readonly number: number; readonly from: number; readonly to: number; readonly steps: readonly StepResult[] };
}

/** More steps than this, driven over and over, are no lines to be read but a comb. */
const MOST_STEPS = 40;

/** The laps of a run whose steps are too many to be drawn one beside another; undefined where they are not. */
export function lapsOf({ scenario: { steps }, candidates, ranking }: RunResult): Laps | undefined {
  const lead = candidates.find(({ name }) => name === ranking[0]) ?? candidates[0];
  const bracket = stepBrackets(steps).find(({ count, period }) => count >= 3 && count * period > MOST_STEPS);
  if (lead === undefined || bracket === undefined) return undefined;
  const { from, to, count, period } = bracket;
  const first = steps.findIndex((step) => step.from === from);
  const hot = hottestTime(lead);
  const lap = (to - from) / count;
  const number = Math.min(count, Math.max(1, Math.ceil((hot - from) / lap - 1e-9)));
  const own = steps.slice(first + (number - 1) * period, first + number * period);
  return { from, to, count, hottest: { number, from: own[0].from, to: lastOf(own).to, steps: own } };
}

function hottestTime({ trace: { time, windingTemperature } }: CandidateResult): number {
  const place = windingTemperature.reduce((best, value, index) => (value > windingTemperature[best] ? index : best), 0);
  return time[place] ?? 0;
}

/** Lowest and highest value of each lap, at its middle. */
export function envelope(points: readonly DrawnPoint[], { from, to, count }: Laps): { x: number[]; low: number[]; high: number[] } {
  const lap = (to - from) / count;
  const x: number[] = [];
  const low: number[] = [];
  const high: number[] = [];
  for (let index = 0; index < count; index++) {
    const [start, end] = [from + index * lap, from + (index + 1) * lap];
    const own = points.filter((point) => point.x >= start && point.x <= end).map(({ y }) => y);
    if (own.length === 0) continue;
    // The first and the last reach to the ends, so that nothing is missing there.
    const places = [...(index === 0 ? [start] : []), (start + end) / 2, ...(index === count - 1 ? [end] : [])];
    for (const place of places) {
      x.push(place);
      low.push(Math.min(...own));
      high.push(Math.max(...own));
    }
  }
  return { x, low, high };
}
