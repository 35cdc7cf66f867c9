import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { lockedScrew, marineTable } from '@shaftwork/sim-core/parts/propeller/marine-coasting';
import { marineOpenWater } from '@shaftwork/sim-core/parts/propeller/marine-series';
import { evaluatePolynomial } from '@shaftwork/sim-core/parts/propeller/polynomial-table';
import { emptyPropellerPoint, evaluatePropeller } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { describe, expect, it } from 'vitest';

const screws = [2, 3, 4, 5, 6, 7].flatMap((blades) =>
  [0.3, 0.45, 0.6, 0.8, 1.05].flatMap((areaRatio) => [0.5, 0.7, 0.9, 1.15, 1.4].map((pitchRatio) => ({ blades, areaRatio, pitchRatio }))),
);
const out = emptyCoefficients();

describe('the table of a marine screw', () => {
  it('reproduces the series to rounding from standstill to no thrust', () => {
    for (const screw of screws) {
      const { thrust, torque, zeroThrust } = marineOpenWater(screw);
      const table = marineTable(screw);
      for (let i = 0; i <= 20; i++) {
        const j = Math.min((zeroThrust * i) / 20, zeroThrust);
        evaluateTable(table, j, 0, out);
        expect(Math.abs(out.thrustCoefficient - evaluatePolynomial(thrust, j))).toBeLessThan(1e-12);
        expect(Math.abs(out.powerCoefficient - 2 * Math.PI * evaluatePolynomial(torque, j))).toBeLessThan(1e-11);
        expect(out.outside).toBe(0);
      }
    }
  });
  it('goes on without a step or a kink past no thrust, and marks it as unsupported', () => {
    for (const screw of screws) {
      const table = marineTable(screw);
      const end = table.supported.to;
      evaluateTable(table, end * (1 - 1e-9), 0, out);
      const before = { ...out };
      evaluateTable(table, end * (1 + 1e-9), 0, out);
      expect(out.thrustCoefficient).toBeCloseTo(before.thrustCoefficient, 7);
      expect(out.thrustSlope).toBeCloseTo(before.thrustSlope, 6);
      expect(out.powerSlope).toBeCloseTo(before.powerSlope, 6);
      expect(out.outside).toBeGreaterThan(0);
    }
  });
  it('tends to the locked screw', () => {
    const screw = { blades: 3, areaRatio: 0.6, pitchRatio: 1.15 };
    const propeller = { diameter: 0.052, table: marineTable(screw), thrustFactor: 1, powerFactor: 1 };
    const point = emptyPropellerPoint();
    evaluatePropeller(propeller, { density: 998, kinematicViscosity: 1e-6 }, 0, 3, point);
    const locked = lockedScrew(screw);
    expect(point.thrust / (998 * 9 * 0.052 ** 2 * locked.thrust)).toBeCloseTo(1, 1);
    expect(point.torque / (998 * 9 * 0.052 ** 3 * locked.torque)).toBeCloseTo(1, 0);
    expect(point.thrust).toBeLessThan(0);
    expect(point.torque).toBeLessThan(0);
  });
  it('has one freewheeling speed, stable, and no thrust anywhere past J0, for every screw of the series', () => {
    for (const screw of screws) {
      const table = marineTable(screw);
      let before = Number.POSITIVE_INFINITY;
      let crossings = 0;
      for (let i = 0; i <= 400; i++) {
        const j = table.supported.to * (1 + (i / 400) ** 2 * 40);
        evaluateTable(table, j, 0, out);
        const torque = out.powerCoefficient / j ** 2; // torque over ρV²D³, times 2π
        if (torque > 0) expect(torque).toBeLessThan(before);
        if (before > 0 && torque <= 0) crossings++;
        before = torque;
        expect(out.thrustCoefficient).toBeLessThan(1e-9);
      }
      expect(crossings).toBe(1);
    }
  });
  it('brakes hardest when held still, but for many narrow blades of low pitch', () => {
    const { thrust } = lockedScrew({ blades: 3, areaRatio: 0.6, pitchRatio: 1.15 });
    const table = marineTable({ blades: 3, areaRatio: 0.6, pitchRatio: 1.15 });
    for (let j = table.supported.to; j < 20; j += 0.1) {
      evaluateTable(table, j, 0, out);
      expect(out.thrustCoefficient / j ** 2).toBeGreaterThanOrEqual(1.001 * thrust);
    }
  });
});
