/** Where motor torque meets load: the root and its stability, how it moves with voltage, duty and stream by differences, rest and windmilling, a thrust asked for. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type Held, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { initialState, type KernelMemory, kernelMemory } from '@shaftwork/sim-core/kernel/kernel-memory';
import { loadAt, speedForThrust } from '@shaftwork/sim-core/kernel/shaft-balance';
import { solvePoint } from '@shaftwork/sim-core/kernel/solve-point';
import { lossTorque, lossTorqueSlope } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper, glider] = ['survey-boat', 'hot-day-mapper', 'burst-glider'].map(plain);
const free = (system: DriveSystem, more: Partial<DriveSystem['controller']> = {}): DriveSystem => ({
  ...system,
  gearbox: { ...system.gearbox, ratio: 1.4, efficiency: 0.95 },
  controller: { ...system.controller, motorCurrentLimit: Infinity, batteryCurrentLimit: Infinity, ...more },
});

/** Solves a hold at a vehicle speed from a fresh memory, or goes on with one. */
function solvedAt(
  system: DriveSystem,
  value: number,
  speed: number,
  memory: KernelMemory = kernelMemory(system),
  hold: Held = 'throttle',
): KernelMemory {
  const step = stepOfParts({ duration: 1, hold, value: { from: value, to: value } });
  Object.assign(memory, { step, hold, solvedTime: Number.NaN });
  const y = new Float64Array(memory.dimension);
  initialState(memory, y);
  y[memory.at.speed] = speed;
  solvePoint(memory, 0, y);
  return memory;
}
const lifted = (system: DriveSystem, by: number): DriveSystem => ({
  ...system,
  battery: { ...system.battery, voltageOffset: system.battery.voltageOffset + by / system.battery.cellsInSeries },
});

describe.each([
  ['a boat', free(boat), 1.5],
  ['an aircraft', free(mapper), 14],
  ['a sinusoidal drive', free(boat, { drive: 'sinusoidal' }), 1.2],
])('%s', (_, system, speed) => {
  const at = (duty: number, v = speed, volts = 0): number => solvedAt(lifted(system, volts), duty, v).point.speed;
  it('the root moves with voltage, duty and stream as differences say (to the first order that the search takes)', () => {
    const memory = solvedAt(system, 0.8, speed);
    expect(memory.speedPerEmf / ((at(0.8, speed, 0.01) - at(0.8, speed, -0.01)) / 0.02)).toBeCloseTo(1, 1);
    expect(memory.speedPerDuty / ((at(0.801) - at(0.799)) / 0.002)).toBeCloseTo(1, 1);
    if (system.load.kind !== 'propeller') throw new Error('a propeller');
    const perSpeed = (at(0.8, speed * 1.001) - at(0.8, speed * 0.999)) / (0.002 * speed);
    // the advance is less than the vehicle's speed by the wake; Reynolds number and curve of the table are left out
    expect(memory.speedPerAdvance / (perSpeed / (1 - system.load.wakeFraction))).toBeCloseTo(1, 0);
    expect(memory.warmSpeed).toBe(memory.point.speed);
  });

  it('is the same root wherever the search began', () => {
    const cold = at(0.8);
    const warm = solvedAt(system, 0.8, speed, solvedAt(system, 0.3, 0.2 * speed));
    expect(warm.point.speed / cold).toBeCloseTo(1, 11);
    const fallen = solvedAt(system, 0.05, speed, solvedAt(system, 1, speed));
    expect(fallen.point.speed / at(0.05)).toBeCloseTo(1, 11);
    expect(warm.point.unstable).toBe(false);
    expect(warm.point.stalled).toBe(false);
  });

  it('where the load’s slope is that of differences', () => {
    const memory = solvedAt(system, 0.8, speed);
    const { point } = memory;
    const { speed: here } = point;
    const torqueAt = (omega: number): number => {
      point.speed = omega;
      loadAt(memory);
      return point.loadTorque;
    };
    const slope = (torqueAt(here * 1.0001) - torqueAt(here * 0.9999)) / (0.0002 * here);
    torqueAt(here);
    expect(memory.loadSlope / slope).toBeCloseTo(1, 5);
  });
});

describe('a limited current', () => {
  it('balances the load by itself: k_t·i_limit = M_loss + M_load, and the root is where it is by differences', () => {
    const system = free(boat, { motorCurrentLimit: 6 });
    const { point } = solvedAt(system, 1, 1);
    expect(point.current).toBeCloseTo(6, 9);
    const flux = point.torqueConstant / boat.motor.torqueConstant;
    expect(point.torqueConstant * 6).toBeCloseTo(lossTorque(boat.motor, point.speed, flux) + point.loadTorque, 12);
  });

  it('brakes a screw that a fast stream drives no harder than the limit', () => {
    const system = free(boat, { braking: 'regenerative', motorCurrentLimit: 2 });
    const memory = solvedAt(system, 0.02, 8);
    const { point } = memory;
    const flux = point.torqueConstant / boat.motor.torqueConstant;
    expect(point.current).toBeLessThan(0);
    expect(point.current).toBeGreaterThanOrEqual(-2 - 1e-9);
    expect(point.torqueConstant * point.current - lossTorque(boat.motor, point.speed, flux) - point.loadTorque).toBeCloseTo(0, 11);
    expect(lossTorqueSlope(boat.motor, point.speed, flux) + memory.loadSlope).toBeGreaterThan(0);
  });
});

describe('without current', () => {
  it('a screw turns in a stream where its torque meets friction, and rests where it does not reach it', () => {
    const windmill = solvedAt(boat, 0, 4).point;
    const flux = windmill.torqueConstant / boat.motor.torqueConstant;
    expect(windmill.speed).toBeGreaterThan(10);
    expect(windmill.loadTorque).toBeLessThan(0);
    expect(lossTorque(boat.motor, windmill.speed, flux)).toBeCloseTo(-windmill.loadTorque, 12);
    const rests = solvedAt(boat, 0, 0.05).point;
    expect([rests.speed, rests.stalled]).toEqual([0, true]);
    expect(rests.thrust).toBeLessThanOrEqual(0);
  });

  it('a motor whose stalled torque stays below friction rests, with its current', () => {
    const { point } = solvedAt(boat, 1e-4, 0);
    expect([point.speed, point.stalled]).toEqual([0, true]);
    expect(point.torqueConstant * point.current).toBeLessThan(lossTorque(boat.motor, 0, 1));
    // and starts again as soon as there is throttle
    expect(solvedAt(boat, 0.5, 0, solvedAt(boat, 0, 0)).point.speed).toBeCloseTo(solvedAt(boat, 0.5, 0).point.speed, 9);
  });

  it('folded blades neither push nor drag', () => {
    const { point } = solvedAt(glider, 0, 12);
    expect([point.thrust, point.force, point.driverTorque, point.loadTorque, point.outsideTable, point.speed]).toEqual([0, 0, 0, 0, 0, 0]);
    const fixed = { ...glider, load: { ...glider.load, folding: false } } as DriveSystem;
    expect(solvedAt(fixed, 0, 12).point.thrust).toBeLessThan(0);
    expect(solvedAt(glider, 0.5, 12).point.speed).toBeGreaterThan(100);
  });
});

describe('the speed that gives a thrust', () => {
  const turning = () => solvedAt(free(mapper), 0.5, 12);

  it.each([0.5, 4, 12])('%d N is given at it', (thrust) => {
    const memory = turning();
    memory.point.speed = speedForThrust(memory, thrust, 0);
    loadAt(memory);
    expect(memory.point.thrust).toBeCloseTo(thrust, 8);
  });

  it('is the same from a cold start', () => {
    const memory = turning();
    const warm = speedForThrust(memory, 4, 0);
    memory.warmSpeed = 0;
    expect(speedForThrust(memory, 4, 0) / warm).toBeCloseTo(1, 11);
  });

  it('is none beyond what any model turns, and rest where even that gives as much', () => {
    const memory = turning();
    expect(speedForThrust(memory, 1e9, 0)).toBeNaN();
    expect(speedForThrust(memory, -1e3, 0)).toBe(0);
  });
});
