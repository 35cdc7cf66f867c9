/** The magnets, where enough is given to say what demagnetises them. @module */

import type { Magnet } from '../../parts/magnets.js';
import type { Motor } from '../../parts/motor.js';
import type { Data } from '../datum.js';
import type { GivenDrive } from '../given.js';
import type { Filler } from './filler.js';

/** What demagnetisation needs; nothing where the magnets' thickness or grade was not given. */
export function completeMagnet(fill: Filler, given: GivenDrive, motor: Motor<Data>): Magnet<Data> | undefined {
  const sheet = given.motor;
  if (sheet?.magnetThickness === undefined || sheet.magnetGrade === undefined) return undefined;
  const { layout, canDiameter, canLength } = motor;
  return {
    thickness: sheet.magnetThickness,
    gap: sheet.airGap ?? fill.by('magnet-gap'),
    remanence: fill.by('remanence'),
    remanenceCoefficient: motor.fluxCoefficient,
    coercivity: fill.ofKind('grade-coercivity', sheet.magnetGrade),
    coercivityCoefficient: fill.by('coercivity-coefficient'),
    statorRadius: fill.by('half', { diameter: sheet.statorDiameter ?? fill.by(`${layout}-stator-diameter`, { can: canDiameter }) }),
    stackLength: sheet.stackLength ?? fill.by(`${layout}-stack`, { can: canLength }),
  };
}
