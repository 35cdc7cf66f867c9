/**
 * The bench day: of the runs that a bench allows, the six that tell most of what is to be decided, one after another.
 *
 *   (1) D(z) = what is left of the least sure limit; g = ∂D/∂z over the unknowns of the candidate, z their deviates
 *   (2) a run reads h(z) with scatter; its information is JᵀJ, J = ∂h/∂z over the scatter; gains of the instruments are unknowns beside
 *   (3) the next run is the one after which gᵀ·(information + 1)⁻¹·g is least
 *
 * *Holds for* unknowns that move D and the readings about in a straight line; D once a deviation off is what (1) takes.
 * *Source* optimum design for one linear combination (c-optimality), A. C. Atkinson & A. N. Donev, Optimum Experimental Designs, 1992, ch. 10 (from memory).
 * @module
 */
import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep } from '../../drive/profile.js';
import type { ThermometerPlaceId } from '../../heat/thermometer.js';
import { informationOf, posterior, type Rows } from '../../numerics/information.js';
import type { Objective } from '../../provenance/given.js';
import { realiser } from '../../provenance/realise.js';
import { unknownsOf } from '../../provenance/unknowns.js';
import { STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { BenchPlan, PlannedRun } from '../../results/plan-result.js';
import type { RunInput } from '../candidate.js';
import { type Outcome, outcomeOf } from '../judge/outcome.js';
import { INSTRUMENTS, type InstrumentId, scatterOf } from './instruments.js';
import { type BenchRun, benchRuns, type Reading, sweepRuns } from './plan-runs.js';

/** What a bench day is planned from. */
export interface PlanAsk {
  /** Where the thermometer sits. */
  readonly thermometer?: ThermometerPlaceId;
  /** How many runs. [1] */
  readonly runs?: number;
}

const RUNS = 6;
/** Step of the derivatives, in deviations: nearly the secant over what is likely. */
const STEP = 0.7;
/** A number is named where it has this part of a run's gain, three at most [1]. */
const NAMED = 0.1;
const MOST_NAMED = 3;
/** A run has this many rows: holding still for half a minute. */
const ROWS = 8;

export interface PlanModel {
  readonly words: readonly string[];
  /** ∂D/∂z, instruments' gains last (0). */
  readonly gradient: readonly number[];
  readonly runs: readonly BenchRun[];
  /** Jacobian of each run over the scatter. */
  readonly jacobians: readonly Rows[];
  readonly sweep: Rows;
  /** Readings of a run [SI] at deviates of the unknowns. */
  readonly readings: (run: BenchRun, z: ArrayLike<number>) => readonly Reading[];
  readonly nominal: Outcome;
  readonly system: DriveSystem;
  readonly limit: { readonly words: string; readonly margin: number };
}

const GAINS = Object.keys(INSTRUMENTS) as InstrumentId[];

/** Derivatives of decision and readings; throws RangeError where the candidate has no limit to decide. */
export function planModel(
  { name, given, data }: RunInput,
  profile: readonly ProfileStep[],
  objective: Objective,
  thermometer: ThermometerPlaceId,
): PlanModel {
  const systemOf = realiser(data);
  const entries = unknownsOf([{ name, data }]);
  const nominal = outcomeOf({ given, data }, profile, objective);
  if (nominal.limits.length === 0) throw new RangeError(`${name} has no limit to decide: write limits, such as winding: 120 °C.`);
  const moved = entries.map(({ key }) => outcomeOf({ given, data }, profile, objective, (asked) => (asked === key ? STEP : 0)));
  const marginOf = ({ limits }: Outcome, id: string): number => limits.find((each) => each.id === id)?.marginShare ?? Number.NaN;
  // least sure: the smallest margin over its own standard deviation
  const judged = nominal.limits.map(({ id, words, marginShare }) => {
    const gradient = moved.map((outcome) => {
      const slope = (marginOf(outcome, id) - marginShare) / STEP;
      return Number.isFinite(slope) ? slope : 0;
    });
    const deviation = Math.hypot(...gradient);
    return { words, margin: marginShare, gradient, unsure: deviation === 0 ? Number.POSITIVE_INFINITY : Math.abs(marginShare) / deviation };
  });
  const limit = judged.reduce((a, b) => (b.unsure < a.unsure ? b : a));
  const system = systemOf();
  const runs = benchRuns(system, thermometer);
  const keys = new Map(entries.map(({ key }, k) => [key, k]));
  const readings = (run: BenchRun, z: ArrayLike<number>): readonly Reading[] => run.read(systemOf((key) => z[keys.get(key) ?? -1] ?? 0));
  const zero = new Float64Array(entries.length);
  const jacobianOf = (run: BenchRun): number[][] => {
    const base = readings(run, zero);
    const columns = entries.map((_, k) => {
      const z = zero.slice();
      z[k] = STEP;
      return readings(run, z).map(({ value }, i) => (value - base[i].value) / STEP);
    });
    return base.map(({ value, instrument, scatter }, i) => {
      const noise =
        (scatter ?? (instrument === undefined ? 1 : scatterOf(INSTRUMENTS[instrument], value))) /
        Math.sqrt(scatter === undefined ? ROWS : 1);
      return [
        ...columns.map((column) => (Number.isFinite(column[i]) ? column[i] / noise : 0)),
        ...GAINS.map((id) => (id === instrument ? (value * INSTRUMENTS[id].gain) / STANDARD_DEVIATIONS_95 / noise : 0)),
      ];
    });
  };
  return {
    words: entries.map(({ words }) => words),
    gradient: [...limit.gradient, ...GAINS.map(() => 0)],
    runs,
    jacobians: runs.map(jacobianOf),
    sweep: sweepRuns(system, thermometer).flatMap(jacobianOf),
    readings,
    nominal,
    system,
    limit: { words: limit.words, margin: limit.margin },
  };
}

/** Standard deviation of g·z with the information of all `rows`. */
export const deviationAfter = (gradient: readonly number[], rows: Rows): number => {
  const covariance = covarianceAfter(gradient.length, rows);
  return Math.sqrt(gradient.reduce((sum, a, i) => sum + a * gradient.reduce((inner, b, j) => inner + b * covariance[i][j], 0), 0));
};
export const covarianceAfter = (size: number, rows: Rows): number[][] =>
  posterior(informationOf(rows, new Float64Array(rows.length).fill(1), size));

/** Numbers of the runs that (3) picks, in order. A run may come again, for its scatter. */
export function pickedRuns({ gradient, jacobians }: Pick<PlanModel, 'gradient' | 'jacobians'>, count: number): number[] {
  const picked: number[] = [];
  let rows: readonly (readonly number[])[] = [];
  while (picked.length < count) {
    const best = jacobians.map((more, k) => ({ k, left: deviationAfter(gradient, [...rows, ...more]) })).sort((a, b) => a.left - b.left)[0];
    picked.push(best.k);
    rows = [...rows, ...jacobians[best.k]];
  }
  return picked;
}

/** The plan of a candidate's bench day. Throws RangeError where it has no limit to decide. */
export function benchPlan(
  input: RunInput,
  profile: readonly ProfileStep[],
  objective: Objective,
  { thermometer = 'in-slot', runs = RUNS }: PlanAsk = {},
): BenchPlan {
  return planOf(input.name, planModel(input, profile, objective, thermometer), runs);
}

/** The day of so many runs that a model tells. */
export function planOf(candidate: string, model: PlanModel, count: number): BenchPlan {
  const { gradient, jacobians, words, limit, system } = model;
  const before = deviationAfter(gradient, []);
  let rows: readonly (readonly number[])[] = [];
  let known = covarianceAfter(gradient.length, rows);
  const planned = pickedRuns(model, count).map((k): PlannedRun => {
    rows = [...rows, ...jacobians[k]];
    const after = covarianceAfter(gradient.length, rows);
    const gains = words.map((each, j) => ({
      words: each,
      gain: gradient[j] ** 2 * (known[j][j] - after[j][j]),
      left: Math.sqrt(after[j][j]),
    }));
    const all = gains.reduce((sum, { gain }) => sum + Math.max(0, gain), 0);
    known = after;
    const { words: doing, duration, winding } = model.runs[k];
    return {
      words: doing,
      left: deviationAfter(gradient, rows) / before,
      narrows: gains
        .filter(({ gain }) => gain > NAMED * all)
        .sort((a, b) => b.gain - a.gain)
        .slice(0, MOST_NAMED)
        .map(({ words: each, left }) => ({ words: each, left })),
      winding: winding(system),
      duration,
    };
  });
  return {
    candidate,
    decides: limit.words,
    margin: limit.margin,
    deviation: before,
    runs: planned,
    better: deviationAfter(gradient, model.sweep) / deviationAfter(gradient, rows),
    limit: system.limits.windingTemperature,
  };
}
