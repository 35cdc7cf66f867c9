/** A limit as a run meets it, for tests that need one in their hands. */
import type { LimitResult } from '@shaftwork/sim-core/results/limit-result';
import { LIMITS, type LimitId } from '@shaftwork/sim-core/results/limits';

/** Kept with a third to spare unless said otherwise. */
export function limitResult({ id, ...more }: { readonly id: LimitId } & Partial<LimitResult>): LimitResult {
  const { words, dimension, shown, sense } = LIMITS[id];
  const told = { bound: 30, worst: 20, start: 0, worstTime: 12, origin: 'scenario line 4', ...more };
  const margin = sense === 'ceiling' ? told.bound - told.worst : told.worst - told.bound;
  return { id, words, dimension, shown, sense, margin, marginShare: margin / Math.abs(told.bound - told.start), ...told };
}
