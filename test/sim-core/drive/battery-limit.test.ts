/** What a battery current limit leaves to the motor, where it leaves nothing and where it is no limit; duty-law.test.ts holds the rest and its slope. */
import { currentAtBatteryLimit } from '@shaftwork/sim-core/drive/battery-limit';
import { emptyElectricalChain } from '@shaftwork/sim-core/drive/electrical-chain';
import { expect, it } from 'vitest';
import { chainMisses } from './chain-equations.js';

const bare = { ...emptyElectricalChain(), emf: 10, sourceResistance: 0.1, windingResistance: 0.05 };

it('without losses but copper the motor gets the bus power: R·i² + e·i = (E − R_b·I)·I', () => {
  // 9 V and 10 A are 90 W; 0.05·i² + 4·i = 90
  const { current } = currentAtBatteryLimit(bare, 10, 4);
  expect(current).toBeCloseTo((-4 + Math.sqrt(16 + 4 * 0.05 * 90)) / 0.1, 10);
});

it('other loads sag the bus of which the limited current is a part', () => {
  // v = 10 − 0.1·(10 + 50/v)
  const bus = 0.5 * (9 + Math.sqrt(81 - 4 * 0.1 * 50));
  const { current } = currentAtBatteryLimit({ ...bare, otherPower: 50 }, 10, 4);
  expect(0.05 * current ** 2 + 4 * current).toBeCloseTo(bus * 10, 9);
});

it('a limit beyond the short circuit of the pack limits nothing', () => {
  expect({ ...currentAtBatteryLimit(bare, 100, 4) }).toMatchObject({ current: Number.POSITIVE_INFINITY, slope: 0 });
  expect(currentAtBatteryLimit(bare, 99, 4).current).toBeLessThan(1000);
});

it('a limit below what the controller draws for itself leaves the motor nothing', () => {
  expect(currentAtBatteryLimit({ ...bare, idleCurrent: 0.5 }, 0.4, 4).current).toBe(0);
  expect(currentAtBatteryLimit({ ...bare, idleCurrent: 0.5 }, 0.6, 4).current).toBeGreaterThan(0);
});

it.each([false, true])(
  'where diodes drop more than the bus has left, current and duty still meet the balances (sinusoidal: %s)',
  (sinusoidal) => {
    const chain = {
      ...emptyElectricalChain(),
      emf: 1.5,
      sourceResistance: 0.00475,
      windingResistance: 6e-5,
      pathResistance: 7e-5,
      diodeDrop: 0.8,
      deadTimeDrop: 0.007,
      switchingShare: 0.02,
      idleCurrent: 0.07,
      sinusoidal,
    };
    for (const limit of [20, 100, 200, 250, 270]) {
      const held = { ...currentAtBatteryLimit(chain, limit, 0.167) };
      expect(held.current).toBeGreaterThan(0.9 * limit);
      expect(held.duty).toBeLessThan(1);
      for (const miss of chainMisses(chain, 0.167, { ...held, busCurrent: limit })) expect(Math.abs(miss)).toBeLessThan(1e-12);
    }
  },
);
