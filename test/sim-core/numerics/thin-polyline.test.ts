import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { polylineDeviation, thinPolyline } from '@shaftwork/sim-core/numerics/thin-polyline';
import { describe, expect, it } from 'vitest';

const times = (count: number, spacing = 0.1) => Float64Array.from({ length: count }, (_, k) => k * spacing);

describe('fewer points for curves', () => {
  it('keeps the corners of straight pieces and nothing else', () => {
    const time = times(301);
    const curve = time.map((t) => (t < 10 ? t : t < 20 ? 10 : 10 - 0.5 * (t - 20)));
    const kept = thinPolyline(time, [curve], [1e-9]);
    expect([...kept].map((k) => Math.round(time[k]!))).toEqual([0, 10, 20, 30]);
  });
  it('is never farther from a dropped point than asked, in any curve', () => {
    const random = seededRandom(5, 1);
    for (let trial = 0; trial < 30; trial++) {
      const time = times(2000).map((t) => t + 0.04 * random.fraction());
      const wave = time.map((t) => Math.sin(t / (1 + trial)) + 0.02 * random.fraction());
      const jumps = time.map((t) => (Math.floor(t / 7) % 2 === 0 ? 0 : 5));
      const tolerances = [0.01 * (1 + trial), 0.1];
      const kept = thinPolyline(time, [wave, jumps], tolerances);
      expect(kept[0]).toBe(0);
      expect(kept.at(-1)).toBe(1999);
      expect(kept.length).toBeLessThan(1900);
      expect(polylineDeviation(time, wave, kept).largest).toBeLessThanOrEqual(tolerances[0]! * (1 + 1e-6));
      expect(polylineDeviation(time, jumps, kept).largest).toBeLessThanOrEqual(tolerances[1]! * (1 + 1e-6));
    }
  });
  it('keeps of a straight line its ends and every four thousandth point, however uneven the times', () => {
    const time = times(9001).map((t, k) => t + 0.03 * Math.sin(k));
    const line = time.map((t) => 0.1 * t - 7);
    expect([...thinPolyline(time, [line], [1e-6])]).toEqual([0, 4000, 8000, 9000]);
    expect([...thinPolyline(time.slice(0, 4001), [line.slice(0, 4001)], [1e-6])]).toEqual([0, 4000]);
  });
  it('keeps the corner of whichever curve has one, to each one’s own tolerance', () => {
    const time = times(61);
    const corner = (at: number, height: number): Float64Array => time.map((_, k) => height * Math.max(0, k - at));
    const kept = (tolerances: readonly number[]): number[] => [...thinPolyline(time, [corner(20, 1), corner(45, 1)], tolerances)];
    expect(kept([1e-9, 1e-9])).toEqual([0, 20, 45, 60]);
    expect(kept([1e3, 1e-9])).toEqual([0, 45, 60]);
    expect(kept([1e-9, 1e3])).toEqual([0, 20, 60]);
    // falling as rising
    expect([...thinPolyline(time, [corner(20, -1), corner(45, -1)], [1e-9, 1e-9])]).toEqual([0, 20, 45, 60]);
  });
  it('tells the largest deviation and the mean, piece by piece', () => {
    // a triangle of height 1 over 0 … 2 and one of −3 over 2 … 6, both left out: areas 1 and −6 of 8 s
    const time = Float64Array.of(0, 1, 2, 4, 6, 8);
    const { largest, mean } = polylineDeviation(time, Float64Array.of(0, 1, 0, -3, 0, 0), Int32Array.of(0, 2, 4, 5));
    expect([largest, mean]).toEqual([3, expect.closeTo(5 / 8, 12)]);
  });
  it('never drops a marked point', () => {
    const keep = new Uint8Array(50);
    keep[17] = 1;
    expect([...thinPolyline(times(50), [new Float64Array(50)], [1], keep)]).toEqual([0, 17, 49]);
  });
  it('tells the mean deviation with its sign', () => {
    const time = Float64Array.of(0, 1, 2);
    const { largest, mean } = polylineDeviation(time, Float64Array.of(0, 1, 0), Int32Array.of(0, 2));
    expect(largest).toBe(1);
    expect(mean).toBeCloseTo(-0.5, 12);
  });
  it('refuses a single point', () => {
    expect(() => thinPolyline(times(1), [times(1)], [1])).toThrow(/two points/);
  });
});
