/** Whatever a step holds, the point obeys the laws of every part and has what is held; what is out of reach, at a limit or beyond the brakes says so. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type Held, type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { type At, missesOf, solved } from './point-laws.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const boat = plain('survey-boat');
const mapper = plain('hot-day-mapper');
const glider = plain('burst-glider');
const car = plain('grass-car');
if (car.load.kind !== 'wheel' || boat.load.kind !== 'propeller' || glider.load.kind !== 'propeller') throw new Error('wheels and screws');
const wheel = car.load;
const gripping: DriveSystem = { ...car, load: { ...wheel, grip: 50 } };
const slipperyCar = (grip: number): DriveSystem => ({ ...car, load: { ...wheel, grip } });
const even = (x: number) => ({ from: x, to: x });
const step = (hold: Held, value: number, more: Partial<Parameters<typeof stepOfParts>[0]> = {}): ProfileStep =>
  stepOfParts({ duration: 10, hold, value: even(value), ...more });

/** The same drive with everything on: gear, two drives, other loads, diode or sinusoidal drive, dead times, warm parts, no limits. */
const busy = (system: DriveSystem, more: Partial<DriveSystem['controller']> = {}): DriveSystem => ({
  ...system,
  drives: 2,
  otherLoads: 9,
  load: system.load.kind === 'propeller' ? { ...system.load, thrustDeduction: 0.12, wakeFraction: 0.1 } : system.load,
  gearbox: { ...system.gearbox, ratio: 1.3 * system.gearbox.ratio, efficiency: 0.93 },
  controller: { ...system.controller, deadTime: 2e-6, motorCurrentLimit: Infinity, batteryCurrentLimit: Infinity, ...more },
});
const warm: At = { charge: 0.6, polarisation: 0.01, winding: 350, magnets: 330, controller: 340, cells: 303 };

const WAYS: [string, DriveSystem, number, [Held, number][]][] = [
  [
    'a boat',
    boat,
    1.5,
    [
      ['throttle', 0.5],
      ['throttle', 1],
      ['motorCurrent', 8],
      ['thrust', 5],
      ['batteryPower', 80],
      ['batteryCurrent', 6],
      ['shaftSpeed', 600],
      ['vehicleSpeed', 1.5],
    ],
  ], // prettier-ignore
  [
    'an aircraft',
    mapper,
    15,
    [
      ['throttle', 0.6],
      ['throttle', 1],
      ['motorCurrent', 12],
      ['thrust', 6],
      ['batteryPower', 300],
      ['shaftSpeed', 700],
      ['vehicleSpeed', 15],
    ],
  ], // prettier-ignore
  [
    'a glider whose blades fold',
    glider,
    12,
    [
      ['throttle', 0.8],
      ['motorCurrent', 20],
      ['thrust', 4],
    ],
  ], // prettier-ignore
  [
    'a car',
    gripping,
    5,
    [
      ['throttle', 0.5],
      ['throttle', 0.9],
      ['motorCurrent', 10],
      ['thrust', 4],
      ['batteryPower', 90],
      ['batteryCurrent', 9],
      ['vehicleSpeed', 5],
    ],
  ], // prettier-ignore
];
const MODES: [string, Partial<DriveSystem['controller']>][] = [
  ['block drive', { drive: 'block', diodeDrop: 0 }],
  ['a diode', { drive: 'block', diodeDrop: 0.6 }],
  ['sinusoidal drive', { drive: 'sinusoidal', diodeDrop: 0 }],
];

describe.each(WAYS)('%s', (_, system, speed, holds) => {
  it.each(MODES)('obeys the laws of its parts under every hold, with %s', (__, mode) => {
    const drive = busy(system, mode);
    for (const [hold, value] of holds) {
      const { kernel, y } = solved(drive, step(hold, value), { ...warm, speed });
      const { point } = kernel;
      expect(point.dutyAsked, `${hold} ${value}`).toBeLessThanOrEqual(1);
      expect(point.duty, hold).toBeGreaterThan(0.01);
      for (const [law, miss] of Object.entries(missesOf(drive, kernel, y)))
        expect(Math.abs(miss), `${hold} ${value}: ${law}`).toBeLessThan(1e-8);
      const held = {
        throttle: point.duty,
        motorCurrent: point.current,
        thrust: point.thrust,
        batteryPower: point.busVoltage * point.packCurrent,
        batteryCurrent: point.packCurrent,
        shaftSpeed: point.speed,
        vehicleSpeed: y[kernel.at.speed],
      }[hold];
      expect(held / value, hold).toBeCloseTo(1, 8);
      expect([point.stalled, point.braked, point.spinning, point.unstable]).toEqual([false, false, false, false]);
    }
  });
});

describe.each(['batteryPower', 'batteryCurrent'] as const)('a held %s', (hold) => {
  it.each([1e-4, 1e-3, 0.02, 0.3])('is found from the last one as it is without, the pack emptier by %s', (emptier) => {
    const asked = step(hold, hold === 'batteryPower' ? 80 : 6);
    const { kernel, y } = solved(boat, asked, { speed: 1.5 });
    y[kernel.at.charge] -= emptier;
    kernel.solve(1, y);
    const fresh = solved(boat, asked, { speed: 1.5, charge: y[kernel.at.charge] }).kernel.point;
    expect(kernel.point.duty).not.toBe(0);
    for (const figure of ['duty', 'current', 'speed', 'packCurrent', 'thrust'] as const)
      expect(kernel.point[figure] / fresh[figure], figure).toBeCloseTo(1, 10);
  });
});

describe('what is out of reach', () => {
  it.each([
    ['thrust', 4000],
    ['vehicleSpeed', 1.5],
    ['batteryPower', 1e5],
    ['batteryCurrent', 1e4],
  ] as const)('%s is full throttle, and more is asked for', (hold, value) => {
    // on a wall of a slope no speed is held
    const asked = hold === 'vehicleSpeed' ? step(hold, value, { grade: even(0.99) }) : step(hold, value);
    const heavy = { ...boat, vehicle: { ...boat.vehicle, mass: 1000 } };
    const { point } = solved(heavy, asked, { speed: 1.5 }).kernel;
    const full = solved(heavy, step('throttle', 1, hold === 'vehicleSpeed' ? { grade: even(0.99) } : {}), { speed: 1.5 }).kernel.point;
    expect(point.dutyAsked).toBeGreaterThan(1);
    expect(point.duty).toBe(1);
    expect(point.current).toBeCloseTo(full.current, 9);
    expect(point.speed).toBeCloseTo(full.speed, 9);
  });

  it('a motor current is told as a duty above one', () => {
    expect(solved(boat, step('motorCurrent', 500), { speed: 1.5 }).kernel.point.dutyAsked).not.toBeLessThanOrEqual(1);
  });

  it('a draw below that of the least duty is that of the least', () => {
    const { point } = solved(boat, step('batteryPower', 0), { speed: 1.5 }).kernel;
    expect(point.dutyAsked).toBe(1e-4);
  });
});

describe('the controller’s limits', () => {
  const limited = (motor: number, battery: number): DriveSystem => ({
    ...boat,
    controller: { ...boat.controller, motorCurrentLimit: motor, batteryCurrentLimit: battery },
  });
  const unlimited = () => solved(limited(Infinity, Infinity), step('throttle', 0.8), { speed: 1 }).kernel.point;

  it('hold a throttle at the motor current, and say what it would draw', () => {
    const free = unlimited();
    const { kernel, y } = solved(limited(0.7 * free.current, Infinity), step('throttle', 0.8), { speed: 1 });
    const { point } = kernel;
    expect(point.current).toBeCloseTo(0.7 * free.current, 9);
    expect(point.limit).toBeCloseTo(0.7 * free.current, 12);
    expect(point.currentUnlimited).toBeGreaterThan(point.limit);
    expect(point.duty).toBeLessThan(0.8);
    for (const [law, miss] of Object.entries(missesOf(boat, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
  });

  it('hold it at the battery current, where that binds first', () => {
    const free = unlimited();
    const { kernel, y } = solved(limited(0.99 * free.current, 0.5 * free.busCurrent), step('throttle', 0.8), { speed: 1 });
    expect(kernel.point.busCurrent).toBeCloseTo(0.5 * free.busCurrent, 9);
    for (const [law, miss] of Object.entries(missesOf(boat, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
    const loose = solved(limited(0.7 * free.current, 0.99 * free.busCurrent), step('throttle', 0.8), { speed: 1 }).kernel.point;
    expect(loose.current).toBeCloseTo(0.7 * free.current, 9);
  });

  it('fall with the controller’s temperature between where derating begins and where nothing is left', () => {
    const derated: DriveSystem = { ...boat, controller: { ...boat.controller, motorCurrentLimit: 40, deratingFrom: 350, deratingTo: 370 } };
    const limitAt = (controller: number): number => solved(derated, step('throttle', 0.3), { speed: 1, controller }).kernel.point.limit;
    expect(limitAt(350)).toBe(40);
    expect(limitAt(355)).toBeCloseTo(30, 9);
    expect(limitAt(365)).toBeCloseTo(10, 9);
  });

  it('leave a hold alone but tell how much it may draw', () => {
    const free = unlimited();
    const { point } = solved(limited(0.7 * free.current, Infinity), step('motorCurrent', 0.8 * free.current), { speed: 1 }).kernel;
    expect(point.current).toBe(0.8 * free.current);
    expect(point.currentUnlimited).toBe(0.8 * free.current);
    expect(point.limit).toBeCloseTo(0.7 * free.current, 12);
  });
});

describe('braking', () => {
  const brakes: DriveSystem = {
    ...car,
    load: { ...wheel, grip: 5, drivenShare: 1 },
    controller: {
      ...car.controller,
      braking: 'regenerative',
      motorCurrentLimit: 30,
      batteryCurrentLimit: Infinity,
      diodeDrop: 0,
      drive: 'block',
    },
  };
  const slowing = (by: number): ProfileStep => stepOfParts({ duration: 1, hold: 'vehicleSpeed', value: { from: 6, to: 6 - by } });

  it('within the limits gives exactly the force that the slowing needs, into the pack', () => {
    const { kernel, y } = solved(brakes, slowing(3), { speed: 6 });
    const { point } = kernel;
    expect(point.current).toBeLessThan(-1);
    expect(point.current).toBeGreaterThan(-30);
    expect(point.busCurrent).toBeLessThan(0);
    expect(point.braked).toBe(false);
    expect(point.dutyAsked).toBe(point.duty);
    for (const [law, miss] of Object.entries(missesOf(brakes, kernel, y, -3))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
    // m_e·a = F − D: what the wheels give is what the profile asks
    const free = missesOf(brakes, kernel, y);
    expect(free.motion).toBeLessThan(1e-8);
  });

  it('beyond the motor current limit brakes with just that, backwards, and says that the rest is left to the profile', () => {
    const { kernel, y } = solved(brakes, slowing(9), { speed: 6 });
    const { point } = kernel;
    expect(point.current).toBeCloseTo(-30, 9);
    expect(point.braked).toBe(true);
    expect(point.force).toBeLessThan(0);
    const { shaft, gear, force, mesh, bridgePower } = missesOf(brakes, kernel, y, -9);
    for (const miss of [shaft, gear, force, mesh, bridgePower]) expect(Math.abs(miss)).toBeLessThan(1e-8);
  });

  it('throttle that would brake harder than the motor current limit is held there', () => {
    const { kernel, y } = solved(brakes, step('throttle', 0.02), { speed: 9 });
    expect(kernel.point.current).toBeCloseTo(-30, 9);
    expect(kernel.point.duty).toBeGreaterThan(0.02);
    expect(kernel.point.braked).toBe(false);
    for (const [law, miss] of Object.entries(missesOf(brakes, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
    const gentle = solved(brakes, step('throttle', 0.02), { speed: 1.2 }).kernel.point;
    expect(gentle.duty).toBe(0.02);
    expect(gentle.current).toBeLessThan(0);
    expect(gentle.current).toBeGreaterThan(-30);
  });

  it('harder than a shorted winding at low speed is a shorted winding', () => {
    const { point } = solved(brakes, slowing(9), { speed: 0.3 }).kernel;
    expect(point.duty).toBe(1e-6);
    expect(point.braked).toBe(true);
    // −k_e·ω/R, path included
    const { path, winding } = { path: point.pathResistance, winding: point.windingResistance };
    expect(point.current).toBeLessThan(0);
    expect(-point.current).toBeLessThan((point.torqueConstant * point.speed) / (path + winding));
  });

  it('without regenerative braking lets go and leaves all of it to the profile', () => {
    const drags = { ...brakes, controller: { ...brakes.controller, braking: 'none' as const } };
    const { kernel, y } = solved(drags, slowing(9), { speed: 6 });
    const { point } = kernel;
    expect([point.current, point.duty, point.braked]).toEqual([0, 0, true]);
    expect(point.busCurrent).toBe(drags.controller.idleCurrent);
    const { shaft, gear, force } = missesOf(drags, kernel, y, -9);
    for (const miss of [shaft, gear, force]) expect(Math.abs(miss)).toBeLessThan(1e-9);
  });

  it.each([
    ['a screw in water', boat, 4],
    ['one in air', mapper, 15],
  ])('%s that is to hold back less than it does freely turning is driven: its current rises from nothing on', (_, system, speed) => {
    const free = solved(system, step('throttle', 0), { speed }).kernel.point;
    expect(free.thrust).toBeLessThan(0);
    let before = 0;
    for (const share of [0.99, 0.9, 0.7, 0.4, 0.1, 0, -0.1]) {
      const { kernel, y } = solved(system, step('thrust', share * free.thrust), { speed });
      const { point } = kernel;
      expect(point.thrust).toBeCloseTo(share * free.thrust, 9);
      expect([point.braked, point.stalled]).toEqual([false, false]);
      expect(point.current).toBeGreaterThan(before);
      before = point.current;
      if (share === 0.99) expect(point.current).toBeLessThan(0.05);
      for (const [law, miss] of Object.entries(missesOf(system, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
    }
    const let_go = solved(system, step('thrust', 1.01 * free.thrust), { speed }).kernel.point;
    expect([let_go.current, let_go.duty, let_go.braked]).toEqual([0, 0, true]);
    expect(let_go.thrust).toBeCloseTo(free.thrust, 9);
  });

  it('a screw that is to give less than it does freely turning is let go', () => {
    const { point } = solved(boat, step('thrust', -3), { speed: 2 }).kernel;
    expect([point.current, point.duty, point.braked, point.dutyAsked]).toEqual([0, 0, true, 0]);
    const idle = solved(boat, step('thrust', 0), { speed: 2 }).kernel.point;
    expect(idle.braked).toBe(false);
    const slow = solved(boat, step('shaftSpeed', 5), { speed: 2 }).kernel.point;
    expect(slow.braked).toBe(true);
    expect(slow.duty).toBe(0);
    expect(slow.speed).toBeGreaterThan(5);
  });
});

describe('grip', () => {
  const slippery = slipperyCar;

  it('eases a throttle until the wheels just hold: µ·s·m·g at the ground', () => {
    const system = slippery(0.05);
    const { kernel, y } = solved(system, step('throttle', 1), { speed: 2 });
    const { point } = kernel;
    expect(point.spinning).toBe(true);
    const { load, vehicle } = system;
    if (load.kind !== 'wheel') throw new Error('wheels');
    const ground = 0.05 * load.drivenShare * vehicle.mass * 9.80665;
    // the ground takes what moves the vehicle itself, not what speeds up its wheels
    expect(vehicle.mass * (1 + vehicle.addedMass) * point.acceleration + point.drag).toBeCloseTo(ground, 8);
    for (const [law, miss] of Object.entries(missesOf(system, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
    expect(solved(slippery(5), step('throttle', 1), { speed: 2 }).kernel.point.spinning).toBe(false);
  });

  it('tells the share of it that a held speed leaves: 1 − F/F_most on the flat', () => {
    const { load, vehicle } = car;
    if (load.kind !== 'wheel') throw new Error('wheels');
    const most = 0.4 * load.drivenShare * vehicle.mass * 9.80665;
    const { point } = solved(slippery(0.4), step('vehicleSpeed', 3), { speed: 3 }).kernel;
    expect(point.gripLeft).toBeCloseTo(1 - point.force / most, 9);
    const pulled = solved(slippery(0.4), step('thrust', 2), { speed: 3 }).kernel.point;
    expect(pulled.force).toBe(2);
    expect(pulled.gripLeft).toBeLessThan(1);
    expect(solved({ ...boat }, step('thrust', 2), { speed: 1 }).kernel.point.gripLeft).toBe(1);
  });

  it('gives way to braking that it does not take, and says so', () => {
    const regenerative = { ...slippery(0.1), controller: { ...car.controller, braking: 'regenerative' as const } };
    const { load, vehicle } = regenerative;
    if (load.kind !== 'wheel') throw new Error('wheels');
    const { point } = solved(regenerative, step('thrust', -20), { speed: 6 }).kernel;
    expect(point.spinning).toBe(true);
    expect(point.gripLeft).toBeGreaterThan(1);
    const hard = solved(regenerative, step('throttle', 1e-3), { speed: 6 }).kernel.point;
    expect(hard.spinning).toBe(true);
    expect(vehicle.mass * (1 + vehicle.addedMass) * hard.acceleration + hard.drag).toBeCloseTo(
      -0.1 * load.drivenShare * vehicle.mass * 9.80665,
      8,
    );
  });
});

describe('faster than the motor turns by itself', () => {
  const fast = (braking: 'none' | 'regenerative', grip: number): DriveSystem => ({
    ...slipperyCar(grip),
    controller: { ...car.controller, braking, motorCurrentLimit: 30, batteryCurrentLimit: Infinity, diodeDrop: 0, drive: 'block' },
  });

  it('full duty that still brakes harder than the motor current limit is all there is, and says so', () => {
    const system = fast('regenerative', 50);
    const { kernel, y } = solved(system, step('throttle', 0.3), { speed: 70 });
    const { point } = kernel;
    expect([point.duty, point.braked]).toEqual([1, true]);
    expect(point.current).toBeLessThan(-30);
    for (const [law, miss] of Object.entries(missesOf(system, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-8);
  });

  it('on ground that takes less than the motor’s own friction no throttle eases it: it stays as it is, and says so', () => {
    const base = fast('none', 1e-4);
    const system = { ...base, vehicle: { ...base.vehicle, dragFactor: 0 } };
    const { kernel, y } = solved(system, step('throttle', 0.4), { speed: 70 });
    const { point } = kernel;
    expect([point.duty, point.current, point.spinning]).toEqual([0.4, 0, true]);
    const { shaft, gear, force, mesh } = missesOf(system, kernel, y);
    for (const miss of [shaft, gear, force, mesh]) expect(Math.abs(miss)).toBeLessThan(1e-9);
    expect(point.force).toBeLessThan(0);
    expect([point.currentUnlimited, point.limit]).toEqual([0, 30]);
  });

  it('nor one that the motor current limit forbids: the limit holds, the friction brakes as it does', () => {
    const base = fast('none', 1e-4);
    const { motor } = base;
    // friction of 60 A is twice what the limit leaves
    const system = { ...base, motor: { ...motor, frictionTorque: 60 * motor.torqueConstant } };
    const { kernel, y } = solved(system, step('throttle', 1), { speed: 2 });
    const { point } = kernel;
    expect([point.current, point.limit, point.spinning]).toEqual([expect.closeTo(30, 9), 30, true]);
    expect(point.currentUnlimited).toBeGreaterThan(30);
    const { shaft, gear, force, mesh } = missesOf(system, kernel, y);
    for (const miss of [shaft, gear, force, mesh]) expect(Math.abs(miss)).toBeLessThan(1e-9);
    expect(point.force).toBeLessThan(0);
  });

  it('a car that its drag slows faster than its wheels turn back: without brakes they have the motor’s friction alone', () => {
    const system = fast('none', 1e-4);
    const { kernel, y } = solved(system, step('throttle', 0.4), { speed: 70 });
    const { point } = kernel;
    expect([point.duty, point.current, point.braked, point.spinning]).toEqual([0, 0, true, true]);
    const { shaft, gear, force } = missesOf(system, kernel, y);
    for (const miss of [shaft, gear, force]) expect(Math.abs(miss)).toBeLessThan(1e-9);
  });

  it('off, nothing is eased', () => {
    const { point } = solved(fast('none', 1e-4), step('throttle', 0), { speed: 20 }).kernel;
    expect([point.duty, point.current, point.spinning]).toEqual([0, 0, false]);
  });
});

describe('a rotor held fast', () => {
  it('feels the whole torque k_t·i of full throttle, and passes it to wheels', () => {
    for (const system of [boat, car]) {
      const { point } = solved(system, step('shaftSpeed', 0), {}).kernel;
      expect([point.speed, point.stalled]).toEqual([0, true]);
      expect(point.current).toBeGreaterThan(1);
      expect(point.loadTorque).toBeCloseTo(point.torqueConstant * point.current, 12);
    }
    const { load, gearbox } = car;
    if (load.kind !== 'wheel') throw new Error('wheels');
    const { point } = solved(car, step('shaftSpeed', 0), {}).kernel;
    expect(point.force).toBeCloseTo((point.loadTorque * gearbox.ratio * gearbox.efficiency) / load.radius, 9);
  });

  it('a motor at rest pushes with what is left over its own friction', () => {
    const { point } = solved(car, step('throttle', 0.02), {}).kernel;
    const friction = car.motor.frictionTorque + car.motor.hysteresisTorque * (point.torqueConstant / car.motor.torqueConstant) ** 2;
    expect(point.loadTorque).toBeCloseTo(Math.max(0, point.torqueConstant * point.current - friction), 12);
    expect(solved(car, step('throttle', 1e-5), {}).kernel.point.loadTorque).toBe(0);
  });

  it('a vehicle held at rest on a slope needs the motor’s torque less what its friction holds; a thrust needs both, at rest as on its way', () => {
    const friction = (constant: number): number =>
      car.motor.frictionTorque + car.motor.hysteresisTorque * (constant / car.motor.torqueConstant) ** 2;
    const onSlope = (grade: number) => {
      const standing = stepOfParts({ duration: 10, hold: 'vehicleSpeed', value: { from: 0, to: 0 }, grade: { from: grade, to: grade } });
      return solved(car, standing, {}).kernel.point;
    };
    const atShaft = (force: number): number => (force * wheel.radius) / (car.gearbox.ratio * car.gearbox.efficiency);
    const held = onSlope(0.3);
    expect(held.torqueConstant * held.current).toBeCloseTo(atShaft(held.force) - friction(held.torqueConstant), 12);
    expect(held.current).toBeGreaterThan(0);
    expect(onSlope(1e-3).current).toBe(0);
    for (const to of [6, 8]) {
      const pushing = solved(car, stepOfParts({ duration: 10, hold: 'thrust', value: { from: 6, to } }), {}).kernel.point;
      expect(pushing.torqueConstant * pushing.current).toBeCloseTo(atShaft(6) + friction(pushing.torqueConstant), 12);
      const moving = solved(car, stepOfParts({ duration: 10, hold: 'thrust', value: { from: 6, to } }), { speed: 1e-6 }).kernel.point;
      expect(moving.current).toBeCloseTo(pushing.current, 6);
    }
  });

  it('braking at rest needs nothing of the drive', () => {
    const brakes: DriveSystem = { ...car, controller: { ...car.controller, braking: 'regenerative', diodeDrop: 0 } };
    const slowing = stepOfParts({ duration: 10, hold: 'thrust', value: { from: -4, to: -3 } });
    const { point } = solved(brakes, slowing, {}).kernel;
    expect([point.current, point.duty, point.braked]).toEqual([0, 0, true]);
  });
});
