/** How large each state of a run is: what a relative tolerance of 1 would allow it. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { ByKind } from '../../kernel/state-places.js';
import { openCircuitVoltage } from '../../parts/battery/battery.js';

/** [K, rad/s, 1, V, m/s]; the vehicle's speed decides most steps. */
const SCALE: ByKind = { temperature: 10, shaft: 100, charge: 0.05, polarisation: 1, speed: 30 };
/** A vehicle on wheels turns its motor: where that is slow its scale is this many times its speed without load [1], and no less than this [m/s]. */
const NO_LOAD_SPEEDS = 2;
const SLOWEST = 1e-3;

/** Scale of each kind of state of `system`. */
export function stateScale({ load, battery, motor, gearbox }: Pick<DriveSystem, 'load' | 'battery' | 'motor' | 'gearbox'>): ByKind {
  if (load.kind !== 'wheel') return SCALE;
  const emf = battery.cellsInSeries * openCircuitVoltage(battery.openCircuit, 1);
  const unloaded = (emf * load.radius) / (motor.torqueConstant * gearbox.ratio);
  return { ...SCALE, speed: Math.min(SCALE.speed, Math.max(SLOWEST, NO_LOAD_SPEEDS * unloaded)) };
}
