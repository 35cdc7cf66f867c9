/**
 * The steps of a profile as a reader would tell them: "8 × survey line, then sprint turn", "34 × lap (launch, straight, brake …)".
 *
 * @module
 */

import type { CandidateResult, StepResult } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';

export interface Bracket {
  readonly from: number;
  readonly to: number;
  /** Empty for steps without a name. */
  readonly text: string;
  /** How often its steps are driven over, and how many they are. */
  readonly count: number;
  readonly period: number;
}

const LONGEST_PATTERN = 24;
/** A pattern of more steps than this is a lap, of which the first three are named. */
const LONGEST_TOLD = 3;

export function stepBrackets(steps: readonly StepResult[]): readonly Bracket[] {
  const brackets: Bracket[] = [];
  for (let start = 0; start < steps.length; ) {
    const { period, count } = repetition(steps, start);
    const end = start + period * count;
    const pattern = steps.slice(start, start + period).map(({ label }) => label ?? '');
    const named = pattern.some((label) => label !== '');
    const text = !named ? '' : count === 1 ? pattern[0] : `${count} × ${patternText(pattern.map((label) => label || 'unnamed'))}`;
    const before = brackets.at(-1);
    if (before !== undefined && before.text === '' && text === '')
      brackets[brackets.length - 1] = { ...before, to: steps[end - 1].to, count: 1, period: before.period + end - start };
    else brackets.push({ from: steps[start].from, to: steps[end - 1].to, text, count, period });
    start = end;
  }
  return brackets;
}

const patternText = (names: readonly string[]): string =>
  names.length <= LONGEST_TOLD ? names.join(', then ') : `lap (${names.slice(0, LONGEST_TOLD).join(', ')} …)`;

/** The pattern of names from `start` that covers most steps when repeated. */
function repetition(steps: readonly StepResult[], start: number): { readonly period: number; readonly count: number } {
  let best = { period: 1, count: 1 };
  for (let period = 1; period <= LONGEST_PATTERN; period++) {
    let end = start + period;
    while (end < steps.length && steps[end].label === steps[end - period].label) end++;
    const count = Math.floor((end - start) / period);
    if (count >= 2 && period * count > best.period * best.count) best = { period, count };
  }
  return best;
}

/** Steps whose mean battery power is above that of the run: where heat is made. */
export function hardSteps(steps: readonly StepResult[], { trace }: CandidateResult): readonly StepResult[] {
  const mean = (from: number, to: number): number => {
    let energy = 0;
    let time = 0;
    for (let index = 1; index < trace.time.length; index++) {
      const start = Math.max(from, trace.time[index - 1]);
      const end = Math.min(to, trace.time[index]);
      if (end <= start) continue;
      energy += ((trace.batteryPower[index - 1] + trace.batteryPower[index]) / 2) * (end - start);
      time += end - start;
    }
    return time > 0 ? energy / time : 0;
  };
  if (steps.length < 2) return [];
  const whole = mean(steps[0].from, lastOf(steps).to);
  return steps.filter(({ from, to }) => mean(from, to) > whole);
}
