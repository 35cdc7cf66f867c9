/**
 * Water jacket fed by a scoop: what it carries away, by the speed of the boat, or by the tube when its size and flow are known.
 *
 *   (1) G = G_ref·[s + (1 − s)·(V/V_ref)^n]
 *   (2) G = ṁcp·[1 − exp(−hA/(ṁcp))],  hA = Nu·k·π·L,  ṁ = ρ·u·π·d²/4
 *
 * G_ref — conductance at the reference speed V_ref; s — share left at rest, when the water stands or trickles; n — exponent.
 * u — water speed in the tube; d, L — its bore and length against the motor.
 * *Holds for* (1) V up to about twice V_ref; (2) bulk water 0–60 °C, RangeError outside. Tolerance of (1) ±25 % at V_ref, wider away from it.
 * *Leaves out* steam: a wall above the boiling point; the wall and joint between tube and motor; weed in the scoop.
 * *Sign* speed counts by magnitude.
 * *Source* (1) common practice, no published source; n = 0.6 lies between laminar (⅓) and turbulent (0.8) tube flow. (2) tube-flow.
 *
 * @module
 */

import {
  type WaterKind,
  waterConductivity,
  waterDensity,
  waterKinematicViscosity,
  waterPrandtl,
  waterSpecificHeat,
} from '../media/water.js';
import { capacityLimitedConductance, tubeNusselt } from './tube-flow.js';

/** n of (1) where nothing is known [1]; common practice, no published source. */
export const JACKET_EXPONENT = 0.6;
/** s of (1) where nothing is known [1]; common practice, no published source. */
export const JACKET_REST_SHARE = 0.1;

/**
 * (1) Conductance G [W/K] at boat `speed` V [m/s]: `conductance` G_ref [W/K] holds at `referenceSpeed` V_ref [m/s]; `restShare` s and `exponent` n [1].
 * Throws RangeError on a reference speed that is not positive.
 */
export const jacketConductance = (
  conductance: number,
  referenceSpeed: number,
  speed: number,
  restShare = JACKET_REST_SHARE,
  exponent = JACKET_EXPONENT,
): number => {
  if (!(referenceSpeed > 0)) throw new RangeError(`A jacket's conductance needs the speed at which it holds; got ${referenceSpeed} m/s.`);
  return conductance * (restShare + (1 - restShare) * Math.exp(exponent * Math.log(Math.abs(speed) / referenceSpeed)));
};

/** (2) h inside a tube [W/(m²·K)]: water at `temperature` [K] and `speed` [m/s] in a `bore` [m]. Throws RangeError outside 0–60 °C. */
export const tubeWaterCoefficient = (kind: WaterKind, temperature: number, speed: number, bore: number): number => {
  const reynolds = (Math.abs(speed) * bore) / waterKinematicViscosity(kind, temperature);
  return (tubeNusselt(reynolds, waterPrandtl(kind, temperature)) * waterConductivity(kind, temperature)) / bore;
};

/** (2) Conductance G [W/K] from a tube's wall to the water that enters it; `bore` and `length` [m]. Throws RangeError outside 0–60 °C. */
export const coilConductance = (kind: WaterKind, temperature: number, speed: number, bore: number, length: number): number => {
  const wall = tubeWaterCoefficient(kind, temperature, speed, bore) * Math.PI * bore * length;
  const flow = (waterDensity(kind, temperature) * Math.abs(speed) * Math.PI * bore * bore) / 4;
  return capacityLimitedConductance(wall, flow * waterSpecificHeat(kind, temperature));
};
