/** How far each event is: positive before it, not positive once it has come. @module */

import { isRotorHeld, rampAt } from '../drive/profile.js';
import type { KernelMemory } from './kernel-memory.js';
import { givesUpClimb, heldSpeedAt, shareAt } from './motion.js';

/**
 * All events, in the order of their margins. What passes a limit is named as the limit is, in `Limits`; what changes how a step is driven limits nothing.
 * `ends`: how a run ends that meets it.
 */
const EVENTS = {
  windingTemperature: {},
  magnetTemperature: {},
  controllerTemperature: {},
  cellTemperature: {},
  cellVoltage: { ends: 'cut-off' },
  empty: { ends: 'empty' },
  reserve: {},
  holdLost: { drives: true },
  holdRegained: { drives: true },
  limiterEntered: { drives: true },
  limiterLeft: { drives: true },
  motorCurrent: {},
  inputPower: {},
  shaftSpeed: {},
  batteryCurrent: {},
  batteryPower: {},
  propellerTable: {},
  dragTable: {},
  burnt: { ends: 'burnt' },
} as const satisfies Record<string, { readonly ends?: string; readonly drives?: true }>;

/** An event that the kernel watches. */
export type KernelEvent = keyof typeof EVENTS;
export const KERNEL_EVENTS = Object.keys(EVENTS) as readonly KernelEvent[];
export const isKernelEvent = (id: string): id is KernelEvent => id in EVENTS;
/** Place of each event's margin. */
export const EVENT_PLACE = Object.fromEntries(KERNEL_EVENTS.map((id, k) => [id, k])) as { readonly [K in KernelEvent]: number };

type Ending = Extract<(typeof EVENTS)[KernelEvent], { readonly ends: string }>['ends'];
/** How a run ends that meets an event; undefined where it goes on. */
export function endOf(id: KernelEvent): Ending | undefined {
  const event = EVENTS[id];
  return 'ends' in event ? event.ends : undefined;
}
/** Whether an event only changes how a step is driven. */
export const changesDriving = (id: KernelEvent): boolean => 'drives' in EVENTS[id];

/** Share of a limit by which rounding passes it [1]. */
const ROUNDING = 1e-9;
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
  const place = EVENT_PLACE;
  const vehicleSpeed = y[at.speed];
  out[place.windingTemperature] = limits.windingTemperature - y[at.winding];
  out[place.magnetTemperature] = limits.magnetTemperature - y[at.magnets];
  out[place.controllerTemperature] = limits.controllerTemperature - y[at.controller];
  out[place.cellTemperature] = limits.cellTemperature - y[at.cells];
  // a pack that cannot give what is drawn collapses, whatever its cut-off
  out[place.cellVoltage] = point.overloaded ? -1 : point.cellVoltage - limits.cellVoltage;
  out[place.empty] = y[at.charge];
  out[place.reserve] = y[at.charge] - limits.reserve;
  // a held rotor asks for nothing that the limiter could keep from it
  const holds = !flatOut && hold !== 'throttle' && !isRotorHeld(step);
  const currentLeft = point.limit === Number.POSITIVE_INFINITY ? 1 : point.limit - point.currentUnlimited;
  out[place.holdLost] = holds ? Math.min(memory.mostDuty - point.dutyAsked, currentLeft, point.gripLeft) : 1;
  // regained once the vehicle is as fast as the profile wants it, or climbs as fast and a little more, so that it does not flutter
  out[place.holdRegained] =
    !flatOut || step.hold !== 'vehicleSpeed' ? 1 : givesUpClimb(memory) ? climbShort(memory, t) : heldSpeedAt(memory, t) - vehicleSpeed;
  const limited = hold === 'throttle' && point.limit < Number.POSITIVE_INFINITY && point.duty > 0;
  // past the most ripple less current may draw more
  const drawLeft = memory.letGo ? (1 + ROUNDING) * system.controller.batteryCurrentLimit - point.busCurrent : Number.POSITIVE_INFINITY;
  out[place.limiterEntered] = limited ? Math.min(point.limit - point.currentUnlimited, drawLeft) : 1;
  out[place.limiterLeft] = limited ? point.currentUnlimited - point.limit : 1;
  // braking loads a winding as driving does
  out[place.motorCurrent] = limits.motorCurrent - Math.abs(point.current);
  out[place.inputPower] = limits.inputPower - Math.abs(point.inputPower);
  out[place.shaftSpeed] = limits.shaftSpeed - point.speed;
  out[place.batteryCurrent] = limits.batteryCurrent - point.packCurrent;
  out[place.batteryPower] = limits.batteryPower - point.packCurrent * point.busVoltage;
  out[place.propellerTable] = point.duty > 0 && point.outsideTable !== 0 ? -1 : 1;
  const table = vehicle.dragTable;
  out[place.dragTable] = table === undefined ? 1 : table.speed[table.speed.length - 1] - vehicleSpeed + 1e-9;
  const { damage } = memory;
  out[place.burnt] = Math.min(
    damage.windingTemperature - y[at.winding],
    damage.magnetTemperature - y[at.magnets],
    damage.controllerTemperature - y[at.controller],
    damage.cellTemperature - y[at.cells],
  );
}
