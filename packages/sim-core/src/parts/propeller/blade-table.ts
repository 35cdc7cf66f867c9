/** The coefficient table of a propeller by its blades. @module */

import { type Rotor, rotorCoefficients } from './blade-element.js';
import { type CoefficientTable, createReynoldsTable } from './coefficient-table.js';
import { type TableFan, tableFan } from './table-fan.js';

const DEGREE = Math.PI / 180;

/**
 * A propeller by blade elements reduced once to a coefficient table.
 *
 * (1) even rows from J = 0 to J_e = 1.4·π·0.75·tan(θ(0.75 R) + 3°), past windmilling; then rows up to 20·J_e towards a stopped propeller
 * (2) one sheet per disc Reynolds number n·D²/ν of 5·10⁴, 1.4·10⁵, 4·10⁵, 1.1·10⁶, 3·10⁶
 *
 * *Holds for* diameters of 0.1–0.6 m at model speeds. The table counts as supported up to J_e; beyond it blades stand stalled across the
 * stream and the section model is a rule of thumb.
 */
export const BLADE_TABLE_REYNOLDS: readonly number[] = [5e4, 1.4e5, 4e5, 1.1e6, 3e6];

/**
 * How far a calculated propeller may be off, as half-widths of 95 % intervals: the angle of its blades [rad], one unknown for thrust and power, and
 * a factor on each for the section [1]. From 137 propellers of the UIUC Propeller Database, always those of makers that were left out: the angle that
 * fits a propeller best lies 1.5° to 2° (standard deviation) from the one taken, and leaves 7 to 10 % of CT and 5 to 7 % of CP; test/measured/propellers.ts
 * counts how much of the measurement lies inside, docs/theory.md prints it.
 */
export const BLADE_ANGLE_ERROR = {
  /** From measured chord and twist alone. */
  stations: 3.4 * DEGREE,
  /** From measured chord and twist, with the pitch that is printed on the blade. */
  'stations-and-pitch': 2.7 * DEGREE,
  /** From diameter, pitch, blades and family. */
  family: 3 * DEGREE,
  /** The same without the family. */
  'assumed-family': 4 * DEGREE,
} as const;
/** What a table is made from. */
export type BladeBasis = keyof typeof BLADE_ANGLE_ERROR;
/** Error of the sections’ coefficients. */
export const BLADE_SECTION_ERROR = { thrust: 0.16, power: 0.1 } as const;
/** The same where a point at rest has set it, beside the reading's own. */
export const BLADE_SET_ERROR = { thrust: 0.11, power: 0.15 } as const;

/** J_e over the advance ratio where thrust vanishes, roughly. */
export const ZERO_THRUST = 1.4;
const EVEN_ROWS = 24;
const FAR_ROWS: readonly number[] = [1.15, 1.35, 1.7, 2.3, 3.5, 6, 20];

/** Equations 1 and 2. Throws RangeError where an element finds no balance. */
export const bladeElementTable = (rotor: Rotor): CoefficientTable => tableTo(rotor, lastAdvanceRatio(rotor));

/** The rotor with its blades turned by an angle about their length [rad]. */
export const turned = (rotor: Rotor, angle: number): Rotor => ({
  ...rotor,
  elements: rotor.elements.map((element) => ({ ...element, twist: element.twist + angle })),
});

/**
 * Tables over the angle that the blades are turned by [rad]: at `middle`, and `step` to either side, with the rows that it has at `middle`.
 * `adjust` makes of each what is known besides.
 */
export function bladeFan(
  rotor: Rotor,
  middle: number,
  step: number,
  adjust: (table: CoefficientTable, angle: number) => CoefficientTable = (table) => table,
): TableFan {
  const end = lastAdvanceRatio(turned(rotor, middle));
  return tableFan(middle, step, (angle) => adjust(tableTo(turned(rotor, angle), end), angle));
}

function tableTo(rotor: Rotor, end: number): CoefficientTable {
  const advanceRatios = Array.from({ length: EVEN_ROWS + 1 }, (_, i) => (end * i) / EVEN_ROWS).concat(
    FAR_ROWS.map((factor) => factor * end),
  );
  // balances change little from one row to the next, and less from one Reynolds number to the next
  const inflow = advanceRatios.map(() => new Float64Array(rotor.elements.length).fill(Number.NaN));
  const table = createReynoldsTable(
    BLADE_TABLE_REYNOLDS.map((discReynolds, sheet) => ({
      discReynolds,
      rows: advanceRatios.map((advanceRatio, row) => {
        if (sheet === 0 && row > 0) inflow[row].set(inflow[row - 1]);
        return { advanceRatio, ...rotorCoefficients(rotor, advanceRatio, discReynolds, inflow[row]) };
      }),
    })),
  );
  return { ...table, supported: { from: 0, to: end } };
}

/** J_e of equation 1. Throws RangeError where it vanishes. */
export function lastAdvanceRatio(rotor: Rotor): number {
  const reference = rotor.elements.reduce((best, element) =>
    Math.abs(element.radius - 0.75) < Math.abs(best.radius - 0.75) ? element : best,
  );
  const zeroLift = 3 * DEGREE;
  const end = ZERO_THRUST * Math.PI * reference.radius * Math.tan(reference.twist + zeroLift);
  if (!(end > 0.05) || !Number.isFinite(end)) throw new RangeError('the blade has no forward pitch at three quarters of its radius');
  return end;
}
