/** The head of a column: the candidate's name in its colour under a piece of its line. @module */

import type { Look } from '../drawing/palette.js';
import { type Html, html } from '../html/html.js';

export function lineSample({ colour, dash }: Look): Html {
  return html`<svg width="30" height="4" viewBox="0 0 30 4" fill="none" aria-hidden="true"><path d="M0 2H30" stroke="${colour}" stroke-width="2.1"${dash.length > 0 ? html` stroke-dasharray="${dash.join(' ')}"` : ''}/></svg>`;
}

export const candidateHead = (look: Look): Html => html`<th scope="col" class="${look.className}">${lineSample(look)}<br>${look.name}</th>`;
