/** The result of the question by a thermometer’s reading. @module */

import type { ThermometerPlaceId } from '../heat/thermometer.js';
import type { Si } from '../quantities/index.js';

/** From a thermometer's reading after the stop back to the hidden peak, with its range from the tolerances of the data. SI. */
export interface ReadingResult {
  readonly name: string;
  /** Where the thermometer sat; an infrared one, told the emissivity of the surface, looked at what that place is on. */
  readonly place: ThermometerPlaceId;
  /** Of the surface, where an infrared thermometer looked at it [1]. */
  readonly emissivity?: number;
  /** What was read, and how long after the stop [K, s]. */
  readonly reading: Si<'temperature'>;
  /** Time from the stop to the reading [s]. */
  readonly after: Si<'time'>;
  /** What the model expects there, nominally and as its 95 % interval before the reading is known [K]. */
  readonly expected: { readonly nominal: Si<'temperature'>; readonly low: Si<'temperature'>; readonly high: Si<'temperature'> };
  /** Highest winding temperature of the run, given the reading [K]. */
  readonly hiddenPeak: { readonly nominal: Si<'temperature'>; readonly low: Si<'temperature'>; readonly high: Si<'temperature'> };
  /** Winding temperature when the reading was taken, given the reading [K]. */
  readonly windingThen: { readonly nominal: Si<'temperature'>; readonly low: Si<'temperature'>; readonly high: Si<'temperature'> };
  /** What the copper has when this thermometer, so long after the stop, reads 60 °C [K]. */
  readonly copperAt60: { readonly nominal: Si<'temperature'>; readonly low: Si<'temperature'>; readonly high: Si<'temperature'> };
  /** How many standard deviations the reading lies from what the data allow [1]. */
  readonly surprise: number;
  /** Whether that is further than the tolerances explain: peak and winding then mean nothing. */
  readonly contradicts: boolean;
  /** Number of draws [1]. */
  readonly samples: number;
}
