/** Slopes of the chain against differences, its balance of power, and where a sinusoidal drive cannot brake more gently. */
import { currentAtBatteryLimit } from '@shaftwork/sim-core/drive/battery-limit';
import { bendDutyLaw, emptyDutyLaw, followDutyLaw, setDutyLaw, solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import { type ElectricalChain, emptyChainPoint, leakAt, solveForCurrent } from '@shaftwork/sim-core/drive/electrical-chain';
import { describe, expect, it } from 'vitest';
import { drawnChains } from './drawn-chain.js';

const { draw, again, chainOf: anyChain } = drawnChains(14);
const chainOf = (sinusoidal: boolean, more: Partial<ElectricalChain> = {}): ElectricalChain => anyChain({ sinusoidal, ...more });

describe.each([false, true])('sinusoidal drive: %s', (sinusoidal) => {
  it('slopes are those of differences', () => {
    again();
    const law = emptyDutyLaw();
    const [low, high, point] = [emptyChainPoint(), emptyChainPoint(), emptyChainPoint()];
    for (let trial = 0; trial < 300; trial++) {
      const chain = chainOf(sinusoidal);
      law.duty = draw(0.2, 1);
      setDutyLaw(chain, 1, law);
      point.backEmf = law.duty * chain.emf * draw(0.3, 0.95);
      const step = 1e-4 * point.backEmf;
      low.backEmf = point.backEmf - step;
      high.backEmf = point.backEmf + step;
      for (const each of [low, high, point]) followDutyLaw(law, each);
      if (!(low.current > 0.1 && high.current > 0.1)) continue;
      const slope = (high.current - low.current) / (2 * step);
      expect(point.currentSlope / slope).toBeCloseTo(1, 6);
      const curvature = (high.currentSlope - low.currentSlope) / (2 * step);
      bendDutyLaw(law, point);
      if (!sinusoidal) expect(Math.abs(point.currentCurvature - curvature)).toBeLessThan(1e-5 * Math.abs(slope / point.backEmf));
    }
  });

  it('the current at a battery limit draws that limit, with its slope, with a diode too', () => {
    again();
    const point = emptyChainPoint();
    const counted = { below: 0, full: 0 };
    for (let trial = 0; trial < 300; trial++) {
      const chain = chainOf(sinusoidal, trial % 2 === 0 ? {} : { diodeDrop: 0.7 });
      const limit = draw(2, 40);
      const backEmf = chain.emf * draw(0.05, 0.8);
      const { current, slope } = { ...currentAtBatteryLimit(chain, limit, backEmf) };
      const asked = solveForCurrent(chain, current, backEmf, point);
      if (asked < 1) expect(point.busCurrent / limit).toBeCloseTo(1, 9);
      // where full throttle stays below the limit its slope is told, neither diode nor ripple in it
      if (!(Math.abs(asked - 1) > 1e-3)) continue;
      counted[asked < 1 ? 'below' : 'full']++;
      const step = 1e-4 * backEmf;
      const difference =
        (currentAtBatteryLimit(chain, limit, backEmf + step).current - currentAtBatteryLimit(chain, limit, backEmf - step).current) /
        (2 * step);
      expect(slope / difference).toBeCloseTo(1, 5);
    }
    expect(counted.below).toBeGreaterThan(150);
    expect(counted.full).toBeGreaterThan(5);
  });

  it('inductance takes voltage and no power', () => {
    again();
    const [with_, without] = [emptyChainPoint(), emptyChainPoint()];
    for (let trial = 0; trial < 100; trial++) {
      const chain = chainOf(sinusoidal, { rippleLoss: 0 });
      const current = draw(1, 30);
      const backEmf = chain.emf * draw(0.1, 0.5);
      const asked = solveForCurrent(chain, current, backEmf, with_);
      const bare = solveForCurrent({ ...chain, reactiveShare: 0 }, current, backEmf, without);
      if (Number.isNaN(bare)) continue;
      expect(asked).toBeGreaterThan(bare);
      expect(with_.busCurrent).toBeCloseTo(without.busCurrent, 9);
    }
  });
});

it('a sinusoidal drive asked for less voltage than braking in phase leaves brakes as its shorted winding does', () => {
  again();
  // i = −R·e/(R² + X²), X the reactance between lines: the q-axis current of a shorted surface-magnet machine
  const chain = chainOf(true, { pathResistance: 0, deadTimeDrop: 0, reactiveShare: 0.02 });
  const point = emptyChainPoint();
  const backEmf = 0.8 * chain.emf;
  const reactance = 0.02 * backEmf;
  solveAtDuty(chain, 1e-6, backEmf, point);
  expect(point.current).toBeCloseTo((-chain.windingResistance * backEmf) / (chain.windingResistance ** 2 + reactance ** 2), 9);
  const working = chain.windingResistance * point.current + backEmf;
  const losses = chain.switchingShare * Math.abs(point.current) + chain.idleCurrent + leakAt(chain, 1e-6) * point.busVoltage;
  expect(point.busCurrent).toBeCloseTo((working * point.current) / point.busVoltage + losses, 9);
  const [low, high] = [emptyChainPoint(), emptyChainPoint()];
  const step = 1e-4 * backEmf;
  solveAtDuty(chain, 1e-6, backEmf - step, low);
  solveAtDuty(chain, 1e-6, backEmf + step, high);
  expect(point.currentSlope / ((high.current - low.current) / (2 * step))).toBeCloseTo(1, 6);
});
