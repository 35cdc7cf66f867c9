import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import {
  evaluatePolynomial,
  firstZero,
  polynomialSlope,
  tableFromPieces,
  tableFromPolynomial,
} from '@shaftwork/sim-core/parts/propeller/polynomial-table';
import { describe, expect, it } from 'vitest';

const thrust = [0.11, -0.06, -0.15];
const power = [0.04, 0.02, -0.1];

describe('a table from polynomials', () => {
  it('reproduces the polynomial and its slope to rounding, up to where the thrust vanishes', () => {
    const table = tableFromPolynomial({ thrust, power });
    const zero = (-0.06 + Math.sqrt(0.06 ** 2 + 4 * 0.15 * 0.11)) / (2 * 0.15);
    expect(table.supported.to).toBeCloseTo(zero, 12);
    const out = emptyCoefficients();
    for (let j = 0; j < zero; j += 0.037) {
      evaluateTable(table, j, 0, out);
      expect(out.thrustCoefficient).toBeCloseTo(evaluatePolynomial(thrust, j), 14);
      expect(out.powerCoefficient).toBeCloseTo(evaluatePolynomial(power, j), 14);
      expect(out.powerSlope).toBeCloseTo(polynomialSlope(power, j), 13);
    }
  });
  it('ends where it is told to', () => {
    expect(tableFromPolynomial({ thrust, power, upTo: 0.4 }).advanceRatio).toEqual(Float64Array.of(0, 0.4));
  });
  it('of several pieces has a row where one ends and the next goes on', () => {
    const table = tableFromPieces(
      [
        { to: 0.4, thrust, power },
        { to: 2, thrust: [0.2, -0.3], power: [0.1] },
      ],
      0.4,
    );
    expect([...table.advanceRatio]).toEqual([0, 0.4, 2]);
    expect([table.thrust[1], table.thrust[2]]).toEqual([evaluatePolynomial(thrust, 0.4), expect.closeTo(-0.4, 12)]);
    expect([table.evenRows, table.supported]).toEqual([0, { from: 0, to: 0.4 }]);
  });
  it('refuses what it cannot turn into a table', () => {
    expect(() => tableFromPolynomial({ thrust: [0.1], power })).toThrow(/does not fall to zero/);
    expect(() => tableFromPolynomial({ thrust: [0.1, -0.1, 0, 0, 1], power, upTo: 0.5 })).toThrow(/one to four/);
    expect(() => tableFromPolynomial({ thrust: [], power, upTo: 0.5 })).toThrow(/one to four/);
    expect(() => tableFromPolynomial({ thrust, power: [Number.NaN], upTo: 0.5 })).toThrow(/finite/);
    expect(() => tableFromPolynomial({ thrust, power, upTo: 0 })).toThrow(/above 0/);
  });
  it('finds the first zero only of a curve that starts positive', () => {
    expect(firstZero([1, -1], 5)).toBeCloseTo(1, 12);
    expect(firstZero([-1, 1], 5)).toBeUndefined();
    expect(firstZero([1, 1], 5)).toBeUndefined();
  });
});
