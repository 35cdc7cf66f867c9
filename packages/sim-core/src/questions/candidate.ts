/** One candidate as every question takes it. @module */

import type { DriveSystem } from '../drive/drive-system.js';
import type { Data } from '../provenance/datum.js';
import type { GivenDrive } from '../provenance/given.js';
import type { Chosen } from '../provenance/rules/choices.js';

/** A candidate's name, what was written of it, and the same with every gap filled. */
export interface RunInput {
  readonly name: string;
  readonly given: GivenDrive;
  readonly data: DriveSystem<Data>;
  /** What was taken of all that is no number, where nothing was said. */
  readonly choices: readonly Chosen[];
}
