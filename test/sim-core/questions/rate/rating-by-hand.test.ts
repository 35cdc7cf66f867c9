/** Ratings of one body with one time constant, each by its closed form: for ever, for seconds, in turns; and the search that finds them, step by step. */
import { HEAT_LIMITS } from '@shaftwork/sim-core/drive/heat-limits';
import { byBody } from '@shaftwork/sim-core/heat/heat-paths';
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import { LONGEST } from '@shaftwork/sim-core/questions/rate/equilibrium';
import { sweepThrottle } from '@shaftwork/sim-core/questions/rate/part-throttle';
import { continuousRating, intermittent, lastThatKeeps, meanWarmth, shortTimes } from '@shaftwork/sim-core/questions/rate/rate';
import { TEMPERATURE_CHANNELS } from '@shaftwork/sim-core/results/channels';
import type { Rating } from '@shaftwork/sim-core/results/rating-result';
import type { Trace } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';
import { COLD, type Linear, linearDrive } from './linear-drive.js';

const BODY = { rise: 200, time: 100 } as const satisfies Linear;
const limited = (above: number, more: Partial<Linear> = {}) =>
  linearDrive({ ...BODY, bounds: { windingTemperature: COLD + above }, ...more });
const pointOf = (rating: Rating) => (rating.kind === 'none' ? expect.fail('no rating') : rating.point);

describe('the last that keeps', () => {
  const search = (margin: (x: number) => number, tolerance: number, [low, high]: readonly [number, number] = [0, 2]) => {
    const tried: number[] = [];
    const found = lastThatKeeps(
      (x) => {
        tried.push(x);
        return margin(x);
      },
      low,
      margin(low),
      high,
      margin(high),
      tolerance,
    );
    return { found, tried };
  };
  it('of a straight line is looked for three tenths of the tolerance beyond its root, then as much before, then half way', () => {
    // 40·(1 − x): beyond at 1.003, again at the root and 0.003; the third time half way between 0 and 1.003
    const { found, tried } = search((x) => 40 * (1 - x), 0.01);
    expect(tried[0]).toBeCloseTo(1.003, 12);
    // kept 0.2 of the tolerance from the end that fails
    expect(tried[1]).toBeCloseTo(1.001, 12);
    expect(tried[2]).toBeCloseTo(1.001 / 2, 12);
    expect(found).toBeLessThanOrEqual(1);
    expect(found).toBeGreaterThan(0.99);
  });
  it('is kept a fifth of the tolerance from the end that keeps', () => {
    // the line's root lies at the lower end: nothing to gain
    const { tried } = search((x) => (x === 0 ? 1e-12 : -1), 0.1);
    expect(tried[0]).toBeCloseTo(0.03, 9);
    expect(search((x) => (x < 1e-3 ? 1e-12 : -1e9), 0.1, [-0.5, 2]).tried[0]).toBeCloseTo(-0.47, 9);
  });
  it('halves where there is no equilibrium, and ends within the tolerance', () => {
    const { found, tried } = search((x) => (x < 0.7 ? 1 + x : Number.NEGATIVE_INFINITY), 0.01);
    expect(tried).toEqual([1, 0.5, 0.75, 0.625, 0.6875, 0.71875, 0.703125, 0.6953125]);
    expect(found).toBe(0.6953125);
  });
  it('ends where what is left is less than a twentieth of a kelvin, and not where it fails by less', () => {
    const close = search((x) => 0.08 * (1 - x), 1e-6);
    expect(close.tried.length).toBeLessThan(5);
    expect(0.08 * (1 - close.found)).toBeLessThan(0.05);
    expect(close.found).toBeLessThanOrEqual(1);
    const met = search((x) => (x <= 1 ? 0 : -1), 0.5);
    expect([met.found, met.tried[0]]).toEqual([expect.closeTo(0.15, 12), expect.closeTo(0.15, 12)]);
  });
});

describe('for ever', () => {
  const rated = (drive: ReturnType<typeof linearDrive>) => continuousRating(drive, sweepThrottle(drive).swept);
  it('is √(limit/rise) of full throttle', () => {
    for (const above of [20, 50, 130]) {
      const rating = rated(limited(above));
      expect([rating.kind, rating.kind === 'limited' && rating.binding]).toEqual(['limited', 'windingTemperature']);
      const { throttle, temperatures, motorCurrent } = pointOf(rating);
      const exact = Math.sqrt(above / 200);
      expect(throttle).toBeLessThanOrEqual(exact);
      expect(throttle).toBeGreaterThan(exact - 5e-4);
      expect(temperatures.windingTemperature).toBeCloseTo(COLD + 200 * throttle ** 2, 9);
      expect(motorCurrent).toBeCloseTo(50 * throttle, 9);
    }
  });
  it('ends below what has no equilibrium', () => {
    // 600 K of a thousand: nothing settles beyond √0.6
    const rating = rated(linearDrive({ rise: 1000, time: 100, warms: 'cellTemperature' }));
    expect([rating.kind, rating.kind === 'limited' && rating.binding]).toEqual(['limited', 'windingTemperature']);
    expect(pointOf(rating).throttle).toBeCloseTo(Math.sqrt(0.6), 3);
    expect(pointOf(rating).temperatures.cellTemperature).toBeCloseTo(COLD + 600, 0);
  });
  it('is bound by what the search finds past it, or where that is no equilibrium by what the sweep has found', () => {
    const state = limited(50).state.slice();
    const swept = (failing: number) => [
      { throttle: 0.3, state, margin: 32, binding: 'cellTemperature' as const },
      { throttle: failing, state: undefined, margin: Number.NEGATIVE_INFINITY, binding: 'magnetTemperature' as const },
    ];
    const found = continuousRating(limited(50), swept(0.8));
    expect(found).toMatchObject({ kind: 'limited', binding: 'windingTemperature', point: { throttle: expect.closeTo(0.5, 2) } });
    const hot = continuousRating(linearDrive({ rise: 1000, time: 100 }), swept(0.9));
    expect(hot).toMatchObject({ kind: 'limited', binding: 'magnetTemperature', point: { throttle: expect.closeTo(Math.sqrt(0.6), 2) } });
  });
  it('is full throttle where that keeps every limit, to the last kelvin', () => {
    expect(rated(limited(200))).toMatchObject({
      kind: 'full-throttle',
      point: { throttle: 1, temperatures: { windingTemperature: COLD + 200 } },
    });
    expect(rated(limited(199.9)).kind).toBe('limited');
  });
  it('is none where the least throttle passes a limit, which is told, or nothing turns', () => {
    expect(rated(linearDrive({ ...BODY, warms: 'cellTemperature', bounds: { cellTemperature: COLD + 1.9 } }))).toEqual({
      kind: 'none',
      binding: 'cellTemperature',
    });
    // 2 K at a tenth: just kept
    expect(rated(limited(2)).kind).toBe('limited');
    expect(continuousRating(limited(50), [])).toEqual({ kind: 'none', binding: 'windingTemperature' });
  });
});

describe('for seconds', () => {
  const bound = COLD + 100;
  const times = (s1: number, winding = COLD) => {
    const drive = limited(100);
    drive.state[0] = 777;
    return shortTimes(
      drive,
      s1,
      byBody((body) => (body === 'winding' ? winding : COLD)),
    );
  };
  const exact = (throttle: number, from: number): number => {
    const end = COLD + 200 * throttle ** 2;
    return 100 * Math.log((end - from) / (end - bound));
  };
  it.each([
    ['cold', COLD],
    ['warm', COLD + 60],
  ])('from %s a throttle lasts τ·ln((end − start)/(end − limit))', (_, from) => {
    const s1 = Math.SQRT1_2;
    const found = times(s1, from);
    expect(found.map(({ throttle }) => (throttle - s1) / (1 - s1))).toEqual(
      [0.015, 0.05, 0.12, 0.22, 0.35, 0.5, 0.65, 0.82, 1].map((share) => expect.closeTo(share, 9)),
    );
    for (const each of found) {
      expect(each).toMatchObject({
        kind: 'until',
        binding: 'windingTemperature',
        motorCurrent: 50 * each.throttle,
        inputPower: 600 * each.throttle,
        shaftPower: expect.closeTo(500 * each.throttle ** 2, 9),
      });
      expect(each.kind === 'until' && each.time).toBeCloseTo(exact(each.throttle, from), 1);
    }
  });
  it('lasts for ever where it never passes a limit, and no time where it has', () => {
    const [first] = times(0.2);
    expect(first).toEqual({
      throttle: expect.closeTo(0.212, 9),
      kind: 'for-ever',
      motorCurrent: expect.any(Number),
      inputPower: expect.any(Number),
      shaftPower: expect.any(Number),
    });
    for (const each of times(0.8, bound)) expect(each).toMatchObject({ kind: 'until', time: 0 });
    expect(exact(1, COLD)).toBeLessThan(LONGEST);
  });
  it('is one, at full throttle, where that lasts, and none where nothing turns', () => {
    expect(times(1).map(({ throttle }) => throttle)).toEqual([1]);
    const stands = linearDrive({ ...BODY, stands: (throttle) => throttle < 0.9 });
    expect(
      shortTimes(
        stands,
        0.8,
        byBody(() => COLD),
      ).map(({ throttle }) => throttle),
    ).toEqual([0.9, 0.93, 0.964, 1].map((each) => expect.closeTo(each, 9)));
  });
});

describe('in turns', () => {
  const NOTHING = { kind: 'none', binding: 'cellTemperature' } as const;
  /** Top of a settled cycle that warms towards `a` and cools towards `b` [K above the cold]. */
  const top = (a: number, b: number, on: number, off: number): number => {
    const [warms, cools] = [Math.exp(-on / 100), Math.exp(-off / 100)];
    return (a * (1 - warms) + b * warms * (1 - cools)) / (1 - warms * cools);
  };
  it.each([
    [0.25, 100],
    [0.4, 100],
    [0.6, 300],
  ])('a duty of %d in %d s has the throttle whose settled cycle peaks on the limit', (duty, cycle) => {
    const s1 = Math.sqrt(50 / 200);
    const rating = intermittent(limited(50), duty, cycle, s1, NOTHING);
    expect([rating.kind, rating.kind === 'limited' && rating.binding]).toEqual(['limited', 'windingTemperature']);
    const exact = Math.sqrt(50 / top(200, 0, duty * cycle, (1 - duty) * cycle));
    const { throttle, temperatures, vehicleSpeed } = pointOf(rating);
    expect(Math.abs(throttle - exact)).toBeLessThan(2e-3);
    expect(temperatures.windingTemperature).toBeCloseTo(COLD + 50, 0);
    expect(temperatures.cellTemperature).toBe(COLD);
    expect(vehicleSpeed).toBeCloseTo(10 * throttle, 9);
  });
  it('is full throttle where its cycle keeps every limit', () => {
    const rating = intermittent(limited(60), 0.15, 100, 0.5, NOTHING);
    expect(rating).toMatchObject({ kind: 'full-throttle', point: { throttle: 1, vehicleSpeed: 10 } });
    expect(pointOf(rating).temperatures.windingTemperature).toBeCloseTo(COLD + top(200, 0, 15, 85), 0);
  });
  it('where a rest warms may be less than for ever, and is none where the least is too much', () => {
    // the body warms towards 40 K while it rests: bursts of 50 K for ever reach 45 K and more
    const rested = (above: number) => limited(above, { rest: 60 });
    const s1 = 0.5;
    const rating = intermittent(rested(50), 0.5, 200, s1, NOTHING);
    const { throttle } = pointOf(rating);
    expect(throttle).toBeLessThan(s1);
    // the peak is at the end of the rest, as if rest and burst were exchanged
    expect(Math.abs(top(60, 200 * throttle ** 2, 100, 100) - 50)).toBeLessThan(0.3);
    expect(intermittent(rested(30), 0.5, 200, s1, NOTHING)).toEqual({ kind: 'none', binding: 'windingTemperature' });
    expect(intermittent(rested(30), 0.5, 200, 0, NOTHING)).toEqual({ kind: 'none', binding: 'windingTemperature' });
  });
  it('tells what bound it for ever where its own cycles run away', () => {
    const hot = linearDrive({ rise: 1e7, time: 100 });
    expect(intermittent(hot, 0.6, 1000, 0, NOTHING)).toEqual(NOTHING);
    expect(intermittent(hot, 0.6, 1000, 0, continuousRating(limited(200), sweepThrottle(limited(200)).swept))).toEqual({
      kind: 'none',
      binding: 'windingTemperature',
    });
  });
});

it('a mean of two moments is that of a straight line, of one its own', () => {
  const mean = (time: readonly number[], row: readonly number[]) =>
    meanWarmth({ time, ...recordOf(TEMPERATURE_CHANNELS, () => row) } as Trace).winding;
  expect([mean([5, 15], [300, 320]), mean([7], [300])]).toEqual([310, 300]);
  expect(HEAT_LIMITS).toHaveLength(4);
});
