/** `why`: what makes one candidate hotter, or last longer, than another. @module */

import type { WhySplit } from '@shaftwork/sim-core';
import { whyJson } from '@shaftwork/sim-core/json';
import { whyOfScenario } from '@shaftwork/sim-core/other-questions';
import { certain } from '@shaftwork/sim-core/problems';
import { formatClock, formatQuantity } from '@shaftwork/sim-core/quantities';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import { EXIT, InputFault } from '../hands/exit.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { BARE, own, type Row, under } from '../render/labels.js';
import { table, wrap } from '../render/table.js';
import { prepare, sayProblems } from './prepare.js';

export interface WhyOptions extends GlobalOptions {
  readonly between?: readonly string[];
  readonly json?: boolean;
}

export async function why(io: Terminal, path: string, options: WhyOptions): Promise<number> {
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const names = prepared.prepared.candidates.map(({ name }) => name);
  const { between } = options;
  if (between !== undefined && (between.length !== 2 || between[0] === between[1] || !between.every((name) => names.includes(name)))) {
    throw new InputFault(`--between: expected two of the candidates' names (${names.join(', ')}); found ${between.join(', ')}.`);
  }
  if (names.length < 2) throw new InputFault('There is one candidate only; why needs two to compare. Add another under candidates.');
  const result = runScenario(prepared.prepared);
  const [from, to] = between ?? [result.ranking[1], result.ranking[0]];
  const found = whyOfScenario(prepared.prepared, { from, to, lasting: true, result });
  if (options.json) {
    io.out(`${JSON.stringify(whyJson(found), null, 2)}\n`);
    return EXIT.done;
  }
  io.out(`${[`${to} against ${from}`, '', wrap(found.sentence), '', ...found.splits.map(splitTable)].join('\n')}\n`);
  return EXIT.done;
}

function splitTable({ words, dimension, from, to, parts, difference, interaction, interactionsExceedParts }: WhySplit): string {
  const temperature = dimension === 'temperature';
  const level = (value: number): string =>
    temperature ? formatQuantity(value, 'temperature', { unit: '°C', decimals: 1 }) : formatClock(value);
  const gap = (value: number): string =>
    temperature ? formatQuantity(value, 'temperatureDifference', { decimals: 1 }) : formatClock(value);
  const together =
    interaction === undefined
      ? []
      : [
          [
            own(
              `  (${interaction.between
                .map(
                  (id) =>
                    certain(
                      parts.find((part) => part.id === id),
                      id,
                    ).words,
                )
                .join(' with ')}: beyond each alone)`,
            ),
            gap(interaction.value),
          ] satisfies Row,
        ];
  const rows = table(
    [own(words), BARE],
    [
      [under('from'), level(from)],
      ...parts.flatMap((part): Row[] => [
        [own(`  ${part.words}`), gap(part.value)],
        ...(part.ways ?? []).map((way): Row => [own(`    of it by ${way.words}`), gap(way.value)]),
      ]),
      [under('sum'), gap(difference)],
      [under('to'), level(to)],
      ...together,
    ],
  );
  return interactionsExceedParts ? `${rows}  The parts act more together than alone: the split says little.\n` : rows;
}
