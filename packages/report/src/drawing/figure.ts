/** A figure of the page: a wide and a narrow drawing of the same facts, said in words too, with its numbers behind a disclosure. @module */

import { type Html, html, trusted } from '../html/html.js';
import { type Drawing, drawParts } from './draw.js';

export type Size = 'wide' | 'narrow';
/** Width of the drawings in px. */
export const FIGURE_WIDTH: { readonly [S in Size]: number } = { wide: 880, narrow: 360 };

export interface FigureParts {
  readonly id: string;
  readonly number: number;
  /** What kind of picture it is and of what, in one phrase. */
  readonly label: string;
  /** What it shows, for those who do not see it. */
  readonly description: string;
  readonly drawings: { readonly [S in Size]: Drawing };
  readonly caption: Html;
  readonly data: Html;
}

export async function figure({ id, number, label, description, drawings, caption, data }: FigureParts): Promise<Html> {
  const draw = async (size: Size): Promise<Html> => {
    const { width, height } = drawings[size];
    const name = `${id}-${size}`;
    const inside = trusted(await drawParts(drawings[size], name));
    return html`<svg class="${size}" xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${label}" aria-describedby="${name}-text" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" fill="none"><desc id="${name}-text">${description}</desc>${inside}</svg>`;
  };
  return html`<figure id="${id}">
${await draw('wide')}
${await draw('narrow')}
<figcaption><b>Figure ${number}.</b> ${caption}</figcaption>
<details class="data"><summary>The numbers of figure ${number}</summary>${data}</details>
</figure>`;
}
