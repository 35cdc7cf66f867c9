/**
 * `cool`: the smallest cooling, in sizes that fit, with which a failing candidate keeps its temperature limits with the chance asked for.
 *
 * @module
 */

import type { CoolingProposal, CoolResult, Fitting, Remedy } from '@shaftwork/sim-core';
import { coolJson } from '@shaftwork/sim-core/json';
import { coolingOfScenario } from '@shaftwork/sim-core/other-questions';
import { formatQuantity, readQuantity } from '@shaftwork/sim-core/quantities';
import { EXIT, InputFault } from '../hands/exit.js';
import { typed } from '../hands/shell-words.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { hanging } from '../render/audit-text.js';
import { wrap } from '../render/table.js';
import { prepare, sayProblems } from './prepare.js';
import { limitWord } from './rate.js';

export interface CoolOptions extends GlobalOptions {
  readonly chance?: string;
  readonly json?: boolean;
}

export async function cool(io: Terminal, path: string, options: CoolOptions): Promise<number> {
  const goal = chanceOf(options.chance);
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const results = coolingOfScenario(prepared.prepared, goal === undefined ? {} : { goal });
  // code 1: a candidate fails, and nothing that was tried mends it
  const code = results.every(mended) ? EXIT.done : EXIT.notFeasible;
  if (options.json) {
    io.out(`${JSON.stringify({ schema: 'shaftwork.cooling/2', candidates: results.map(coolJson) }, null, 2)}\n`);
    return code;
  }
  io.out(results.map(textOf).join('\n'));
  if (results.some(({ pairs, remedies }) => pairs.length > 0 || remedies.some(({ answer }) => answer.kind === 'enough')))
    io.note(
      `${wrap(`Next: write one of these lines into the candidate, then npx shaftwork run ${typed(path)} --html report.html tells how often each limit is passed. Its chance to meet every limit counts those too that no cooling changes.`)}\n`,
    );
  return code;
}

function chanceOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const read = readQuantity(text, 'fraction');
  if (read.ok && read.value > 0 && read.value < 1) return read.value;
  throw new InputFault(`--chance: expected a chance between 0 and 100 %, both excluded; found ${text}. Such as: --chance '95 %'`);
}

/** A remedy where no size of it is told. */
const WORDS: Readonly<Record<Remedy, string>> = {
  'heat-sink': 'fins',
  air: 'more air',
  water: 'water',
  controller: 'a controller that gives off more',
  cells: 'a pack that gives off more',
};

/** Whether all that fails is kept by one proposal, or by two together. */
const mended = ({ failing, remedies, pairs }: CoolResult): boolean =>
  failing.length === 0 || pairs.length > 0 || remedies.some(({ answer }) => answer.kind === 'enough' && answer.proposal.keepsAll);

const percent = (chance: number): string => formatQuantity(chance, 'fraction', { unit: '%', decimals: 0 });

function textOf(result: CoolResult): string {
  const { name, goal, failing, others, remedies, pairs } = result;
  const beside = others.length === 0 ? '' : ` Cooling does not mend that ${others.join(', and that ')}.`;
  if (failing.length === 0)
    return `${wrap(`${name} stays within its temperature limits as it is, in ${percent(goal)} of the draws or more.${beside}`)}\n`;
  const degrees = (x: number): string => formatQuantity(x, 'temperature', { unit: '°C', decimals: 0 });
  const bad = failing.map(({ limit, chance }) => `${limitWord(limit)} (in ${percent(chance)} of the draws)`);
  const figures = ({ chance, chanceOfAll, peaks }: CoolingProposal): string =>
    `chance ${percent(chance)}${percent(chanceOfAll) === percent(chance) ? '' : `, of all its temperature limits ${percent(chanceOfAll)}`}; nominal ${failing.map(({ limit }) => `${limitWord(limit)} ${degrees(peaks[limit])}`).join(', ')}`;
  const written = (fittings: readonly Fitting[]): string => fittings.map(({ entry }) => `      ${entry}\n`).join('');
  const words = (fittings: readonly Fitting[]): string => fittings.map((each) => each.words).join(', with ');
  const told = (proposal: CoolingProposal): string =>
    `${hanging('  - ', `${words(proposal.fittings)}: ${figures(proposal)}`)}\n${written(proposal.fittings)}`;
  const lines = remedies.flatMap(({ remedy, answer }) => {
    if (answer.kind === 'enough') return [told(answer.proposal)];
    if (answer.kind === 'not-enough')
      return [
        `${hanging('  - not enough: ', `${words(answer.proposal.fittings)}, the most that was tried; ${figures(answer.proposal)}`)}\n`,
      ];
    return answer.kind === 'useless' ? [`${hanging('  - no use: ', `${WORDS[remedy]}; ${answer.why}`)}\n`] : [];
  });
  const together = pairs.length === 0 ? '' : `${wrap('Two together do:')}\n${pairs.map((pair) => told(pair)).join('')}`;
  const nothing =
    mended(result) || pairs.length > 0
      ? ''
      : `${wrap('Nothing that was tried, alone or two together, keeps all its temperature limits.')}\n`;
  const head = `${name} keeps too seldom within its limit of ${bad.join(' and of ')}; ${percent(goal)} is asked for. The smallest size of each that keeps what it cools, or the most of it:${beside}`;
  return `${wrap(head)}\n${lines.join('')}${together}${nothing}`;
}
