/** What a body's temperature is when a run starts: the motor's bodies have one, controller and cells their own. @module */

import type { Body } from '../heat/heat-paths.js';
import type { Start } from './drive-system.js';

/** [K] */
export function startTemperature({ motorTemperature, controllerTemperature, cellTemperature }: Start, body: Body): number {
  switch (body) {
    case 'winding':
    case 'stator':
    case 'can':
    case 'magnets':
      return motorTemperature;
    case 'controller':
      return controllerTemperature;
    case 'cells':
      return cellTemperature;
  }
}
