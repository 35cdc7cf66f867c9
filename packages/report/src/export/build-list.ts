/** The list people paste into a build log: the parts, the results, how sure. As Markdown or plain text. */
import { type CandidateResult, decidingLimit, inDraws, keepsLimits, limitNotes, type RunResult } from '@shaftwork/sim-core';
import { KEPT, KEPT_IDS } from '../history/headline.js';
import { quantityText } from '../page/numbers.js';

interface Item {
  readonly words: string;
  readonly text: string;
}

function resultItems({ doubt }: RunResult, candidate: CandidateResult): readonly Item[] {
  const { headline, end } = candidate;
  const deciding = decidingLimit(candidate, doubt);
  return [
    ...KEPT_IDS.flatMap((id): Item[] => {
      const figure = headline[id];
      const { words, printing } = KEPT[id]!;
      if (figure === undefined || !Number.isFinite(figure.nominal) || (id === 'topSpeed' && figure.nominal === 0)) return [];
      const band =
        figure.p05 === undefined || figure.p95 === undefined
          ? ''
          : ` (${quantityText(figure.p05, printing)} to ${quantityText(figure.p95, printing)}, 5 to 95 %)`;
      return [{ words, text: quantityText(figure.nominal, printing) + band }];
    }),
    ...(deciding === undefined
      ? []
      : [
          {
            words: deciding.passed === undefined ? 'nearest limit' : 'most likely to be passed',
            text: `${deciding.limit.words}, ${deciding.limit.assumed ? 'assumed: ' : 'from '}${deciding.limit.origin}`,
          },
        ]),
    { words: 'meets every limit', text: end === 'finished' ? keepsLimits(candidate, doubt) : `no, ends early (${end})` },
  ];
}

function sureItems({ doubt, assumptions }: RunResult, { name }: CandidateResult): readonly Item[] {
  const own = doubt?.candidates.find((one) => one.name === name);
  const guessed = assumptions.filter(({ kind, candidates }) => candidates.includes(name) && (kind === 'estimated' || kind === 'default'));
  return [
    ...(own === undefined
      ? [{ words: 'how sure', text: 'nominal figures; the tolerances were not drawn' }]
      : [
          {
            words: 'how sure',
            text: `meets every limit ${inDraws(own.feasible)}${doubt!.candidates.length > 1 ? `; comes first ${inDraws(own.first)}` : ''}`,
          },
        ]),
    { words: 'not given', text: `${guessed.length} numbers estimated or taken by default` },
  ];
}

const plain = (text: string): string =>
  text
    .replaceAll('\u202f', ' ')
    .replaceAll('\u00a0', ' ')
    .replace(/\s*[\r\n]+\s*/g, ' ');
const inOrder = ({ candidates, ranking }: RunResult): readonly CandidateResult[] =>
  [...ranking.map((name) => candidates.find((candidate) => candidate.name === name)), ...candidates].filter(
    (candidate, index, all): candidate is CandidateResult => candidate !== undefined && all.indexOf(candidate) === index,
  );

const FOOT = ({ version, scenario: { hash } }: RunResult, date: string | undefined): string =>
  `Calculated by shaftwork ${version}, scenario ${hash}${date === undefined ? '' : `, ${date}`}. Estimates, not a clearance.`;

const itemsOf = (result: RunResult, candidate: CandidateResult): readonly (readonly [title: string, items: readonly Item[]])[] => [
  ['Parts', (candidate.parts ?? []).map(({ words, text }) => ({ words, text }))],
  ['Results', resultItems(result, candidate)],
  ['How sure', sureItems(result, candidate)],
];

export function textList(result: RunResult, { date }: { readonly date?: string } = {}): string {
  const width = 26;
  const blocks = inOrder(result).map((candidate) => {
    const lines = itemsOf(result, candidate).flatMap(([title, items]) =>
      items.length === 0 ? [] : ['', title, ...items.map(({ words, text }) => `  ${words.padEnd(width)}${text}`)],
    );
    return [candidate.name, '='.repeat(Math.max(3, [...candidate.name].length)), ...lines.slice(1), ''].join('\n');
  });
  return plainLines([
    FOOT(result, date),
    '',
    result.scenario.title,
    '',
    [...result.verdict, ...limitNotes(result)].join('\n'),
    '',
    ...blocks,
  ]);
}

const plainLines = (blocks: readonly string[]): string => `${blocks.join('\n').split('\n').map(plain).join('\n').trimEnd()}\n`;

/** Signs that Markdown or a forum would read as its own. */
const escaped = (text: string): string =>
  plain(text).replace(/[\\`*_{}[\]<>#|!~]/g, (sign) => (sign === '<' ? '&lt;' : sign === '>' ? '&gt;' : `\\${sign}`));

export function markdownList(result: RunResult, { date }: { readonly date?: string } = {}): string {
  const blocks = inOrder(result).map((candidate) => {
    const tables = itemsOf(result, candidate).flatMap(([title, items]) =>
      items.length === 0
        ? []
        : [`| ${title} | |`, '| --- | --- |', ...items.map(({ words, text }) => `| ${escaped(words)} | ${escaped(text)} |`), ''],
    );
    return [`### ${escaped(candidate.name)}`, '', ...tables].join('\n');
  });
  return `<!-- shaftwork list -->\n## ${escaped(result.scenario.title)}\n\n${[...result.verdict, ...limitNotes(result)].map(escaped).join('\n\n')}\n\n${blocks.join('\n')}\n${escaped(FOOT(result, date))}\n`;
}
