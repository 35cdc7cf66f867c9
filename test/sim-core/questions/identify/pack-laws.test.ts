/** The pack that a discharge is fitted by, against its equations in closed form; what is said of a discharge that was made. */
import { openCircuitVoltage } from '@shaftwork/sim-core/parts/battery/battery';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { identifyPack } from '@shaftwork/sim-core/questions/identify/identify-pack';
import { INSTRUMENTS } from '@shaftwork/sim-core/questions/identify/instruments';
import { KNOTS, type PackRows, type PackSetup, packModel } from '@shaftwork/sim-core/questions/identify/pack-model';
import { describe, expect, it } from 'vitest';
import { dataOf } from '../../provenance/drives.js';

const Z95 = 1.959963984540054;
const own = realise(
  dataOf({ battery: { chemistry: 'lithium-polymer', cells: { series: 3, parallel: 2 }, capacity: '2.2 Ah', cell_resistance: '8 mohm' } }),
).battery;
/** Neither warmth nor charge changes its resistances, and its surface does not lag. */
const plain = { ...own, activation: 0, emptyRise: 0, surfaceLag: 0, polarisationResistance: 0.006, polarisationTime: 30 };
const setup: PackSetup = { battery: plain, charge: 0.9, temperature: 298.15, instruments: INSTRUMENTS };
const rowsOf = (n: number, step: number, current: (k: number) => number, more: Partial<PackRows> = {}): PackRows => ({
  time: Float64Array.from({ length: n }, (_, k) => k * step),
  voltage: new Float64Array(n).fill(11),
  current: Float64Array.from({ length: n }, (_, k) => current(k)),
  temperature: new Float64Array(n).fill(Number.NaN),
  ...more,
});
const steady = rowsOf(20, 12, () => 6);
const at = (key: string): number => packModel(steady, setup).list.findIndex((each) => each.key === key);
/** All deviates 0 but these. */
const moved = (more: Readonly<Record<string, number>> = {}): Float64Array => {
  const z = new Float64Array(packModel(steady, setup).unknowns);
  for (const [key, value] of Object.entries(more)) z[at(key)] = value;
  return z;
};

describe('a pack under a steady current', () => {
  const volts = (
    k: number,
    { capacity = plain.capacity, r0 = plain.cellResistance, r1 = plain.polarisationResistance, tau = 30, gain = 1 } = {},
  ): number => {
    const [t, i] = [12 * k, 6 * gain];
    // two strings share it
    return (
      3 *
      (openCircuitVoltage(plain.openCircuit, 0.9 - (i * t) / capacity) +
        plain.voltageOffset -
        (r1 * i * (1 - Math.exp(-t / tau))) / 2 -
        (r0 * i) / 2)
    );
  };
  const near = (found: Float64Array, expected: (k: number) => number): void =>
    found.forEach((each, k) => {
      expect(each).toBeCloseTo(expected(k), 9);
    });

  it('is its curve less its ohmic drop and its RC pair’s rise', () => {
    near(packModel(steady, setup).predict(moved()), (k) => volts(k));
  });

  it('is off by what each unknown says: capacity, resistances and time by factors, × 1.06, 2.5, 3 at the end of their intervals', () => {
    const { predict } = packModel(steady, setup);
    near(predict(moved({ capacity: Z95 })), (k) => volts(k, { capacity: 1.06 * plain.capacity }));
    near(predict(moved({ resistance: -Z95 })), (k) => volts(k, { r0: plain.cellResistance / 2.5 }));
    near(predict(moved({ slow: Z95 })), (k) => volts(k, { r1: 3 * plain.polarisationResistance }));
    near(predict(moved({ time: Z95 })), (k) => volts(k, { tau: 90 }));
    near(predict(moved({ 'gain:current': Z95 })), (k) => volts(k, { gain: 1 + INSTRUMENTS.current.gain }));
    near(predict(moved({ 'gain:voltage': Z95 })), (k) => volts(k) / (1 + INSTRUMENTS.voltage.gain));
  });

  it('has offsets to its curve at seven charges, straight between them and held beyond', () => {
    const { openCircuit } = packModel(steady, setup);
    const offset = (z: Float64Array, charge: number): number => openCircuit(z, charge) - openCircuit(moved(), charge);
    const up = moved({ 'curve:0.35': Z95, 'curve:0.6': -Z95, 'curve:1': Z95 });
    expect(KNOTS).toEqual([0, 0.05, 0.15, 0.35, 0.6, 0.85, 1]);
    for (const [charge, volt] of [
      [0.15, 0],
      [0.25, 0.015],
      [0.35, 0.03],
      [0.475, 0],
      [0.6, -0.03],
      [0.925, 0.015],
      [1.1, 0.03],
      [-0.1, 0],
    ])
      expect(offset(up, charge)).toBeCloseTo(volt, 9);
    near(packModel(steady, setup).predict(moved(Object.fromEntries(KNOTS.map((knot) => [`curve:${knot}`, Z95])))), (k) => volts(k) + 0.09);
  });

  it('has values by name, the charge that is left, and residuals over the voltmeter’s scatter', () => {
    const model = packModel(steady, setup);
    expect(model.unknowns).toBe(6 + 7 + 2);
    expect(model.values(moved({ capacity: Z95 })).get('capacity')).toBeCloseTo(1.06 * plain.capacity, 6);
    expect(model.values(moved()).get('gain:current')).toBe(1);
    expect(model.values(moved({ 'curve:1': Z95 })).get('curve:1')).toBeCloseTo(0.03, 9);
    expect(model.chargeLeft(moved())).toBeCloseTo(0.9 - (6 * 228) / plain.capacity, 9);
    const out = new Float64Array(20);
    model.residuals(moved(), out);
    expect(out[3]).toBeCloseTo((volts(3) - 11) / Math.hypot(0.001 * 11, 0.01), 6);
  });

  it('has words of their own for all that is unknown', () => {
    const words = packModel(steady, setup).list.map((each) => each.words);
    expect(new Set(words).size).toBe(words.length);
    for (const each of words) expect(each).toMatch(/^\S.{5,}/);
    expect(words.filter((each) => each.startsWith('voltage at rest at '))).toHaveLength(7);
  });

  it('warm as it was read, or as it is taken to be', () => {
    const cold = { ...plain, activation: 3000, activatedShare: 1 };
    const read = packModel({ ...steady, temperature: new Float64Array(20).fill(288.15) }, { ...setup, battery: cold }).predict(moved());
    const taken = packModel(steady, { ...setup, battery: cold, temperature: 288.15 }).predict(moved());
    expect([...read]).toEqual([...taken]);
    const e = Math.exp(3000 * (1 / 288.15 - 1 / 298.15));
    expect(read[0]).toBeCloseTo(
      3 * (openCircuitVoltage(plain.openCircuit, 0.9) + plain.voltageOffset - (e * plain.cellResistance * 6) / 2),
      9,
    );
  });

  it('relaxes at rest with its own time', () => {
    const pulse = packModel(
      rowsOf(40, 10, (k) => (k <= 20 ? 6 : 0)),
      setup,
    ).predict(moved());
    const open = openCircuitVoltage(plain.openCircuit, 0.9 - (6 * 200) / plain.capacity) + plain.voltageOffset;
    const slow = 0.003 * 6 * (1 - Math.exp(-200 / 30));
    for (const k of [21, 25, 39]) expect(pulse[k]).toBeCloseTo(3 * (open - slow * Math.exp((-10 * (k - 20)) / 30)), 9);
  });
});

describe('a discharge', () => {
  const made = rowsOf(60, 3, (k) => (k % 10 < 7 ? 30 : 0));
  const truth = { capacity: -1, resistance: 0.5 };
  const z = moved(truth);
  const rows = { ...made, voltage: packModel(made, setup).predict(z) };
  const ask = { rows, setup, sources: ['d.csv'], taken: ['said before'] };

  it('that was made of other numbers gives them back', () => {
    const found = identifyPack(ask);
    const number = (key: string) => found.numbers.find((each) => each.key === key);
    const values = packModel(made, setup).values(z);
    expect([found.kind, found.settled, found.rows, found.unknowns]).toEqual(['pack', true, 60, 15]);
    expect((number('resistance')?.value ?? 0) / (values.get('resistance') ?? 1)).toBeCloseTo(1, 1);
    expect(number('resistance')?.told).toBe(true);
    for (const { value, low, high } of found.numbers) {
      expect(low).toBeLessThan(value);
      expect(high).toBeGreaterThan(value);
    }
    expect(found.taken).toEqual(['said before', '90.0 % charge at the first row', 'cells at 25 °C where the log tells no temperature']);
    const [fit] = found.fits;
    expect([fit.key, fit.count, fit.alongWords, found.along.words]).toEqual(['voltage', 60, 'time', 'time']);
    expect(fit.left).toBeLessThan(0.01);
    expect(fit.points.map(({ group }) => group).filter((group) => group === 'under load')).toHaveLength(42);
    expect(fit.points[5]).toMatchObject({ along: 15, read: rows.voltage[5] });
    const [part] = found.parts;
    expect(part.file).toBe('battery.yaml');
    expect(part.text).toContain('part: battery\nsource: "identified from d.csv"\n');
    expect(part.text).toMatch(/cell_resistance: [\d.]+ mohm ± /);
    // of charges that the log saw
    const charges = found.numbers.filter(({ key }) => key === 'open_circuit').map(({ at: where }) => where?.value);
    expect(charges).toEqual([0.1, 0.3, 0.5, 0.8, 1].filter((charge) => charge >= packModel(made, setup).chargeLeft(z)));
  });

  it('is thinned where it is very long, and refused where it is very short', () => {
    const n = 3200;
    const long = rowsOf(n, 0.4, (k) => (k % 500 < 350 ? 6 : 0));
    const found = identifyPack({
      ...ask,
      rows: { ...long, voltage: packModel(long, setup).predict(z), temperature: new Float64Array(n).fill(300) },
    });
    expect(found.rows).toBe(1067);
    expect(found.taken.slice(1)).toEqual(['90.0 % charge at the first row', '3200 rows put together to 1067']);
    const few = rowsOf(11, 20, () => 6);
    expect(() => identifyPack({ ...ask, rows: few })).toThrow(/Only 11 rows .* at least 12/);
    expect(() => identifyPack({ ...ask, rows: rowsOf(12, 20, () => 6) })).not.toThrow();
  });
});
