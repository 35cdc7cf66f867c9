/** The parts list of a result: its lines and what they are called. @module */

/** The parts of one candidate as people write them into a build log. */
export const PART_LINES = ['vehicle', 'motor', 'windings', 'controller', 'battery', 'wiring', 'gearbox', 'load', 'cooling'] as const;

/** One of `PART_LINES`. */
export interface PartLine {
  readonly id: (typeof PART_LINES)[number];
  readonly words: string;
  /** What was given of it, in people's units, without tolerances. */
  readonly text: string;
}
