/**
 * From a thermometer's reading after the stop back to the hidden peak: one reading beside those of the scenario, and what is left of
 * peak and winding in draws of all that is left of the unknowns (questions/readings/learn).
 *
 *   (1) ln of the rise of peak, of the winding when it was read, and of winding over thermometer: mean and deviation over the draws
 *
 * *Leaves out* a wrong profile, another day.
 *
 * @module
 */

import { damageTemperatures } from '../../drive/damage.js';
import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep } from '../../drive/profile.js';
import { surfaceOfInfrared, THERMOMETER_PLACES, type ThermometerPlaceId } from '../../heat/thermometer.js';
import { IntegrationFailure } from '../../numerics/integration-failure.js';
import { inverseNormal } from '../../numerics/inverse-normal.js';
import { rootOf } from '../../numerics/normal-conditioning.js';
import { mean, standardDeviation } from '../../numerics/quantiles.js';
import { seededRandom } from '../../numerics/seeded-random.js';
import type { GivenReadingRow } from '../../provenance/given.js';
import { realise, realiser } from '../../provenance/realise.js';
import type { TakenReading } from '../../provenance/taken-readings.js';
import { writtenDatum } from '../../provenance/written.js';
import { type Spread, STANDARD_DEVIATIONS_95, ZERO_CELSIUS } from '../../quantities/index.js';
import type { ReadingResult } from '../../results/reading-result.js';
import type { RunInput } from '../candidate.js';
import { modelFactor } from '../doubt/plan.js';
import { simulate } from '../simulate/simulate.js';
import { airAround } from '../simulate/thermometer-excess.js';
import { thermometerFactor, thermometerKey } from './answers.js';
import { type Lesson, learn, SURPRISING } from './learn.js';
import { THERMOMETER_READ, type ThermometerKey } from './numbers-read.js';
import { looksBefore, rimSpeedIn, thermometerAt, thermometerExcess } from './thermometer-reads.js';

/** What a thermometer showed, and when. */
export interface ReadingAsk {
  /** Where it sat. */
  readonly place: ThermometerPlaceId;
  /** Of the surface that an infrared thermometer, set to 0.95, looked at [1]; absent for one that touches. */
  readonly emissivity?: number;
  /** What it showed [K], and how far that may be off, 2 K where nothing is said. */
  readonly reading: number;
  /** How far the reading may be off. */
  readonly spread?: Spread;
  /** Time from the stop to the reading [s]. */
  readonly after: number;
  /** Number of draws, 16 or more [1]. */
  readonly samples: number;
  /** Whole number that decides the draws [1]. */
  readonly seed: number;
  /** Called before each draw, for a sign of progress. */
  readonly onDraw?: () => void;
}

const COPPER_ASKED = 60 + ZERO_CELSIUS;
const FEWEST = 16;
const STEPPER = { method: 'dormand-prince', relative: 1e-4 } as const;

const KEYS = Object.fromEntries(Object.entries(THERMOMETER_READ).map(([key, place]) => [place, key])) as Readonly<
  Record<ThermometerPlaceId, ThermometerKey>
>;

/**
 * Of candidates as written, with the readings of the scenario. Throws RangeError on a reading not above the surroundings, a time before the stop,
 * or a run that does not reach its end.
 */
export function reading(
  candidates: readonly RunInput[],
  taken: readonly TakenReading[],
  name: string,
  profile: readonly ProfileStep[],
  ask: ReadingAsk,
): ReadingResult {
  const input = candidates.find((each) => each.name === name);
  if (input === undefined) throw new RangeError(`There is no candidate named ${name}.`);
  if (!(ask.after >= 0)) throw new RangeError(`A reading is taken after the stop, not ${ask.after} s from it.`);
  const { of } = THERMOMETER_PLACES[ask.place];
  if (ask.emissivity !== undefined && (of === 'motor' || of === 'winding'))
    throw new RangeError('An infrared thermometer sees a surface: can, end, controller or cells.');
  if (ask.emissivity !== undefined && !(ask.emissivity > 0 && ask.emissivity <= 1))
    throw new RangeError('An emissivity lies above 0 and at most at 1.');
  const nominal = realise(input.data);
  const ambient = airAround(thermometerAt(ask.place, false), nominal);
  const surfaceOf = (shown: number): number => (ask.emissivity === undefined ? shown : surfaceOfInfrared(shown, ask.emissivity, ambient));
  if (!(surfaceOf(ask.reading) - ambient > 0.5))
    throw new RangeError('The reading is not above the air around it: nothing can be told from it. Check ambient.air, or read sooner.');
  const row = rowOf(ask);
  const learning = learn(candidates, [...taken, { row, candidate: name }], profile);
  if (!learning.ok) throw new RangeError('The run has no operating point to its end, so nothing can be read back from it.');
  const { lesson } = learning;
  const rows = draws(input, profile, ask, row, lesson);
  if (rows.length < FEWEST) throw new RangeError('Too few draws of the data run to their end to tell a range.');
  const air = nominal.surroundings.motorAirTemperature;
  const range = (rise: number, logs: readonly number[]) => {
    const [middle, far] = [mean(logs), STANDARD_DEVIATIONS_95 * standardDeviation(logs)];
    const at = (log: number): number => air + rise * Math.exp(log);
    return { nominal: at(middle), low: at(middle - far), high: at(middle + far) };
  };
  const line = lesson.result.lines.find((each) => each.candidate === name && each.origin === ORIGIN);
  if (line === undefined) throw new Error('The reading that was asked about is not among those learnt from.');
  // what sits on or in the motor is never hotter than the hottest that a winding survives
  const bounds = damageTemperatures(nominal.limits);
  const survivable =
    of === 'controller' ? bounds.controllerTemperature : of === 'cells' ? bounds.cellTemperature : bounds.windingTemperature;
  const surprise = Math.max(Math.abs(line.off.alone), Math.abs(line.off.amongAll));
  return {
    name,
    place: ask.place,
    ...(ask.emissivity === undefined ? {} : { emissivity: ask.emissivity }),
    reading: ask.reading,
    after: ask.after,
    expected: { nominal: line.expected.value, low: line.expected.low, high: line.expected.high },
    hiddenPeak: range(
      1,
      rows.map(({ peak }) => Math.log(peak)),
    ),
    windingThen: range(
      1,
      rows.map(({ later }) => Math.log(later)),
    ),
    copperAt60: range(
      Math.max(1e-3, surfaceOf(COPPER_ASKED) - ambient),
      rows.map(({ later, surface }) => Math.log(later / surface)),
    ),
    surprise,
    contradicts: surprise > SURPRISING || surfaceOf(ask.reading) > survivable,
    samples: rows.length,
  };
}

/** Where the reading stands: on the command line, and in no file. */
const PLACE = { file: 'command line', line: 1, column: 1, path: 'reading' };
const ORIGIN = `${PLACE.file} line ${PLACE.line}`;

function rowOf({ place, emissivity, reading: shown, spread, after }: ReadingAsk): GivenReadingRow {
  const key = KEYS[place];
  const subject = { can: 'can', end: 'end', controller: 'controller', cells: 'cells', besideCoils: 'beside_coils', inSlot: 'in_slot' }[key];
  return {
    place: PLACE,
    [key]: writtenDatum(`readings.${subject}`, 'temperature', shown, spread, PLACE),
    after: writtenDatum('readings.after', 'time', after, undefined, PLACE),
    ...(emissivity === undefined ? {} : { emissivity: writtenDatum('readings.emissivity', 'fraction', emissivity, undefined, PLACE) }),
  };
}

interface Rises {
  /** Over the air round the motor: the winding at its peak and when it was read [K]. */
  readonly peak: number;
  readonly later: number;
  /** Of the surface that the thermometer takes it for, over the air round that [K]. */
  readonly surface: number;
}

/** Draws of all that is left of the unknowns, and of what else may be off. */
function draws(
  { name, data }: RunInput,
  profile: readonly ProfileStep[],
  ask: ReadingAsk,
  row: GivenReadingRow,
  { posterior, keys }: Lesson,
): Rises[] {
  const place = thermometerAt(ask.place, ask.emissivity !== undefined);
  const systemOf = realiser(data);
  const root = rootOf(posterior, keys.length);
  const index = new Map(keys.map((key, j) => [key, j]));
  const recorded = simulate(realise(data), profile, STEPPER);
  const rimSpeed = rimSpeedIn(recorded, data.motor.canDiameter.value);
  const looks = looksBefore(place, recorded.time);
  const random = seededRandom(ask.seed, 1);
  return Array.from({ length: ask.samples }).flatMap((): Rises[] => {
    ask.onDraw?.();
    const e = keys.map(() => inverseNormal(Math.min(1 - 1e-6, Math.max(1e-6, random.fraction()))));
    const z = root.map(
      ({ mean: middle, deviation, shares }) => middle + deviation * shares.reduce((sum, share, k) => sum + share * e[k], 0),
    );
    const draw = (key: string): number => z[index.get(key) ?? -1] ?? 0;
    const system: DriveSystem = systemOf(draw);
    const run = simulate(system, profile, { ...STEPPER, record: false, keepAt: Float64Array.from(looks) });
    if (run.end === 'failed') return [];
    try {
      const kept = new Map(run.kept.map((y, k) => [looks[k], y]));
      const { excess, winding } = thermometerExcess(place, system, run, kept, rimSpeed, ask.after);
      const model = modelFactor(draw, name);
      const { motorAirTemperature: air } = system.surroundings;
      const rises = {
        peak: model * (run.highest.windingTemperature.value - air),
        later: model * (winding - air),
        surface: thermometerFactor(place, draw(thermometerKey(KEYS[ask.place], row, name))) * model * excess,
      };
      return Math.min(...Object.values(rises)) > 0.1 ? [rises] : [];
    } catch (error) {
      if (error instanceof IntegrationFailure) return [];
      throw error;
    }
  });
}
