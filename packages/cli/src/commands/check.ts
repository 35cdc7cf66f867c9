/** `check`: is the file right, what is odd about the sheets, which numbers cost the answer most, and what is assumed. @module */

import { auditJson, costlyJson } from '@shaftwork/sim-core/json';
import { checkScenario } from '@shaftwork/sim-core/other-questions';
import { formatClock } from '@shaftwork/sim-core/quantities';
import { contradictionSentence } from '@shaftwork/sim-core/words';
import { EXIT } from '../hands/exit.js';
import { typed } from '../hands/shell-words.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { assumptionText } from '../render/assumption-text.js';
import { costlyText, hanging, oddityText } from '../render/audit-text.js';
import { readingsText } from '../render/readings-text.js';
import { wrap } from '../render/table.js';
import { prepare, sayProblems } from './prepare.js';

export async function check(io: Terminal, path: string, options: GlobalOptions & { readonly json?: boolean }): Promise<number> {
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const { audit, costly, assumptions, readings, findings = [] } = checkScenario(prepared.prepared);
  const odd = audit.oddities.some(({ weight }) => weight !== 'note');
  const code = options.strict && (odd || findings.length > 0) ? EXIT.notFeasible : EXIT.done;
  if (options.json) {
    const document = {
      schema: 'shaftwork.check/1',
      audit: auditJson(audit),
      costly: costlyJson(costly),
      assumptions,
      ...(readings && { readings, findings }),
    };
    io.out(`${JSON.stringify(document, null, 2)}\n`);
    return code;
  }
  const { scenario, candidates } = prepared.prepared;
  const seconds = scenario.profile.reduce((sum, step) => sum + step.duration, 0);
  const size = `${counted(candidates.length, 'candidate')}, ${counted(scenario.profile.length, 'step')} in ${formatClock(seconds)} min`;
  const against = audit.oddities.some(({ weight }) => weight === 'contradiction') ? ', but contradicts itself, see below' : '';
  const gainsaid = findings.map(
    (finding) => `${hanging('  • ', `${finding.candidate}: ${contradictionSentence(finding)} [${finding.kind}]`)}\n`,
  );
  io.out(
    [
      `${wrap(`${scenario.title}: the file can be run${against}. ${size}.`)}\n`,
      `${io.colours.strong('What is odd about the sheets')}\n${oddityText(audit)}`,
      ...(readings === undefined
        ? []
        : [`${io.colours.strong('What was read')}\n${readingsText(readings, candidates.length > 1)}${gainsaid.join('')}`]),
      `${io.colours.strong('Of the numbers that cost the answer most, what to measure first')}\n${costlyText(costly)}`,
      `${io.colours.strong('Assumed in place of what was not given, with 95 % intervals')}\n${assumptionText(assumptions, costly, io.verbose)}`,
    ].join('\n'),
  );
  io.note(`Next: npx shaftwork run ${typed(path)}\n`);
  return code;
}

const counted = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? '' : 's'}`;
