import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { type CoefficientTable, createCoefficientTable, createReynoldsTable } from '@shaftwork/sim-core/parts/propeller/coefficient-table';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const at = (table: CoefficientTable, advanceRatio: number, discReynolds = 1) => {
  const out = emptyCoefficients();
  evaluateTable(table, advanceRatio, Math.log(discReynolds), out);
  return out;
};
const curve = (points: readonly (readonly [number, number, number])[]) =>
  createCoefficientTable(
    points.map(([advanceRatio, thrustCoefficient, powerCoefficient]) => ({ advanceRatio, thrustCoefficient, powerCoefficient })),
  );
const even = curve([0, 0.1, 0.2, 0.3, 0.4].map((j) => [j, 0.1 - 0.2 * j, 0.04 - 0.1 * j * j]));
const uneven = curve([0, 0.03, 0.2, 0.26, 0.4].map((j) => [j, 0.1 - 0.2 * j, 0.04 - 0.1 * j * j]));

describe('reading a coefficient table', () => {
  it('returns the rows at the rows, straight lines exactly and parabolas closely, on even and uneven grids', () => {
    for (const table of [even, uneven]) {
      for (const [i, j] of table.advanceRatio.entries()) {
        expect(at(table, j).thrustCoefficient).toBeCloseTo(table.thrust[i]!, 14);
        expect(at(table, j).powerCoefficient).toBeCloseTo(table.power[i]!, 14);
      }
      for (const j of [0.01, 0.15, 0.22, 0.39]) {
        expect(at(table, j).thrustCoefficient).toBeCloseTo(0.1 - 0.2 * j, 14);
        expect(at(table, j).powerCoefficient).toBeCloseTo(0.04 - 0.1 * j * j, 4);
      }
    }
  });
  it('gives slopes that are the derivatives of its values', () => {
    const step = 1e-6;
    for (const table of [even, uneven]) {
      for (const j of [0.05, 0.1234, 0.33, 0.55, 3]) {
        const slope = (at(table, j + step).powerCoefficient - at(table, j - step).powerCoefficient) / (2 * step);
        expect(at(table, j).powerSlope).toBeCloseTo(slope, 7);
        const thrustSlope = (at(table, j + step).thrustCoefficient - at(table, j - step).thrustCoefficient) / (2 * step);
        expect(at(table, j).thrustSlope).toBeCloseTo(thrustSlope, 7);
      }
    }
  });
  it('never leaves the band between two neighbouring rows', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2, maxLength: 8 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (values, share) => {
          const table = curve(values.map((value, i) => [i * i + i, value, value]));
          const j = share * table.advanceRatio.at(-1)!;
          const i = table.advanceRatio.findLastIndex((x) => x <= j);
          const band = [values[i]!, values[i + 1]!];
          const value = at(table, j).thrustCoefficient;
          expect(value).toBeGreaterThanOrEqual(Math.min(...band) - 1e-12);
          expect(value).toBeLessThanOrEqual(Math.max(...band) + 1e-12);
        },
      ),
    );
  });
  it('holds CT/J² and CP/J² past the last row and the end value before the first, and says how far outside it is', () => {
    const table = curve([
      [0.1, 0.1, 0.04],
      [0.5, 0.02, 0.03],
    ]);
    const past = at(table, 2);
    expect(past.thrustCoefficient).toBeCloseTo(0.02 * 16, 14);
    expect(past.powerCoefficient).toBeCloseTo(0.03 * 16, 14);
    expect(past.outside).toBeCloseTo(1.5, 14);
    const before = at(table, 0.04);
    expect([before.thrustCoefficient, before.powerCoefficient, before.thrustSlope, before.powerSlope]).toEqual([0.1, 0.04, 0, 0]);
    expect(before.outside).toBeCloseTo(-0.06, 14);
    expect(at(table, -1).thrustCoefficient).toBe(0.1);
    expect(at(table, 0.3).outside).toBe(0);
  });
  it('is linear in the logarithm of the Reynolds number and holds the end sheets', () => {
    const sheet = (discReynolds: number, level: number) => ({
      discReynolds,
      rows: [0, 0.25, 0.5].map((j) => ({ advanceRatio: j, thrustCoefficient: level * (1 - j), powerCoefficient: level / 2 })),
    });
    const table = createReynoldsTable([sheet(1e4, 0.1), sheet(1e5, 0.2), sheet(1e6, 0.25)]);
    expect(at(table, 0.1, 10 ** 4.5).thrustCoefficient).toBeCloseTo(0.15 * 0.9, 12);
    expect(at(table, 0.1, 10 ** 5.5).thrustCoefficient).toBeCloseTo(0.225 * 0.9, 12);
    expect(at(table, 0.1, 10 ** 4.5).thrustReynoldsSlope).toBeCloseTo((0.1 * 0.9) / Math.log(10), 12);
    expect(at(table, 0.1, 10 ** 4.5).thrustSlope).toBeCloseTo(-0.15, 12);
    expect(at(table, 0.1, 0)).toMatchObject({ powerCoefficient: 0.05, powerReynoldsSlope: 0 });
    expect(at(table, 0.1, 1e9)).toMatchObject({ powerCoefficient: 0.125, powerReynoldsSlope: 0 });
  });
  it('lets NaN through rather than a number', () => {
    expect(at(even, Number.NaN).thrustCoefficient).toBeNaN();
  });
});
