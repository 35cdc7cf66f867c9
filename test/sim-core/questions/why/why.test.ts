import { whyOfScenario } from '@shaftwork/sim-core/other-questions';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { assertEnds, differsIn, mixedDrive } from '@shaftwork/sim-core/questions/why/mixed-drive';
import { why } from '@shaftwork/sim-core/questions/why/why';
import { WHY_PARTS } from '@shaftwork/sim-core/results/why-result';
import { type PreparedScenario, prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { DEMOS, demo } from '../../../demo.js';

function prepared(text: string): PreparedScenario {
  const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
}

/** A held current for hours on a pack that does not end: the network settles. */
const steady = (first: string, second: string): PreparedScenario =>
  prepared(`title: linear
ambient: { air: 20 °C }
start: { temperature: 20 °C }
battery: { chemistry: lithium-polymer, cells: { series: 6 }, capacity: 5000 Ah, cell_resistance: 1 mohm }
controller: { voltage_loss: 0 W } # ripple would warm the stator
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 12 h, motor_current: 10 A }]
limits: { winding: 90 °C, controller: 250 °C, magnets: 200 °C, cells: 200 °C }
candidates:
  - { name: A, motor: { layout: inrunner, kv: 900 rpm/V, no_load: { current: 1 mA, voltage: 10 V }, mass: 100 g, can: { diameter: 30 mm, length: 50 mm }, ${first} } }
  - { name: B, motor: { layout: inrunner, kv: 900 rpm/V, no_load: { current: 1 mA, voltage: 10 V }, mass: 100 g, can: { diameter: 30 mm, length: 50 mm }, ${second} } }
`);

/** Steady winding temperature [°C] of winding – stator – can – surroundings in series, copper loss growing with the winding's temperature. */
const settled = (ohms: number, toStator: number, toCan: number, toAir: number): number => {
  const path = 1 / toStator + 1 / toCan + 1 / toAir;
  const cold = 100 * ohms * path;
  return 20 + cold / (1 - 0.00393 * cold);
};
const thermal = (toStator: number): string => `thermal: { winding_to_stator: ${toStator} W/K, stator_to_can: 8 W/K, can_to_air: 0.5 W/K }`;

describe('why', () => {
  it('one resistance of the network changed: all of the difference is its, as in closed form', () => {
    const scenario = steady(`resistance: 80 mohm, ${thermal(0.7)}`, `resistance: 80 mohm, ${thermal(1.4)}`);
    const { splits, simulations } = whyOfScenario(scenario, { from: 'A', to: 'B' });
    const expected = settled(0.08, 1.4, 8, 0.5) - settled(0.08, 0.7, 8, 0.5);
    expect(splits[0].parts.map(({ id }) => id)).toEqual(['heatPaths']);
    // iron loss of the 1 mA no-load current warms by some hundredths of a kelvin
    expect(Math.abs(splits[0].difference - expected)).toBeLessThan(0.05);
    expect(splits[0].parts[0].value).toBeCloseTo(splits[0].difference, 9);
    expect(simulations).toBe(2);
  });

  it('two changed: the Shapley values of the closed form, interaction included', () => {
    const scenario = steady(`resistance: 80 mohm, ${thermal(0.7)}`, `resistance: 110 mohm, ${thermal(1.4)}`);
    const [split] = whyOfScenario(scenario, { from: 'A', to: 'B' }).splits;
    const v = (ohms: number, path: number): number => settled(ohms, path, 8, 0.5);
    const heat = 0.5 * (v(0.08, 1.4) - v(0.08, 0.7) + v(0.11, 1.4) - v(0.11, 0.7));
    const size = 0.5 * (v(0.11, 0.7) - v(0.08, 0.7) + v(0.11, 1.4) - v(0.08, 1.4));
    const part = (id: string): number => split.parts.find((each) => each.id === id)!.value;
    expect(Math.abs(part('heatPaths') - heat)).toBeLessThan(0.1);
    expect(Math.abs(part('motorConstant') - size)).toBeLessThan(0.1);
    const together = v(0.11, 1.4) - v(0.11, 0.7) - v(0.08, 1.4) + v(0.08, 0.7);
    expect(Math.abs(split.interaction!.value - together)).toBeLessThan(0.1);
    expect(split.interactionsExceedParts).toBe(false);
  });

  it('tells the heat paths way by way: in a series of two, the Shapley values of the closed form', () => {
    const own = (toStator: number, toAir: number) =>
      `resistance: 80 mohm, thermal: { winding_to_stator: ${toStator} W/K, stator_to_can: 8 W/K, can_to_air: ${toAir} W/K }`;
    const scenario = steady(own(0.7, 0.5), own(1.4, 0.8));
    const [split] = whyOfScenario(scenario, { from: 'A', to: 'B' }).splits;
    const v = (toStator: number, toAir: number): number => settled(0.08, toStator, 8, toAir);
    const inside = 0.5 * (v(1.4, 0.5) - v(0.7, 0.5) + v(1.4, 0.8) - v(0.7, 0.8));
    const outside = 0.5 * (v(0.7, 0.8) - v(0.7, 0.5) + v(1.4, 0.8) - v(1.4, 0.5));
    const { ways, value } = split.parts.find(({ id }) => id === 'heatPaths')!;
    const way = (id: string): number => ways!.find((each) => each.id === id)!.value;
    expect(Math.abs(way('inside') - inside)).toBeLessThan(0.1);
    expect(Math.abs(way('elsewhere') - outside)).toBeLessThan(0.1);
    expect(ways!.reduce((sum, each) => sum + each.value, 0)).toBeCloseTo(value, 9);
  });

  it('on the boat the parts sum to the difference to 1e-6, both ways round', { timeout: 60_000 }, () => {
    const boat = demo('survey-boat');
    const result = runScenario(boat);
    const there = whyOfScenario(boat, { from: 'Wide', to: 'Long', result });
    const back = whyOfScenario(boat, { from: 'Long', to: 'Wide', result });
    for (const { splits } of [there, back]) {
      for (const { parts, difference, from, to } of splits) {
        expect(Math.abs(parts.reduce((sum, { value }) => sum + value, 0) - difference)).toBeLessThan(1e-6);
        expect(to - from).toBe(difference);
      }
    }
    for (const part of there.splits[0].parts) {
      expect(back.splits[0].parts.find(({ id }) => id === part.id)!.value).toBeCloseTo(-part.value, 3);
    }
    // what a practitioner expects of a long motor in a hull: shorter ways for the heat, a longer jacket, a little more resistance
    expect(there.splits[0].parts[0].id).toBe('heatPaths');
    expect(there.splits[0].parts.find(({ id }) => id === 'motorConstant')!.value).toBeGreaterThan(0);
    expect(there.sentence).toContain('the water jacket');
    // five parts, and the four ways of the heat paths with all else of the one and of the other
    expect(there.simulations).toBe(2 ** 5 + 2 * 2 ** 4);
    expect(there.capped).toEqual([]);
  });

  it('changes nothing by exchanging a winding for itself, or a gear for the same drive at the shaft', () => {
    const [a, b] = demo('survey-boat').candidates.map(({ data }) => realise(data));
    expect(differsIn('speedConstant', a, b)).toBe(false);
    // the same motor wound for five times the speed behind a gear of five to one
    const k = 5;
    const geared = {
      ...a,
      gearbox: { ...a.gearbox, ratio: k },
      motor: {
        ...a.motor,
        torqueConstant: a.motor.torqueConstant / k,
        resistance: a.motor.resistance,
        inductance: a.motor.inductance / k,
        hysteresisTorque: a.motor.hysteresisTorque / k,
        eddyTorque: a.motor.eddyTorque / k ** 2,
        frictionTorque: a.motor.frictionTorque / k,
        rotorInertia: a.motor.rotorInertia / k ** 2,
      },
    };
    for (const part of ['speedConstant', 'motorConstant', 'lossTorque', 'overrides'] as const)
      expect(differsIn(part, a, geared), part).toBe(false);
    const { profile } = demo('survey-boat').scenario;
    const peak = (system: typeof a): number =>
      simulate(system, profile, { method: 'dormand-prince', record: false }).highest.windingTemperature.value;
    const mixed = mixedDrive(a, geared, (part) => part === 'motorConstant' || part === 'lossTorque');
    expect(peak(mixed)).toBeCloseTo(peak(a), 2);
  });

  it.each([
    ['water_coil: { bore: 3 mm, length: 60 cm }', 'the water coil'],
    ['water_jacket: { conductance: 2 W/K, at_speed: 3 m/s }', 'the water jacket'],
    ['heat_sink: { fins: 9, fin_height: 8 mm, fin_thickness: 1 mm, length: 40 mm, breadth: 60 mm }', 'the heat sink'],
    ['air: { speed: 9 m/s }', 'the cooling air'],
  ])('sees that two drives differ in %s alone, and begins and ends at their own runs', (cooling, words) => {
    const scenario = prepared(`title: with and without
ambient: { water: 15 °C }
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: marine-series, diameter: 38 mm, pitch_ratio: 1.2, blades: 3, area_ratio: 0.5 }
vehicle: { mass: 1.5 kg, drag: [{ speed: 3 m/s, force: 9 N }] }
profile: [{ for: 60 s, throttle: 80 % }]
motor: { layout: inrunner, kv: 2000 rpm/V, resistance: 40 mohm, no_load: { current: 1.5 A, voltage: 10 V }, mass: 150 g, can: { diameter: 36 mm, length: 50 mm } }
candidates: [{ name: Bare }, { name: Cooled, cooling: { ${cooling} } }]
`);
    const result = runScenario(scenario);
    const found = whyOfScenario(scenario, { from: 'Bare', to: 'Cooled', result });
    const [{ from, to, parts }] = found.splits;
    expect(parts.map((part) => part.words)).toEqual([words]);
    const channel = 'peakWindingTemperature';
    const [bare, cooled] = ['Bare', 'Cooled'].map(
      (name) => result.candidates.find((each) => each.name === name)!.headline[channel].nominal,
    );
    expect(from).toBeCloseTo(bare, 2);
    expect(to).toBeCloseTo(cooled, 2);
    expect(cooled).toBeLessThan(bare - 0.3);
  });

  it.each(
    DEMOS.flatMap((name) => {
      const { candidates } = demo(name);
      return candidates.flatMap((a, k) => candidates.slice(k + 1).map((b) => [name, a.name, b.name] as const));
    }),
  )('%s: between %s and %s it begins and ends at the two runs', (name, from, to) => {
    const ready = demo(name);
    const { profile } = ready.scenario;
    const [a, b] = [from, to].map((each) => ready.candidates.find((candidate) => candidate.name === each)!);
    const { splits } = why(a, b, profile, { body: 'windingTemperature', bodyWords: 'peak winding temperature' });
    const peaks = [a, b].map(({ data }) => {
      const run = simulate(realise(data), profile, { method: 'dormand-prince', relative: 1e-5, record: false });
      expect(run.end).not.toBe('failed');
      return run.highest.windingTemperature.value;
    });
    expect([splits[0].from, splits[0].to]).toEqual(peaks);
  });

  it('stops as a fault of the program where the parts do not make the other drive', () => {
    const [a, b] = demo('survey-boat').candidates.map(({ data }) => realise(data));
    expect(() => assertEnds(a, b, WHY_PARTS)).not.toThrow();
    const forgotten = WHY_PARTS.filter((part) => part !== 'heatPaths');
    expect(() => assertEnds(a, b, forgotten)).toThrow(/^No part of a drive has .*heat\.windingToStator/);
  });

  it('tells every field in which two systems differ, whatever it is', () => {
    const system = realise(demo('survey-boat').candidates[0].data);
    let fields = 0;
    const perturb = (x: unknown, path: string): [string, unknown][] => {
      if (typeof x === 'number') return [[path, Number.isFinite(x) ? x * 1.5 + 0.001 : 1]];
      if (typeof x !== 'object' || x === null || ArrayBuffer.isView(x)) return [];
      return Object.entries(x).flatMap(([key, value]) =>
        perturb(value, `${path}.${key}`).map(([at, changed]): [string, unknown] => [at, { ...x, [key]: changed }]),
      );
    };
    for (const [path, changed] of perturb(system, '')) {
      if (/^\.limits\.(?!cellVoltage)|^\.heat\.added/.test(path)) continue;
      fields++;
      const other = changed as typeof system;
      // what a gear changes is taken at the driven shaft
      expect(
        WHY_PARTS.some((part) => differsIn(part, system, other)),
        path,
      ).toBe(true);
    }
    expect(fields).toBeGreaterThan(100);
  });

  it('caps and names mixtures without an operating point, and says so', () => {
    const scenario = prepared(`title: no way
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah, cell_cutoff: 1 V }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 60 s, throttle: 80 % }]
candidates:
  - { name: Fair, motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } } }
  - { name: Odd, motor: { layout: outrunner, kv: 1500 rpm/V, resistance: 50 mohm, no_load: { current: 1.5 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } } }
`);
    const found = whyOfScenario(scenario, { from: 'Fair', to: 'Odd' });
    const sum = found.splits[0].parts.reduce((total, { value }) => total + value, 0);
    expect(Math.abs(sum - found.splits[0].difference)).toBeLessThan(1e-6);
    expect(found.sentence).toMatch(/simulations\)$/);
    expect(found.sentence.includes('no operating point')).toBe(found.capped.length > 0);
    expect(() => whyOfScenario(scenario, { from: 'Fair', to: 'Nobody' })).toThrow(/Nobody/);
  });
});
