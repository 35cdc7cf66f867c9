/**
 * How thrust and power of a propeller go on where a table or a measurement ends: from rest to speed, and past the last row.
 *
 * (1) J0 = k·CP(0)/CT(0)            advance ratio at which the thrust vanishes; k 1.53 in air, 1.15 in water; × or ÷ e^0.38 and e^0.17 (95 %)
 * (2) CT(J) = CT(0)·a(J/J0),  CP(J) = CP(0)·b(J/J0)
 * (3) past a last row that still pulls: the same a and b through that row, J0 where the straight line through the last two rows meets 0, within
 *     1.05 and 2 times the last advance ratio
 * (4) least power: CP ≥ ½·CT·(J + √(J² + 8·CT/π)), momentum theory
 *
 * a and b scatter by 0.08 from propeller to propeller, less than J0 itself. *Holds for* fixed blades of one pitch in air, broad-bladed
 * screws in water; past J/J0 1.1 (air) it is this program's own blade elements and no measurement. *Leaves out* Reynolds dependence.
 * *Source*: air, means over ten propellers of the UIUC Propeller Database; water, means over the Wageningen B series, 2 to 5 blades, AE/A0
 * 0.35–0.8, P/D 0.6–1.4. test/checks/outside/propellers.ts computes both from the data; that
 * k scatters by 0.19 (standard deviation of ln k) is from 137 propellers of that database, each against the mean of the other makers.
 *
 * @module
 */

import { monotoneCubic, monotoneCubicAt } from '../../numerics/interpolation.js';
import { formatNumber } from '../../quantities/index.js';
import { type CoefficientRow, type CoefficientTable, createCoefficientTable } from './coefficient-table.js';
import { type TableFan, tableFan } from './table-fan.js';

/** How one propeller’s thrust falls. */
export interface FallWithSpeed {
  /** k [1]. */
  readonly reach: number;
  /** Half-width of the 95 % interval of ln k [1]. */
  readonly reachError: number;
  /** J/J0, a and b, from rest on [1]. */
  readonly rows: readonly (readonly [share: number, thrust: number, power: number])[];
}

/** The usual fall, in air and in water. */
export const FALL_WITH_SPEED: Readonly<Record<'air' | 'water', FallWithSpeed>> = {
  air: {
    reach: 1.53,
    reachError: 0.38,
    rows: [
      [0, 1, 1],
      [0.1, 0.961, 1.01],
      [0.2, 0.913, 0.997],
      [0.3, 0.847, 0.977],
      [0.4, 0.756, 0.942],
      [0.5, 0.654, 0.893],
      [0.6, 0.54, 0.814],
      [0.7, 0.42, 0.711],
      [0.8, 0.286, 0.581],
      [0.9, 0.149, 0.432],
      [1, 0, 0.26],
      [1.2, -0.27, -0.2],
      [1.4, -0.59, -0.8],
    ],
  },
  water: {
    reach: 1.15,
    reachError: 0.17,
    rows: [
      [0, 1, 1],
      [0.1, 0.933, 0.94],
      [0.2, 0.855, 0.874],
      [0.3, 0.768, 0.799],
      [0.4, 0.672, 0.718],
      [0.5, 0.57, 0.631],
      [0.6, 0.463, 0.537],
      [0.7, 0.351, 0.436],
      [0.8, 0.235, 0.33],
      [0.9, 0.118, 0.219],
      [1, 0, 0.102],
      [1.2, -0.256, -0.195],
      [1.4, -0.565, -0.523],
    ],
  },
};

/** Least and most place of J0 over the last advance ratio [1]. */
const NEAREST = 1.05;
const FARTHEST = 2;
/** Measurements scatter; what lies below this share of (4) is a slip [1]. */
const SLIP = 0.9;

/** Equation 3. The rows alone are supported. Throws RangeError as `createCoefficientTable` does, and for rows that break (4). */
export function carriedPast(rows: readonly CoefficientRow[], medium: 'air' | 'water'): CoefficientTable {
  rows.forEach(requireMomentum);
  const [before, last] = [rows.at(-2), rows.at(-1)];
  if (last === undefined) return createCoefficientTable(rows);
  // one row at rest says nothing of where thrust vanishes
  if (!(last.thrustCoefficient > 0) || !(last.advanceRatio > 0)) return createCoefficientTable(rows);
  const slope = before === undefined ? 0 : (last.thrustCoefficient - before.thrustCoefficient) / (last.advanceRatio - before.advanceRatio);
  const straight = slope < 0 ? last.advanceRatio - last.thrustCoefficient / slope : Number.POSITIVE_INFINITY;
  const end = Math.min(FARTHEST * last.advanceRatio, Math.max(NEAREST * last.advanceRatio, straight));
  const curve = FALL_WITH_SPEED[medium].rows;
  const share = last.advanceRatio / end;
  const after = curve.findIndex(([x]) => x > share);
  const [x0, a0, b0] = curve[after - 1];
  const [x1, a1, b1] = curve[after];
  const between = (share - x0) / (x1 - x0);
  const thrust = last.thrustCoefficient / (a0 + between * (a1 - a0));
  const power = last.powerCoefficient / (b0 + between * (b1 - b0));
  const beyond = curve
    .filter(([x]) => x * end > last.advanceRatio + 0.02 * end)
    .map(([x, a, b]) => ({ advanceRatio: x * end, thrustCoefficient: a * thrust, powerCoefficient: b * power }));
  return { ...createCoefficientTable([...rows, ...beyond]), supported: { from: rows[0].advanceRatio, to: last.advanceRatio } };
}

function requireMomentum({ advanceRatio, thrustCoefficient, powerCoefficient }: CoefficientRow): void {
  if (!(thrustCoefficient > 0)) return;
  const least = 0.5 * thrustCoefficient * (advanceRatio + Math.sqrt(advanceRatio ** 2 + (8 * thrustCoefficient) / Math.PI));
  if (powerCoefficient < SLIP * least)
    throw new RangeError(
      `at advance ratio ${formatNumber(advanceRatio)} a thrust coefficient of ${formatNumber(thrustCoefficient)} with a power coefficient of ` +
        `${formatNumber(powerCoefficient)}: momentum theory allows none below ${formatNumber(least)}; look at units, and at which power was measured`,
    );
}

/**
 * Equations 1 and 2 from coefficients at rest, over x = ln(k/k_usual); supported at rest alone. Throws RangeError where one of them is not positive,
 * or breaks (4).
 */
export function carriedToSpeed(rest: CoefficientRow, medium: 'air' | 'water'): TableFan {
  const { thrustCoefficient, powerCoefficient } = rest;
  if (!(thrustCoefficient > 0 && powerCoefficient > 0)) throw new RangeError('a propeller at rest has positive thrust and takes power');
  requireMomentum(rest);
  const { reach, reachError, rows } = FALL_WITH_SPEED[medium];
  const end = (reach * powerCoefficient) / thrustCoefficient;
  const shares = rows.map(([share]) => share);
  const last = shares[shares.length - 1];
  const [thrust, power] = [1, 2].map((column) => {
    const curve = monotoneCubic(
      shares,
      rows.map((row) => row[column]),
    );
    // past the last row as a table goes on: with the square of the advance ratio
    return (share: number) => monotoneCubicAt(curve, Math.min(share, last)) * Math.max(1, share / last) ** 2;
  });
  const at = (x: number): CoefficientTable => ({
    ...createCoefficientTable(
      shares.map((share) => ({
        advanceRatio: share * end,
        thrustCoefficient: thrust(share * Math.exp(-x)) * thrustCoefficient,
        powerCoefficient: power(share * Math.exp(-x)) * powerCoefficient,
      })),
    ),
    supported: { from: 0, to: 0 },
  });
  // further out it would give more than it takes
  return tableFan(0, reachError, at, 1);
}
