/**
 * Reduction between motor and load: ω_motor = G·ω_load; torque at the motor M = Q/(G·η) when driving, Q·η/G when the load drives.
 * A direct drive has G = 1, η = 1. *Leaves out* drag that does not depend on torque.
 *
 * @module
 */

import type { PlainNumbers, Quantities } from '../quantities/index.js';

/** A gearbox; a direct drive has ratio 1 and efficiency 1. */
export interface Gearbox<N extends Quantities = PlainNumbers> {
  /** G — turns of the motor to one of the load [1]. */
  readonly ratio: N['ratio'];
  /** η — power out over power in [1]. */
  readonly efficiency: N['fraction'];
  /** Mass [kg]. */
  readonly mass: N['mass'];
}

/** Torque at the motor's shaft [N·m] for a load torque [N·m] behind the gear; `efficiency` [1] of gear and shaft bearings together. */
export const torqueBeforeGear = (loadTorque: number, ratio: number, efficiency: number): number =>
  loadTorque >= 0 ? loadTorque / (ratio * efficiency) : (loadTorque * efficiency) / ratio;
