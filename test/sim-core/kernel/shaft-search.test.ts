/** The search for the shaft's speed: it ends at the root however near to it it begins, at limits too, and takes few looks at the load. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type Held, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { initialState, type KernelMemory, kernelMemory } from '@shaftwork/sim-core/kernel/kernel-memory';
import { startFrom } from '@shaftwork/sim-core/kernel/shaft-balance';
import { solvePoint } from '@shaftwork/sim-core/kernel/solve-point';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { missesOf, solved } from './point-laws.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper, glider] = ['survey-boat', 'hot-day-mapper', 'burst-glider'].map(plain);

let looks = 0;
/** Geared, with a fan on its shaft and without limits; whoever asks what the load takes is counted. */
function watched(system: DriveSystem, more: Partial<DriveSystem['controller']> = {}): DriveSystem {
  const { load } = system;
  if (load.kind === 'wheel') throw new Error('a propeller');
  const counted = Object.defineProperty({ ...load }, 'thrustDeduction', {
    get: () => {
      looks++;
      return load.thrustDeduction;
    },
  });
  return {
    ...system,
    load: counted,
    gearbox: { ...system.gearbox, ratio: 1.4, efficiency: 0.9 },
    motor: { ...system.motor, windageTorque: 3e-8 },
    controller: { ...system.controller, motorCurrentLimit: Infinity, batteryCurrentLimit: Infinity, ...more },
  };
}

/** Goes on with a memory, at a hold and a vehicle speed, and says how often it looked. */
function look(memory: KernelMemory, system: DriveSystem, value: number, speed: number, hold: Held = 'throttle'): number {
  const step = stepOfParts({ duration: 1, hold, value: { from: value, to: value } });
  Object.assign(memory, { system, step, hold, solvedTime: Number.NaN });
  const y = new Float64Array(memory.dimension);
  initialState(memory, y);
  y[memory.at.speed] = speed;
  looks = 0;
  solvePoint(memory, 0, y);
  return looks;
}
function fresh(system: DriveSystem, value: number, speed: number, hold: Held = 'throttle'): KernelMemory {
  const memory = kernelMemory(system);
  look(memory, system, value, speed, hold);
  return memory;
}
const free = fresh.bind(undefined, watched(boat), 0.8, 1.5);
const FIGURES = ['speed', 'driverSpeed', 'current', 'busVoltage', 'busCurrent', 'loadTorque', 'driverTorque', 'thrust', 'force'] as const;

describe.each([
  ['a boat', () => watched(boat), 0.8, 1.5],
  ['an aircraft', () => watched(mapper), 0.7, 14],
  ['a diode', () => watched(boat, { diodeDrop: 0.5 }), 0.6, 1],
  ['a sinusoidal drive', () => watched(boat, { drive: 'sinusoidal' }), 0.8, 1.2],
  ['a motor at its current limit', () => watched(boat, { motorCurrentLimit: 0.7 * free().point.current }), 0.8, 1.5],
  ['a pack at its current limit', () => watched(boat, { batteryCurrentLimit: 0.6 * free().point.busCurrent }), 0.8, 1.5],
  ['a motor that brakes a stream', () => watched(boat, { braking: 'regenerative', diodeDrop: 0 }), 0.02, 8],
  ['a motor that brakes at its limit', () => watched(boat, { braking: 'regenerative', diodeDrop: 0, motorCurrentLimit: 1.5 }), 0.02, 9],
  [
    'a stream in which even full throttle brakes beyond the limit',
    () => watched(boat, { braking: 'regenerative', diodeDrop: 0, motorCurrentLimit: 0.4 }),
    1,
    40,
  ],
] as const)('%s', (_, make, value, speed) => {
  it('has one root, to the last digits, wherever beside it the search begins, and obeys every law there', () => {
    const system = make();
    const { kernel, y } = solved(system, stepOfParts({ duration: 1, hold: 'throttle', value: { from: value, to: value } }), { speed });
    for (const [law, miss] of Object.entries(missesOf(system, kernel, y))) expect(Math.abs(miss), law).toBeLessThan(1e-9);
    const root = { ...kernel.point };
    expect(root.speed).toBeGreaterThan(1);
    const memory = fresh(system, value, speed);
    // a last step of up to 1e-4 is taken along slope and curvature: its third power is left
    for (const beside of [-9e-5, -3e-5, 3e-5, 9e-5, 2e-3, -0.2, 0.3]) {
      startFrom(memory, root.speed * (1 + beside));
      look(memory, system, value, speed);
      for (const figure of FIGURES)
        expect(Math.abs(memory.point[figure] - root[figure]), `${figure} from ${beside}`).toBeLessThan(3e-11 * Math.abs(root[figure]));
    }
  });
});

it('at the corner where a limit sets in the root is the limit’s on one side and the duty’s on the other', () => {
  const { speed, current } = free().point;
  for (const share of [1 - 2e-6, 1 + 2e-6]) {
    const system = watched(boat, { motorCurrentLimit: share * current });
    const cold = fresh(system, 0.8, 1.5).point;
    const { speed: root, current: held } = { ...cold };
    expect(held / (share < 1 ? share * current : current)).toBeCloseTo(1, 11);
    const memory = fresh(system, 0.8, 1.5);
    for (const beside of [-9e-5, -1e-6, 1e-6, 9e-5]) {
      startFrom(memory, speed * (1 + beside));
      look(memory, system, 0.8, 1.5);
      expect(memory.point.speed / root).toBeCloseTo(1, 11);
    }
  }
});

it('what was solved before leaves no trace in what is held next', () => {
  const holds: [Held, number, number][] = [
    ['throttle', 0.8, 4],
    ['throttle', 0, 4],
    ['motorCurrent', 4, 1],
    ['throttle', 0.3, 1],
    ['thrust', 3, 1],
    ['throttle', 0.02, 5],
  ];
  for (const system of [watched(boat), watched(boat, { braking: 'regenerative', diodeDrop: 0 })]) {
    const memory = kernelMemory(system);
    for (const [hold, value, speed] of [...holds, ...holds.toReversed()]) {
      look(memory, system, value, speed, hold);
      const { point } = fresh(system, value, speed, hold);
      for (const figure of FIGURES) expect(memory.point[figure], `${figure} at ${hold} ${value}`).toBeCloseTo(point[figure], 9);
    }
  }
});

describe('takes few looks at the load', () => {
  it.each([
    ['a boat', watched(boat), 1.5, [4, 2, 2, 3]],
    ['an aircraft', watched(mapper), 14, [4, 2, 2, 3]],
    ['a sinusoidal drive', watched(boat, { drive: 'sinusoidal' }), 1.2, [5, 2, 3, 4]],
  ] as const)(
    '%s: Newton’s method converges, and begins where the last root has moved to',
    (_, system, speed, [cold, moved, further, beside]) => {
      const memory = kernelMemory(system);
      expect(look(memory, system, 0.8, speed)).toBeLessThanOrEqual(cold);
      expect(look(memory, system, 0.8, speed)).toBe(1);
      // second powers of a thousandth are left, one step away
      const { battery } = system;
      const lifted = { ...system, battery: { ...battery, voltageOffset: battery.voltageOffset + 1e-4 } };
      for (const go of [
        () => look(memory, system, 0.8008, speed),
        () => look(memory, system, 0.8, speed * 1.001),
        () => look(memory, lifted, 0.8, speed),
      ]) {
        expect(go()).toBeLessThanOrEqual(moved);
        look(memory, system, 0.8, speed);
      }
      expect(look(memory, system, 0.808, speed)).toBeLessThanOrEqual(further);
      look(memory, system, 0.8, speed);
      startFrom(memory, 1.01 * memory.point.speed);
      expect(look(memory, system, 0.8, speed)).toBeLessThanOrEqual(beside);
    },
  );

  it('a shaft at rest stays there with one, and starts with few', () => {
    const system = watched(boat);
    const memory = fresh(system, 0, 0);
    expect([memory.point.speed, memory.point.stalled]).toEqual([0, true]);
    expect(look(memory, system, 0, 0)).toBe(1);
    expect(look(memory, system, 0.8, 0)).toBeLessThanOrEqual(6);
    expect(look(memory, system, 0, 1.5)).toBeLessThanOrEqual(12);
  });

  it('off and at rest nothing is forecast', () => {
    const system = watched(boat);
    const off = fresh(system, 0.8, 3);
    look(off, system, 0, 3);
    expect([off.speedPerEmf, off.speedPerDuty]).toEqual([0, 0]);
    expect(fresh(system, 0.8, 0).speedPerAdvance).toBe(0);
  });
});

describe('a stream', () => {
  it('that does not start a propeller lets one that turns turn on', () => {
    // blades stall at rest and do not where they turn: with friction there are two equilibria
    const still = kernelMemory(mapper);
    look(still, mapper, 0, 0);
    look(still, mapper, 0, 5);
    expect([still.point.speed, still.point.stalled]).toEqual([0, true]);
    const turns = fresh(mapper, 1, 5);
    look(turns, mapper, 0, 5);
    expect(turns.point.speed).toBeGreaterThan(50);
    expect(turns.point.stalled).toBe(false);
  });

  it('drives a motor that is off against its friction alone, whatever its controller could', () => {
    const coasts = fresh(watched(boat), 0, 6).point;
    const could = fresh(watched(boat, { braking: 'regenerative', diodeDrop: 0 }), 0, 6).point;
    expect(could.speed).toBe(coasts.speed);
    expect(coasts.current).toBe(0);
    const { kernel, y } = solved(watched(boat), stepOfParts({ duration: 1, hold: 'throttle', value: { from: 0, to: 0 } }), { speed: 6 });
    const { shaft, gear, torque, force } = missesOf(watched(boat), kernel, y);
    for (const miss of [shaft, gear, torque, force]) expect(Math.abs(miss)).toBeLessThan(1e-10);
    expect(kernel.point.driverTorque).toBeLessThan(0);
  });

  it('does not turn folded blades: the shaft alone runs down, and its gear with it', () => {
    const inert: DriveSystem = { ...watched(glider), shaftSpeed: 'with-inertia' };
    const step = (value: number) => stepOfParts({ duration: 1, hold: 'throttle', value: { from: value, to: value } });
    const off = solved(inert, step(0), { speed: 12, shaft: 300 }, 0, false, true).kernel;
    expect([off.point.thrust, off.point.driverTorque, off.point.speed]).toEqual([0, 0, 300]);
    expect(off.point.driverSpeed).toBeCloseTo(300 / 1.4, 12);
    expect(off.shaftAcceleration()).toBeLessThan(0);
    const on = solved(inert, step(0.5), { speed: 12, shaft: 300 }, 0, false, true).kernel;
    expect(on.point.driverTorque).not.toBe(0);
  });
});
