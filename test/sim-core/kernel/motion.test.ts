/** The vehicle along its path by Newton's second law: ramps, slopes, what the ground takes, a wing that climbs as its force allows, coming to rest. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { effectiveMass } from '@shaftwork/sim-core/drive/effective-mass';
import { type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { kernelMemory } from '@shaftwork/sim-core/kernel/kernel-memory';
import {
  asksClimbOfWing,
  climbAt,
  forceNeeded,
  givesUpClimb,
  heldSpeedAt,
  limitsOfGrip,
  moveUnderForce,
  shareAt,
} from '@shaftwork/sim-core/kernel/motion';
import { dragForce } from '@shaftwork/sim-core/parts/vehicle';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper, car] = ['survey-boat', 'hot-day-mapper', 'grass-car'].map(plain);
const G = 9.80665;
const even = (x: number) => ({ from: x, to: x });
const memoryAt = (system: DriveSystem, step: ProfileStep, from: number, more: object = {}) =>
  Object.assign(kernelMemory(system), { step, stepFrom: from }, more);
const climbing = stepOfParts({ duration: 8, hold: 'vehicleSpeed', value: { from: 10, to: 14 }, climb: { from: 1, to: 3 } });

describe('what a step imposes', () => {
  it('its share, speed and climb follow the time since it began', () => {
    const memory = memoryAt(mapper, climbing, 20);
    expect(shareAt(memory, 22)).toBe(0.25);
    expect(heldSpeedAt(memory, 22)).toBe(11);
    expect(climbAt(memory, 22, 11)).toBeCloseTo(1.5 / 11, 12);
    expect(climbAt(memory, 22, 0)).toBe(0);
    expect(climbAt(memoryAt(mapper, stepOfParts({ duration: 8, hold: 'throttle', value: even(1) }), 0), 2, 12)).toBe(0);
    expect(climbAt(memory, 22, 0.5)).toBe(1);
    expect(shareAt(memoryAt(mapper, { ...climbing, duration: 0 }, 20), 20)).toBe(0);
  });

  it('a grade is the sine itself; what is held beside another hold is a speed too', () => {
    const step = stepOfParts({
      duration: 8,
      hold: 'throttle',
      value: even(1),
      vehicleSpeed: { from: 2, to: 6 },
      grade: { from: 0, to: 0.2 },
    });
    const memory = memoryAt(boat, step, 0);
    expect(climbAt(memory, 4, 3)).toBeCloseTo(0.1, 12);
    expect(heldSpeedAt(memory, 2)).toBe(3);
    expect(heldSpeedAt(memoryAt(boat, stepOfParts({ duration: 8, hold: 'throttle', value: even(1) }), 0), 2)).toBeNaN();
  });

  it('only a wing gives up its climb, and only where full throttle does not give both', () => {
    const level = stepOfParts({ duration: 8, hold: 'vehicleSpeed', value: even(12) });
    expect(asksClimbOfWing(mapper, climbing)).toBe(true);
    expect(asksClimbOfWing(mapper, level)).toBe(false);
    expect(asksClimbOfWing(car, climbing)).toBe(false);
    expect(givesUpClimb(memoryAt(mapper, climbing, 0, { flatOut: true }))).toBe(true);
    expect(givesUpClimb(memoryAt(mapper, climbing, 0, { flatOut: false }))).toBe(false);
    expect(givesUpClimb(memoryAt(mapper, level, 0, { flatOut: true }))).toBe(false);
  });

  it('the force of each drive: (D + m·g·sin γ + m_e·a)/n', () => {
    const two = { ...car, drives: 2 };
    const memory = memoryAt(two, climbing, 0, { vehicleSpeed: 6, imposed: 1.5, setClimb: 0.1 });
    const { vehicle } = car;
    const all = dragForce(vehicle, 6, 0.1) + vehicle.mass * G * 0.1 + effectiveMass(two) * 1.5;
    expect(forceNeeded(memory)).toBeCloseTo(all / 2, 12);
  });
});

describe('what the ground takes', () => {
  const { load } = car;
  const vehicle = { ...car.vehicle, addedMass: 0.1 };
  if (load.kind !== 'wheel') throw new Error('the car has wheels');
  const two: DriveSystem = { ...car, vehicle, drives: 2, load: { ...load, grip: 0.5, drivenShare: 0.6 } };
  const step = stepOfParts({ duration: 8, hold: 'throttle', value: even(1) });
  const most = 0.5 * 0.6 * vehicle.mass * G * Math.sqrt(1 - 0.2 ** 2);

  it('at the edge of grip the ground’s force, what turns taken off, is µ·s·m·g·cos γ, forward and back', () => {
    const memory = memoryAt(two, step, 0, { vehicleSpeed: 4, imposed: Number.NaN, setClimb: 0.2 });
    limitsOfGrip(memory);
    const mass = effectiveMass(two);
    const turning = mass - vehicle.mass * (1 + vehicle.addedMass);
    expect(turning).toBeGreaterThan(0);
    for (const [force, ground] of [
      [memory.gripForward, most],
      [memory.gripBackward, -most],
    ]) {
      const acceleration = (2 * force - dragForce(vehicle, 4, 0.2) - vehicle.mass * G * 0.2) / mass;
      expect(2 * force - turning * acceleration).toBeCloseTo(ground, 9);
    }
  });

  it('an imposed acceleration of what turns is on top', () => {
    const memory = memoryAt(two, step, 0, { vehicleSpeed: 4, imposed: 2, setClimb: 0.2 });
    limitsOfGrip(memory);
    const turning = effectiveMass(two) - vehicle.mass * (1 + vehicle.addedMass);
    expect(memory.gripForward).toBeCloseTo((most + 2 * turning) / 2, 9);
    expect(memory.gripBackward).toBeCloseTo((-most + 2 * turning) / 2, 9);
  });

  it('limits nothing on a bench, in water or in the air', () => {
    for (const system of [
      boat,
      { ...boat, vehicle: { ...boat.vehicle, carriedBy: 'wheels' as const } },
      { ...two, vehicle: { ...vehicle, carriedBy: 'bench' as const } },
    ]) {
      const memory = memoryAt(system, step, 0, { vehicleSpeed: 4, gripForward: 1, gripBackward: -1 });
      limitsOfGrip(memory);
      expect([memory.gripForward, memory.gripBackward]).toEqual([Infinity, -Infinity]);
    }
  });
});

describe('under a force', () => {
  const moved = (system: DriveSystem, step: ProfileStep, force: number, more: object) => {
    const memory = memoryAt(system, step, 0, { imposed: Number.NaN, setClimb: 0, ...more });
    memory.point.force = force;
    moveUnderForce(memory);
    return memory.point;
  };
  const throttled = stepOfParts({ duration: 8, hold: 'throttle', value: even(1) });

  it('on a bench nothing moves but what is imposed, and nothing drags', () => {
    const bench = { ...car, vehicle: { ...car.vehicle, carriedBy: 'bench' as const } };
    expect(moved(bench, throttled, 9, { vehicleSpeed: 3 })).toMatchObject({ acceleration: 0, climb: 0, drag: 0 });
    expect(moved(bench, throttled, 9, { vehicleSpeed: 3, imposed: 0.7 }).acceleration).toBe(0.7);
  });

  it('a wing that stands climbs as its path does, and air that a trial state meets from behind pushes', () => {
    const towed = stepOfParts({ duration: 8, hold: 'throttle', value: even(1), vehicleSpeed: even(0) });
    expect(moved(mapper, towed, 20, { vehicleSpeed: 0, imposed: 0.4, setClimb: 0.02 }).climb).toBe(0.02);
    const drag = dragForce(boat.vehicle, -0.5, 0);
    expect(drag).toBeLessThan(0);
    const { acceleration } = moved(boat, throttled, 9, { vehicleSpeed: -0.5 });
    expect(acceleration).toBeCloseTo((boat.drives * 9 - drag) / effectiveMass(boat), 9);
  });

  it('m_e·a = n·F − D − m·g·sin γ', () => {
    const two = { ...car, drives: 2 };
    const point = moved(two, throttled, 9, { vehicleSpeed: 3, setClimb: -0.1 });
    const drag = dragForce(car.vehicle, 3, -0.1);
    expect(point.drag).toBeCloseTo(drag, 12);
    expect(point.climb).toBe(-0.1);
    expect(point.acceleration).toBeCloseTo((18 - drag + car.vehicle.mass * G * 0.1) / effectiveMass(two), 12);
  });

  it('a wing whose throttle and speed are given climbs with what is left: m·g·sin γ = F − D − m_e·a', () => {
    const towed = stepOfParts({ duration: 8, hold: 'throttle', value: even(1), vehicleSpeed: even(15) });
    const point = moved(mapper, towed, 20, { vehicleSpeed: 15, imposed: 0.4 });
    const { vehicle } = mapper;
    expect(point.acceleration).toBe(0.4);
    expect(point.climb).toBeGreaterThan(0.01);
    expect(20 - point.drag - vehicle.mass * G * point.climb - effectiveMass(mapper) * 0.4).toBeCloseTo(0, 3);
    // straight up and straight down are all there is
    expect(moved(mapper, towed, 1e5, { vehicleSpeed: 15, imposed: 0 }).climb).toBe(1);
    expect(moved(mapper, towed, -1e5, { vehicleSpeed: 15, imposed: 0 }).climb).toBe(-1);
    // a held speed keeps the climb that is set, but where it is given up
    expect(moved(mapper, climbing, 20, { vehicleSpeed: 15, imposed: 0, setClimb: 0.05 }).climb).toBe(0.05);
    expect(moved(mapper, climbing, 20, { vehicleSpeed: 15, imposed: 0, setClimb: 0.05, flatOut: true }).climb).not.toBe(0.05);
    expect(moved(boat, towed, 20, { vehicleSpeed: 2, imposed: 0 }).climb).toBe(0);
  });

  it('at rest the tyres hold until the force overcomes rolling; what overcomes it accelerates by the rest', () => {
    const { vehicle } = car;
    const free = { ...car, motor: { ...car.motor, hysteresisTorque: 0, frictionTorque: 0 } };
    const holds = vehicle.dragFactor * vehicle.rollingResistance * vehicle.mass * G;
    expect(moved(free, throttled, 0.9 * holds, { vehicleSpeed: 0 }).acceleration).toBeCloseTo(0, 12);
    const point = moved(free, throttled, 3 * holds, { vehicleSpeed: 0 });
    expect(point.acceleration).toBeCloseTo((2 * holds) / effectiveMass(car), 9);
    // on a slope less weight is on the tyres: cos γ
    const sloped = moved(free, throttled, 30, { vehicleSpeed: 0, setClimb: 0.6 });
    expect(sloped.acceleration).toBeCloseTo((30 - 0.6 * vehicle.mass * G - 0.8 * holds) / effectiveMass(car), 9);
    // a trial state below rest comes back to it
    expect(moved(free, throttled, 0, { vehicleSpeed: -0.01 }).acceleration).toBeCloseTo(0.01 / 0.05, 9);
  });

  it('at rest on a slope the motors’ friction holds too, behind the gear, less what their own torque has overcome', () => {
    const two: DriveSystem = { ...car, drives: 2, motor: { ...car.motor, hysteresisTorque: 0.004, frictionTorque: 0.006 } };
    const { vehicle, load, gearbox } = two;
    if (load.kind !== 'wheel') throw new Error('the car has wheels');
    const rolling = (sine: number): number => vehicle.dragFactor * vehicle.rollingResistance * vehicle.mass * G * Math.sqrt(1 - sine ** 2);
    const friction = (2 * 0.01 * gearbox.ratio) / (gearbox.efficiency * load.radius);
    // down a slope on which weight would overcome the rolling, but not the friction besides
    const sine = (sum: number): number => -sum / (vehicle.mass * G);
    const at = (setClimb: number, current = 0): number => {
      const memory = memoryAt(two, throttled, 0, { imposed: Number.NaN, setClimb, vehicleSpeed: 0, gearEfficiency: gearbox.efficiency });
      Object.assign(memory, { flux: 1 });
      Object.assign(memory.point, { force: 0, torqueConstant: 0.02, current });
      moveUnderForce(memory);
      return memory.point.acceleration;
    };
    const gentle = sine(rolling(0) + 0.9 * friction);
    expect(at(gentle)).toBeCloseTo(0, 12);
    // half of the friction is spent on the motor's own torque
    const left = (-gentle * vehicle.mass * G - rolling(gentle) - 0.5 * friction) / effectiveMass(two);
    expect(left).toBeGreaterThan(0.01);
    expect(at(gentle, 0.25)).toBeCloseTo(left, 9);
    expect(at(gentle, -0.25)).toBeCloseTo(left, 9);
    const steep = sine(rolling(0) + 1.5 * friction);
    expect(at(steep)).toBeCloseTo((-steep * vehicle.mass * G - rolling(steep) - friction) / effectiveMass(two), 9);
  });

  it('what is slowed near rest is slowed in proportion to its speed, what is driven is not', () => {
    const slow = (vehicleSpeed: number, force: number) => moved(boat, throttled, force, { vehicleSpeed }).acceleration;
    expect(slow(5e-4, -1)).toBeCloseTo(-0.5 / effectiveMass(boat), 5);
    expect(slow(5e-4, 1)).toBeCloseTo(1 / effectiveMass(boat), 5);
    expect(slow(2e-3, -1)).toBeCloseTo(-1 / effectiveMass(boat), 4);
  });
});
