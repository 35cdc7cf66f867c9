/** Whether the blades of a screw have the area that its thrust asks for. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import { kellerMinimumAreaRatio } from '../../parts/propeller/cavitation.js';
import { STANDARD_GRAVITY } from '../../quantities/constants.js';
import type { Finding } from '../../results/finding.js';
import type { Simulation } from '../simulate/simulate.js';

type Small = Omit<Extract<Finding, { kind: 'blade-area-small' }>, 'candidate'>;

/** An overload shorter than this, as in a spurt from rest, is not worth a word [s]; judgement, no published source. */
const SHORT = 5;

/** The greatest need by Keller's rule where it is passed for more than a moment; nothing for screws whose blades are not known. */
export function bladeAreaSmall({ load, surroundings, drives }: DriveSystem, { recorded }: Pick<Simulation, 'recorded'>): Small | undefined {
  if (load.kind !== 'propeller' || load.screw === undefined || recorded === undefined) return undefined;
  const { blades, areaRatio, immersion, vapourPressure } = load.screw;
  const screw = { blades, diameter: load.diameter, hull: drives > 1 ? 'twin' : 'single' } as const;
  const water = { pressure: surroundings.airPressure + load.density * STANDARD_GRAVITY * immersion, vapourPressure };
  const { time, thrust } = recorded.trace;
  let lasting = 0;
  let worst = { time: 0, bound: areaRatio, thrust: 0 };
  for (let k = 0; k < time.length; k++) {
    const bound = kellerMinimumAreaRatio(screw, thrust[k], water);
    if (!(bound > areaRatio)) continue;
    if (k + 1 < time.length) lasting += time[k + 1] - time[k];
    if (bound > worst.bound) worst = { time: time[k], bound, thrust: thrust[k] };
  }
  return lasting > SHORT ? { kind: 'blade-area-small', value: areaRatio, ...worst, lasting } : undefined;
}
