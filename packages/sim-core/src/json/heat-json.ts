/** Ratings, cooling and readings at the JSON edge: shown units, every numeric key ends in its unit. @module */

import type { Si } from '../quantities/index.js';
import { type AfterStopResult, byStopBody, type StopShown } from '../results/after-stop-result.js';
import type { CoolingProposal, CoolResult } from '../results/cool-result.js';
import type { PartThrottleResult } from '../results/part-throttle-result.js';
import type { AllowedTime, RatedPoint, Rating, RatingResult, Settled } from '../results/rating-result.js';
import type { ReadingResult } from '../results/reading-result.js';
import { each, inUnits, type Units } from './in-units.js';

const POINT: Units<RatedPoint> = {
  throttle: 'fraction',
  motorCurrent: 'current',
  batteryCurrent: 'current',
  inputPower: 'power',
  shaftPower: 'power',
  shaftSpeed: 'angularSpeed',
  motorTorque: 'torque',
  vehicleSpeed: 'speed',
  temperatures: each('temperature'),
  currentShare: 'fraction',
  powerShare: 'fraction',
};
const RATING: Units<Rating> = { point: POINT };
const SETTLED: Units<Settled> = { motorCurrent: 'current', temperatures: each('temperature'), timeToLimit: each('time') };
const ALLOWED: Units<AllowedTime> = {
  throttle: 'fraction',
  motorCurrent: 'current',
  inputPower: 'power',
  shaftPower: 'power',
  time: 'time',
};
const RATINGS: Units<RatingResult> = {
  charge: 'fraction',
  continuous: RATING,
  motorAlone: RATING,
  hardest: { vehicleSpeed: 'speed', continuous: RATING, motorAlone: RATING, fullThrottle: SETTLED },
  shortTime: { fromCold: ALLOWED, fromWarm: ALLOWED, warm: each('temperature'), longest: 'time' },
  intermittent: { cycle: 'time', duties: { duty: 'fraction', rating: RATING } },
  bursts: {
    throttle: 'fraction',
    motorCurrent: 'current',
    on: 'time',
    rest: 'time',
    limit: 'temperature',
    settled: { on: 'time', rest: 'time', peak: 'temperature' },
    leastRest: { on: 'time', rest: 'time' },
  },
  continuousTorque: { vehicleSpeed: 'speed', shaftSpeed: 'angularSpeed', torque: 'torque', current: 'current' },
  fullThrottle: SETTLED,
  stall: { motorCurrent: 'current', timeToLimit: each('time') },
  runaway: { shaftSpeed: 'angularSpeed', torque: 'torque', current: 'current' },
};

/** Its kind is told by its time: one that is left out lasts for ever. */
const withoutKind = ({ kind: _, ...allowed }: AllowedTime): Omit<AllowedTime, 'kind'> & { readonly time?: Si<'time'> } => allowed;

/** One drive's ratings as plain JSON, units in the keys. */
export const ratingJson = (rating: RatingResult): object => {
  const { fromCold, fromWarm } = rating.shortTime;
  const shortTime = { ...rating.shortTime, fromCold: fromCold.map(withoutKind), fromWarm: fromWarm.map(withoutKind) };
  return inUnits({ ...rating, shortTime }, RATINGS);
};

/** Equilibrium across the throttle as plain JSON, units in the keys. */
export const partThrottleJson = (result: PartThrottleResult): object =>
  inUnits(result, {
    charge: 'fraction',
    points: {
      throttle: 'fraction',
      vehicleSpeed: 'speed',
      shaftSpeed: 'angularSpeed',
      motorCurrent: 'current',
      batteryCurrent: 'current',
      controllerLoss: 'power',
      controllerTemperature: 'temperature',
      windingTemperature: 'temperature',
    },
    lossier: each('fraction'),
    avoid: each('fraction'),
  });

/** Every body after the stop. */
const BODIES = byStopBody('temperature' as const);
const SHOWN: Units<StopShown> = { reading: 'temperature', at60: { winding: 'temperature' } };
/** What becomes warm after the stop as plain JSON, units in the keys. */
export const afterStopJson = (result: AfterStopResult): object =>
  inUnits(result, {
    stoppedAt: 'time',
    readings: { after: 'time', ...BODIES },
    later: byStopBody({ value: 'temperature', after: 'time' } as const),
    hiddenPeak: { value: 'temperature', time: 'time' },
    thermometers: { 'on-can': SHOWN, 'beside-coils': SHOWN, 'in-slot': SHOWN },
    trace: { after: 'time', ...BODIES },
  });

/** From a thermometer back to the hidden peak as plain JSON, units in the keys. */
export const readingJson = (result: ReadingResult): object =>
  inUnits(result, {
    emissivity: 'plain',
    reading: 'temperature',
    after: 'time',
    expected: each('temperature'),
    hiddenPeak: each('temperature'),
    windingThen: each('temperature'),
    copperAt60: each('temperature'),
    surprise: 'plain',
    samples: 'plain',
  });

const PROPOSAL: Units<CoolingProposal> = { chance: 'fraction', chanceOfAll: 'fraction', peaks: each('temperature') };
/** The smallest cooling as plain JSON, units in the keys. */
export const coolJson = (result: CoolResult): object =>
  inUnits(
    { ...result, remedies: result.remedies.map(({ remedy, answer }) => ({ remedy, ...answer })) },
    { goal: 'fraction', failing: { chance: 'fraction' }, remedies: { proposal: PROPOSAL }, pairs: PROPOSAL },
  );
