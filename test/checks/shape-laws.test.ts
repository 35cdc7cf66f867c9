/**
 * Shapes and windings against closed forms (D. Hanselman, Brushless Permanent Magnet Motor Design, 2nd ed., 2003, ch. 4: torque ∝ D²L, end
 * turns; the optimum at equal D²L is elementary calculus on it) and against the machine they were scaled from.
 */
import { readFileSync } from 'node:fs';
import { lossTorque, motorConstant } from '@shaftwork/sim-core/parts/motor';
import { complete } from '@shaftwork/sim-core/provenance/complete/complete';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { motorConstantSquared, reshaped, rewound, shapeAt, shearTorque } from '@shaftwork/sim-core/questions/frame/shape-laws';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const made = prepareScenario(
  new Map([['b.yaml', readFileSync(new URL('../../scenarios/survey-boat.yaml', import.meta.url), 'utf8')]]),
  'b.yaml',
);
if (!('prepared' in made)) throw new Error(JSON.stringify(made));
const [wide] = made.prepared.candidates;
const from = { diameter: 0.039, length: 0.047, stack: 0.032 };
const dataOf = (given: typeof wide.given) => {
  const completion = complete('Wide', given);
  if (!completion.ok) throw new Error(JSON.stringify(completion.problems));
  return realise(completion.data);
};

describe('shape laws', () => {
  it('torque is force times radius, and proportional to length', () => {
    const [stress, diameter, length] = [12e3, 0.02, 0.05];
    const force = stress * Math.PI * diameter * length;
    expect(shearTorque(stress, diameter, length)).toBeCloseTo(force * 0.5 * diameter, 12);
    expect(shearTorque(stress, diameter, 3 * length)).toBeCloseTo(3 * shearTorque(stress, diameter, length), 12);
    expect(shearTorque(stress, 2 * diameter, length)).toBeCloseTo(4 * shearTorque(stress, diameter, length), 12);
  });

  it.each([0.25, 0.5, 1])('at equal D²L without end bells the motor constant is greatest at L/D = k/2 (k = %s)', (k) => {
    const volume = 6e-5;
    const at = (slenderness: number): number => {
      const diameter = (volume / slenderness) ** (1 / 3);
      return motorConstantSquared(diameter, slenderness * diameter, k);
    };
    const best = at(k / 2);
    for (const factor of [0.8, 0.95, 0.99, 1.01, 1.05, 1.25]) expect(at((k / 2) * factor)).toBeLessThan(best);
  });

  it('keeps mass: D² times can length is one for the family, and end bells are of one length', () => {
    for (const ratio of [0.3, 0.5, 1, 1.5]) {
      const to = shapeAt(from, ratio);
      expect(to.diameter / to.length).toBeCloseTo(ratio, 12);
      expect(to.diameter ** 2 * to.length).toBeCloseTo(from.diameter ** 2 * from.length, 15);
      expect(to.length - to.stack).toBeCloseTo(0.015, 12);
    }
    expect(() => shapeAt(from, 6)).toThrow(RangeError);
  });

  it('gives the reference back at its own shape', () => {
    const same = dataOf(reshaped(wide.given, from, shapeAt(from, from.diameter / from.length), 0.15));
    const own = realise(wide.data);
    expect(same.motor.resistance).toBeCloseTo(own.motor.resistance, 12);
    expect(same.motor.hysteresisTorque).toBeCloseTo(own.motor.hysteresisTorque, 12);
    expect(same.heat.windingToStator).toBeCloseTo(own.heat.windingToStator, 12);
    expect(same.heat.sideArea).toBeCloseTo(own.heat.sideArea, 12);
    expect(same.heat.jacket!.conductance).toBeCloseTo(own.heat.jacket!.conductance, 12);
  });

  it('same Kv is same torque constant in every shape; resistance follows the motor constant, the jacket the side', () => {
    const to = shapeAt(from, 0.4);
    const long = dataOf(reshaped(wide.given, from, to, 0.15)).motor;
    const own = realise(wide.data).motor;
    expect(long.torqueConstant).toBe(own.torqueConstant);
    const expected = motorConstantSquared(to.diameter, to.stack, 0.5) / motorConstantSquared(from.diameter, from.stack, 0.5);
    expect((motorConstant(long) / motorConstant(own)) ** 2).toBeCloseTo(expected, 9);
    expect(long.mass).toBe(own.mass);
  });

  it('rewinding leaves motor constant and loss torque at every speed', () => {
    const own = realise(wide.data).motor;
    for (const factor of [0.5, 0.9, 2]) {
      const motor = dataOf(rewound(wide.given, factor)).motor;
      expect(motor.torqueConstant * factor).toBeCloseTo(own.torqueConstant, 12);
      expect(motorConstant(motor)).toBeCloseTo(motorConstant(own), 12);
      for (const speed of [100, 1000]) expect(lossTorque(motor, speed, 1)).toBeCloseTo(lossTorque(own, speed, 1), 12);
    }
  });
});
