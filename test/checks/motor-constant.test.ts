/** What the theory page says of six motors (known-motors.ts), and what the audit's mark is for; level and doubt are checked in outside/motors.ts. */
import { MOTOR_CONSTANT } from '@shaftwork/sim-core/provenance/rules/rules-motor';
import { MOTOR_CONSTANT_FACTOR } from '@shaftwork/sim-core/questions/audit/marks';
import { describe, expect, it } from 'vitest';
import { FLAT, levelOf, SIX, SMALL, slopeOf } from './known-motors.js';

describe('the motor constant of a mass', () => {
  it('a slip of a digit in either Kv or resistance leaves the mark for all six', () => {
    for (const motor of SIX)
      for (const slip of [10, 0.1])
        expect(Math.abs(Math.log((levelOf(motor) / MOTOR_CONSTANT.outrunner) * slip))).toBeGreaterThan(Math.log(MOTOR_CONSTANT_FACTOR));
  });

  // five of the six ask for 0.90; the large one, mass from memory, for more than one: too few to leave similarity, and said on the theory page
  it('grows with mass at least as similarity has it', () => {
    expect(slopeOf([...FLAT, ...SMALL])).toBeCloseTo(0.9, 1);
    expect(slopeOf(SIX)).toBeCloseTo(1.03, 1);
    expect(slopeOf([...FLAT, ...SMALL])).toBeGreaterThan(MOTOR_CONSTANT.exponent);
  });
});
