/** Which samples of a log are compared, and with which weight. */
import type { ProfileStep } from '@shaftwork/sim-core/drive/profile';
import type { MeasurableId, MeasuredLog } from '@shaftwork/sim-core/provenance/measurables';
import { alignClocks, correlationAt } from '@shaftwork/sim-core/questions/measured/align';
import { deviationOf, dot, misfitOf } from '@shaftwork/sim-core/questions/measured/misfit';
import { momentsOf, samplesIn } from '@shaftwork/sim-core/questions/measured/moments';
import { describe, expect, it } from 'vitest';

const log = (
  time: readonly number[],
  columns: Partial<Record<MeasurableId, readonly number[]>>,
  more: Partial<MeasuredLog> = {},
): MeasuredLog => ({
  file: 'a.csv',
  rows: time.length,
  time: Float64Array.from(time),
  columns: new Map(Object.entries(columns).map(([id, values]) => [id as MeasurableId, Float64Array.from(values)])),
  begins: { by: 'given', at: 0 },
  taken: [],
  ...more,
});
const held = (duration: number, value: number, to = value) => ({ duration, hold: 'throttle' as const, value: { from: value, to } });
const range = (n: number, step = 1): number[] => Array.from({ length: n }, (_, k) => k * step);

describe('moments', () => {
  it('are the samples between the run’s beginning and its end, each column its own', () => {
    const made = momentsOf(
      log(range(100), { voltage: range(100), battery_current: range(100).map((k) => (k % 2 === 0 ? k : Number.NaN)) }),
      10,
      50,
      [held(50, 1)],
      'A',
    );
    expect(made?.watch.candidate).toBe('A');
    expect(made?.watch.ids).toEqual(['voltage', 'battery_current']);
    expect([...(made?.watch.times ?? [])]).toEqual(range(51));
    expect([...(made?.columns[0].measured ?? [])]).toEqual(range(51).map((k) => k + 10));
    expect([...(made?.columns[1].at ?? [])]).toEqual(range(26).map((k) => 2 * k));
  });

  it('are none where the log and the run have no time in common', () => {
    expect(momentsOf(log([0, 1, 2], { voltage: [1, 1, 1] }), 10, 50, [held(50, 1)], 'A')).toBeUndefined();
    expect(momentsOf(log([60, 70], { voltage: [1, 1] }), 0, 50, [held(50, 1)], 'A')).toBeUndefined();
    expect(momentsOf(log([0, 1], { voltage: [Number.NaN, Number.NaN] }), 0, 50, [held(50, 1)], 'A')).toBeUndefined();
  });

  it('do not count beside a jump, two rows or half a second, at most a quarter of a step; beside a slope they do', () => {
    const counts = (profile: readonly ReturnType<typeof held>[], step = 1, more: Partial<MeasuredLog> = {}): number[] => {
      const times = range(Math.round(60 / step) + 1, step);
      const made = momentsOf(log(times, { voltage: times }, more), 0, 60, profile, 'A');
      return (made?.columns[0].counts ?? []).flatMap((each, k) => (each ? [] : [times[k]]));
    };
    // from the start up to 2 s, and from 28 to 32 s, ends excluded
    expect(counts([held(30, 0.4), held(30, 0.8)])).toEqual([0, 1, 29, 30, 31]);
    expect(counts([held(30, 0.4, 0.8), held(30, 0.8)])).toEqual([0, 1]);
    expect(counts([held(30, 0.4), held(30, 0.4)])).toEqual([0, 1]);
    // of a step of 4 s no more than one at each end
    expect(counts([held(30, 0.4), held(4, 0.8), held(26, 0.4)])).toEqual([0, 1, 29, 30, 34, 35]);
    expect(counts([held(30, 0.4), held(30, 0.8)], 0.2)).toEqual(
      [0, 0.2, 0.4].concat([29.6, 29.8, 30, 30.2, 30.4]).map((t) => expect.closeTo(t, 9)),
    );
    // what drove the run has no jumps to be late for
    expect(counts([held(30, 0.4), held(30, 0.8)], 1, { driven: true })).toEqual([]);
    expect(momentsOf(log(range(61), { voltage: range(61) }), 0, 60, [held(30, 0.4), held(30, 0.8)], 'A')?.nearJumps).toBeCloseTo(
      5 / 61,
      12,
    );
  });

  it('do count where all of a column lie beside a jump', () => {
    const made = momentsOf(log([29, 30, 31], { voltage: [1, 2, 3] }), 0, 60, [held(30, 0.4), held(30, 0.8)], 'A');
    expect(made?.columns[0].counts).toEqual([true, true, true]);
    expect(made?.nearJumps).toBe(0);
  });

  it('tell how much of the log lies within the run, and how much of the run they span', () => {
    const share = (time: readonly number[]) => {
      const made = momentsOf(log(time, { voltage: time }), 10, 60, [held(60, 0.4)], 'A');
      return [made?.rowsWithin, made?.spanned];
    };
    expect(share([0, 10, 25, 40])).toEqual([0.75, 0.5]);
    expect(share([10, 70, 80, 90])).toEqual([0.5, 1]);
    expect(share([0, 10.012, 10.018])).toEqual([2 / 3, expect.closeTo(1e-4, 9)]);
  });

  it('are four hundred of a column at most, evenly', () => {
    const n = 4001;
    const made = momentsOf(log(range(n), { voltage: range(n) }), 0, 5000, [held(5000, 1)], 'A');
    const measured = [...(made?.columns[0].measured ?? [])];
    expect(measured).toHaveLength(400);
    expect([measured[0], measured[1], measured[399]]).toEqual([0, 10, 3990]);
  });

  it('begin before the first sample where a thermometer is among them, which is late', () => {
    const made = momentsOf(log([64, 70], { can_temperature: [300, 310] }), 0, 100, [held(100, 1)], 'A');
    expect([...(made?.watch.times ?? [])]).toEqual([...range(64), 64, 70]);
    expect([...(made?.columns[0].at ?? [])]).toEqual([64, 65]);
    expect(momentsOf(log([64, 70], { voltage: [1, 2] }), 0, 100, [held(100, 1)], 'A')?.watch.times).toHaveLength(2);
  });

  it('are those of each column, in the order of time, of columns that have any', () => {
    const made = momentsOf(
      log([4, 5, 6, 7], {
        voltage: [Number.NaN, 1, Number.NaN, 2],
        battery_current: [Number.NaN, Number.NaN, Number.NaN, Number.NaN],
        can_temperature: [3, Number.NaN, 4, Number.NaN],
      }),
      0,
      50,
      [held(50, 1)],
      'A',
    );
    expect(made?.watch.ids).toEqual(['voltage', 'can_temperature']);
    // before the first of them all, 4 s, the thermometer is followed
    expect([...(made?.watch.times ?? [])]).toEqual([...range(64, 4 / 64), 4, 5, 6, 7]);
    expect(made?.columns.map(({ at }) => [...at])).toEqual([
      [65, 67],
      [64, 66],
    ]);
    expect(made?.nearJumps).toBe(0);
  });

  it('lie beside a jump of what is held, of its kind, and of the speed that is held beside it; of a short first step a quarter', () => {
    const left = (profile: readonly ProfileStep[]): number[] =>
      (momentsOf(log(range(41), { voltage: range(41) }), 0, 40, profile, 'A')?.columns[0].counts ?? []).flatMap((each, k) =>
        each ? [] : [k],
      );
    const flown = (value: number, from: number, to = from): ProfileStep => ({ ...held(20, value), vehicleSpeed: { from, to } });
    expect(left([held(20, 1), { ...held(20, 1), hold: 'motorCurrent' }])).toEqual([0, 1, 19, 20, 21]);
    expect(left([flown(1, 3), flown(1, 5)])).toEqual([0, 1, 19, 20, 21]);
    expect(left([flown(1, 3, 5), flown(1, 5)])).toEqual([0, 1]);
    expect(left([held(20, 1), flown(1, 5)])).toEqual([0, 1, 19, 20, 21]);
    expect(left([flown(1, 5), held(20, 1)])).toEqual([0, 1, 19, 20, 21]);
    // a quarter of 4 s before the jump, and of the first step after the start
    expect(left([held(4, 0.4), held(36, 0.8)])).toEqual([0, 4, 5]);
  });

  it('of quick rows lie half a second beside a jump', () => {
    const made = momentsOf(log([0.4, 0.6], { voltage: [5, 5] }), 0, 60, [held(60, 1)], 'A');
    expect([made?.columns[0].counts, made?.nearJumps]).toEqual([[false, true], 0.5]);
  });

  it('are read out of a watched series by their places', () => {
    const made = momentsOf(log([5, 6, 7], { voltage: [1, 1, 1], thrust: [2, Number.NaN, 2] }), 0, 60, [held(60, 1)], 'A');
    if (made === undefined) throw new Error('no moments');
    expect(samplesIn(made, Float64Array.of(10, 11, 12, 20, 21, 22)).map((each) => [...each])).toEqual([
      [10, 11, 12],
      [20, 22],
    ]);
    expect(() => samplesIn(made, new Float64Array(5))).toThrow(/not one of this watch/);
  });
});

describe('misfit', () => {
  const column = (id: MeasurableId, measured: readonly number[], counts = measured.map(() => true)) => ({
    id,
    at: Int32Array.from(measured, (_, k) => k),
    measured: Float64Array.from(measured),
    counts,
  });
  it('counts in deviations of the instrument: a share of the greatest reading, or an amount', () => {
    // 1 % and 2 K are 1.96 deviations
    expect(deviationOf(column('voltage', [3, -12, 5]))).toBeCloseTo(0.12 / 1.96, 4);
    expect(deviationOf(column('can_temperature', [300, 350]))).toBeCloseTo(2 / 1.96, 4);
  });

  it('sums to the mean over channels of mean squares, each channel one voice', () => {
    const [volts, warm] = [column('voltage', [10, 10, 10, 10]), column('can_temperature', [300, 300])];
    const [s, t] = [deviationOf(volts), deviationOf(warm)];
    const predicted = [Float64Array.of(10 + s, 10 - s, 10 + s, 10 - s), Float64Array.of(300 + 2 * t, 300 + 2 * t)];
    const { residuals, begins } = misfitOf([volts, warm], predicted);
    const r = residuals(predicted);
    expect(begins).toEqual([0, 4]);
    expect(dot(r, r)).toBeCloseTo(0.5 * (1 + 4), 9);
    expect(Math.sign(r[0])).toBe(-1);
    // twice as far off with the same weights: four times the squares
    const twice = residuals([Float64Array.of(10 + 2 * s, 10 - 2 * s, 10 + 2 * s, 10 - 2 * s), Float64Array.of(300 + 4 * t, 300 + 4 * t)]);
    expect(dot(twice, twice)).toBeCloseTo(4 * 2.5, 9);
  });

  it('lets a spike count no more than five usual residuals, and what does not count not at all', () => {
    const volts = column('voltage', [10, 10, 10, 10, 10], [true, true, true, true, false]);
    const s = deviationOf(volts);
    const predicted = [Float64Array.of(10 + s, 10 + s, 10 + s, 10 + 50 * s, 99)];
    const r = misfitOf([volts], predicted).residuals(predicted);
    // weights 1, 1, 1 and a tenth
    expect(r[4]).toBeCloseTo(0, 12);
    expect(r[0] ** 2).toBeCloseTo(1 / 3.1, 9);
    expect(r[3] ** 2).toBeCloseTo((0.1 * 2500) / 3.1, 6);
  });

  it('has as usual residual the one in the middle, where that is more than the instrument errs by', () => {
    const volts = column('voltage', [10, 10, 10, 10, 10, 10], [true, true, true, true, true, false]);
    const s = deviationOf(volts);
    // 1, 2, 3, 4 and 60 deviations off: 3 is usual, 15 of 60 count
    const predicted = [Float64Array.from([4, 60, 1, 3, 2, 200], (k) => 10 - k * s)];
    const r = misfitOf([volts], predicted).residuals(predicted);
    expect(r[1] ** 2).toBeCloseTo((0.25 * 60 ** 2) / 4.25, 6);
    expect(r[0] ** 2).toBeCloseTo(16 / 4.25, 9);
    expect(r[5]).toBe(0);
    expect(dot(r, r)).toBeCloseTo((1 + 4 + 9 + 16 + 0.25 * 3600) / 4.25, 6);
  });

  it('begins each of three channels where the one before it ends', () => {
    const three = [column('voltage', [1, 2]), column('thrust', [1, 2, 3]), column('shaft_speed', [5])];
    expect(misfitOf(three, [Float64Array.of(1, 2), Float64Array.of(1, 2, 3), Float64Array.of(4)]).begins).toEqual([0, 2, 5]);
  });

  it('has nothing where there is no prediction', () => {
    const volts = column('voltage', [10, 11, 10]);
    const predicted = [Float64Array.of(10.1, Number.NaN, 10.1)];
    expect(misfitOf([volts], predicted).residuals(predicted)[1]).toBe(0);
  });
});

describe('clocks', () => {
  const wave = (t: number): number => Math.sin(0.3 * t) + 0.4 * Math.sin(1.1 * t + 1) + 0.02 * t;
  const curve = (from: number, to: number, of: (t: number) => number, step = 0.25) => {
    const time = Array.from({ length: Math.round((to - from) / step) + 1 }, (_, k) => from + k * step);
    return { time, values: time.map(of) };
  };
  const run = curve(0, 40, wave);

  it('are set where the ups and downs meet, whatever the sensor’s scale', () => {
    const found = alignClocks(
      curve(100, 200, (t) => 7 + 3 * wave(t - 137)),
      run,
    );
    expect(Math.abs((found?.begins ?? 0) - 137)).toBeLessThan(0.05);
    expect(found?.correlation).toBeGreaterThan(0.999);
    expect(found).not.toHaveProperty('alike');
    // the run may have begun before the log did
    const early = alignClocks(
      curve(20, 70, (t) => wave(t - 5)),
      run,
    );
    expect(Math.abs((early?.begins ?? 0) - 5)).toBeLessThan(0.05);
  });

  it('correlate as Pearson says, over what both have: at least half of the shorter', () => {
    const line = { time: [0, 10], values: [0, 10] };
    const tent = { time: [0, 5, 10], values: [0, 5, 0] };
    expect(correlationAt(line, line, 0)).toBeCloseTo(1, 9);
    expect(correlationAt({ time: [0, 10], values: [10, 0] }, line, 0)).toBeCloseTo(-1, 9);
    expect(correlationAt(tent, line, 0)).toBeCloseTo(0, 9);
    expect(correlationAt(line, line, 4.9)).toBeCloseTo(1, 9);
    expect(correlationAt(line, line, 5.1)).toBeNaN();
    expect(correlationAt({ time: [0, 10], values: [3, 3] }, line, 0)).toBeNaN();
    // a gap is bridged straight, an end is not
    expect(correlationAt({ time: [0, 4, 6, 10], values: [0, 4, Number.NaN, 10] }, line, 0)).toBeCloseTo(1, 9);
  });

  it('are not set where nothing follows, and tell of another beginning as good', () => {
    expect(
      alignClocks(
        curve(0, 40, (t) => Math.sin(9 * t)),
        curve(0, 40, (t) => t * t),
      ),
    ).toBeUndefined();
    expect(alignClocks({ time: [3], values: [1] }, { time: [0], values: [1] })).toBeUndefined();
    const twice = curve(0, 200, (t) => (t < 100 ? wave(t - 20) : wave(t - 130)));
    const found = alignClocks(twice, run);
    const both = [found?.begins ?? 0, found?.alike ?? 0].sort((a, b) => a - b);
    expect(Math.abs(both[0] - 20)).toBeLessThan(0.6);
    expect(Math.abs(both[1] - 130)).toBeLessThan(0.6);
  });
});
