/** The YAML library’s complaints in words that help. @module */

import type { ErrorCode, YAMLError } from 'yaml';
import type { ProblemKind, ScenarioProblem } from '../../problems/index.js';
import { problem, quoted } from '../wording.js';
import { bracketLeftOpen } from './nesting.js';
import { placeAt } from './text-checks.js';

interface Complaint {
  readonly kind?: ProblemKind;
  readonly expected: string;
  readonly found?: string;
  readonly hint?: string;
}

const QUOTE_IT = 'put texts with signs in quotation marks: "…"';
const INDENT = 'lines of one section begin in the same column, indented by blanks more than its name';

/** What the YAML library's codes mean to somebody who wrote a scenario. */
const COMPLAINTS: Partial<Record<ErrorCode, Complaint>> = {
  TAB_AS_INDENT: { expected: 'blanks at the beginning of a line', found: 'a tab', hint: 'indent with blanks' },
  BAD_INDENT: { expected: 'lines indented alike, and every bracket closed', hint: INDENT },
  BLOCK_AS_IMPLICIT_KEY: {
    expected: 'one colon with a blank to a line',
    found: 'a second key on the same line',
    hint: 'put a text with a colon in quotation marks, or begin a new line',
  },
  BLOCK_IN_FLOW: { expected: 'the closing bracket before the next section', hint: 'close the { or [ of the line above' },
  DUPLICATE_KEY: { expected: 'each key once', hint: 'keep one of the two lines' },
  MULTILINE_IMPLICIT_KEY: { expected: 'a key, a colon, a blank and a value on each line', hint: 'look at this line and the one above' },
  MISSING_CHAR: { expected: 'a closing quotation mark, or a colon and a value', hint: 'look at this line and the one above' },
  BAD_SCALAR_START: { expected: 'a text that begins with a letter or digit', found: 'a sign with a meaning in YAML', hint: QUOTE_IT },
  BAD_DQ_ESCAPE: { expected: 'text', found: 'a backslash that means nothing', hint: "write \\\\ for one backslash, or use '…'" },
  UNEXPECTED_TOKEN: { expected: 'a key, a colon, a blank and a value', found: 'something after the end of a value', hint: QUOTE_IT },
  BAD_ALIAS: { expected: 'the name of an anchor after *', hint: QUOTE_IT },
  MULTIPLE_DOCS: { expected: 'one document in a file', found: 'a line --- that begins another', hint: 'take out the second ---' },
  TAG_RESOLVE_FAILED: { expected: 'a value without a tag', found: 'a tag, written with !', hint: QUOTE_IT },
  KEY_OVER_1024_CHARS: { expected: 'a short key', found: 'more than 1024 characters before a colon' },
};

const NO_BREAK = '[\\u00a0\\u2007\\u202f]';
const INDENTED_BY_TAB = /^ *\t/;
const NO_BREAK_BLANK = new RegExp(`^(?:\\s|${NO_BREAK})*${NO_BREAK}\\S|^\\s*(?:- )*[\\w]+:${NO_BREAK}`);
const NO_BLANK = /^\s*(?:- )*([a-z][a-z_]*):([^\s/].*)$/;

export const MISSING_BLANK = 'a blank after the colon';
export const NO_BREAK_SPACE = {
  expected: 'plain blanks in the indentation and after a colon',
  found: 'a no-break space',
  hint: 'it looks like a blank and came with copied text: type the blank again',
};

/** One complaint of the YAML library in our words; the line it points to, and the one above, often show a cause it cannot name. */
export function explainComplaint(file: string, text: string, error: YAMLError): ScenarioProblem {
  const place = placeAt(file, text, error.pos[0]);
  const lines = text.split(/\r?\n/);
  for (const line of [place.line, place.line - 1, place.line + 1]) {
    const content = lines[line - 1] ?? '';
    const at = (column: number) => ({ file, line, column, path: '' });
    if (INDENTED_BY_TAB.test(content)) {
      return problem('broken-yaml', at(content.indexOf('\t') + 1), 'blanks at the beginning of a line', 'a tab', {
        hint: 'indent with blanks',
      });
    }
    if (NO_BREAK_BLANK.test(content)) {
      const { expected, found, hint } = NO_BREAK_SPACE;
      return problem('broken-yaml', at(content.search(new RegExp(NO_BREAK)) + 1), expected, found, { hint });
    }
    const joined = error.code === 'MULTILINE_IMPLICIT_KEY' || error.code === 'MISSING_CHAR' ? NO_BLANK.exec(content) : null;
    if (joined) {
      return problem('broken-yaml', at(content.indexOf(':') + 1), MISSING_BLANK, quoted(content.trim()), {
        nearest: `${joined[1]}: ${joined[2]}`,
      });
    }
  }
  const open =
    error.code === 'MISSING_CHAR' || error.code === 'BAD_INDENT' || error.code === 'BLOCK_IN_FLOW' ? bracketLeftOpen(text) : undefined;
  if (open !== undefined) {
    const [bracket, closing] = text[open] === '{' ? ['{', '}'] : ['[', ']'];
    return problem(
      'broken-yaml',
      placeAt(file, text, open),
      `a closing ${closing} for the bracket ${bracket} that is opened here`,
      'none',
      {
        hint: 'count the brackets of this line and of those below it',
      },
    );
  }
  const { kind = 'broken-yaml', expected, found, hint } = COMPLAINTS[error.code] ?? { expected: 'YAML', hint: QUOTE_IT };
  return problem(kind, place, expected, found ?? lineOrEnd(lines[place.line - 1]), { hint });
}

const lineOrEnd = (line = ''): string => (line.trim() === '' ? 'the end of the section' : quoted(line.trim()));
