/** What a kernel answers beside its rates: heat taken in, the motor's torque at another duty and speed, where a throttle drives no current, a held rotor on wheels. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { lossTorque } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { solved } from './point-laws.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, car] = ['survey-boat', 'grass-car'].map(plain);
const step = (hold: ProfileStep['hold'], from: number, to = from): ProfileStep => stepOfParts({ duration: 10, hold, value: { from, to } });
const limited = (more: Partial<DriveSystem['controller']>): DriveSystem => ({
  ...boat,
  controller: { ...boat.controller, motorCurrentLimit: Infinity, batteryCurrentLimit: Infinity, ...more },
});
const at = { speed: 1.5, winding: 340, magnets: 320, controller: 315, cells: 300, charge: 0.7 };

it.each([1, 2, 3])('heat stored is that of the bodies of all of %d drives and of the one pack: Σ C·dT/dt', (drives) => {
  const system: DriveSystem = { ...boat, drives };
  const { kernel, y } = solved(system, step('throttle', 0.7), at);
  const dy = new Float64Array(kernel.dimension);
  kernel.derivative(0, y, dy);
  kernel.heatOutlets(y);
  const all = BODIES.reduce((sum, body) => sum + (body === 'cells' ? 1 : drives) * system.heat.capacity[body] * dy[kernel.at[body]], 0);
  expect(kernel.heatStored() / all).toBeCloseTo(1, 10);
});

it('charge and slow voltage move with the pack’s current, cell by cell', () => {
  const { battery } = boat;
  const parallel: DriveSystem = { ...boat, battery: { ...battery, cellsInParallel: 3, capacity: 3 * battery.capacity } };
  const { kernel, y } = solved(parallel, step('throttle', 0.7), { ...at, polarisation: 0.01 });
  const dy = new Float64Array(kernel.dimension);
  kernel.derivative(0, y, dy);
  const { point } = kernel;
  expect(dy[kernel.at.charge] * parallel.battery.capacity).toBeCloseTo(-point.packCurrent, 9);
  // the same cell, alone, at a third of the current
  const alone = solved(boat, step('throttle', 0.7), { ...at, polarisation: 0.01 });
  const other = new Float64Array(alone.kernel.dimension);
  alone.kernel.derivative(0, alone.y, other);
  const gain = (rate: number, current: number): number => (rate + 0.01 / battery.polarisationTime) / current;
  expect(
    gain(dy[kernel.at.polarisation], point.packCurrent / 3) / gain(other[alone.kernel.at.polarisation], alone.kernel.point.packCurrent),
  ).toBeCloseTo(1, 9);
});

describe('the motor’s torque', () => {
  it('at the point’s own duty and speed is its load, at rest without friction, elsewhere what its current gives', () => {
    const { kernel } = solved(limited({}), step('throttle', 0.7), at);
    const { duty, speed, loadTorque, torqueConstant, current } = { ...kernel.point };
    expect(kernel.shaftTorque(duty, speed) / loadTorque).toBeCloseTo(1, 9);
    expect(kernel.shaftTorque(duty, 0.9 * speed)).toBeGreaterThan(loadTorque);
    expect(kernel.shaftTorque(0.9 * duty, speed)).toBeLessThan(loadTorque);
    const flux = torqueConstant / boat.motor.torqueConstant;
    // a slow shaft has the friction that a resting one does not feel
    expect(kernel.shaftTorque(duty, 0) - kernel.shaftTorque(duty, 1e-9)).toBeCloseTo(lossTorque(boat.motor, 1e-9, flux), 9);
    expect(current).toBeGreaterThan(0);
  });

  it('stops at the motor’s limit and at the pack’s', () => {
    const { kernel } = solved(limited({ motorCurrentLimit: 8 }), step('throttle', 0.7), at);
    const { torqueConstant } = kernel.point;
    expect(kernel.shaftTorque(1, 0)).toBeCloseTo(torqueConstant * 8, 9);
    const packed = solved(limited({ batteryCurrentLimit: 3 }), step('throttle', 0.7), at).kernel;
    const free = solved(limited({}), step('throttle', 0.7), at).kernel;
    expect(packed.shaftTorque(1, 10)).toBeLessThan(0.9 * free.shaftTorque(1, 10));
  });

  it.each([0.2, 0.7, 1])('ends with the current: at duty %d, or at the fastest that is asked for', (duty) => {
    const { kernel } = solved(limited({}), step('throttle', 0.7), at);
    const flux = kernel.point.torqueConstant / boat.motor.torqueConstant;
    const end = kernel.currentEnds(duty, 5000);
    const given = (speed: number): number => kernel.shaftTorque(duty, speed) + lossTorque(boat.motor, speed, flux);
    expect(given(end * (1 - 1e-6))).toBeGreaterThan(0);
    expect(given(end * (1 + 1e-6))).toBeCloseTo(0, 12);
    // without current the motor turns at duty·E, the idle current's drop and the diodes' taken off: common practice
    const { openCircuit } = kernel.point;
    expect((end * kernel.point.torqueConstant) / (duty * boat.battery.cellsInSeries * openCircuit)).toBeGreaterThan(0.85);
    expect((end * kernel.point.torqueConstant) / (duty * boat.battery.cellsInSeries * openCircuit)).toBeLessThanOrEqual(1);
    expect(kernel.currentEnds(duty, 0.5 * end)).toBe(0.5 * end);
  });
});

describe('wheels', () => {
  if (car.load.kind !== 'wheel') throw new Error('wheels');
  const travel = car.load.radius / car.gearbox.ratio;

  it('hold the vehicle where their motor’s speed is held, along a ramp too', () => {
    const { kernel } = solved(car, step('shaftSpeed', 100, 300), { speed: 200 * travel }, 5);
    expect(kernel.heldSpeed(5)).toBeCloseTo(200 * travel, 12);
    expect(kernel.heldSpeed(0)).toBeCloseTo(100 * travel, 12);
    expect(kernel.heldSpeed(10)).toBeCloseTo(300 * travel, 12);
    expect(kernel.share(5)).toBe(0.5);
    expect(kernel.point.speed).toBeCloseTo(200, 9);
    expect(kernel.point.acceleration).toBeCloseTo(20 * travel, 9);
  });

  it('stand where their rotor is held, and push with all of the stalled torque', () => {
    const { kernel } = solved(car, step('shaftSpeed', 0), { speed: 0 });
    const { point } = kernel;
    expect(kernel.heldSpeed(3)).toBe(0);
    expect([point.speed, point.stalled]).toEqual([0, true]);
    expect(point.current).toBeGreaterThan(0);
    expect(point.loadTorque).toBeCloseTo(point.torqueConstant * point.current, 9);
  });

  it('a propeller’s shaft that is held leaves the vehicle free', () => {
    const { kernel } = solved(boat, step('shaftSpeed', 200), at);
    expect(kernel.heldSpeed(0)).toBeNaN();
    expect(kernel.point.speed).toBeCloseTo(200, 9);
  });
});
