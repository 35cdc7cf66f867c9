/**
 * Driven wheels that roll without slip: ω_load = v/r; force at the ground F = M_load/r.
 *
 *   (1) ω = v/r          (2) |F| ≤ µ·s·m·g          (3) equivalent mass of what turns (J_wheels + J_rotor·G²)/r²
 *
 * *Holds for* driven wheels that carry the share s of the weight, all of it where all are driven. *Leaves out* slip below the grip limit, load
 * transfer under acceleration (give s as it is then), and how fast a wheel spins beyond it: the drive is taken to be eased to what the ground takes.
 * *Sign* force is positive when it drives the vehicle. *Source* T. D. Gillespie, Fundamentals of Vehicle Dynamics, 1992, ch. 2 (from memory).
 *
 * @module
 */

import { STANDARD_GRAVITY } from '../quantities/constants.js';
import type { PlainNumbers, Quantities } from '../quantities/index.js';

/** Driven wheels. */
export interface Wheel<N extends Quantities = PlainNumbers> {
  /** r — rolling radius [m]. */
  readonly radius: N['length'];
  /** µ — friction between tyre and ground [1]. */
  readonly grip: N['ratio'];
  /** s — share of the weight on the driven wheels [1]. */
  readonly drivenShare: N['fraction'];
  /** J — inertia of all wheels together [kg·m²]. */
  readonly inertia: N['inertia'];
}

/** (2) Most force [N] that the ground takes from a vehicle of `mass` [kg] on a path that climbs with sine `climb` [1]. */
export const gripForce = ({ grip, drivenShare }: Pick<Wheel, 'grip' | 'drivenShare'>, mass: number, climb: number): number =>
  grip * drivenShare * mass * STANDARD_GRAVITY * Math.sqrt(Math.max(0, 1 - climb * climb));

/** (3) Mass [kg] that the turning parts add; `gearRatio` [1] between motor and wheel. */
export const turningMass = (wheelInertia: number, rotorInertia: number, gearRatio: number, radius: number): number =>
  (wheelInertia + rotorInertia * gearRatio ** 2) / radius ** 2;
