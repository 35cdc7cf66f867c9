/**
 * What a reading on the bench says of a motor: supply voltage V and current i_b at the controller, the speed ω it turned at, its duty d.
 *
 *   (1) v·i = V·(i_b − I_idle) − P_ripple − (k_s·V + V_dt)·i        what the winding and the path take, controller subtracted
 *   (2) u = d·V − V_dt = v + X·i  (block)      u² = v² + (X·i)²  (sinusoidal)      X as in parts/motor.ts: voltage without power
 *   (3) from both:  (d + k_s)·V·i − X·i² = W   or   u·i = √(W² + (X·i²)²),  W = V·(i_b − I_idle) − P_ripple
 *   (4) M = (v − (R + R_c)·i)·i/ω − M_loss      the torque by balance of power; no torque constant in it
 *   (5) R = (v − k·ω)/i − R_c      (6) k = (v − (R + R_c)·i)/ω      what R and K_v must be for the reading to be true
 *
 * *Holds for* a motor that drives, winding and controller cold. *Leaves out* in the sinusoidal (3) the small k_s and V_dt.
 * *Source* parts/motor.ts and parts/controller.ts, solved for what was not read.
 *
 * @module
 */

import { type Controller, deadTimeDrop, rippleLoss, switchingShare } from '../parts/controller.js';
import { lossTorque, type Motor, reactiveShare } from '../parts/motor.js';

type Winding = Pick<Motor, 'torqueConstant' | 'resistance' | 'polePairs' | 'inductance'>;
type Switches = Pick<
  Controller,
  'drive' | 'idleCurrent' | 'pathResistance' | 'switchingTime' | 'pwmFrequency' | 'deadTime' | 'deadTimeDrop' | 'rippleConstant'
>;

export interface BenchReading {
  /** V at the controller, i_b from the supply. */
  readonly voltage: number;
  readonly current: number;
  /** ω of the motor's shaft [rad/s]. */
  readonly speed: number;
  /** d, 1 where not said. */
  readonly duty: number;
}

/** The electrical side of a reading. */
export interface ReadSide {
  /** i — motor current [A]. */
  readonly current: number;
  /** v — working voltage on winding and path [V]. */
  readonly voltage: number;
}

/** (1)–(3). NaN where no current makes both true. */
export function sideOf(reading: BenchReading, motor: Winding, controller: Switches): ReadSide {
  const { voltage, current: supplied, speed, duty } = reading;
  const sinusoidal = controller.drive === 'sinusoidal';
  const reactance = reactiveShare(motor, motor.torqueConstant, sinusoidal) * motor.torqueConstant * speed;
  const watts =
    voltage * (supplied - controller.idleCurrent) -
    (duty < 1 ? rippleLoss(controller.rippleConstant / motor.inductance, voltage, duty) : 0);
  const switching = switchingShare(controller);
  const u = sinusoidal ? duty * voltage : (duty + switching) * voltage;
  const current = sinusoidal
    ? watts * Math.sqrt(2 / (u * u + Math.sqrt(u ** 4 - (2 * reactance * watts) ** 2)))
    : (2 * watts) / (u + Math.sqrt(u * u - 4 * reactance * watts));
  return { current, voltage: watts / current - switching * voltage - deadTimeDrop(controller) };
}

/** (4) Torque at the motor's shaft [N·m]. */
export function torqueByPower(reading: BenchReading, motor: Motor, controller: Switches): number {
  const { current, voltage } = sideOf(reading, motor, controller);
  const left = voltage - (motor.resistance + controller.pathResistance) * current;
  return (left * current) / reading.speed - lossTorque(motor, reading.speed, 1);
}

/** (5) Resistance [Ω] and (6) torque constant [N·m/A] that the reading asks for, each with the other as the sheet has it; `whole` is R with R_c and X. */
export function askedBy(
  reading: BenchReading,
  motor: Winding,
  controller: Switches,
): { readonly resistance: number; readonly torqueConstant: number; readonly whole: number } {
  const { current, voltage } = sideOf(reading, motor, controller);
  const { duty, speed } = reading;
  const path = controller.pathResistance;
  return {
    resistance: (voltage - motor.torqueConstant * speed) / current - path,
    torqueConstant: (voltage - (motor.resistance + path) * current) / speed,
    whole: (duty * reading.voltage - motor.torqueConstant * speed) / current,
  };
}

const HALVINGS = 60;

/**
 * (5) with an inductance that follows the resistance, as where the sheet has none [Ω]; `within` fills in L. More resistance brings more
 * inductance and leaves less voltage for it, so that what is asked for falls to meet what was tried, or to where no current gives the watts.
 */
export function resistanceFrom(reading: BenchReading, controller: Switches, within: (resistance: number) => Winding): number {
  const { resistance: most } = askedBy(reading, within(0), controller);
  if (!(most > 0)) return most;
  let low = 0;
  let high = most;
  for (let k = 0; k < HALVINGS; k++) {
    const tried = 0.5 * (low + high);
    if (askedBy(reading, within(tried), controller).resistance > tried) low = tried;
    else high = tried;
  }
  return low;
}
