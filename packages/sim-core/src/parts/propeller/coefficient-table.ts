/**
 * Thrust and power coefficients of a propeller over advance ratio and Reynolds number: the one form in which every
 * propeller, screw, measurement or polynomial reaches the solver.
 *
 * (1) advance ratio = V/(n·D)                n in revolutions per second, V the speed of the fluid into the disc
 * (2) CT = thrust/(ρ n² D⁴)
 * (3) CP = power/(ρ n³ D⁵), so that torque = CP·ρ n² D⁵/(2π)
 * (4) disc Reynolds number = n·D²/ν          needs no chord; a blade's own is a fixed multiple of it
 *
 * Between rows: cubic Hermite in the advance ratio, linear in the logarithm of the Reynolds number.
 *
 * *Outside*: below the first row the end value is held. Above the last row CT and CP grow with the square of the advance
 * ratio, so that thrust and torque depend on V alone: the limit of a stopped or windmilling propeller. Past the first or last Reynolds number the end sheet is held. `outside` tells how far the advance ratio
 * lies from what the data stand behind, so that the caller can raise a finding.
 * *Holds for*: forward rotation, fluid entering from the front. *Sign*: thrust forward, power into the propeller.
 *
 *
 *
 * @module
 */

import { lastOf } from '../../problems/certain.js';
/** One propeller’s coefficients, sheet by sheet. */
import { shapePreservingSlopes } from './shape-preserving-slopes.js';

/** One propeller’s coefficients, sheet by sheet. */
export interface CoefficientTable {
  /** J — advance ratio, strictly increasing, not negative [1]. */
  readonly advanceRatio: Float64Array;
  /** ln(n·D²/ν) — natural logarithm of the disc Reynolds number, increasing; one entry: no dependence [1]. */
  readonly logReynolds: Float64Array;
  /** CT — thrust coefficients, Reynolds number by Reynolds number [1]. */
  readonly thrust: Float64Array;
  /** CP — power coefficients, in the same order [1]. */
  readonly power: Float64Array;
  /** dCT/dJ at the rows [1]. */
  readonly thrustSlope: Float64Array;
  /** dCP/dJ at the rows [1]. */
  readonly powerSlope: Float64Array;
  /** The same as powers of J less the interval's first row, c0 … c3 of CT, then of CP, interval by interval: what the inner loop reads [1]. */
  readonly pieces: Float64Array;
  /** Rows per advance ratio where their spacing is even, else 0 [1]. */
  readonly evenRows: number;
  /** The first and last advance ratio that data or model stand behind; rows beyond follow a stated rule [1]. */
  readonly supported: { readonly from: number; readonly to: number };
}

/** A row of a table as people write it. All [1]. */
export interface CoefficientRow {
  readonly advanceRatio: number;
  readonly thrustCoefficient: number;
  readonly powerCoefficient: number;
}

/** One Reynolds number's rows; all sheets of a table share their advance ratios. */
export interface CoefficientSheet {
  /** n·D²/ν — disc Reynolds number [1]. */
  readonly discReynolds: number;
  readonly rows: readonly CoefficientRow[];
}

/** A table without Reynolds dependence. Throws RangeError naming the row that is wrong. */
export function createCoefficientTable(rows: readonly CoefficientRow[]): CoefficientTable {
  if (rows.length < 2) {
    throw new RangeError(
      `a coefficient table needs at least two advance ratios, this one has ${rows.length}; ` +
        'add the row where the thrust vanishes, or give a single static measurement as measured points',
    );
  }
  return assembleTable([{ discReynolds: 1, rows }]);
}

/** A table over advance ratio and Reynolds number. Throws RangeError naming the sheet or row that is wrong. */
export function createReynoldsTable(sheets: readonly CoefficientSheet[]): CoefficientTable {
  if (sheets.length === 0) throw new RangeError('a coefficient table needs at least one Reynolds number');
  const first = sheets[0].rows;
  for (const [index, sheet] of sheets.entries()) {
    if (!(sheet.discReynolds > 0) || !Number.isFinite(sheet.discReynolds)) {
      throw new RangeError(`Reynolds number ${sheet.discReynolds} of sheet ${index + 1} must be positive and finite`);
    }
    if (index > 0 && sheet.discReynolds <= sheets[index - 1].discReynolds) {
      throw new RangeError(`Reynolds numbers must increase: sheet ${index + 1} has ${sheet.discReynolds}`);
    }
    if (sheet.rows.length !== first.length || sheet.rows.some((row, i) => row.advanceRatio !== first[i].advanceRatio)) {
      throw new RangeError(`sheet ${index + 1} must list the same advance ratios as the first sheet`);
    }
  }
  if (first.length < 2) throw new RangeError(`a coefficient table needs at least two advance ratios, this one has ${first.length}`);
  return assembleTable(sheets);
}

function assembleTable(sheets: readonly CoefficientSheet[]): CoefficientTable {
  const advanceRatio = Float64Array.from(sheets[0].rows, (row) => row.advanceRatio);
  for (const sheet of sheets) for (const [index, row] of sheet.rows.entries()) checkRow(row, sheet.rows[index - 1], index);
  const columns = <T>(take: (row: CoefficientRow) => T) => sheets.map((sheet) => sheet.rows.map(take));
  const thrust = columns((row) => row.thrustCoefficient);
  const power = columns((row) => row.powerCoefficient);
  const slopes = (values: number[][]) => values.flatMap((sheet) => [...shapePreservingSlopes(advanceRatio, Float64Array.from(sheet))]);
  return withPieces({
    advanceRatio,
    logReynolds: Float64Array.from(sheets, (sheet) => Math.log(sheet.discReynolds)),
    thrust: Float64Array.from(thrust.flat()),
    power: Float64Array.from(power.flat()),
    thrustSlope: Float64Array.from(slopes(thrust)),
    powerSlope: Float64Array.from(slopes(power)),
    evenRows: evenRows(advanceRatio),
    supported: { from: advanceRatio[0], to: lastOf(advanceRatio) },
  });
}

/** The table with its thrust and power multiplied by factors of the advance ratio. */
export function scaledTable(
  table: CoefficientTable,
  factors: (advanceRatio: number) => readonly [thrust: number, power: number],
): CoefficientTable {
  const { advanceRatio, logReynolds, thrust, power, supported } = table;
  const scales = [...advanceRatio].map(factors);
  const rows = advanceRatio.length;
  const sheets = [...logReynolds].map((log, sheet) => ({
    discReynolds: Math.exp(log),
    rows: scales.map(([onThrust, onPower], row) => ({
      advanceRatio: advanceRatio[row],
      thrustCoefficient: onThrust * thrust[sheet * rows + row],
      powerCoefficient: onPower * power[sheet * rows + row],
    })),
  }));
  return { ...assembleTable(sheets), logReynolds, supported };
}

/** Completes a table from its rows and slopes. */
export function withPieces(table: Omit<CoefficientTable, 'pieces'>): CoefficientTable {
  const { advanceRatio: x, logReynolds } = table;
  const intervals = x.length - 1;
  const pieces = new Float64Array(8 * intervals * logReynolds.length);
  const write = (values: Float64Array, slopes: Float64Array, offset: number): void => {
    for (let sheet = 0; sheet < logReynolds.length; sheet++) {
      for (let k = 0; k < intervals; k++) {
        const i = sheet * x.length + k;
        const h = x[k + 1] - x[k];
        const rise = (values[i + 1] - values[i]) / h;
        const o = 8 * (sheet * intervals + k) + offset;
        pieces[o] = values[i];
        pieces[o + 1] = slopes[i];
        pieces[o + 2] = (3 * rise - 2 * slopes[i] - slopes[i + 1]) / h;
        pieces[o + 3] = (slopes[i] + slopes[i + 1] - 2 * rise) / (h * h);
      }
    }
  };
  write(table.thrust, table.thrustSlope, 0);
  write(table.power, table.powerSlope, 4);
  return { ...table, pieces };
}

function checkRow(row: CoefficientRow, before: CoefficientRow | undefined, index: number): void {
  if (![row.advanceRatio, row.thrustCoefficient, row.powerCoefficient].every(Number.isFinite)) {
    throw new RangeError(`row ${index + 1} of the coefficient table holds a value that is not a finite number`);
  }
  if (row.advanceRatio < 0) {
    throw new RangeError(`row ${index + 1}: advance ratio ${row.advanceRatio} is negative; flow from behind is not modelled`);
  }
  if (before && row.advanceRatio <= before.advanceRatio) {
    throw new RangeError(
      `row ${index + 1}: advance ratio ${row.advanceRatio} does not exceed ${before.advanceRatio} in the row before; sort the rows`,
    );
  }
}

function evenRows(x: Float64Array): number {
  if (x.length < 2) return 0;
  const step = (lastOf(x) - x[0]) / (x.length - 1);
  // rounding of a written grid (0.05, 0.1, 0.15 …) stays far below this; a really uneven one far above
  return x.every((value, i) => Math.abs(value - x[0] - i * step) <= 1e-9 * step) ? 1 / step : 0;
}
