/**
 * Propeller coefficients from measured points: speed with thrust, torque or shaft power, at rest or under way.
 *
 * (1) n = ω/(2π),  J = V/(nD)
 * (2) CT = thrust/(ρ n² D⁴),  CP = 2π·torque/(ρ n² D⁵) or power/(ρ n³ D⁵)
 * (3) several points at one J: least squares of thrust over n², and of torque over n², so that the fastest points count most
 * (4) residual = √(mean (measured/fitted − 1)²) over the points of a quantity
 * (5) thrust and power of a propeller at rest: CP = CT^1.5·√(2/π)/M, M the figure of merit (momentum theory over real power)
 *
 * (6) known at rest alone: carried to speed by the usual fall; past the last point by the same (fall-with-speed.ts)
 *
 * *Holds for*: the propeller and fluid that were measured; several J make a table, below a single one under way it is held.
 * *Leaves out*: Reynolds dependence between the points (it shows as a residual). *Sign*: as in propeller-laws.ts.
 * *Source*: definitions; equation 5 H. Glauert, "Airplane propellers", in W. F. Durand (ed.), Aerodynamic Theory IV, 1935, hover limit.
 *
 *
 *
 * @module
 */

import { certain } from '../../problems/certain.js';
/** One measured point. */
import type { CoefficientRow, CoefficientTable } from './coefficient-table.js';
import { carriedPast, carriedToSpeed } from './fall-with-speed.js';
import type { TableFan } from './table-fan.js';

/** One measured point. */
export interface MeasuredPoint {
  /** ω [rad/s]. */
  readonly angularSpeed: number;
  /** V — speed of the fluid into the disc, 0 on a bench [m/s]. */
  readonly advanceSpeed?: number;
  /** [N]. */
  readonly thrust?: number;
  /** [N·m]; or give the shaft power. */
  readonly torque?: number;
  /** Power at the propeller's shaft, never the motor's input [W]. */
  readonly shaftPower?: number;
}

/** The measurement as a table, and how well it hangs together. Residuals [1]. */
export interface MeasuredTable {
  readonly table: CoefficientTable;
  /** Equation 4, 0 for a single point; absent where the quantity was not measured [1]. */
  readonly thrustResidual?: number;
  readonly powerResidual?: number;
  /** Which coefficient came from the figure of merit and not from a measurement. */
  readonly estimated?: 'thrust' | 'power';
  /** Where it was measured at rest alone: what it does at speed is the usual, which reaches more or less far. */
  readonly carried?: TableFan;
}

/**
 * Figure of merit M of small air propellers at rest with its 95 % half-width: mean and twice the scatter of the highest static speed
 * of eight propellers of the UIUC Propeller Database (test/checks/air-propellers.test.ts computes it).
 */
export const STATIC_FIGURE_OF_MERIT = { value: 0.55, halfWidth: 0.25 } as const;

/** Below this a propeller counts as standing in still fluid [1]. */
const AT_REST = 0.03;
/** Advance ratios nearer than this are one point measured again. */
const SAME_ADVANCE_RATIO = 0.005;

/**
 * Equations 1 to 6. `density` is that of the fluid during the measurement [kg/m³].
 * Throws RangeError for no points, a value that cannot be, or a quantity that is missing where no estimate is possible.
 */
export function tableFromMeasuredPoints(
  points: readonly MeasuredPoint[],
  diameter: number,
  density: number,
  medium: 'air' | 'water' = 'air',
): MeasuredTable {
  if (points.length === 0) throw new RangeError('give at least one measured point: a speed with thrust, torque or shaft power');
  if (!(diameter > 0) || !(density > 0)) throw new RangeError('diameter and density of the measurement must be positive');
  const samples = points.map((point, index) => readPoint(point, index, diameter, density)).sort((a, b) => a.advanceRatio - b.advanceRatio);
  const groups: Sample[][] = [];
  for (const sample of samples) {
    const group = groups.at(-1);
    if (group && sample.advanceRatio - group[0].advanceRatio < SAME_ADVANCE_RATIO) group.push(sample);
    else groups.push([sample]);
  }
  const thrust = fitGroups(groups, (sample) => sample.thrust);
  const power = fitGroups(groups, (sample) => sample.power);
  const estimated = power === undefined ? 'power' : thrust === undefined ? 'thrust' : undefined;
  if (estimated && (groups.length > 1 || groups[0][0].advanceRatio > 0)) {
    throw new RangeError(`measured points under way need both thrust and torque (or shaft power); ${estimated} is missing`);
  }
  const rows = groups.map((group, index): CoefficientRow => {
    const merit = Math.sqrt(2 / Math.PI) / STATIC_FIGURE_OF_MERIT.value;
    const powerCoefficient = power
      ? power.values[index]
      : merit * positive(certain(thrust, 'thrust where there is no power').values[index], 'thrust') ** 1.5;
    const thrustCoefficient = thrust ? thrust.values[index] : (positive(powerCoefficient, 'power') / merit) ** (2 / 3);
    return {
      advanceRatio: group.reduce((sum, sample) => sum + sample.advanceRatio, 0) / group.length,
      thrustCoefficient,
      powerCoefficient,
    };
  });
  const carried = rows.length === 1 && rows[0].advanceRatio < AT_REST ? carriedToSpeed(rows[0], medium) : undefined;
  return {
    table: carried?.table ?? carriedPast(rows, medium),
    ...(carried && { carried }),
    ...(thrust && { thrustResidual: thrust.residual }),
    ...(power && { powerResidual: power.residual }),
    ...(estimated && { estimated }),
  };
}

/** A point as coefficients; the weight is n⁴, which makes a mean of coefficients the least squares of equation 3. */
interface Sample {
  readonly advanceRatio: number;
  readonly weight: number;
  readonly thrust: number | undefined;
  readonly power: number | undefined;
}

function readPoint(point: MeasuredPoint, index: number, diameter: number, density: number): Sample {
  const { angularSpeed, advanceSpeed = 0, thrust, torque, shaftPower } = point;
  const where = `measured point ${index + 1}`;
  if (!(angularSpeed > 0) || !Number.isFinite(angularSpeed)) throw new RangeError(`${where}: the shaft speed must be positive and finite`);
  if (!(advanceSpeed >= 0) || !Number.isFinite(advanceSpeed)) throw new RangeError(`${where}: the speed of advance must not be negative`);
  for (const value of [thrust, torque, shaftPower]) {
    if (value !== undefined && !Number.isFinite(value)) throw new RangeError(`${where} holds a value that is not a finite number`);
  }
  if (thrust === undefined && torque === undefined && shaftPower === undefined) {
    throw new RangeError(`${where} has neither thrust nor torque nor shaft power`);
  }
  if (torque !== undefined && shaftPower !== undefined && Math.abs(torque * angularSpeed - shaftPower) > 0.02 * Math.abs(shaftPower)) {
    throw new RangeError(
      `${where}: torque times speed is ${torque * angularSpeed} W, but the shaft power says ${shaftPower} W; give one of them`,
    );
  }
  const speed = angularSpeed / (2 * Math.PI);
  const scale = density * speed ** 2 * diameter ** 4;
  const turning = torque ?? (shaftPower === undefined ? undefined : shaftPower / angularSpeed);
  return {
    advanceRatio: advanceSpeed / (speed * diameter),
    weight: speed ** 4,
    thrust: thrust === undefined ? undefined : thrust / scale,
    power: turning === undefined ? undefined : (2 * Math.PI * turning) / (scale * diameter),
  };
}

/** Equations 3 and 4; undefined where no point has the quantity. Throws RangeError where only some advance ratios have it. */
function fitGroups(
  groups: readonly (readonly Sample[])[],
  take: (sample: Sample) => number | undefined,
): { readonly values: readonly number[]; readonly residual: number } | undefined {
  const values: number[] = [];
  let squares = 0;
  let count = 0;
  for (const group of groups) {
    const measured = group.flatMap((sample) => {
      const taken = take(sample);
      return taken === undefined ? [] : [{ taken, weight: sample.weight }];
    });
    if (measured.length === 0) continue;
    const weight = measured.reduce((sum, sample) => sum + sample.weight, 0);
    const value = measured.reduce((sum, { weight: own, taken }) => sum + own * taken, 0) / weight;
    values.push(value);
    for (const { taken } of measured) squares += value === 0 ? 0 : (taken / value - 1) ** 2;
    count += measured.length;
  }
  if (values.length === 0) return undefined;
  if (values.length < groups.length) throw new RangeError('every advance ratio of the measured points needs the same quantities');
  return { values, residual: Math.sqrt(squares / count) };
}

function positive(value: number, name: string): number {
  if (!(value > 0)) throw new RangeError(`the other coefficient can be estimated from a positive ${name} only, not from ${value}`);
  return value;
}
