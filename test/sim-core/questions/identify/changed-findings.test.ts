/** What changed between two benches or two discharges whose fits are made up: ratios with their intervals, and what each pattern points at. */
import type { Fit } from '@shaftwork/sim-core/numerics/least-squares';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { changedBenches, changedPacks } from '@shaftwork/sim-core/questions/identify/changed';
import { INSTRUMENTS } from '@shaftwork/sim-core/questions/identify/instruments';
import { type PackSetup, packModel } from '@shaftwork/sim-core/questions/identify/pack-model';
import type { ChangeFinding } from '@shaftwork/sim-core/results/change-result';
import { describe, expect, it } from 'vitest';
import { SETUP } from '../../../identify/coverage.js';
import { dataOf } from '../../provenance/drives.js';
import { bench, covarianceOf, PATH, ROWS } from './motor-bench.js';

const ask = (source: string) => ({ rows: ROWS, setup: SETUP, sources: [source], taken: [`read ${source}`], path: PATH });
const diagonal = (sds: readonly number[]): Fit['covariance'] => covarianceOf(sds, []);
const SURE = new Array<number>(15).fill(1e-3);
const INDEX = { kt: 0, resistance: 1, constantLoss: 2, torque: 4, inductance: 8 } as const;
type Moved = Partial<Record<keyof typeof INDEX, number>>;
/** A bench whose constants are this much more, in logarithms. */
function moved(more: Moved, fit: Partial<Fit> = {}, read = true) {
  const { model } = bench();
  const deviates = SURE.map(() => 0);
  for (const [key, log] of Object.entries(more)) {
    const j = INDEX[key as keyof typeof INDEX];
    deviates[j] = log / model.list[j].deviation;
  }
  const made = bench({ covariance: diagonal(SURE), deviates, ...fit });
  return read ? { ...made, rows: { ...ROWS, winding: new Float64Array(5).fill(300) } } : made;
}
const changed = (after: ReturnType<typeof moved>, before = moved({})) => changedBenches(ask('a.csv'), ask('b.csv'), [before, after]);

describe('a motor', () => {
  it.each<[Moved, ChangeFinding[]]>([
    [{}, ['nothing']],
    [{ kt: -0.1 }, ['flux-lost']],
    [{ kt: -0.1, resistance: 0.3 }, ['flux-lost']],
    [{ kt: -0.1, resistance: -0.3, constantLoss: 0.5 }, ['shorted-turn']],
    [{ resistance: 0.3 }, ['bad-joint']],
    [{ resistance: 0.3, kt: 0.1 }, ['bad-joint']],
    [{ constantLoss: 0.5 }, ['more-friction']],
    [{ resistance: 0.3, constantLoss: 0.5 }, ['bad-joint', 'more-friction']],
    [{ resistance: -0.3, constantLoss: 0.5 }, ['no-pattern']],
    [{ torque: 0.2 }, ['other-propeller']],
    [{ torque: 0.2, resistance: 0.3 }, ['bad-joint']],
    [{ kt: 0.1 }, ['no-pattern']],
    [{ inductance: 0.3 }, ['no-pattern']],
    [{ kt: -0.1, resistance: -0.3, constantLoss: -0.5 }, ['no-pattern']],
  ])('of which %j points at %j', (more, findings) => {
    expect(changed(moved(more)).findings).toEqual(findings);
  });

  it('is told by ratios, their intervals from both fits, the gains held', () => {
    const sds = SURE.map((_, k) => 0.01 + 0.001 * k);
    // Kv hangs on the voltmeter, whose gain was the same both times
    const tied = sds.map((a, i) => sds.map((b, j) => a * b * (i === j ? 1 : i + j === 11 && i * j === 0 ? 0.8 : 0)));
    const { numbers, before, after, taken, settled, kind } = changed(
      moved({ kt: -0.1 }, { covariance: tied, quantile: 2.4 }, true),
      moved({}, { covariance: tied, quantile: 2.1 }, true),
    );
    expect([kind, before, after, settled]).toEqual(['motor', ['a.csv'], ['b.csv'], true]);
    expect(taken).toEqual(['before: read a.csv', 'after: read b.csv', 'the same instruments both times: their gains do not count']);
    expect(numbers.map(({ key }) => key)).toEqual([
      'kv',
      'whole',
      'inductance',
      'noLoad',
      'noLoad',
      'ripple',
      'torque',
      'thrust',
      'torque',
      'thrust',
    ]);
    const ratio = Math.exp(0.1);
    // 0.5 is how unsure a torque constant is before the log, as a logarithm
    const factor = Math.exp(2.4 * Math.SQRT2 * 0.5 * 0.01 * Math.sqrt(1 - 0.64));
    expect(numbers[0]).toEqual({
      key: 'kv',
      words: 'Kv',
      dimension: 'speedConstant',
      before: expect.closeTo(251.32, 1),
      after: expect.closeTo(251.32 * ratio, 1),
      change: expect.closeTo(ratio - 1, 9),
      low: expect.closeTo(ratio / factor - 1, 6),
      high: expect.closeTo(ratio * factor - 1, 6),
      outside: true,
    });
    expect([numbers[6].of, numbers[6].at?.dimension, 'of' in numbers[1], 'at' in numbers[1]]).toEqual(['P1', 'angularSpeed', false, false]);
    expect(numbers[1].outside).toBe(false);
  });

  it('whose winding nobody read may have been 20 K off each time', () => {
    const width = (unread: number): number => {
      const [a, b] = [moved({}, {}, unread < 2), moved({}, {}, unread < 1)];
      const { numbers, taken } = changed(b, a);
      expect(taken.slice(3)).toEqual(
        unread === 0 ? [] : ['the winding’s temperature was not read: it may differ by 20 K each time, which a resistance shows'],
      );
      expect(Math.log1p(numbers[2].high)).toBeGreaterThanOrEqual(Math.log1p(numbers[1].high) - 1e-9);
      expect(Math.log1p(numbers[0].high)).toBeCloseTo(2.2 * Math.SQRT2 * 0.5e-3, 6);
      return Math.log1p(numbers[1].high);
    };
    const own = width(0);
    expect(own).toBeCloseTo(2.2 * Math.SQRT2 * 1.5e-3, 6);
    // 0.00393 of copper's resistance a kelvin; 20 K hold 95 %
    const heat = (2.2 * 0.00393 * 20) / 1.959963984540054;
    expect(width(1)).toBeCloseTo(Math.hypot(own, heat), 4);
    expect(width(2)).toBeCloseTo(Math.hypot(own, Math.SQRT2 * heat), 4);
  });

  it('of which a number cannot be told is told without it, and a fit that did not settle is said to', () => {
    const lost = moved({});
    const none = lost.derived.map((each) => (each.key === 'kv' ? { ...each, value: () => 0 } : each));
    const { numbers, settled } = changed(moved({}, { settled: false }), { ...lost, derived: none });
    expect([numbers[0].key, settled]).toEqual(['whole', false]);
  });
});

describe('a pack', () => {
  const { battery } = realise(dataOf({ battery: { chemistry: 'lithium-polymer', cells: { series: 3 }, capacity: '2.2 Ah' } }));
  const setup: PackSetup = { battery, charge: 0.9, temperature: 298.15, instruments: INSTRUMENTS };
  const three = (value: number) => new Float64Array(3).fill(value);
  const rows = { time: Float64Array.of(0, 10, 20), voltage: three(11), current: three(5), temperature: three(300) };
  const model = packModel(rows, setup);
  const fitted = (more: Readonly<Record<string, number>>, fit: Partial<Fit> = {}) => {
    const deviates = model.list.map(({ key, deviation }) => (more[key] ?? 0) / deviation);
    return { rows, model, fit: { ...bench().fit, covariance: diagonal(SURE), deviates, ...fit } };
  };
  const packAsk = (source: string) => ({ rows, setup, sources: [source], taken: [`read ${source}`] });
  const of = (more: Readonly<Record<string, number>>, fit: Partial<Fit> = {}) =>
    changedPacks(packAsk('a.csv'), packAsk('b.csv'), [fitted({}), fitted(more, fit)]);
  it.each<[Readonly<Record<string, number>>, ChangeFinding[]]>([
    [{}, ['nothing']],
    [{ capacity: -0.1, resistance: 0.3 }, ['aged-pack']],
    [{ resistance: 0.3 }, ['bad-joint']],
    [{ resistance: 0.3, slow: -0.3 }, ['bad-joint']],
    [{ resistance: 0.3, slow: 0.3 }, ['aged-pack']],
    [{ capacity: -0.1 }, ['capacity-lost']],
    [{ capacity: -0.1, resistance: -0.3 }, ['capacity-lost']],
    [{ capacity: 0.1 }, ['no-pattern']],
    [{ slow: 0.3 }, ['no-pattern']],
    [{ time: 0.3 }, ['no-pattern']],
  ])('of which %j points at %j', (more, findings) => {
    expect(of(more).findings).toEqual(findings);
  });
  it('is told by ratios, their intervals from both fits', () => {
    const { numbers, kind, taken, settled, before, after } = of({ resistance: 0.3 }, { quantile: 2, settled: false });
    expect([kind, settled, before, after]).toEqual(['pack', false, ['a.csv'], ['b.csv']]);
    expect(taken).toEqual(['before: read a.csv', 'after: read b.csv', 'the same instruments both times: their gains do not count']);
    const [ratio, factor] = [Math.exp(0.3), Math.exp(2.2 * Math.SQRT2 * 1e-3 * model.list[1].deviation)];
    expect(numbers[1]).toEqual({
      key: 'resistance',
      words: 'ohmic resistance of a cell at 25 °C and half charge',
      dimension: 'resistance',
      before: expect.closeTo(battery.cellResistance, 9),
      after: expect.closeTo(battery.cellResistance * ratio, 9),
      change: expect.closeTo(ratio - 1, 9),
      low: expect.closeTo(ratio / factor - 1, 9),
      high: expect.closeTo(ratio * factor - 1, 9),
      outside: true,
    });
    // a gain that hangs on a number is known once both were read by it
    const tied = SURE.map((a, i) => SURE.map((b, j) => a * b * (i === j ? 1 : i + j === 14 && i * j === 0 ? 0.6 : 0)));
    const held = of({}, { covariance: tied, quantile: 2 }).numbers[0];
    const capacity = model.list[0].deviation;
    expect(Math.log1p(held.high)).toBeCloseTo(2.2 * capacity * 1e-3 * Math.hypot(1, 0.8), 9);
  });
});
