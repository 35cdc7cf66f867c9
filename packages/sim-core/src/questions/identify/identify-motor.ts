/**
 * A motor's constants from its bench: fitted, judged by what a sheet would be worth, written as part files.
 *
 * A number is told where the log knows it better than a sheet or a rule would (provenance/written.ts, provenance/rules); else it is refused, with what it
 * cannot be parted from and the run that would tell it most (motor-runs.ts). Intervals: to first order, or by profile where they are wide.
 * *Source* motor-model.ts, numerics/least-squares.ts.
 * @module
 */
import type { Fit } from '../../numerics/least-squares.js';
import { profileInterval } from '../../numerics/profile-interval.js';
import type { Dimension } from '../../quantities/index.js';
import type { FittedPoint, FoundNumber, IdentifyResult, NotTold, ReadingFit } from '../../results/identify-result.js';
import { type BenchRows, type Kept, steadyRows } from './bench-rows.js';
import { fittedMotor } from './fitted-motor.js';
import { type BenchSetup, type MotorModel, motorModel, READINGS, type Reading } from './motor-model.js';
import { type Derived, derivedNumbers, namedValues, type Path } from './motor-numbers.js';
import { type RunWorth, worthOfRuns } from './motor-runs.js';
import { type Starts, startsOf } from './motor-starts.js';
import { motorParts } from './part-text.js';
import { patternAlong } from './pattern.js';

/** Intervals wider than this share are looked at by profile, where there are not too many rows. */
const WIDE = 0.2;
const PROFILE_ROWS = 1200;
const TOGETHER = 0.8;
const STEP = 1e-3;

/** Slope of ln of a derived number in z. */
export function slopeOf(derived: Derived, model: MotorModel, z: readonly number[]): number[] {
  const at = (moved: readonly number[]): number => Math.log(derived.value(namedValues(model, moved)));
  return z.map((_, j) => {
    const [above, below] = [[...z], [...z]];
    above[j] += STEP;
    below[j] -= STEP;
    return (at(above) - at(below)) / (2 * STEP);
  });
}
export const variance = (covariance: readonly (readonly number[])[], g: readonly number[]): number =>
  g.reduce((sum, a, i) => sum + a * g.reduce((inner, b, j) => inner + b * covariance[i][j], 0), 0);

export interface MotorAsk {
  readonly rows: BenchRows;
  readonly setup: BenchSetup;
  readonly sources: readonly string[];
  /** Sentences of whoever read the log. */
  readonly taken: readonly string[];
  readonly path: Path;
}

export interface FittedBench {
  readonly kept: Kept;
  readonly rows: BenchRows;
  readonly starts: Starts;
  readonly model: MotorModel;
  readonly fit: Fit;
  readonly derived: readonly Derived[];
}

/** The fit of a bench and the numbers that follow from it. Throws RangeError where too few rows tell anything. */
export function fittedBench({ rows: given, setup, path }: Pick<MotorAsk, 'rows' | 'setup' | 'path'>): FittedBench {
  const kept = steadyRows(given);
  const { rows } = kept;
  if (rows.time.length < 3)
    throw new RangeError(`Only ${rows.time.length} rows stand still with volts, amps and speed; at least three are needed.`);
  const starts = startsOf(rows);
  const model = motorModel(rows, setup, starts);
  const fit = fittedMotor(model);
  return { kept, rows, starts, model, fit, derived: derivedNumbers(rows, model, fit, path) };
}

/** Throws RangeError where too few rows tell anything. */
export const identifyMotor = (ask: MotorAsk): IdentifyResult => motorFound(ask, fittedBench(ask));

/** What a fit of the bench tells. */
export function motorFound({ setup, sources, taken, rows: given }: MotorAsk, bench: FittedBench): IdentifyResult {
  const { kept, rows, starts, model, fit, derived } = bench;
  const worth = worthOfRuns(rows, setup, model, fit, starts);
  const found = derived.map((each) => foundNumber(each, model, fit, worth));
  const told = derived.filter((_, k) => found[k].told);
  return {
    kind: 'motor',
    sources,
    taken: [...taken, ...keptWords(kept, given, setup)],
    rows: rows.time.length,
    numbers: found,
    fits: fitsOf(rows, model, fit),
    along: { words: 'speed of the motor’s shaft', dimension: 'angularSpeed' },
    together: pairs(told, model, fit),
    unknowns: model.unknowns,
    singular: fit.singular,
    rank: fit.rank,
    settled: fit.settled,
    parts: motorParts({ numbers: found, rows, setup, sources }),
  };
}

function foundNumber(derived: Derived, model: MotorModel, fit: Fit, worth: readonly RunWorth[]): FoundNumber {
  const { key, words, dimension, of, at, profile, beside = 0, usual } = derived;
  const value = derived.value(namedValues(model, fit.deviates));
  const g = slopeOf(derived, model, fit.deviates);
  const half = (covariance: readonly (readonly number[])[]): number =>
    fit.quantile * Math.hypot(Math.sqrt(Math.max(0, variance(covariance, g))), beside);
  const straight = half(fit.covariance);
  let [low, high] = [value * Math.exp(-straight), value * Math.exp(straight)];
  const j = model.list.findIndex((each) => each.key === profile);
  if (j >= 0 && Math.expm1(straight) > WIDE && model.count <= PROFILE_ROWS && Math.expm1(straight) < 5) {
    const ends = profileInterval(model, fit, j).map((z) => {
      const moved = [...fit.deviates];
      moved[j] = z;
      return derived.value(namedValues(model, moved));
    });
    [low, high] = [Math.min(...ends), Math.max(...ends)];
  }
  const share = Math.max(high / value, value / low) - 1;
  const told = share <= usual;
  const number = {
    key,
    words,
    ...(of === undefined ? {} : { of }),
    ...(at === undefined ? {} : { at }),
    dimension,
    value,
    low,
    high,
    told,
  };
  return told ? number : { ...number, instead: whyNot(g, model, fit, worth, usual, half) };
}

function whyNot(
  g: readonly number[],
  model: MotorModel,
  fit: Fit,
  worth: readonly RunWorth[],
  usual: number,
  half: (covariance: readonly (readonly number[])[]) => number,
): NotTold {
  const own = Math.sqrt(variance(fit.covariance, g));
  const main = g.reduce(
    (best, each, j) =>
      Math.abs(each) * Math.sqrt(fit.covariance[j][j]) > Math.abs(g[best]) * Math.sqrt(fit.covariance[best][best]) ? j : best,
    0,
  );
  let from: NotTold['from'];
  model.list.forEach(({ words }, j) => {
    if (j === main || own === 0) return;
    const along = g.reduce((sum, each, a) => sum + each * fit.covariance[a][j], 0);
    const correlation = along / (own * Math.sqrt(fit.covariance[j][j]));
    if (Math.abs(correlation) > Math.abs(from?.correlation ?? ALIKE)) from = { words, correlation };
  });
  const best = worth.map(({ words, covariance }) => ({ words, left: Math.expm1(half(covariance)) })).sort((a, b) => a.left - b.left)[0];
  return {
    usual,
    ...(from === undefined ? {} : { from }),
    ...(best !== undefined && best.left < WORTH_IT * Math.expm1(half(fit.covariance)) ? { run: best } : {}),
  };
}
/** A correlation below this parts two numbers well enough; a run that leaves more than this share of the interval is not worth naming. */
const ALIKE = 0.6;
const WORTH_IT = 0.7;

const named = ({ words, of }: Derived): string => (of === undefined ? words : `${words} of ${of}`);

function pairs(told: readonly Derived[], model: MotorModel, fit: Fit): IdentifyResult['together'] {
  const slopes = told.map((each) => slopeOf(each, model, fit.deviates));
  const sds = slopes.map((g) => Math.sqrt(variance(fit.covariance, g)));
  return told.flatMap((a, i) =>
    told.slice(i + 1).flatMap((b, k) => {
      const j = i + 1 + k;
      const mixed = slopes[i].reduce((sum, x, m) => sum + x * slopes[j].reduce((inner, y, n) => inner + y * fit.covariance[m][n], 0), 0);
      const correlation = mixed / (sds[i] * sds[j]);
      // the same thing twice is no news
      const same = a.key === b.key || (a.dimension === 'resistance' && b.dimension === 'resistance');
      return Math.abs(correlation) > TOGETHER && !same ? [{ a: named(a), b: named(b), correlation }] : [];
    }),
  );
}

const READING_WORDS: Readonly<Record<Reading, readonly [words: string, dimension: Dimension]>> = {
  voltage: ['duty times supply voltage', 'voltage'],
  current: ['current from the supply', 'current'],
  motorCurrent: ['motor current', 'current'],
  torque: ['torque', 'torque'],
  thrust: ['thrust', 'force'],
};

function fitsOf(rows: BenchRows, model: MotorModel, fit: Fit): ReadingFit[] {
  const compared = model.compared(fit.deviates);
  const speed = rows.read.speed ?? new Float64Array();
  return (Object.keys(READING_WORDS) as Reading[]).flatMap((key) => {
    const points = compared.flatMap(({ reading, row, read, law }, i): (FittedPoint & { readonly i: number })[] => {
      if (reading !== key) return [];
      const p = rows.propeller[row];
      return [{ along: speed[row], read, law, group: p < 0 ? 'bare shaft' : rows.propellers[p], weight: fit.weights[i], i }];
    });
    if (points.length === 0) return [];
    const [words, dimension] = READING_WORDS[key];
    return [
      {
        key,
        words,
        dimension,
        count: points.length,
        left: Math.sqrt(points.reduce((sum, { read, law }) => sum + (read - law) ** 2, 0) / points.length),
        outliers: points.filter(({ weight }) => weight < 0.5).length,
        pattern: patternAlong(
          points.map(({ along, group, i }) => ({ along, group, left: fit.residuals[i] * fit.weights[i] })),
          fit.scales[READINGS.indexOf(key)],
        ),
        alongWords: 'the speed',
        points: points.map(({ i: _, ...point }) => point),
      },
    ];
  });
}

function keptWords(kept: ReturnType<typeof steadyRows>, given: BenchRows, setup: BenchSetup): string[] {
  const said: string[] = [];
  const count = given.time.length;
  if (kept.idle > 0) said.push(`${kept.idle} of ${count} rows left out: nothing turns there, or volts, amps or speed are missing`);
  if (kept.moving > 0) said.push(`${kept.moving} of ${count} rows left out: speed or throttle move there`);
  if (kept.together > 1) said.push(`${kept.together} neighbouring rows put together into one`);
  const unknown = Array.from(kept.rows.duty).filter(Number.isNaN).length;
  if (unknown > 0) said.push(`the duty is not known in ${unknown} of ${kept.rows.time.length} rows: they tell power, not voltage`);
  if (Array.from(kept.rows.winding).some(Number.isNaN))
    said.push('the winding’s temperature is not in the log: one temperature is taken for all rows');
  if (setup.sinusoidal) said.push('a sinusoidal drive, as said');
  return said;
}
