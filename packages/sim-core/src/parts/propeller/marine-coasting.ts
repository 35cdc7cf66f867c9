/**
 * The coefficient table of a marine screw, from standstill through the open-water range to the screw that the water drags along.
 *
 * (1) 0 ≤ J ≤ J0: the series' own cubics, CT = KT, CP = 2π·KQ;  J0 where KT = 0
 * (2) J > J0: CT = a·J² + b·J + c, CP likewise, meeting (1) at J0 in value and slope
 * (3) the screw held still (J → ∞) sets a: thrust/(ρV²D²) = −(π/8)·(AE/A0)·C_N·cos φ,  torque/(ρV²D³) = −(π/8)·(AE/A0)·C_N·sin φ·0.35,
 *     φ = atan((P/D)/(0.7π)): the blades as flat plates across the stream at 0.7 R
 *
 * Rule 2 says that thrust/V² and torque/V² run as a parabola in n/V from a locked screw to one that just gives no thrust. It is an
 * interpolation between two known ends and no measurement; the table marks it as unsupported. For many narrow blades of low pitch
 * the braking passes through up to 2.2 times the locked screw's on the way: the steep fall at J0 carried on.
 * *Holds for*: forward rotation or none. *Leaves out*: a screw turning backwards; stern and rudder behind a locked screw.
 * *Source*: C_N 1.2 for a locked screw's blades, L. Larsson & R. E. Eliasson, Principles of Yacht Design (from memory).
 *
 * @module
 */

import type { CoefficientTable } from './coefficient-table.js';
import { type MarineScrew, marineOpenWater } from './marine-series.js';
import { evaluatePolynomial, type Polynomial, polynomialSlope, tableFromPieces } from './polynomial-table.js';

/** Normal force coefficient of the blades of a stopped screw [1]. */
export const LOCKED_BLADE_NORMAL_COEFFICIENT = 1.2;

/** Past this multiple of J0 thrust/V² and torque/V² are held; they differ there by a few percent from the locked screw's. */
const HELD_FROM = 30;

/**
 * Equations 1 to 3 as a table; the speed is the speed of advance. `reynolds` as in `marineOpenWater`.
 * Throws RangeError for a screw outside the series.
 */
export function marineTable(screw: MarineScrew, reynolds?: number): CoefficientTable {
  const { thrust, torque, zeroThrust } = marineOpenWater(screw, reynolds);
  const power = torque.map((coefficient) => 2 * Math.PI * coefficient);
  const locked = lockedScrew(screw);
  return tableFromPieces(
    [
      { to: zeroThrust, thrust, power },
      {
        to: HELD_FROM * zeroThrust,
        thrust: coastingParabola(thrust, zeroThrust, locked.thrust),
        power: coastingParabola(power, zeroThrust, 2 * Math.PI * locked.torque),
      },
    ],
    zeroThrust,
  );
}

/** Equation 3: thrust/(ρV²D²) and torque/(ρV²D³) of a screw held still in a stream [1]. */
export function lockedScrew(screw: MarineScrew): { readonly thrust: number; readonly torque: number } {
  const pitchAngle = Math.atan(screw.pitchRatio / (0.7 * Math.PI));
  const normalForce = (Math.PI / 8) * screw.areaRatio * LOCKED_BLADE_NORMAL_COEFFICIENT;
  return { thrust: -normalForce * Math.cos(pitchAngle), torque: -normalForce * Math.sin(pitchAngle) * 0.35 };
}

/** Equation 2: c + b·J + a·J² with the cubic's value and slope at the joint. */
function coastingParabola(cubic: Polynomial, joint: number, quadratic: number): Polynomial {
  const linear = polynomialSlope(cubic, joint) - 2 * quadratic * joint;
  return [evaluatePolynomial(cubic, joint) - linear * joint - quadratic * joint ** 2, linear, quadratic];
}
