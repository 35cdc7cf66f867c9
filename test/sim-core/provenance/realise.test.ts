/** Data to numbers under a draw: laws over drawn inputs, shared unknowns, and where a tolerance stops. */
import { createFiller } from '@shaftwork/sim-core/provenance/complete/filler';
import { type Datum, givenDatum } from '@shaftwork/sim-core/provenance/datum';
import { bounded, drawer, realise } from '@shaftwork/sim-core/provenance/realise';
import { logNormal95, NO_SPREAD, normal95, STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities/spread';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { AIR_SCREW, dataOf } from './drives.js';

const at = (line: number) => ({ file: 'a.yaml', line, column: 1, path: 'motor' });
const length = givenDatum('motor.can.length', 'length', 0.03, logNormal95(0.2), at(1));
const end = STANDARD_DEVIATIONS_95;
const drawn = (data: Record<string, unknown>, z: Readonly<Record<string, number>>): unknown => drawer(data)((key) => z[key] ?? 0);

describe('a draw', () => {
  it('moves a given datum in its own scale', () => {
    expect(drawn({ length }, { 'a.yaml:1:1': end })).toEqual({ length: expect.closeTo(0.036, 12) });
    expect(drawn({ length }, { 'a.yaml:1:1': -end })).toEqual({ length: expect.closeTo(0.025, 12) });
    const share = givenDatum('x', 'temperature', 300, normal95(10), at(2));
    expect(drawn({ share }, { 'a.yaml:2:1': end })).toEqual({ share: expect.closeTo(310, 9) });
  });
  it('counts a rule over the drawn inputs, and then its common and its own error', () => {
    const stack = createFiller('A').by('outrunner-stack', { can: length });
    const z = { 'a.yaml:1:1': end, 'rule:outrunner-stack': end, 'rule:outrunner-stack@A': end };
    expect(drawn({ stack }, z)).toEqual({ stack: expect.closeTo(0.47 * 0.03 * 1.2 * 1.2 * 1.08, 12) });
    expect(drawn({ stack }, { 'rule:outrunner-stack@B': end })).toEqual({ stack: expect.closeTo(0.47 * 0.03, 12) });
  });
  it('gives what shares an input one value of it', () => {
    const fill = createFiller('A');
    const data = { a: fill.by('half', { diameter: length }), b: fill.by('half', { diameter: length }), length };
    const values = drawn(data, { 'a.yaml:1:1': 1.3 }) as Record<string, number>;
    expect(values.a).toBe(values.b);
    expect(2 * values.a).toBeCloseTo(values.length, 15);
  });
  it('holds a default at its own value, and leaves what is no datum', () => {
    const fill = createFiller('A');
    const curve = Float64Array.of(1, 2);
    const table = { rows: [{ speed: curve }] };
    const data = { pairs: fill.fixed('pole-count', 14), name: 'x', none: undefined, nothing: null, list: { curve }, table };
    const values = drawn(data, {}) as typeof data;
    expect(values).toEqual({ ...data, pairs: 14 });
    // tables are what they were, not copies of it
    expect(values.table).toBe(table);
  });
  it('follows an offset and a mix of independent deviates', () => {
    const mixed: Datum = {
      ...createFiller('A').by('outrunner-stack', { can: givenDatum('l', 'length', 0.03, NO_SPREAD, at(3)) }),
      unknown: {
        key: 'rule:outrunner-stack',
        spread: { shape: 'log-normal', sigma: 0.1 },
        offset: 0.2,
        mix: [
          { of: entry('p'), weight: 0.6 },
          { of: entry('q'), weight: 0.8 },
        ],
      },
    };
    expect(drawn({ mixed }, { p: 1, q: -2, 'rule:outrunner-stack': 5 })).toEqual({
      mixed: expect.closeTo(0.47 * 0.03 * Math.exp(0.2 + 0.1 * (0.6 - 1.6)), 12),
    });
  });
});

const entry = (key: string) => ({
  key,
  spread: normal95(1),
  value: 1,
  dimension: 'ratio' as const,
  group: key,
  subject: key,
  words: key,
  candidates: ['A'],
});

describe('a tolerance', () => {
  const share = (value: number, more: Partial<Datum> = {}): Datum => ({
    ...givenDatum('x', 'fraction', value, normal95(0.5), at(4)),
    ...more,
  });
  it('of a share stops at none and at all', () => {
    expect([bounded(share(0.9), 1.2), bounded(share(0.1), -0.2), bounded(share(0.5), 0.7)]).toEqual([1, 0, 0.7]);
    expect([bounded(share(1), 1.2), bounded(share(0), -0.2)]).toEqual([1, 0]);
  });
  it('of what is no share of a whole does not', () => {
    expect(bounded(share(1.5), 2.5)).toBe(2.5);
    expect(bounded(share(-0.5), -1.5)).toBe(-1.5);
    expect(bounded({ ...length, value: 0.5 }, 1.5)).toBe(1.5);
  });
  it('stops where the laws end, and leaves what was written', () => {
    const water: Datum = { ...givenDatum('w', 'temperature', 275, normal95(9), at(5)), within: { from: 273.15, to: 373.15 } };
    expect([bounded(water, 270), bounded(water, 400), bounded(water, 280)]).toEqual([273.15, 373.15, 280]);
    expect(bounded({ ...water, value: 270 }, 270)).toBe(270);
  });
});

it('a drawn propeller has the table of its shape in place of all', () => {
  const data = dataOf({ propeller: AIR_SCREW });
  if (data.load.kind !== 'propeller' || data.load.shape === undefined) throw new Error('a calculated propeller');
  const { key } = data.load.shape.amount.unknown;
  const power = (z: number): number => {
    const { load } = realise(data, (each) => (each === key ? z : 0));
    if (load.kind !== 'propeller') throw new Error('a propeller');
    expect(load.shape).toBeUndefined();
    return load.table.power[0];
  };
  expect(power(0)).toBeCloseTo(data.load.table.power[0], 12);
  expect(power(1)).toBeGreaterThan(power(0));
  expect(power(-1)).toBeLessThan(power(0));
});

it('a jacket is rated at no speed near rest, however wide its tolerance', () => {
  const read = prepareScenario(`title: Wet
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2 Ah }
ambient: { water: 14 °C }
cooling: { water_jacket: { conductance: 2 W/K, at_speed: 2 m/s ± 90 % } }
vehicle: { mass: 1.5 kg, drag: [{ speed: 3 m/s, force: 9 N }] }
propeller: { kind: marine-series, diameter: 40 mm, pitch: 40 mm, blades: 2 }
profile: [{ for: 9 s, throttle: 50 % }]
candidates: [{ name: A, motor: { layout: inrunner, kv: 920 rpm/V, resistance: 96 mohm, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } } }]
`);
  if (read.kind !== 'ready') throw new Error(JSON.stringify(read));
  const { data } = read.prepared.candidates[0];
  const { jacket } = data.heat;
  if (jacket === undefined) throw new Error('it has a jacket');
  const speedAt = (z: number) => realise(data, (key) => (key === jacket.speed.unknown.key ? z : 0)).heat.jacket?.speed;
  expect(speedAt(0)).toBe(2);
  expect(speedAt(1)).toBeGreaterThan(2);
  expect(speedAt(-9)).toBeCloseTo(0.2, 12);
});
