/** The motor's equations by hand (D. Hanselman, Brushless Permanent Magnet Motor Design, ch. 1 and 4), and what they give at no load, at stall and between. */
import {
  fluxRatio,
  inputPower,
  ironTorque,
  loadedSpeed,
  lossTorque,
  lossTorqueSlope,
  motorConstant,
  noLoadSpeed,
  peakEfficiency,
  reactiveShare,
  speedTorqueGradient,
  stallCurrent,
  torqueConstantAt,
  windageTorqueAt,
  windingResistance,
} from '@shaftwork/sim-core/parts/motor';
import { describe, expect, it } from 'vitest';

const motor = {
  torqueConstant: 0.01,
  resistance: 0.1,
  inductance: 40e-6,
  resistanceCoefficient: 0.00393,
  fluxCoefficient: -0.0012,
  hysteresisTorque: 0.003,
  eddyTorque: 4e-6,
  frictionTorque: 0.002,
  windageTorque: 5e-9,
  polePairs: 7,
};

it('warmth: copper of 0.393 %/K on 20 °C, flux by its coefficient', () => {
  expect(windingResistance(motor, 293.15)).toBe(0.1);
  expect(windingResistance(motor, 393.15)).toBeCloseTo(0.1393, 12);
  expect(fluxRatio(motor, 343.15)).toBeCloseTo(0.94, 12);
  expect(torqueConstantAt(motor, 343.15)).toBeCloseTo(0.0094, 12);
});

it('loss torque: iron with the square of the flux, friction, windage with the square of the speed', () => {
  expect(ironTorque(motor, 1000, 0.9)).toBeCloseTo(0.81 * 0.007, 15);
  expect(windageTorqueAt(motor, 1000)).toBeCloseTo(0.005, 15);
  expect(lossTorque(motor, 1000, 0.9)).toBeCloseTo(0.81 * 0.007 + 0.002 + 0.005, 15);
  const slope = (lossTorque(motor, 1001, 0.9) - lossTorque(motor, 999, 0.9)) / 2;
  expect(lossTorqueSlope(motor, 1000, 0.9)).toBeCloseTo(slope, 12);
});

it('input power is voltage times current; lines of speed over torque fall by R/k²; stalled it draws v/R', () => {
  expect(inputPower(0.1, 0.01, 900, 20)).toBeCloseTo((0.1 * 20 + 0.01 * 900) * 20, 12);
  expect(motorConstant(motor)).toBeCloseTo(0.01 / Math.sqrt(0.1), 15);
  expect(speedTorqueGradient(motor)).toBeCloseTo(1000, 9);
  expect(stallCurrent(motor, 12)).toBeCloseTo(120, 12);
  expect(noLoadSpeed(motor, 12, 1)).toBeCloseTo(1190, 9);
});

describe('inductance', () => {
  it('takes (3/2π)·p·ω·L in block drive, p·ω·L in sinusoidal drive, over the back-EMF for one ampere', () => {
    expect(reactiveShare(motor, 0.01, true)).toBeCloseTo((7 * 40e-6) / 0.01, 15);
    expect(reactiveShare(motor, 0.01, false)).toBeCloseTo(((3 / (2 * Math.PI)) * 7 * 40e-6) / 0.01, 15);
  });

  it('slows the motor: at the speed found the voltages add up, straight or at a right angle', () => {
    const block = loadedSpeed(motor, false, 12, 20);
    expect(20 * 0.1 + 0.01 * block * (1 + 20 * reactiveShare(motor, 0.01, false))).toBeCloseTo(12, 10);
    const sine = loadedSpeed(motor, true, 12, 20);
    expect(Math.hypot(20 * 0.1 + 0.01 * sine, 0.01 * sine * 20 * reactiveShare(motor, 0.01, true))).toBeCloseTo(12, 10);
    expect(loadedSpeed({ ...motor, inductance: 0 }, true, 12, 20)).toBeCloseTo(1000, 9);
    // 120 A through 0.1 Ω leave nothing of 12 V, and 300 A need more than there is at any speed
    expect(loadedSpeed(motor, false, 12, 120)).toBeCloseTo(0, 9);
    expect(loadedSpeed(motor, true, 12, 300)).toBeNaN();
  });
});

it('best efficiency (1 − √(I_0·R/V))²: no current gives more of v·i out of the shaft', () => {
  const [resistance, idle, voltage] = [0.1, 1.2, 12];
  const efficiency = (i: number): number => ((voltage - resistance * i) * (i - idle)) / (voltage * i);
  const best = Math.max(...Array.from({ length: 4000 }, (_, k) => efficiency(idle + 0.01 * (k + 1))));
  expect(peakEfficiency(resistance, idle, voltage)).toBeCloseTo(best, 6);
});
