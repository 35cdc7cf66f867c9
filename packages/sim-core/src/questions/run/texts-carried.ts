/** The texts that a result carries: its scenario, but no million rows. @module */

import type { GivenScenario } from '../../provenance/given.js';

interface Text {
  readonly path: string;
  readonly text: string;
}

/** A log longer than this is carried by its beginning [characters]. */
const LONGEST_LOG = 300_000;
const SHOWN_LOG = 1000;

/** All texts as they are, a long log by its first rows and marked so. */
export const textsCarried = (
  files: readonly Text[],
  { log, measured }: Pick<GivenScenario, 'log' | 'measured'>,
): (Text & { readonly shortened?: true })[] =>
  files.map((file) => ([log?.file, measured?.file].includes(file.path) && file.text.length > LONGEST_LOG ? beginningOf(file) : file));

const beginningOf = ({ path, text }: Text) => ({
  path,
  text: `${text.slice(0, text.lastIndexOf('\n', SHOWN_LOG) + 1)}# and so on`,
  shortened: true as const,
});
