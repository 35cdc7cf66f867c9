/**
 * Driven wheels that roll without slip: ω_load = v/r; force at the ground F = M_load/r.
 *
 *   (1) ω = v/r          (2) |F| ≤ µ·m·g          (3) equivalent mass of what turns (J_wheels + J_rotor·G²)/r²
 *
 * *Holds for* all wheels driven and loaded alike. *Leaves out* slip below the grip limit, load transfer, and how fast
 * a wheel spins beyond it: the drive is taken to be eased to what the ground takes.
 * *Sign* force is positive when it drives the vehicle. *Source* T. D. Gillespie, Fundamentals of Vehicle Dynamics, 1992, ch. 2 (from memory).
 */
import { STANDARD_GRAVITY } from '../quantities/constants.js';

export interface Wheel<N = number> {
  readonly radius: N;
  /** µ — friction between tyre and ground [1]. */
  readonly grip: N;
  /** J — inertia of all wheels together [kg·m²]. */
  readonly inertia: N;
}

/** (2) Most force [N] that the ground takes from a vehicle of `mass` [kg] on a path that climbs with sine `climb` [1]. */
export const gripForce = (grip: number, mass: number, climb: number): number =>
  grip * mass * STANDARD_GRAVITY * Math.sqrt(Math.max(0, 1 - climb * climb));

/** (3) Mass [kg] that the turning parts add; `gearRatio` [1] between motor and wheel. */
export const turningMass = (wheelInertia: number, rotorInertia: number, gearRatio: number, radius: number): number =>
  (wheelInertia + rotorInertia * gearRatio ** 2) / radius ** 2;
