import { intervalAt, monotoneCubic, monotoneCubicAt } from '@shaftwork/sim-core/numerics/interpolation';
import { describe, expect, it } from 'vitest';

const x = [0, 1, 2.5, 3, 5];
const y = [0, 2, 2.5, 2.4, 7];

describe('intervalAt', () => {
  it('counts a point to the interval that begins there, the last one to the last interval', () => {
    expect([0, 0.5, 1, 2.7, 3, 5].map((at) => intervalAt(x, at))).toEqual([0, 0, 1, 2, 3, 3]);
  });

  it('refuses what lies outside the table, and NaN', () => {
    for (const at of [-1e-9, 5.0001, Number.NaN]) expect(() => intervalAt(x, at)).toThrow(/outside the table, which runs from 0 to 5/);
  });
});

describe('monotoneCubic', () => {
  const cubic = monotoneCubic(x, y);

  it('agrees with an independent implementation of the same formulas (SciPy 1.17, PchipInterpolator, run on this table)', () => {
    const values: [number, number][] = [
      [0.3, 0.7862],
      [1.7, 2.3445037037037038],
      [2.8, 2.4352],
      [4.2, 4.1424],
    ];
    for (const [at, value] of values) expect(monotoneCubicAt(cubic, at)).toBeCloseTo(value, 13);
    // its slopes at the points: 8/3 and 4.3 at the ends, 0.6 at 1
    expect([0, 1, 4].map((k) => cubic.slope[k])).toEqual([8 / 3, 0.6, 4.3].map((slope) => expect.closeTo(slope, 13)));
  });

  it('is level where the points turn or stay', () => {
    expect(monotoneCubic([0, 1, 2, 3, 4], [0, 2, 2, 5, 1]).slope.slice(1, 4)).toEqual(Float64Array.of(0, 0, 0));
    // harmonic mean of 1 and 3 with weights 2·2 + 1 and 2 + 2·1
    expect(monotoneCubic([0, 1, 3], [0, 1, 7]).slope[1]).toBeCloseTo(9 / (5 / 1 + 4 / 3), 12);
  });

  it('meets its points, rises and falls only where they do', () => {
    for (const [i, at] of x.entries()) expect(monotoneCubicAt(cubic, at)).toBeCloseTo(y[i]!, 14);
    for (let k = 0; k < x.length - 1; k++) {
      const direction = Math.sign(y[k + 1]! - y[k]!);
      let before = y[k]!;
      for (let s = 1; s <= 50; s++) {
        const at = x[k]! + ((x[k + 1]! - x[k]!) * s) / 50;
        const here = monotoneCubicAt(cubic, at);
        expect(direction * (here - before)).toBeGreaterThanOrEqual(-1e-14);
        before = here;
      }
    }
  });

  it('is a straight line through two points, and through points on a line', () => {
    expect(monotoneCubicAt(monotoneCubic([1, 3], [2, 6]), 1.7)).toBeCloseTo(3.4, 14);
    expect(monotoneCubicAt(monotoneCubic([0, 1, 4, 6], [1, 3, 9, 13]), 4.9)).toBeCloseTo(10.8, 13);
  });

  it('converges on a smooth monotone function with order 3 or better', () => {
    const worst = (intervals: number) => {
      const xs = Array.from({ length: intervals + 1 }, (_, i) => i / intervals);
      const exponential = monotoneCubic(xs, xs.map(Math.exp));
      let error = 0;
      for (let i = 0; i <= 1000; i++) error = Math.max(error, Math.abs(monotoneCubicAt(exponential, i / 1000) - Math.exp(i / 1000)));
      return error;
    };
    expect(Math.log2(worst(20) / worst(40))).toBeGreaterThan(2.9);
  });

  it('refuses tables that do not rise, do not match or miss a number, and places outside', () => {
    expect(() => monotoneCubic([0, 1, 1], [0, 1, 2])).toThrow(/must rise, but 1 follows 1/);
    expect(() => monotoneCubic([0, 1], [0, 1, 2])).toThrow(/2 x and 3 y/);
    expect(() => monotoneCubic([0], [0])).toThrow(RangeError);
    expect(() => monotoneCubic([0, 1], [0, Number.NaN])).toThrow(/Point 2/);
    expect(() => monotoneCubicAt(cubic, 5.1)).toThrow(RangeError);
    expect(() => monotoneCubicAt(cubic, -0.1)).toThrow(RangeError);
  });
});
