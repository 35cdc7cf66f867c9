/** What a thermometer will read after the stop, beside what it cannot reach. Temperatures [K], times after the stop [s]. @module */

import type { ThermometerPlaceId } from '../heat/thermometer.js';
import type { Si } from '../quantities/index.js';

/** The surfaces within reach, and the hidden bodies. */
export const STOP_BODIES = ['can', 'end', 'controller', 'cells', 'winding', 'stator', 'magnets'] as const;
/** One of `STOP_BODIES`. */
export type StopBody = (typeof STOP_BODIES)[number];
/** One value for each of them. */
export const byStopBody = <T>(value: T): { readonly [K in StopBody]: T } =>
  Object.fromEntries(STOP_BODIES.map((body) => [body, value])) as { readonly [K in StopBody]: T };
/** Of these a thermometer reaches the first four. */
export const REACHABLE: readonly StopBody[] = ['can', 'end', 'controller', 'cells'];

/** Temperatures [K] at a time after the stop. */
export type StopReading = { readonly after: Si<'time'> } & { readonly [K in StopBody]: Si<'temperature'> };

/** Thermometers that people put into or on a motor. */
export const STOP_THERMOMETERS = ['on-can', 'beside-coils', 'in-slot'] as const satisfies readonly ThermometerPlaceId[];

/** One of `STOP_THERMOMETERS`. */
export type StopThermometer = (typeof STOP_THERMOMETERS)[number];

/** What one shows [K] at the times of `trace`, and what the winding has, a minute after the stop, where it shows 60 °C; absent where it shows nothing. */
export interface StopShown {
  readonly reading: readonly Si<'temperature'>[];
  readonly at60?: { readonly winding: Si<'temperature'> };
}

/** How warm everything becomes after the stop. */
export interface AfterStopResult {
  /** Time of the run at which everything is switched off and stands still [s]. */
  readonly stoppedAt: Si<'time'>;
  /** Readings at 0, 30, 60, 120 and 300 s. */
  readonly readings: readonly StopReading[];
  /** Highest value of each after the stop [K], and when [s]; a surface that goes on warming has its peak later than 0 s. */
  readonly later: { readonly [K in StopBody]: { readonly value: Si<'temperature'>; readonly after: Si<'time'> } };
  /** Highest winding temperature of the whole run and after [K], with its time from the start of the run [s]. */
  readonly hiddenPeak: { readonly value: Si<'temperature'>; readonly time: Si<'time'> };
  readonly thermometers: { readonly [K in StopThermometer]: StopShown };
  /** For a chart: the same bodies [K] over ten minutes [s]. */
  readonly trace: { readonly after: readonly Si<'time'>[] } & { readonly [K in StopBody]: readonly Si<'temperature'>[] };
}
