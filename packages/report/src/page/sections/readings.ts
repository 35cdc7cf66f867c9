/** What was read of a drive, against what the numbers alone said and what they say since. @module */

import { capital, countWord, readingSentence, readingsNote } from '@shaftwork/sim-core/words';
import { html } from '../../html/html.js';
import { type ReportView, type Section, withNames } from '../report-view.js';

export function readingsSection({ result, looks }: ReportView): Section | undefined {
  const { readings, candidates } = result;
  if (readings === undefined) return undefined;
  const { lines } = readings;
  const off = lines.filter(({ value, expected }) => value < expected.low || value > expected.high).length;
  const count = `${capital(countWord(lines.length))} ${lines.length === 1 ? 'reading' : 'readings'}`;
  const heading =
    off === 0
      ? `${count} ${lines.length === 1 ? 'lies' : 'lie'} where the numbers had ${lines.length === 1 ? 'it' : 'them'}, and ${lines.length === 1 ? 'narrows' : 'narrow'} them`
      : `${count}, of which ${countWord(off)} ${off === 1 ? 'lies' : 'lie'} outside what was to be expected`;
  const body = html`<ul class="list">${lines.map((line) => html`<li>${candidates.length > 1 ? html`<b>${withNames(line.candidate, looks)}.</b> ` : ''}${capital(readingSentence(line))} (${line.source === undefined ? '' : `${line.source}; `}${line.origin}).</li>\n`)}</ul>
<p class="note">${readingsNote(readings)}</p>`;
  return { id: 'readings', word: 'Readings', heading, body };
}
