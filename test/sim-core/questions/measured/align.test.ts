/** Clocks of made-up curves: correlations against Pearson's formula over the raw samples, beginnings to a fortieth of a step, ties and rivals. */
import { alignClocks, type Curve, correlationAt } from '@shaftwork/sim-core/questions/measured/align';
import { describe, expect, it } from 'vitest';

const N = 4000;
/** Ups and downs without a period. */
const wild = (k: number): number => ((k * k * 7919 + k * 104_729) % 1009) / 1009;
const curve = (from: number, values: readonly number[]): Curve => ({ time: values.map((_, k) => from + k), values });
/** Pearson's r by its definition: products of what each lies off its mean. */
function pearson(pairs: readonly (readonly [number, number])[]): number {
  const [mx, my] = [0, 1].map((c) => pairs.reduce((sum, pair) => sum + pair[c], 0) / pairs.length);
  const sum = (of: (x: number, y: number) => number): number => pairs.reduce((all, [x, y]) => all + of(x - mx, y - my), 0);
  return sum((x, y) => x * y) / Math.sqrt(sum((x) => x * x) * sum((_, y) => y * y));
}

describe('a correlation', () => {
  const p = Array.from({ length: N + 1 }, (_, k) => wild(k));
  const m = Array.from({ length: N + 1 }, (_, k) => 3 + 2 * wild(k) + wild(k + 5000));
  const [run, log] = [curve(0, p), curve(50, m)];
  /** Of m(t + b) and p(t) at whole shifts, by the samples themselves. */
  const byHand = (shift: number, of = m): number =>
    pearson(p.flatMap((x, k) => (of[k + shift] === undefined ? [] : [[of[k + shift], x] as const])));

  it.each([0, 1, 700, -700, 2001, -2001])('is Pearson’s, of a log %d s earlier', (shift) => {
    expect(correlationAt(log, run, 50 + shift)).toBeCloseTo(byHand(shift), 10);
  });
  it('asks for half of the shorter, and for three points', () => {
    // 2000 of 4001 points are half of 4000 s, 1999 are not
    expect(correlationAt(log, run, 50 + 2001)).not.toBeNaN();
    expect(correlationAt(log, run, 50 + 2002)).toBeNaN();
    const short = curve(0, [1, 5, 2, 4, 3]);
    expect(correlationAt(log, short, 48)).toBeCloseTo(
      pearson([
        [m[0], 2],
        [m[1], 4],
        [m[2], 3],
      ]),
      10,
    );
    expect(correlationAt(log, short, 47)).toBeNaN();
    // the other way round it is the log that is short
    expect(correlationAt(curve(0, [1, 5, 2, 4, 3]), run, -10)).toBeCloseTo(pearson([1, 5, 2, 4, 3].map((x, k) => [x, p[k + 10]])), 10);
  });
  it('lies straight between samples, over gaps too, and not beyond the ends', () => {
    const half = p.slice(0, N).map((x, k) => [0.5 * (m[k] + m[k + 1]), x] as const);
    expect(correlationAt(log, run, 50.5)).toBeCloseTo(pearson(half), 10);
    const gaps = m.map((each, k) => (k === 0 || k === 100 || k === 101 || k === N ? Number.NaN : each));
    const bridged = m.map((each, k) => (k === 100 ? (2 * m[99] + m[102]) / 3 : k === 101 ? (m[99] + 2 * m[102]) / 3 : each));
    const inside = p.flatMap((x, k) => (k === 0 || k === N ? [] : [[bridged[k], x] as const]));
    expect(correlationAt(curve(50, gaps), run, 50)).toBeCloseTo(pearson(inside), 10);
  });
  it('is none with what never changes, whatever rounding leaves of it', () => {
    const flat = p.map(() => 300.1);
    expect(correlationAt(curve(50, flat), run, 50)).toBeNaN();
    expect(correlationAt(log, curve(0, flat), 50)).toBeNaN();
  });
});

describe('a beginning', () => {
  /** Faster and faster: like itself at no other time. */
  const smooth = (t: number): number => (t < -50 || t > 150 ? 0 : Math.sin(0.1 * t + 0.004 * t * t));
  const sampled = (from: number, to: number, of: (t: number) => number): Curve => {
    const time = Array.from({ length: Math.round(10 * (to - from)) + 1 }, (_, k) => from + k / 10);
    return { time, values: time.map(of) };
  };
  const run = sampled(0, 100, smooth);

  // a coarse step is a four hundredth of the longer
  it.each([
    [137.3, 0, 400],
    [251.77, 0, 400],
    [-20.6, 0, 400],
    [331.2, 0, 400],
    [1000.45, 960, 1360],
  ])('at %d s is found to a thirtieth of a coarse step', (begins, from, to) => {
    const found = alignClocks(
      sampled(from, to, (t) => 5 + 20 * smooth(t - begins)),
      run,
    );
    expect(Math.abs((found?.begins ?? 0) - begins)).toBeLessThan(1 / 25);
    expect(found?.correlation).toBeGreaterThan(0.999);
  });
  it('before a short log is found as well', () => {
    const found = alignClocks(
      sampled(500, 560, (t) => smooth(t - 480.2)),
      run,
    );
    expect(Math.abs((found?.begins ?? 0) - 480.2)).toBeLessThan(0.02);
    expect(found?.correlation).toBeGreaterThan(0.9999);
  });

  it('of equals is the first, and the next is told', () => {
    const p = Array.from({ length: 101 }, (_, k) => Math.round(40 * wild(k)));
    const log = curve(
      0,
      Array.from({ length: 401 }, (_, k) => p[k] ?? p[k - 150] ?? p[k - 300] ?? 0),
    );
    const found = alignClocks(log, curve(0, p));
    expect([found?.begins, found?.alike]).toEqual([0, 150]);
    expect(found?.correlation).toBeCloseTo(1, 12);
  });
  it('is another one only beyond three hundredths of the run', () => {
    const bump = (t: number): number => Math.exp(-(((t - 50) / 40) ** 2));
    const log = sampled(0, 400, (t) => bump(t - 150));
    expect([147, 153].map((begins) => correlationAt(log, sampled(0, 100, bump), begins) > 0.981)).toEqual([true, true]);
    expect(alignClocks(log, sampled(0, 100, bump))).toEqual({ begins: 150, correlation: expect.closeTo(1, 9) });
  });
});
