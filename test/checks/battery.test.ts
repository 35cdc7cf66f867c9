/** Cell voltages against M. Chen & G. A. Rincón-Mora, IEEE Trans. Energy Conversion 21(2), 2006, eqs. 2–7, and the published tables of two other chemistries. */
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import { openCircuitVoltage, resistanceFactor } from '@shaftwork/sim-core/parts/battery';
import { openCircuitCurve, polymerVoltage } from '@shaftwork/sim-core/parts/open-circuit';
import { describe, expect, it } from 'vitest';

describe('open-circuit voltage', () => {
  it('lithium-polymer: 4.1029 V full, 3.80336 V half, and the grid follows the formula to 1e-6 V', () => {
    const curve = openCircuitCurve('lithium-polymer');
    expect(openCircuitVoltage(curve, 1)).toBeCloseTo(4.1029, 4);
    expect(openCircuitVoltage(curve, 0.5)).toBeCloseTo(3.80336, 5);
    for (let s = 0; s <= 1; s += 0.00137) expect(Math.abs(openCircuitVoltage(curve, s) - polymerVoltage(s))).toBeLessThan(1e-6);
  });

  it('lithium-iron-phosphate (C/30 data published with G. L. Plett, 2015) and lithium-ion (C.-H. Chen et al., 2020) pass through their rows', () => {
    const iron = openCircuitCurve('lithium-iron-phosphate');
    for (const [s, volts] of [
      [0.1, 3.1834],
      [0.5, 3.3081],
      [0.95, 3.3658],
    ]) {
      expect(Math.abs(openCircuitVoltage(iron, s) - volts)).toBeLessThan(1e-4);
    }
    const ion = openCircuitCurve('lithium-ion');
    for (const [s, volts] of [
      [0.2, 3.4835],
      [0.5, 3.7459],
      [1, 4.1809],
    ]) {
      expect(Math.abs(openCircuitVoltage(ion, s) - volts)).toBeLessThan(1e-4);
    }
  });
});

it('pulse of 0.5 A at half charge: 3.76613 V at once, 3.75891 at 10 s, 3.74066 at 60 s, 3.72436 at 300 s (eqs. 3–7, analytic)', () => {
  const s = 0.5;
  const series = 0.1562 * Math.exp(-24.37 * s) + 0.07446;
  const short = { r: 0.3208 * Math.exp(-29.14 * s) + 0.04669, c: -752.9 * Math.exp(-13.51 * s) + 703.6 };
  const long = { r: 6.603 * Math.exp(-155.2 * s) + 0.04984, c: -6056 * Math.exp(-27.12 * s) + 4475 };
  const y = new Float64Array(2);
  const system = {
    dimension: 2,
    eventCount: 0,
    // the same RC law as parts/battery equation 3, once per pair
    derivative: (_: number, v: Float64Array, dv: Float64Array) => {
      dv[0] = (short.r * 0.5 - v[0]) / (short.r * short.c);
      dv[1] = (long.r * 0.5 - v[1]) / (long.r * long.c);
    },
  };
  const curve = openCircuitCurve('lithium-polymer');
  const terminal = () => openCircuitVoltage(curve, s) - series * 0.5 - y[0] - y[1];
  expect(Math.abs(terminal() - 3.76613)).toBeLessThan(1e-4);
  let time = 0;
  for (const [until, volts] of [
    [10, 3.75891],
    [60, 3.74066],
    [300, 3.72436],
  ]) {
    integrate(system, 'odex', { relative: 1e-9, absolute: new Float64Array(2).fill(1e-10) }, time, y, until);
    time = until;
    expect(Math.abs(terminal() - volts)).toBeLessThan(1e-4);
  }
});

it('a cold pack has more resistance, one at 25 °C its own', () => {
  expect(resistanceFactor(2500, 298.15)).toBe(1);
  expect(resistanceFactor(2500, 273.15)).toBeGreaterThan(1.9);
});
