/** Where limits hold the current of a point: the chain's laws are kept, driving and braking, and what would have flowed without them is told. */

import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import { LEAST_DUTY } from '@shaftwork/sim-core/drive/electrical-chain';
import { stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { adopt, brakeAt, limitAt, limitCurrent } from '@shaftwork/sim-core/kernel/current-limits';
import { initialState, type KernelMemory, kernelMemory } from '@shaftwork/sim-core/kernel/kernel-memory';
import { solvePoint } from '@shaftwork/sim-core/kernel/solve-point';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { chainMisses } from '../drive/chain-equations.js';

const boat = realise(demo('survey-boat').candidates[0].data);

/** A memory that has solved a throttle of the boat at rest, its controller changed. */
function memoryOf(controller: Partial<DriveSystem['controller']>, more: Partial<DriveSystem> = {}): KernelMemory {
  const system: DriveSystem = {
    ...boat,
    ...more,
    controller: { ...boat.controller, motorCurrentLimit: Infinity, batteryCurrentLimit: Infinity, ...controller },
  };
  const memory = kernelMemory(system);
  const step = stepOfParts({ duration: 1, hold: 'throttle', value: { from: 0.5, to: 0.5 } });
  Object.assign(memory, { step, hold: 'throttle' });
  const y = new Float64Array(memory.dimension);
  initialState(memory, y);
  y[memory.at.speed] = 1;
  solvePoint(memory, 0, y);
  return memory;
}
/** The chain at a duty and a back-EMF, limits looked at. */
function limitedAt(memory: KernelMemory, duty: number, backEmf: number): KernelMemory['point'] {
  const { chain, chainPoint, point } = memory;
  point.braked = false;
  point.limit = point.currentUnlimited = Number.NaN;
  solveAtDuty(chain, duty, backEmf, chainPoint);
  point.currentUnlimited = chainPoint.current;
  limitCurrent(memory);
  return point;
}
const holdsLaws = ({ chain, point }: KernelMemory, backEmf: number): void => {
  for (const miss of chainMisses(chain, backEmf, point)) expect(Math.abs(miss)).toBeLessThan(1e-9);
};

it('what the chain found is taken over, all of it', () => {
  const memory = memoryOf({});
  Object.assign(memory.chainPoint, { busVoltage: 11, busCurrent: 7, current: 9, duty: 0.4 });
  adopt(memory, 0.3);
  expect(memory.point).toMatchObject({ duty: 0.3, busVoltage: 11, busCurrent: 7, current: 9 });
});

describe('driving', () => {
  const free = () => limitedAt(memoryOf({}), 0.8, 4);

  it('without limits is as the duty has it', () => {
    const memory = memoryOf({});
    const { duty, current, limit, currentUnlimited } = limitedAt(memory, 0.8, 4);
    expect([duty, limit]).toEqual([0.8, Infinity]);
    expect(currentUnlimited).toBe(current);
    holdsLaws(memory, 4);
  });

  it('stops at the motor’s limit, at a lower duty, and says what would have flowed', () => {
    const { current: all } = free();
    const memory = memoryOf({ motorCurrentLimit: 0.6 * all });
    const { duty, current, limit, currentUnlimited } = limitedAt(memory, 0.8, 4);
    expect([current, limit, currentUnlimited]).toEqual([0.6 * all, 0.6 * all, all].map((each) => expect.closeTo(each, 8)));
    expect(duty).toBeLessThan(0.8);
    holdsLaws(memory, 4);
    // a limit that is not met changes nothing
    const above = memoryOf({ motorCurrentLimit: 1.01 * all });
    expect(limitedAt(above, 0.8, 4)).toMatchObject({ duty: 0.8, current: all, limit: 1.01 * all });
  });

  it('of nothing, as of a controller that is too hot, leaves a throttle where its current begins', () => {
    const memory = memoryOf({ motorCurrentLimit: 0, batteryCurrentLimit: 0.323 });
    const asked = { idleCurrent: 0.067, otherPower: 1.66, diodeDrop: 0.8, deadTimeDrop: 0.005, rippleLoss: 0.011, switchingShare: 0.001 };
    const parts = { emf: 8.42, sourceResistance: 18.2, windingResistance: 5.62, pathResistance: 0.138, reactiveShare: 5.99 };
    Object.assign(memory.chain, asked, parts, { sinusoidal: false, regenerative: false });
    const { duty, current, limit } = limitedAt(memory, 0.5, 0.9);
    expect([current, limit]).toEqual([expect.closeTo(0, 9), 0]);
    expect(duty).toBeLessThan(0.5);
  });

  it('brakes at full throttle where other loads have no voltage from the little that a limit lets back', () => {
    const memory = memoryOf({});
    Object.assign(memory.chain, {
      emf: 0.05,
      sourceResistance: 0.04,
      otherPower: 30,
      idleCurrent: 0.06,
      sinusoidal: false,
      regenerative: true,
    });
    memory.chainPoint.backEmf = 6.8;
    brakeAt(memory, -0.9, 6.8);
    expect(memory.point).toMatchObject({ duty: 1, braked: true });
  });

  it('stops at the battery’s limit', () => {
    const { busCurrent: all } = free();
    const memory = memoryOf({ batteryCurrentLimit: 0.6 * all });
    const { duty, busCurrent, current, limit, currentUnlimited } = limitedAt(memory, 0.8, 4);
    expect(busCurrent).toBeCloseTo(0.6 * all, 8);
    expect(limit).toBeCloseTo(current, 8);
    expect(currentUnlimited).toBeGreaterThan(current);
    expect(duty).toBeLessThan(0.8);
    holdsLaws(memory, 4);
    // of two limits the nearer one
    const both = memoryOf({ batteryCurrentLimit: 0.6 * all, motorCurrentLimit: 0.5 * current });
    expect(limitedAt(both, 0.8, 4).current).toBeCloseTo(0.5 * current, 8);
  });

  it('what the limits leave at a back-EMF is told without a duty', () => {
    const memory = memoryOf({ motorCurrentLimit: 9 });
    limitAt(memory, 5);
    expect([memory.chainPoint.backEmf, memory.point.limit]).toEqual([5, 9]);
    const { busCurrent } = free();
    const packed = memoryOf({ batteryCurrentLimit: 0.6 * busCurrent, motorCurrentLimit: 1000 });
    const { current } = { ...limitedAt(packed, 0.8, 4) };
    limitAt(packed, 4);
    expect(packed.point.limit).toBeCloseTo(current, 8);
  });
});

describe('braking', () => {
  const braking = (more: Partial<DriveSystem['controller']> = {}) => memoryOf({ braking: 'regenerative', diodeDrop: 0, ...more });

  it('with a current that a duty gives is that', () => {
    const memory = braking();
    brakeAt(memory, -3, 6);
    expect(memory.point.current).toBeCloseTo(-3, 9);
    expect(memory.point.braked).toBe(false);
    expect(memory.point.duty).toBeGreaterThan(LEAST_DUTY);
    expect(memory.point.duty).toBeLessThan(1);
    holdsLaws(memory, 6);
  });

  it('harder than a short circuit of the winding is that short circuit', () => {
    const memory = braking();
    brakeAt(memory, -1e4, 6);
    const { duty, braked, current } = memory.point;
    expect([duty, braked]).toEqual([LEAST_DUTY, true]);
    const { windingResistance, pathResistance } = memory.chain;
    expect(current).toBeGreaterThan(-6 / (windingResistance + pathResistance));
    expect(current).toBeLessThan(-0.5 * (6 / (windingResistance + pathResistance)));
  });

  it('less hard than the pack’s own voltage lets a fast motor is full throttle', () => {
    const memory = braking();
    const fast = 2 * memory.chain.emf;
    brakeAt(memory, -0.1, fast);
    expect([memory.point.duty, memory.point.braked]).toEqual([1, true]);
    expect(memory.point.current).toBeLessThan(-0.1);
    holdsLaws(memory, fast);
  });

  it('is held at the motor’s limit, and no sooner', () => {
    const free = limitedAt(braking(), 0.2, 8).current;
    expect(free).toBeLessThan(-2);
    const memory = braking({ motorCurrentLimit: -0.5 * free });
    expect(limitedAt(memory, 0.2, 8).current).toBeCloseTo(0.5 * free, 9);
    holdsLaws(memory, 8);
    expect(limitedAt(braking({ motorCurrentLimit: -1.01 * free }), 0.2, 8)).toMatchObject({ duty: 0.2, current: free });
  });
});

it('a pack too weak for its limit collapses where the throttle stands, and is told to be beyond it', () => {
  const memory = memoryOf({ motorCurrentLimit: 60 }, { wiring: { ...boat.wiring, resistance: 2 } });
  const { limit, current, currentUnlimited, busVoltage, duty } = limitedAt(memory, 1, 0);
  expect(limit).toBe(60);
  expect(current).toBeLessThanOrEqual(60);
  expect(busVoltage).toBeLessThan(memory.chain.emf);
  expect(duty).toBeGreaterThan(0);
  expect(currentUnlimited).toBeGreaterThanOrEqual(current - 1e-9);
});
