/**
 * Battery pack: N_s × N_p equal cells, each an open-circuit voltage, an ohmic resistance and one RC pair.
 *
 *   (1) v_cell = V_oc(s) − v_1 − R_0(T)·i_cell            (2) ds/dt = −i/Q
 *   (3) dv_1/dt = (R_1(T)·i_cell − v_1)/τ                  (4) R(T) = R_25·exp[θ·(1/T − 1/T_25)]
 *   (5) heat of one cell = R_0·i² + v_1²/R_1               (6) stored in the RC pair = ½·(τ/R_1)·v_1²
 *
 * *Holds for* discharge and moderate charge between cut-off and full. *Leaves out* entropic heat, ageing, spread among cells, the
 * dependence of capacity on current. *Sign* current is positive on discharge.
 * *Source* M. Chen & G. A. Rincón-Mora, IEEE Trans. Energy Conversion 21(2), 2006 (one of its two RC pairs); (4) Arrhenius.
 */
import { ZERO_CELSIUS } from '../quantities/constants.js';

export const CELL_REFERENCE = ZERO_CELSIUS + 25;

/** V_oc over state of charge on an even grid from 0 to 1 [V], with slopes per unit of charge; made by `open-circuit.ts`. */
export interface OpenCircuitCurve {
  readonly name: string;
  readonly voltage: Float64Array;
  readonly slope: Float64Array;
}

export interface Battery<N = number> {
  readonly chemistry: string;
  readonly cellsInSeries: number;
  readonly cellsInParallel: number;
  /** Q — charge of the pack from full to empty [A·s]. */
  readonly capacity: N;
  /** R_0 — ohmic resistance of one cell at 25 °C [Ω]. */
  readonly cellResistance: N;
  /** R_1 — resistance of one cell's RC pair at 25 °C [Ω]. */
  readonly polarisationResistance: N;
  /** τ — time constant of the RC pair [s]. */
  readonly polarisationTime: N;
  /** θ — activation temperature of both resistances [K]. */
  readonly activation: N;
  /** Added to V_oc, the uncertainty of a chemistry's curve [V]. */
  readonly voltageOffset: N;
  readonly mass: N;
  readonly openCircuit: OpenCircuitCurve;
}

/** V_oc [V] of one cell at state of charge [1]; cubic Hermite between grid points, straight beyond both ends. */
export function openCircuitVoltage(curve: OpenCircuitCurve, charge: number): number {
  const { voltage, slope } = curve;
  const last = voltage.length - 1;
  if (charge <= 0) return voltage[0] + slope[0] * charge;
  if (charge >= 1) return voltage[last] + slope[last] * (charge - 1);
  const x = charge * last;
  const k = x | 0;
  const u = x - k;
  const h = 1 / last;
  const v0 = voltage[k];
  const v1 = voltage[k + 1];
  const m0 = slope[k] * h;
  const m1 = slope[k + 1] * h;
  return v0 + u * (m0 + u * (3 * (v1 - v0) - 2 * m0 - m1 + u * (2 * (v0 - v1) + m0 + m1)));
}

/** (4) Factor on a resistance [1] at `temperature` [K] for activation θ [K]. */
export const resistanceFactor = (activation: number, temperature: number): number =>
  Math.exp(activation * (1 / temperature - 1 / CELL_REFERENCE));
