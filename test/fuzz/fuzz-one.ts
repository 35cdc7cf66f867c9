/** One scenario of a seed driven, and what is wrong with what came out. */
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { randomScenario } from './random-scenario.js';
import { lawsBroken } from './run-laws.js';

export interface Fuzzed {
  readonly seed: number;
  readonly refused: boolean;
  /** Laws broken, in words; a crash is one. */
  readonly broken: readonly string[];
  /** Processor time of the run [s]. */
  readonly seconds: number;
}

/** Longer than this is a hang [s]. */
const LONGEST = 5;

export function fuzzOne(seed: number): Fuzzed {
  const { text, reversed } = randomScenario(seed);
  const began = process.cpuUsage();
  const seconds = (): number => process.cpuUsage(began).user / 1e6;
  const broken: string[] = [];
  try {
    const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
    if (preparation.kind === 'needs') return { seed, refused: false, broken: ['asks for a file'], seconds: seconds() };
    if (preparation.kind !== 'ready') {
      for (const { place, expected, found, hint } of preparation.problems)
        if (!(place.line >= 1) || /NaN|undefined|Infinity|\[object/.test(`${expected} ${found} ${hint ?? ''}`))
          broken.push(`a problem says “expected ${expected}; found ${found}” at line ${place.line}`);
      return { seed, refused: true, broken, seconds: seconds() };
    }
    const result = runScenario(preparation.prepared);
    broken.push(...lawsBroken(preparation.prepared, result));
    const took = seconds();
    if (took > LONGEST) broken.push(`takes ${took.toFixed(1)} s`);
    if (seed % 4 === 0 && preparation.prepared.candidates.length > 1 && took < 1) {
      const turned = prepareScenario(new Map([['s.yaml', reversed]]), 's.yaml');
      if (!('prepared' in turned)) broken.push('is refused with its candidates the other way round');
      else {
        const { ranking } = runScenario(turned.prepared);
        if (ranking.join() !== result.ranking.join()) broken.push(`ranks ${result.ranking.join()}, the other way round ${ranking.join()}`);
      }
    }
  } catch (error) {
    broken.push(`crash: ${error instanceof Error ? (error.stack ?? error.message).split('\n').slice(0, 3).join(' ') : String(error)}`);
  }
  return { seed, refused: false, broken, seconds: seconds() };
}
