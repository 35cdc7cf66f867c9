/** The gear as given, or none. @module */

import type { Gearbox } from '../../parts/gearbox.js';
import type { Data } from '../datum.js';
import type { GivenDrive } from '../given.js';
import type { Filler } from './filler.js';

export const completeGearbox = (fill: Filler, { gearbox }: GivenDrive): Gearbox<Data> => ({
  ratio: gearbox?.ratio ?? fill.by('direct-drive'),
  efficiency: gearbox === undefined ? fill.by('no-gear-loss') : (gearbox.efficiency ?? fill.by('gear-efficiency')),
  mass: gearbox?.mass ?? fill.by('gear-mass'),
});
