/** `cool`: the smallest cooling that makes a failing candidate pass its profile, or that none does and why. */
import type { CoolingAnswer, CoolResult, Remedy } from '@shaftwork/sim-core';
import { type Dimension, formatQuantity } from '@shaftwork/sim-core/quantities';
import { coolingOfScenario } from '@shaftwork/sim-core/run-scenario';
import { EXIT } from '../exit.js';
import { heatJson } from '../render/heat-json.js';
import { wrap } from '../render/table.js';
import type { GlobalOptions, Terminal } from '../terminal.js';
import { prepare, sayProblems } from './prepare.js';
import { LIMIT_WORDS } from './rate.js';

export interface CoolOptions extends GlobalOptions {
  readonly json?: boolean;
}

const SHOWN: Readonly<Record<Remedy, readonly [words: string, dimension: Dimension, unit: string, decimals: number, suffix: string]>> = {
  'air-speed': ['more air past the motor', 'speed', 'm/s', 1, '_m_per_s'],
  'sink-area': ['a heat sink on the motor, one side of all fins', 'area', 'cm²', 0, '_cm2'],
  'jacket-conductance': ['a water jacket, or more of it', 'conductance', 'W/K', 2, '_W_per_K'],
  'controller-conductance': ['more from controller to air', 'conductance', 'W/K', 2, '_W_per_K'],
  'cell-conductance': ['more from cells to air', 'conductance', 'W/K', 2, '_W_per_K'],
};
const SI: Readonly<Record<Remedy, string>> = {
  'air-speed': '_m_per_s',
  'sink-area': '_m2',
  'jacket-conductance': '_W_per_K',
  'controller-conductance': '_W_per_K',
  'cell-conductance': '_W_per_K',
};

export async function cool(io: Terminal, path: string, options: CoolOptions): Promise<number> {
  const prepared = prepare(io, path);
  if (!prepared.ok) {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const results = coolingOfScenario(prepared.prepared);
  // code 1: a candidate fails, and nothing that was tried mends it
  const code = results.every(mended) ? EXIT.done : EXIT.notFeasible;
  if (options.json) {
    const candidates = results.map(({ name, failing, others, remedies }) => ({
      name,
      failing,
      others,
      remedies: remedies.map(({ remedy, answer }) => ({ remedy, ...answerJson(remedy, answer) })),
    }));
    io.out(`${JSON.stringify({ schema: 'shaftwork.cooling/1', candidates }, null, 2)}\n`);
    return code;
  }
  io.out(results.map(textOf).join('\n'));
  return code;
}

const mended = ({ failing, remedies }: CoolResult): boolean =>
  failing.every((limit) =>
    remedies.some(
      ({ remedy, answer }) =>
        answer.kind === 'enough' &&
        (remedy === 'controller-conductance'
          ? limit === 'controllerTemperature'
          : remedy === 'cell-conductance'
            ? limit === 'cellTemperature'
            : limit === 'windingTemperature' || limit === 'magnetTemperature'),
    ),
  );

const answerJson = (remedy: Remedy, answer: CoolingAnswer): object => {
  const { kind } = answer;
  if (kind === 'enough') return { kind, [`value${SI[remedy]}`]: answer.value, peaks: heatJson(answer.peaks) };
  if (kind === 'not-enough') {
    const { tried, limit, ...rest } = answer;
    return { ...(heatJson(rest) as object), limit, [`tried${SI[remedy]}`]: tried };
  }
  return answer;
};

function textOf({ name, failing, others, remedies }: CoolResult): string {
  const beside = others.length === 0 ? '' : ` Cooling does not mend that ${others.join(', and that ')}.`;
  if (failing.length === 0) return `${wrap(`${name} stays within its temperature limits as it is.${beside}`)}\n`;
  const degrees = (x: number): string => formatQuantity(x, 'temperature', { unit: '°C', decimals: 0 });
  const lines = remedies.flatMap(({ remedy, answer }) => {
    const [words, dimension, unit, decimals] = SHOWN[remedy];
    const shown = (x: number): string => formatQuantity(x, dimension, { unit: unit as never, decimals });
    if (answer.kind === 'enough') {
      const own = failing.map((limit) => `${LIMIT_WORDS[limit]} ${degrees(answer.peaks[limit])}`).join(', ');
      return [`  ${shown(answer.value)}: ${words} (${own})`];
    }
    if (answer.kind === 'not-enough')
      return [
        `  not enough: ${words}; even ${shown(answer.tried)} leaves the ${LIMIT_WORDS[answer.limit]} at ${degrees(answer.worst)} of ${degrees(answer.bound)}`,
      ];
    return answer.kind === 'useless' ? [`  no use: ${words}; ${answer.why}`] : [];
  });
  const head = `${name} passes its limit of ${failing.map((limit) => LIMIT_WORDS[limit]).join(' and ')}. Each alone would do for what it reaches:${beside}`;
  return `${wrap(head)}\n${lines.map((line) => wrap(line)).join('\n')}\n`;
}
