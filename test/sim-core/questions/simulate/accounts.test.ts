/** Every result carries its accounts of energy, heat and charge, and they close: on all demos, on a bench supply, and not where a term is lost. */
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { energyMeter } from '@shaftwork/sim-core/questions/simulate/energy-account';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { DEMOS, demo } from '../../../demo.js';
import { DRIVES } from '../../../properties/key-drives.js';

const accountsOf = (name: string) => {
  const { candidates, scenario } = demo(name);
  return candidates.map(({ data }) => {
    const system = realise(data);
    const run = simulate(system, scenario.profile, { method: 'dormand-prince', relative: 1e-6, record: true });
    return { system, run, energy: run.recorded!.energy };
  });
};

describe.each(DEMOS)('%s', (name) => {
  it('closes the accounts of energy, heat and charge', () => {
    for (const { system, run, energy } of accountsOf(name)) {
      expect(Math.abs(energy.residual)).toBeLessThan(1e-6);
      expect(Math.abs(energy.heatResidual)).toBeLessThan(1e-6);
      expect(Math.abs(energy.chargeResidual)).toBeLessThan(1e-6);
      // and by hand: what left the cells over their mean voltage is about the charge that the state has lost
      const fallen = system.start.charge - run.state[run.kernel.at.charge];
      const meanVoltage = energy.terms.batteryChemical / (fallen * system.battery.capacity) / system.battery.cellsInSeries;
      expect(meanVoltage).toBeGreaterThan(3);
      expect(meanVoltage).toBeLessThan(4.3);
    }
  });
});

it.each(Object.keys(DRIVES))('%s: the drives that have every key between them close theirs too', (name) => {
  const made = prepareScenario(JSON.stringify({ title: 'Accounts', candidates: [{ name: 'A' }], ...DRIVES[name] }));
  if (made.kind !== 'ready') throw new Error(JSON.stringify(made, null, 1));
  const { candidates, scenario } = made.prepared;
  for (const { data } of candidates) {
    const { recorded } = simulate(realise(data), scenario.profile, { method: 'dormand-prince', relative: 1e-6, record: true });
    expect(Math.abs(recorded?.energy.residual ?? Number.NaN)).toBeLessThan(1e-6);
    expect(Math.abs(recorded?.energy.heatResidual ?? Number.NaN)).toBeLessThan(1e-6);
  }
});

it('a bench supply does not empty: nothing is open', () => {
  const preparation = prepareScenario(
    new Map([
      [
        'a.yaml',
        `title: Bench
battery: { supply: 12 V }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 10 s, throttle: 60 % }]
candidates: [{ name: A, motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } } }]
`,
      ],
    ]),
    'a.yaml',
  );
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
  const { candidates, scenario } = preparation.prepared;
  const { energy } = simulate(realise(candidates[0].data), scenario.profile, { record: true }).recorded!;
  expect(energy.chargeResidual).toBe(0);
  expect(Math.abs(energy.residual)).toBeLessThan(1e-6);
});

it('the account of charge is open where the state loses more than is drawn', () => {
  const system = realise(demo('survey-boat').candidates[0].data);
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  y[kernel.at.speed] = 2;
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.6, to: 0.6 } }, 0, false);
  const rates = new Float64Array(kernel.dimension);
  kernel.derivative(0, y, rates);
  const meter = energyMeter(kernel, system, Number.POSITIVE_INFINITY);
  meter.add({ from: 0, to: 1, start: y, end: y, at: (_, into) => into.set(y) });
  const after = (leak: number): number => {
    const end = Float64Array.from(y, (value, k) => value + rates[k]);
    end[kernel.at.charge] = y[kernel.at.charge] + (1 + leak) * rates[kernel.at.charge];
    return meter.account(y, end).chargeResidual;
  };
  expect(Math.abs(after(0))).toBeLessThan(1e-12);
  expect(after(0.01)).toBeCloseTo(-0.01 / 1.01, 9);
});

it('a step is not taken, and nothing of it added, where its ends tell of another charge or heat than what is between them', () => {
  const system = realise(demo('survey-boat').candidates[0].data);
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.6, to: 0.6 } }, 0, false);
  const rates = new Float64Array(kernel.dimension);
  kernel.derivative(0, y, rates);
  const meter = energyMeter(kernel, system, 1e-8);
  const taken = (place: number, leak: number): boolean => {
    const end = Float64Array.from(y, (value, k) => value + (k === place ? 1 + leak : 1) * rates[k]);
    return meter.add({ from: 0, to: 1, start: y, end, at: (_, into) => into.set(y) });
  };
  const { charge, winding } = kernel.at;
  // open may stay a relative 1e-8 of a full pack and of 300 K of all bodies, and a two-millionth of what passed
  const { capacity } = system.heat;
  const drawn = kernel.point.packCurrent;
  const gained = BODIES.map((body) => capacity[body] * rates[kernel.at[body]]);
  const stored = gained.reduce((sum, each) => sum + each, 0);
  const whole = BODIES.reduce((sum, body) => sum + capacity[body], 0);
  const edge = {
    [charge]: (1e-8 * system.battery.capacity + 5e-7 * drawn) / drawn,
    [winding]: (1e-8 * 300 * whole + 5e-7 * stored) / (capacity.winding * rates[winding]),
  };
  for (const place of [charge, winding])
    for (const leak of [1e-3, -1e-3, 1.01 * edge[place], -1.01 * edge[place]]) expect(taken(place, leak)).toBe(false);
  expect(meter.account(y, y).terms.batteryChemical).toBe(0);
  expect(taken(charge, 0)).toBe(true);
  for (const place of [charge, winding])
    for (const leak of [0.99 * edge[place], -0.99 * edge[place]]) expect(taken(place, leak)).toBe(true);
  expect(meter.account(y, y).terms.batteryChemical).toBeGreaterThan(0);
});
