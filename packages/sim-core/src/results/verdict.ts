/**
 * The verdict in at most four sentences, each made from the figures it speaks of: the choice; its margin, and how sure that is; the
 * runner-up, by how much, how surely, and when it would be preferred; the measurement to make before buying.
 */
import { formatClock, formatQuantity } from '../quantities/index.js';
import type { Chance, DoubtResult, Measurement } from './doubt-result.js';
import { stepNotHeld } from './finding.js';
import type { CandidateResult, LimitId, LimitResult } from './run-result.js';
import { advantageOf, comparedWith } from './verdict-comparison.js';

/** Two values of a limit, with a digit more where they would read alike. */
function pair(limit: LimitResult, a: number, b: number): readonly [string, string] {
  const show = (value: number, decimals: number): string =>
    formatQuantity(value, limit.dimension, { unit: limit.shown as never, decimals });
  const usual = limit.dimension === 'voltage' ? 2 : 0;
  for (let decimals = usual; decimals < usual + 3; decimals++) {
    if (show(a, decimals) !== show(b, decimals)) return [show(a, decimals), show(b, decimals)];
  }
  return [show(a, usual), show(b, usual)];
}

/** "27 K", "4 A": what is left of a limit, a temperature's as a difference; a digit more where it would read as nothing. */
function left(limit: LimitResult): string {
  const size = Math.abs(limit.margin);
  const show = (decimals: number): string =>
    limit.dimension === 'temperature'
      ? formatQuantity(size, 'temperatureDifference', { decimals })
      : formatQuantity(size, limit.dimension, { unit: limit.shown as never, decimals });
  const usual = limit.dimension === 'voltage' ? 2 : 0;
  return /[1-9]/.test(show(usual)) ? show(usual) : show(usual + 1);
}

export const percent = (share: number): string => formatQuantity(share, 'fraction', { unit: '%', decimals: 0 });

/** "in 91 % ± 3 % of the draws", "in all 64 draws", "in none of the 64 draws". */
export function inDraws({ probability, error }: Chance, samples: number): string {
  if (probability === 1) return `in all ${samples} draws of the tolerances`;
  if (probability === 0) return `in none of the ${samples} draws of the tolerances`;
  return `in ${percent(probability)} ± ${percent(Math.max(error, 0.01))} of the draws of the tolerances`;
}

const passedFirst = ({ limits }: CandidateResult): LimitResult[] =>
  limits.filter(({ passedAt }) => passedAt !== undefined).sort((a, b) => a.passedAt! - b.passedAt!);

/** ", for 0.8 s in all": what passes a limit for a moment is another matter than what stays beyond it. */
const spanOf = ({ passedFor }: LimitResult): string =>
  passedFor === undefined || passedFor >= MOMENT ? '' : `, for ${formatQuantity(passedFor, 'time', { unit: 's', significant: 2 })} in all,`;
/** Time beyond a limit that is told to a tenth [s]. */
const MOMENT = 10;

/** What is wrong with a candidate, as the rest of a sentence about it; undefined where nothing is. */
export function shortfallOf(candidate: CandidateResult): string | undefined {
  const [passed, ...more] = passedFirst(candidate);
  const ended = endOf(candidate);
  if (passed !== undefined) {
    const [worst, bound] = pair(passed, passed.worst, passed.bound);
    const others = more.length === 0 ? '' : `, and passes ${more.length} other ${more.length === 1 ? 'limit' : 'limits'}`;
    return `passes its limit of ${passed.words}, ${bound}, at ${formatClock(passed.passedAt!)}${spanOf(passed)} and reaches ${worst}${others}${ended === undefined ? '' : `; it ${ended}`}`;
  }
  if (ended !== undefined) return ended;
  const lost = stepNotHeld(candidate.findings);
  if (lost !== undefined)
    return lost.label === undefined ? 'does not hold a step of the profile' : `does not hold the step “${lost.label}”`;
  return candidate.facts.fits ? undefined : 'does not fit the space given';
}

function endOf({ end, headline }: CandidateResult): string | undefined {
  if (end === 'finished') return undefined;
  const why = { 'cut-off': 'the cells are at their cut-off', empty: 'the cells are empty', failed: 'there is no operating point' }[end];
  const time = headline.runTime.nominal;
  return time < 0.5 ? `cannot start: ${why}` : `stops at ${formatClock(time)}: ${why}`;
}

const UNCHECKED: readonly (readonly [LimitId, string])[] = [
  ['motorCurrent', 'motor current'],
  ['batteryCurrent', 'battery current'],
];

const list = (items: readonly string[], last: 'and' | 'or'): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} ${last} ${items[items.length - 1]}`;

/** Currents that no limit was given for, in words. */
export const uncheckedOf = ({ limits }: CandidateResult): string[] =>
  UNCHECKED.flatMap(([id, words]) => (limits.some((limit) => limit.id === id) ? [] : [words]));

export const BEST: Readonly<Record<string, string>> = {
  coolest: 'the coolest',
  longest: 'the one that lasts longest',
  fastest: 'the fastest',
  lightest: 'the lightest',
};

/** What a candidate must do to be chosen, in the words of one and of several. */
const DEMANDS: readonly {
  readonly one: string;
  readonly bare: string;
  readonly met: (candidate: CandidateResult) => boolean;
}[] = [
  { one: 'meets every limit', bare: 'meet every limit', met: ({ feasible }) => feasible },
  { one: 'fits the space given', bare: 'fit the space given', met: ({ facts }) => facts.fits },
  { one: 'holds every step', bare: 'hold every step', met: ({ findings }) => stepNotHeld(findings) === undefined },
];

function choice(ranked: readonly CandidateResult[], objective: string): string {
  const [first] = ranked;
  const { name } = first!;
  const good = ranked.filter((candidate) => DEMANDS.every(({ met }) => met(candidate)));
  const missed = DEMANDS.filter(({ met }) => !ranked.every(met));
  if (good.length === 0) {
    if (ranked.length === 1)
      return `${name} does not ${list(
        missed.map(({ bare }) => bare),
        'or',
      )}.`;
    const demanded = list(
      missed.map(({ one }) => one),
      'and',
    );
    return `None of the ${ranked.length} ${demanded}; ${name} is ${BEST[objective]} of those that come nearest.`;
  }
  const every = uncheckedOf(first!).length === 0 ? 'every limit' : 'every limit given';
  const [, , steps] = DEMANDS;
  const held = ranked.every(steps!.met) ? ['', ''] : [` and ${steps!.one}`, ` and ${steps!.bare}`];
  if (ranked.length === 1) return `${name} meets ${every}.`;
  if (good.length === 1) return `Choose ${name}, the only one of ${ranked.length} that meets ${every}${held[0]}.`;
  return `Choose ${name}, ${BEST[objective]} of the ${good.length} that meet ${every}${held[1]}.`;
}

function margin(first: CandidateResult, doubt: DoubtResult | undefined): string {
  const chance = doubt?.candidates.find(({ name }) => name === first.name)?.feasible;
  const sure = chance === undefined ? '' : `; it meets every limit ${inDraws(chance, doubt!.samples)}`;
  const shortfall = shortfallOf(first);
  if (shortfall !== undefined) return `It ${shortfall}${sure}.`;
  const missing = uncheckedOf(first);
  const unchecked = missing.length === 0 ? '' : `; no limit of ${list(missing, 'or')} was given, so none was checked`;
  const nearest = first.limits[0];
  if (nearest === undefined) return `It finishes the run${unchecked}.`;
  const [worst, bound] = pair(nearest, nearest.worst, nearest.bound);
  return `Its nearest limit is ${nearest.words}, ${worst} against ${bound}, ${left(nearest)} to spare${sure}${unchecked}.`;
}

function runnerUp(first: CandidateResult, second: CandidateResult, objective: string, doubt: DoubtResult | undefined): string {
  const comparison = doubt?.comparisons.find(({ better, worse }) => better === first.name && worse === second.name);
  const shortfall = shortfallOf(second);
  const parts = [`${comparedWith(first, second, objective)} the runner-up, ${second.name}`];
  if (comparison !== undefined) {
    const before = `${first.name} comes before it ${inDraws(comparison.wins, doubt!.samples)}`;
    parts.push(comparison.distinguishable ? before : `the two are not distinguishable on these data (${before})`);
  }
  if (shortfall !== undefined) parts.push(`${second.name} ${shortfall}`);
  else {
    const advantage = advantageOf(first, second, objective);
    parts.push(advantage === undefined ? 'nothing in these figures speaks for it' : `prefer ${second.name} where ${advantage}`);
  }
  return `${parts.join('; ')}.`;
}

/** A chance before and after, with a digit more where they would read alike. */
function fall({ before, after }: Measurement): string {
  const show = (share: number, decimals: number): string => formatQuantity(share, 'fraction', { unit: '%', decimals });
  const decimals = show(before, 0) === show(after, 0) ? 1 : 0;
  return `from ${show(before, decimals)} to ${show(after, decimals)}`;
}

/** A doubt below this is not worth a measurement. */
const WORTH_MEASURING = 0.02;

function measure({ question, measurements }: DoubtResult): string | undefined {
  if (question === undefined || question.chanceOfError.probability < WORTH_MEASURING) return undefined;
  const [best] = measurements;
  const wrong = question.kind === 'better' ? 'the chance of choosing wrongly' : 'the chance of being wrong about its limits';
  if (best === undefined)
    return `No single measurement would make this much surer; ${wrong} is ${percent(question.chanceOfError.probability)}.`;
  const whose = best.candidates.length === 0 ? '' : ` of ${list(best.candidates, 'and')}`;
  const way = best.needsTheMotor ? 'ask for, or measure on a motor lent,' : 'measure';
  return `Before buying, ${way} the ${best.words}${whose} (${best.effort}: ${best.how}): ${wrong} falls ${fall(best)}.`;
}

/** `ranked`, the best first; doubt where it was sampled. */
export function verdictOf(ranked: readonly CandidateResult[], objective: string, doubt?: DoubtResult): string[] {
  const [first, second] = ranked;
  if (first === undefined) return [];
  const sentences = [choice(ranked, objective), margin(first, doubt)];
  if (second !== undefined) sentences.push(runnerUp(first, second, objective, doubt));
  const last = doubt === undefined ? 'The tolerances were not sampled, so how sure this is was not asked.' : measure(doubt);
  if (last !== undefined) sentences.push(last);
  return sentences;
}
