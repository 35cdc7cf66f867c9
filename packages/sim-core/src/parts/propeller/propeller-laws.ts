/**
 * Thrust and torque of a turning propeller from its coefficient table.
 *
 * (1) n = ω/(2π),  J = V/(n·D)
 * (2) thrust = f_T·ρ n² D⁴·CT(J, ln(n·D²/ν))
 * (3) torque = f_P·ρ n² D⁵·CP(J, ln(n·D²/ν))/(2π)
 * (4) d(torque)/dω = f_P·ρ n D⁵/(2π)²·(2 CP − J·CP' + ∂CP/∂ln Re), and likewise for thrust
 *     d²(torque)/dω² = f_P·ρ D⁵/(2π)³·(2 CP − 2J·CP' + J²·CP'' + 3 ∂CP/∂ln Re − 2J·∂CP'/∂ln Re)
 * (5) beyond the last row, and at rest: thrust = f_T·ρ V² D²·CT_last/J_last², torque = f_P·ρ V² D³·CP_last/(2π·J_last²),
 *     the same law written without n, finite where n vanishes
 *
 * *Holds for*: ω ≥ 0, V ≥ 0. At ω ≤ 0 equation 5 stands (a turning-back propeller is treated as a stopped one, and `outside` is
 * infinite where V > 0); at V < 0 the first row is held (`outside` negative).
 * *Leaves out*: inflow that is not axial, unsteady wake, water or ground near the disc.
 * *Sign*: thrust forward; torque that the shaft must supply; a negative torque drives the shaft.
 * *Source*: dimensional analysis; definitions as in coefficient-table.ts.
 *
 * @module
 */

import { type Coefficients, emptyCoefficients, lookUp } from './coefficient-lookup.js';
import type { CoefficientTable } from './coefficient-table.js';

/** A propeller as the solver knows it. */
export interface Propeller {
  /** D — diameter [m]. */
  readonly diameter: number;
  readonly table: CoefficientTable;
  /** f_T — factor on every thrust coefficient; carries its uncertainty, nominally 1 [1]. */
  readonly thrustFactor: number;
  /** f_P — factor on every power coefficient; carries its uncertainty, nominally 1 [1]. */
  readonly powerFactor: number;
}

/** The fluid that the propeller works in. */
export interface PropellerMedium {
  /** ρ — density [kg/m³]. */
  readonly density: number;
  /** ν — kinematic viscosity [m²/s]. */
  readonly kinematicViscosity: number;
}

/** What `turnPropeller` reads and writes; made once, used again. */
export interface PropellerPoint {
  /** ω, read [rad/s]. */
  angularSpeed: number;
  /** V — speed of advance, read [m/s]. */
  advanceSpeed: number;
  /** [N]. */
  thrust: number;
  /** [N·m]. */
  torque: number;
  /** dT/dω at fixed V [N·s/rad]. */
  thrustSlope: number;
  /** dQ/dω at fixed V [N·m·s/rad]. */
  torqueSlope: number;
  /** d²T/dω² at fixed V [N·s²/rad²]; NaN beyond the table. */
  thrustCurvature: number;
  /** d²Q/dω² at fixed V [N·m·s²/rad²]; NaN beyond the table. */
  torqueCurvature: number;
  /** J; infinite at rest in a stream, 0 at rest in still fluid [1]. */
  advanceRatio: number;
  /** Signed distance of J from what the table's data stand behind, 0 within [1]. */
  outside: number;
  /** What the table gave at J, or at its last row where J lies beyond. */
  readonly coefficients: Coefficients;
}

/** A record to be written over. */
export function emptyPropellerPoint(): PropellerPoint {
  return {
    angularSpeed: 0,
    advanceSpeed: 0,
    thrust: 0,
    torque: 0,
    thrustSlope: 0,
    torqueSlope: 0,
    thrustCurvature: 0,
    torqueCurvature: 0,
    advanceRatio: 0,
    outside: 0,
    coefficients: emptyCoefficients(),
  };
}

const TURN = 2 * Math.PI;
/** Revolutions per radian. */
const REVOLUTION = 1 / TURN;

/**
 * Equations 1–5 at shaft speed ω [rad/s] and speed of advance V [m/s] (the vehicle's, less any wake), written into `out`.
 * Throws nothing.
 */
export function evaluatePropeller(
  propeller: Propeller,
  medium: PropellerMedium,
  angularSpeed: number,
  advanceSpeed: number,
  out: PropellerPoint,
): void {
  out.angularSpeed = angularSpeed;
  out.advanceSpeed = advanceSpeed;
  turnPropeller(propeller, medium, out);
}

/** Equations 1–5 at the record's shaft speed and speed of advance. Allocates nothing, throws nothing. */
export function turnPropeller(propeller: Propeller, medium: PropellerMedium, out: PropellerPoint): void {
  const { table, diameter, thrustFactor, powerFactor } = propeller;
  const { coefficients, angularSpeed, advanceSpeed } = out;
  const rows = table.advanceRatio.length;
  const lastAdvanceRatio = table.advanceRatio[rows - 1];
  const speed = angularSpeed > 0 ? angularSpeed * REVOLUTION : 0;
  const advanceRatio = speed > 0 ? advanceSpeed / (speed * diameter) : restingAdvanceRatio(advanceSpeed);
  const beyond = rows > 1 && advanceRatio > lastAdvanceRatio;
  out.advanceRatio = advanceRatio;
  coefficients.advanceRatio = beyond ? lastAdvanceRatio : advanceRatio;
  if (table.logReynolds.length > 1) coefficients.logReynolds = Math.log((speed * diameter * diameter) / medium.kinematicViscosity);
  lookUp(table, coefficients);
  if (beyond) {
    const scale = (medium.density * advanceSpeed * advanceSpeed * diameter * diameter) / (lastAdvanceRatio * lastAdvanceRatio);
    const thrustScale = thrustFactor * scale;
    const torqueScale = (powerFactor * scale * diameter) / TURN;
    out.thrust = thrustScale * coefficients.thrustCoefficient;
    out.torque = torqueScale * coefficients.powerCoefficient;
    out.thrustSlope = angularSpeed > 0 ? (thrustScale * coefficients.thrustReynoldsSlope) / angularSpeed : 0;
    out.torqueSlope = angularSpeed > 0 ? (torqueScale * coefficients.powerReynoldsSlope) / angularSpeed : 0;
    out.thrustCurvature = out.torqueCurvature = Number.NaN;
    out.outside = advanceRatio - table.supported.to;
    return;
  }
  const { thrustCoefficient, powerCoefficient } = coefficients;
  const square = diameter * diameter;
  const perSquare = medium.density * square * square; // ρ D⁴
  const thrustScale = thrustFactor * perSquare;
  const torqueScale = powerFactor * perSquare * diameter * REVOLUTION;
  out.thrust = thrustScale * speed * speed * thrustCoefficient;
  out.torque = torqueScale * speed * speed * powerCoefficient;
  // an infinite advance ratio reaches this line only with a one-row table, whose slopes are 0
  const finite = advanceRatio < Infinity ? advanceRatio : 0;
  const thrustByAdvance = finite * coefficients.thrustSlope;
  const powerByAdvance = finite * coefficients.powerSlope;
  const perRadian = REVOLUTION * speed;
  out.thrustSlope = thrustScale * perRadian * (2 * thrustCoefficient - thrustByAdvance + coefficients.thrustReynoldsSlope);
  out.torqueSlope = torqueScale * perRadian * (2 * powerCoefficient - powerByAdvance + coefficients.powerReynoldsSlope);
  const bend = REVOLUTION * REVOLUTION;
  out.thrustCurvature =
    thrustScale *
    bend *
    (2 * (thrustCoefficient - thrustByAdvance) +
      finite * (finite * coefficients.thrustCurvature - 2 * coefficients.thrustCrossSlope) +
      3 * coefficients.thrustReynoldsSlope);
  out.torqueCurvature =
    torqueScale *
    bend *
    (2 * (powerCoefficient - powerByAdvance) +
      finite * (finite * coefficients.powerCurvature - 2 * coefficients.powerCrossSlope) +
      3 * coefficients.powerReynoldsSlope);
  out.outside = coefficients.outside;
}

function restingAdvanceRatio(advanceSpeed: number): number {
  return advanceSpeed > 0 ? Infinity : advanceSpeed < 0 ? -Infinity : 0;
}

/** Efficiency J·CT/CP of a point: thrust power over shaft power; 0 at rest [1]. Negative or above 1 where the propeller brakes. */
export function propellerEfficiency(advanceRatio: number, thrustCoefficient: number, powerCoefficient: number): number {
  return advanceRatio === 0 ? 0 : (advanceRatio * thrustCoefficient) / powerCoefficient;
}
