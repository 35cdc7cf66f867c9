/** A short run of a drive of which two numbers are unsure, laid against logs that were made of it: clocks, samples, what explains a misfit. */
import { THERMOMETER_PLACES } from '@shaftwork/sim-core/heat/thermometer';
import type { MeasuredLog } from '@shaftwork/sim-core/provenance/measurables';
import { NOMINAL, realise } from '@shaftwork/sim-core/provenance/realise';
import { drawn, STANDARD_DEVIATIONS_95, toUnit } from '@shaftwork/sim-core/quantities';
import { band } from '@shaftwork/sim-core/questions/doubt/columns';
import { groupOf } from '@shaftwork/sim-core/questions/doubt/numbers';
import { planDoubt } from '@shaftwork/sim-core/questions/doubt/plan';
import { sampleStart, watchedIn } from '@shaftwork/sim-core/questions/doubt/sample';
import { alignClocks } from '@shaftwork/sim-core/questions/measured/align';
import { explain } from '@shaftwork/sim-core/questions/measured/explain';
import { channelOf, channelsOf, compareMeasured, planMeasured } from '@shaftwork/sim-core/questions/measured/measured';
import { samplesIn } from '@shaftwork/sim-core/questions/measured/moments';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { watchSystem } from '@shaftwork/sim-core/questions/simulate/watch';
import { describe, expect, it } from 'vitest';
import { changed } from '../../scenario/smallest-scenario.js';
import { driveOf } from '../identify/heat-bench.js';
import { explained, IDS, input, logOf, moved, NUMBERS, PROFILE, planOf, step, TIMES } from './short-log.js';

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

  it('may be the share of one thermometer as well as the model, where another late one has hardly moved', () => {
    const long = [step(60, 0.95)];
    const times = Float64Array.from({ length: 21 }, (_, k) => 3 * k);
    const ids = ['beside_coils_temperature', 'in_slot_temperature'] as const;
    const watched = watchSystem(realise(input.data), { ids, times });
    simulate(realise(input.data), long, { method: 'dormand-prince', relative: 1e-5, record: false, watch: watched.watch });
    const series = watched.series();
    const air = input.data.surroundings.motorAirTemperature.value;
    const columns = new Map([
      ['beside_coils_temperature' as const, series.slice(0, 21)],
      ['in_slot_temperature' as const, series.slice(21).map((each) => air + 0.88 * (each - air))],
    ]);
    const log: MeasuredLog = { file: 'a.csv', rows: 21, time: times, columns, begins: { by: 'given', at: 0 }, taken: [] };
    const { moments, nominal } = planMeasured(input, long, log) ?? expect.fail();
    const { explanation, moved: count } = explain(input, long, moments, nominal, { watch: moments.watch, series: new Map() });
    if (explanation.kind !== 'one') return expect(explanation.kind).toBe('one');
    // two numbers, the model and two thermometers
    expect(count).toBe(5);
    const { share, factor, words } = THERMOMETER_PLACES['in-slot'];
    expect([explanation.best, ...explanation.alike].find(({ subject }) => subject === 'in-slot')).toEqual({
      subject: 'in-slot',
      words: `share of the excess that a thermometer ${words} takes`,
      dimension: 'fraction',
      value: share,
      moved: expect.closeTo(0.88 * share, 2),
      deviations: expect.closeTo((1.96 * Math.log(0.88)) / Math.log(factor), 1),
      explains: expect.closeTo(1, 2),
    });
  });

  it('asks model and thermometers only where a temperature was read', () => {
    expect(explained(logOf(['voltage', 'shaft_speed'], moved(0, 3))).moved).toBe(2);
  });

  it('takes what was seen by the way for the run of a number at the end of its interval', () => {
    const log = logOf(IDS, moved(0, 2));
    const { moments, nominal } = planOf(log);
    const { watch } = moments;
    const seen = (z: number) => {
      const system = realise(input.data, moved(0, z));
      const { watch: look, series } = watchSystem(system, watch);
      simulate(system, PROFILE, { method: 'dormand-prince', relative: 1e-3, record: false, watch: look });
      return new Map([[groupOf(NUMBERS[0]), series()]]);
    };
    const by = (series: Map<string, Float64Array>) => explain(input, PROFILE, moments, nominal, { watch, series }).explanation;
    expect(by(seen(STANDARD_DEVIATIONS_95))).toEqual(by(new Map()));
    // it begins from there, and ends a digit elsewhere from another place
    expect(by(seen(-1))).not.toEqual(by(new Map()));
  });

  it('is nothing where log and prediction agree', () => {
    const { squares, ...rest } = explained(logOf(IDS));
    expect(squares).toBeLessThan(0.01);
    expect(rest).toEqual({ moved: 0, explanation: { kind: 'nothing-to-explain' } });
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

  it('that is the profile has no jumps to be late for, nor words of any', () => {
    const result = compareMeasured(planOf(logOf(['voltage', 'shaft_speed'], NOMINAL, { driven: true })));
    expect([result.driven, result.taken]).toEqual([true, ['said before']]);
  });

  it('finds its beginning by any column that rises and falls with the run, as the predicted curve itself lies on it', () => {
    for (const id of ['throttle', 'battery_current', 'motor_current', 'battery_power', 'shaft_speed', 'voltage', 'thrust'] as const) {
      const log = logOf(['can_temperature', id], NOMINAL, { begins: { by: 'column', column: id } }, 50);
      // 1500 steps of the run, both ends among them
      const even = Float64Array.from({ length: 1501 }, (_, k) => (k * 10) / 1500);
      const watched = watchSystem(realise(input.data), { ids: [id], times: even });
      simulate(realise(input.data), PROFILE, { method: 'dormand-prince', relative: 1e-5, record: false, watch: watched.watch });
      const found = alignClocks({ time: log.time, values: log.columns.get(id) ?? [] }, { time: even, values: watched.series() });
      expect(planOf(log).clock, id).toEqual({ by: 'column', column: id, ...found });
      expect(Math.abs((found?.begins ?? 0) - 50), id).toBeLessThan(0.2);
    }
  });

  it('is not aligned by what tells no time, such as a temperature', () => {
    const warm = logOf(['can_temperature', 'voltage'], NOMINAL, { begins: { by: 'column', column: 'can_temperature' } });
    expect(() => planOf(warm)).toThrow(/cannot be set by its column can_temperature/);
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
    // where the two have less than half in common as assumed, anything is better
    const apart = late(50, 56).better;
    expect([apart?.now, apart?.column]).toEqual([0, 'battery_current']);
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
    // one that ends early has nothing to be off by, and is none the nearer for it
    const { battery } = other.data;
    const brief = { ...other, data: { ...other.data, battery: { ...battery, capacity: { ...battery.capacity, value: 9 } } } };
    expect(compareMeasured(planOf(log, [input, brief]))).not.toHaveProperty('nearer');
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
    samplesIn(
      { watch: { candidate: 'A', ids: ['voltage'], times }, columns: [column], nearJumps: 0, rowsWithin: 1, spanned: 1 },
      Float64Array.of(1, 2, 3, 4),
    ),
  ).toEqual([Float64Array.of(2, 4)]);
});

it('bands are of the draws that a study watched, sample by sample; what lies on their edge is inside', () => {
  const plan = planOf(logOf(['voltage', 'shaft_speed']));
  const { watch, columns } = plan.moments;
  const doubt = planDoubt([input], PROFILE, 'coolest', { samples: 16, seed: 1, watch });
  const rows = Float64Array.from({ length: sampleStart(doubt, 16) }, (_, k) => (k * 7919) % 1013);
  const channels = channelsOf(plan, { plan: doubt, rows });
  columns.forEach(({ at }, c) => {
    const draws = Array.from({ length: 16 }, (_, i) => watchedIn(doubt, rows, i).subarray(c * watch.times.length));
    const bands = [...at].map((place) => band(draws.map((draw) => draw[place])));
    expect(channels[c].bands?.p05).toEqual(bands.map(({ p05 }) => p05));
    expect(channels[c].bands?.p95).toEqual(bands.map(({ p95 }) => p95));
    const inside = [...columns[c].measured].map((m, i) => (m >= bands[i].p05 && m <= bands[i].p95 ? 1 : 0));
    const counted = inside.filter((_, i) => columns[c].counts[i]);
    expect(channels[c].inside).toBeCloseTo(counted.reduce<number>((a, b) => a + b, 0) / counted.length, 12);
  });
  const column = { id: 'voltage' as const, at: Int32Array.of(0), measured: Float64Array.of(5), counts: [true] };
  expect(channelOf(column, TIMES, Float64Array.of(5), [Float64Array.of(5), Float64Array.of(5)]).inside).toBe(1);
});
