/**
 * What looks at every step that the integrator accepts: peaks, energies, curves, and the states that are kept or watched.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { Kernel } from '../../kernel/kernel.js';
import type { StepView } from '../../numerics/ode-system.js';
import type { ChannelId } from '../../results/channels.js';
import type { EnergyAccount, Trace } from '../../results/run-result.js';
import { energyMeter, type PackMeter, packMeter } from './energy-account.js';
import { extremesWatch, type Peak } from './extremes-watch.js';
import { traceRecorder } from './trace-recorder.js';

/** Curves of a run: all channels and the state behind each sample, and where the energy went. */
export interface Recording {
  readonly trace: Trace;
  readonly states: readonly Float64Array[];
  readonly energy: EnergyAccount;
}

/** Is shown the states at `times` [s], rising, while the kernel drives them, so that they can be solved there. */
export interface StateWatch {
  readonly times: Float64Array;
  readonly see: (index: number, kernel: Kernel, y: Float64Array) => void;
}

export interface StepSight {
  /** The state in which a step of the profile begins. */
  begin(time: number, y: Float64Array): void;
  /** A step to its end; false, and nothing of it seen, where its accounts stay open: it is to be taken again, shorter. */
  step(step: StepView): boolean;
  /** Both sides of a place where the way of driving changes. */
  mark(time: number, y: Float64Array): void;
  /** The speed is set by the profile, or stays what it was [m/s]. */
  jump(before: number, after: number): void;
  /** States at `keepAt`, as many as were reached. */
  readonly kept: readonly Float64Array[];
  readonly drawn: PackMeter | undefined;
  highest(): Readonly<Record<ChannelId, Peak>>;
  lowest(): Readonly<Record<ChannelId, Peak>>;
  /** Farthest beyond the propeller's table while driving, in advance ratio [1]. */
  outsideTable(): number;
  /** What was recorded up to `time` and the state there; undefined where nothing was to be. */
  recording(time: number, initial: Float64Array, y: Float64Array): Recording | undefined;
}

/** Looks over a run of `span` seconds; everything is recorded, or peaks alone are noted. */
export function stepSight(
  kernel: Kernel,
  system: DriveSystem,
  look: {
    readonly record: boolean;
    /** Relative, of the integration [1]. */
    readonly tolerance: number;
    readonly span: number;
    readonly keepAt: Float64Array | undefined;
    readonly watch: StateWatch | undefined;
  },
): StepSight {
  const { at, dimension } = kernel;
  const extremes = extremesWatch(kernel);
  const drawn = Number.isFinite(system.limits.batteryEnergy) ? packMeter(kernel, system) : undefined;
  const record = look.record
    ? { energies: energyMeter(kernel, system, look.tolerance), recorder: traceRecorder(kernel, look.span, extremes.note) }
    : undefined;
  const kept: Float64Array[] = [];

  /** Shows the states at `times` one by one as the run passes them. */
  const passing = (times: Float64Array, see: (index: number, row: Float64Array) => void) => {
    let next = 0;
    return (step: Pick<StepView, 'to' | 'at'>): void => {
      for (; next < times.length && times[next] <= step.to; next++) {
        const row = new Float64Array(dimension);
        step.at(times[next], row);
        if (at.shaft >= 0) {
          kernel.solve(times[next], row);
          row[at.shaft] = kernel.point.speed;
        }
        see(next, row);
      }
    };
  };
  const { keepAt, watch } = look;
  const keepers = [
    ...(keepAt === undefined ? [] : [passing(keepAt, (_, row) => kept.push(row))]),
    ...(watch === undefined ? [] : [passing(watch.times, (index, row) => watch.see(index, kernel, row))]),
  ];
  const keep = (step: Pick<StepView, 'to' | 'at'>): void => {
    for (const keeper of keepers) keeper(step);
  };
  const mark = (time: number, y: Float64Array): void => {
    if (record === undefined) extremes.note(time, y);
    else record.recorder.sample(time, y);
  };

  return {
    begin: (time, y) => keep({ to: time, at: (_, into) => into.set(y) }),
    step(step) {
      if (record !== undefined && !record.energies.add(step)) return false;
      extremes.note(step.to, step.end);
      keep(step);
      extremes.refine(step);
      drawn?.add(step);
      if (record === undefined) return true;
      extremes.search(step);
      record.recorder.follow(step);
      return true;
    },
    mark,
    jump: (before, after) => record?.energies.jump(before, after),
    kept,
    drawn,
    highest: extremes.highest,
    lowest: extremes.lowest,
    outsideTable: extremes.outsideTable,
    recording(time, initial, y) {
      if (record === undefined) return undefined;
      const { trace, states } = record.recorder;
      if (trace.time[trace.time.length - 1] < time) mark(time, y);
      return { trace, states, energy: record.energies.account(initial, y) };
    },
  };
}
