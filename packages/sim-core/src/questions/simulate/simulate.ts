/** Integrates one drive over a profile. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { ProfileStep } from '../../drive/profile.js';
import { ProfileRun } from './profile-run.js';
import type { SimulateOptions, Simulation } from './simulation.js';

export { DEFAULT_TOLERANCE, recordingOf, type SimulateOptions, type Simulation } from './simulation.js';

/** Runs `system` over `profile`. */
export function simulate(system: DriveSystem, profile: readonly ProfileStep[], options: SimulateOptions = {}): Simulation {
  const run = new ProfileRun(system, profile, options);
  run.drive();
  return run.result();
}
