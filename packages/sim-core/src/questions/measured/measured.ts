/** What was measured against what is predicted: clocks laid on one another, curves and bands at the samples, residuals, what explains them. @module */
import type { ProfileStep } from '../../drive/profile.js';
import type { MeasurableId, MeasuredLog } from '../../provenance/measurables.js';
import { realise } from '../../provenance/realise.js';
import { formatNumber } from '../../quantities/index.js';
import type { Band, ClockShift, MeasuredChannel, MeasuredResult } from '../../results/measured-result.js';
import type { RunInput } from '../candidate.js';
import { band } from '../doubt/columns.js';
import type { NumberLooks } from '../doubt/costly-numbers.js';
import type { DoubtPlan } from '../doubt/plan.js';
import { watchedIn, watchedSamples } from '../doubt/sample.js';
import { simulate } from '../simulate/simulate.js';
import { type Watch, watchSystem } from '../simulate/watch.js';
import { alignClocks, type Curve, correlationAt } from './align.js';
import { explain } from './explain.js';
import { deviationOf, dot, misfitOf } from './misfit.js';
import { type ComparedColumn, type Moments, momentsOf, samplesIn } from './moments.js';

const TOLERANCE = 1e-5;
/** Points of the run by which clocks are aligned. */
const POINTS = 1500;
/** A beginning that was only assumed is called in question where another makes the correlation better by this. */
const FAR_BETTER = 0.15;
/** A log of whose rows less than this lies within the run, or which spans less of it, is said to. */
const [MOST_ROWS, MUCH_OF_RUN] = [0.5, 0.2];
/** Columns whose ups and downs tell the time, the surest first. */
const TELLING: readonly MeasurableId[] = [
  'throttle',
  'battery_current',
  'motor_current',
  'battery_power',
  'shaft_speed',
  'voltage',
  'thrust',
  'vehicle_speed',
];

/** A comparison with a log before anything is drawn. */
export interface MeasuredPlan {
  readonly input: RunInput;
  readonly profile: readonly ProfileStep[];
  readonly log: MeasuredLog;
  /** Whether somebody said whose run it was. */
  readonly named: boolean;
  readonly clock: ClockShift;
  readonly moments: Moments;
  /** Prediction with nominal data at the samples of each column. */
  readonly nominal: readonly Float64Array[];
  /** Empty at first; the costly numbers fill it by the way, so that fewer runs are needed to explain a misfit. */
  readonly looks: NumberLooks;
  /** Other candidates that may have been measured, where nobody said which. */
  readonly others: readonly RunInput[];
}

/**
 * Aligns the clocks and picks the samples. `others` are those that may have been measured in place of `input`; none where somebody said whose run it was.
 * Undefined where a log that is driven has nothing to compare, since nobody asked. Throws RangeError where the clocks cannot be aligned as was asked, or
 * have no time in common.
 */
export function planMeasured(
  input: RunInput,
  profile: readonly ProfileStep[],
  log: MeasuredLog,
  others?: readonly RunInput[],
): MeasuredPlan | undefined {
  const system = realise(input.data);
  const span = profile.reduce((sum, { duration }) => sum + duration, 0);
  const even = Float64Array.from({ length: POINTS + 1 }, (_, k) => (k * span) / POINTS);
  const look = (watch: Pick<Watch, 'ids' | 'times'>) => {
    const watched = watchSystem(system, watch);
    const { time } = simulate(system, profile, { method: 'dormand-prince', relative: TOLERANCE, record: false, watch: watched.watch });
    return { ends: time, series: watched.series() };
  };
  const telling = TELLING.filter((id) => log.columns.has(id));
  const { ends, series } = look({ ids: telling, times: even });
  const reached = even.filter((t) => t <= ends).length;
  /** A column of the log and the prediction for it. */
  const curvesOf = (id: MeasurableId): Pair | undefined => {
    const k = telling.indexOf(id);
    const values = log.columns.get(id);
    if (k < 0 || values === undefined || reached < 2) return undefined;
    const start = k * even.length;
    return { log: { time: log.time, values }, run: { time: even.subarray(0, reached), values: series.subarray(start, start + reached) } };
  };
  const clock = clockOf(log, telling, curvesOf);
  const moments = momentsOf(log, clock.begins, ends, profile, input.name);
  if (moments === undefined) {
    if (log.driven) return undefined;
    const [from, to] = [log.time[0], log.time[log.time.length - 1]].map((t) => (t - clock.begins).toFixed(1));
    throw new RangeError(
      `${log.file} and the run have no time in common: the log goes from ${from} to ${to} s of a run of ${ends.toFixed(1)} s. Say when the run begins by its clock, begins: 12 s, or have it found, align: battery_current, under measured: in the scenario.`,
    );
  }
  return {
    input,
    profile,
    log,
    named: others === undefined,
    clock,
    moments,
    nominal: samplesIn(moments, look(moments.watch).series),
    looks: { watch: moments.watch, series: new Map() },
    others: others ?? [],
  };
}

interface Pair {
  readonly log: Curve;
  readonly run: Curve;
}

function clockOf(
  { begins, file }: MeasuredLog,
  telling: readonly MeasurableId[],
  curvesOf: (id: MeasurableId) => Pair | undefined,
): ClockShift {
  if (begins.by === 'column') {
    const { column } = begins;
    const pair = curvesOf(column);
    const found = pair === undefined ? undefined : alignClocks(pair.log, pair.run);
    if (found === undefined) {
      throw new RangeError(
        `The clock of ${file} cannot be set by its column ${column}: it does not rise and fall as the run does, or not at all. Align by another column, or say when the run begins: begins: 12 s.`,
      );
    }
    return { by: 'column', column, ...found };
  }
  const { by, at } = begins;
  if (by !== 'first-row') return { by, begins: at };
  // an assumed beginning is called in question by the first column that tells anything
  for (const column of telling) {
    const pair = curvesOf(column);
    const now = pair === undefined ? Number.NaN : correlationAt(pair.log, pair.run, at);
    if (pair === undefined || now > 1 - FAR_BETTER) return { by, begins: at };
    const found = alignClocks(pair.log, pair.run);
    if (found === undefined) continue;
    const { begins: better, correlation } = found;
    return {
      by,
      begins: at,
      ...(correlation < (now || 0) + FAR_BETTER ? {} : { better: { begins: better, column, correlation, now: now || 0 } }),
    };
  }
  return { by, begins: at };
}

/** The channels; with bands where the doubt study has watched the same samples. */
export function channelsOf({ moments, nominal }: MeasuredPlan, doubt?: SampledDoubt): readonly MeasuredChannel[] {
  const draws =
    doubt === undefined
      ? []
      : Array.from({ length: watchedSamples(doubt.plan) }, (_, i) => samplesIn(moments, watchedIn(doubt.plan, doubt.rows, i)));
  return moments.columns.map((column, c) =>
    channelOf(
      column,
      moments.watch.times,
      nominal[c],
      draws.map((draw) => draw[c]),
    ),
  );
}

/** A doubt study with the rows of its samples, as `workDoubtOf` gives them [SI]. */
export interface SampledDoubt {
  readonly plan: DoubtPlan;
  readonly rows: Float64Array;
}

/** The comparison, and what explains it. */
export function compareMeasured(plan: MeasuredPlan, doubt?: SampledDoubt): Omit<MeasuredResult, 'sentences'> {
  const { input, profile, log, named, clock, moments, nominal, looks } = plan;
  const nearer = nearerOf(plan);
  const channels = channelsOf(plan, doubt);
  const all = channels.flatMap(({ time }) => [time[0], time[time.length - 1]]);
  return {
    schema: 'shaftwork.measured/1',
    file: log.file,
    rows: log.rows,
    candidate: input.name,
    named,
    ...(nearer === undefined ? {} : { nearer }),
    driven: log.driven === true,
    clock,
    from: Math.min(...all),
    to: Math.max(...all),
    taken: [
      ...log.taken,
      ...(moments.rowsWithin < MOST_ROWS || moments.spanned < MUCH_OF_RUN
        ? [
            `${percent(moments.rowsWithin)} of its rows lie within the run, and span ${percent(moments.spanned)} of it: look at the unit of its time and at where the run begins`,
          ]
        : []),
      ...(moments.nearJumps > 0
        ? [`${Math.round(100 * moments.nearJumps)} % of its samples, next to jumps of the profile, shown but not counted`]
        : []),
    ],
    channels,
    ...explain(input, profile, moments, nominal, looks),
  };
}

/** Another candidate comes much nearer to the log with this share of the squared residuals. */
const MUCH_NEARER = 0.5;

/** The candidate that comes nearest to the log, where it is another by far. */
function nearerOf({ profile, moments, nominal, others }: MeasuredPlan): MeasuredResult['nearer'] {
  const misfit = misfitOf(moments.columns, nominal);
  const squaresOf = (predicted: readonly Float64Array[]): number => {
    const residuals = misfit.residuals(predicted);
    return dot(residuals, residuals);
  };
  const own = squaresOf(nominal);
  const [best] = others
    .map(({ name, data }) => {
      const system = realise(data);
      const watched = watchSystem(system, moments.watch);
      const { end } = simulate(system, profile, {
        method: 'dormand-prince',
        relative: TOLERANCE,
        record: false,
        watch: watched.watch,
      });
      // one that ends early has no residuals where it no longer runs
      return { name, share: end === 'finished' ? squaresOf(samplesIn(moments, watched.series())) / own : Number.POSITIVE_INFINITY };
    })
    .sort((a, b) => a.share - b.share);
  return best !== undefined && best.share < MUCH_NEARER ? best : undefined;
}

const percent = (share: number): string => `${formatNumber(100 * share, { significant: 2 })} %`;

const mean = (values: ArrayLike<number>): number => {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += values[k];
  return sum / values.length;
};

/** Residuals of one column, and its bands over the `draws`. */
export function channelOf(
  column: ComparedColumn,
  times: Float64Array,
  predicted: Float64Array,
  draws: readonly Float64Array[],
): MeasuredChannel {
  const { id, at, measured, counts } = column;
  const counted = (values: Float64Array): Float64Array => values.filter((_, i) => counts[i]);
  const off = counted(measured.map((each, i) => each - predicted[i]));
  const means = draws.map((draw) => mean(counted(draw))).filter((each) => !Number.isNaN(each));
  const edges = draws.length === 0 ? undefined : Array.from(measured, (_, i): Band => bandAt(draws, i));
  return {
    id,
    time: Array.from(at, (place) => times[place]),
    measured: [...measured],
    predicted: [...predicted],
    counts,
    bias: mean(off),
    rms: Math.sqrt(mean(off.map((each) => each * each))),
    meanMeasured: mean(counted(measured)),
    meanPredicted: mean(counted(predicted)),
    deviation: deviationOf(column),
    ...(edges === undefined
      ? {}
      : {
          bands: { p05: edges.map(({ p05 }) => p05), p50: edges.map(({ p50 }) => p50), p95: edges.map(({ p95 }) => p95) },
          inside: mean(counted(Float64Array.from(edges, ({ p05, p95 }, i) => (measured[i] >= p05 && measured[i] <= p95 ? 1 : 0)))),
        }),
    ...(means.length * 2 > draws.length ? { meanBand: band(means) } : {}),
  };
}

const NO_BAND: Band = { p05: Number.NaN, p50: Number.NaN, p95: Number.NaN };

/** Over the draws that still run, at least half of them. */
function bandAt(draws: readonly Float64Array[], i: number): Band {
  const values = draws.map((draw) => draw[i]).filter((each) => !Number.isNaN(each));
  return values.length * 2 < draws.length ? NO_BAND : band(values);
}
