/** The gear as given, or none. @module */

import type { Gearbox } from '../../parts/gearbox.js';
import type { Datum } from '../datum.js';
import type { GivenDrive } from '../given.js';
import type { Filler } from './filler.js';

export const completeGearbox = (fill: Filler, { gearbox }: GivenDrive): Gearbox<Datum> => ({
  ratio: gearbox?.ratio ?? fill.fixed('direct-drive', 1),
  efficiency: gearbox === undefined ? fill.fixed('direct-drive', 1) : (gearbox.efficiency ?? fill.fixed('gear-efficiency', 0.95)),
  mass: gearbox?.mass ?? fill.fixed('gear-mass', 0),
});
