/** Samples of all channels at even times and on both sides of every break, and the states behind them. @module */

import type { Kernel } from '../../kernel/kernel.js';
import type { StepView } from '../../numerics/ode-system.js';
import { recordOf } from '../../problems/record-of.js';
import { CHANNEL_IDS } from '../../results/channels.js';
import type { Trace } from '../../results/run-result.js';
import { observeInto } from './observe.js';

const SAMPLES = 1200;

export interface TraceRecorder {
  /** Keeps (t, y); the same time twice where the way of driving changes there. */
  sample(t: number, y: Float64Array): void;
  follow(step: StepView): void;
  readonly trace: Trace;
  /** The state of each sample, in the kernel's order. */
  readonly states: readonly Float64Array[];
}

/** Records a run of `span` seconds; `seen` is shown every state that is kept. */
export function traceRecorder(kernel: Kernel, span: number, seen: (t: number, y: Float64Array) => void): TraceRecorder {
  const spacing = span / SAMPLES;
  const row = new Float64Array(CHANNEL_IDS.length);
  const state = new Float64Array(kernel.dimension);
  const time: number[] = [];
  const columns = CHANNEL_IDS.map((): number[] => []);
  const states: Float64Array[] = [];
  let next = spacing;
  const sample = (t: number, y: Float64Array): void => {
    seen(t, y);
    observeInto(kernel, t, y, row);
    time.push(t);
    columns.forEach((column, k) => {
      column.push(row[k]);
    });
    const kept = y.slice();
    // a speed that follows the balance stands still among the states
    if (kernel.at.shaft >= 0) kept[kernel.at.shaft] = kernel.point.speed;
    states.push(kept);
  };
  return {
    sample,
    follow(step) {
      // ends of steps are breaks, or else the beginnings of others
      for (; next < step.to; next += spacing) {
        if (next <= time[time.length - 1]) continue;
        step.at(next, state);
        sample(next, state);
      }
    },
    trace: { time, ...recordOf(CHANNEL_IDS, (_, k) => columns[k]) },
    states,
  };
}
