/**
 * A run along a log file as the one step that people know: findings of its pieces are told once a kind, at the first time they occur. A limit
 * that is passed and what does not fit are told as they are.
 *
 * @module
 */

import type { Finding } from '../../results/finding.js';
import type { CandidateResult } from '../../results/run-result.js';

/** The candidate’s result with its many steps as one. */
export function asOneStep(candidate: CandidateResult): CandidateResult {
  const seen = new Set<string>();
  const findings = candidate.findings.flatMap((finding): Finding[] => {
    if (!('step' in finding)) return [finding];
    const key = finding.kind;
    if (seen.has(key)) return [];
    seen.add(key);
    return [{ ...finding, step: 0 }];
  });
  return { ...candidate, findings };
}
