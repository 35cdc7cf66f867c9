/**
 * Fins: how much of their surface counts, from the coefficient h of the air and the conductivity k of the metal.
 *
 *   (1) straight, tip insulated:  η = tanh(mL)/(mL),  m = √(2h/(k·t))
 *   (2) pin, tip insulated:       η = tanh(mL)/(mL),  m = √(4h/(k·d))
 *   (3) tip that gives off heat:  L_c = L + t/2 (straight, annular), L + d/4 (pin): put it in place of L
 *   (4) rod without end:          Q/ΔT = √(h·P·k·A) = (π/2)·√(h·k·d³)
 *   (5) annular, tip insulated:   η = 2r₁/[m(r₂² − r₁²)] · [K₁(mr₁)I₁(mr₂) − I₁(mr₁)K₁(mr₂)]/[I₀(mr₁)K₁(mr₂) + K₀(mr₁)I₁(mr₂)]
 *   (6) array:                    G = h·(N·A_f·η + A_b)
 *
 * L — fin height [m]; t — thickness; d — pin diameter; r₁, r₂ — radii at base and tip; A_f — area of a fin, A_b — free base between fins [m²].
 * *Holds for* thin fins (h·t/k ≪ 1), one h over all, steady. *Leaves out* the joint under the base, spreading in it, and a temperature of
 * the base that differs from fin to fin.
 * *Source* Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eqs. 3.80–3.106 and table 3.5.
 *
 * @module
 */

import { besselI0, besselI1, besselK0, besselK1 } from './modified-bessel.js';

const bareEfficiency = (mL: number): number => (mL === 0 ? 1 : Math.tanh(mL) / mL);

/** (1) Efficiency [1] of a straight fin: `coefficient` h [W/(m²·K)], `conductivity` k [W/(m·K)], `thickness` and `height` [m]. */
export const straightFinEfficiency = (coefficient: number, conductivity: number, thickness: number, height: number): number =>
  bareEfficiency(height * Math.sqrt((2 * coefficient) / (conductivity * thickness)));

/** (2) Efficiency [1] of a pin: h [W/(m²·K)], k [W/(m·K)], `diameter` and `height` [m]. */
export const pinFinEfficiency = (coefficient: number, conductivity: number, diameter: number, height: number): number =>
  bareEfficiency(height * Math.sqrt((4 * coefficient) / (conductivity * diameter)));

/** (4) Conductance [W/K] of a rod so long that its far end is cold (a shaft): h [W/(m²·K)], k [W/(m·K)], `diameter` [m]. */
export const longRodConductance = (coefficient: number, conductivity: number, diameter: number): number =>
  (Math.PI / 2) * Math.sqrt(coefficient * conductivity * diameter ** 3);

/** (5) Efficiency [1] of an annular fin: h [W/(m²·K)], k [W/(m·K)], `thickness`, `innerRadius` < `outerRadius` [m]; throws RangeError on radii out of order. */
export const annularFinEfficiency = (
  coefficient: number,
  conductivity: number,
  thickness: number,
  innerRadius: number,
  outerRadius: number,
): number => {
  if (!(innerRadius > 0 && outerRadius > innerRadius))
    throw new RangeError(`An annular fin needs 0 < inner radius < outer radius; got ${innerRadius} and ${outerRadius} m.`);
  if (coefficient === 0) return 1;
  const m = Math.sqrt((2 * coefficient) / (conductivity * thickness));
  const base = m * innerRadius;
  const tip = m * outerRadius;
  const flow = besselK1(base) * besselI1(tip) - besselI1(base) * besselK1(tip);
  const excess = besselI0(base) * besselK1(tip) + besselK0(base) * besselI1(tip);
  return ((2 * innerRadius) / (m * (outerRadius ** 2 - innerRadius ** 2))) * (flow / excess);
};

/** A sheet of equal straight fins on a flat base, as on a controller or around a motor's mount. */
export interface HeatSink<N = number> {
  /** N — number of fins [1]. */
  readonly fins: number;
  /** L — height of a fin above its base [m]. */
  readonly finHeight: N;
  /** t — thickness of a fin [m]. */
  readonly finThickness: N;
  /** W — length of the base along the fins [m]. */
  readonly length: N;
  /** B — breadth of the base across the fins [m]. */
  readonly breadth: N;
  /** k — conductivity of the metal, about 200 for aluminium alloys [W/(m·K)]. */
  readonly conductivity: N;
}

/** Clear spacing between neighbouring fins [m], fins at both edges; throws RangeError on fewer than two fins or fins that do not fit. */
export const finSpacing = (sink: HeatSink): number => {
  const spacing = (sink.breadth - sink.fins * sink.finThickness) / (sink.fins - 1);
  if (!(sink.fins >= 2 && spacing > 0))
    throw new RangeError(`${sink.fins} fins of ${sink.finThickness} m leave no spacing on a base of ${sink.breadth} m.`);
  return spacing;
};

/** (1), (3), (6) Conductance G [W/K] from the base to the air at `coefficient` h [W/(m²·K)] over fins and free base; throws as the spacing does. */
export const heatSinkConductance = (sink: HeatSink, coefficient: number): number => {
  const height = sink.finHeight + sink.finThickness / 2;
  const efficiency = straightFinEfficiency(coefficient, sink.conductivity, sink.finThickness, height);
  const finArea = 2 * sink.length * height;
  const freeBase = finSpacing(sink) * (sink.fins - 1) * sink.length;
  return coefficient * (sink.fins * finArea * efficiency + freeBase);
};
