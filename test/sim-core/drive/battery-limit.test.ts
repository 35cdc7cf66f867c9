/** What a battery current limit leaves to the motor, where it leaves nothing and where it is no limit; duty-law.test.ts holds the rest and its slope. */
import { currentAtBatteryLimit, dutyUnderRipple } from '@shaftwork/sim-core/drive/battery-limit';
import { solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import { emptyChainPoint, emptyElectricalChain } from '@shaftwork/sim-core/drive/electrical-chain';
import { expect, it } from 'vitest';
import { chainMisses } from './chain-equations.js';
import { drawnChains } from './drawn-chain.js';

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
  const rippling = { ...bare, idleCurrent: 0.5, rippleLoss: 0.02 };
  expect({ ...currentAtBatteryLimit({ ...bare, idleCurrent: 0.5 }, 0.4, 4) }).toMatchObject({ current: 0, slope: 0 });
  // nor more or less of it at another speed
  expect([4, 4.1].map((backEmf) => ({ ...currentAtBatteryLimit(rippling, 0.4, backEmf) }))).toMatchObject(
    Array(2).fill({ current: 0, slope: 0 }),
  );
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

// every duty tried in turn, as a throttle is opened: the first that draws the limit
it.each([false, true])('where ripple takes much, it is met at the least duty that draws it (sinusoidal: %s)', (sinusoidal) => {
  const { draw, chainOf } = drawnChains(41);
  const point = emptyChainPoint();
  const STEPS = 400;
  const counted = { driving: 0, ripple: 0, past: 0 };
  for (let trial = 0; trial < 60; trial++) {
    const chain = chainOf({ sinusoidal, rippleLoss: draw(1, 30), windingResistance: draw(0.5, 5), regenerative: false });
    const [limit, backEmf] = [draw(0.5, 5), chain.emf * draw(0.01, 0.6)];
    const drawn = (duty: number): number => {
      solveAtDuty(chain, duty, backEmf, point);
      return point.busCurrent;
    };
    const most = dutyUnderRipple(chain, limit);
    const held = { ...currentAtBatteryLimit(chain, limit, backEmf) };
    const first = Array.from({ length: STEPS }, (_, k) => (k + 1) / STEPS).find((duty) => drawn(duty) > limit);
    if (first === undefined) continue;
    if (held.duty === most) {
      // no current at the duty that ripple leaves
      expect(drawn(most) / limit).toBeCloseTo(1, 9);
      expect(first - most).toBeGreaterThanOrEqual(0);
      counted.ripple++;
    } else {
      expect(drawn(held.duty) / limit).toBeCloseTo(1, 9);
      expect(point.current / held.current).toBeCloseTo(1, 9);
      expect(held.duty).toBeLessThanOrEqual(first);
      counted.driving++;
    }
    expect(first - Math.min(most, held.duty)).toBeLessThan(1 / STEPS);
    if (currentAtBatteryLimit(chain, limit, backEmf, true).duty > 0.5 && held.duty < 0.5) counted.past++;
  }
  expect(Math.min(...Object.values(counted))).toBeGreaterThan(5);
});
