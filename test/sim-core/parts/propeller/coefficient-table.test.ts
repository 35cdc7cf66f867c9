import { createCoefficientTable, createReynoldsTable } from '@shaftwork/sim-core/parts/propeller/coefficient-table';
import { describe, expect, it } from 'vitest';

const row = (advanceRatio: number, thrustCoefficient: number, powerCoefficient: number) => ({
  advanceRatio,
  thrustCoefficient,
  powerCoefficient,
});

describe('creating a coefficient table', () => {
  it('keeps the rows and knows an even grid from an uneven one', () => {
    const even = createCoefficientTable([row(0, 0.1, 0.04), row(0.1, 0.09, 0.04), row(0.2, 0.07, 0.035)]);
    expect([...even.thrust]).toEqual([0.1, 0.09, 0.07]);
    expect(even.evenRows).toBeCloseTo(10, 13);
    expect(even.supported).toEqual({ from: 0, to: 0.2 });
    expect(createCoefficientTable([row(0, 1, 1), row(0.1, 1, 1), row(0.3, 1, 1)]).evenRows).toBe(0);
  });
  it('says what to do about a single row', () => {
    expect(() => createCoefficientTable([row(0, 0.1, 0.04)])).toThrow(/at least two advance ratios.*measured points/);
  });
  it.each([
    [[row(0, 1, 1), row(0, 1, 1)], /row 2.*sort the rows/],
    [[row(0.2, 1, 1), row(0.1, 1, 1)], /row 2.*does not exceed 0.2/],
    [[row(-0.1, 1, 1), row(0.1, 1, 1)], /row 1.*negative/],
    [[row(0, 1, 1), row(0.1, Number.NaN, 1)], /row 2.*not a finite number/],
  ])('refuses rows that cannot be a table: %j', (rows, message) => {
    expect(() => createCoefficientTable(rows)).toThrow(message);
  });
  it('refuses sheets out of order or on different advance ratios', () => {
    const rows = [row(0, 0.1, 0.04), row(0.5, 0, 0.01)];
    const sheet = (discReynolds: number, list = rows) => ({ discReynolds, rows: list });
    expect(createReynoldsTable([sheet(1e5), sheet(1e6)]).thrust).toHaveLength(4);
    expect(() => createReynoldsTable([])).toThrow(RangeError);
    expect(() => createReynoldsTable([sheet(1e6), sheet(1e5)])).toThrow(/must increase/);
    expect(() => createReynoldsTable([sheet(0)])).toThrow(/positive/);
    expect(() => createReynoldsTable([sheet(1e5), sheet(1e6, [row(0, 1, 1), row(0.6, 0, 0)])])).toThrow(/same advance ratios/);
  });
});
