/** One scenario of a seed driven, and what is wrong with what came out. */
import type { RunResult } from '@shaftwork/sim-core';
import { type PreparedScenario, prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { MAIN, type RandomScenario, randomScenario, textsOf } from './generate/scenario.js';
import { questionLawsBroken, type Report } from './question-laws.js';
import { lawsBroken } from './run-laws.js';
import { variantLawsBroken } from './variant-laws.js';

export interface Fuzzed {
  readonly seed: number;
  readonly refused: boolean;
  /** Laws broken, in words; a crash is one. */
  readonly broken: readonly string[];
  /** Processor time of the run [s]. */
  readonly seconds: number;
  /** Whether it was written otherwise too, and asked every question. */
  readonly variants?: boolean;
  readonly questions?: boolean;
}

export interface FuzzOptions {
  /** Of how many scenarios one is written otherwise too, and one asked every question; none where absent. */
  readonly variants?: number;
  readonly questions?: number;
  /** Told what is being done, so that it is known what hangs. */
  readonly doing?: (what: string) => void;
  readonly report?: Report;
}

/** A run that took longer is not driven again in variants [s]. */
const CHEAP = 1;

const crash = (error: unknown): string =>
  `crash: ${error instanceof Error ? (error.stack ?? error.message).split('\n').slice(0, 4).join(' ') : String(error)}`;

/** Problems whose words or places are none. */
function wordsBroken(preparation: Extract<ReturnType<typeof prepareScenario>, { problems: unknown }>): string[] {
  return preparation.problems
    .filter(
      ({ place, expected, found, hint }) =>
        !(place.line >= 1) || /NaN|undefined|Infinity|\[object/.test(`${expected} ${found} ${hint ?? ''}`),
    )
    .map(({ place, expected, found }) => `a problem says “expected ${expected}; found ${found}” at line ${place.line}`);
}

export async function fuzzOne(seed: number, options: FuzzOptions = {}): Promise<Fuzzed> {
  const drawn = randomScenario(seed);
  const began = process.cpuUsage();
  const seconds = (): number => process.cpuUsage(began).user / 1e6;
  try {
    options.doing?.('run');
    const preparation = prepareScenario(textsOf(drawn), MAIN);
    if (preparation.kind === 'needs') return { seed, refused: false, broken: ['asks for a file'], seconds: seconds() };
    if (preparation.kind !== 'ready') return { seed, refused: true, broken: wordsBroken(preparation), seconds: seconds() };
    const result = runScenario(preparation.prepared);
    const broken = lawsBroken(preparation.prepared, result);
    const took = seconds();
    const asked = await more(seed, drawn, preparation.prepared, result, took, options);
    broken.push(...asked.broken);
    return { ...asked, seed, refused: false, broken, seconds: took };
  } catch (error) {
    return { seed, refused: false, broken: [crash(error)], seconds: seconds() };
  }
}

async function more(
  seed: number,
  drawn: RandomScenario,
  prepared: PreparedScenario,
  result: RunResult,
  took: number,
  { variants, questions, doing = () => {}, report }: FuzzOptions,
): Promise<Pick<Fuzzed, 'broken' | 'variants' | 'questions'>> {
  const broken: string[] = [];
  const otherwise = variants !== undefined && seed % variants === 0 && took < CHEAP;
  if (otherwise) {
    doing('variants');
    broken.push(...variantLawsBroken(drawn, result));
  }
  const asked = questions !== undefined && report !== undefined && seed % questions === 0;
  if (asked) broken.push(...(await questionLawsBroken(prepared, result, seed, doing, report)));
  return { broken, ...(otherwise ? { variants: true } : {}), ...(asked ? { questions: true } : {}) };
}
