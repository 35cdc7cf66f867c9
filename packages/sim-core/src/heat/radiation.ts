/**
 * Heat radiation of a grey body to surroundings that enclose it and are much larger.
 *
 *   (1) q = ε·σ·(T_s⁴ − T_u⁴)
 *   (2) h = ε·σ·(T_s² + T_u²)·(T_s + T_u),  so that q = h·(T_s − T_u), also at T_s = T_u
 *
 * ε — emissivity [1]: anodised or painted about 0.85, bare bright metal 0.05–0.2 (common practice); T_s, T_u — surface and surroundings [K].
 * *Holds for* opaque grey surfaces that do not see each other. *Leaves out* sunshine, and a view shared with hot neighbours.
 * *Sign* positive from the surface.
 * *Source* Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eqs. 1.7–1.9.
 *
 * @module
 */

import { STEFAN_BOLTZMANN } from '../quantities/constants.js';

/** (1) Heat flux q [W/m²] from the surface, `emissivity` [1], temperatures [K]. */
export const radiationFlux = (surfaceTemperature: number, surroundings: number, emissivity: number): number =>
  radiationCoefficient(surfaceTemperature, surroundings, emissivity) * (surfaceTemperature - surroundings);

/** (2) Radiation's heat transfer coefficient h [W/(m²·K)]. */
export const radiationCoefficient = (surfaceTemperature: number, surroundings: number, emissivity: number): number =>
  emissivity *
  STEFAN_BOLTZMANN *
  (surfaceTemperature * surfaceTemperature + surroundings * surroundings) *
  (surfaceTemperature + surroundings);
