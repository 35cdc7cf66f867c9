/**
 * Fins: how much of their surface counts, from the coefficient h of the air and the conductivity k of the metal.
 *
 *   (1) straight, tip insulated:  η = tanh(mL)/(mL),  m = √(2h/(k·t))
 *   (2) tip that gives off heat:  L_c = L + t/2, put in place of L
 *   (3) array:                    G = h·(N·A_f·η + A_b)
 *
 * L — fin height [m]; t — thickness; A_f — area of a fin, A_b — free base between fins [m²].
 * *Holds for* thin fins (h·t/k ≪ 1), one h over all, steady. *Leaves out* the joint under the base, spreading in it, and a temperature of
 * the base that differs from fin to fin.
 * *Source* Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eqs. 3.86–3.102.
 *
 * @module
 */

import type { PlainNumbers, Quantities } from '../quantities/index.js';

const bareEfficiency = (mL: number): number => (mL === 0 ? 1 : Math.tanh(mL) / mL);

/** (1) Efficiency [1] of a straight fin: `coefficient` h [W/(m²·K)], `conductivity` k [W/(m·K)], `thickness` and `height` [m]. */
export const straightFinEfficiency = (coefficient: number, conductivity: number, thickness: number, height: number): number =>
  bareEfficiency(height * Math.sqrt((2 * coefficient) / (conductivity * thickness)));

/** A sheet of equal straight fins on a flat base, as on a controller or around a motor's mount. */
export interface HeatSink<N extends Quantities = PlainNumbers> {
  /** N — number of fins [1]. */
  readonly fins: number;
  /** L — height of a fin above its base [m]. */
  readonly finHeight: N['length'];
  /** t — thickness of a fin [m]. */
  readonly finThickness: N['length'];
  /** W — length of the base along the fins [m]. */
  readonly length: N['length'];
  /** B — breadth of the base across the fins [m]. */
  readonly breadth: N['length'];
  /** k — conductivity of the metal, about 200 for aluminium alloys [W/(m·K)]. */
  readonly conductivity: N['thermalConductivity'];
}

/** Clear spacing between neighbouring fins [m], fins at both edges; throws RangeError on fewer than two fins or fins that do not fit. */
export const finSpacing = (sink: HeatSink): number => {
  const spacing = (sink.breadth - sink.fins * sink.finThickness) / (sink.fins - 1);
  if (!(sink.fins >= 2 && spacing > 0))
    throw new RangeError(`${sink.fins} fins of ${sink.finThickness} m leave no spacing on a base of ${sink.breadth} m.`);
  return spacing;
};

/** (1) to (3) Conductance G [W/K] from the base to the air at `coefficient` h [W/(m²·K)] over fins and free base; throws as the spacing does. */
export const heatSinkConductance = (sink: HeatSink, coefficient: number): number => {
  const height = sink.finHeight + sink.finThickness / 2;
  const efficiency = straightFinEfficiency(coefficient, sink.conductivity, sink.finThickness, height);
  const finArea = 2 * sink.length * height;
  const freeBase = finSpacing(sink) * (sink.fins - 1) * sink.length;
  return coefficient * (sink.fins * finArea * efficiency + freeBase);
};
