/** What a run notes of its steps, by moments set by hand; extremes by curves set by hand; energy and looks by runs of seconds. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import type { ProfileStep } from '@shaftwork/sim-core/drive/profile';
import type { Kernel } from '@shaftwork/sim-core/kernel/kernel';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { emptyOperatingPoint, type OperatingPoint } from '@shaftwork/sim-core/kernel/operating-point';
import type { StepView } from '@shaftwork/sim-core/numerics/ode-system';
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { extremesWatch, largest } from '@shaftwork/sim-core/questions/simulate/extremes-watch';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { runNotebook } from '@shaftwork/sim-core/questions/simulate/step-notes';
import { watchSystem } from '@shaftwork/sim-core/questions/simulate/watch';
import { CHANNEL_IDS } from '@shaftwork/sim-core/results/channels';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, type Section, WING } from '../../provenance/drives.js';

const of = (more: Section = {}): DriveSystem => realise(dataOf(more));
const CAR: Section = { propeller: 'none', wheel: { radius: '40 mm', grip: 0.8 }, vehicle: { mass: '2 kg' } };
const PLANE: Section = { vehicle: { mass: '1 kg', wing: WING } };
const held = (hold: ProfileStep['hold'], value: number, more: Partial<ProfileStep> = {}): ProfileStep =>
  ({ duration: 10, hold, value: { from: value, to: value }, ...more }) as ProfileStep;

function notebook(system: DriveSystem, heldSpeed = Number.NaN) {
  const point: OperatingPoint = { ...emptyOperatingPoint(), duty: 0.5, limit: Number.POSITIVE_INFINITY };
  const kernel = { point, at: { controller: 0 }, heldSpeed: () => heldSpeed, share: () => 0.5 } as Pick<
    Kernel,
    'point' | 'heldSpeed' | 'share'
  > & { at: { controller: number } } as Kernel;
  return { point, book: runNotebook(kernel, system) };
}
const cold = Float64Array.of(290);

describe('a hold that is lost', () => {
  it.each<readonly [ProfileStep['hold'], Partial<OperatingPoint>, number]>([
    ['shaftSpeed', { speed: 700 }, 700],
    ['motorCurrent', { current: 31 }, 31],
    ['thrust', { force: 7 }, 7],
    ['batteryPower', { busVoltage: 11, packCurrent: 20 }, 220],
    ['batteryCurrent', { packCurrent: 22 }, 22],
    ['throttle', { duty: 0.9 }, 0.9],
  ])('of %s reaches what the point gives of it', (hold, more, reached) => {
    const { point, book } = notebook(of());
    Object.assign(point, more);
    // half way up a ramp from 10 to 20
    const step = { ...held(hold, 0), value: { from: 10, to: 20 } } as ProfileStep;
    book.lose(step, 3, 5, 0);
    expect(book.notes.lost).toEqual([{ step: 3, time: 5, wanted: 15, reached, climb: false }]);
    book.reach(step, 3, 10, 0);
    expect(book.notes.lost).toEqual([{ step: 3, time: 5, until: 10, wanted: 20, reached, climb: false }]);
    // another step's end is not this one's
    book.reach(step, 4, 20, 0);
    expect(book.notes.lost[0].until).toBe(10);
  });

  it('of speed reaches the speed, of what was held then; nothing is reached where nothing was lost', () => {
    const { book } = notebook(of(boat()), 3);
    const ramp = { ...held('vehicleSpeed', 3), value: { from: 2, to: 4 } } as ProfileStep;
    book.reach(ramp, 0, 5, 2.5);
    expect(book.notes.lost).toEqual([]);
    book.lose(ramp, 0, 5, 2.5);
    expect(book.notes.lost).toEqual([{ step: 0, time: 5, wanted: 3, reached: 2.5, climb: false }]);
  });

  it('of a wing’s climb is the climb that its speed leaves', () => {
    const { point, book } = notebook(of(PLANE), 12);
    point.climb = 0.25;
    const step = held('vehicleSpeed', 12, { climb: { from: 4, to: 5 } } as Partial<ProfileStep>);
    book.lose(step, 1, 6, 12);
    expect(book.notes.lost).toEqual([{ step: 1, time: 6, wanted: 5, reached: 3, climb: true }]);
    point.climb = 0.3;
    book.reach(step, 1, 10, 12);
    expect(book.notes.lost).toEqual([{ step: 1, time: 6, until: 10, wanted: 5, reached: expect.closeTo(3.6, 12), climb: true }]);
  });
});

describe('a limiter', () => {
  const controller = (more: Partial<DriveSystem['controller']>) => {
    const system = of();
    return {
      ...system,
      controller: { ...system.controller, motorCurrentLimit: 40, batteryCurrentLimit: 25, deratingFrom: 360, deratingTo: 380, ...more },
    };
  };
  const limited = (more: Partial<OperatingPoint>, y = cold) => {
    const { point, book } = notebook(controller({}));
    Object.assign(point, { limit: 40, currentUnlimited: 50, ...more });
    book.mode(2, 7, y);
    return book.notes.limited.get(2);
  };

  it('is the motor’s, the battery’s or heat’s', () => {
    expect(limited({})).toEqual({ time: 7, by: 'motor', bound: 40, throttle: 0.5 });
    expect(limited({ limit: 30 })).toEqual({ time: 7, by: 'battery', bound: 25, throttle: 0.5 });
    expect(limited({ limit: 20 }, Float64Array.of(370))).toEqual({ time: 7, by: 'heat', bound: 20, throttle: 0.5 });
    // a billionth is rounding
    const share = 1 - 1e-9;
    expect([limited({ limit: 40 * share })?.by, limited({ limit: 40 * (1 - 2e-9) })?.by]).toEqual(['motor', 'battery']);
  });

  it('holds nothing back below it, nor where the motor is off, nor where there is none', () => {
    expect(limited({ currentUnlimited: 39 })).toBeUndefined();
    for (const asked of [40, 40 * (1 - 1e-9)]) expect(limited({ currentUnlimited: asked })).toBeDefined();
    expect(limited({ currentUnlimited: 40 * (1 - 2e-9) })).toBeUndefined();
    expect(limited({ duty: 0 })).toBeUndefined();
    expect(limited({ limit: Number.POSITIVE_INFINITY, currentUnlimited: Number.POSITIVE_INFINITY })).toBeUndefined();
  });

  it('is told from when it first held, with the least throttle that came of it', () => {
    const { point, book } = notebook(controller({}));
    Object.assign(point, { limit: 40, currentUnlimited: 50 });
    for (const [time, duty] of [
      [1, 0.6],
      [2, 0.4],
      [3, 0.5],
    ]) {
      point.duty = duty;
      book.mode(0, time, cold);
    }
    expect(book.notes.limited.get(0)).toEqual({ time: 1, by: 'motor', bound: 40, throttle: 0.4 });
    // what takes over at no less throttle does not count
    Object.assign(point, { limit: 30, duty: 0.4 });
    book.mode(0, 4, cold);
    expect(book.notes.limited.get(0)).toMatchObject({ by: 'motor', bound: 40 });
    point.duty = 0.3;
    book.mode(0, 5, cold);
    expect(book.notes.limited.get(0)).toEqual({ time: 1, by: 'battery', bound: 25, throttle: 0.3 });
  });
});

it('braked, stalled and unstable steps are noted by their numbers', () => {
  const { point, book } = notebook(of());
  book.mode(0, 0, cold);
  Object.assign(point, { braked: true, unstable: true, stalled: true, current: 9 });
  book.mode(1, 0, cold);
  Object.assign(point, { braked: false, unstable: false, current: 0 });
  book.mode(2, 0, cold);
  Object.assign(point, { current: 9, duty: 0 });
  book.mode(3, 0, cold);
  expect([[...book.notes.braked], [...book.notes.stalled], [...book.notes.unstable]]).toEqual([[1], [1], [1]]);
});

describe('ground and air', () => {
  it('wheels that spin, or whose grip is not enough, are told once with what the ground takes', () => {
    const grip = 0.8 * 2 * 9.80665;
    for (const more of [{ spinning: true }, { gripLeft: -0.1 }]) {
      const system = of(CAR);
      const { point, book } = notebook(system);
      point.gripLeft = 0;
      book.ground(0, 1, 3);
      expect(book.notes.spun.size).toBe(0);
      Object.assign(point, { gripLeft: 1, ...more });
      book.ground(0, 2, 3);
      book.ground(0, 4, 3);
      expect([...book.notes.spun]).toEqual([[0, { time: 2, bound: expect.closeTo((grip * system.vehicle.mass) / 2, 9) }]]);
    }
  });

  it('a propeller has no grip to lose', () => {
    const { point, book } = notebook(of(boat()));
    Object.assign(point, { spinning: true, gripLeft: -1 });
    book.ground(0, 1, 3);
    expect(book.notes.spun.size).toBe(0);
  });

  it('a motor driven past the pack’s voltage by more than a tenth is overrun', () => {
    const { point, book } = notebook(of(boat()));
    Object.assign(point, { torqueConstant: 0.01, busVoltage: 10, current: 0, speed: 1099 });
    book.ground(0, 1, 3);
    expect(book.notes.overrun.size).toBe(0);
    point.speed = 1101;
    book.ground(0, 2, 3);
    book.ground(0, 3, 3);
    expect([...book.notes.overrun]).toEqual([[0, { time: 2, voltage: expect.closeTo(11.01, 9), bound: 10 }]]);
    point.current = 1;
    book.ground(1, 4, 3);
    expect(book.notes.overrun.size).toBe(1);
  });

  it('a wing too slow to carry is told at its slowest; at rest it does not fly', () => {
    const system = of(PLANE);
    const bound = Math.sqrt((2 * system.vehicle.mass * 9.80665) / (system.vehicle.density * system.vehicle.liftArea));
    const { book } = notebook(system);
    for (const [time, speed] of [
      [0, 0.05],
      [0.1, 0.1],
      [0.5, bound],
      [1, bound + 0.1],
    ])
      book.ground(0, time, speed);
    expect(book.notes.tooSlow.size).toBe(0);
    for (const [time, speed] of [
      [2, bound - 0.1],
      [3, bound - 0.5],
      [4, bound - 0.2],
      [5, bound - 0.5],
    ])
      book.ground(0, time, speed);
    expect([...book.notes.tooSlow]).toEqual([[0, { time: 3, speed: expect.closeTo(bound - 0.5, 9), bound: expect.closeTo(bound, 9) }]]);
    // a speed that is held counts, wherever the state has come to
    const other = notebook(system, bound - 1);
    other.book.ground(0, 1, 99);
    expect(other.book.notes.tooSlow.get(0)?.speed).toBeCloseTo(bound - 1, 9);
  });

  it('a wing that keeps its speed only straight up or down says so, but for one that balances', () => {
    const system = of(PLANE);
    const weight = system.vehicle.mass * 9.80665;
    const told = (force: number, climb = 1, held = 12, of = system) => {
      const { point, book } = notebook(of, held);
      Object.assign(point, { climb, force, drag: 2 });
      book.ground(0, 5, 12);
      book.ground(0, 6, 12);
      return book.notes.vertical.get(0);
    };
    expect(told(30)).toEqual({ time: 5, left: 28, weight: expect.closeTo(weight, 9) });
    expect(told(weight + 2)).toBeUndefined();
    expect(told(-30, -1)?.left).toBe(-32);
    expect(told(30, 0.99)).toBeUndefined();
    // to a thousandth of its weight, either way
    for (const far of [0.9e-3, -0.9e-3]) expect(told(weight * (1 + far) + 2)).toBeUndefined();
    for (const far of [1.1e-3, -1.1e-3]) expect(told(weight * (1 + far) + 2)).toBeDefined();
    // of both drives; none where no speed is held, or that of rest, nor for what no wing carries
    expect(told(30, 1, 12, { ...system, drives: 2 })?.left).toBe(58);
    expect([told(30, 1, 0), told(30, 1, Number.NaN), told(30, 1, 12, of(boat()))]).toEqual([undefined, undefined, undefined]);
  });
});

describe('extremes', () => {
  const kernel = createKernel(of());
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  const { winding } = kernel.at;
  /** A step in which the winding runs along a curve. */
  function step(from: number, to: number, curve: (t: number) => number): StepView {
    const at = (t: number, into: Float64Array): void => {
      into.set(y);
      into[winding] = curve(t);
    };
    const [start, end] = [new Float64Array(y.length), new Float64Array(y.length)];
    at(from, start);
    at(to, end);
    return { from, to, start, end, at } as Partial<StepView> as StepView;
  }
  const watched = () => {
    const watch = extremesWatch(kernel);
    kernel.begin({ duration: 10, hold: 'throttle', value: { from: 0.5, to: 0.5 } }, 0, false);
    const noted = (t: number, kelvin: number): void => {
      const state = y.slice();
      state[winding] = kelvin;
      watch.note(t, state);
    };
    return { watch, noted };
  };

  it('are the highest and lowest that were noted, at their first time', () => {
    const { watch, noted } = watched();
    for (const [t, kelvin] of [
      [0, 300],
      [1, 320],
      [2, 320],
      [3, 290],
      [4, 290],
    ])
      noted(t, kelvin);
    expect(watch.highest().windingTemperature).toEqual({ value: 320, time: 1 });
    expect(watch.lowest().windingTemperature).toEqual({ value: 290, time: 3 });
    expect(watch.outsideTable()).toBe(0);
  });

  it('find a peak inside a step, a parabola’s and one that is not', () => {
    for (const curve of [(t: number) => 340 - 2 * (t - 3.3) ** 2, (t: number) => 340 - 5 * (t - 3.3) ** 2 - 0.3 * (t - 3.3) ** 3]) {
      const { watch, noted } = watched();
      noted(2, curve(2));
      watch.refine(step(2, 5, curve));
      noted(5, curve(5));
      const peak = watch.highest().windingTemperature;
      expect(peak.value).toBeCloseTo(340, 5);
      expect(peak.time).toBeCloseTo(3.3, 2);
    }
  });

  it('leave alone a step that only rises or falls, or whose peak is below the highest', () => {
    const { watch, noted } = watched();
    noted(0, 350);
    watch.refine(step(2, 5, (t) => 340 - 2 * (t - 3.3) ** 2));
    expect(watch.highest().windingTemperature).toEqual({ value: 350, time: 0 });
    watch.refine(step(2, 5, (t) => 300 + 10 * t));
    expect(watch.highest().windingTemperature.value).toBe(350);
    const near = watched();
    near.noted(0, 341);
    near.watch.refine(step(2, 5, (t) => 340 - 2 * (t - 3.3) ** 2));
    expect(near.watch.highest().windingTemperature).toEqual({ value: 341, time: 0 });
    const other = watched();
    other.noted(2, 340 - 2 * 1.3 ** 2);
    // slopes that are known to rise on both sides hide no peak
    const known = {
      ...step(2, 5, (t) => 340 - 2 * (t - 3.3) ** 2),
      startSlope: new Float64Array(y.length).fill(1),
      endSlope: new Float64Array(y.length).fill(1),
    };
    other.watch.refine(known);
    expect(other.watch.highest().windingTemperature.time).toBe(2);
    other.watch.refine({ ...known, endSlope: new Float64Array(y.length).fill(-1) });
    expect(other.watch.highest().windingTemperature.value).toBeCloseTo(340, 3);
  });

  it('of what has either sign are the largest size', () => {
    const peaks = (high: number, low: number) => ({
      highest: recordOf(CHANNEL_IDS, () => ({ value: high, time: 1 })),
      lowest: recordOf(CHANNEL_IDS, () => ({ value: low, time: 2 })),
    });
    expect(largest('motorCurrent', peaks(20, -30))).toEqual({ value: 30, time: 2 });
    expect(largest('motorCurrent', peaks(20, -10))).toEqual({ value: 20, time: 1 });
    expect(largest('motorCurrent', peaks(20, -20))).toEqual({ value: 20, time: 1 });
  });
});

describe('a run of seconds', () => {
  const profile: readonly ProfileStep[] = [held('throttle', 0.6)];
  it('meters the energy at the pack’s terminals, and when a cap of it is passed', () => {
    const system = of();
    const capped = (batteryEnergy: number) => simulate({ ...system, limits: { ...system.limits, batteryEnergy } }, profile);
    const run = capped(100);
    const { time, batteryPower } = run.recorded?.trace ?? { time: [], batteryPower: [] };
    const drawn = time.reduce((sum, t, k) => (k === 0 ? 0 : sum + 0.5 * (batteryPower[k] + batteryPower[k - 1]) * (t - time[k - 1])), 0);
    expect((run.drawn?.energy ?? 0) / drawn).toBeCloseTo(1, 2);
    // about as much every second
    expect((run.drawn?.passedAt ?? 0) / ((10 * 100) / drawn)).toBeCloseTo(1, 1);
    const enough = capped(1.5 * drawn);
    expect(enough.drawn?.passedAt).toBeUndefined();
    expect(enough.drawn?.energy).toBeGreaterThan(0.9 * drawn);
  });

  it('is looked at where it is watched, and shows nothing after its end', () => {
    const system = of({ battery: { cells: { series: 3 }, capacity: '0.05 Ah' } });
    const times = Float64Array.of(0, 1, 2, 500, 600);
    const watched = watchSystem(system, { ids: ['charge_used', 'shaft_speed', 'in_slot_temperature'], times });
    const run = simulate(system, [held('throttle', 0.6, { duration: 1000 })], { watch: watched.watch });
    expect(run.time).toBeLessThan(500);
    const series = watched.series();
    expect(series).toHaveLength(15);
    expect(series[0]).toBe(0);
    expect(series[2]).toBeGreaterThan(series[1]);
    expect(series[6]).toBeGreaterThan(300);
    expect(series[10]).toBeCloseTo(288.15, 1);
    expect(series[12]).toBeGreaterThan(series[10]);
    for (const k of [3, 4, 8, 9, 13, 14]) expect(series[k]).toBeNaN();
    // the model's error widens the rise from where it began; a thermometer's share all of its excess
    expect(watched.series(1.1)[12] - series[10]).toBeCloseTo(1.1 * (series[12] - series[10]), 9);
    expect(watched.series(1, () => 0.5)[12] - 288.15).toBeCloseTo(0.5 * (series[12] - 288.15), 9);
    // to the end of a run that has one
    const whole = watchSystem(of(), { ids: ['in_slot_temperature'], times: Float64Array.of(0, 10) });
    simulate(of(), profile, { watch: whole.watch });
    expect([...whole.series()].every(Number.isFinite)).toBe(true);
  });
});
