/** A plain table: names down the first column, numbers to the right. @module */

import { type Content, type Html, html } from '../html/html.js';

/** On a narrow screen a wide table scrolls alone, and by keyboard too. */
export const scrolling = (label: string, table: Html): Html =>
  html`<div class="tw" role="region" aria-label="${label}" tabindex="0">${table}</div>`;

/** Without a head where its words would say nothing. */
export function dataTable(label: string, head: readonly Content[] | undefined, rows: readonly (readonly Content[])[]): Html {
  return scrolling(
    label,
    html`<table class="plain">${head === undefined ? '' : html`<thead><tr>${head.map((cell) => (cell === '' ? html`<td></td>` : html`<th scope="col">${cell}</th>`))}</tr></thead>`}<tbody>
${rows.map(([first, ...rest]) => html`<tr><th scope="row">${first}</th>${rest.map((cell) => html`<td>${cell}</td>`)}</tr>\n`)}</tbody></table>`,
  );
}
