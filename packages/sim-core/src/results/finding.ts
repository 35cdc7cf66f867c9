/** What the physics says beside the figures; part of the Result, never thrown. Values SI. @module */

import type { LimitedBody } from '../drive/heat-limits.js';
import type { Dimension, Si } from '../quantities/index.js';
import type { LimitId } from './limits.js';

/** What holds a current back: the controller's limit on the motor's or the battery's, or its own heat. */
export type LimiterKind = 'motor' | 'battery' | 'heat';

/**
 * One thing the physics says: its kind, whose it is, when [s], and what belongs to the kind: `value` the one met, `bound` the one it was held against,
 * `wanted` and `reached` what a step asks for and gets, all [SI]; `step` the number of the step, from 0 [1].
 */
export type Finding = { readonly candidate: string; readonly time?: Si<'time'> } & (
  | { readonly kind: 'limit-passed'; readonly limit: LimitId; readonly value: number; readonly bound: number }
  | {
      readonly kind: 'step-not-held';
      readonly step: number;
      readonly label?: string;
      /** What was given up, where it is not what the step holds: a wing keeps its speed [m/s] and climbs slower [m/s]. */
      readonly what?: 'climb';
      /** End of the step [s], where it is lost to there; `wanted` and `reached` are then of that moment. */
      readonly until?: Si<'time'>;
      readonly wanted: number;
      readonly reached: number;
    }
  | { readonly kind: 'no-operating-point'; readonly step: number; readonly label?: string; readonly why: string }
  | { readonly kind: 'several-operating-points'; readonly count: number }
  | { readonly kind: 'motor-stalled'; readonly step: number; readonly label?: string }
  /** `bound`: motor current (of the pack, where the battery's limit binds) that is left [A]; `throttle` the least that came of it [1]. */
  | {
      readonly kind: 'current-limited';
      readonly step: number;
      readonly label?: string;
      readonly by: LimiterKind;
      readonly bound: Si<'current'>;
      /** Duty of the controller, 0 to 1 [1]. */
      readonly throttle: number;
    }
  /** The run ends where a part is destroyed: `value` its temperature [K]. */
  | { readonly kind: 'burnt-out'; readonly body: LimitedBody; readonly value: Si<'temperature'> }
  | { readonly kind: 'cut-off-reached'; readonly bound: Si<'voltage'> }
  | { readonly kind: 'battery-empty' }
  /** Without a value where the propeller all but stands still in the stream, and its advance ratio has none. */
  | { readonly kind: 'outside-propeller-table'; readonly value?: number; readonly bound: number }
  | { readonly kind: 'outside-drag-table'; readonly value: Si<'speed'>; readonly bound: Si<'speed'> }
  | { readonly kind: 'does-not-fit'; readonly what: 'diameter' | 'length' | 'mass'; readonly value: number; readonly bound: number }
  | { readonly kind: 'braked-beyond-drive'; readonly step: number; readonly label?: string }
  /** `bound`: what the ground takes [N]. */
  | { readonly kind: 'wheels-spin'; readonly step: number; readonly label?: string; readonly bound: Si<'force'> }
  /** `value`: the speed held; `bound`: the slowest at which the wing carries [m/s]. */
  | {
      readonly kind: 'below-stall-speed';
      readonly step: number;
      readonly label?: string;
      readonly value: Si<'speed'>;
      readonly bound: Si<'speed'>;
    }
  /** A held speed that a wing keeps only straight up or down: `value` thrust less drag, `bound` weight [N]. */
  | {
      readonly kind: 'steeper-than-vertical';
      readonly step: number;
      readonly label?: string;
      readonly value: Si<'force'>;
      readonly bound: Si<'force'>;
    }
  /** Motor current above what magnets of that temperature bear without losing strength for good. */
  | {
      readonly kind: 'magnets-weakened';
      readonly value: Si<'current'>;
      readonly bound: Si<'current'>;
      readonly temperature: Si<'temperature'>;
    }
  /** No equilibrium at full throttle: copper and magnets heat themselves. `value` and `bound`: motor current there, and the most that has one. */
  | { readonly kind: 'thermal-runaway'; readonly value: Si<'current'>; readonly bound: Si<'current'> }
  /** Braking has charged the pack beyond full: `value` charge [1]. */
  | { readonly kind: 'pack-overcharged'; readonly value: Si<'fraction'>; readonly bound: Si<'fraction'> }
  /** Driven so fast that the motor's own voltage passes the pack's: `value` and `bound` [V]. */
  | {
      readonly kind: 'motor-overrun';
      readonly step: number;
      readonly label?: string;
      readonly value: Si<'voltage'>;
      readonly bound: Si<'voltage'>;
    }
  /** Blades too small for the thrust: `value` their area over that of the disc, `bound` what it should be at most [1], `lasting` how long in all [s]. */
  | {
      readonly kind: 'blade-area-small';
      readonly value: number;
      readonly bound: number;
      readonly thrust: Si<'force'>;
      readonly lasting: Si<'time'>;
    }
  /**
   * A reading more than three standard deviations from what the data allow, or the other readings: `value` what was read, `bound` what was expected;
   * `against` the number that it would move farthest, from `written` to `asked`; without it, the other readings.
   */
  | {
      readonly kind: 'reading-contradicts';
      readonly reading: string;
      /** Of the scenario. */
      readonly line: number;
      readonly dimension: Dimension;
      readonly value: number;
      readonly bound: number;
      readonly deviations: number;
      readonly against?: string;
      readonly asked?: number;
      readonly written?: number;
      readonly askedDimension?: Dimension;
    }
);
/** The kinds of findings. */
export type FindingKind = Finding['kind'];
/** A reading far off what the rest says. */
export type Contradiction = Extract<Finding, { kind: 'reading-contradicts' }>;

/** A hold that misses what was asked by less than this share still counts as held; judgement, no published source [1]. */
const HELD_WITHIN = 0.01;

/** Whether what was reached falls short of what a step asked for. Both [SI]. */
export const fallsShort = ({ wanted, reached }: { readonly wanted: number; readonly reached: number }): boolean =>
  !(Math.abs(wanted - reached) <= HELD_WITHIN * Math.abs(wanted));

/** Share of what lost holds asked for that the worst of them lacks, from 0 to 1. */
export const greatestLack = (lost: readonly { readonly wanted: number; readonly reached: number }[]): number =>
  lost
    .filter(fallsShort)
    .reduce((most, { wanted, reached }) => Math.max(most, Math.min(1, Math.abs(wanted - reached) / Math.abs(wanted))), 0);

/** The first step that a candidate does not hold; undefined where it holds all. */
export const stepNotHeld = (findings: readonly Finding[]): Extract<Finding, { kind: 'step-not-held' }> | undefined =>
  findings.find(
    (finding): finding is Extract<Finding, { kind: 'step-not-held' }> => finding.kind === 'step-not-held' && fallsShort(finding),
  );
