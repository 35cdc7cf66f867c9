/** Small rules at the ends of numerical methods: slopes at a table's end, the step carried on, the error of a share. */
import { additiveFit, bentDegree, firstOrderShare, fitInputs } from '@shaftwork/sim-core/numerics/additive-fit';
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import { monotoneCubic } from '@shaftwork/sim-core/numerics/interpolation';
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import type { OdeSystem } from '@shaftwork/sim-core/numerics/ode-system';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { describe, expect, it } from 'vitest';

describe('slope at the end of a table: that of the parabola through three points (Moler 2004, section 3.6)', () => {
  it.each([
    ['gently bent', [0, 1, 0.5], 1.75],
    ['level next', [0, 1, 1], 1.5],
    ['turned back so far that it would pass three times the first rise', [0, 1, -5], 3],
    ['steepening so much that it would fall first', [0, 1, 9], 0],
    ['falling', [0, -1, 5], -3],
  ])('%s', (_, y, slope) => {
    expect(monotoneCubic([0, 1, 2], y).slope[0]).toBeCloseTo(slope, 12);
    expect(monotoneCubic([-2, -1, 0], y.toReversed()).slope[2]).toBeCloseTo(-slope, 12);
  });

  it('on unequal widths: ((2h₀ + h₁)·δ₀ − h₀·δ₁)/(h₀ + h₁)', () => {
    // h 1 and 3, δ 2 and 1: (5·2 − 1)/4
    expect(monotoneCubic([0, 1, 4], [0, 2, 5]).slope[0]).toBeCloseTo(2.25, 12);
  });
});

it.each(['odex', 'dormand-prince'] as const)('%s carries on the longer step where its last was cut short by the end', (method) => {
  const oscillator: OdeSystem = {
    dimension: 2,
    eventCount: 0,
    derivative: (_, y, dy) => {
      dy[0] = y[1];
      dy[1] = -y[0];
    },
  };
  const steps: number[] = [];
  const tolerances = { relative: 1e-3, absolute: Float64Array.of(1e-3, 1e-3), firstStep: 0.25, largestStep: 0.25 };
  const { nextStep } = integrate(oscillator, method, tolerances, 0, Float64Array.of(1, 0), 1.06, (step) => steps.push(step.to - step.from));
  expect(steps.at(-1)).toBeLessThan(0.15);
  expect(nextStep).toBeGreaterThan(0.2);
});

describe('shares of an additive fit', () => {
  const fit = {
    mean: 0,
    variance: 8,
    noise: 2,
    effects: new Map([
      [0, Float64Array.of(3, -1, -1, -1)],
      [2, Float64Array.of(1, 1, -1, -1)],
    ]),
    terms: new Map([
      [0, 1],
      [2, 3],
    ]),
  };

  it('(2) and (3): variance explained less what noise gives, √(4·S·ρ/n + 2·m·ρ²/n²)', () => {
    // the mean square of 3, −1, −1, −1 is 3; ρ 0.25
    const share = 3 / 8 - 0.25 / 4;
    expect(firstOrderShare(fit, [0], 4).share).toBeCloseTo(share, 12);
    expect(firstOrderShare(fit, [0], 4).error).toBeCloseTo(Math.sqrt((4 * share * 0.25) / 4 + (2 * 0.0625) / 16), 12);
    // both together: 4, 0, −2, −2
    const both = 6 / 8 - (4 * 0.25) / 4;
    expect(firstOrderShare(fit, [0, 1, 2], 4).share).toBeCloseTo(both, 12);
    expect(firstOrderShare(fit, [0, 2], 4).error).toBeCloseTo(Math.sqrt((4 * both * 0.25) / 4 + (2 * 4 * 0.0625) / 16), 12);
  });

  it('nothing of what does not stand out, and never less than nothing', () => {
    expect(firstOrderShare(fit, [1], 4)).toEqual({ share: 0, error: 0 });
    expect(firstOrderShare({ ...fit, variance: 0 }, [0], 4)).toEqual({ share: 0, error: 0 });
    expect(firstOrderShare({ ...fit, noise: 80 }, [2], 4).share).toBe(0);
  });

  it('a mean of the effects is no share', () => {
    const lifted = { ...fit, effects: new Map([[0, Float64Array.of(5, 1, 1, 1)]]) };
    expect(firstOrderShare(lifted, [0], 4).share).toBeCloseTo(firstOrderShare(fit, [0], 4).share, 12);
  });

  it('degrees grow with the cube root of the sample, from two to ten', () => {
    expect([3, 27, 64, 999, 1000, 1e6].map(bentDegree)).toEqual([2, 3, 4, 9, 10, 10]);
  });

  it('of forty useless inputs one is chosen in ten fits at most, and one that matters is found beside them', () => {
    const [n, inputs, seeds] = [120, 40, 30];
    let chosen = 0;
    let found = 0;
    for (let seed = 0; seed < seeds; seed++) {
      const random = seededRandom(seed, 5);
      const u = Array.from({ length: inputs }, () => Float64Array.from({ length: n }, random.fraction));
      const noise = Float64Array.from({ length: n }, () => inverseNormal(random.fraction()));
      const ready = fitInputs(u);
      chosen += additiveFit(ready, noise).effects.size;
      // a correlation of 0.55: its gain is some fifty times the noise of one term
      const fitted = additiveFit(
        ready,
        noise.map((each, i) => each + 0.65 * inverseNormal(u[7][i])),
      );
      found += fitted.effects.has(7) ? 1 : 0;
      if (fitted.effects.size === 1 && fitted.terms.get(7) === 1) {
        // a sum of squares over what is left of the numbers: σ² = 1
        expect(fitted.noise).toBeGreaterThan(0.6);
        expect(fitted.noise).toBeLessThan(1.5);
      }
    }
    expect(chosen / seeds).toBeLessThan(0.4);
    expect(found).toBe(seeds);
  });
});
