/**
 * The headline figures of a run, each once: words, dimension, unit and digits. The results' type, JSON keys, tables, history and lists follow from it; a
 * figure without a row here does not compile, nor does a row that a run does not fill.
 *
 * @module
 */

import type { Term } from '../problems/index.js';
import type { Dimension, UnitOf } from '../quantities/index.js';
import { CHANNELS, type ChannelId } from './channels.js';

interface HeadlineFacts<D extends Dimension> {
  readonly words: Term;
  readonly dimension: D;
  /** Unit people see, and digits after the point. */
  readonly unit: UnitOf<D>;
  readonly decimals: number;
}

/** Words and the channel whose unit and digits the figure has. */
const of = <C extends ChannelId>(words: Term, id: C): HeadlineFacts<(typeof CHANNELS)[C]['dimension']> => {
  const { dimension, shown: unit, decimals } = CHANNELS[id];
  return { words, dimension, unit, decimals } as HeadlineFacts<(typeof CHANNELS)[C]['dimension']>;
};
const seconds = (words: Term): HeadlineFacts<'time'> => ({ words, dimension: 'time', unit: 's', decimals: 0 });
const figure = <D extends Dimension>(facts: HeadlineFacts<D>): HeadlineFacts<D> => facts;

/** The figures that stand for a run, with words and unit. */
export const HEADLINES = {
  peakWindingTemperature: of('peak of the winding', 'windingTemperature'),
  peakCanTemperature: of('peak of the can', 'canTemperature'),
  peakMagnetTemperature: of('peak of the magnets', 'magnetTemperature'),
  peakControllerTemperature: of('peak of the controller', 'controllerTemperature'),
  peakCellTemperature: of('peak of the cells', 'cellTemperature'),
  peakMotorCurrent: of('peak motor current', 'motorCurrent'),
  peakBatteryCurrent: of('peak battery current', 'batteryCurrent'),
  peakInputPower: of('peak input power', 'inputPower'),
  peakBatteryPower: of('peak battery power', 'batteryPower'),
  peakThrust: of('peak thrust', 'thrust'),
  topShaftSpeed: of('top motor speed', 'shaftSpeed'),
  topSpeed: of('top speed', 'vehicleSpeed'),
  chargeLeft: of('charge left', 'charge'),
  energy: figure({ words: 'energy taken', dimension: 'energy', unit: 'W·h', decimals: 1 }),
  /** Time the profile really ran [s]. */
  runTime: seconds('run time'),
  /** Time until the cut-off and until the reserve when the profile is driven again and again. */
  timeToCutoff: seconds('until the cut-off'),
  timeToReserve: seconds('driven again and again until the reserve'),
  /** Useful work over energy out of the cells. */
  driveEfficiency: figure({ words: 'energy of the cells that became useful', dimension: 'fraction', unit: '%', decimals: 1 }),
} as const;

/** One of `HEADLINES`. */
export type HeadlineId = keyof typeof HEADLINES;
/** Keys of `HEADLINES`, in their order. */
export const HEADLINE_IDS = Object.keys(HEADLINES) as readonly HeadlineId[];
/** The dimension of a headline figure. */
export type HeadlineDimension<K extends HeadlineId> = (typeof HEADLINES)[K]['dimension'];
/** Figures that are absent where nothing is reached as far as the run is followed. */
export type MaybeHeadline = 'timeToCutoff' | 'timeToReserve';
