/** What was read, a line each, and how it was taken in. @module */

import type { ReadingsResult } from '@shaftwork/sim-core';
import { readingSentence, readingsNote } from '@shaftwork/sim-core/words';
import { hanging } from './audit-text.js';

export function readingsText(readings: ReadingsResult, several: boolean): string {
  const lines = readings.lines.map((line) => hanging('  • ', `${several ? `${line.candidate}, ` : ''}${readingSentence(line)}.`));
  return `${[...lines, hanging('  ', readingsNote(readings))].join('\n')}\n`;
}
