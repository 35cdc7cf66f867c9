/** Which step a moment of the run belongs to, in words. @module */

import type { RunResult } from '@shaftwork/sim-core';
import { countWord } from '@shaftwork/sim-core/words';

/** "in “sprint turn”" for a time [s] of the run: the step that ends there or later; nothing for steps without a name. */
export function stepAt({ scenario: { steps } }: RunResult, time: number): string | undefined {
  return steps.find(({ to }) => time <= to + 1e-9)?.label;
}

/** "11 min 4 s" */
export function durationWords(seconds: number, perMinute: number, perHour: number): string {
  const whole = Math.round(seconds);
  const parts = [
    [Math.floor(whole / perHour), 'h'],
    [Math.floor((whole % perHour) / perMinute), 'min'],
    [whole % perMinute, 's'],
  ] as const;
  const written = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count}\u202f${unit}`);
  return written.length === 0 ? '0\u202fs' : written.join(' ');
}

export const counted = (count: number, one: string, many = `${one}s`): string => `${countWord(count)} ${count === 1 ? one : many}`;
