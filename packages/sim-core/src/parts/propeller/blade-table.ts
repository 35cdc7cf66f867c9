import { type Rotor, rotorCoefficients } from './blade-element.js';
import { type CoefficientTable, createReynoldsTable } from './coefficient-table.js';

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
 * Half-width of the 95 % interval of CT and CP as a share: twice the root mean square error over the ten propellers of
 * test/checks/air-propellers.test.ts, rounded up; docs/theory.md prints the errors one by one. Most of it is one factor for a whole propeller
 * (its twist and section), so it belongs on the factors of propeller-laws.ts. A third of the squares is one swept blade, which pulls less than
 * radius, chord and twist promise: blades that run straight outwards lie within two thirds of the thrust's figures.
 */
export const BLADE_ELEMENT_TOLERANCE = {
  /** From measured chord and twist alone. */
  stations: { thrust: 0.29, power: 0.12 },
  /** From measured chord and twist, with the pitch that is printed on the blade. */
  'stations-and-pitch': { thrust: 0.22, power: 0.14 },
  /** From diameter, pitch, blades and family. */
  family: { thrust: 0.3, power: 0.19 },
} as const;
export type BladeBasis = keyof typeof BLADE_ELEMENT_TOLERANCE;

const EVEN_ROWS = 24;
const FAR_ROWS: readonly number[] = [1.15, 1.35, 1.7, 2.3, 3.5, 6, 20];

/** Equations 1 and 2. Throws RangeError where an element finds no balance. */
export function bladeElementTable(rotor: Rotor): CoefficientTable {
  const end = lastAdvanceRatio(rotor);
  const advanceRatios = Array.from({ length: EVEN_ROWS + 1 }, (_, i) => (end * i) / EVEN_ROWS).concat(
    FAR_ROWS.map((factor) => factor * end),
  );
  // balances change little from one row to the next, and less from one Reynolds number to the next
  const inflow = advanceRatios.map(() => new Float64Array(rotor.elements.length).fill(Number.NaN));
  const table = createReynoldsTable(
    BLADE_TABLE_REYNOLDS.map((discReynolds, sheet) => ({
      discReynolds,
      rows: advanceRatios.map((advanceRatio, row) => {
        if (sheet === 0 && row > 0) inflow[row]!.set(inflow[row - 1]!);
        return { advanceRatio, ...rotorCoefficients(rotor, advanceRatio, discReynolds, inflow[row]!) };
      }),
    })),
  );
  return { ...table, supported: { from: 0, to: end } };
}

function lastAdvanceRatio(rotor: Rotor): number {
  const reference = rotor.elements.reduce((best, element) =>
    Math.abs(element.radius - 0.75) < Math.abs(best.radius - 0.75) ? element : best,
  );
  const zeroLift = (3 * Math.PI) / 180;
  const end = 1.4 * Math.PI * reference.radius * Math.tan(reference.twist + zeroLift);
  if (!(end > 0.05) || !Number.isFinite(end)) throw new RangeError('the blade has no forward pitch at three quarters of its radius');
  return end;
}
