/** A short run of a drive of which two numbers are unsure, laid against logs that were made of it: clocks, samples, what explains a misfit. */
import type { MeasurableId, MeasuredLog } from '@shaftwork/sim-core/provenance/measurables';
import { type Draw, NOMINAL, realise } from '@shaftwork/sim-core/provenance/realise';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { drawn, toUnit } from '@shaftwork/sim-core/quantities';
import { numbersOf } from '@shaftwork/sim-core/questions/doubt/numbers';
import { explain, explanationOf, sensorScale } from '@shaftwork/sim-core/questions/measured/explain';
import { channelOf, compareMeasured, planMeasured } from '@shaftwork/sim-core/questions/measured/measured';
import { dot, misfitOf } from '@shaftwork/sim-core/questions/measured/misfit';
import { samplesIn } from '@shaftwork/sim-core/questions/measured/moments';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { watchSystem } from '@shaftwork/sim-core/questions/simulate/watch';
import type { MeasuredMove } from '@shaftwork/sim-core/results/measured-result';
import { describe, expect, it } from 'vitest';
import { changed } from '../../scenario/smallest-scenario.js';
import { driveOf, OUTRUNNER } from '../identify/heat-bench.js';
import { sureBut } from '../sure-but.js';

const step = (duration: number, value: number) => ({ duration, hold: 'throttle' as const, value: { from: value, to: value } });
const PROFILE = [step(3, 0.5), step(3, 0.9), step(4, 0.4)];
const input = {
  ...OUTRUNNER,
  data: sureBut(OUTRUNNER.data, ({ origin }) => origin.kind === 'given' && ['motor.kv', 'motor.resistance'].includes(origin.subject)),
};
const NUMBERS = numbersOf(unknownsOf([input]));
const moved =
  (k: number, z: number): Draw =>
  (key) =>
    z * (NUMBERS[k].direction.get(key) ?? 0);
const TIMES = Float64Array.from({ length: 41 }, (_, k) => 0.25 * k);
/** What instruments without error would have read, at a moment every quarter of a second; the log begins `late` seconds before the run. */
function logOf(
  ids: readonly MeasurableId[],
  draw: Draw = NOMINAL,
  more: Partial<MeasuredLog> = {},
  late = 0,
  factor: Partial<Record<MeasurableId, number>> = {},
): MeasuredLog {
  const watched = watchSystem(realise(input.data, draw), { ids, times: TIMES });
  simulate(realise(input.data, draw), PROFILE, { method: 'dormand-prince', relative: 1e-5, record: false, watch: watched.watch });
  const series = watched.series();
  return {
    file: 'a.csv',
    rows: 99,
    time: TIMES.map((t) => t + late),
    columns: new Map(ids.map((id, k) => [id, series.slice(k * 41, (k + 1) * 41).map((each) => each * (factor[id] ?? 1))])),
    begins: { by: 'given', at: late },
    taken: ['said before'],
    ...more,
  };
}
const planOf = (log: MeasuredLog, others?: readonly (typeof input)[]) => planMeasured(input, PROFILE, log, others) ?? expect.fail();
const IDS: readonly MeasurableId[] = ['voltage', 'battery_current', 'shaft_speed', 'in_slot_temperature'];
const explained = (log: MeasuredLog) => {
  const { moments, nominal } = planOf(log);
  return explain(input, PROFILE, moments, nominal, { watch: moments.watch, series: new Map() });
};

describe('what explains a misfit', () => {
  it('is the number that was off, as far as it was off; model and thermometer are moved too', () => {
    expect(NUMBERS.map(({ subject }) => subject).sort()).toEqual(['motor.kv', 'motor.resistance']);
    const kv = NUMBERS.findIndex(({ subject }) => subject === 'motor.kv');
    const { explanation, moved: count, squares, sensor } = explained(logOf(IDS, moved(kv, 2)));
    // a tachometer off by as much would be another reason
    expect([count, sensor?.id]).toEqual([4, 'shaft_speed']);
    expect(squares).toBeGreaterThan(2);
    const { first, spread } = NUMBERS[kv];
    expect(explanation).toEqual({
      kind: 'one',
      best: {
        subject: 'motor.kv',
        words: first.words,
        dimension: first.dimension,
        value: first.value,
        moved: expect.closeTo(drawn(first.value, spread, 2), 4),
        deviations: expect.closeTo(2, 1),
        explains: expect.closeTo(1, 2),
      },
      alike: [],
    });
  });

  it('may be the share that a thermometer takes, or the model, where nothing else is off', () => {
    const shown = logOf(['in_slot_temperature']);
    const air = input.data.surroundings.motorAirTemperature.value;
    const { columns } = shown;
    const off = (share: number) => new Map([...columns].map(([id, values]) => [id, values.map((each) => air + share * (each - air))]));
    const { explanation, moved: count } = explained({ ...shown, columns: off(6) });
    expect([count, explanation.kind]).toEqual([4, 'none']);
    // the one that helps most takes some of it, and is moved as far as it may be
    const { best } = explanation.kind === 'none' ? explanation : expect.fail();
    expect(Math.abs(best?.deviations ?? 0)).toBe(3);
    expect(best?.explains).toBeGreaterThan(0);
    expect(best?.explains).toBeLessThan(1);
    const hot = explained({ ...logOf(['in_slot_temperature'], moved(0, 0)), columns: off(1.1) });
    expect(hot.squares).toBeLessThan(2);
    expect(hot.explanation).toEqual({ kind: 'nothing-to-explain' });
  });

  it('is the model where every rise is higher than it, by as much', () => {
    const long = [step(60, 0.95)];
    const times = Float64Array.from({ length: 31 }, (_, k) => 2 * k);
    const watched = watchSystem(realise(input.data), { ids: ['in_slot_temperature'], times });
    simulate(realise(input.data), long, { method: 'dormand-prince', relative: 1e-5, record: false, watch: watched.watch });
    const air = input.data.surroundings.motorAirTemperature.value;
    const columns = new Map([['in_slot_temperature' as const, watched.series().map((each) => air + 1.12 * (each - air))]]);
    const log: MeasuredLog = { file: 'a.csv', rows: 31, time: times, columns, begins: { by: 'given', at: 0 }, taken: [] };
    const { moments, nominal } = planMeasured(input, long, log) ?? expect.fail();
    const { explanation } = explain(input, long, moments, nominal, { watch: moments.watch, series: new Map() });
    if (explanation.kind !== 'one') return expect(explanation.kind).toBe('one');
    // 10 % of a rise hold 95 %
    expect(explanation.best).toEqual({
      subject: 'model',
      words: 'error of the thermal model itself, 10 % of every rise',
      dimension: 'fraction',
      value: 1,
      moved: expect.closeTo(1.12, 2),
      deviations: expect.closeTo(0.12 / (0.1 / 1.96), 1),
      explains: expect.closeTo(1, 2),
    });
  });

  it('is nothing where log and prediction agree', () => {
    const { squares, ...rest } = explained(logOf(IDS));
    expect(squares).toBeLessThan(0.01);
    expect(rest).toEqual({ moved: 0, explanation: { kind: 'nothing-to-explain' } });
  });
});

describe('of the moves of single numbers', () => {
  const move = (subject: string, deviations: number, explains: number): MeasuredMove => ({
    subject,
    words: subject,
    dimension: 'ratio',
    value: 1,
    moved: 2,
    deviations,
    explains,
  });
  const [a, b, c, d, e, f] = [0.95, 0.9, 0.89, 0.88, 0.87, 0.86].map((each, k) => move('abcdef'[k], 1, each));
  it('the best is named, with up to four that explain nine tenths as much', () => {
    expect(explanationOf([a, b, c, d, e, f])).toEqual({ kind: 'one', best: a, alike: [b, c, d, e] });
    expect(explanationOf([a, move('x', 1, 0.855), move('y', 1, 0.856)])).toEqual({ kind: 'one', best: a, alike: [move('y', 1, 0.856)] });
    expect(explanationOf([move('x', 1, 0.51)])).toEqual({ kind: 'one', best: move('x', 1, 0.51), alike: [] });
  });
  it('none is believed that takes half or less, or that goes as far as it may', () => {
    expect(explanationOf([move('x', 1, 0.5)])).toEqual({ kind: 'none', best: move('x', 1, 0.5) });
    expect(explanationOf([move('x', 3, 0.9), move('y', -3, 0.8)])).toEqual({ kind: 'none', best: move('x', 3, 0.9) });
    expect(explanationOf([move('x', -3, 0.9), move('y', -2.9, 0.8)])).toEqual({ kind: 'one', best: move('y', -2.9, 0.8), alike: [] });
    expect(explanationOf([move('x', 1, 0)])).toEqual({ kind: 'none' });
    expect(explanationOf([])).toEqual({ kind: 'none' });
  });
});

describe('the scale of a sensor', () => {
  const N = 5;
  const times = Float64Array.from({ length: N }, (_, k) => k);
  const predicted = (scale: number) => Float64Array.from({ length: N }, (_, k) => scale * (10 + k));
  const scaled = (columns: readonly (readonly [MeasurableId, number, number])[], n = N) => {
    const nominal = columns.map(([, scale]) => predicted(scale).slice(0, n));
    const compared = columns.map(([id, , factor], k) => ({
      id,
      at: Int32Array.from({ length: n }, (_, i) => i),
      measured: nominal[k].map((each) => factor * each),
      counts: new Array<boolean>(n).fill(true),
    }));
    const misfit = misfitOf(compared, nominal);
    const moments = { watch: { candidate: 'A', ids: columns.map(([id]) => id), times }, columns: compared, nearJumps: 0 };
    return {
      sensor: sensorScale(moments, nominal, misfit.residuals(nominal), misfit.begins),
      r: misfit.residuals(nominal),
      begins: misfit.begins,
    };
  };
  it('is told where it alone takes most of the squares and is farther off than such sensors are', () => {
    expect(
      scaled([
        ['voltage', 1, 1],
        ['shaft_speed', 50, 0.8],
      ]).sensor,
    ).toEqual({ id: 'shaft_speed', factor: expect.closeTo(0.8, 9), explains: expect.closeTo(1, 9) });
    // within what such a sensor errs by
    expect(scaled([['battery_current', 1, 1.049]]).sensor).toBeUndefined();
    expect(scaled([['battery_current', 1, 1.051]]).sensor?.factor).toBeCloseTo(1.051, 9);
    expect(scaled([['battery_current', 1, 0.949]]).sensor?.factor).toBeCloseTo(0.949, 9);
    // a thermometer has a share, a throttle no scale
    expect(scaled([['can_temperature', 30, 1.2]]).sensor).toBeUndefined();
    expect(scaled([['throttle', 0.05, 0.5]]).sensor).toBeUndefined();
    expect([scaled([['thrust', 1, 0.7]], 2).sensor, scaled([['thrust', 1, 0.7]], 3).sensor?.id]).toEqual([undefined, 'thrust']);
  });
  it('is that of amps, watts and amp-hours together, which one sensor reads', () => {
    const { sensor } = scaled([
      ['voltage', 1, 1.001],
      ['battery_current', 1, 0.8],
      ['battery_power', 12, 0.8],
      ['charge_used', 3, 0.8],
    ]);
    expect(sensor).toEqual({ id: 'battery_current', factor: expect.closeTo(0.8, 9), explains: expect.closeTo(1, 2) });
    // of two sensors that are off none takes half of the squares of both, or the one that takes more is told
    const two = scaled([
      ['thrust', 1, 0.7],
      ['battery_current', 1, 0.6],
      ['battery_power', 12, 0.6],
    ]);
    const squares = dot(two.r, two.r);
    const amps = two.r.subarray(two.begins[1]);
    expect(two.sensor?.id).toBe(dot(amps, amps) > 0.5 * squares ? 'battery_current' : undefined);
    const ends = dot(amps, amps) / squares;
    if (two.sensor !== undefined) expect(two.sensor.explains).toBeCloseTo(ends, 9);
  });
});

describe('a log laid on a run', () => {
  it('has its own clock, samples and what is said of them', () => {
    const log = logOf(IDS, NOMINAL, {}, 100);
    const plan = planOf(log);
    expect(plan.clock).toEqual({ by: 'given', begins: 100 });
    expect([plan.named, plan.others, plan.looks.series.size]).toEqual([true, [], 0]);
    const result = compareMeasured(plan);
    const { channels, ...rest } = result;
    expect(rest).toEqual({
      schema: 'shaftwork.measured/1',
      file: 'a.csv',
      rows: 99,
      candidate: input.name,
      named: true,
      driven: false,
      clock: { by: 'given', begins: 100 },
      from: 0,
      to: 10,
      taken: ['said before', expect.stringMatching(/^\d\d % of its samples, next to jumps of the profile, shown but not counted$/)],
      squares: expect.closeTo(0, 3),
      moved: 0,
      explanation: { kind: 'nothing-to-explain' },
    });
    const near = plan.moments.nearJumps;
    expect(result.taken[1].startsWith(`${Math.round(100 * near)} %`)).toBe(true);
    expect(channels.map(({ id, bands, meanBand }) => [id, bands, meanBand])).toEqual(IDS.map((id) => [id, undefined, undefined]));
    for (const { rms, bias, meanMeasured, meanPredicted } of channels) {
      expect(rms).toBeLessThan(1e-6 * Math.abs(meanMeasured));
      expect(Math.abs(bias)).toBeLessThan(1e-6 * Math.abs(meanMeasured));
      expect(meanPredicted / meanMeasured).toBeCloseTo(1, 6);
    }
  });

  it('finds its beginning by a column, where that is asked', () => {
    const log = logOf(['voltage', 'battery_current'], NOMINAL, { begins: { by: 'column', column: 'battery_current' } }, 50);
    const { clock } = planOf(log);
    expect(clock).toMatchObject({ by: 'column', column: 'battery_current', begins: expect.closeTo(50, 0) });
    expect(clock.correlation).toBeGreaterThan(0.99);
    const flat = { ...log, columns: new Map([['battery_current' as const, new Float64Array(41).fill(3)]]) };
    expect(() => planOf(flat)).toThrow(
      new RangeError(
        'The clock of a.csv cannot be set by its column battery_current: it does not rise and fall as the run does, or not at all. Align by another column, or say when the run begins: begins: 12 s.',
      ),
    );
    expect(() => planOf({ ...log, begins: { by: 'column', column: 'thrust' } })).toThrow(/by its column thrust/);
  });

  it('is called in question where its first row was only taken for the beginning and another fits far better', () => {
    const late = (by: number, at: number) =>
      planOf(logOf(['voltage', 'battery_current'], NOMINAL, { begins: { by: 'first-row', at } }, by)).clock;
    expect(late(50, 50)).toEqual({ by: 'first-row', begins: 50 });
    const { better, ...clock } = late(50, 52);
    expect(clock).toEqual({ by: 'first-row', begins: 52 });
    // the surest of its columns says so
    expect(better).toMatchObject({ column: 'battery_current', begins: expect.closeTo(50, 0) });
    expect((better?.correlation ?? 0) - (better?.now ?? 1)).toBeGreaterThan(0.15);
    expect(better?.now).not.toBe(0);
    // what never changes asks nothing, and the next column is looked at
    const still = logOf(['voltage', 'battery_current'], NOMINAL, { begins: { by: 'first-row', at: 52 } }, 50);
    const flat = { ...still, columns: new Map([...still.columns, ['battery_current' as const, new Float64Array(41).fill(3)]]) };
    expect(planOf(flat).clock.better).toMatchObject({ column: 'voltage' });
    expect(planOf({ ...still, columns: new Map([['can_temperature' as const, new Float64Array(41).fill(300)]]) }).clock).toEqual({
      by: 'first-row',
      begins: 52,
    });
  });

  it('that has no time in common with the run is refused, unless it is the profile', () => {
    const log = logOf(['voltage'], NOMINAL, { begins: { by: 'given', at: 30 } });
    expect(() => planOf(log)).toThrow(
      new RangeError(
        'a.csv and the run have no time in common: the log goes from -30.0 to -20.0 s of a run of 10.0 s. Say when the run begins by its clock, begins: 12 s, or have it found, align: battery_current, under measured: in the scenario.',
      ),
    );
    expect(planMeasured(input, PROFILE, { ...log, driven: true })).toBeUndefined();
  });

  it('is another candidate’s where that comes much nearer, and nobody said whose it is', () => {
    const kv = NUMBERS.findIndex(({ subject }) => subject === 'motor.kv');
    const log = logOf(IDS, moved(kv, 3));
    const { value, spread } = { ...NUMBERS[kv].first, ...NUMBERS[kv] };
    const rpm = toUnit(drawn(value, spread, 3), 'rpm/V');
    const other = { ...driveOf(changed('920 rpm/V', `${rpm} rpm/V`)), name: 'other' };
    const { nearer, named } = compareMeasured(planOf(log, [input, other]));
    expect([nearer?.name, named]).toEqual(['other', false]);
    expect(nearer?.share).toBeLessThan(0.01);
    expect(compareMeasured(planOf(log, [{ ...input, name: 'same' }]))).not.toHaveProperty('nearer');
  });
});

it('bands stand where at least half of the draws still run, samples next to jumps do not count', () => {
  const column = { id: 'voltage' as const, at: Int32Array.of(1, 3), measured: Float64Array.of(5, 9), counts: [true, false] };
  const times = Float64Array.of(0, 10, 20, 30);
  const draws = [0, 1, 2, 3].map((k) => Float64Array.of(4 + k, k < 1 ? 7 : Number.NaN));
  const { bands, inside, meanBand, time, bias, rms, meanMeasured, meanPredicted } = channelOf(column, times, Float64Array.of(3, 1), draws);
  expect([time, bias, rms, meanMeasured, meanPredicted]).toEqual([[10, 30], 2, 2, 5, 3]);
  expect([bands?.p50[0], bands?.p50[1], inside]).toEqual([5.5, Number.NaN, 1]);
  expect(meanBand?.p50).toBe(5.5);
  const half = draws.map((draw, k) => (k < 2 ? draw : Float64Array.of(Number.NaN, Number.NaN)));
  expect(channelOf(column, times, Float64Array.of(3, 1), half).bands?.p50[0]).toBe(4.5);
  expect(channelOf(column, times, Float64Array.of(3, 1), half)).not.toHaveProperty('meanBand');
  expect(
    samplesIn({ watch: { candidate: 'A', ids: ['voltage'], times }, columns: [column], nearJumps: 0 }, Float64Array.of(1, 2, 3, 4)),
  ).toEqual([Float64Array.of(2, 4)]);
});
