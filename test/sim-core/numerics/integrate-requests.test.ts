/** What is asked of an integration: what is refused, in words, and what just passes. */
import { dormandPrinceWorkspace } from '@shaftwork/sim-core/numerics/dormand-prince';
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import type { OdeSystem, Tolerances } from '@shaftwork/sim-core/numerics/ode-system';
import { describe, expect, it } from 'vitest';

const decay: OdeSystem = {
  dimension: 2,
  eventCount: 0,
  derivative: (_, y, dy) => {
    dy[0] = -y[0];
    dy[1] = -2 * y[1];
  },
};
const fine: Tolerances = { relative: 1e-8, absolute: Float64Array.of(1e-8, 1e-8) };
const run = (more: Partial<Tolerances> = {}, t0 = 0, t1 = 1, system = decay, y = Float64Array.of(1, 1)) =>
  integrate(system, 'dormand-prince', { ...fine, ...more }, t0, y, t1);
const { POSITIVE_INFINITY, NEGATIVE_INFINITY, NaN: NONE } = Number;

describe('an integration', () => {
  it.each([
    [0, POSITIVE_INFINITY],
    [NEGATIVE_INFINITY, 0],
    [NONE, 1],
    [0, NONE],
    [1, 0.999],
  ])('from %d to %d is refused', (from, to) => {
    expect(() => run({}, from, to)).toThrow(
      new RangeError(`An integration runs forward between finite times, not from ${from} s to ${to} s.`),
    );
  });

  it.each([
    [3, 2],
    [1, 2],
    [2, 1],
    [2, 3],
  ])('of two states with %d values and %d tolerances is refused', (values, tolerances) => {
    expect(() => run({ absolute: new Float64Array(tolerances).fill(1e-6) }, 0, 1, decay, new Float64Array(values))).toThrow(
      new RangeError(`A system of 2 states was given ${values} initial values and ${tolerances} tolerances.`),
    );
  });

  const said = 'The relative tolerance must not be negative and every absolute tolerance must be positive.';
  it.each<[Partial<Tolerances>, string]>([
    [{ relative: -1e-9 }, said],
    [{ relative: NONE }, said],
    [{ absolute: Float64Array.of(1e-6, 0) }, said],
    [{ absolute: Float64Array.of(-1e-6, 1e-6) }, said],
    [{ largestStep: 0 }, 'A limit on steps must be positive, not 0.'],
    [{ largestStep: NONE }, 'A limit on steps must be positive, not NaN.'],
    [{ mostSteps: -3 }, 'A limit on steps must be positive, not -3.'],
    [{ firstStep: -1e-9 }, 'A first step must not be negative, but is -1e-9.'],
    [{ firstStep: NONE }, 'A first step must not be negative, but is NaN.'],
  ])('with %j is refused', (more, words) => {
    expect(() => run(more)).toThrow(new RangeError(words));
  });

  it('with events must tell their margins, without needs none', () => {
    expect(() => run({}, 0, 1, { ...decay, eventCount: 1 })).toThrow(new RangeError('A system with events must tell their margins.'));
    expect(run({}, 0, 1, { ...decay, margins: () => {} }).reason).toBe('end');
  });

  it.each<Partial<Tolerances>>([{ relative: 0 }, { firstStep: 0 }, { largestStep: 1e-2 }, { mostSteps: 1000 }])(
    'with %j is done',
    (more) => {
      const y = Float64Array.of(1, 1);
      const outcome = run(more, 0, 1, decay, y);
      expect(outcome).toMatchObject({ time: 1, reason: 'end', crossed: [] });
      expect(outcome.event).toBeUndefined();
      expect(y[0]).toBeCloseTo(Math.exp(-1), 7);
      expect(y[1]).toBeCloseTo(Math.exp(-2), 7);
    },
  );

  it('over no time carries the step it was given', () => {
    expect(run({ firstStep: 0.25 }, 2, 2)).toMatchObject({ time: 2, reason: 'end', nextStep: 0.25, steps: 0, rejected: 0, stiff: false });
    expect(run({}, 2, 2).nextStep).toBe(0);
  });
});

it('a workspace remembers what has just fired of the system it watched, and nothing of another', () => {
  // asked again the margin is a rounding above nought where it fell
  let shift = 0;
  const clock = (): OdeSystem => ({
    dimension: 1,
    eventCount: 1,
    derivative: (_, __, dy) => dy.fill(1),
    margins: (_, y, out) => out.fill(0.5 + shift - y[0]),
  });
  const tolerances = { relative: 1e-8, absolute: Float64Array.of(1e-8) };
  const [first, second] = [clock(), clock()];
  const workspace = dormandPrinceWorkspace(1);
  const go = (system: OdeSystem, from: number) =>
    integrate(system, 'dormand-prince', tolerances, from, Float64Array.of(from), 1, undefined, workspace);
  const fell = go(first, 0);
  expect(fell).toMatchObject({ reason: 'event', event: 0, time: expect.closeTo(0.5, 9) });
  shift = 5e-10;
  expect(go(first, fell.time).reason).toBe('end');
  expect(go(second, fell.time)).toMatchObject({ reason: 'event', time: expect.closeTo(0.5 + 5e-10, 11) });
});
