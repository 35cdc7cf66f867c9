/**
 * What a sheet's current does to the winding by the model: where it settles, and when it passes its limit.
 *
 * The motor is driven against a brake at the speed its rated voltage leaves it, from a pack that does not sag, cooled as in the scenario at
 * the vehicle's speed and in the slipstream of full throttle.
 * *Holds for* the scenario's own cooling and start. *Leaves out* the controller, which has its own limits.
 *
 * @module
 */

import { airAtMotor } from '../../drive/air-at-motor.js';
import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep } from '../../drive/profile.js';
import { createKernel } from '../../kernel/kernel.js';
import { loadedSpeed, windingResistance } from '../../parts/motor.js';
import { SECONDS_PER_HOUR } from '../../quantities/constants.js';
import { fromUnit } from '../../quantities/convert.js';
import { simulate } from '../simulate/simulate.js';

export interface RatedHeating {
  /** Winding temperature after an hour [K]; absent where it runs away, or beyond what any insulation stands. */
  readonly settles?: number;
  /** When the winding passes its limit [s]; absent where it does not. */
  readonly limitAfter?: number;
}

export const LONG = SECONDS_PER_HOUR;
/** Highest thermal class of IEC 60085 [°C]. */
const NO_INSULATION = 250;
/** A brake needs a wheel that turns: a bench's "vehicle" creeps at this speed [m/s], too slow to cool. */
const CREEP = 1e-6;

/** Speed of the vehicle [m/s] and thrust [N] that cool the motor. */
export interface CoolingPoint {
  readonly vehicleSpeed: number;
  readonly thrust: number;
}

/** `system` on a brake that turns its motor at `speed` [rad/s], and the profile that holds `current` [A] there for an hour. */
function onBrake(
  system: DriveSystem,
  current: number,
  speed: number,
  full: CoolingPoint,
): { readonly system: DriveSystem; readonly profile: readonly ProfileStep[] } {
  const { motor, battery, controller, heat, load, limits } = system;
  const cooling = Math.max(full.vehicleSpeed, CREEP);
  const none = Number.POSITIVE_INFINITY;
  const reactive = motor.polePairs * speed * current * motor.inductance;
  const volts = motor.torqueConstant * speed + 3 * current * motor.resistance + reactive;
  const stiff: DriveSystem = {
    ...system,
    battery: {
      ...battery,
      cellsInSeries: Math.ceil(volts),
      cellsInParallel: 1,
      capacity: 1e9,
      cellResistance: 1e-6,
      polarisationResistance: 1e-6,
    },
    controller: { ...controller, motorCurrentLimit: none, batteryCurrentLimit: none, rippleConstant: 0 },
    gearbox: { ratio: 1, efficiency: 1, mass: 0 },
    load: { kind: 'wheel', radius: cooling / speed, grip: none, drivenShare: 1, inertia: 0 },
    vehicle: { ...system.vehicle, carriedBy: 'bench', dragTable: undefined },
    heat: {
      ...heat,
      airSpeed: airAtMotor(heat, load, full.vehicleSpeed, full.thrust),
      vehicleSpeedShare: 0,
      slipstreamShare: 0,
      capacity: { ...heat.capacity, controller: none, cells: none },
    },
    limits: {
      ...limits,
      magnetTemperature: none,
      controllerTemperature: none,
      cellTemperature: none,
      motorCurrent: none,
      inputPower: none,
      shaftSpeed: none,
      busVoltage: none,
      batteryCurrent: none,
      batteryPower: none,
      cellVoltage: 0,
      reserve: 0,
    },
    otherLoads: 0,
    drives: 1,
  };
  const held = (value: number) => ({ from: value, to: value });
  return { system: stiff, profile: [{ duration: LONG, hold: 'motorCurrent', value: held(current), vehicleSpeed: held(cooling) }] };
}

const FAST = { method: 'dormand-prince', relative: 1e-3, record: false } as const;

/**
 * Heats `system` with motor `current` [A] at `voltage` [V] across the motor. Throws RangeError where that voltage does not drive that current
 * through the cold winding.
 */
export function ratedHeating(system: DriveSystem, current: number, voltage: number, full: CoolingPoint): RatedHeating {
  const { motor, controller } = system;
  const speed = loadedSpeed(motor, controller.drive === 'sinusoidal', voltage, current);
  if (!(speed > 0)) throw new RangeError(`${voltage} V do not drive ${current} A through ${motor.resistance} ohm.`);
  const brake = onBrake(system, current, speed, full);
  const run = simulate(brake.system, brake.profile, FAST);
  const settles = run.state[run.kernel.at.winding];
  const limitAfter = run.passed.get('windingTemperature');
  return {
    ...(run.end === 'finished' && settles < fromUnit(NO_INSULATION, '°C') ? { settles } : {}),
    ...(limitAfter === undefined ? {} : { limitAfter }),
  };
}

/** A current that warms a brake's motor while its winding is held [A]; which one does not matter. */
const TRIED = 1;

/**
 * Motor current [A] that holds the winding at its limit for good at `speed` [rad/s]: the winding is kept there, the other bodies settle, and
 * what then flows out of it is i²·R. Undefined where the iron alone heats it further, or nothing settles.
 */
export function continuousCurrent(system: DriveSystem, speed: number, full: CoolingPoint): number | undefined {
  const limit = system.limits.windingTemperature;
  const brake = onBrake(system, TRIED, speed, full);
  const held: DriveSystem = {
    ...brake.system,
    heat: { ...brake.system.heat, capacity: { ...brake.system.heat.capacity, winding: Number.POSITIVE_INFINITY } },
    start: { ...system.start, motorTemperature: limit },
    limits: { ...brake.system.limits, windingTemperature: Number.POSITIVE_INFINITY },
  };
  const run = simulate(held, brake.profile, FAST);
  if (run.end !== 'finished') return undefined;
  const kernel = createKernel(brake.system);
  kernel.begin(brake.profile[0], 0, false);
  const rates = new Float64Array(kernel.dimension);
  kernel.derivative(0, run.state, rates);
  const resistance = windingResistance(system.motor, limit);
  const flow = TRIED ** 2 * resistance - system.heat.capacity.winding * rates[kernel.at.winding];
  return flow > 0 ? Math.sqrt(flow / resistance) : undefined;
}
