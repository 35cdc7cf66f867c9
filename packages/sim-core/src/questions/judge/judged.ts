/** A result and its verdict. @module */

import type { RunResult } from '../../results/run-result.js';
import { verdictOf } from '../../words/verdict.js';
import { asGoodAsFirst } from './rank.js';

/** The result with its verdict, from all that is known by now. */
export function judged(result: RunResult): RunResult {
  const { objective, duration } = result.scenario;
  const ranked = result.ranking.map((name) => result.candidates.find((candidate) => candidate.name === name)!);
  return { ...result, verdict: verdictOf(ranked, objective, asGoodAsFirst(ranked, objective, duration), result) };
}
