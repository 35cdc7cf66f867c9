/** Curves of each chemistry at their published points, and how a curve is laid through a table. */
import { openCircuitVoltage } from '@shaftwork/sim-core/parts/battery/battery';
import { curveFromTable, hydrideVoltage, openCircuitCurve, polymerVoltage } from '@shaftwork/sim-core/parts/battery/open-circuit';
import { describe, expect, it } from 'vitest';

it('lithium-polymer: Chen & Rincón-Mora 2006, eq. 2', () => {
  expect(polymerVoltage(0)).toBeCloseTo(3.685 - 1.031, 12);
  expect(polymerVoltage(1)).toBeCloseTo(3.685 + 0.2156 - 0.1178 + 0.3201 - 1.031 * Math.exp(-35), 12);
  expect(polymerVoltage(0.5)).toBeCloseTo(3.685 + 0.1078 - 0.02945 + 0.0400125 - 1.031 * Math.exp(-17.5), 12);
});

it('nickel-metal-hydride: Tremblay et al. 2007, its pole cut at 2 % (from memory)', () => {
  expect(hydrideVoltage(1)).toBeCloseTo(1.2816 - 0.0014 + 0.111, 12);
  expect(hydrideVoltage(0.9)).toBeCloseTo(1.2816 - 0.0014 / 0.9 + 0.111 * Math.exp(-2.3077 * 0.65), 12);
  expect(hydrideVoltage(0)).toBe(hydrideVoltage(0.02) - 0.111 * Math.exp(-15.00005 * 0.98) + 0.111 * Math.exp(-15.00005));
});

describe('a curve', () => {
  it('has on its grid what its law says, with the slopes of that law, at both ends too', () => {
    const curve = openCircuitCurve('lithium-polymer');
    const law = (s: number): number => -1.031 * -35 * Math.exp(-35 * s) + 0.2156 - 0.2356 * s + 0.9603 * s ** 2;
    expect(curve.voltage).toHaveLength(401);
    for (const k of [0, 1, 57, 200, 399, 400]) {
      expect(curve.voltage[k]).toBeCloseTo(polymerVoltage(k / 400), 12);
      expect(curve.slope[k] / law(k / 400)).toBeCloseTo(1, 5);
    }
    expect(openCircuitVoltage(curve, 0.3333)).toBeCloseTo(polymerVoltage(0.3333), 9);
    expect(openCircuitVoltage(openCircuitCurve('nickel-metal-hydride'), 0.4)).toBeCloseTo(hydrideVoltage(0.4), 6);
  });

  it.each([
    ['lithium-ion', 2.5, 3.7459, 4.1809],
    ['lithium-iron-phosphate', 2.1606, 3.3081, 3.59],
  ] as const)('of %s passes its table', (chemistry, empty, half, full) => {
    const curve = openCircuitCurve(chemistry);
    expect(curve.name).toBe(chemistry);
    expect([0, 0.5, 1].map((s) => openCircuitVoltage(curve, s))).toEqual([empty, half, full].map((v) => expect.closeTo(v, 9)));
  });

  it('held beyond the ends of its table, and refused where charge does not rise', () => {
    const curve = curveFromTable('own', [
      [0.1, 3],
      [0.9, 4],
    ]);
    expect(openCircuitVoltage(curve, 0.05)).toBeCloseTo(3, 9);
    expect(openCircuitVoltage(curve, 0.5)).toBeCloseTo(3.5, 9);
    expect(openCircuitVoltage(curve, 0.95)).toBeCloseTo(4, 9);
    const bad = /at least two rows with the charge rising/;
    expect(() => curveFromTable('own', [[0.1, 3]])).toThrow(bad);
    expect(() =>
      curveFromTable('own', [
        [0.1, 3],
        [0.1, 4],
      ]),
    ).toThrow(bad); // prettier-ignore
    expect(() =>
      curveFromTable('own', [
        [0.2, 3],
        [0.1, 4],
      ]),
    ).toThrow(bad); // prettier-ignore
  });
});
