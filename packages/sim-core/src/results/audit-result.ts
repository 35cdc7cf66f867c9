/**
 * What the spec sheets say when they are held against physics, against each other and against what the trade usually sees. Plain data, SI.
 *
 * @module
 */

import { AUDIT_EXPLANATIONS } from '../problems/index.js';

/** One number of a sheet, or made from it. */
export interface AuditFigure {
  readonly id: AuditFigureId;
  readonly words: string;
  /** The figure [SI]. */
  readonly value: number;
  readonly unit: string;
  /** The value as people see it, with its unit. */
  readonly text: string;
  /** At what it holds ("at 17 V"). */
  readonly at?: string;
}

/** Figures that are made of a sheet, with words and unit. */
export const AUDIT_FIGURES = [
  'torqueConstant',
  'speedTorqueGradient',
  'motorConstant',
  'motorConstantPerMass',
  'resistanceTimesKvSquared',
  'stallCurrent',
  'noLoadSpeed',
  'rotorSurfaceSpeed',
  'electricalSpeed',
  'peakEfficiency',
  'peakEfficiencyCurrent',
  'ratedPowerShare',
  'ratedCopperLoss',
  'ratedWindingTemperature',
  'ratedTimeToLimit',
  'loadedSpeedRatio',
  'noLoadShare',
  'meanInputPerMass',
  'ratedInputPerMass',
  'tipMach',
  'canTemperature',
  'dischargeRate',
] as const;
/** One of `AUDIT_FIGURES`. */
export type AuditFigureId = (typeof AUDIT_FIGURES)[number];

/** Kinds of oddity; their general texts stand in problems/audit-explanations.ts. */
export type OddityKind = keyof typeof AUDIT_EXPLANATIONS;
/** Kinds of odd things. */
export const ODDITY_KINDS = Object.keys(AUDIT_EXPLANATIONS) as readonly OddityKind[];

/** Something a practitioner would remark on. */
export interface Oddity {
  readonly kind: OddityKind;
  /** Whose sheet it stands on; several where they disagree with each other. */
  readonly candidates: readonly string[];
  /** Contradiction: the numbers cannot all be right. Unusual: possible, seldom met. Note: right, and worth knowing before buying. */
  readonly weight: 'contradiction' | 'unusual' | 'note';
  /** What is odd, with the figures, one sentence. */
  readonly says: string;
  /** What it would mean, and what measurement settles it. */
  readonly means: string;
  readonly settles: string;
  /** Where the mark comes from: "physics", or a rule of the trade so labelled. */
  readonly basis: string;
  /** The value met and the mark it was held against, in one unit [SI]; the bound is the edge that was passed. */
  readonly value: number;
  /** The mark, in the same unit [SI]; absent where there is none to name. */
  readonly bound?: number;
  readonly unit: string;
}

/** Figures by which a sheet is judged, and what is odd about them. */
export interface CandidateAudit {
  readonly name: string;
  readonly figures: readonly AuditFigure[];
}

/** Candidates of the same can and mass, taken for winds of one frame. */
export interface FrameAudit {
  readonly candidates: readonly string[];
  /** R·Kv² of each [W/(N·m)²]: copper loss per torque squared, the inverse square of the motor constant; rewinding leaves it. */
  readonly resistanceTimesKvSquared: readonly number[];
  /** Largest over smallest [1]. */
  readonly spread: number;
}

/** What is odd about the sheets of a scenario. */
export interface AuditResult {
  readonly candidates: readonly CandidateAudit[];
  readonly frames: readonly FrameAudit[];
  /** Contradictions first. */
  readonly oddities: readonly Oddity[];
}
