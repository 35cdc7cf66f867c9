/** What a run tells of speeds that were not reached, of breaks between steps, of heat that destroys and heat that holds back. */
import { readFileSync } from 'node:fs';
import { windingsOfScenario } from '@shaftwork/sim-core/other-questions';
import { type PreparedScenario, prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';

const starter = (path: string): string => readFileSync(new URL(`../../packages/cli/starters/car/${path}`, import.meta.url), 'utf8');

/** The car to start from, with `change` made to its scenario. */
function car(change: (text: string) => string): PreparedScenario {
  const files = new Map([
    ['car.yaml', change(starter('car.yaml'))],
    ['parts/motor.yaml', starter('parts/motor.yaml')],
  ]);
  const preparation = prepareScenario(files, 'car.yaml');
  if (!('prepared' in preparation)) throw new Error(JSON.stringify(preparation));
  return preparation.prepared;
}

const profileOf =
  (profile: string) =>
  (text: string): string =>
    text.replace(/^profile:[\s\S]*?(?=^objective:)/m, `profile: ${profile}\n`);

describe('a car', () => {
  it('is not rewound to a slower race, though wheels that spin give the same thrust', () => {
    const [one] = windingsOfScenario(car(profileOf('[{ for: 8 s, throttle: 100 % }]')), { names: ['5.4 to 1'] }).candidates;
    expect(one!.best!.topSpeed).toBeGreaterThanOrEqual(0.95 * one!.reference.topSpeed);
    expect(one!.range!.below).toBe('its top speed falls off by more than a twentieth');
    // no-load speed goes with Kv: a hundredth of it is left to sag and drag
    expect(one!.range!.from / one!.reference.speedConstant).toBeGreaterThan(0.9);
  });

  it('brakes as its throttle rises after coasting, and goes on', () => {
    const steps =
      '[{ for: 4 s, throttle: 100 % }, { for: 1.2 s, throttle: 0 % }, { for: 0.1 s, throttle: 0 to 55 % }, { for: 3 s, throttle: 55 % }]';
    for (const candidate of runScenario(car(profileOf(steps))).candidates) {
      expect(candidate.end).toBe('finished');
      // back-EMF stands above what the rising throttle gives: it charges, as far as the tyres hold
      expect(Math.min(...candidate.trace.motorCurrent)).toBeLessThan(-10);
    }
  });

  it('that does not reach a speed brakes from the speed it has: no energy from nowhere', () => {
    const slow = (text: string): string =>
      text
        .replaceAll('{ use: parts/motor.yaml }', '{ use: parts/motor.yaml, kv: 1320 rpm/V, resistance: 87.5 mohm }')
        .replace('repeat: 30', 'repeat: 3');
    const { candidates } = runScenario(car(slow));
    // no load at 8.4 V: 1320 · 8.4 / ratio turns a minute of a wheel of 33 mm
    const fastest = (ratio: number): number => ((1320 * 8.4) / ratio / 60) * 2 * Math.PI * 0.033;
    for (const { headline, facts, energy, trace, findings } of candidates) {
      expect(headline.topSpeed.nominal).toBeLessThan(fastest(facts.gearRatio));
      expect(headline.energy.nominal).toBeGreaterThan(0);
      expect(Math.max(...trace.charge)).toBeLessThanOrEqual(1);
      // the first step begins at 4 m/s; after it nothing is jumped to
      expect(energy.jumps).toBeLessThan(0.5 * 2 * 4 ** 2);
      const lost = findings.filter((each) => each.kind === 'step-not-held');
      expect(lost.length).toBeGreaterThan(0);
      for (const each of lost) if (each.kind === 'step-not-held') expect(each.reached).toBeGreaterThan(5);
    }
  });
});

describe('a trace', () => {
  it('has both sides of every break, and the extremes that the table tells', () => {
    const prepared = demo('survey-boat');
    const { candidates, scenario } = runScenario(prepared);
    for (const { trace, limits, headline } of candidates) {
      for (const { to } of scenario.steps.slice(0, -1)) {
        const at = trace.time.flatMap((t, k) => (t === to ? [k] : []));
        expect(at).toHaveLength(2);
      }
      const [start] = scenario.steps.slice(2);
      const [before, after] = trace.time.flatMap((t, k) => (t === start.from ? [trace.throttle[k]] : []));
      expect(after).toBeCloseTo(0.6, 9);
      expect(before).toBeLessThan(0.55);
      expect(Math.max(...trace.motorCurrent)).toBeCloseTo(headline.peakMotorCurrent.nominal, 9);
      const current = limits.find(({ id }) => id === 'motorCurrent')!;
      expect(trace.motorCurrent[trace.time.indexOf(current.worstTime)]).toBeLessThanOrEqual(current.worst);
    }
  });
});

const HOT = `
title: Too large a propeller
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 60 Ah, discharge_rating: 50 C }
propeller: { kind: blade-element, family: thin, diameter: 11 in, pitch: 6 in }
controller: CONTROLLER
profile: [{ for: 30 min, throttle: 100 % }]
candidates:
  - name: A
    motor: { layout: outrunner, kv: 1400 rpm/V, resistance: 60 mohm, no_load: { current: 1.3 A, voltage: 10 V }, mass: 66 g, can: { diameter: 28 mm, length: 30 mm } }
`;

function hot(controller: string): ReturnType<typeof runScenario>['candidates'][number] {
  const preparation = prepareScenario(new Map([['hot.yaml', HOT.replace('CONTROLLER', controller)]]), 'hot.yaml');
  if (!('prepared' in preparation)) throw new Error(JSON.stringify(preparation));
  return runScenario(preparation.prepared).candidates[0];
}

describe('heat', () => {
  it('ends a run where it destroys a part, at that time and not at a restart before it', () => {
    const { end, headline, findings, trace, feasible } = hot('{ motor_current_limit: 200 A, mass: 200 g }');
    expect(end).toBe('burnt');
    expect(feasible).toBe(false);
    const burnt = findings.find((each) => each.kind === 'burnt-out');
    expect(burnt).toMatchObject({ body: 'winding', time: headline.runTime.nominal });
    // 320 °C, where enamel is cut through (IEC 60317-13, from memory)
    expect(headline.peakWindingTemperature.nominal - 273.15).toBeCloseTo(320, 3);
    expect(trace.time.at(-1)).toBe(headline.runTime.nominal);
  });

  it('that folds the current back is told, with what is left of the throttle', () => {
    const { findings, trace } = hot('{ motor_current_limit: 15 A, derating: { from: 20 °C, to: 40 °C }, thermal: { to_air: 0.02 W/K } }');
    const held = findings.find((each) => each.kind === 'current-limited');
    expect(held).toMatchObject({ by: 'heat' });
    if (held?.kind !== 'current-limited') throw new Error();
    expect(held.throttle).toBeCloseTo(Math.min(...trace.throttle), 3);
    expect(held.throttle).toBeLessThan(0.9);
    expect(held.bound).toBeLessThan(10);
  });
});

it('draws a run that ends in the first seconds of hours as finely as a whole one', () => {
  const text = `title: Too small by far
battery: { chemistry: lithium-ion, cells: { series: 2 }, capacity: 6.3 Ah }
propeller: { kind: blade-element, family: thin, diameter: 12 in, pitch: 6.4 in }
profile: [{ for: 6 h, throttle: 94 % }]
candidates:
  - name: Tiny
    motor: { layout: inrunner, kv: 2890 rpm/V, resistance: 141 mohm, no_load: { current: 0.27 A, voltage: 8 V }, mass: 40 g, can: { diameter: 36 mm, length: 29 mm } }
`;
  const preparation = prepareScenario(new Map([['tiny.yaml', text]]), 'tiny.yaml');
  if (!('prepared' in preparation)) throw new Error(JSON.stringify(preparation));
  const [{ end, trace }] = runScenario(preparation.prepared).candidates as [ReturnType<typeof runScenario>['candidates'][0]];
  expect(end).toBe('burnt');
  const last = trace.time.length - 1;
  expect(last).toBeGreaterThan(1000);
  expect(trace.time[last]!).toBeLessThan(60);
  // charge by the curve's trapezia against the integrated one
  let out = 0;
  for (let k = 1; k <= last; k++)
    out += 0.5 * (trace.batteryCurrent[k]! + trace.batteryCurrent[k - 1]!) * (trace.time[k]! - trace.time[k - 1]!);
  const { capacity } = preparation.prepared.candidates[0]!.data.battery;
  expect(out / ((trace.charge[0]! - trace.charge[last]!) * capacity.value)).toBeCloseTo(1, 3);
});
