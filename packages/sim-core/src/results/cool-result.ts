/** The smallest cooling that makes a failing candidate pass on its profile, or that none does and why. SI. */
import type { HeatLimitId } from './rating-result.js';

export const REMEDIES = ['air-speed', 'sink-area', 'jacket-conductance', 'controller-conductance', 'cell-conductance'] as const;
export type Remedy = (typeof REMEDIES)[number];

export type CoolingAnswer =
  /** Passes as it is. */
  | { readonly kind: 'not-needed' }
  /** `value` in m/s, m² or W/K, added to what the scenario has. */
  | { readonly kind: 'enough'; readonly value: number; readonly peaks: Readonly<Record<HeatLimitId, number>> }
  /** Even the most that was tried leaves a limit passed. */
  | { readonly kind: 'not-enough'; readonly tried: number; readonly limit: HeatLimitId; readonly worst: number; readonly bound: number }
  /** It would not touch what fails, or cannot be fitted. */
  | { readonly kind: 'useless'; readonly why: string };

export interface CoolResult {
  readonly name: string;
  /** Temperature limits passed without more cooling. */
  readonly failing: readonly HeatLimitId[];
  /** Failures that no cooling mends (cut-off, maker's current, …), in words. */
  readonly others: readonly string[];
  readonly remedies: readonly { readonly remedy: Remedy; readonly answer: CoolingAnswer }[];
}
