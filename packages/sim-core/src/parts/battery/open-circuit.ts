/**
 * Open-circuit voltage of one cell over state of charge, by chemistry or from a table, on an even grid.
 *
 *   (1) lithium-polymer: V = −1.031·e^(−35s) + 3.685 + 0.2156s − 0.1178s² + 0.3201s³
 *   (2) nickel-metal-hydride: V = E_0 − K/s + A·e^(−B·Q·(1 − s))
 *
 * *Holds for* rest at 25 °C. *Leaves out* hysteresis, temperature, ageing.
 * *Source* (1) M. Chen & G. A. Rincón-Mora, IEEE Trans. Energy Conversion 21(2), 2006, eq. 2. lithium-ion: half-cell fits of C.-H. Chen et al.,
 * J. Electrochem. Soc. 167 (2020) 080534. lithium-iron-phosphate: C/30 data published with G. L. Plett, Battery Management Systems
 * vol. 1, 2015. (2) Tremblay, Dessaint & Dekkiche, IEEE VPPC 2007, 6.5 A·h cell (from memory).
 *
 * @module
 */

import { monotoneCubic, monotoneCubicAt } from '../../numerics/interpolation.js';
import type { OpenCircuitCurve } from './battery.js';

const GRID = 400;

/** (1) V_oc [V] at state of charge s [1]. */
export const polymerVoltage = (s: number): number => -1.031 * Math.exp(-35 * s) + 3.685 + 0.2156 * s - 0.1178 * s ** 2 + 0.3201 * s ** 3;

/** (2) V_oc [V] at state of charge s [1]; the pole at s = 0 is cut at 2 %. */
export const hydrideVoltage = (s: number): number => 1.2816 - 0.0014 / Math.max(s, 0.02) + 0.111 * Math.exp(-2.3077 * 6.5 * (1 - s));

type Row = readonly [charge: number, voltage: number];
const IRON_PHOSPHATE: readonly Row[] = [
  [0.0, 2.1606],
  [0.02, 2.8536],
  [0.05, 3.0373],
  [0.1, 3.1834],
  [0.15, 3.2186],
  [0.2, 3.245],
  [0.25, 3.2641],
  [0.3, 3.2798],
  [0.35, 3.2916],
  [0.4, 3.3016],
  [0.45, 3.3058],
  [0.5, 3.3081],
  [0.55, 3.3116],
  [0.6, 3.3168],
  [0.65, 3.3228],
  [0.7, 3.3303],
  [0.75, 3.3409],
  [0.8, 3.3453],
  [0.85, 3.3478],
  [0.9, 3.3518],
  [0.95, 3.3658],
  [1.0, 3.59],
];
const LITHIUM_ION: readonly Row[] = [
  [0.0, 2.5],
  [0.02, 2.8598],
  [0.05, 3.1067],
  [0.1, 3.2923],
  [0.15, 3.4314],
  [0.2, 3.4835],
  [0.25, 3.526],
  [0.3, 3.5781],
  [0.35, 3.626],
  [0.4, 3.664],
  [0.45, 3.7015],
  [0.5, 3.7459],
  [0.55, 3.7931],
  [0.6, 3.8354],
  [0.65, 3.8816],
  [0.7, 3.9405],
  [0.75, 3.987],
  [0.8, 4.0342],
  [0.85, 4.0757],
  [0.9, 4.0947],
  [0.95, 4.1144],
  [1.0, 4.1809],
];

/** What is known of a kind of cell. */
export type CellChemistry = 'lithium-polymer' | 'lithium-ion' | 'lithium-iron-phosphate' | 'nickel-metal-hydride';

/** Curve on the even grid from a function of state of charge; slopes by differences of second order. */
function curveFrom(name: string, voltageAt: (charge: number) => number): OpenCircuitCurve {
  const voltage = new Float64Array(GRID + 1);
  const slope = new Float64Array(GRID + 1);
  const step = 1e-5;
  for (let k = 0; k <= GRID; k++) {
    const s = k / GRID;
    voltage[k] = voltageAt(s);
    // second order at both ends too, where only one side lies in the range
    slope[k] =
      k === 0
        ? (4 * voltageAt(step) - 3 * voltageAt(0) - voltageAt(2 * step)) / (2 * step)
        : k === GRID
          ? (3 * voltageAt(1) - 4 * voltageAt(1 - step) + voltageAt(1 - 2 * step)) / (2 * step)
          : (voltageAt(s + step) - voltageAt(s - step)) / (2 * step);
  }
  return { name, voltage, slope };
}

/** Curve through a table of at least two rows, charge strictly increasing. Throws RangeError otherwise. */
export function curveFromTable(name: string, rows: readonly Row[]): OpenCircuitCurve {
  if (rows.length < 2 || rows.some((row, k) => k > 0 && row[0] <= rows[k - 1][0])) {
    throw new RangeError('an open-circuit table needs at least two rows with the charge rising from row to row');
  }
  const cubic = monotoneCubic(
    rows.map((row) => row[0]),
    rows.map((row) => row[1]),
  );
  const [first, last] = [rows[0][0], rows[rows.length - 1][0]];
  return curveFrom(name, (s) => monotoneCubicAt(cubic, Math.min(last, Math.max(first, s))));
}

/** Published curve of a chemistry. */
export function openCircuitCurve(chemistry: CellChemistry): OpenCircuitCurve {
  switch (chemistry) {
    case 'lithium-polymer':
      return curveFrom(chemistry, polymerVoltage);
    case 'nickel-metal-hydride':
      return curveFrom(chemistry, hydrideVoltage);
    case 'lithium-ion':
      return curveFromTable(chemistry, LITHIUM_ION);
    case 'lithium-iron-phosphate':
      return curveFromTable(chemistry, IRON_PHOSPHATE);
  }
}
