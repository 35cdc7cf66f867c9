/** The schema of a drive, section by section. @module */

import { z } from 'zod';
import { OBJECTIVES } from '../../provenance/given.js';
import { NOT_NEGATIVE } from './bounds.js';
import { battery, controller, wiring } from './electrics.js';
import { choice, count, group, quantity, words } from './fields.js';
import { measured } from './log.js';
import { gearbox, motor } from './motor.js';
import { profile } from './profile.js';
import { propeller } from './propeller.js';
import { readings } from './readings.js';
import { ambient, space, start } from './surroundings.js';
import { cooling, limits, vehicle, wheel } from './vehicle.js';

/** Everything a candidate may override, a whole drive when merged. */
const sections = {
  ambient,
  battery,
  start,
  wiring,
  controller,
  motor,
  gearbox,
  propeller,
  wheel,
  vehicle,
  cooling,
  limits,
  space,
  readings,
  other_loads: quantity('power', 'power the pack gives to everything but the drive', '10 W', NOT_NEGATIVE),
  solver: group(
    {
      shaft_speed: choice(
        ['quasi-steady', 'with-inertia'],
        'whether the shaft of a propeller has its steady speed at once, or rotor and propeller take time to come to it where throttle or motor current is held',
      ),
    },
    'how the run is solved',
  ),
  drives: count('equal drives on one pack', '2', { from: 1, to: 64 }),
};

export const drive = z.strictObject(sections).partial();
export type SectionName = keyof typeof sections;
export const SECTION_NAMES = Object.keys(sections) as readonly SectionName[];

/** Sections that can stand in a file of their own and be brought in by `use:`. */
export const PART_KINDS = ['battery', 'wiring', 'controller', 'motor', 'gearbox', 'propeller', 'wheel', 'vehicle', 'cooling'] as const;
/** A section that may stand in a file of its own. */
export type PartKind = (typeof PART_KINDS)[number];
export const PARTS = { battery, wiring, controller, motor, gearbox, propeller, wheel, vehicle, cooling } satisfies Record<
  PartKind,
  z.ZodType
>;

/** What stands once in a scenario, for all candidates. */
export const head = z.strictObject({
  title: words('a line that says what this is about', 'Lake survey boat'),
  notes: words('anything else', 'Invented example.', 20_000).optional(),
  objective: choice(OBJECTIVES, 'what ranks candidates that meet every limit').optional(),
  profile: profile.optional(),
  measured: measured.optional(),
});

export const candidateName = z.strictObject({ name: words('the name of this candidate', 'Wide') });
