/** What a report carries of its own run, so that it can be run again and so that the next report remembers it. @module */

import { type Html, trusted } from '../html/html.js';
import type { Headline } from './headline.js';

/** The run that a report carries. */
export interface EmbeddedRun {
  readonly schema: 'shaftwork.report/1';
  /** The files as read, the scenario first; a long log shortened to its beginning. */
  readonly files: readonly { readonly path: string; readonly text: string; readonly shortened?: true }[];
  readonly now: Headline;
  /** Earlier runs that stood in this report, the oldest first. */
  readonly earlier: readonly Headline[];
}

const MOST_KEPT = 50;

/** Text that stands in a script element: nothing in it can end the element. */
export const inertJson = (value: unknown): string =>
  JSON.stringify(value).replace(/[<>&\u2028\u2029]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);

export const embedded = (run: EmbeddedRun): Html =>
  trusted(`<script type="application/json" id="shaftwork-run">${inertJson(run)}</script>`);

/** The run that a page carries; undefined where it is no report of ours, or one that was damaged. */
export function embeddedRun(page: string): EmbeddedRun | undefined {
  if (!/<meta name="generator" content="shaftwork /.test(page.slice(0, 8192))) return undefined;
  const [, text] = /<script type="application\/json" id="shaftwork-run">([^<]*)<\/script>/.exec(page) ?? [];
  if (text === undefined) return undefined;
  try {
    const run = JSON.parse(text) as EmbeddedRun;
    const whole =
      run.schema === 'shaftwork.report/1' &&
      Array.isArray(run.files) &&
      run.files.length > 0 &&
      run.files.every(({ path, text: body }) => typeof path === 'string' && typeof body === 'string') &&
      Array.isArray(run.now?.candidates) &&
      Array.isArray(run.earlier);
    return whole ? run : undefined;
  } catch {
    return undefined;
  }
}

/** The memory that the next report over this one keeps; a run that changed nothing is not remembered twice. */
export function remembered({ now, earlier }: EmbeddedRun, next: Headline): readonly Headline[] {
  const figures = ({ candidates, choice }: Headline): string => JSON.stringify([choice, candidates]);
  const all = [...earlier, now];
  return (figures(now) === figures(next) ? all.slice(0, -1) : all).slice(-MOST_KEPT);
}
