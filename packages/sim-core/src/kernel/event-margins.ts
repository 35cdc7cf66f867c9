/** How far each event is: positive before it, not positive once it has come. @module */

import { isRotorHeld, rampAt } from '../drive/profile.js';
import type { KernelMemory } from './kernel-memory.js';
import { givesUpClimb, heldSpeedAt, shareAt } from './motion.js';

/** Events, in the order of their margins. */
export const KERNEL_EVENTS = [
  'windingTemperature',
  'magnetTemperature',
  'controllerTemperature',
  'cellTemperature',
  'cellVoltage',
  'empty',
  'reserve',
  'holdLost',
  'holdRegained',
  'limiterEntered',
  'limiterLeft',
  'motorCurrent',
  'inputPower',
  'shaftSpeed',
  'batteryCurrent',
  'batteryPower',
  'propellerTable',
  'dragTable',
  'burnt',
] as const;
export type KernelEvent = (typeof KERNEL_EVENTS)[number];
export const isKernelEvent = (id: string): id is KernelEvent => (KERNEL_EVENTS as readonly string[]).includes(id);

/** Excess of climb rate at which a climb counts as regained [m/s]. */
const CLIMB_BAND = 1e-3;

/** Climb rate that is missing at full throttle [m/s]. */
function climbShort(memory: KernelMemory, t: number): number {
  const { step, point } = memory;
  const wanted = step.climb === undefined ? 0 : rampAt(step.climb, shareAt(memory, t));
  return wanted + CLIMB_BAND - point.climb * heldSpeedAt(memory, t);
}

/** Margins at the solved point (t, y), in SI units of what is limited, written into `out` in the order of KERNEL_EVENTS. */
export function eventMargins(memory: KernelMemory, t: number, y: Float64Array, out: Float64Array): void {
  const { system, point, at, hold, flatOut, step } = memory;
  const { limits, vehicle } = system;
  const vehicleSpeed = y[at.speed];
  out[0] = limits.windingTemperature - y[at.winding];
  out[1] = limits.magnetTemperature - y[at.magnets];
  out[2] = limits.controllerTemperature - y[at.controller];
  out[3] = limits.cellTemperature - y[at.cells];
  // a pack that cannot give what is drawn collapses, whatever its cut-off
  out[4] = point.overloaded ? -1 : point.cellVoltage - limits.cellVoltage;
  out[5] = y[at.charge];
  out[6] = y[at.charge] - limits.reserve;
  // a held rotor asks for nothing that the limiter could keep from it
  const holds = !flatOut && hold !== 'throttle' && !isRotorHeld(step);
  const currentLeft = point.limit === Number.POSITIVE_INFINITY ? 1 : point.limit - point.currentUnlimited;
  out[7] = holds ? Math.min(1 - point.dutyAsked, currentLeft, point.gripLeft) : 1;
  // regained once the vehicle is as fast as the profile wants it, or climbs as fast and a little more, so that it does not flutter
  out[8] =
    !flatOut || step.hold !== 'vehicleSpeed' ? 1 : givesUpClimb(memory) ? climbShort(memory, t) : heldSpeedAt(memory, t) - vehicleSpeed;
  const limited = hold === 'throttle' && point.limit < Number.POSITIVE_INFINITY && point.duty > 0;
  out[9] = limited ? point.limit - point.currentUnlimited : 1;
  out[10] = limited ? point.currentUnlimited - point.limit : 1;
  // braking loads a winding as driving does
  out[11] = limits.motorCurrent - Math.abs(point.current);
  out[12] = limits.inputPower - Math.abs(point.inputPower);
  out[13] = limits.shaftSpeed - point.speed;
  out[14] = limits.batteryCurrent - point.packCurrent;
  out[15] = limits.batteryPower - point.packCurrent * point.busVoltage;
  out[16] = point.duty > 0 && point.outsideTable !== 0 ? -1 : 1;
  const table = vehicle.dragTable;
  out[17] = table === undefined ? 1 : table.speed[table.speed.length - 1] - vehicleSpeed + 1e-9;
  const { damage } = memory;
  out[18] = Math.min(
    damage.windingTemperature - y[at.winding],
    damage.magnetTemperature - y[at.magnets],
    damage.controllerTemperature - y[at.controller],
    damage.cellTemperature - y[at.cells],
  );
}
