/** A number that stands with its decimal sign under that of the row above, with its range beside it. @module */

import { type Html, html } from '../html/html.js';

export interface CellMarks {
  readonly best?: boolean;
  readonly past?: boolean;
  readonly range?: string;
}

export function numberCell(text: string, { best = false, past = false, range }: CellMarks = {}): Html {
  const clockOrWord = !/^[\u2212<>\s]*\d+(\.\d+)?$/.test(text);
  const mark = past ? html`<sup>†</sup>` : undefined;
  const beside = range === undefined ? '' : html` <span class="rg">${range}</span>`;
  if (clockOrWord) {
    const inside = html`${text}${mark}`;
    return html`<td class="txt">${best ? html`<b>${inside}</b>` : inside}${beside}</td>`;
  }
  const [whole, fraction] = text.split('.');
  const inside = html`${whole}<span class="f">${fraction === undefined ? '' : `.${fraction}`}${mark}</span>`;
  return html`<td>${best ? html`<b>${inside}</b>` : inside}${beside}</td>`;
}
