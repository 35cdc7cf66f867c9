/**
 * From a thermometer's reading after the stop back to the hidden peak, with its range from the tolerances of the data.
 *
 *   (1) every sample of the data drives the profile and cools down: rise of the thermometer, rise of the peak, rise of the winding then
 *   (2) x = ln(rise of the thermometer), y = ln(rise of the peak):  y given x_read is normal,
 *       mean = ȳ + c_xy/(c_xx + σ²)·(x_read − x̄),  variance = c_yy − c_xy²/(c_xx + σ²)
 *
 * The thermometer takes its share of what it is meant for, late: heat/thermometer.ts. σ — error of the reading, 2 K as 95 % (common practice, no published
 * source), and the spread of that share.
 * *Holds for* tolerances that move the rises by less than a factor of about two; a reading within three standard deviations of what the data allow.
 * *Leaves out* what the model itself leaves out: a wrong profile, another day. *Source* conditioning of a normal pair: T.W. Anderson, An Introduction to
 * Multivariate Statistical Analysis, 3rd ed., theorem 2.5.1 (from memory).
 *
 * @module
 */

import type { DriveSystem } from '../drive/drive-system.js';
import type { ProfileStep } from '../drive/profile.js';
import {
  followThermometer,
  infraredReading,
  surfaceOfInfrared,
  THERMOMETER_PLACES,
  type ThermometerPlace,
  type ThermometerPlaceId,
  thermometerSource,
} from '../heat/thermometer.js';
import { inverseNormal } from '../numerics/inverse-normal.js';
import { seededRandom } from '../numerics/seeded-random.js';
import type { Datum } from '../provenance/datum.js';
import { realise } from '../provenance/realise.js';
import { STANDARD_DEVIATIONS_95, ZERO_CELSIUS } from '../quantities/index.js';
import type { ReadingResult } from '../results/reading-result.js';
import { coolDown } from './run/after-stop.js';
import { recordingOf, simulate } from './simulate/simulate.js';
import { stopBodies } from './simulate/stop-bodies.js';

export interface ReadingAsk {
  readonly place: ThermometerPlaceId;
  /** Of the surface that an infrared thermometer, set to 0.95, looked at [1]; absent for one that touches. */
  readonly emissivity?: number;
  /** What it showed [K]. */
  readonly reading: number;
  /** Time from the stop to the reading [s]. */
  readonly after: number;
  readonly samples: number;
  readonly seed: number;
}

const READING_ERROR_95 = 2;
/** A known emissivity is known to this factor, as 95 %; common practice, no published source. */
const EMISSIVITY_FACTOR = 1.2;
const COPPER_ASKED = 60 + ZERO_CELSIUS;
/** Lags looked back from the stop, and looks per lag. */
const LAGS = 5;
const LOOKS = 5;

/** Throws RangeError on a reading not above the surroundings, or a time before the stop. */
export function reading(name: string, data: DriveSystem<Datum>, profile: readonly ProfileStep[], ask: ReadingAsk): ReadingResult {
  if (!(ask.after >= 0)) throw new RangeError(`A reading is taken after the stop, not ${ask.after} s from it.`);
  const touching: ThermometerPlace = THERMOMETER_PLACES[ask.place];
  if (ask.emissivity !== undefined && (touching.of === 'motor' || touching.of === 'winding'))
    throw new RangeError('An infrared thermometer sees a surface: can, end, controller or cells.');
  if (ask.emissivity !== undefined && !(ask.emissivity > 0 && ask.emissivity <= 1))
    throw new RangeError('An emissivity lies above 0 and at most at 1.');
  // one that looks takes no share and is not late, but errs with the emissivity
  const place: ThermometerPlace = ask.emissivity === undefined ? touching : { ...touching, share: 1, factor: EMISSIVITY_FACTOR, lag: 0.1 };
  const nominal = realise(data);
  const ambientOf = (system: DriveSystem): number =>
    place.of === 'controller' || place.of === 'cells'
      ? system.surroundings.compartmentTemperature
      : system.surroundings.motorAirTemperature;
  const ambient = ambientOf(nominal);
  const surfaceOf = (shown: number): number => (ask.emissivity === undefined ? shown : surfaceOfInfrared(shown, ask.emissivity, ambient));
  const shownOf = (surface: number): number => (ask.emissivity === undefined ? surface : infraredReading(surface, ask.emissivity, ambient));
  const rise = surfaceOf(ask.reading) - ambient;
  if (!(rise > 0.5))
    throw new RangeError('The reading is not above the air around it: nothing can be told from it. Check ambient.air, or read sooner.');
  const recorded = simulate(nominal, profile, { method: 'dormand-prince', relative: 1e-5 });
  const spacing = place.lag / LOOKS;
  const back = Array.from({ length: LAGS * LOOKS }, (_, k) => recorded.time - (LAGS * LOOKS - k) * spacing).filter((t) => t > 0);
  const later = Array.from({ length: Math.min(LAGS * LOOKS, Math.ceil(ask.after / spacing)) }, (_, k) => ask.after - k * spacing)
    .filter((t) => t > 0)
    .reverse();
  // the nominal run says how fast the rim turned; a stream is a detail of the share
  const { time, shaftSpeed } = recordingOf(recorded).trace;
  const rimSpeed = (t: number): number => 0.5 * nominal.motor.canDiameter * (shaftSpeed[time.findIndex((each) => each >= t)] ?? 0);
  const of = (system: DriveSystem) => {
    const run = simulate(system, profile, { method: 'dormand-prince', relative: 1e-5, record: false, keepAt: Float64Array.from(back) });
    if (run.end === 'failed') return undefined;
    const air = ambientOf(system);
    const excess = (bodies: ReturnType<typeof stopBodies>): number => thermometerSource(place, system.heat.capacity, bodies) - air;
    const stopped = coolDown(system, run.state, [0, ...later]);
    const moments = [
      ...run.kept.map((y, k) => ({ t: back[k], excess: excess(stopBodies(system, run.kernel.at, y)), speed: rimSpeed(back[k]) })),
      ...stopped.map(({ after, bodies }) => ({ t: run.time + after, excess: excess(bodies), speed: after === 0 ? rimSpeed(run.time) : 0 })),
    ];
    const theta = followThermometer(place, moments)[moments.length - 1];
    return { shown: air + theta, peak: run.highest.windingTemperature.value, whenRead: stopped[stopped.length - 1].bodies.winding };
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
    const [s, p, t] = [sample.shown - air, sample.peak - motorAir, sample.whenRead - motorAir];
    if (!(s > 0.1 && p > 0.1 && t > 0.1)) continue;
    x.push(Math.log(s));
    peaks.push(Math.log(p));
    thens.push(Math.log(t));
  }
  if (x.length < 16) throw new RangeError('Too few samples of the data run to their end to tell a range.');
  const noise = Math.hypot(READING_ERROR_95 / rise, Math.log(place.factor)) / STANDARD_DEVIATIONS_95;
  const meanX = mean(x);
  const varX = covariance(x, x);
  const read = Math.log(rise);
  const z = STANDARD_DEVIATIONS_95;
  const range = (centreY: number, sd: number) => {
    const air = nominal.surroundings.motorAirTemperature;
    return { nominal: air + Math.exp(centreY), low: air + Math.exp(centreY - z * sd), high: air + Math.exp(centreY + z * sd) };
  };
  const readBack = (y: readonly number[]) => {
    const c = covariance(x, y);
    const gain = c / (varX + noise * noise);
    const centreY = mean(y) + gain * (read - meanX);
    return range(centreY, Math.sqrt(Math.max(0, covariance(y, y) - gain * c)));
  };
  const over = thens.map((then, k) => then - x[k]);
  return {
    name,
    place: ask.place,
    ...(ask.emissivity === undefined ? {} : { emissivity: ask.emissivity }),
    reading: ask.reading,
    after: ask.after,
    expected: {
      nominal: shownOf(centre.shown),
      low: shownOf(ambient + Math.exp(meanX - z * Math.hypot(Math.sqrt(varX), noise))),
      high: shownOf(ambient + Math.exp(meanX + z * Math.hypot(Math.sqrt(varX), noise))),
    },
    hiddenPeak: readBack(peaks),
    windingThen: readBack(thens),
    copperAt60: range(
      Math.log(Math.max(1e-3, surfaceOf(COPPER_ASKED) - ambient)) + mean(over),
      Math.hypot(Math.sqrt(covariance(over, over)), Math.log(place.factor) / z),
    ),
    surprise: Math.abs(read - meanX) / Math.sqrt(varX + noise * noise),
    samples: x.length,
  };
}

const mean = (a: readonly number[]): number => a.reduce((sum, each) => sum + each, 0) / a.length;

function covariance(a: readonly number[], b: readonly number[]): number {
  const [ma, mb] = [mean(a), mean(b)];
  return a.reduce((sum, each, k) => sum + (each - ma) * (b[k] - mb), 0) / (a.length - 1);
}
