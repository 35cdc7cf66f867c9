import { readFileSync } from 'node:fs';
import { marineOpenWater, marinePoint } from '@shaftwork/sim-core/parts/propeller/marine-series';
import { THRUST_TERMS, TORQUE_TERMS } from '@shaftwork/sim-core/parts/propeller/marine-series-terms';
import { evaluatePolynomial } from '@shaftwork/sim-core/parts/propeller/polynomial-table';
import { describe, expect, it } from 'vitest';

/**
 * M. W. C. Oosterveld & P. van Oossanen, "Further computer-analyzed data of the Wageningen B-screw series", International
 * Shipbuilding Progress 22 (251), 1975, tables 5 and 6. data/marine-series-evaluation.csv was computed from the published terms by an
 * independently typed copy: it verifies terms and evaluation, and is no measurement.
 */
const points = readFileSync(new URL('data/marine-series-evaluation.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(',').map(Number) as [number, number, number, number, number, number, number]);

describe('Wageningen B-series', () => {
  it('has the published number of terms and not the known misprints', () => {
    expect(THRUST_TERMS).toHaveLength(39);
    expect(TORQUE_TERMS).toHaveLength(47);
    const torqueTerm = (...powers: number[]) => TORQUE_TERMS.filter(([, ...found]) => found.join() === powers.join()).map(([c]) => c);
    expect(torqueTerm(3, 3, 0, 1)).toEqual([0.00110903]);
    expect(torqueTerm(0, 6, 2, 2)).toEqual([-0.0004659]);
  });
  // 1e-6: the last printed digit of the evaluation points
  it.each(points)('Z %d, AE/A0 %d, P/D %d, J %d', (blades, areaRatio, pitchRatio, advanceRatio, kt, tenKq, efficiency) => {
    const point = marinePoint(marineOpenWater({ blades, areaRatio, pitchRatio }), advanceRatio);
    expect(Math.abs(point.thrustCoefficient - kt)).toBeLessThan(1e-6);
    expect(Math.abs(10 * point.torqueCoefficient - tenKq)).toBeLessThan(1e-6);
    expect(Math.abs(point.efficiency - efficiency)).toBeLessThan(2e-6);
  });
  it('corrects for Reynolds number as table 6 does: B4-55, P/D 1, J 0.5 at 2·10⁷', () => {
    const screw = { blades: 4, areaRatio: 0.55, pitchRatio: 1 };
    const [plain, corrected] = [marineOpenWater(screw), marineOpenWater(screw, 2e7)];
    const change = (quantity: 'thrust' | 'torque') =>
      evaluatePolynomial(corrected[quantity], 0.5) - evaluatePolynomial(plain[quantity], 0.5);
    expect(Math.abs(change('thrust') - 3.823e-4)).toBeLessThan(5e-8);
    expect(Math.abs(change('torque') - -8.755e-4)).toBeLessThan(5e-8);
  });
  // tables 5 and 6 were fitted apart, so they join to a remainder: largest for wide two-bladed screws of high pitch (1.26·10⁻³ of KT 0.4)
  it('nearly leaves the coefficients alone just above 2·10⁶ over the whole range', () => {
    for (const blades of [2, 3, 4, 5, 6, 7]) {
      for (const areaRatio of [0.3, 0.6, 1.05]) {
        for (const pitchRatio of [0.5, 1, 1.4]) {
          const screw = { blades, areaRatio, pitchRatio };
          const [plain, corrected] = [marineOpenWater(screw), marineOpenWater(screw, 2e6 * (1 + 1e-9))];
          for (let j = 0; j < plain.zeroThrust; j += 0.1) {
            expect(Math.abs(evaluatePolynomial(corrected.thrust, j) - evaluatePolynomial(plain.thrust, j))).toBeLessThan(1.3e-3);
            expect(Math.abs(evaluatePolynomial(corrected.torque, j) - evaluatePolynomial(plain.torque, j))).toBeLessThan(1.5e-4);
          }
        }
      }
    }
  });
});
