/** Where a screw's thrust asks most of its blades, and whether they have the area for it. */
import type { DriveSystem } from '../drive/drive-system.js';
import { kellerMinimumAreaRatio } from '../parts/propeller/cavitation.js';
import { STANDARD_GRAVITY } from '../quantities/constants.js';
import type { Finding } from '../results/finding.js';
import type { Simulation } from './simulate.js';

type Small = Omit<Extract<Finding, { kind: 'blade-area-small' }>, 'candidate'>;

/** The moment of the greatest thrust, if Keller's rule asks for more area there; nothing for screws whose blades are not known. */
export function bladeAreaSmall({ load, surroundings, drives }: DriveSystem, { highest }: Pick<Simulation, 'highest'>): Small | undefined {
  if (load.kind !== 'propeller' || load.screw === undefined) return undefined;
  const { blades, areaRatio, immersion, vapourPressure } = load.screw;
  const { value: thrust, time } = highest.thrust;
  const pressure = surroundings.airPressure + load.density * STANDARD_GRAVITY * immersion;
  const bound = kellerMinimumAreaRatio({ blades, diameter: load.diameter, hull: drives > 1 ? 'twin' : 'single' }, thrust, {
    pressure,
    vapourPressure,
  });
  return bound > areaRatio ? { time, kind: 'blade-area-small', value: areaRatio, bound, thrust } : undefined;
}
