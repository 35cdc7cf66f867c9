/** A kernel answers for the state and step it is asked, whatever it solved before; what it solved last it does not solve again. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { createKernel, type Kernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { missesOf, solved } from './point-laws.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper, car] = ['survey-boat', 'hot-day-mapper', 'grass-car'].map(plain);
const even = (x: number) => ({ from: x, to: x });
const throttle = (from: number, to = from): ProfileStep => stepOfParts({ duration: 10, hold: 'throttle', value: { from, to } });

function standing(system: DriveSystem, step = throttle(0.5), speed = 4): { kernel: Kernel; y: Float64Array } {
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  y[kernel.at.speed] = speed;
  kernel.begin(step, 0, false);
  kernel.solve(0, y);
  return { kernel, y };
}

describe('a place', () => {
  it('solved last is not solved again; another time, step or state is, each state for itself', () => {
    const { kernel, y } = standing(car);
    const first = { ...kernel.point };
    Object.assign(kernel.point, { current: 99 });
    kernel.solve(0, y);
    expect(kernel.point.current).toBe(99);
    kernel.solve(1, y);
    expect(kernel.point).toEqual(first);
    for (let k = 0; k < kernel.dimension; k++) {
      Object.assign(kernel.point, { current: 99 });
      y[k] *= 1 + 1e-9;
      y[k] += 1e-12;
      kernel.solve(1, y);
      expect(kernel.point.current, String(k)).not.toBe(99);
    }
    Object.assign(kernel.point, { current: 99 });
    kernel.begin(throttle(0.5), 0, false);
    kernel.solve(1, y);
    expect(kernel.point.current).not.toBe(99);
  });

  it('is as a fresh kernel has it, whatever came before: charge, cells, spin, stall', () => {
    // a wheel's shaft is where the ground has it: nothing is sought
    const slippery = { ...car, load: { ...car.load, grip: 0.05 } } as DriveSystem;
    const { kernel, y } = standing(slippery, throttle(1), 2);
    expect(kernel.point.spinning).toBe(true);
    const { charge, cells, speed, polarisation } = kernel.at;
    for (const [place, value] of [
      [charge, 0.3],
      [charge, 0.7],
      [cells, 280],
      [cells, 310],
      [charge, 0.5],
      [speed, 0],
      [polarisation, 0.02],
      [speed, 9],
    ]) {
      y[place] = value;
      kernel.solve(0, y);
      const fresh = createKernel(slippery);
      fresh.begin(throttle(1), 0, false);
      fresh.solve(0, y);
      expect({ ...kernel.point }).toEqual({ ...fresh.point });
    }
  });

  it('of another drive is that drive’s, whichever was loaded before', () => {
    const joined: DriveSystem = { ...boat, heat: { ...boat.heat, windingToStator: Infinity } };
    const { kernel } = standing(car);
    for (const system of [boat, joined, mapper, car]) {
      kernel.load(system);
      const fresh = createKernel(system);
      expect(kernel.dimension).toBe(fresh.dimension);
      const y = new Float64Array(kernel.dimension);
      fresh.initial(y);
      y[fresh.at.speed] = 1;
      for (const each of [kernel, fresh]) {
        each.begin(throttle(0.6), 0, false);
        each.solve(0, y);
      }
      expect({ ...kernel.point }).toEqual({ ...fresh.point });
    }
  });
});

describe('a throttle', () => {
  it('that only begins or ends with off is on, a little; one that is off is off', () => {
    expect(standing(boat, throttle(0, 1)).kernel.point.duty).toBe(1e-6);
    expect(standing(boat, throttle(0)).kernel.point.duty).toBe(0);
    expect(standing(boat, throttle(1.7)).kernel.point.duty).toBe(1);
  });

  it('in place of a speed that is out of reach leaves the vehicle to its forces; a wing keeps its speed', () => {
    const speeding = stepOfParts({ duration: 10, hold: 'vehicleSpeed', value: { from: 2, to: 4 } });
    const { kernel, y } = solved(boat, speeding, { speed: 1.8 }, 5, true);
    expect(kernel.point.duty).toBe(1);
    for (const [law, miss] of Object.entries(missesOf(boat, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
    const climbing = stepOfParts({ duration: 10, hold: 'vehicleSpeed', value: { from: 14, to: 18 }, climb: even(20) });
    const wing = solved(mapper, climbing, { speed: 16 }, 5, true).kernel.point;
    expect(wing.acceleration).toBeCloseTo(0.4, 12);
    expect(wing.climb).toBeLessThan(20 / 16);
  });

  it('of a pack whose idle draw alone takes all its voltage is off, and the pack overloaded', () => {
    const dead: DriveSystem = { ...car, controller: { ...car.controller, idleCurrent: 1e5 } };
    const { point } = standing(dead, throttle(0.8)).kernel;
    expect([point.duty, point.current, point.overloaded]).toEqual([0, 0, true]);
    // what flows is the pack's short circuit
    expect(point.packCurrent).toBeGreaterThan(10);
    const held = standing(dead, stepOfParts({ duration: 10, hold: 'motorCurrent', value: even(5) })).kernel.point;
    expect([held.duty, held.current, held.overloaded]).toEqual([0, 0, true]);
  });
});

describe('the shaft', () => {
  it('of a drive without inertia among its states turns as its balance says, even when let turn freely', () => {
    const { kernel, y } = standing(boat, throttle(0.5), 1);
    const { speed } = kernel.point;
    kernel.turnFreely(true);
    kernel.solve(0, y);
    expect(kernel.point.speed).toBe(speed);
    expect(kernel.point.acceleration).not.toBeNaN();
  });

  it('bound again after it turned freely is sought from the speed it has', () => {
    // in this stream a shaft that turns turns on, and one at rest does not start: shaft-search.test.ts
    const inert: DriveSystem = { ...mapper, shaftSpeed: 'with-inertia' };
    const { kernel, y } = solved(inert, throttle(0), { speed: 5, shaft: 90 }, 0, false, true);
    expect(kernel.point.speed).toBe(90);
    kernel.turnFreely(false);
    kernel.solve(0, y);
    expect(kernel.point.speed).toBeGreaterThan(60);
    expect(kernel.point.speed).toBeLessThan(89);
    const still = solved(inert, throttle(0), { speed: 5, shaft: 0 }, 0, false, true);
    still.kernel.turnFreely(false);
    still.kernel.solve(0, still.y);
    expect(still.kernel.point.speed).toBe(0);
  });

  it('of wheels carries the rotor alone', () => {
    expect(createKernel(car).turningInertia()).toBe(car.motor.rotorInertia);
  });
});

it('a motor without inductance has no ripple', () => {
  const bare: DriveSystem = { ...car, motor: { ...car.motor, inductance: 0 } };
  const { kernel, y } = standing(bare);
  expect(kernel.point.rippleLoss).toBe(0);
  expect(kernel.point.current).toBeGreaterThan(0);
  for (const [law, miss] of Object.entries(missesOf(bare, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
});
