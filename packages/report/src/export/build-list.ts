/** The list people paste into a build log: the parts, the results, how sure. As Markdown or plain text. @module */

import { type CandidateResult, decidingLimit, HEADLINES, inDraws, keepsLimits, limitNotes, type RunResult } from '@shaftwork/sim-core';
import { quantityText } from '@shaftwork/sim-core/words';
import { KEPT_IDS } from '../history/headline.js';

interface Item {
  readonly words: string;
  readonly text: string;
}

/** Nothing where both ends print the same. */
const bandText = (low: string, high: string): string => (low === high ? '' : ` (${low} to ${high}, 5 to 95 %)`);

function resultItems({ doubt }: RunResult, candidate: CandidateResult): readonly Item[] {
  const { headline, end } = candidate;
  const deciding = decidingLimit(candidate, doubt);
  return [
    ...KEPT_IDS.flatMap((id): Item[] => {
      const figure = headline[id];
      const { words, ...printing } = HEADLINES[id];
      if (figure === undefined || !Number.isFinite(figure.nominal) || (id === 'topSpeed' && figure.nominal === 0)) return [];
      const band =
        figure.band === undefined ? '' : bandText(quantityText(figure.band.p05, printing), quantityText(figure.band.p95, printing));
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
    ...(own === undefined || doubt === undefined
      ? [{ words: 'how sure', text: 'nominal figures; the tolerances were not drawn' }]
      : [
          {
            words: 'how sure',
            text: `meets every limit ${inDraws(own.feasible)}${doubt.candidates.length > 1 ? `; comes first ${inDraws(own.first)}` : ''}`,
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

/** All candidates beside one another, the best first: heads, then rows of words and a value each. */
function comparison(result: RunResult): readonly (readonly string[])[] {
  const { doubt } = result;
  const candidates = inOrder(result);
  const rows = KEPT_IDS.flatMap((id): (readonly string[])[] => {
    const { words, ...printing } = HEADLINES[id];
    const values = candidates.map(({ headline }) => headline[id]?.nominal ?? Number.NaN);
    if (!values.some((value) => Number.isFinite(value) && !(id === 'topSpeed' && value === 0))) return [];
    return [[words, ...values.map((value) => quantityText(value, printing))]];
  });
  return [
    ['', ...candidates.map(({ name }) => name)],
    ['meets every limit', ...candidates.map(({ feasible }) => (feasible ? 'yes' : 'no'))],
    ...(doubt === undefined
      ? []
      : [
          [
            `in how many of ${doubt.samples} draws`,
            ...candidates.map(({ name }) => String(doubt.candidates.find((one) => one.name === name)?.feasible.count ?? '–')),
          ],
        ]),
    ...rows,
  ];
}

/** What a build list is told beside the result. */
export interface ListOptions {
  readonly date?: string;
  /** Where the picture of the report stands, as a reader of the list would find it. */
  readonly picture?: string;
}

const COLUMN_GAP = 2;

/** The build list as plain text. */
export function textList(result: RunResult, { date }: ListOptions = {}): string {
  const table = comparison(result);
  const widths = table[0].map((_, column) => Math.max(...table.map((row) => [...plain(row[column])].length)) + COLUMN_GAP);
  const lines = table.map((row) =>
    row
      .map((cell, column) => plain(cell).padEnd(widths[column]))
      .join('')
      .trimEnd(),
  );
  const width = 26;
  const blocks = inOrder(result).map((candidate) => {
    const own = itemsOf(result, candidate).flatMap(([title, items]) =>
      items.length === 0 ? [] : ['', title, ...items.map(({ words, text }) => `  ${words.padEnd(width)}${text}`)],
    );
    return [candidate.name, '='.repeat(Math.max(3, [...candidate.name].length)), ...own.slice(1), ''].join('\n');
  });
  return `${[...[result.scenario.title, '', ...result.verdict, ...limitNotes(result), ''].map(plain), ...lines, '', ...blocks.join('\n').split('\n').map(plain), '', plain(FOOT(result, date))].join('\n').trimEnd()}\n`;
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;' };

/** Signs that Markdown or a forum would read as its own. */
const escaped = (text: string): string =>
  plain(text)
    .replace(/[\\`*_{}[\]#|!~&<>]/g, (sign) => ENTITIES[sign] ?? `\\${sign}`)
    // bare addresses, which forums make links of
    .replace(/:(?=\/\/)|(?<=www)\.|@/gi, (sign) => `&#${sign.charCodeAt(0)};`);

/** The build list as Markdown. */
export function markdownList(result: RunResult, { date, picture }: ListOptions = {}): string {
  const [heads, ...rows] = comparison(result);
  const line = (cells: readonly string[]): string => `| ${cells.map(escaped).join(' | ')} |`;
  const table = [line(heads), `|${heads.map((_, column) => (column === 0 ? ' --- |' : ' --: |')).join('')}`, ...rows.map(line)].join('\n');
  // The first is the choice; the others are folded.
  const blocks = inOrder(result).map((candidate, index) => {
    const tables = itemsOf(result, candidate).flatMap(([title, items]) =>
      items.length === 0
        ? []
        : [`| ${title} | |`, '| --- | --- |', ...items.map(({ words, text }) => `| ${escaped(words)} | ${escaped(text)} |`), ''],
    );
    return index === 0
      ? [`### ${escaped(candidate.name)}`, '', ...tables].join('\n')
      : ['<details>', `<summary>${escaped(candidate.name)}</summary>`, '', ...tables, '</details>', ''].join('\n');
  });
  const shown = picture === undefined ? '' : `![${escaped(result.scenario.title)}](<${picture.replace(/[<>\\\n\r]/g, '')}>)\n\n`;
  return `<!-- shaftwork list -->\n## ${escaped(result.scenario.title)}\n\n${[...result.verdict, ...limitNotes(result)].map(escaped).join('\n\n')}\n\n${shown}${table}\n\n${blocks.join('\n')}\n${escaped(FOOT(result, date))}\n`;
}
