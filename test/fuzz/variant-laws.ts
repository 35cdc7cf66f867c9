/** Laws over a scenario and the same written otherwise: its numbers, its ranking and its refusal stay. */
import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import type { Node } from './generate/dice.js';
import { MAIN, type RandomScenario, textsOf } from './generate/scenario.js';
import { differences, inOtherUnits, otherWayRound, TWIN, withTwin } from './variants.js';
import { FIGURE } from './verdict-laws.js';

/** A number in another unit is the same but for rounding, which the integrator's steps magnify up to its tolerance [1]. */
const ROUNDED = 1e-4;

const named = (result: RunResult, name: string): CandidateResult | undefined => result.candidates.find((each) => each.name === name);
const namesOf = ({ scenario }: RandomScenario): string[] => scenario.candidates.map((each) => String(each['name']));

function run(drawn: RandomScenario, variant: Node): RunResult | string {
  const preparation = prepareScenario(textsOf(drawn, variant), MAIN);
  if ('prepared' in preparation) return runScenario(preparation.prepared);
  return 'problems' in preparation
    ? preparation.problems.map(({ expected, found }) => `expected ${expected}; found ${found}`).join('; ')
    : 'asks for a file';
}

/** Whether two stand alike in what an objective looks at. */
function asGood(a: CandidateResult | undefined, b: CandidateResult | undefined, objective: string): boolean {
  if (a === undefined || b === undefined) return false;
  const figures = ({ headline, ...rest }: CandidateResult): number[] => [
    FIGURE[objective]({ headline, ...rest }),
    headline.peakWindingTemperature.nominal,
  ];
  return differences(figures(a), figures(b), 1e-9).length === 0;
}

/** What differs between the drawn scenario's `result` and its variants. */
export function variantLawsBroken(drawn: RandomScenario, result: RunResult): string[] {
  const found: string[] = [];
  const say = (law: string): void => void found.push(law);

  const twin = run(drawn, withTwin(drawn.scenario));
  if (typeof twin === 'string') say(`with a twin it is refused: ${twin}`);
  else {
    const [first] = namesOf(drawn);
    for (const name of namesOf(drawn)) {
      const apart = differences(named(result, name), named(twin, name), 0);
      if (apart.length > 0) say(`another order of candidates changes ${name}${apart.join('; ')}`);
    }
    const apart = differences(named(twin, first), named(twin, TWIN), 0);
    if (apart.length > 0) say(`a twin differs: ${apart.join('; ')}`);
    const [from, to] = [twin.ranking.indexOf(first), twin.ranking.indexOf(TWIN)].sort((a, b) => a - b);
    // between them stands at most who equals both
    const between = twin.ranking.slice(from + 1, to);
    if (!between.every((name) => asGood(named(twin, name), named(twin, first), twin.scenario.objective)))
      say(`a twin is ranked apart: ${twin.ranking.join()}`);
    const without = twin.ranking.filter((name) => name !== TWIN).join();
    if (without !== result.ranking.join()) say(`ranks ${result.ranking.join()}, the other way round beside a twin ${without}`);
  }
  if (drawn.scenario.candidates.length > 1) {
    const turned = run(drawn, otherWayRound(drawn.scenario));
    if (typeof turned === 'string') say(`the other way round it is refused: ${turned}`);
    else if (turned.ranking.join() !== result.ranking.join())
      say(`ranks ${result.ranking.join()}, the other way round ${turned.ranking.join()}`);
  }
  const other = run(drawn, inOtherUnits(drawn.scenario));
  if (typeof other === 'string') say(`in other units it is refused: ${other}`);
  else
    for (const name of namesOf(drawn)) {
      const [a, b] = [named(result, name), named(other, name)];
      const apart = differences([a?.headline, a?.facts, a?.end], [b?.headline, b?.facts, b?.end], ROUNDED);
      if (apart.length > 0) say(`in other units ${name} has ${apart.join('; ')}`);
    }
  return found;
}
