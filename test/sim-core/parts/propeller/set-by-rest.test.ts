import { rotorCoefficients } from '@shaftwork/sim-core/parts/propeller/blade-element';
import { familyGeometry } from '@shaftwork/sim-core/parts/propeller/blade-families';
import { rotorFromGeometry } from '@shaftwork/sim-core/parts/propeller/blade-geometry';
import { bladeFan, turned } from '@shaftwork/sim-core/parts/propeller/blade-table';
import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { setByRest } from '@shaftwork/sim-core/parts/propeller/set-by-rest';
import { tableAt } from '@shaftwork/sim-core/parts/propeller/table-fan';
import { describe, expect, it } from 'vitest';

const DEGREE = Math.PI / 180;
const out = emptyCoefficients();
const discReynolds = 5e5;
const rotor = (pitchRatio: number) => rotorFromGeometry(familyGeometry('thin', { diameter: 0.25, pitch: 0.25 * pitchRatio, blades: 2 }));
const at = (set: ReturnType<typeof setByRest>, x: number, j: number) => {
  evaluateTable(tableAt(set.fan, x), j, Math.log(discReynolds), out);
  return [out.thrustCoefficient, out.powerCoefficient] as const;
};

describe('a calculated propeller set by a point at rest', () => {
  it('gives the reading back, wherever in its doubt its blades stand', () => {
    const reading = { discReynolds, thrustCoefficient: 0.11, powerCoefficient: 0.05, error: 0.025 };
    const set = setByRest(rotor(0.6), reading, 3 * DEGREE);
    for (const z of [-1, 0, 0.4, 1]) {
      const [thrust, power] = at(set, set.angle + z * set.angleError, 0);
      expect(thrust).toBeCloseTo(0.11, 9);
      expect(power).toBeCloseTo(0.05, 9);
    }
    expect(set.angleError).toBeLessThan(3 * DEGREE);
    expect(set.angleError).toBeGreaterThan(1 * DEGREE);
  });
  it('changes nothing where the reading is what was calculated', () => {
    const same = rotorCoefficients(rotor(0.5), 0, discReynolds);
    const set = setByRest(rotor(0.5), { discReynolds, ...same, error: 0.02 }, 3 * DEGREE);
    expect(Math.abs(set.angle)).toBeLessThan(0.02 * DEGREE);
    for (const j of [0.2, 0.4]) {
      const direct = rotorCoefficients(rotor(0.5), j, discReynolds);
      expect(at(set, set.angle, j)[0] / direct.thrustCoefficient).toBeCloseTo(1, 1);
      expect(at(set, set.angle, j)[1] / direct.powerCoefficient).toBeCloseTo(1, 1);
    }
  });
  it('finds a turned blade again in part, and comes nearer to it at speed than scaling does', () => {
    const truth = turned(rotor(0.5), 2 * DEGREE);
    const set = setByRest(rotor(0.5), { discReynolds, ...rotorCoefficients(truth, 0, discReynolds), error: 0.02 }, 4 * DEGREE);
    expect(set.angle).toBeGreaterThan(0.6 * DEGREE);
    expect(set.angle).toBeLessThan(2.2 * DEGREE);
    const [rest, real] = [rotorCoefficients(rotor(0.5), 0, discReynolds), rotorCoefficients(truth, 0, discReynolds)];
    const j = 0.35;
    const wanted = rotorCoefficients(truth, j, discReynolds).thrustCoefficient;
    const scaled = (rotorCoefficients(rotor(0.5), j, discReynolds).thrustCoefficient * real.thrustCoefficient) / rest.thrustCoefficient;
    expect(Math.abs(at(set, set.angle, j)[0] / wanted - 1)).toBeLessThan(0.7 * Math.abs(scaled / wanted - 1));
  });
  it('does not carry to speed what a steep, stalled blade is off at rest', () => {
    const steep = rotor(1.2);
    const rest = rotorCoefficients(steep, 0, discReynolds);
    const reading = {
      discReynolds,
      thrustCoefficient: 1.3 * rest.thrustCoefficient,
      powerCoefficient: 1.3 * rest.powerCoefficient,
      error: 0.025,
    };
    const set = setByRest(steep, reading, 3 * DEGREE);
    const fast = rotorCoefficients(steep, 0.9, discReynolds);
    expect(at(set, set.angle, 0)[0] / rest.thrustCoefficient).toBeCloseTo(1.3, 2);
    expect(Math.abs(at(set, set.angle, 0.9)[0] / fast.thrustCoefficient - 1)).toBeLessThan(0.15);
  });
  it.each([
    ['flat', 0.4, 1.2],
    ['steep', 1.2, 0.8],
  ])('turns a %s blade to the least of (δ/σ)² + rᵀ·C⁻¹·r, and carries w of what is left to speed', (_, pitchRatio, level) => {
    const own = rotor(pitchRatio);
    const rest = rotorCoefficients(own, 0, discReynolds);
    const [thrustCoefficient, powerCoefficient, error] = [level * rest.thrustCoefficient, rest.powerCoefficient, 0.05];
    const set = setByRest(own, { discReynolds, thrustCoefficient, powerCoefficient, error }, 3 * DEGREE);
    // share of stall at rest by the angle at 0.75 R; covariance of section and reading, a stalled blade besides
    const pitchAngle = Math.atan(pitchRatio / (0.75 * Math.PI)) + 0.61 * DEGREE;
    const stalled = 0.3 / (1 + (19 / (pitchAngle / DEGREE)) ** 8);
    const [alone, both] = [0.12 ** 2 + error ** 2 + stalled ** 2, 0.12 ** 2 / 2];
    const cost = (angle: number): number => {
      const turnedTo = rotorCoefficients(turned(own, angle), 0, discReynolds);
      const [t, p] = [Math.log(turnedTo.thrustCoefficient / thrustCoefficient), Math.log(turnedTo.powerCoefficient / powerCoefficient)];
      // by the sum and the difference, which are independent
      return (angle / ((3 * DEGREE) / 1.96)) ** 2 + (t + p) ** 2 / (2 * (alone + both)) + (t - p) ** 2 / (2 * (alone - both));
    };
    const step = 0.02 * DEGREE;
    const around = [-1, 0, 1].map((k) => cost(set.angle + 10 * k * step));
    expect(around[1]).toBeLessThan(Math.min(around[0], around[2]));
    expect(Math.abs(set.angle)).toBeGreaterThan(3 * step);
    // the slope of the cost is nothing there
    expect(Math.abs(cost(set.angle + step) - cost(set.angle - step))).toBeLessThan(0.05 * (around[0] + around[2] - 2 * around[1]));
    const kept = 0.12 ** 2 / (0.12 ** 2 + stalled ** 2);
    const plain = bladeFan(own, set.angle, step).table;
    const calculated = (j: number): number => {
      evaluateTable(plain, j, Math.log(discReynolds), out);
      return out.powerCoefficient;
    };
    // past half the advance ratio without thrust all that is off at rest alone is gone
    const fast = 0.8 * Math.PI * 0.75 * Math.tan(pitchAngle + set.angle + 3 * DEGREE);
    const moved = at(set, set.angle, fast)[1] / calculated(fast);
    expect(Math.log(moved) / Math.log(powerCoefficient / calculated(0))).toBeCloseTo(kept, 3);
  });
  it('takes thrust or power alone', () => {
    const set = setByRest(rotor(0.5), { discReynolds, thrustCoefficient: 0.1, powerCoefficient: undefined, error: 0.025 }, 3 * DEGREE);
    expect(at(set, set.angle, 0)[0]).toBeCloseTo(0.1, 9);
  });
});
