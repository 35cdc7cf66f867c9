/** Corners of the balance at the shaft: an equilibrium that does not hold, rest with a current, the pack's greatest power, a thrust from wherever the search begins. */
import { currentAtBatteryLimit } from '@shaftwork/sim-core/drive/battery-limit';
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { initialState, type KernelMemory, kernelMemory } from '@shaftwork/sim-core/kernel/kernel-memory';
import { greatestCurrent, loadAt, speedForThrust, startFrom } from '@shaftwork/sim-core/kernel/shaft-balance';
import { solvePoint } from '@shaftwork/sim-core/kernel/solve-point';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { missesOf, solved } from './point-laws.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper] = ['survey-boat', 'hot-day-mapper'].map(plain);
const throttle = (value: number) => stepOfParts({ duration: 1, hold: 'throttle', value: { from: value, to: value } });

/** Solves a throttle at a vehicle speed, from where the memory's search begins. */
function solveAt(memory: KernelMemory, value: number, speed: number): KernelMemory {
  Object.assign(memory, { step: throttle(value), hold: 'throttle', solvedTime: Number.NaN });
  const y = new Float64Array(memory.dimension);
  initialState(memory, y);
  y[memory.at.speed] = speed;
  solvePoint(memory, 0, y);
  return memory;
}

describe('a screw that a stream turns against friction', () => {
  // blades stall at rest and do not where they turn, so that a faster shaft is driven harder up to a point
  const inert: DriveSystem = { ...mapper, shaftSpeed: 'with-inertia' };
  const accelerationAt = (shaft: number): number =>
    solved(inert, throttle(0), { speed: 5, shaft }, 0, false, true).kernel.shaftAcceleration();

  it('has an equilibrium that it leaves to either side, and is told so; the one above it holds', () => {
    let [low, high] = [1, 75];
    expect(accelerationAt(low)).toBeLessThan(0);
    expect(accelerationAt(high)).toBeGreaterThan(0);
    for (let k = 0; k < 60; k++) {
      const middle = 0.5 * (low + high);
      if (accelerationAt(middle) > 0) high = middle;
      else low = middle;
    }
    const memory = kernelMemory(mapper);
    startFrom(memory, high);
    const { point } = solveAt(memory, 0, 5);
    expect(point.speed / high).toBeCloseTo(1, 9);
    expect(point.unstable).toBe(true);
    startFrom(memory, 90);
    solveAt(memory, 0, 5);
    expect(point.speed).toBeGreaterThan(high + 1);
    expect(point.unstable).toBe(false);
  });
});

describe('at rest', () => {
  it.each([0, 1e-4, 2e-3])('a motor that does not overcome its friction draws what its throttle drives through it: %d', (duty) => {
    const stiff: DriveSystem = { ...boat, motor: { ...boat.motor, frictionTorque: 0.2 } };
    const memory = solveAt(kernelMemory(stiff), duty, 0);
    const first = { ...memory.point };
    expect([first.speed, first.stalled]).toEqual([0, true]);
    // again from rest, and by another kernel
    expect({ ...solveAt(memory, duty, 0).point }).toEqual(first);
    const { kernel, y } = solved(stiff, throttle(duty), {});
    const { mesh, bridgePower, pack } = missesOf(stiff, kernel, y);
    for (const miss of [mesh, bridgePower, pack]) expect(Math.abs(miss)).toBeLessThan(1e-9);
    expect(kernel.point.busCurrent).toBe(first.busCurrent);
    if (duty > 0) expect(first.busCurrent).toBeGreaterThan(stiff.controller.idleCurrent);
    else expect(first.busCurrent).toBe(stiff.controller.idleCurrent);
  });
});

it('the pack gives most at half its voltage, other loads beside: the current there is greatestCurrent', () => {
  for (const otherLoads of [0, 6]) {
    const weak: DriveSystem = { ...boat, otherLoads, wiring: { ...boat.wiring, resistance: 1.5 } };
    const memory = solveAt(kernelMemory(weak), 0.5, 0);
    const { chain, chainPoint } = memory;
    chainPoint.backEmf = 2;
    // E − R·(i + P/U) = U at U = E/2
    const half = chain.emf / 2;
    const battery = (chain.emf - half) / chain.sourceResistance - chain.otherPower / half;
    const { current, busVoltage } = currentAtBatteryLimit(chain, battery, 2);
    expect(busVoltage / half).toBeCloseTo(1, 6);
    expect(greatestCurrent(memory) / current).toBeCloseTo(1, 6);
    expect(current).toBeGreaterThan(1);
  }
});

describe('the speed that gives a thrust', () => {
  let looks = 0;
  const { load } = mapper;
  if (load.kind !== 'propeller') throw new Error('a propeller');
  const counted = Object.defineProperty({ ...load }, 'diameter', {
    get: () => {
      looks++;
      return load.diameter;
    },
  });
  const system: DriveSystem = { ...mapper, load: counted, gearbox: { ...mapper.gearbox, ratio: 1.4 } };

  it.each([0.02, 0.5, 4, 25])('%d N is one, to the last digits, wherever the search begins, and is found soon', (thrust) => {
    const memory = solveAt(kernelMemory(system), 0.5, 12);
    const speeds = [0, 150, 400, 800, 1500, 4000].map((from) => {
      memory.warmSpeed = from;
      looks = 0;
      const speed = speedForThrust(memory, thrust, 0);
      expect(looks).toBeLessThanOrEqual(30);
      return speed;
    });
    for (const speed of speeds) expect(speed / speeds[0]).toBeCloseTo(1, 12);
    memory.point.speed = speeds[0];
    loadAt(memory);
    expect(Math.abs(memory.point.thrust - thrust)).toBeLessThan(1e-9 * (1 + thrust));
    expect(memory.point.driverSpeed).toBeCloseTo(speeds[0] / 1.4, 9);
    // begun beside it it is found in few
    memory.warmSpeed = 1.001 * speeds[0];
    looks = 0;
    speedForThrust(memory, thrust, 0);
    expect(looks).toBeLessThanOrEqual(6);
  });

  it('is the least one that is allowed where that gives as much already', () => {
    const memory = solveAt(kernelMemory(system), 0.5, 12);
    const speed = speedForThrust(memory, 4, 0);
    expect(speedForThrust(memory, 4, 1.2 * speed)).toBe(1.2 * speed);
    expect(speedForThrust(memory, 4, 0.8 * speed) / speed).toBeCloseTo(1, 11);
    expect(speedForThrust(memory, 4, speed * (1 + 1e-9))).toBe(speed * (1 + 1e-9));
  });

  it('is none of a wheel', () => {
    const car = plain('grass-car');
    expect(speedForThrust(kernelMemory(car), 3, 0)).toBeNaN();
  });
});
