/**
 * The level and exponent of the audit's mark on motor constants against catalogue pages of slotted flat outrunners: maxon EC 45 flat 50 W 18 V
 * and EC 45 flat 70 W 24 V (torque constant, resistance, no-load current; masses 110 g and 141 g from memory of the same pages).
 */
import { MOTOR_CONSTANT, MOTOR_RULES } from '@shaftwork/sim-core/provenance/rules-motor';
import { MOTOR_CONSTANT_FACTOR } from '@shaftwork/sim-core/studies/audit-marks';
import { expect, it } from 'vitest';

const PRINTED = [
  { name: 'EC 45 flat 50 W', kt: 29.5e-3, resistance: 0.447, noLoad: 0.277, mass: 0.11 },
  { name: 'EC 45 flat 70 W', kt: 40.4e-3, resistance: 0.573, noLoad: 0.27, mass: 0.141 },
];

it.each(PRINTED)('$name lies inside the mark', ({ kt, resistance, mass }) => {
  const ratio = kt / Math.sqrt(resistance) / (MOTOR_CONSTANT.outrunner * mass ** MOTOR_CONSTANT.exponent);
  expect(ratio).toBeGreaterThan(1 / MOTOR_CONSTANT_FACTOR);
  expect(ratio).toBeLessThan(MOTOR_CONSTANT_FACTOR);
});

it('a slip of a digit in either Kv or resistance leaves the band for both', () => {
  for (const { kt, resistance, mass } of PRINTED) {
    const ratio = kt / Math.sqrt(resistance) / (MOTOR_CONSTANT.outrunner * mass ** MOTOR_CONSTANT.exponent);
    for (const slip of [10, 0.1]) expect(Math.abs(Math.log(ratio * slip))).toBeGreaterThan(Math.log(MOTOR_CONSTANT_FACTOR));
  }
});

it.each(PRINTED)('what stands in for a missing line is within a factor of 2: $name', ({ kt, resistance, noLoad, mass }) => {
  for (const [rule, printed] of [
    ['outrunner-resistance', resistance],
    ['outrunner-no-load-current', noLoad],
  ] as const)
    expect(Math.abs(Math.log(MOTOR_RULES[rule].law([kt, mass]) / printed))).toBeLessThan(Math.log(2));
});
