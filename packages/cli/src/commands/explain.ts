/** `explain`: what a kind of problem or finding, or a word of the report, means; what usually causes it, and what to try. @module */

import { certain, EXPLAINED_KINDS, EXPLAINED_TERMS, explanationOf, listed, PROBLEM_EXPLANATIONS } from '@shaftwork/sim-core/problems';
import { nearestWord } from '@shaftwork/sim-core/scenario';
import { EXIT, InputFault } from '../hands/exit.js';
import type { Terminal } from '../hands/terminal.js';
import { wrap } from '../render/table.js';

export async function explain(io: Terminal, words: readonly string[], options: { readonly json?: boolean }): Promise<number> {
  const kind = words.join(' ');
  if (kind === '') {
    if (options.json)
      io.out(`${JSON.stringify({ schema: 'shaftwork.kinds/1', kinds: EXPLAINED_KINDS, words: EXPLAINED_TERMS }, null, 2)}\n`);
    else list(io);
    return EXIT.done;
  }
  const explanation = explanationOf(kind);
  if (explanation === undefined) {
    const words = [...EXPLAINED_KINDS, ...EXPLAINED_TERMS];
    const begun = words.filter((each) => each.toLowerCase().startsWith(kind.toLowerCase()));
    const nearest = nearestWord(kind, words);
    const unknown = `No problem, finding or word of the report is called “${kind}”`;
    if (begun.length > 1) throw new InputFault(`${unknown}; these begin so: ${listed(begun)}. Such as: npx shaftwork explain ${begun[0]}`);
    throw new InputFault(
      nearest === undefined
        ? `${unknown}. All of them: npx shaftwork explain`
        : `${unknown}; the nearest is ${nearest}: npx shaftwork explain ${nearest}`,
    );
  }
  if (options.json) {
    io.out(`${JSON.stringify({ schema: 'shaftwork.explanation/1', kind, ...explanation }, null, 2)}\n`);
    return EXIT.done;
  }
  const points = (texts: readonly string[]): string[] => texts.map((text) => `  - ${wrap(text, 80, '    ')}`);
  io.out(
    [
      io.colours.strong(kind),
      wrap(explanation.meaning),
      '',
      ...(explanation.causes.length === 0 ? [] : ['Usual causes', ...points(explanation.causes)]),
      ...(explanation.tries.length === 0 ? [] : ['What to try', ...points(explanation.tries)]),
      '',
    ].join('\n'),
  );
  return EXIT.done;
}

/** The first sentence of each, by family. */
function list(io: Terminal): void {
  const families: readonly (readonly [title: string, kinds: readonly string[]])[] = [
    ['What a scenario file may have wrong', Object.keys(PROBLEM_EXPLANATIONS)],
    ['What a run or a check may find', EXPLAINED_KINDS.filter((kind) => !Object.hasOwn(PROBLEM_EXPLANATIONS, kind))],
    ['Words of the report', EXPLAINED_TERMS],
  ];
  for (const [title, kinds] of families) {
    io.out(`${io.colours.strong(title)}\n`);
    for (const kind of kinds)
      io.out(`  ${kind}\n      ${wrap(firstSentence(certain(explanationOf(kind), `explanation of ${kind}`).meaning), 80, '      ')}\n`);
    io.out('\n');
  }
  io.note('More on one of them: npx shaftwork explain wrong-unit\n');
}

const firstSentence = (text: string): string => /^.*?[.](?=\s|$)/.exec(text)?.[0] ?? text;
