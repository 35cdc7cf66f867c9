/** How the figures were got: everything needed to get them again. @module */

import { formatNumber } from '@shaftwork/sim-core/quantities';
import { html } from '../../html/html.js';
import { dataTable } from '../../tables/data-table.js';
import type { ReportView, Section } from '../report-view.js';

export function provenanceSection({ result, date }: ReportView): Section {
  const { scenario, version, candidates, doubt } = result;
  const evaluations = candidates.reduce((sum, { statistics }) => sum + statistics.evaluations, 0);
  const rows: (readonly string[])[] = [
    ['program', `shaftwork ${version}`],
    ['scenario', scenario.hash],
    ...(date === undefined ? [] : [['date given', date]]),
    ...(doubt === undefined
      ? [['seed', 'none: nothing was drawn']]
      : [
          ['samples', String(doubt.samples)],
          ['seed', String(doubt.seed)],
        ]),
    ...candidates.map(({ name, statistics: { method, tolerance, steps, evaluations: count } }) => [
      candidates.length > 1 ? name : 'solver',
      `${method}${tolerance === undefined ? '' : `, relative tolerance ${tolerance.toExponential(0)}`}, ${steps} steps, ${count} evaluations`,
    ]),
  ];
  return {
    id: 'provenance',
    word: 'How it was got',
    heading: `${formatNumber(evaluations, { decimals: 0 })} evaluations of the drive made these figures; the same input makes the same`,
    body: html`${dataTable('How the figures were got', undefined, rows)}
<p class="note">This page carries its scenario and part files: <code>shaftwork run</code> with the path of this page runs them again and says whether a number moved.</p>`,
  };
}
