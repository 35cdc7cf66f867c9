import type { CoefficientTable } from './coefficient-table.js';

/**
 * Reading a coefficient table: the inner loop of every operating point.
 *
 * (1) CT, CP = cubic Hermite between two rows, from their values and slopes
 * (2) linear in ln(Re) between two sheets
 * (3) below the first row the end value; above the last row CT, CP ∝ J²; a single row is a constant
 */
/**
 * What `lookUp` reads and writes; made once, used again. Numbers go in and out by the record, since a call that takes or returns them
 * allocates one for each, and this runs in every evaluation.
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
  /** ∂CT/∂ln(Re) [1]. */
  thrustReynoldsSlope: number;
  /** CP [1]. */
  powerCoefficient: number;
  /** dCP/dJ [1]. */
  powerSlope: number;
  /** ∂CP/∂ln(Re) [1]. */
  powerReynoldsSlope: number;
  /** Signed distance of the advance ratio from the supported range, 0 within [1]. */
  outside: number;
}

export function emptyCoefficients(): Coefficients {
  return {
    advanceRatio: 0,
    logReynolds: 0,
    thrustCoefficient: 0,
    thrustSlope: 0,
    thrustReynoldsSlope: 0,
    powerCoefficient: 0,
    powerSlope: 0,
    powerReynoldsSlope: 0,
    outside: 0,
  };
}

/** Index of the first row of the interval that holds the advance ratio; the caller has made sure that it lies within the rows. */
function interval(table: CoefficientTable, advanceRatio: number): number {
  const x = table.advanceRatio;
  const last = x.length - 2;
  if (table.evenStep > 0) {
    const index = Math.floor((advanceRatio - x[0]!) / table.evenStep);
    return Math.min(index, last);
  }
  let low = 0;
  let high = last + 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle]! <= advanceRatio) low = middle;
    else high = middle;
  }
  return low;
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
  const { advanceRatio, logReynolds } = out;
  const sheets = table.logReynolds.length;
  let sheet = 0;
  let share = 0;
  let width = 0; // of the interval in ln Re; 0 where the end sheet is held
  if (sheets > 1 && logReynolds > table.logReynolds[0]!) {
    while (sheet < sheets - 2 && logReynolds > table.logReynolds[sheet + 1]!) sheet++;
    width = table.logReynolds[sheet + 1]! - table.logReynolds[sheet]!;
    share = (logReynolds - table.logReynolds[sheet]!) / width;
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
    evaluateSheet(table, sheet + 1, out);
    out.thrustReynoldsSlope = width > 0 ? (out.thrustCoefficient - thrust) / width : 0;
    out.powerReynoldsSlope = width > 0 ? (out.powerCoefficient - power) / width : 0;
    out.thrustCoefficient = thrust + share * (out.thrustCoefficient - thrust);
    out.thrustSlope = thrustSlope + share * (out.thrustSlope - thrustSlope);
    out.powerCoefficient = power + share * (out.powerCoefficient - power);
    out.powerSlope = powerSlope + share * (out.powerSlope - powerSlope);
  } else {
    out.thrustReynoldsSlope = 0;
    out.powerReynoldsSlope = 0;
  }
  const supported = table.supported;
  out.outside =
    advanceRatio > supported.to ? advanceRatio - supported.to : advanceRatio < supported.from ? advanceRatio - supported.from : 0;
}

function evaluateSheet(table: CoefficientTable, sheet: number, out: Coefficients): void {
  const { advanceRatio } = out;
  const x = table.advanceRatio;
  const rows = x.length;
  const base = sheet * rows;
  const last = x[rows - 1]!;
  if (rows === 1 || advanceRatio <= x[0]!) {
    const held = rows === 1 || advanceRatio < x[0]!;
    out.thrustCoefficient = table.thrust[base]!;
    out.powerCoefficient = table.power[base]!;
    out.thrustSlope = held ? 0 : table.thrustSlope[base]!;
    out.powerSlope = held ? 0 : table.powerSlope[base]!;
    return;
  }
  if (advanceRatio > last) {
    const end = base + rows - 1;
    const ratio = advanceRatio / last;
    out.thrustCoefficient = table.thrust[end]! * ratio * ratio;
    out.powerCoefficient = table.power[end]! * ratio * ratio;
    out.thrustSlope = (2 * out.thrustCoefficient) / advanceRatio;
    out.powerSlope = (2 * out.powerCoefficient) / advanceRatio;
    return;
  }
  const index = interval(table, advanceRatio);
  const i = base + index;
  const h = x[index + 1]! - x[index]!;
  const s = (advanceRatio - x[index]!) / h;
  // cubic Hermite in nested form: y = y0 + s·(h·m0 + s·(c + s·d))
  const thrust0 = table.thrust[i]!;
  const thrustRise = table.thrust[i + 1]! - thrust0;
  const thrustStart = h * table.thrustSlope[i]!;
  const thrustEnd = h * table.thrustSlope[i + 1]!;
  const thrustC = 3 * thrustRise - 2 * thrustStart - thrustEnd;
  const thrustD = thrustStart + thrustEnd - 2 * thrustRise;
  out.thrustCoefficient = thrust0 + s * (thrustStart + s * (thrustC + s * thrustD));
  out.thrustSlope = (thrustStart + s * (2 * thrustC + 3 * s * thrustD)) / h;
  const power0 = table.power[i]!;
  const powerRise = table.power[i + 1]! - power0;
  const powerStart = h * table.powerSlope[i]!;
  const powerEnd = h * table.powerSlope[i + 1]!;
  const powerC = 3 * powerRise - 2 * powerStart - powerEnd;
  const powerD = powerStart + powerEnd - 2 * powerRise;
  out.powerCoefficient = power0 + s * (powerStart + s * (powerC + s * powerD));
  out.powerSlope = (powerStart + s * (2 * powerC + 3 * s * powerD)) / h;
}
