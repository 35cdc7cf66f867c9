/** What steps the exponential method takes, and what it shows of them, where both have a closed form. */
import { exponentialRosenbrock } from '@shaftwork/sim-core/numerics/exponential-rosenbrock';
import { describe, expect, it } from 'vitest';

const even = (n: number, x: number) => new Float64Array(n).fill(x);
type Law = (x: Float64Array, rate: Float64Array) => void;
const single =
  (law: (x: number) => number): Law =>
  (x, rate) => {
    rate[0] = law(x[0]);
  };
/** A method with the number of times that its law was asked. */
const counting = (n: number, law: Law, increment: number, tolerance: Float64Array) => {
  const asked = { times: 0 };
  const method = exponentialRosenbrock(
    n,
    (x, rate) => {
      asked.times++;
      law(x, rate);
    },
    even(n, increment),
    tolerance,
  );
  return { method, asked };
};
const lengthsOf = (method: ReturnType<typeof exponentialRosenbrock>, x: Float64Array, duration: number): number[] => {
  const lengths: number[] = [];
  method.advance(x, duration, ({ from, to }) => {
    lengths.push(to - from);
    return true;
  });
  return lengths;
};

describe('a linear law', () => {
  const decay: Law = (x, rate) => {
    rate[0] = -0.5 * x[0] + 0.2 * x[1];
    rate[1] = -0.1 * x[1];
  };

  it('is asked n + 1 times for its slopes and twice more, in one step', () => {
    const { method, asked } = counting(2, decay, 1e-3, even(2, 1e-3));
    expect(lengthsOf(method, Float64Array.of(3, 4), 50)).toEqual([50]);
    expect(asked.times).toBe(5);
  });

  it.each([
    // after 0.01: five times as long each, the last one up to a fifth longer
    [0.31 + 1.25, [0.01, 0.05, 0.25, 1.25]],
    [0.31 + 1.25 * 1.19, [0.01, 0.05, 0.25, 1.25 * 1.19]],
    [0.31 + 1.25 * 1.21, [0.01, 0.05, 0.25, 1.25, 0.21 * 1.25]],
    [0.004, [0.004]],
    [0.0119, [0.0119]],
    [0.0125, [0.01, 0.0025]],
  ])('grows its step fivefold from the last one of the call before, to %d', (duration, lengths) => {
    const { method } = counting(2, decay, 1e-3, even(2, 1e-3));
    const x = Float64Array.of(3, 4);
    method.advance(x, 0.01);
    expect(lengthsOf(method, x, duration)).toEqual(lengths.map((each) => expect.closeTo(each, 12)));
  });

  it('ends where it is told to, with the state and the rates of that time', () => {
    const { method } = counting(2, decay, 1e-3, even(2, 1e-3));
    const x = Float64Array.of(3, 4);
    method.advance(x, 0.01);
    let steps = 0;
    const began = [...x];
    const reached = method.advance(x, 9, ({ from, to, start, end, startRate, endRate }) => {
      const rate = even(2, 0);
      decay(start, rate);
      expect([...startRate]).toEqual([...rate]);
      decay(end, rate);
      expect([...endRate]).toEqual([...rate]);
      if (from === 0) expect([...start]).toEqual(began);
      expect(to).toBeGreaterThan(from);
      return ++steps < 2;
    });
    expect(reached).toBeCloseTo(0.06, 12);
    // x₁ = 4·e^(−0.1t), x₀ = 2·e^(−0.1t) + e^(−0.5t)
    expect(x[0]).toBeCloseTo(2 * Math.exp(-0.007) + Math.exp(-0.035), 9);
    expect(x[1]).toBeCloseTo(4 * Math.exp(-0.007), 9);
  });

  it('at rest stays, to the last digit', () => {
    const { method } = counting(2, (_, rate) => rate.fill(0), 1e-3, even(2, 1e-3));
    const [x, propagator] = [Float64Array.of(3, 4), Float64Array.of(1, 0, 0, 1)];
    expect(method.advance(x, 10, undefined, propagator)).toBe(10);
    expect([...x, ...propagator]).toEqual([3, 4, 1, 0, 0, 1]);
  });
});

describe('a law that bends', () => {
  const bent = (x: number): number => -x * x;
  /** (1) of one state, J = −2x. */
  const middleOf = (x: number, h: number): number => x + ((Math.exp(-2 * x * h) - 1) / (-2 * x)) * bent(x);
  const third = (z: number): number => (Math.exp(z) - 1 - z - z ** 2 / 2) / z ** 3;

  it('steps end where (1) to (3) say, and the next is 0.9·∛(4/error) of it, five times at most', () => {
    const tolerance = 1e-4;
    const { method, asked } = counting(1, single(bent), 1e-7, even(1, tolerance));
    const x = even(1, 4);
    const seen: { h: number; error: number }[] = [];
    method.advance(x, 3, ({ from, to, start, end }) => {
      const [before, h] = [start[0], to - from];
      const u = middleOf(before, h);
      const defect = bent(u) - bent(before) + 2 * before * (u - before);
      const error = (h * Math.abs(defect)) / tolerance > 0.1 ? 2 * h * third(-2 * before * h) * defect : 0;
      expect(end[0]).toBeCloseTo(u + error, 8);
      seen.push({ h, error: Math.abs(error) / tolerance });
      return true;
    });
    expect(x[0]).toBeCloseTo(1 / (3 + 0.25), 3);
    seen.slice(1, -1).forEach(({ h }, k) => {
      expect(h / (seen[k].h * Math.min(5, 0.9 * Math.cbrt(4 / Math.max(seen[k].error, 0.01))))).toBeCloseTo(1, 4);
    });
    for (const { error } of seen) expect(error).toBeLessThan(4);
    // four a step; each refusal asks once more, as many as from 3 s down to the first step
    expect(asked.times - 4 * seen.length).toBeLessThanOrEqual(5);
  });

  it('what is refused is tried again at 0.9·∛(4/error) of it, a tenth at least', () => {
    const tried: number[] = [];
    let slopes = 0;
    const method = exponentialRosenbrock(
      1,
      (x, rate) => {
        if (x[0] !== 1 && Math.abs(x[0] - 1) > 1e-6) tried.push(x[0]);
        else slopes++;
        rate[0] = bent(x[0]);
      },
      even(1, 1e-7),
      even(1, 1e-5),
    );
    let first = 0;
    method.advance(even(1, 1), 5, ({ to }) => {
      first = to;
      return false;
    });
    expect(slopes).toBe(2);
    // where each try lay: u of the length that was tried
    const lengthOf = (u: number): number => -Math.log(1 - 2 * (1 - u)) / 2;
    const lengths = tried.slice(0, -1).map(lengthOf);
    expect(lengths[0]).toBeCloseTo(5, 2);
    expect(lengths.at(-1)).toBeCloseTo(first, 6);
    lengths.slice(1).forEach((h, k) => {
      const [before, u] = [lengths[k], tried[k]];
      const error = Math.abs(2 * before * third(-2 * before) * (bent(u) + 1 + 2 * (u - 1))) / 1e-5;
      expect(error).toBeGreaterThan(4);
      expect(h / (before * Math.max(0.1, 0.9 * Math.cbrt(4 / error)))).toBeCloseTo(1, 3);
    });
  });

  it('gives up, with NaN, after two thousand tries', () => {
    const { method } = counting(
      1,
      single((x) => 2 + Math.sin(40 * x)),
      1e-9,
      even(1, 1e-7),
    );
    expect(method.advance(even(1, 0), 1e4)).toBeNaN();
  });
});

describe('where the quotients lead nowhere', () => {
  /** A corner at 0.5, no law from 0.98 to 0.99, a jump at 1. */
  const torn = (x: number): number => (x > 0.98 && x < 0.99 ? Number.NaN : x < 0.98 ? Math.abs(x - 0.5) : x < 1 ? 1 : 1001);
  it('on either side it gives up, with NaN, and looks forward again the next time', () => {
    const { method } = counting(1, single(torn), 0.01, even(1, 1e-3));
    expect(method.advance(even(1, 0.995), 100)).toBeNaN();
    method.linearise(even(1, 0.5), even(1, 0));
    expect(method.jacobian[0]).toBeCloseTo(1, 9);
  });

  it('forward, it looks back, for that step alone', () => {
    const { method } = counting(
      1,
      single((x) => (x < 0.98 ? Math.abs(x - 0.5) : x < 1 ? 1 : 1001)),
      0.01,
      even(1, 1e-3),
    );
    expect(method.advance(even(1, 0.995), 1e-3, () => false)).toBeGreaterThan(0);
    method.linearise(even(1, 0.5), even(1, 0));
    expect(method.jacobian[0]).toBeCloseTo(1, 9);
  });

  it('no number where it steps to makes it try a quarter of the way', () => {
    const tried: number[] = [];
    const method = exponentialRosenbrock(
      1,
      single((x) => {
        tried.push(x);
        return x > 1 ? Number.NaN : 2;
      }),
      even(1, 1e-3),
      even(1, 1e-3),
    );
    method.advance(even(1, 0), 6, () => false);
    // at 0 and beside it, then 12, 3 and 0.75
    expect(tried.slice(0, 5)).toEqual([0, 1e-3, 12, 3, 0.75].map((each) => expect.closeTo(each, 9)));
  });
});
