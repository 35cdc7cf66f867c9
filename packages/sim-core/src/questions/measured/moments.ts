/** Which samples of a log are compared with a run: each column's own, evenly thinned; next to a jump of what is driven they are shown, but do not count. @module */
import type { ProfileStep } from '../../drive/profile.js';
import { MEASURABLE_IDS, type MeasurableId, type MeasuredLog, measurableOf } from '../../provenance/measurables.js';
import { seriesLength, type Watch } from '../simulate/watch.js';

/** Samples of a column that are compared at most: more say nothing more, and each is solved in every draw. */
const MOST_MOMENTS = 400;
/** Clocks are not trusted to less than this about a jump [s], nor to less than two rows. */
const NEAR = 0.5;
const ROWS_NEAR = 2;
/** Nor is more than this share of a step left out at one end. */
const MOST_OF_STEP = 0.25;
/** Looks at the run before the first sample, for thermometers that are late. */
const LOOKS_BEFORE = 64;

/** Samples of one column: where they stand among the times that are watched, what was measured, and which count: those next to a jump are only shown. */
export interface ComparedColumn {
  readonly id: MeasurableId;
  readonly at: Int32Array;
  /** What the log says at each moment [SI]. */
  readonly measured: Float64Array;
  readonly counts: readonly boolean[];
}

/** The moments that are compared. */
export interface Moments {
  readonly watch: Watch;
  readonly columns: readonly ComparedColumn[];
  /** Share of the samples that lie next to a jump and do not count [1]. */
  readonly nearJumps: number;
  /** Share of the log's rows that lie within the run [1]. */
  readonly rowsWithin: number;
  /** Share of the run from the first to the last sample [1]. */
  readonly spanned: number;
}

/** `begins` is the log's time at the start of the run, `ends` the run's own end [s]. Undefined where the log and the run have no time in common. */
export function momentsOf(
  log: MeasuredLog,
  begins: number,
  ends: number,
  profile: readonly ProfileStep[],
  candidate: string,
): Moments | undefined {
  const time = log.time.map((t) => t - begins);
  const spacing = (time[time.length - 1] - time[0]) / Math.max(1, time.length - 1);
  const jumps = log.driven ? [] : jumpsOf(profile, Math.max(NEAR, ROWS_NEAR * spacing));
  const near = (t: number): boolean => jumps.some(({ from, to }) => t > from && t < to);
  const picked = MEASURABLE_IDS.flatMap((id): { readonly id: MeasurableId; readonly rows: readonly number[] }[] => {
    const values = log.columns.get(id);
    if (values === undefined) return [];
    const inside: number[] = [];
    for (let k = 0; k < time.length; k++) {
      if (!Number.isNaN(values[k]) && time[k] >= 0 && time[k] <= ends) inside.push(k);
    }
    const stride = Math.max(1, inside.length / MOST_MOMENTS);
    const rows = Array.from({ length: Math.min(inside.length, MOST_MOMENTS) }, (_, k) => inside[Math.floor(k * stride)]);
    return rows.length === 0 ? [] : [{ id, rows }];
  });
  if (picked.length === 0) return undefined;
  const first = Math.min(...picked.map(({ rows }) => time[rows[0]]));
  const late = picked.some(({ id }) => measurableOf(id).place !== undefined);
  const before = late ? Array.from({ length: LOOKS_BEFORE }, (_, k) => (k * first) / LOOKS_BEFORE) : [];
  const times = Float64Array.from(new Set([...before, ...picked.flatMap(({ rows }) => rows.map((row) => time[row]))])).sort();
  const last = Math.max(...picked.map(({ rows }) => time[rows[rows.length - 1]]));
  const place = new Map([...times].map((t, k) => [t, k]));
  const columns = picked.map(({ id, rows }): ComparedColumn => {
    const values = log.columns.get(id);
    return {
      id,
      at: Int32Array.from(rows, (row) => place.get(time[row]) ?? 0),
      measured: Float64Array.from(rows, (row) => values?.[row] ?? Number.NaN),
      // so few samples that all lie next to a jump are better than none
      counts: rows.every((row) => near(time[row])) ? rows.map(() => true) : rows.map((row) => !near(time[row])),
    };
  });
  const counts = columns.flatMap((column) => column.counts);
  return {
    watch: { candidate, ids: picked.map(({ id }) => id), times },
    columns,
    nearJumps: counts.filter((each) => !each).length / counts.length,
    rowsWithin: time.filter((t) => t >= 0 && t <= ends).length / time.length,
    spanned: (last - first) / ends,
  };
}

/** Stretches about the start and the places where what a step holds jumps, or what is held changes. */
function jumpsOf(profile: readonly ProfileStep[], reach: number): readonly { readonly from: number; readonly to: number }[] {
  const jumps: { from: number; to: number }[] = [];
  let time = 0;
  let before: ProfileStep | undefined;
  for (const step of profile) {
    if (before === undefined) jumps.push({ from: -1, to: Math.min(reach, MOST_OF_STEP * step.duration) });
    const jump =
      before !== undefined &&
      (before.hold !== step.hold || before.value.to !== step.value.from || before.vehicleSpeed?.to !== step.vehicleSpeed?.from);
    if (before !== undefined && jump)
      jumps.push({
        from: time - Math.min(reach, MOST_OF_STEP * before.duration),
        to: time + Math.min(reach, MOST_OF_STEP * step.duration),
      });
    time += step.duration;
    before = step;
  }
  return jumps;
}

/** A watched series as the samples of each column. */
export function samplesIn({ watch, columns }: Moments, series: Float64Array): readonly Float64Array[] {
  if (series.length !== seriesLength(watch)) throw new RangeError('The series is not one of this watch.');
  const count = watch.times.length;
  return columns.map(({ at }, k) => Float64Array.from(at, (place) => series[k * count + place]));
}
