/**
 * How sure: plan → jobs, work(job) → row, gather(rows), all pure. A job is one sample of all candidates; a row is its figures as numbers.
 * Nothing but the sample's number decides a row, so rows are the same however many workers there are.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { HEAT_LIMIT_BODY, isHeatLimit } from '../../drive/heat-limits.js';
import type { ProfileStep } from '../../drive/profile.js';
import { startTemperature } from '../../drive/start-temperature.js';
import { BODIES, type Body, type ByBody, byBody } from '../../heat/heat-paths.js';
import type { Data } from '../../provenance/datum.js';
import { realiser } from '../../provenance/realise.js';
import { BODY_CHANNEL, byTemperatureChannel, TEMPERATURE_CHANNELS } from '../../results/channels.js';
import { fallsShort, greatestLack } from '../../results/finding.js';
import { type ByLimit, byLimit, isPast, isSet, LIMIT_IDS, type LimitId } from '../../results/limits.js';
import { OBJECTIVE } from '../../results/objectives.js';
import type { RunEnd } from '../../results/run-result.js';
import type { RunInput } from '../candidate.js';
import { lastingOf, worstOf } from '../judge/limits-check.js';
import { coolDown } from '../run/after-stop.js';
import { type SimulateOptions, simulate } from '../simulate/simulate.js';
import { seriesLength, thermometerShares, watchSystem } from '../simulate/watch.js';
import { type DoubtPlan, deviatesOf, modelFactor } from './plan.js';

/** Relative tolerance of a sample's integration: peaks good to about 0.01 K, a hundredth of what the draws scatter. */
const SAMPLE_TOLERANCE = 5e-4;

/** When a reading after the stop is compared [s]. */
const READ_AT = 60;

/** Figures of one candidate in one sample, by place in its row; then the temperatures at the plan's times, body by body. */
export const ROW_FIGURES = [
  ...TEMPERATURE_CHANNELS,
  'motorCurrent',
  'batteryCurrent',
  'inputPower',
  'batteryPower',
  'thrust',
  'shaftSpeed',
  'topSpeed',
  'chargeLeft',
  'runTime',
  'timeToCutoff',
  'timeToReserve',
  'lasting',
  'mass',
  'end',
  'passed',
  'stepsLost',
  'lack',
  'canAfterStop',
] as const;
export type RowFigure = (typeof ROW_FIGURES)[number];
export const rowIndex = (figure: RowFigure): number => ROW_FIGURES.indexOf(figure);
export const rowLength = (plan: DoubtPlan): number => ROW_FIGURES.length + TEMPERATURE_CHANNELS.length * plan.times.length;

/** Samples in which what a log has measured is looked at; more tell nothing of a band and fill the memory. */
const WATCHED_SAMPLES = 256;
export const watchedSamples = ({ watch, samples }: DoubtPlan): number => (watch === undefined ? 0 : Math.min(samples, WATCHED_SAMPLES));
const watchLength = ({ watch }: DoubtPlan): number => (watch === undefined ? 0 : seriesLength(watch));
/** Where a sample begins among the rows: those of all candidates, and behind them what was watched; with the number of samples, how long they are. */
export const sampleStart = (plan: DoubtPlan, index: number): number =>
  index * plan.names.length * rowLength(plan) + Math.min(index, watchedSamples(plan)) * watchLength(plan);
/** What was watched in a sample, in the order of `watch.ids`, times within. */
export const watchedIn = (plan: DoubtPlan, rows: Float64Array, index: number): Float64Array =>
  rows.subarray(sampleStart(plan, index + 1) - watchLength(plan), sampleStart(plan, index + 1));

export const ENDS: readonly RunEnd[] = ['finished', 'cut-off', 'empty', 'burnt', 'failed'];

/** The bits that stand for `limits` in a row's `passed`: bit k is limit k of LIMIT_IDS. */
export const limitBits = (limits: readonly LimitId[]): number => limits.reduce((bits, id) => bits | (1 << LIMIT_IDS.indexOf(id)), 0);

/** The samples from … to (exclusive). */
export interface DoubtJob {
  /** Number of the first draw, from 0 [1]. */
  readonly from: number;
  /** Number after the last [1]. */
  readonly to: number;
}

/** Shares of about `size` samples. */
export function jobsOf({ samples }: DoubtPlan, size: number): DoubtJob[] {
  return Array.from({ length: Math.ceil(samples / size) }, (_, k) => ({ from: k * size, to: Math.min(samples, (k + 1) * size) }));
}

/** Rows of a job, sample by sample and candidate by candidate, one after the other. */
export function workDoubt(plan: DoubtPlan, candidates: readonly RunInput[], job: DoubtJob): Float64Array {
  const length = rowLength(plan);
  const rows = new Float64Array(sampleStart(plan, job.to) - sampleStart(plan, job.from));
  const drawing = candidates.map(({ name, data }) => ({ name, data, systemOf: realiser(data) }));
  let at = 0;
  for (let index = job.from; index < job.to; index++) {
    const deviates = deviatesOf(plan, index);
    const watching = index < watchedSamples(plan) ? plan.watch : undefined;
    const series = rows.subarray(
      at + drawing.length * length,
      at + drawing.length * length + (watching === undefined ? 0 : watchLength(plan)),
    );
    for (const { name, data, systemOf } of drawing) {
      const deviate = (key: string): number => deviates.get(key) ?? 0;
      const system = systemOf(deviate);
      const factor = modelFactor(deviate, name);
      const own = watching?.candidate === name ? watchSystem(system, watching) : undefined;
      rowOf(plan, data, system, factor, rows.subarray(at, at + length), own?.watch);
      if (own !== undefined) series.set(own.series(factor, thermometerShares(plan.seed, index)));
      at += length;
    }
    at += series.length;
  }
  return rows;
}

function rowOf(
  plan: DoubtPlan,
  data: DriveSystem<Data>,
  system: DriveSystem,
  factor: number,
  row: Float64Array,
  watch: SimulateOptions['watch'],
): void {
  const run = sampleRun(
    system,
    plan.profile,
    plan.times,
    OBJECTIVE[plan.objective].figure === 'time' || data.limits.runTime.value > 0,
    watch,
  );
  /** A rise above the start's temperature, by as much more as the model errs. */
  const withModelError = (temperature: number, body: Body): number => {
    const start = startTemperature(system.start, body);
    return start + (temperature - start) * factor;
  };
  const peaks = byBody((body) => withModelError(run.peaks[body], body));
  const passed = limitBits(
    LIMIT_IDS.filter((id) => {
      const bound = system.limits[id];
      const worst = isHeatLimit(id) ? peaks[HEAT_LIMIT_BODY[id]] : run.worst[id];
      return isSet(id, bound) && (isPast(id, worst, bound) || (id === 'cellVoltage' && run.end === 'cut-off'));
    }),
  );
  const figures: Record<RowFigure, number> = {
    ...byTemperatureChannel((body) => peaks[body]),
    motorCurrent: run.worst.motorCurrent,
    batteryCurrent: run.worst.batteryCurrent,
    inputPower: run.worst.inputPower,
    batteryPower: run.worst.batteryPower,
    thrust: run.thrust,
    shaftSpeed: run.worst.shaftSpeed,
    topSpeed: run.topSpeed,
    chargeLeft: run.charge,
    runTime: run.time,
    timeToCutoff: run.timeToCutoff,
    timeToReserve: run.timeToReserve,
    lasting: run.lasting,
    mass: system.motor.mass,
    end: ENDS.indexOf(run.end),
    passed,
    stepsLost: run.stepsLost,
    lack: run.lack,
    canAfterStop: withModelError(run.canAfterStop, 'can'),
  };
  ROW_FIGURES.forEach((figure, k) => {
    row[k] = figures[figure];
  });
  const times = plan.times.length;
  BODIES.forEach((body, k) => {
    for (let i = 0; i < times; i++) row[ROW_FIGURES.length + k * times + i] = withModelError(run.temperatures[body][i], body);
  });
}

interface SampleRun {
  readonly end: RunEnd;
  readonly time: number;
  /** Steps that are not held. */
  readonly stepsLost: number;
  /** Share that the worst of them lacks of what it asks for [1]. */
  readonly lack: number;
  /** Highest temperature of each body [K]. */
  readonly peaks: ByBody;
  /** The worst value of what each limit watches; NaN where it was not asked for. */
  readonly worst: ByLimit;
  readonly thrust: number;
  readonly topSpeed: number;
  readonly charge: number;
  /** When the profile is driven again and again; NaN where not asked for or not reached. */
  readonly timeToCutoff: number;
  readonly timeToReserve: number;
  /** Until either, or as far as it was followed; NaN where not asked for. */
  readonly lasting: number;
  /** Can a minute after the stop [K]; NaN where the run failed. */
  readonly canAfterStop: number;
  /** At the plan's times, body by body; NaN after the end of the run. */
  readonly temperatures: ByBody<readonly number[]>;
}

/** One run of many: peaks of temperatures and of what limits need, and the temperatures at the given times. */
function sampleRun(
  system: DriveSystem,
  profile: readonly ProfileStep[],
  times: readonly number[],
  again: boolean,
  watch: SimulateOptions['watch'],
): SampleRun {
  const options = { method: 'dormand-prince', relative: SAMPLE_TOLERANCE, record: false } as const;
  const run = simulate(system, profile, { ...options, keepAt: Float64Array.from(times), ...(watch === undefined ? {} : { watch }) });
  const { highest, kernel, kept } = run;
  const long = again ? simulate(system, profile, { ...options, again: true }) : undefined;
  const lasting = long === undefined ? Number.NaN : lastingOf(long, system.limits.reserve);
  return {
    end: run.end,
    time: run.time,
    stepsLost: run.lost.filter(fallsShort).length,
    lack: greatestLack(run.lost),
    peaks: byBody((body) => highest[BODY_CHANNEL[body]].value),
    worst: byLimit((id) => worstOf(id, run, lasting).value),
    thrust: highest.thrust.value,
    topSpeed: highest.vehicleSpeed.value,
    charge: run.state[kernel.at.charge],
    timeToCutoff: long === undefined || long.end === 'finished' ? Number.NaN : long.time,
    timeToReserve: (system.limits.reserve > 0 ? long?.passed.get('reserve') : undefined) ?? Number.NaN,
    lasting,
    canAfterStop:
      run.end === 'failed' ? Number.NaN : (coolDown(system, run.state, [READ_AT], SAMPLE_TOLERANCE)?.[0].bodies.can ?? Number.NaN),
    temperatures: byBody((body) => times.map((_, i) => kept[i]?.[kernel.at[body]] ?? Number.NaN)),
  };
}
