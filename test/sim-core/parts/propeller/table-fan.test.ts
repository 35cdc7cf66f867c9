import { rotorCoefficients } from '@shaftwork/sim-core/parts/propeller/blade-element';
import { BLADE_FAMILIES, familyGeometry } from '@shaftwork/sim-core/parts/propeller/blade-families';
import { rotorFromGeometry } from '@shaftwork/sim-core/parts/propeller/blade-geometry';
import { bladeElementTable, bladeFan, turned } from '@shaftwork/sim-core/parts/propeller/blade-table';
import { emptyCoefficients, evaluateTable } from '@shaftwork/sim-core/parts/propeller/coefficient-lookup';
import { tableAt } from '@shaftwork/sim-core/parts/propeller/table-fan';
import { describe, expect, it } from 'vitest';

const DEGREE = Math.PI / 180;
const out = emptyCoefficients();

describe('a fan of tables over the angle of the blades', () => {
  it('is the table itself in the middle, and follows the turned blades within 4 % of the values at rest', () => {
    for (const family of BLADE_FAMILIES)
      for (const pitch of [0.08, 0.125]) {
        const rotor = rotorFromGeometry(familyGeometry(family, { diameter: 0.25, pitch, blades: 2 }));
        const fan = bladeFan(rotor, 0, 3 * DEGREE);
        expect(tableAt(fan, 0)).toBe(fan.table);
        expect(fan.table).toEqual(bladeElementTable(rotor));
        const rest = rotorCoefficients(rotor, 0, 4e5);
        for (const angle of [-4, -1.5, 1.5, 4]) {
          const table = tableAt(fan, angle * DEGREE);
          for (let j = 0; j < 0.8 * table.supported.to; j += 0.1) {
            const direct = rotorCoefficients(turned(rotor, angle * DEGREE), j, 4e5);
            evaluateTable(table, j, Math.log(4e5), out);
            expect(Math.abs(out.thrustCoefficient - direct.thrustCoefficient)).toBeLessThan(0.04 * rest.thrustCoefficient);
            expect(Math.abs(out.powerCoefficient - direct.powerCoefficient)).toBeLessThan(0.04 * rest.powerCoefficient);
          }
        }
      }
  });
  it('can turn the flattest blade that is taken, and holds its ends', () => {
    const rotor = rotorFromGeometry(familyGeometry('thin', { diameter: 0.25, pitch: 0.0375, blades: 2 }));
    const fan = bladeFan(rotor, 0, 6 * DEGREE);
    expect([...tableAt(fan, -1).thrust].every(Number.isFinite)).toBe(true);
    expect(tableAt(fan, 20 * DEGREE).thrust).toEqual(tableAt(fan, 1.75 * fan.step).thrust);
  });
});
