/** Every channel of a run at one moment. @module */

import { controllerLossIn } from '../../drive/power-terms.js';
import type { Kernel } from '../../kernel/kernel.js';
import { CHANNEL_IDS, type ChannelId } from '../../results/channels.js';

/** Place of each channel in a row. */
export const CHANNEL_INDEX = Object.fromEntries(CHANNEL_IDS.map((id, k) => [id, k])) as Readonly<Record<ChannelId, number>>;

const at = CHANNEL_INDEX;

/** Solves (t, y) and writes all channels, SI, in the order of CHANNEL_IDS into `row`. */
export function observeInto(kernel: Kernel, t: number, y: Float64Array, row: Float64Array): void {
  kernel.solve(t, y);
  const powers = kernel.powers(y);
  const { point, at: place } = kernel;
  const speed = y[place.speed];
  row[at.throttle] = point.duty;
  row[at.vehicleSpeed] = speed;
  row[at.climbRate] = speed * point.climb;
  row[at.shaftSpeed] = point.speed;
  row[at.motorTorque] = point.loadTorque;
  row[at.thrust] = point.thrust;
  row[at.motorCurrent] = point.current;
  row[at.batteryCurrent] = point.packCurrent;
  row[at.busVoltage] = point.busVoltage;
  row[at.cellVoltage] = point.cellVoltage;
  row[at.charge] = y[place.charge];
  row[at.batteryPower] = point.busVoltage * point.packCurrent;
  row[at.inputPower] = point.inputPower;
  row[at.shaftPower] = point.loadTorque * point.speed;
  row[at.copperLoss] = powers.copperLoss;
  row[at.noLoadLoss] = powers.ironLoss + powers.frictionLoss;
  row[at.controllerLoss] = controllerLossIn(powers);
  row[at.windingTemperature] = y[place.winding];
  row[at.statorTemperature] = y[place.stator];
  row[at.canTemperature] = y[place.can];
  row[at.magnetTemperature] = y[place.magnets];
  row[at.controllerTemperature] = y[place.controller];
  row[at.cellTemperature] = y[place.cells];
}

/** The same as a record. */
export function observe(kernel: Kernel, t: number, y: Float64Array): Record<ChannelId, number> {
  const row = new Float64Array(CHANNEL_IDS.length);
  observeInto(kernel, t, y, row);
  return Object.fromEntries(CHANNEL_IDS.map((id, k) => [id, row[k]])) as Record<ChannelId, number>;
}
