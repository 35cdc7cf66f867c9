/**
 * A propeller's table where one thing of its form is not known exactly, such as the angle of its blades: a draw takes it from three tables.
 *
 * (1) s = (x − x_0)/h,  CT(J, Re; x) = ½s(s − 1)·CT_−(J, Re) + (1 − s²)·CT_0(J, Re) + ½s(s + 1)·CT_+(J, Re), CP likewise
 *
 * so that what a draw costs is one pass over the rows; past |s| = `farthest` the table there is held. All three share their rows.
 * *Holds for* an h that the coefficients follow as a parabola: some degrees of blade angle (tested against the blade elements themselves).
 *
 * @module
 */

import type { CoefficientTable } from './coefficient-table.js';

/** Three tables, and where they stand. */
export interface TableFan {
  /** x_0, in the unit of x [rad, of an angle]. */
  readonly middle: number;
  /** h, in the unit of x [rad, of an angle]. */
  readonly step: number;
  /** In steps [1]. */
  readonly farthest: number;
  /** At x_0. */
  readonly table: CoefficientTable;
  /** At x_0 − h and x_0 + h, made when they are first asked for. */
  readonly sides: () => readonly [less: CoefficientTable, more: CoefficientTable];
}

/** A fan from the table at any x; all must list the same advance ratios and Reynolds numbers. */
export function tableFan(middle: number, step: number, at: (x: number) => CoefficientTable, farthest = 1.75): TableFan {
  let sides: readonly [CoefficientTable, CoefficientTable] | undefined;
  return { middle, step, farthest, table: at(middle), sides: () => (sides ??= [at(middle - step), at(middle + step)]) };
}

/** Equation 1. */
export function tableAt({ middle, step, farthest, table, sides }: TableFan, x: number): CoefficientTable {
  if (x === middle) return table;
  const [less, more] = sides();
  const s = Math.min(farthest, Math.max(-farthest, (x - middle) / step));
  const [a, b, c] = [0.5 * s * (s - 1), 1 - s * s, 0.5 * s * (s + 1)];
  const mixed = (take: (table: CoefficientTable) => Float64Array): Float64Array => {
    const [low, own, high] = [take(less), take(table), take(more)];
    return own.map((value, i) => a * low[i] + b * value + c * high[i]);
  };
  return {
    ...table,
    thrust: mixed((each) => each.thrust),
    power: mixed((each) => each.power),
    thrustSlope: mixed((each) => each.thrustSlope),
    powerSlope: mixed((each) => each.powerSlope),
    pieces: mixed((each) => each.pieces),
  };
}
