/**
 * A child of fuzz.ts: `run <seeds> <variants> <questions>` drives seeds and writes a line each; `bytes <seeds> <root>` gives damaged files of the project at
 * root to the command; `read <seed>` writes all that one reads as.
 */
import { writeSync } from 'node:fs';
import { renderReport } from '@shaftwork/report';
import { csvOf, markdownList, textList } from '@shaftwork/report/export';
import type { RunResult } from '@shaftwork/sim-core';
import { resultJson } from '@shaftwork/sim-core/json';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { fuzzOne } from './fuzz-one.js';
import { MAIN, randomScenario, textsOf } from './generate/scenario.js';

const textsIn = (result: RunResult): string[] => [csvOf(result), markdownList(result, {}), textList(result, {})];
const say = (row: unknown): void => void writeSync(1, `${JSON.stringify(row)}\n`);

const [what, seeds, variants, questions] = process.argv.slice(2);
if (what === 'bytes') {
  const { bytesOne, projects } = await import('./bytes/bytes-one.js');
  const from = projects(variants);
  for (const seed of seeds.split(',').map(Number)) {
    say({ seed, doing: 'run' });
    say(await bytesOne(seed, from));
  }
} else if (what === 'run')
  for (const seed of seeds.split(',').map(Number))
    say(
      await fuzzOne(seed, {
        variants: Number(variants),
        questions: Number(questions),
        doing: (doing) => say({ seed, doing }),
        report: async (result) => ({ html: await renderReport(result, {}), texts: textsIn(result) }),
      }),
    );
else {
  const preparation = prepareScenario(textsOf(randomScenario(Number(seeds))), MAIN);
  if ('prepared' in preparation) {
    const result = runScenario(preparation.prepared);
    console.log(JSON.stringify(resultJson(result)), textsIn(result).join('\n'), result.verdict.join('\n'), JSON.stringify(result.findings));
  } else console.log(JSON.stringify(preparation));
}
