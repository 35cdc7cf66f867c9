/** What is odd about the spec sheets. @module */

import { capital, listed, NO_NUMBER } from '@shaftwork/sim-core/words';
import { counted } from '../../drawing/step-at.js';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

export function auditSection({ result: { audit } }: ReportView): Section | undefined {
  if (audit === undefined) return undefined;
  const { oddities, candidates } = audit;
  const wrong = oddities.filter(({ weight }) => weight === 'contradiction').length;
  const heading =
    oddities.length === 0
      ? 'Held against physics and against each other, the sheets agree'
      : wrong > 0
        ? `${capital(counted(wrong, 'number contradicts', 'numbers contradict'))} the rest of the sheets${oddities.length > wrong ? `, and ${counted(oddities.length - wrong, 'more thing')} to know` : ''}`
        : `Nothing on the sheets contradicts itself; ${counted(oddities.length, 'thing')} to know before buying`;
  const ids = [...new Map(candidates.flatMap(({ figures }) => figures.map(({ id, words }) => [id, words] as const)))];
  const table = dataTable(
    'Figures made from the sheets',
    ['', ...candidates.map(({ name }) => name)],
    ids.map(([id, words]) => [words, ...candidates.map(({ figures }) => figures.find((one) => one.id === id)?.text ?? NO_NUMBER)]),
  );
  const body = html`${
    oddities.length === 0
      ? ''
      : html`<ul class="list">${oddities.map(({ candidates: names, says, means, settles }) => html`<li><b>${listed(names)}.</b> ${says} ${means} ${settles}</li>\n`)}</ul>`
  }<details class="data"><summary>Figures made from the sheets</summary>${table}</details>`;
  return { id: 'audit', word: 'The sheets', heading, body };
}
