import { localMaximum, maximumOnStep } from '@shaftwork/sim-core/numerics/extremes';
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import type { OdeSystem, StepView } from '@shaftwork/sim-core/numerics/ode-system';
import { describe, expect, it } from 'vitest';

const curve = (from: number, to: number, f: (t: number) => number): StepView => ({
  from,
  to,
  start: Float64Array.of(f(from)),
  end: Float64Array.of(f(to)),
  at: (t, into) => {
    into[0] = f(t);
  },
});
const first = (_: number, y: Float64Array) => y[0]!;

describe('localMaximum', () => {
  it.each([
    ['parabola', (x: number) => 3 - (x - 0.3) ** 2, -1, 2, 0.3],
    ['sine', Math.sin, 0, 3, Math.PI / 2],
    ['kink', (x: number) => -Math.abs(x - 0.77), 0, 1, 0.77],
    ['flat peak', (x: number) => -((x - 0.4) ** 6), 0, 1, 0.4],
  ])('finds the peak of a %s', (name, f, lo, hi, at) => {
    const peak = localMaximum(f, lo, hi, 1e-8);
    // a peak of sixth order is flat to rounding within (10⁻¹⁶)^(1/6) of it
    expect(Math.abs(peak.at - at)).toBeLessThan(name === 'flat peak' ? 5e-3 : 5e-8);
    expect(peak.value).toBeCloseTo(f(at), name === 'kink' ? 7 : 14);
  });

  it('needs few evaluations on a smooth function', () => {
    let count = 0;
    const counted = (x: number) => {
      count++;
      return Math.sin(x);
    };
    localMaximum(counted, 0, 3, 1e-7);
    expect(count).toBeLessThan(15);
  });

  it('refuses NaN and empty intervals', () => {
    expect(() => localMaximum(() => Number.NaN, 0, 1, 1e-6)).toThrow(/not a number/);
    expect(() => localMaximum(Math.sin, 1, 0, 1e-6)).toThrow(RangeError);
  });
});

describe('maximumOnStep', () => {
  const work = new Float64Array(1);

  it('finds a peak inside, at either end and just beside one', () => {
    for (const peak of [0.02, 0.3, 0.5, 0.99]) {
      const found = maximumOnStep(
        curve(0, 1, (t) => 5 - (t - peak) ** 2),
        first,
        work,
      );
      expect(found.at).toBeCloseTo(peak, 5);
      expect(found.value).toBeCloseTo(5, 12);
    }
    expect(maximumOnStep(curve(2, 4, Math.exp), first, work)).toEqual({ at: 4, value: Math.exp(4) });
    expect(
      maximumOnStep(
        curve(2, 4, (t) => Math.exp(-t)),
        first,
        work,
      ),
    ).toEqual({ at: 2, value: Math.exp(-2) });
    expect(
      maximumOnStep(
        curve(2, 4, () => 7),
        first,
        work,
      ).value,
    ).toBe(7);
  });

  it('finds the peak of the inner node after the drive has stopped, from dense output alone', () => {
    // two bodies: x' = −2x, y' = x − y, x(0) = 1, y(0) = 0: y = e^(−t) − e^(−2t), peak ¼ at t = ln 2
    const pair: OdeSystem = {
      dimension: 2,
      eventCount: 0,
      derivative: (_, y, dy) => {
        dy[0] = -2 * y[0]!;
        dy[1] = y[0]! - y[1]!;
      },
    };
    const state = new Float64Array(2);
    let best = { at: 0, value: 0 };
    integrate(pair, 'dormand-prince', { relative: 1e-10, absolute: Float64Array.of(1e-12, 1e-12) }, 0, Float64Array.of(1, 0), 5, (step) => {
      const here = maximumOnStep(step, (_, y) => y[1]!, state);
      if (here.value > best.value) best = here;
    });
    expect(best.value).toBeCloseTo(0.25, 9);
    expect(best.at).toBeCloseTo(Math.LN2, 4);
  });

  it('refuses NaN', () => {
    expect(() =>
      maximumOnStep(
        curve(0, 1, () => Number.NaN),
        first,
        work,
      ),
    ).toThrow(/not a number/);
  });
});
