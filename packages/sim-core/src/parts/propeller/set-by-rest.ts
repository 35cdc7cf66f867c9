/**
 * A calculated propeller that was measured at rest: the reading sets the angle of its blades and its level, its own shape carries both to speed.
 *
 * (1) δ: least (δ/σ)² + rᵀ·C⁻¹·r,  r(δ) = ln(calculated/measured) of thrust and power where they were read
 * (2) C = s²·[[1, ½], [½, 1]] + (e² + u²·S²)·[[1, 0], [0, 1]]      section and reading; a stalled blade besides
 * (3) S = 1/(1 + (19°/θ)⁸)                                       share of stall at rest, θ the angle at 0.75 R
 * (4) CT(J) = calculated·exp(−r·(w + (1 − w)·max(0, 1 − 2J/J_0))),  w = s²/(s² + u²·S²), CP likewise
 * (5) σ' = σ at the curvature of (1)
 *
 * so that the reading itself is given back; what a steep, stalled blade is off at rest (its pitch over 0.8 of the diameter) is not carried to speed.
 * *Holds for* readings in still air. *Source*: conditional mean of normal errors (any textbook of estimation); s 12 %, u 30 %, 19° and the end of (4) at
 * half the advance ratio without thrust from 137 propellers of the UIUC Propeller Database (test/measured/propellers.ts; docs/theory.md).
 *
 * @module
 */

import { type Rotor, rotorCoefficients } from './blade-element.js';
import { bladeFan, lastAdvanceRatio, turned, ZERO_THRUST } from './blade-table.js';
import { emptyCoefficients, evaluateTable } from './coefficient-lookup.js';
import { type CoefficientTable, scaledTable } from './coefficient-table.js';
import type { TableFan } from './table-fan.js';

/** What was read at rest. Coefficients [1]. */
export interface RestReading {
  /** n·D²/ν [1]. */
  readonly discReynolds: number;
  /** CT and CP; one of them may be missing [1]. */
  readonly thrustCoefficient: number | undefined;
  readonly powerCoefficient: number | undefined;
  /** e — standard deviation as a share [1]. */
  readonly error: number;
}

const SECTION = 0.12;
const STALL = 0.3;
const STALL_ANGLE = (19 * Math.PI) / 180;
const FADED_AT = 0.5;
/** Angles tried, in standard deviations. */
const TRIED = 3;
const TRIES = 24;

/** What the reading at rest sets. Angles [rad], factors [1]. */
export interface SetByRest {
  readonly fan: TableFan;
  /** δ and half-width of its 95 % interval [rad]. */
  readonly angle: number;
  readonly angleError: number;
}

const Z95 = 1.959964;

/** `angleError` is the half-width that the angle has without the reading [rad]. Throws RangeError as the blade elements do. */
export function setByRest(rotor: Rotor, reading: RestReading, angleError: number): SetByRest {
  const sigma = angleError / Z95;
  const { radius, twist } = nearest(rotor);
  const pitchAngle = Math.atan((radius / 0.75) * Math.tan(twist));
  const stall = STALL / (1 + (STALL_ANGLE / Math.max(pitchAngle, 1e-3)) ** 8);
  const misfit = (angle: number): number => {
    const at = rotorCoefficients(turned(rotor, angle), 0, reading.discReynolds);
    return (angle / sigma) ** 2 + distance(logRatios(at, reading), SECTION ** 2, reading.error ** 2 + stall ** 2);
  };
  const step = (TRIED * sigma) / TRIES;
  const tries = Array.from({ length: 2 * TRIES + 1 }, (_, i) => (i - TRIES) * step);
  const values = tries.map(misfit);
  const best = Math.min(Math.max(values.indexOf(Math.min(...values)), 1), 2 * TRIES - 1);
  const [before, here, after] = values.slice(best - 1, best + 2);
  const bend = before - 2 * here + after; // of the parabola through three
  const angle = tries[best] + step * Math.max(-1, Math.min(1, bend > 0 ? (before - after) / (2 * bend) : 0));
  const left = Math.min(sigma, bend > 0 ? step * Math.sqrt(2 / bend) : sigma);

  const carried = SECTION ** 2 / (SECTION ** 2 + stall ** 2);
  const end = (FADED_AT * lastAdvanceRatio(turned(rotor, angle))) / ZERO_THRUST;
  const logReynolds = Math.log(reading.discReynolds);
  const point = emptyCoefficients();
  const giveBack = (table: CoefficientTable): CoefficientTable => {
    evaluateTable(table, 0, logReynolds, point);
    const [thrust, power] = logRatios(point, reading).map((ratio) => ratio ?? 0);
    const kept = (advanceRatio: number): number => carried + (1 - carried) * Math.max(0, 1 - advanceRatio / end);
    return scaledTable(table, (advanceRatio) => [Math.exp(-thrust * kept(advanceRatio)), Math.exp(-power * kept(advanceRatio))]);
  };
  return { fan: bladeFan(rotor, angle, Z95 * left, giveBack), angle, angleError: Z95 * left };
}

const nearest = (rotor: Rotor) =>
  rotor.elements.reduce((best, element) => (Math.abs(element.radius - 0.75) < Math.abs(best.radius - 0.75) ? element : best));

/** r of equation 1; undefined where nothing was read. */
function logRatios(
  { thrustCoefficient, powerCoefficient }: { readonly thrustCoefficient: number; readonly powerCoefficient: number },
  reading: RestReading,
): [number | undefined, number | undefined] {
  const ratio = (calculated: number, read: number | undefined) => (read === undefined ? undefined : Math.log(calculated / read));
  return [ratio(thrustCoefficient, reading.thrustCoefficient), ratio(powerCoefficient, reading.powerCoefficient)];
}

/** rᵀ·C⁻¹·r of equations 1 and 2. */
function distance([thrust, power]: readonly (number | undefined)[], section: number, own: number): number {
  const variance = section + own;
  if (thrust === undefined || power === undefined) return (thrust ?? power ?? 0) ** 2 / variance;
  const both = section / 2;
  return (variance * (thrust ** 2 + power ** 2) - 2 * both * thrust * power) / (variance ** 2 - both ** 2);
}
