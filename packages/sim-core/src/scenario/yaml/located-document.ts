/** A text read into a located tree. @module */

import { Composer, type Document, isScalar, LineCounter, Parser } from 'yaml';
import type { ScenarioProblem } from '../../problems/index.js';
import type { Place } from '../../provenance/datum.js';
import { problem, quoted } from '../wording.js';
import { buildTree } from './build-tree.js';
import { type LocatedMap, withSources } from './located-tree.js';
import { DEEPEST_NESTING, nestsTooDeepOnLexing, tooDeepAt } from './nesting.js';
import { checkText, placeAt, withoutByteOrderMark } from './text-checks.js';
import { explainComplaint } from './yaml-complaints.js';

export interface ReadDocument {
  /** Missing where the text could not be parsed. */
  readonly root?: LocatedMap;
  readonly problems: readonly ScenarioProblem[];
}

const WITHOUT_BLANK = /^[a-z][a-z_]*:[^\s/]/;

/**
 * Reads YAML, or JSON as the part of YAML it is, into a located tree. Every scalar stays the text that was written (schema `failsafe`).
 * Refuses by size and counted nesting before anything recurses.
 */
export function readDocument(file: string, written: string): ReadDocument {
  const unreadable = checkText(file, written);
  if (unreadable.length > 0) return { problems: unreadable };
  const text = withoutByteOrderMark(written);
  const start: Place = { file, line: 1, column: 1, path: '' };
  const tooDeep = (place: Place) =>
    problem('too-deep', place, `lists and maps nested at most ${DEEPEST_NESTING} deep`, 'a deeper nesting', {
      hint: 'look for brackets left open, or lines indented further and further',
    });
  if (nestsTooDeepOnLexing(text)) return { problems: [tooDeep(start)] };

  const lines = new LineCounter();
  const tokens = [...new Parser(lines.addNewLine).parse(text)];
  const deep = tooDeepAt(tokens);
  if (deep !== undefined) return { problems: [tooDeep(placeAt(file, text, deep))] };

  const documents = [...new Composer({ schema: 'failsafe', prettyErrors: false }).compose(tokens, true, text.length)];
  const document = documents[0] as Document.Parsed;
  const second = documents[1];
  const complaints = [...document.errors, ...document.warnings];
  const fatal = complaints.find(({ code }) => code !== 'DUPLICATE_KEY');
  const doubled = complaints.filter(({ code }) => code === 'DUPLICATE_KEY');
  const problems = [...doubled, ...(fatal ? [fatal] : [])].map((error) => explainComplaint(file, text, error));
  if (fatal) return { problems };
  if (second) {
    const at = placeAt(file, text, second.range[0]);
    return {
      problems: [
        ...problems,
        problem('broken-yaml', at, 'one document in a file', 'a line --- that begins another', { hint: 'take out the second ---' }),
      ],
    };
  }
  if (document.contents === null || (isScalar(document.contents) && document.contents.source === '')) {
    return {
      problems: [problem('nothing-to-do', start, 'a scenario', 'an empty file', { hint: '“shaftwork init” writes one to start from' })],
    };
  }
  const tree = buildTree(file, text, document, lines);
  const bomb = tree.problems.find(({ kind }) => kind === 'too-large');
  if (bomb) return { problems: [bomb] };
  problems.push(...tree.problems);
  if (tree.root === undefined) return { problems };
  const root = withSources(tree.root);
  if (root.kind !== 'map') {
    const hint =
      root.kind === 'text' && WITHOUT_BLANK.test(root.text) ? 'a blank is missing after the colon' : 'the first line may be title: …';
    return {
      problems: [
        ...problems,
        problem('wrong-type', start, 'keys with values', root.kind === 'list' ? 'a list' : quoted(root.text), { hint }),
      ],
    };
  }
  return { root, problems };
}
