/** Where a drive settles when its throttle is held for ever with the pack at one charge, and which way its heat then leaves. */
import type { DriveSystem } from '../drive/drive-system.js';
import { BODIES, type Body } from '../heat/heat-paths.js';
import { type Equilibrium, HEAT_WAYS, type HeatWay } from '../results/equilibrium-result.js';
import { holdDrive } from './held-drive.js';

/** The equilibrium at `throttle` (0–1] and `charge` [1], the vehicle at the speed that gives; undefined where the heat finds none. */
export function equilibriumAt(system: DriveSystem, throttle: number, charge: number): Equilibrium | undefined {
  const drive = holdDrive(system, charge);
  drive.hold(throttle);
  if (!drive.settle()) return undefined;
  const { kernel, state } = drive;
  kernel.solve(0, state);
  kernel.shed(state);
  const { outlets } = kernel;
  return {
    temperatures: Object.fromEntries(BODIES.map((body, k) => [body, state[kernel.bodyIndex[k]]])) as Record<Body, number>,
    leaves: Object.fromEntries(HEAT_WAYS.map((way) => [way, way === 'cells' ? outlets.cells / system.drives : outlets[way]])) as Record<
      HeatWay,
      number
    >,
  };
}
