/** What a thermometer could touch, and what it could not, at a moment of a run. @module */
import type { DriveSystem } from '../../drive/drive-system.js';
import type { Body } from '../../heat/heat-paths.js';
import { mountHeat } from '../../heat/mount.js';
import type { StatePlaces } from '../../kernel/state-places.js';
import type { StopBody } from '../../results/after-stop-result.js';

/** Temperatures [K] of what can be touched and of what cannot, from the kernel's state. */
export function stopBodies(system: DriveSystem, at: StatePlaces, y: Float64Array): Record<StopBody, number> {
  const body = (name: Body): number => y[at[name]];
  const { heat, surroundings } = system;
  const stator = body('stator');
  // an outrunner's fixed end lies on the way from stator to mount; an inrunner's end bells are part of the can
  const { motorAirTemperature: air, airPressure } = surroundings;
  const joint =
    heat.mount === undefined || heat.toMount === 0
      ? 1
      : mountHeat(heat, stator, air, airPressure, 0) / (heat.toMount * (stator - air || 1));
  const mount = stator + joint * (air - stator);
  const end = heat.layout === 'outrunner' ? stator + heat.endPlace * (mount - stator) : body('can');
  return {
    can: body('can'),
    end,
    controller: body('controller'),
    cells: body('cells'),
    winding: body('winding'),
    stator,
    magnets: body('magnets'),
  };
}
