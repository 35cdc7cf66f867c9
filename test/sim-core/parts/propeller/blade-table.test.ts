import { type Rotor, rotorCoefficients } from '@shaftwork/sim-core/parts/propeller/blade-element';
import { BLADE_FAMILIES, familyGeometry } from '@shaftwork/sim-core/parts/propeller/blade-families';
import { rotorFromGeometry } from '@shaftwork/sim-core/parts/propeller/blade-geometry';
import { BLADE_TABLE_REYNOLDS, bladeElementTable } from '@shaftwork/sim-core/parts/propeller/blade-table';
import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { emptyPropellerPoint, evaluatePropeller } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { describe, expect, it } from 'vitest';

const out = emptyCoefficients();
const rotors = BLADE_FAMILIES.flatMap((family) =>
  [0.12, 0.2].map((pitch) => rotorFromGeometry(familyGeometry(family, { diameter: 0.25, pitch, blades: 2 }))),
);
const air = { density: 1.2, kinematicViscosity: 1.5e-5 };

describe('a blade-element propeller as a table', () => {
  it('is met between its rows within 0.3 % of the static values, at a Reynolds number of its own', () => {
    for (const rotor of rotors) {
      const table = bladeElementTable(rotor);
      const rest = rotorCoefficients(rotor, 0, BLADE_TABLE_REYNOLDS[2]!);
      for (let j = 0; j < table.supported.to; j += 0.0173) {
        const direct = rotorCoefficients(rotor, j, BLADE_TABLE_REYNOLDS[2]!);
        evaluateTable(table, j, Math.log(BLADE_TABLE_REYNOLDS[2]!), out);
        expect(Math.abs(out.thrustCoefficient - direct.thrustCoefficient)).toBeLessThan(0.003 * rest.thrustCoefficient);
        expect(Math.abs(out.powerCoefficient - direct.powerCoefficient)).toBeLessThan(0.003 * rest.powerCoefficient);
      }
    }
  });
  it('is met between its Reynolds numbers within 3 %', () => {
    for (const rotor of rotors) {
      const table = bladeElementTable(rotor);
      for (const discReynolds of [8.4e4, 2.4e5, 6.6e5, 1.8e6]) {
        for (const j of [0, 0.15, 0.3]) {
          const direct = rotorCoefficients(rotor, j, discReynolds);
          evaluateTable(table, j, Math.log(discReynolds), out);
          expect(Math.abs(out.thrustCoefficient / direct.thrustCoefficient - 1)).toBeLessThan(0.03);
          expect(Math.abs(out.powerCoefficient / direct.powerCoefficient - 1)).toBeLessThan(0.03);
        }
      }
    }
  });
  it('supports windmilling, and goes on to a stopped propeller that only drags', () => {
    for (const rotor of rotors) {
      const table = bladeElementTable(rotor);
      evaluateTable(table, table.supported.to, Math.log(4e5), out);
      expect(out.thrustCoefficient).toBeLessThan(0);
      expect(out.powerCoefficient).toBeLessThan(0);
      const point = emptyPropellerPoint();
      evaluatePropeller({ diameter: 0.25, table, thrustFactor: 1, powerFactor: 1 }, air, 0, 10, point);
      const pressure = 0.5 * air.density * 100;
      // two blades of about 0.15 R mean chord held across the stream: area 0.15·R² each, normal coefficient about 1.3
      const bladeArea = 2 * 0.15 * 0.125 ** 2;
      expect(-point.thrust / (pressure * bladeArea)).toBeGreaterThan(0.7);
      expect(-point.thrust / (pressure * bladeArea)).toBeLessThan(1.6);
      expect(point.torque).toBeLessThan(0);
      expect(point.outside).toBe(Infinity);
    }
  });
  it('needs a blade with forward pitch', () => {
    const backwards: Rotor = { ...rotors[0]!, elements: rotors[0]!.elements.map((element) => ({ ...element, twist: -0.3 })) };
    expect(() => bladeElementTable(backwards)).toThrow(/forward pitch/);
  });
});
