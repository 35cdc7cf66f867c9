/**
 * Groups of doubt: numbers that are narrowed by the same measurement, and weigh alike on how warm the winding gets. Every rule that may be off
 * and every written kind of number stands in one; which measurement that is and how much it weighs, `questions/doubt` says for each.
 *
 * @module
 */

/** Names of the groups; of `other` nothing is proposed. */
export const DOUBT_GROUPS = [
  'resistance',
  'kv',
  'inductance',
  'no-load',
  'loss-share',
  'friction-share',
  'slot-contact',
  'stator-size',
  'way-within',
  'way-to-air',
  'water-jacket',
  'jacket-at-rest',
  'winding-capacity',
  'body-capacity',
  'magnet-capacity',
  'other-capacity',
  'pack-capacity',
  'cell-resistance',
  'cell-shape',
  'open-circuit',
  'controller',
  'controller-capacity',
  'ripple',
  'wiring',
  'blade-angle',
  'reach',
  'propeller',
  'drag',
  'ground',
  'weather',
  'mass',
  'other',
] as const;
/** One of `DOUBT_GROUPS`. */
export type DoubtGroup = (typeof DOUBT_GROUPS)[number];
