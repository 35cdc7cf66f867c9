/** How current follows the back-EMF and the bridge's voltage at a duty, against a solution of the same balances by halving; and the short step along them. */
import { bendDutyLaw, drawBusCurrent, emptyDutyLaw, followDutyLaw, setDutyLaw, stepDutyLaw } from '@shaftwork/sim-core/drive/duty-law';
import { type ElectricalChain, emptyChainPoint } from '@shaftwork/sim-core/drive/electrical-chain';
import { describe, expect, it } from 'vitest';
import { chainMisses } from './chain-equations.js';
import { drawnChains } from './drawn-chain.js';

const { draw, again, chainOf: anyChain } = drawnChains(33);
const chainOf = (sinusoidal: boolean, diodeDrop: number): ElectricalChain => anyChain({ sinusoidal, diodeDrop });

/** Driving current at a duty and back-EMF with `extra` volts more at the bridge than d·v_bus: by halving the bus voltage between a half of E and E. */
function currentAt(chain: ElectricalChain, duty: number, e: number, extra: number): number {
  const path = chain.diodeDrop > 0 ? 0.5 * (1 + duty) * chain.pathResistance : chain.pathResistance;
  const r = chain.windingResistance + path;
  const o = e + (1 - duty) * chain.diodeDrop + chain.deadTimeDrop;
  const x = chain.reactiveShare * e;
  const current = (v: number): number => {
    const u = duty * v + extra;
    if (!chain.sinusoidal) return (u - o) / (r + x);
    return (-r * o + Math.sqrt((r * o) ** 2 - (r * r + x * x) * (o * o - u * u))) / (r * r + x * x);
  };
  const left = (v: number): number => {
    const i = current(v);
    const ripple = chain.rippleLoss * (v * duty * (1 - duty)) ** 2;
    const power = (r * i + o) * i + chain.switchingShare * v * i + chain.idleCurrent * v + ripple + chain.otherPower;
    return v * (chain.emf - v) - chain.sourceResistance * power;
  };
  let [low, high] = [0.5 * chain.emf, chain.emf];
  for (let k = 0; k < 60; k++) {
    const middle = 0.5 * (low + high);
    if (left(middle) > 0) low = middle;
    else high = middle;
  }
  return current(low);
}

describe.each([
  ['block drive', false, 0],
  ['block drive with a diode', false, 0.6],
  ['sinusoidal drive', true, 0],
] as const)('%s', (_, sinusoidal, diodeDrop) => {
  const law = emptyDutyLaw();
  const point = emptyChainPoint();

  it('current, its slope in the back-EMF and its rise with the bridge’s voltage are those of the balances', () => {
    again();
    let counted = 0;
    for (let trial = 0; trial < 60; trial++) {
      const chain = chainOf(sinusoidal, diodeDrop);
      const duty = draw(0.3, 1);
      const e = duty * chain.emf * draw(0.4, 0.85);
      law.duty = duty;
      setDutyLaw(chain, 1, law);
      point.backEmf = e;
      followDutyLaw(law, point);
      if (!(point.current > 0.2 && point.busVoltage > 0.6 * chain.emf)) continue;
      counted++;
      const h = 1e-4;
      expect(point.current / currentAt(chain, duty, e, 0)).toBeCloseTo(1, 9);
      expect(point.currentSlope / ((currentAt(chain, duty, e + h, 0) - currentAt(chain, duty, e - h, 0)) / (2 * h))).toBeCloseTo(1, 5);
      expect(point.conductance / ((currentAt(chain, duty, e, h) - currentAt(chain, duty, e, -h)) / (2 * h))).toBeCloseTo(1, 5);
      drawBusCurrent(law, point);
      for (const miss of chainMisses(chain, e, { ...point, duty })) expect(Math.abs(miss)).toBeLessThan(1e-9);
    }
    expect(counted).toBeGreaterThan(25);
  });
});

it('a short step along slope and curvature misses by its third power alone', () => {
  again();
  const law = emptyDutyLaw();
  const [here, there] = [emptyChainPoint(), emptyChainPoint()];
  for (let trial = 0; trial < 20; trial++) {
    const chain = chainOf(false, 0);
    law.duty = draw(0.4, 1);
    setDutyLaw(chain, 1, law);
    const e = law.duty * chain.emf * draw(0.4, 0.7);
    const miss = (step: number): number => {
      here.backEmf = e;
      followDutyLaw(law, here);
      bendDutyLaw(law, here);
      stepDutyLaw(law, here, step);
      there.backEmf = e + step;
      followDutyLaw(law, there);
      expect(here.backEmf).toBe(e + step);
      return Math.abs(here.current - there.current);
    };
    const far = miss(0.1 * e);
    if (far > 1e-7) expect(far / miss(0.05 * e)).toBeGreaterThan(6);
    expect(miss(1e-3 * e)).toBeLessThan(1e-7 * (1 + here.current));
    // the bus is told by the motor's mesh, at the new current
    expect(here.busVoltage).toBeCloseTo(there.busVoltage, 6);
  }
});
