/** Holds at their corners: a draw that falls or rises along a ramp, currents out of reach, thrusts about what a free propeller gives. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type Held, type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { missesOf, solved } from './point-laws.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper, car] = ['survey-boat', 'hot-day-mapper', 'grass-car'].map(plain);
const step = (hold: Held, from: number, to = from): ProfileStep => stepOfParts({ duration: 10, hold, value: { from, to } });

describe('a held draw', () => {
  it.each([
    ['batteryPower', 80, 60],
    ['batteryPower', 60, 80],
    ['batteryPower', 70, 70.02],
    ['batteryPower', 70.02, 70],
    ['batteryCurrent', 6, 4],
    ['batteryCurrent', 4, 6],
  ] as const)('of a %s that goes from %d to %d is what is asked all the way, as a fresh kernel has it', (hold, from, to) => {
    const going = createKernel(boat);
    const y = new Float64Array(going.dimension);
    going.initial(y);
    y[going.at.speed] = 1.5;
    going.begin(step(hold, from, to), 0, false);
    for (const t of [0, 1, 2.5, 5, 9, 10]) {
      going.solve(t, y);
      const { point } = going;
      const asked = from + ((to - from) * t) / 10;
      expect((hold === 'batteryPower' ? point.busVoltage * point.packCurrent : point.packCurrent) / asked).toBeCloseTo(1, 9);
      const fresh = createKernel(boat);
      fresh.begin(step(hold, from, to), 0, false);
      fresh.solve(t, y);
      expect(point.duty / fresh.point.duty).toBeCloseTo(1, 9);
      expect(point.dutyAsked).toBe(point.duty);
    }
  });

  it('beyond what the pack gives is full throttle and more', () => {
    for (const [hold, value] of [
      ['batteryPower', 1e6],
      ['batteryCurrent', 1e5],
      ['motorCurrent', 1e6],
    ] as const) {
      const { point } = solved(boat, step(hold, value), { speed: 1.5 }).kernel;
      expect([point.duty <= 1, point.dutyAsked]).toEqual([true, 2]);
      expect(point.current).toBeCloseTo(solved(boat, step('throttle', 1), { speed: 1.5 }).kernel.point.current, 9);
    }
  });
});

it('where no ground limits a drive, whatever is held, all of the grip is left', () => {
  for (const [hold, value] of [
    ['throttle', 0.5],
    ['motorCurrent', 5],
    ['thrust', 3],
    ['batteryPower', 60],
    ['vehicleSpeed', 1.5],
  ] as const)
    expect(solved(boat, step(hold, value), { speed: 1.5 }).kernel.point.gripLeft, hold).toBe(1);
  const bench: DriveSystem = { ...car, vehicle: { ...car.vehicle, carriedBy: 'bench' } };
  expect(solved(bench, step('motorCurrent', 5), { speed: 1.5 }).kernel.point.gripLeft).toBe(1);
});

describe('a thrust about what a free propeller gives', () => {
  const turningFree = () => solved(mapper, step('throttle', 0), { speed: 12 }).kernel.point;
  const held = (thrust: number, system = mapper) => solved(system, step('thrust', thrust), { speed: 12 });

  it('a free one holds back: less is asked in vain, more is driven', () => {
    const free = turningFree();
    expect(free.thrust).toBeLessThan(0);
    const less = held(2 * free.thrust).kernel.point;
    expect([less.thrust, less.duty, less.braked]).toEqual([expect.closeTo(free.thrust, 9), 0, true]);
    for (const share of [0.5, 0.1, 0]) {
      const { kernel, y } = held(share * free.thrust);
      const { point } = kernel;
      expect(point.thrust).toBeCloseTo(share * free.thrust, 8);
      expect(point.braked).toBe(false);
      expect(point.current).toBeGreaterThan(0);
      expect(point.speed).toBeGreaterThan(free.speed);
      for (const [law, miss] of Object.entries(missesOf(mapper, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-7);
    }
    const { point } = held(2).kernel;
    expect([point.thrust, point.braked, point.stalled, point.unstable]).toEqual([expect.closeTo(2, 8), false, false, false]);
  });

  it('none at rest is none, and not braked', () => {
    const { point } = solved(boat, step('thrust', 0), { speed: 0 }).kernel;
    expect([point.thrust, point.duty, point.braked]).toEqual([expect.closeTo(0, 12), 0, false]);
    const back = solved(boat, step('thrust', -3), { speed: 0 }).kernel.point;
    expect([back.duty, back.braked]).toEqual([0, true]);
  });

  it('beyond any speed is out of reach', () => {
    const { point } = held(1e9).kernel;
    expect([point.duty <= 1, point.dutyAsked]).toEqual([true, 2]);
  });
});
