/** `check`: is the file right, and what is assumed. */
import { formatQuantity } from '@shaftwork/sim-core/quantities';
import { assumptionsOfScenario } from '@shaftwork/sim-core/run-scenario';
import { EXIT } from '../exit.js';
import { table } from '../render/table.js';
import { typed } from '../shell-words.js';
import type { GlobalOptions, Terminal } from '../terminal.js';
import { prepare, sayProblems } from './prepare.js';

export async function check(io: Terminal, path: string, options: GlobalOptions & { readonly json?: boolean }): Promise<number> {
  const prepared = prepare(io, path);
  if (!prepared.ok) {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const assumptions = assumptionsOfScenario(prepared.prepared);
  if (options.json) {
    io.out(`${JSON.stringify({ schema: 'shaftwork.check/1', assumptions }, null, 2)}\n`);
    return EXIT.done;
  }
  const { scenario } = prepared.prepared;
  io.out(
    `${scenario.title}: the file is right. ${counted(scenario.candidates.length, 'candidate')}, ${counted(scenario.profile.length, 'step')}.\n`,
  );
  io.out(`Assumed in place of what was not given (${assumptions.length}), with 95 % intervals:\n\n`);
  const show = (value: number, dimension: (typeof assumptions)[number]['dimension']): string =>
    formatQuantity(value, dimension, { significant: 3 });
  io.out(
    table(
      assumptions.map((each) => [
        `${each.words}${each.candidates.length === scenario.candidates.length ? '' : ` [${each.candidates.join(', ')}]`}`,
        show(each.value, each.dimension),
        each.low === each.high ? '' : `${show(each.low, each.dimension)} … ${show(each.high, each.dimension)}`,
      ]),
    ),
  );
  io.note(`Next: npx shaftwork run ${typed(path)}\n`);
  return EXIT.done;
}

const counted = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? '' : 's'}`;
