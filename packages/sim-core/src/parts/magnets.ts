/**
 * Demagnetisation of surface magnets by heat and by the armature's field together.
 *
 *   (1) M = 2π·r²·L·B_g·K,  B_g = B_r·h/(h + μ_r·g)              current loading K [A/m] from torque M = k_t·i
 *   (2) F = K·π·r/(2p)                                          armature ampere-turns over one pole's edge
 *   (3) −H = (F + B_r·g/μ₀)/(h + μ_r·g)                          field in the magnet at that edge
 *   (4) weakened for good where −H > s·H_cJ(T);  B_r, H_cJ ∝ 1 + coefficient·(T − 20 °C)
 *
 * r, L — radius and stack of the stator; h — magnet thickness; g — gap; p — pole pairs; s = 0.9 — where the knee begins.
 * *Holds for* arc or bar magnets on a ring with an air gap small against the pole; currents in phase with the flux (normal commutation).
 * *Leaves out* saturation, leakage, edges and slots (which raise the field locally), a commutation that has lost step (worse: the
 * whole field then works on the pole's middle).
 * *Source* J.R. Hendershot & T.J.E. Miller, Design of Brushless Permanent-Magnet Machines, 2010 (from memory), for (1)–(3) as Ampère's law round
 * magnet, gap and iron; H_cJ by grade: magnet makers' tables (UH, EH, AH from memory); s: common practice, no published source.
 *
 * @module
 */

import { ROOM_TEMPERATURE } from '../quantities/constants.js';
import type { PlainNumbers, Quantities } from '../quantities/index.js';

/** The magnets of a motor. */
export interface Magnet<N extends Quantities = PlainNumbers> {
  /** h, g — thickness and gap [m]. */
  readonly thickness: N['length'];
  /** g — between magnets and stator [m]. */
  readonly gap: N['length'];
  /** B_r — remanence at 20 °C [T], and its coefficient [1/K]. */
  readonly remanence: N['ratio'];
  /** Change of B_r with temperature over B_r [1/K]. */
  readonly remanenceCoefficient: N['temperatureCoefficient'];
  /** H_cJ — intrinsic coercivity at 20 °C [A/m], and its coefficient, negative [1/K]. */
  readonly coercivity: N['ratio'];
  /** Change of H_cJ with temperature over H_cJ, negative [1/K]. */
  readonly coercivityCoefficient: N['temperatureCoefficient'];
  /** r, L — stator radius and stack length [m]. */
  readonly statorRadius: N['length'];
  /** L — length of the stack [m]. */
  readonly stackLength: N['length'];
}

const PERMEABILITY = 4e-7 * Math.PI;
/** μ_r of neodymium magnets [1]; memory. */
const RECOIL = 1.05;
const KNEE = 0.9;

/** (1)–(4) Motor current [A] above which magnets at `temperature` [K] are weakened; 0 where heat alone does it. */
export function demagnetisingCurrent(magnet: Magnet, polePairs: number, torqueConstant: number, temperature: number): number {
  const warmer = temperature - ROOM_TEMPERATURE;
  const remanence = magnet.remanence * (1 + magnet.remanenceCoefficient * warmer);
  const coercivity = magnet.coercivity * (1 + magnet.coercivityCoefficient * warmer);
  const path = magnet.thickness + RECOIL * magnet.gap;
  const ampereTurns = KNEE * coercivity * path - (remanence * magnet.gap) / PERMEABILITY;
  if (!(ampereTurns > 0)) return 0;
  const loading = (ampereTurns * 2 * polePairs) / (Math.PI * magnet.statorRadius);
  const gapFlux = (remanence * magnet.thickness) / path;
  return (2 * Math.PI * magnet.statorRadius ** 2 * magnet.stackLength * gapFlux * loading) / torqueConstant;
}
