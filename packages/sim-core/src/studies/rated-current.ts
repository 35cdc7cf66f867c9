/**
 * What a sheet's current does to the winding by the model: where it settles, and when it passes its limit.
 *
 * The motor is driven against a brake at the speed its rated voltage leaves it, from a pack that does not sag, cooled as in the scenario at
 * the vehicle's speed and in the slipstream of full throttle.
 * *Holds for* the scenario's own cooling and start. *Leaves out* the controller, which has its own limits.
 */
import type { DriveSystem } from '../drive/drive-system.js';
import { SECONDS_PER_HOUR } from '../quantities/constants.js';
import { fromUnit } from '../quantities/convert.js';
import { simulate } from './simulate.js';

export interface RatedHeating {
  /** Winding temperature after an hour [K]; absent where it runs away, or beyond what any insulation stands. */
  readonly settles?: number;
  /** When the winding passes its limit [s]; absent where it does not. */
  readonly limitAfter?: number;
}

const LONG = SECONDS_PER_HOUR;
/** Highest thermal class of IEC 60085 [°C]. */
const NO_INSULATION = 250;
/** A brake needs a wheel that turns: a bench's "vehicle" creeps at this speed [m/s], too slow to cool. */
const CREEP = 1e-6;

/**
 * Heats `system` with motor `current` [A] at `voltage` [V] across the motor; `vehicleSpeed` [m/s] and `thrust` [N] are those of full
 * throttle. Throws RangeError where that voltage does not drive that current through the cold winding.
 */
export function ratedHeating(
  system: DriveSystem,
  current: number,
  voltage: number,
  full: { readonly vehicleSpeed: number; readonly thrust: number },
): RatedHeating {
  const { motor, battery, controller, heat, load, limits } = system;
  const speed = (voltage - current * motor.resistance) / motor.torqueConstant;
  if (!(speed > 0)) throw new RangeError(`${voltage} V do not drive ${current} A through ${motor.resistance} ohm.`);
  const cooling = Math.max(full.vehicleSpeed, CREEP);
  const none = Number.POSITIVE_INFINITY;
  const stiff: DriveSystem = {
    ...system,
    battery: {
      ...battery,
      cellsInSeries: Math.ceil(voltage),
      cellsInParallel: 1,
      capacity: 1e9,
      cellResistance: 1e-6,
      polarisationResistance: 1e-6,
    },
    controller: { ...controller, motorCurrentLimit: none, batteryCurrentLimit: none },
    gearbox: { ratio: 1, efficiency: 1, mass: 0 },
    load: { kind: 'wheel', radius: cooling / speed, grip: none, inertia: 0 },
    vehicle: { ...system.vehicle, carriedBy: 'bench', dragTable: undefined },
    heat: {
      ...heat,
      airSpeed: heat.airSpeed + washSpeed(load, heat.slipstreamShare, full),
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
  const profile = [{ duration: LONG, hold: 'motorCurrent' as const, value: held(current), vehicleSpeed: held(cooling) }];
  const run = simulate(stiff, profile, { method: 'dormand-prince', relative: 1e-3, record: false });
  const settles = run.state[run.kernel.bodyIndex[0]];
  const limitAfter = run.passed.get('windingTemperature');
  return {
    ...(run.end === 'finished' && settles < fromUnit(NO_INSULATION, '°C') ? { settles } : {}),
    ...(limitAfter === undefined ? {} : { limitAfter }),
  };
}

/** The slipstream's share of air at the motor [m/s], momentum theory: 2·v_i, v_i = −v/2 + √(v²/4 + F/(2ρA)). */
function washSpeed(
  load: DriveSystem['load'],
  share: number,
  { vehicleSpeed, thrust }: { readonly vehicleSpeed: number; readonly thrust: number },
): number {
  if (load.kind !== 'propeller' || !(share > 0) || !(thrust > 0)) return 0;
  const disc = 0.25 * Math.PI * load.diameter ** 2;
  const advance = vehicleSpeed * (1 - load.wakeFraction);
  return 2 * share * (-0.5 * advance + Math.sqrt(0.25 * advance ** 2 + thrust / (2 * load.density * disc)));
}
