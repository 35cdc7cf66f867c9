/** One cell's equations by hand: the curve and its slopes, warmth, charge at the surface. */
import {
  activationFactor,
  type OpenCircuitCurve,
  openCircuitVoltage,
  resistanceFactor,
  surfaceCharge,
} from '@shaftwork/sim-core/parts/battery/battery';
import { describe, expect, it } from 'vitest';

describe('open-circuit voltage', () => {
  // Hermite pieces with exact slopes give a cubic back
  const cubic = (s: number): number => 3 + s - 0.8 * s ** 2 + 0.4 * s ** 3;
  const slope = (s: number): number => 1 - 1.6 * s + 1.2 * s ** 2;
  const grid = [0, 0.25, 0.5, 0.75, 1];
  const curve: OpenCircuitCurve = { name: 'a cubic', voltage: Float64Array.from(grid, cubic), slope: Float64Array.from(grid, slope) };

  it('is the cubic through points and slopes', () => {
    for (const s of [0.01, 0.2, 0.25, 0.4, 0.6, 0.99]) expect(openCircuitVoltage(curve, s)).toBeCloseTo(cubic(s), 12);
  });

  it('goes on straight beyond both ends', () => {
    expect(openCircuitVoltage(curve, 0)).toBe(3);
    expect(openCircuitVoltage(curve, -0.1)).toBeCloseTo(2.9, 12);
    expect(openCircuitVoltage(curve, 1)).toBeCloseTo(3.6, 12);
    expect(openCircuitVoltage(curve, 1.1)).toBeCloseTo(3.66, 12);
  });
});

it('kinetics: Arrhenius from 25 °C on', () => {
  expect(activationFactor({ activation: 3000 }, 298.15)).toBe(1);
  expect(activationFactor({ activation: 3000 }, 273.15)).toBeCloseTo(Math.exp(3000 * (1 / 273.15 - 1 / 298.15)), 12);
});

it('resistance: a share is activated, and all of it rises towards empty; one at half charge and 25 °C', () => {
  const cell = { activatedShare: 0.7, emptyRise: 4, emptyRiseWidth: 0.05 };
  expect(resistanceFactor(cell, 1, 0.5)).toBe(1);
  expect(resistanceFactor(cell, 3, 0.5)).toBeCloseTo(1 + 0.7 * 2, 12);
  expect(resistanceFactor(cell, 1, 0.05)).toBeCloseTo(1 + 4 * (Math.exp(-1) - Math.exp(-10)), 12);
  expect(resistanceFactor(cell, 3, 0)).toBeCloseTo(2.4 * (5 - 4 * Math.exp(-10)), 12);
});

it('the surface lags by the current of the slow part for the time τ_s·e, over the charge of one cell', () => {
  const pack = { surfaceLag: 40, polarisationResistance: 0.004, capacity: 18000, cellsInParallel: 2 };
  // 20 mV over 4 mΩ·1.25 are 4 A; for 80 s out of 9000 A·s
  expect(surfaceCharge(pack, 2, 1.25, 0.6, 0.02)).toBeCloseTo(0.6 - (4 * 80) / 9000, 12);
  expect(surfaceCharge({ ...pack, polarisationResistance: 0 }, 2, 1.25, 0.6, 0)).toBe(0.6);
});
