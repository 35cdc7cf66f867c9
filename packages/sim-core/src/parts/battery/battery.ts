/**
 * Battery pack: N_s × N_p equal cells, each an open-circuit voltage, an ohmic resistance and one RC pair.
 *
 *   (1) v_cell = V_oc(s_s) − v_1 − R_0·f·i_cell               (2) ds/dt = −i/Q
 *   (3) dv_1/dt = (R_1·f·i_cell − v_1)/τ                       (4) e(T) = exp[θ·(1/T − 1/T_25)]
 *   (5) f(s, T) = (1 − c + c·e(T))·[1 + a·(exp(−s/b) − exp(−½/b))]     factor on both resistances; 1 at half charge and 25 °C
 *   (6) s_s = s − τ_s·e(T)·i_1/Q_cell,  i_1 = v_1/(R_1·f)      charge at the surface of the particles, which lags behind the mean
 *   (7) heat of one cell = R_0·f·i² + v_1²/(R_1·f)             (8) stored in the RC pair = ½·(τ/(R_1·f))·v_1²
 *
 * (6) is why a cell is empty before its charge is: the lag of a sphere's surface behind its mean under steady diffusion, R²/(15·D), taken with
 * the current that has passed the slow part; it grows with the current and, as diffusion slows down, in the cold.
 * *Holds for* discharge and moderate charge between cut-off and full. *Leaves out* entropic heat and that of mixing, ageing, spread among cells.
 * *Sign* current is positive on discharge.
 * *Source* M. Chen & G. A. Rincón-Mora, IEEE Trans. Energy Conversion 21(2), 2006 (one of its two RC pairs; shape of (5) over charge);
 * V. Subramanian, V. Diwakar & D. Tapriyal, J. Electrochem. Soc. 152(10) A2002, 2005, parabolic profile in a particle (6) (from memory);
 * (4) Arrhenius, on the share of charge transfer and diffusion; electrolyte and foils are taken as constant.
 *
 * @module
 */

import { ZERO_CELSIUS } from '../../quantities/constants.js';
import type { PlainNumbers, Quantities } from '../../quantities/index.js';

/** Temperature at which cells are described [K]. */
export const CELL_REFERENCE = ZERO_CELSIUS + 25;

/** V_oc over state of charge on an even grid from 0 to 1 [V], with slopes per unit of charge; made by `open-circuit.ts`. */
export interface OpenCircuitCurve {
  readonly name: string;
  readonly voltage: Float64Array;
  readonly slope: Float64Array;
}

/** A pack. */
export interface Battery<N extends Quantities = PlainNumbers> {
  readonly chemistry: string;
  /** Number of cells in a row [1]. */
  readonly cellsInSeries: number;
  /** Number of rows side by side [1]. */
  readonly cellsInParallel: number;
  /** Q — charge of the pack from full to empty [A·s]. */
  readonly capacity: N['charge'];
  /** R_0 — ohmic resistance of one cell at 25 °C [Ω]. */
  readonly cellResistance: N['resistance'];
  /** R_1 — resistance of one cell's RC pair at 25 °C [Ω]. */
  readonly polarisationResistance: N['resistance'];
  /** τ — time constant of the RC pair [s]. */
  readonly polarisationTime: N['time'];
  /** θ — activation temperature of charge transfer and diffusion [K]. */
  readonly activation: N['temperatureDifference'];
  /** c — share of the resistance at 25 °C that is activated [1]. */
  readonly activatedShare: N['fraction'];
  /** a — rise of the resistance towards empty, as a share of that at half charge [1]. */
  readonly emptyRise: N['ratio'];
  /** b — charge over which it rises [1]. */
  readonly emptyRiseWidth: N['fraction'];
  /** τ_s — lag of the surface's charge behind the mean at 25 °C [s]. */
  readonly surfaceLag: N['time'];
  /** Added to V_oc, the uncertainty of a chemistry's curve [V]. */
  readonly voltageOffset: N['voltage'];
  /** Mass [kg]. */
  readonly mass: N['mass'];
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

type Kinetics = Pick<Battery, 'activation' | 'activatedShare' | 'emptyRise' | 'emptyRiseWidth' | 'surfaceLag'>;

/** (4) e [1] at `temperature` [K]. */
export const activationFactor = ({ activation }: Pick<Kinetics, 'activation'>, temperature: number): number =>
  Math.exp(activation * (1 / temperature - 1 / CELL_REFERENCE));

/** (5) Factor on both resistances [1] at e [1] and state of charge [1]. */
export const resistanceFactor = (
  { activatedShare, emptyRise, emptyRiseWidth }: Omit<Kinetics, 'activation' | 'surfaceLag'>,
  activated: number,
  charge: number,
): number =>
  (1 + activatedShare * (activated - 1)) * (1 + emptyRise * (Math.exp(-charge / emptyRiseWidth) - Math.exp(-0.5 / emptyRiseWidth)));

/** (6) State of charge at the particles' surface [1]; `slow` is v_1 [V] of one cell and `factor` (5). */
export const surfaceCharge = (
  battery: Pick<Battery, 'surfaceLag' | 'polarisationResistance' | 'capacity' | 'cellsInParallel'>,
  activated: number,
  factor: number,
  charge: number,
  slow: number,
): number =>
  // a cell without a slow part has none of its voltage
  slow === 0
    ? charge
    : charge -
      (battery.surfaceLag * activated * slow * battery.cellsInParallel) / (battery.polarisationResistance * factor * battery.capacity);
