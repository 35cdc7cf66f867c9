/**
 * Reading a coefficient table: the inner loop of every operating point.
 *
 * (1) CT, CP = cubic Hermite between two rows, from their values and slopes
 * (2) linear in ln(Re) between two sheets
 * (3) below the first row the end value; above the last row CT, CP ∝ J²; a single row is a constant
 *
 * @module
 */

import type { CoefficientTable } from './coefficient-table.js';

/**
 * What `lookUp` reads and writes; made once, used again. Numbers go in and out by the record, since a call that takes or returns them
 * allocates one for each, and this runs in every evaluation.
 * All [1].
 */
export interface Coefficients {
  /** J, read [1]. */
  advanceRatio: number;
  /** ln(n·D²/ν), read where the table has several sheets [1]. */
  logReynolds: number;
  /** CT [1]. */
  thrustCoefficient: number;
  /** dCT/dJ [1]. */
  thrustSlope: number;
  /** d²CT/dJ² [1]. */
  thrustCurvature: number;
  /** ∂CT/∂ln(Re), and how it changes with J [1]. */
  thrustReynoldsSlope: number;
  thrustCrossSlope: number;
  /** CP [1]. */
  powerCoefficient: number;
  /** dCP/dJ [1]. */
  powerSlope: number;
  /** d²CP/dJ² [1]. */
  powerCurvature: number;
  /** ∂CP/∂ln(Re), and how it changes with J [1]. */
  powerReynoldsSlope: number;
  powerCrossSlope: number;
  /** Signed distance of the advance ratio from the supported range, 0 within [1]. */
  outside: number;
}

/** A record to be written over. */
export function emptyCoefficients(): Coefficients {
  return {
    advanceRatio: 0,
    logReynolds: 0,
    thrustCoefficient: 0,
    thrustSlope: 0,
    thrustCurvature: 0,
    thrustReynoldsSlope: 0,
    thrustCrossSlope: 0,
    powerCoefficient: 0,
    powerSlope: 0,
    powerCurvature: 0,
    powerReynoldsSlope: 0,
    powerCrossSlope: 0,
    outside: 0,
  };
}

/** Coefficients and slopes at an advance ratio and ln(disc Reynolds number), written into `out` (equations 2 and 3); as `lookUp`. */
export function evaluateTable(table: CoefficientTable, advanceRatio: number, logReynolds: number, out: Coefficients): void {
  out.advanceRatio = advanceRatio;
  out.logReynolds = logReynolds;
  lookUp(table, out);
}

/**
 * Coefficients and slopes at the record's advance ratio and ln(disc Reynolds number) (equations 2 and 3).
 * Allocates nothing and throws nothing: a NaN comes out as NaN.
 */
export function lookUp(table: CoefficientTable, out: Coefficients): void {
  const { advanceRatio } = out;
  const { supported } = table;
  out.outside =
    advanceRatio > supported.to ? advanceRatio - supported.to : advanceRatio < supported.from ? advanceRatio - supported.from : 0;
  if (table.logReynolds.length > 1) {
    blendSheets(table, out);
    return;
  }
  evaluateSheet(table, 0, out);
  out.thrustReynoldsSlope = out.thrustCrossSlope = 0;
  out.powerReynoldsSlope = out.powerCrossSlope = 0;
}

/** Equation 2. */
function blendSheets(table: CoefficientTable, out: Coefficients): void {
  const { logReynolds } = out;
  const sheets = table.logReynolds.length;
  let sheet = 0;
  let share = 0;
  let width = 0; // of the interval in ln Re; 0 where the end sheet is held
  if (logReynolds > table.logReynolds[0]) {
    while (sheet < sheets - 2 && logReynolds > table.logReynolds[sheet + 1]) sheet++;
    width = table.logReynolds[sheet + 1] - table.logReynolds[sheet];
    share = (logReynolds - table.logReynolds[sheet]) / width;
    if (share >= 1) {
      share = 1;
      width = 0;
    }
  }
  evaluateSheet(table, sheet, out);
  if (share > 0) {
    const thrust = out.thrustCoefficient;
    const thrustSlope = out.thrustSlope;
    const power = out.powerCoefficient;
    const powerSlope = out.powerSlope;
    const { thrustCurvature, powerCurvature } = out;
    evaluateSheet(table, sheet + 1, out);
    out.thrustCrossSlope = width > 0 ? (out.thrustSlope - thrustSlope) / width : 0;
    out.powerCrossSlope = width > 0 ? (out.powerSlope - powerSlope) / width : 0;
    out.thrustCurvature = thrustCurvature + share * (out.thrustCurvature - thrustCurvature);
    out.powerCurvature = powerCurvature + share * (out.powerCurvature - powerCurvature);
    out.thrustReynoldsSlope = width > 0 ? (out.thrustCoefficient - thrust) / width : 0;
    out.powerReynoldsSlope = width > 0 ? (out.powerCoefficient - power) / width : 0;
    out.thrustCoefficient = thrust + share * (out.thrustCoefficient - thrust);
    out.thrustSlope = thrustSlope + share * (out.thrustSlope - thrustSlope);
    out.powerCoefficient = power + share * (out.powerCoefficient - power);
    out.powerSlope = powerSlope + share * (out.powerSlope - powerSlope);
  } else {
    out.thrustReynoldsSlope = out.thrustCrossSlope = 0;
    out.powerReynoldsSlope = out.powerCrossSlope = 0;
  }
}

/** Index of the first row of the interval that holds the record's advance ratio, which lies within the rows. */
function search(x: Float64Array, { advanceRatio }: Coefficients): number {
  let low = 0;
  let high = x.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle] <= advanceRatio) low = middle;
    else high = middle;
  }
  return low;
}

function evaluateSheet(table: CoefficientTable, sheet: number, out: Coefficients): void {
  const { advanceRatio: x, pieces, evenRows } = table;
  const { advanceRatio } = out;
  const intervals = x.length - 1;
  if (intervals === 0 || advanceRatio <= x[0] || advanceRatio > x[intervals]) {
    evaluateEnd(table, sheet, out);
    return;
  }
  const index = evenRows > 0 ? Math.min(((advanceRatio - x[0]) * evenRows) | 0, intervals - 1) : search(x, out);
  const s = advanceRatio - x[index];
  const o = 8 * (sheet * intervals + index);
  const thrustC = pieces[o + 2];
  const thrustD = pieces[o + 3] * s;
  out.thrustCoefficient = pieces[o] + s * (pieces[o + 1] + s * (thrustC + thrustD));
  out.thrustSlope = pieces[o + 1] + s * (2 * thrustC + 3 * thrustD);
  out.thrustCurvature = 2 * thrustC + 6 * thrustD;
  const powerC = pieces[o + 6];
  const powerD = pieces[o + 7] * s;
  out.powerCoefficient = pieces[o + 4] + s * (pieces[o + 5] + s * (powerC + powerD));
  out.powerSlope = pieces[o + 5] + s * (2 * powerC + 3 * powerD);
  out.powerCurvature = 2 * powerC + 6 * powerD;
}

/** The first row or below it, or beyond the last one. */
function evaluateEnd(table: CoefficientTable, sheet: number, out: Coefficients): void {
  const { advanceRatio } = out;
  const x = table.advanceRatio;
  const rows = x.length;
  const base = sheet * rows;
  if (advanceRatio <= x[0]) {
    const held = advanceRatio < x[0];
    out.thrustCoefficient = table.thrust[base];
    out.powerCoefficient = table.power[base];
    out.thrustSlope = held ? 0 : table.thrustSlope[base];
    out.powerSlope = held ? 0 : table.powerSlope[base];
    out.thrustCurvature = held ? 0 : 2 * table.pieces[8 * sheet * (rows - 1) + 2];
    out.powerCurvature = held ? 0 : 2 * table.pieces[8 * sheet * (rows - 1) + 6];
    return;
  }
  const end = base + rows - 1;
  const ratio = advanceRatio / x[rows - 1];
  out.thrustCoefficient = table.thrust[end] * ratio * ratio;
  out.powerCoefficient = table.power[end] * ratio * ratio;
  out.thrustSlope = (2 * out.thrustCoefficient) / advanceRatio;
  out.powerSlope = (2 * out.powerCoefficient) / advanceRatio;
  out.thrustCurvature = out.thrustSlope / advanceRatio;
  out.powerCurvature = out.powerSlope / advanceRatio;
}
