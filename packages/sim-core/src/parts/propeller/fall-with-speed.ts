import { type CoefficientRow, type CoefficientTable, createCoefficientTable } from './coefficient-table.js';

/**
 * How thrust and power of a propeller fall with speed when only a measurement at rest is known.
 *
 * (1) J0 = k·CP(0)/CT(0)            advance ratio at which the thrust vanishes; k 1.53 ± 0.45 in air, 1.15 ± 0.2 in water (95 %)
 * (2) CT(J) = CT(0)·a(J/J0),  CP(J) = CP(0)·b(J/J0)
 *
 * a scatters by 0.07, b by 0.08 from propeller to propeller, less than J0 itself. *Holds for* fixed blades of one pitch in air, broad-bladed
 * screws in water; past J/J0 1.1 (air) it is this program's own blade elements and no measurement. *Leaves out* Reynolds dependence.
 * *Source*: air, means over ten propellers of the UIUC Propeller Database; water, means over the Wageningen B series, 2 to 5 blades, AE/A0
 * 0.35–0.8, P/D 0.6–1.4. test/checks/fall-with-speed.test.ts computes both from the data.
 */
export interface FallWithSpeed {
  /** k [1]. */
  readonly reach: number;
  /** J/J0, a and b, from rest on [1]. */
  readonly rows: readonly (readonly [share: number, thrust: number, power: number])[];
}

export const FALL_WITH_SPEED: Readonly<Record<'air' | 'water', FallWithSpeed>> = {
  air: {
    reach: 1.53,
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

/** Equations 1 and 2 from coefficients at rest; supported at rest alone. Throws RangeError where one of them is not positive. */
export function carriedToSpeed(rest: CoefficientRow, medium: 'air' | 'water'): CoefficientTable {
  const { thrustCoefficient, powerCoefficient } = rest;
  if (!(thrustCoefficient > 0 && powerCoefficient > 0)) throw new RangeError('a propeller at rest has positive thrust and takes power');
  const { reach, rows } = FALL_WITH_SPEED[medium];
  const end = (reach * powerCoefficient) / thrustCoefficient;
  const table = createCoefficientTable(
    rows.map(([share, thrust, power]) => ({
      advanceRatio: share * end,
      thrustCoefficient: thrust * thrustCoefficient,
      powerCoefficient: power * powerCoefficient,
    })),
  );
  return { ...table, supported: { from: 0, to: 0 } };
}
