/**
 * Moves the unknowns of a model as little as a measured run asks for: least squares over the run, each unknown's deviate counting beside it.
 *
 *   (1) minimise Σ ((model − probe)/σ)² + Σ z²,  σ = 0.5 K
 *
 * so that what comes out are deviates in units of the stated tolerance: beyond ±1.96 a rule was off by more than it admits.
 * *Source* D. W. Marquardt, J. SIAM 11, 1963, by the package ml-levenberg-marquardt; z² is the logarithm of the normal prior.
 */
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import type { MeasuredRun, Model } from './heat-run.js';

const SIGMA = 0.5;

export interface Fit {
  readonly deviates: readonly number[];
  readonly reading: Float64Array;
}

/** Least of (1) from `start`; the least of several starts is the fit. */
function fitFrom(run: Pick<MeasuredRun, 'probe'>, { unknowns, predict }: Model, start: readonly number[], iterations: number): Fit {
  const { probe } = run;
  const samples = probe.length;
  const x = Array.from({ length: samples + unknowns.length }, (_, k) => k);
  const y = x.map((k) => (k < samples ? probe[k] / SIGMA : 0));
  const { parameterValues } = levenbergMarquardt(
    { x, y },
    (deviates: number[]) => {
      const reading = predict(deviates);
      return (k: number) => (k < samples ? reading[k] / SIGMA : deviates[k - samples]);
    },
    {
      initialValues: [...start],
      damping: 1e-2,
      gradientDifference: 1e-3,
      centralDifference: true,
      maxIterations: iterations,
      errorTolerance: 1e-10,
    },
  );
  return { deviates: parameterValues, reading: predict(parameterValues) };
}

/** (1) at `deviates`. */
function misfit({ probe }: Pick<MeasuredRun, 'probe'>, { predict }: Model, deviates: readonly number[]): number {
  const reading = predict(deviates);
  const sum =
    probe.reduce((total, value, k) => total + ((reading[k] - value) / SIGMA) ** 2, 0) + deviates.reduce((total, z) => total + z * z, 0);
  return Number.isNaN(sum) ? Number.POSITIVE_INFINITY : sum;
}

/** The fit: from nominal and from the best few of `draws` within the stated tolerances, since (1) has more than one valley. */
export function fitHeat(run: Pick<MeasuredRun, 'probe'>, model: Model, draws: readonly (readonly number[])[], iterations = 40): Fit {
  const best = draws.map((draw) => ({ draw, by: misfit(run, model, draw) })).sort((a, b) => a.by - b.by);
  const starts = [model.unknowns.map(() => 0), ...best.slice(0, 3).map(({ draw }) => draw)];
  const fits = starts.map((start) => fitFrom(run, model, start, iterations));
  return fits.reduce((a, b) => (misfit(run, model, a.deviates) <= misfit(run, model, b.deviates) ? a : b));
}

/** Root of the mean square [K] of a − b over samples from … to. */
export function rms(a: ArrayLike<number>, b: ArrayLike<number>, from: number, to: number): number {
  let sum = 0;
  for (let k = from; k < to; k++) sum += (a[k] - b[k]) ** 2;
  return Math.sqrt(sum / (to - from));
}
