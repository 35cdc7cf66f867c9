/**
 * From a thermometer's reading after the stop back to the hidden peak, with its range from the tolerances of the data.
 *
 *   (1) every sample of the data drives the profile and cools down: rise of the surface read, rise of the peak, rise of the winding then
 *   (2) x = ln(rise of the surface), y = ln(rise of the peak):  y given x_read is normal,
 *       mean = ȳ + c_xy/(c_xx + σ²)·(x_read − x̄),  variance = c_yy − c_xy²/(c_xx + σ²)
 *
 * σ — error of the reading, 2 K as 95 % (a thermocouple held to the metal: common practice, no published source).
 * *Holds for* tolerances that move the rises by less than a factor of about two; a reading within three standard deviations of what the data allow.
 * *Leaves out* what the model itself leaves out: a wrong profile, another day. *Source* conditioning of a normal pair: T.W. Anderson, An Introduction to
 * Multivariate Statistical Analysis, 3rd ed., theorem 2.5.1 (from memory).
 */
import type { DriveSystem } from '../drive/drive-system.js';
import type { ProfileStep } from '../drive/profile.js';
import { inverseNormal } from '../numerics/inverse-normal.js';
import { seededRandom } from '../numerics/seeded-random.js';
import type { Datum } from '../provenance/datum.js';
import { realise } from '../provenance/realise.js';
import { STANDARD_DEVIATIONS_95 } from '../quantities/index.js';
import type { ReadingResult } from '../results/reading-result.js';
import { coolDown } from './after-stop.js';
import { simulate } from './simulate.js';

export interface ReadingAsk {
  readonly surface: ReadingResult['surface'];
  /** [K] */
  readonly reading: number;
  /** Time from the stop to the reading [s]. */
  readonly after: number;
  readonly samples: number;
  readonly seed: number;
}

const READING_ERROR_95 = 2;

/** Throws RangeError on a reading not above the surroundings, or a time before the stop. */
export function reading(name: string, data: DriveSystem<Datum>, profile: readonly ProfileStep[], ask: ReadingAsk): ReadingResult {
  if (!(ask.after >= 0)) throw new RangeError(`A reading is taken after the stop, not ${ask.after} s from it.`);
  const nominal = realise(data);
  const ambientOf = (system: DriveSystem): number =>
    ask.surface === 'controller' || ask.surface === 'cells'
      ? system.surroundings.compartmentTemperature
      : system.surroundings.motorAirTemperature;
  const ambient = ambientOf(nominal);
  const rise = ask.reading - ambient;
  if (!(rise > 0.5))
    throw new RangeError('The reading is not above the air around it: nothing can be told from it. Check ambient.air, or read sooner.');
  const of = (system: DriveSystem) => {
    const run = simulate(system, profile, { method: 'dormand-prince', relative: 1e-5, record: false });
    if (run.end === 'failed') return undefined;
    const [row] = coolDown(system, run.state, [ask.after]);
    return { surface: row.bodies[ask.surface], peak: run.highest.windingTemperature.value, whenRead: row.bodies.winding };
  };
  const centre = of(nominal);
  if (centre === undefined) throw new RangeError('The run has no operating point to its end, so nothing can be read back from it.');
  const random = seededRandom(ask.seed, 1);
  const x: number[] = [];
  const peaks: number[] = [];
  const thens: number[] = [];
  for (let k = 0; k < ask.samples; k++) {
    const deviates = new Map<string, number>();
    const system = realise(data, (key) => {
      let z = deviates.get(key);
      if (z === undefined) {
        z = inverseNormal(Math.min(1 - 1e-6, Math.max(1e-6, random.fraction())));
        deviates.set(key, z);
      }
      return z;
    });
    const sample = of(system);
    if (sample === undefined) continue;
    const air = ambientOf(system);
    const motorAir = system.surroundings.motorAirTemperature;
    const [s, p, t] = [sample.surface - air, sample.peak - motorAir, sample.whenRead - motorAir];
    if (!(s > 0.1 && p > 0.1 && t > 0.1)) continue;
    x.push(Math.log(s));
    peaks.push(Math.log(p));
    thens.push(Math.log(t));
  }
  if (x.length < 16) throw new RangeError('Too few samples of the data run to their end to tell a range.');
  const noise = READING_ERROR_95 / STANDARD_DEVIATIONS_95 / rise;
  const meanX = mean(x);
  const varX = covariance(x, x);
  const read = Math.log(rise);
  const z = STANDARD_DEVIATIONS_95;
  const back = (y: readonly number[]) => {
    const c = covariance(x, y);
    const gain = c / (varX + noise * noise);
    const centreY = mean(y) + gain * (read - meanX);
    const sd = Math.sqrt(Math.max(0, covariance(y, y) - gain * c));
    const air = nominal.surroundings.motorAirTemperature;
    return { nominal: air + Math.exp(centreY), low: air + Math.exp(centreY - z * sd), high: air + Math.exp(centreY + z * sd) };
  };
  return {
    name,
    surface: ask.surface,
    reading: ask.reading,
    after: ask.after,
    expected: {
      nominal: centre.surface,
      low: ambient + Math.exp(meanX - z * Math.sqrt(varX)),
      high: ambient + Math.exp(meanX + z * Math.sqrt(varX)),
    },
    hiddenPeak: back(peaks),
    windingThen: back(thens),
    surprise: Math.abs(read - meanX) / Math.sqrt(varX + noise * noise),
    samples: x.length,
  };
}

const mean = (a: readonly number[]): number => a.reduce((sum, each) => sum + each, 0) / a.length;

function covariance(a: readonly number[], b: readonly number[]): number {
  const [ma, mb] = [mean(a), mean(b)];
  return a.reduce((sum, each, k) => sum + (each - ma) * (b[k] - mb), 0) / (a.length - 1);
}
