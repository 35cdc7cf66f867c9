/** Parts of one or two equations, by hand: wheels, gears, wires. */
import { torqueBeforeGear } from '@shaftwork/sim-core/parts/gearbox';
import { gripForce, turningMass } from '@shaftwork/sim-core/parts/wheel';
import { wiringResistance } from '@shaftwork/sim-core/parts/wiring';
import { expect, it } from 'vitest';

it('a wheel passes µ·s·m·g·cos γ, none on a wall; what turns counts as mass by J/r², the rotor by the square of the gear', () => {
  const tyre = { grip: 0.9, drivenShare: 0.6 };
  expect(gripForce(tyre, 2, 0)).toBeCloseTo(0.9 * 0.6 * 2 * 9.80665, 12);
  expect(gripForce(tyre, 2, 0.6)).toBeCloseTo(0.8 * 0.9 * 0.6 * 2 * 9.80665, 12);
  expect(gripForce(tyre, 2, 1.1)).toBe(0);
  expect(turningMass(3e-5, 2e-6, 5, 0.05)).toBeCloseTo((3e-5 + 25 * 2e-6) / 0.0025, 15);
});

it('a gear takes its loss from whichever side drives: Q/(G·η) or Q·η/G', () => {
  expect(torqueBeforeGear(6, 3, 0.8)).toBeCloseTo(2.5, 12);
  expect(torqueBeforeGear(-6, 3, 0.8)).toBeCloseTo(-1.6, 12);
  expect(torqueBeforeGear(0, 3, 0.8)).toBe(0);
});

it('ten metres of 2.5 mm² there and back with two plugs: 0.1379 Ω and 2 mΩ (annealed copper, IEC 60028)', () => {
  expect(wiringResistance(10, 2.5e-6, 2, 1e-3)).toBeCloseTo((0.017241e-6 * 20) / 2.5e-6 + 2e-3, 12);
});
