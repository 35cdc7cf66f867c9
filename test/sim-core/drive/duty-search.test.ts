/** Where a sinusoidal drive's voltage is sought: the highest at which the pack is balanced, found in few trials; its most power where there is none. */
import { emptyDutyLaw, followDutyLaw, setDutyLaw, solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import { type ElectricalChain, emptyChainPoint, overloaded } from '@shaftwork/sim-core/drive/electrical-chain';
import { expect, it } from 'vitest';
import { drawnChains } from './drawn-chain.js';

const { draw, again, chainOf: anyChain } = drawnChains(52);
const chainOf = (more: Partial<ElectricalChain>): ElectricalChain => anyChain({ sinusoidal: true, ...more });
const reactive = () => chainOf({ reactiveShare: draw(0.01, 0.1) });
const weak = () => chainOf({ sourceResistance: draw(0.2, 2), otherPower: draw(1, 90), reactiveShare: draw(0, 0.2) });

/** Current and what the pack gives less what is taken, over R_b, at a bus voltage: phasors and powers, written anew. */
function balance(chain: ElectricalChain, duty: number, e: number, sign: number) {
  const r = chain.windingResistance + chain.pathResistance;
  const x = chain.reactiveShare * e;
  const o = e + sign * chain.deadTimeDrop;
  const current = (v: number): number => {
    const inside = (r * o) ** 2 - (r * r + x * x) * (o * o - (duty * v) ** 2);
    return (-r * o + Math.sqrt(Math.max(0, inside))) / (r * r + x * x);
  };
  const left = (v: number): number => {
    const i = current(v);
    const lost = chain.switchingShare * v * Math.abs(i) + chain.idleCurrent * v + chain.rippleLoss * (v * duty * (1 - duty)) ** 2;
    return v * (chain.emf - v) - chain.sourceResistance * ((r * i + o) * i + lost + chain.otherPower);
  };
  return { current, left };
}

/** Highest voltage between `lowest` and where nothing is left at which something is, by a grid and halving; NaN where there is none on the grid. */
function highestRoot(left: (v: number) => number, lowest: number, emf: number): number {
  let top = emf;
  while (left(top) > 0) top *= 1.5;
  const step = (top - lowest) / 400;
  let high = top;
  while (high > lowest && left(high) < 0) high -= step;
  if (!(high > lowest)) {
    if (!(left(lowest) > 0)) return Number.NaN;
    high = lowest;
  }
  let [low, above] = [high, high + step];
  for (let k = 0; k < 60; k++) {
    const middle = 0.5 * (low + above);
    if (left(middle) >= 0) low = middle;
    else above = middle;
  }
  return low;
}

const point = emptyChainPoint();
let trials = 0;
/** A law that counts how often a voltage is tried: each trial reads the power of other loads. */
const law = (() => {
  let product = 0;
  return Object.defineProperty(emptyDutyLaw(), 'product', {
    get: () => {
      trials++;
      return product;
    },
    set: (value: number) => {
      product = value;
    },
  });
})();

it.each([
  ['driving', 1, () => chainOf({}), 5, 8],
  ['driving through much inductance', 1, reactive, 6, 11],
  ['braking', -1, () => chainOf({}), 6, 12],
  ['braking through much inductance', -1, reactive, 7, 12],
] as const)('%s: Newton’s method finds the voltage of the balance in few trials', (_, sign, make, usual, most) => {
  again();
  let [counted, all] = [0, 0];
  for (let trial = 0; trial < 100; trial++) {
    const chain = make();
    law.duty = draw(0.1, 1);
    setDutyLaw(chain, sign, law);
    point.backEmf = sign > 0 ? law.duty * chain.emf * draw(0.05, 0.95) : chain.emf * draw(0.05, 1.1);
    trials = 0;
    followDutyLaw(law, point);
    const took = trials;
    if (sign * point.current <= 1e-3) continue;
    counted++;
    all += took;
    expect(took).toBeLessThanOrEqual(most);
    const { current, left } = balance(chain, law.duty, point.backEmf, sign);
    const root = highestRoot(left, 0.2 * chain.emf, chain.emf);
    expect(Math.abs(point.busVoltage - root)).toBeLessThan(1e-9 * root);
    expect(Math.abs(point.current - current(root))).toBeLessThan(1e-7 * (1 + Math.abs(point.current)));
  }
  expect(counted).toBeGreaterThan(35);
  expect(all / counted).toBeLessThan(usual);
});

it.each([
  ['driving', 1],
  ['braking', -1],
])('%s, a weak pack beside other loads has the highest voltage of its balance or, where it has none, that of its most power', (_, sign) => {
  again();
  const counted = { balanced: 0, beyond: 0 };
  for (let trial = 0; trial < 250; trial++) {
    const chain = weak();
    law.duty = draw(0.1, 1);
    setDutyLaw(chain, sign, law);
    point.backEmf = sign > 0 ? law.duty * chain.emf * draw(0.05, 0.7) : chain.emf * draw(0.05, 1.1);
    followDutyLaw(law, point);
    if (sign * point.current <= 1e-3) continue;
    const { current, left } = balance(chain, law.duty, point.backEmf, sign);
    const lowest = sign > 0 ? (point.backEmf + chain.deadTimeDrop) / law.duty : 0.05 * chain.emf;
    const root = highestRoot(left, lowest, chain.emf);
    if (root > 0) {
      counted.balanced++;
      expect(Math.abs(point.busVoltage - root)).toBeLessThan(1e-6 * root);
      expect(Math.abs(left(point.busVoltage))).toBeLessThan(1e-9 * chain.emf ** 2);
    } else {
      counted.beyond++;
      expect([point.conductance, point.currentSlope].map(Math.abs)).toEqual([0, 0]);
      const { busVoltage } = point;
      for (const beside of [0.999, 1.001]) expect(left(busVoltage * beside)).toBeLessThan(left(busVoltage) + 1e-12);
    }
    expect(Math.abs(point.current - current(point.busVoltage))).toBeLessThan(1e-9 * (1 + Math.abs(point.current)));
  }
  expect(counted.balanced).toBeGreaterThan(80);
  expect(counted.beyond).toBeGreaterThan(10);
});

it('a block drive whose pack cannot give what runs beside it has its most power there, and no slope', () => {
  again();
  const chain = chainOf({ sinusoidal: false, otherPower: 1e6 });
  law.duty = 0.7;
  setDutyLaw(chain, 1, law);
  point.backEmf = 0.2 * chain.emf;
  followDutyLaw(law, point);
  expect([point.conductance, point.currentSlope].map(Math.abs)).toEqual([0, 0]);
});

it('other loads that no voltage is left for collapse the pack, though the motor could draw nothing: no root, and least is missing there', () => {
  again();
  const point = emptyChainPoint();
  let starved = 0;
  for (let trial = 0; trial < 300; trial++) {
    const reactiveShare = trial % 2 === 0 ? 0 : draw(0, 0.02);
    const bare = anyChain({
      sinusoidal: reactiveShare > 0,
      reactiveShare,
      sourceResistance: draw(0.2, 1),
      windingResistance: draw(0.002, 0.05),
    });
    const chain = { ...bare, otherPower: (draw(0.2, 0.9) * bare.emf ** 2) / (4 * bare.sourceResistance) };
    const duty = draw(0.2, 1);
    const backEmf = chain.emf * duty * draw(0.01, 0.4);
    solveAtDuty(chain, duty, backEmf, point);
    if (!point.starved) continue;
    starved++;
    const { left } = balance(chain, duty, backEmf, 1);
    const lowest = (backEmf + chain.deadTimeDrop) / duty;
    expect(point.current).toBeGreaterThanOrEqual(0);
    if (!overloaded(chain, point.busVoltage, point.busCurrent)) continue;
    expect(highestRoot(left, lowest, chain.emf)).toBeNaN();
    expect(point.busVoltage / lowest).toBeGreaterThan(1 - 1e-12);
    for (const more of [1.01, 1.1, 1.5]) expect(left(more * point.busVoltage)).toBeLessThan(left(point.busVoltage));
  }
  expect(starved).toBeGreaterThan(20);
});
