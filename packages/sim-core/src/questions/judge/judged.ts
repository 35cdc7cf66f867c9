/** A result and its verdict. @module */
import { named } from '../../problems/certain.js';
import type { RunResult } from '../../results/run-result.js';
import { verdictOf } from '../../words/verdict.js';
import { asGoodAsFirst, nearestBy } from './rank.js';

/** The result with its verdict, from all that is known by now. */
export function judged(result: RunResult): RunResult {
  const { objective, duration } = result.scenario;
  const ranked = result.ranking.map((name) => named(result.candidates, name));
  const by = nearestBy(ranked, objective, duration);
  const grounds = { ...result, ...(by === undefined ? {} : { nearestBy: by }) };
  return { ...result, verdict: verdictOf(ranked, objective, asGoodAsFirst(ranked, objective, duration), grounds) };
}
