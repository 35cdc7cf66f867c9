/** A number that stands with its decimal sign under that of the row above. */
import { type Html, html } from '../page/html.js';

export function numberCell(text: string, { best = false, past = false }: { readonly best?: boolean; readonly past?: boolean } = {}): Html {
  const clockOrWord = !/^[\u2212<>\s]*\d+(\.\d+)?$/.test(text);
  const mark = past ? html`<sup>†</sup>` : undefined;
  if (clockOrWord) {
    const inside = html`${text}${mark}`;
    return html`<td class="txt">${best ? html`<b>${inside}</b>` : inside}</td>`;
  }
  const [whole, fraction] = text.split('.');
  const inside = html`${whole}<span class="f">${fraction === undefined ? '' : `.${fraction}`}${mark}</span>`;
  return html`<td>${best ? html`<b>${inside}</b>` : inside}</td>`;
}
