/** Pack to winding by Kirchhoff's laws and the balance of power; what a pack can give at most; nothing on, nothing drawn but what runs beside. */
import { solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import {
  bridgeVoltage,
  collapsed,
  emptyChainPoint,
  emptyElectricalChain,
  leakAt,
  openBusVoltage,
  overloaded,
  solveForCurrent,
  solveOff,
  sourceResistance,
} from '@shaftwork/sim-core/drive/electrical-chain';
import { describe, expect, it } from 'vitest';
import { chainMisses } from './chain-equations.js';
import { drawnChains } from './drawn-chain.js';

const { draw, again, chainOf } = drawnChains(21);
const point = emptyChainPoint();

describe.each([false, true])('sinusoidal drive: %s', (sinusoidal) => {
  it.each([
    ['as usual', {}],
    ['with a diode', { diodeDrop: 0.7, pathResistance: 0.02 }],
    ['with a diode and no ripple', { diodeDrop: 0.7, rippleLoss: 0 }],
    ['where ripple leaks so much that its duty cannot be found by turns', { rippleLoss: 900, sourceResistance: 0.08 }],
  ])('a current, driving or braking, is had at the duty that is told: %s', (_, more) => {
    again();
    let [driving, braking] = [0, 0];
    for (let trial = 0; trial < 150; trial++) {
      const chain = chainOf({ sinusoidal, ...more });
      const backEmf = chain.emf * draw(0.1, 0.7);
      const current = draw(-20, 30);
      const duty = solveForCurrent(chain, current, backEmf, point);
      if (!(duty > 1e-3 && duty < 1)) continue;
      if (current > 0) driving++;
      else braking++;
      expect(point.duty).toBe(duty);
      expect(point.current).toBe(current);
      for (const miss of chainMisses(chain, backEmf, point)) expect(Math.abs(miss)).toBeLessThan(1e-9);
      expect(overloaded(chain, point.busVoltage, point.busCurrent)).toBe(false);
    }
    expect(driving).toBeGreaterThan(20);
    expect(braking).toBeGreaterThan(20);
  });

  it('at a duty the current is the one that all balances ask for, none backwards without regenerative braking', () => {
    again();
    let [driving, braking, let_go] = [0, 0, 0];
    for (let trial = 0; trial < 200; trial++) {
      const regenerative = trial % 2 === 0;
      const chain = chainOf({ sinusoidal, regenerative, diodeDrop: trial % 3 === 0 ? 0.6 : 0 });
      const backEmf = chain.emf * draw(0.1, 0.9);
      const duty = draw(0.3, 1);
      solveAtDuty(chain, duty, backEmf, point);
      expect(point.duty).toBe(duty);
      if (point.current === 0) {
        // the bridge's devices stay open: idle draw and ripple alone
        let_go++;
        expect(point.currentSlope).toBe(0);
        const leak = chain.rippleLoss * (duty * (1 - duty)) ** 2;
        expect(point.busCurrent).toBeCloseTo(chain.idleCurrent + leak * point.busVoltage, 12);
        expect(chain.emf - chain.sourceResistance * (point.busCurrent + chain.otherPower / point.busVoltage)).toBeCloseTo(
          point.busVoltage,
          10,
        );
        continue;
      }
      if (point.current > 0) driving++;
      else braking++;
      expect(regenerative || point.current > 0).toBe(true);
      // a shorted winding brakes the less the faster it turns, beyond ω = R/L: duty-law.test.ts holds its slope
      if (point.conductance > 0) expect(point.currentSlope).toBeLessThan(0);
      else expect(sinusoidal && point.current < 0).toBe(true);
      const misses = chainMisses(chain, backEmf, point);
      // with inductance a braking sinusoidal drive may not come down to the voltage asked: duty-law.test.ts
      for (const miss of sinusoidal && point.current < 0 ? misses.slice(0, 2) : misses) expect(Math.abs(miss)).toBeLessThan(1e-9);
    }
    expect(driving).toBeGreaterThan(40);
    expect(braking).toBeGreaterThan(20);
    expect(let_go).toBeGreaterThan(20);
  });
});

it('full throttle that does not reach a current is told as a duty above one', () => {
  again();
  const chain = chainOf({ emf: 10, sourceResistance: 0.02, windingResistance: 0.1, diodeDrop: 0 });
  solveAtDuty(chain, 1, 6, point);
  const most = point.current;
  expect(solveForCurrent(chain, most * 1.001, 6, point)).toBeGreaterThan(1);
  expect(solveForCurrent(chain, most * 0.999, 6, point)).toBeLessThan(1);
  expect(solveForCurrent(chain, most, 6, point)).toBeCloseTo(1, 9);
  expect(solveForCurrent({ ...chain, diodeDrop: 0.7 }, 1.2 * most, 6, point)).toBeGreaterThan(1.05);
});

it('a pack gives at most E²/(4·R_b): beyond, there is no duty', () => {
  const bare = { ...emptyElectricalChain(), emf: 10, sourceResistance: 0.1, windingResistance: 0.05 };
  // 250 W at most; i·(0.05·i + e) takes 249 W at e = 8.3 − 1.5, i = 30
  expect(solveForCurrent(bare, 30, 6.8, point)).toBeGreaterThan(1);
  expect(point.busVoltage).toBeCloseTo(5 + Math.sqrt(25 - 0.1 * 249), 9);
  expect(solveForCurrent(bare, 30, 6.9, point)).toBeNaN();
  // 100 A against 0.4 V: full throttle would take 260 W; at a third of it a diode carries what the path would lose
  const carried = { ...bare, windingResistance: 0.01, pathResistance: 0.012, diodeDrop: 0.05 };
  expect(solveForCurrent({ ...carried, diodeDrop: 0 }, 100, 0.4, point)).toBeNaN();
  expect(solveForCurrent(carried, 100, 0.4, point)).toBeCloseTo(0.342, 2);
  for (const miss of chainMisses(carried, 0.4, point)) expect(Math.abs(miss)).toBeLessThan(1e-9);
  // where full throttle would take too much but half of the path, since a diode carries the rest, does not
  const diode = { ...bare, pathResistance: 0.04, windingResistance: 0.03, diodeDrop: 0.05 };
  expect(solveForCurrent(diode, 30, 6.2, point)).not.toBeNaN();
});

it('a pack is overloaded once its voltage under the draw would lie below the bus', () => {
  const chain = { emf: 10, sourceResistance: 0.1, otherPower: 0 };
  const full = { ...emptyElectricalChain(), ...chain };
  expect(overloaded(full, 5, 50)).toBe(false);
  expect(overloaded(full, 5, 50.001)).toBe(true);
  expect(overloaded({ ...full, otherPower: 100 }, 8, 7.5)).toBe(false);
  expect(overloaded({ ...full, otherPower: 100 }, 8, 7.501)).toBe(true);
  expect(overloaded(full, Number.NaN, 1)).toBe(true);
  expect(overloaded({ ...full, otherPower: 100 }, -1, 0)).toBe(true);
});

it('off, the pack feeds idle draw and other loads alone', () => {
  again();
  const chain = chainOf({ emf: 12, sourceResistance: 0.05, idleCurrent: 0.3, otherPower: 20 });
  Object.assign(point, { current: 9, currentSlope: -1, conductance: 2, duty: 0.5 });
  solveOff(chain, point);
  expect(point).toMatchObject({ current: 0, currentSlope: 0, conductance: 0, duty: 0, busCurrent: 0.3 });
  expect(12 - 0.05 * (0.3 + 20 / point.busVoltage)).toBeCloseTo(point.busVoltage, 12);
  expect(openBusVoltage({ ...chain, otherPower: 0 }, 0.4)).toBeCloseTo((12 - 0.05 * 0.3) / (1 + 0.05 * 0.4), 12);
  const leaking = openBusVoltage(chain, 0.4);
  expect(12 - 0.05 * (0.3 + 0.4 * leaking + 20 / leaking)).toBeCloseTo(leaking, 12);
  // where the loads ask for more than the pack has: the voltage of its most power
  expect(openBusVoltage({ ...chain, idleCurrent: 0, otherPower: 1e4 }, 0)).toBeCloseTo(6, 12);
});

it('a pack whose idle draw alone takes all its voltage has collapsed: what flows is its short circuit', () => {
  const chain = { ...emptyElectricalChain(), emf: 10, sourceResistance: 0.1 };
  expect([99, 100, 101].map((idleCurrent) => collapsed({ ...chain, idleCurrent }))).toEqual([false, true, true]);
  solveOff({ ...chain, idleCurrent: 101 }, point);
  expect([point.busVoltage, point.busCurrent]).toEqual([0, 100]);
  solveOff({ ...chain, emf: -1, idleCurrent: 101 }, point);
  expect([point.busVoltage, point.busCurrent]).toEqual([0, 0]);
});

it('the duty of a current is found by turns in few passes where ripple and diode hang on it little', () => {
  again();
  let passes = 0;
  for (let trial = 0; trial < 40; trial++) {
    const chain = chainOf({ diodeDrop: 0.7 });
    const { deadTimeDrop } = chain;
    // read once in each pass
    Object.defineProperty(chain, 'deadTimeDrop', {
      get: () => {
        passes++;
        return deadTimeDrop;
      },
    });
    passes = 0;
    const duty = solveForCurrent(chain, draw(1, 10), chain.emf * draw(0.2, 0.7), point);
    expect(duty).toBeLessThan(1);
    expect(passes).toBeLessThan(21);
  }
});

it('braking harder than a short circuit has no duty, however near the pack is to its most', () => {
  // 8.9 A through 0.58 Ω take 5.2 V and the back-EMF gives 4.2 V: the rest, 8.5 W, is nearly all that 17.2 V behind 7.3 Ω have left
  const chain = {
    ...emptyElectricalChain(),
    emf: 18.1,
    sourceResistance: 7.3,
    idleCurrent: 0.3,
    windingResistance: 0.58,
    reactiveShare: 0.12,
    rippleLoss: 0.009,
    regenerative: true,
  };
  for (let backEmf = 3.9; backEmf < 5; backEmf += 1e-3) expect(solveForCurrent(chain, -8.9, backEmf, point) > 0).toBe(false);
});

it('cells in series add resistance, cells side by side and fewer drives share it less', () => {
  const pack = { cellsInSeries: 4, cellsInParallel: 2, cellResistance: 0.005 };
  expect(sourceResistance(pack, 1.5, 2, 0.003)).toBeCloseTo((2 * 4 * 0.005 * 1.5) / 2 + 0.003, 15);
});

it('the ripple of the current is greatest at half duty and none at full throttle', () => {
  again();
  const chain = chainOf({ rippleLoss: 0.8 });
  expect(leakAt(chain, 0.5)).toBeCloseTo(0.8 / 16, 15);
  expect(leakAt(chain, 0.25)).toBeCloseTo(leakAt(chain, 0.75), 15);
  expect(leakAt(chain, 1)).toBe(0);
});

it('reactive voltage adds to what works: straight in a block drive, at a right angle in a sinusoidal one', () => {
  expect(bridgeVoltage(false, 8, 6)).toBe(14);
  expect(bridgeVoltage(true, 8, 6)).toBe(10);
});

it('has no duty for a current whose switching alone takes more than the pack’s voltage', () => {
  again();
  // 12 V less 2 Ω times 3 A of the switching's 8: both roots of (1) and (2) lie below zero
  const chain = chainOf({ emf: 12, sourceResistance: 2, switchingShare: 3, otherPower: 0, idleCurrent: 0, rippleLoss: 0 });
  expect(solveForCurrent(chain, 8, 1, point)).toBeNaN();
});
