/** Slopes, curvatures and Reynolds slopes of a table are the derivatives of what it reads, inside, at its first row, beyond its last. */
import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { createCoefficientTable, createReynoldsTable, scaledTable } from '@shaftwork/sim-core/parts/propeller/coefficient-table';
import { emptyPropellerPoint, evaluatePropeller } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { describe, expect, it } from 'vitest';

const rowsOf = (grid: readonly number[], level: number) =>
  grid.map((j) => ({
    advanceRatio: j,
    thrustCoefficient: level * (0.1 - 0.13 * j),
    powerCoefficient: level * (0.05 + 0.02 * j - 0.06 * j * j),
  }));
const even = [0.1, 0.3, 0.5, 0.7];
const uneven = [0.1, 0.15, 0.4, 0.7];
const sheets = (grid: readonly number[]) =>
  createReynoldsTable([
    { discReynolds: 1e4, rows: rowsOf(grid, 0.8) },
    {
      discReynolds: 1e5,
      rows: rowsOf(grid, 1).map((row) => ({ ...row, thrustCoefficient: row.thrustCoefficient - 0.02 * row.advanceRatio ** 2 })),
    },
    { discReynolds: 1e6, rows: rowsOf(grid, 1.1) },
  ]);
const read = (table: Parameters<typeof evaluateTable>[0], j: number, log: number) => {
  const out = emptyCoefficients();
  evaluateTable(table, j, log, out);
  return out;
};

describe.each([
  ['an even grid', even],
  ['an uneven grid', uneven],
])('on %s', (_, grid) => {
  const table = sheets(grid);
  const h = 1e-5;

  it.each([0.12, 0.22, 0.45, 0.6, 0.9, 2])('at J = %d', (j) => {
    for (const log of [Math.log(3e4), Math.log(4e5)]) {
      const point = read(table, j, log);
      const [less, more] = [read(table, j - h, log), read(table, j + h, log)];
      expect(point.thrustSlope).toBeCloseTo((more.thrustCoefficient - less.thrustCoefficient) / (2 * h), 8);
      expect(point.powerSlope).toBeCloseTo((more.powerCoefficient - less.powerCoefficient) / (2 * h), 8);
      expect(point.thrustCurvature).toBeCloseTo((more.thrustSlope - less.thrustSlope) / (2 * h), 7);
      expect(point.powerCurvature).toBeCloseTo((more.powerSlope - less.powerSlope) / (2 * h), 7);
      const [thin, thick] = [read(table, j, log - h), read(table, j, log + h)];
      expect(point.thrustReynoldsSlope).toBeCloseTo((thick.thrustCoefficient - thin.thrustCoefficient) / (2 * h), 8);
      expect(point.powerReynoldsSlope).toBeCloseTo((thick.powerCoefficient - thin.powerCoefficient) / (2 * h), 8);
      expect(point.thrustCrossSlope).toBeCloseTo((thick.thrustSlope - thin.thrustSlope) / (2 * h), 8);
      expect(point.powerCrossSlope).toBeCloseTo((thick.powerSlope - thin.powerSlope) / (2 * h), 8);
    }
  });

  it('at the first row the piece to its right counts, before it nothing moves', () => {
    const log = Math.log(3e4);
    const first = read(table, 0.1, log);
    const more = read(table, 0.1 + h, log);
    expect(first.thrustSlope).toBeCloseTo((more.thrustCoefficient - first.thrustCoefficient) / h, 4);
    expect(first.powerSlope).toBeCloseTo((more.powerCoefficient - first.powerCoefficient) / h, 4);
    expect(first.thrustCurvature).toBeCloseTo((more.thrustSlope - first.thrustSlope) / h, 3);
    expect(first.powerCurvature).toBeCloseTo((more.powerSlope - first.powerSlope) / h, 3);
    expect(read(table, 0.05, log)).toMatchObject({ thrustSlope: 0, powerSlope: 0, thrustCurvature: 0, powerCurvature: 0 });
  });

  it('past the first and the last Reynolds number the end sheet is held', () => {
    for (const log of [Math.log(2e3), Math.log(1e4), Math.log(1e6), Math.log(5e7)])
      expect(read(table, 0.33, log)).toMatchObject({
        thrustReynoldsSlope: 0,
        powerReynoldsSlope: 0,
        thrustCrossSlope: 0,
        powerCrossSlope: 0,
      });
    expect(read(table, 0.3, Math.log(1e6)).powerCoefficient).toBeCloseTo(read(table, 0.3, Math.log(9e9)).powerCoefficient, 14);
  });
});

it('one sheet has no Reynolds number to follow', () => {
  const stale = { ...emptyCoefficients(), thrustReynoldsSlope: 9, powerReynoldsSlope: 9, thrustCrossSlope: 9, powerCrossSlope: 9 };
  evaluateTable(createCoefficientTable(rowsOf(even, 1)), 0.4, 5, stale);
  expect(stale).toMatchObject({ thrustReynoldsSlope: 0, powerReynoldsSlope: 0, thrustCrossSlope: 0, powerCrossSlope: 0, outside: 0 });
});

it('a scaled table has each row times its own factors, and keeps its sheets and its range', () => {
  const table = sheets(even);
  const scaled = scaledTable(table, (j) => [1 + j, 2 - j]);
  for (const j of even)
    for (const log of table.logReynolds) {
      expect(read(scaled, j, log).thrustCoefficient).toBeCloseTo((1 + j) * read(table, j, log).thrustCoefficient, 12);
      expect(read(scaled, j, log).powerCoefficient).toBeCloseTo((2 - j) * read(table, j, log).powerCoefficient, 12);
    }
  expect(scaled.supported).toEqual(table.supported);
});

it('a propeller with sheets: slope and curvature in ω at rest and under way are those of differences', () => {
  const propeller = { diameter: 0.2, table: sheets(even), thrustFactor: 0.9, powerFactor: 1.1 };
  const air = { density: 1.2, kinematicViscosity: 1.5e-5 };
  const turned = (angularSpeed: number, speed: number) => {
    const out = emptyPropellerPoint();
    evaluatePropeller(propeller, air, angularSpeed, speed, out);
    return out;
  };
  for (const [omega, speed] of [
    [60, 0],
    [150, 2],
    [400, 5],
  ] as const) {
    const h = 1e-4 * omega;
    const [less, point, more] = [turned(omega - h, speed), turned(omega, speed), turned(omega + h, speed)];
    expect(point.thrustSlope / ((more.thrust - less.thrust) / (2 * h))).toBeCloseTo(1, 6);
    expect(point.torqueSlope / ((more.torque - less.torque) / (2 * h))).toBeCloseTo(1, 6);
    expect(point.thrustCurvature / ((more.thrustSlope - less.thrustSlope) / (2 * h))).toBeCloseTo(1, 5);
    expect(point.torqueCurvature / ((more.torqueSlope - less.torqueSlope) / (2 * h))).toBeCloseTo(1, 5);
  }
});
