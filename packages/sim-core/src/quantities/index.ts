/** The only room that knows units: SI inside, people's units at the edge. @module */

export {
  DRY_AIR_GAS_CONSTANT,
  ROOM_TEMPERATURE,
  RPM,
  SECONDS_PER_HOUR,
  SECONDS_PER_MINUTE,
  STANDARD_GRAVITY,
  STEFAN_BOLTZMANN,
  ZERO_CELSIUS,
} from './constants.js';
export { asPrinted, fromUnit, printedDifference, showIn, toUnit } from './convert.js';
export type { PlainNumbers, Quantities } from './family.js';
export { formatClock } from './format-clock.js';
export {
  formatNumber,
  formatQuantity,
  handyUnit,
  massText,
  NARROW_SPACE,
  type NumberFormat,
  type QuantityFormat,
  unitSign,
  usualUnit,
} from './format-quantity.js';
export { editDistance } from './nearest-unit.js';
export type { ReadFailure, ReadFailureKind } from './read-failure.js';
export { readNumber } from './read-number.js';
export { expectation, noSuchValue, type Quantity, type QuantityReading, readQuantity } from './read-quantity.js';
export { type RangeReading, readRange } from './read-range.js';
export type { Measure, MeasureOf, Si } from './si.js';
export {
  deviationOf,
  drawn,
  halfWidth95,
  interval95,
  logNormal95,
  NO_SPREAD,
  normal95,
  ofDeviation,
  type Spread,
  STANDARD_DEVIATIONS_95,
  shifted,
  together,
} from './spread.js';
export { type Dimension, UNITS, type UnitOf } from './units.js';
export { areaOfGauge, gaugeOfArea } from './wire-gauge.js';
