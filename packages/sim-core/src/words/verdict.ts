/**
 * The verdict in short sentences, each made from the figures it speaks of: the choice; how likely it meets its limits, and which is the most
 * likely to be passed; what is wrong with its sheet; the runner-up; what to measure first.
 *
 * @module
 */

import { listed } from '../problems/listed.js';
import type { Objective } from '../provenance/given.js';
import { formatClock, formatQuantity } from '../quantities/index.js';
import type { AuditResult, Oddity, OddityKind } from '../results/audit-result.js';
import { type Chance, inDraws } from '../results/chance.js';
import type { CostlyResult } from '../results/costly-result.js';
import type { CandidateDoubt, DoubtResult } from '../results/doubt-result.js';
import { type Contradiction, stepNotHeld } from '../results/finding.js';
import type { LimitPassed, LimitResult } from '../results/limit-result.js';
import { OBJECTIVE } from '../results/objectives.js';
import type { CandidateResult } from '../results/run-result.js';
import { readWhere } from './reading-words.js';
import { bareName, measureFirstSentence } from './tipping-words.js';
import { advantageOf, comparedWith } from './verdict-comparison.js';

/** What a verdict may know beside the runs. */
export interface VerdictGrounds {
  readonly doubt?: DoubtResult;
  readonly audit?: AuditResult;
  readonly costly?: CostlyResult;
  /** Where none does what is asked: what sets the first before the others. */
  readonly nearestBy?: NearestBy;
}

const NEAREST_BY = {
  fits: 'for room, which the others lack',
  driven: 'for driving more of the run',
  failures: 'for the fewest limits passed and steps not held',
  lack: 'for its worst step, which falls short by less',
} as const;
/** By what the first comes nearest. */
export type NearestBy = keyof typeof NEAREST_BY;

/** Two values of a limit, with a digit more where they would read alike. */
function pair(limit: LimitResult, a: number, b: number): readonly [string, string] {
  const show = (value: number, decimals: number): string => formatQuantity(value, limit.dimension, { unit: limit.shown, decimals });
  const usual = limit.dimension === 'voltage' ? 2 : 0;
  for (let decimals = usual; decimals < usual + 3; decimals++) {
    if (show(a, decimals) !== show(b, decimals)) return [show(a, decimals), show(b, decimals)];
  }
  return [show(a, usual), show(b, usual)];
}

const passedFirst = ({ limits }: CandidateResult): (LimitResult & { readonly passed: LimitPassed })[] =>
  limits
    .flatMap((limit) => (limit.passed === undefined ? [] : [{ ...limit, passed: limit.passed }]))
    .sort((a, b) => a.passed.at - b.passed.at);

/** ", for 0.8 s in all": what passes a limit for a moment is another matter than what stays beyond it. */
const spanOf = ({ lasting }: LimitPassed): string => {
  if (lasting === undefined || lasting >= MOMENT) return '';
  return lasting < INSTANT ? ', for an instant,' : `, for ${formatQuantity(lasting, 'time', { unit: 's', significant: 2 })} in all,`;
};
/** Time beyond a limit that is told to a tenth, and that is no time but where the run ended [s]. */
const MOMENT = 10;
/** Times shorter than this count as a moment [s]. */
export const INSTANT = 1e-3;

/** What is wrong with a candidate, as the rest of a sentence about it; undefined where nothing is. */
export function shortfallOf(candidate: CandidateResult): string | undefined {
  const [passed, ...more] = passedFirst(candidate);
  const ended = endOf(candidate);
  if (passed !== undefined) {
    const [worst, bound] = pair(passed, passed.worst, passed.bound);
    const others = more.length === 0 ? '' : `, and passes ${more.length} other ${more.length === 1 ? 'limit' : 'limits'}`;
    return `passes its limit of ${passed.words}, ${bound}, at ${formatClock(passed.passed.at)}${spanOf(passed.passed)} and reaches ${worst}${others}${ended === undefined ? '' : `; it ${ended}`}`;
  }
  if (ended !== undefined) return ended;
  const lost = stepNotHeld(candidate.findings);
  if (lost !== undefined)
    return lost.label === undefined ? 'does not hold a step of the profile' : `does not hold the step “${lost.label}”`;
  return candidate.facts.fits ? undefined : 'does not fit the space given';
}

function endOf({ end, headline }: CandidateResult): string | undefined {
  if (end === 'finished') return undefined;
  const why = {
    'cut-off': 'the cells are at their cut-off',
    empty: 'the cells are empty',
    burnt: 'it burns out',
    failed: 'there is no operating point',
  }[end];
  const time = headline.runTime.nominal;
  return time < 0.5 ? `cannot start: ${why}` : `stops at ${formatClock(time)}: ${why}`;
}

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

/** Whether a candidate may be chosen: it meets every limit, fits, and holds every step. */
export const meetsDemands = (candidate: CandidateResult): boolean => DEMANDS.every(({ met }) => met(candidate));

/** A choice that meets its limits less surely than this is told with a reserve [1]. */
const SURE = 0.9;

/** What was read and contradicts the rest, the farthest off first, each once however many have the motor. */
const contradictions = (candidates: readonly CandidateResult[]): Contradiction[] => {
  const found = candidates.flatMap(({ findings }) => findings.filter((finding) => finding.kind === 'reading-contradicts'));
  const once = new Map(found.map((finding) => [`${finding.line} ${finding.reading}`, finding]));
  return [...once.values()].sort((a, b) => b.deviations - a.deviations);
};

/** Said before all else, for what contradicts was taken in all the same. */
function gainsaid(ranked: readonly CandidateResult[]): string[] {
  const [worst, ...others] = contradictions(ranked);
  if (worst === undefined) return [];
  const more = others.length === 0 ? '' : `, and ${others.length} more`;
  return [
    `Look at what was read first: ${readWhere(worst)}${more}. No drive of this description reads that; what follows was made with it taken in, and means little.`,
  ];
}

/** Why the choice is told with a reserve: draws in which it fails, a sheet that cannot be right, or a reading that contradicts. */
const reserved = (ranked: readonly CandidateResult[], { doubt, audit }: VerdictGrounds): boolean =>
  keepsLimits(ranked[0], doubt) === 'as written' || oddityOf(ranked[0], audit) !== undefined || contradictions(ranked).length > 0;

const chancesOf = (doubt: DoubtResult | undefined, { name }: CandidateResult): CandidateDoubt | undefined =>
  doubt?.candidates.find((each) => each.name === name);

/** What is unusual about the numbers of the sheet themselves; the rest of what an audit remarks is of the run. */
const OF_THE_SHEET: ReadonlySet<OddityKind> = new Set([
  'motor-constant-out-of-line',
  'peak-efficiency-unlikely',
  'no-load-current-unlikely',
  'pack-capacity-unlikely',
  'rated-current-near-stall',
  'reading-and-sheet-apart',
  'rotor-surface-speed-high',
  'number-far-from-models',
]);

/** What makes the sheet of a candidate doubtful: a contradiction, or a number that is hardly right. */
const oddityOf = ({ name }: CandidateResult, audit: AuditResult | undefined): Oddity | undefined =>
  audit?.oddities.find(
    ({ weight, kind, candidates }) =>
      (weight === 'contradiction' || (weight === 'unusual' && OF_THE_SHEET.has(kind))) && candidates.includes(name),
  );

function choice(ranked: readonly CandidateResult[], objective: Objective, nearest: number, grounds: VerdictGrounds): string {
  const [first] = ranked;
  const { name } = first;
  const good = ranked.filter((candidate) => DEMANDS.every(({ met }) => met(candidate)));
  const missed = DEMANDS.filter(({ met }) => !ranked.every(met));
  if (good.length === 0) {
    if (ranked.length === 1)
      return `${name} does not ${listed(
        missed.map(({ bare }) => bare),
        'or',
      )}.`;
    const demanded = listed(
      missed.map(({ one }) => one),
      'and',
    );
    const by = grounds.nearestBy === undefined ? '' : `, ${NEAREST_BY[grounds.nearestBy]}`;
    return `None of the ${ranked.length} ${demanded}; ${nearest === 1 ? `${name} comes nearest` : `${name} is ${OBJECTIVE[objective].best} of the ${nearest} that come nearest`}${by}.`;
  }
  const [, , steps] = DEMANDS;
  const held = ranked.every(steps.met) ? ['', ''] : [` and ${steps.one}`, ` and ${steps.bare}`];
  const [choose, written] = reserved(ranked, grounds) ? [name, ', with the numbers as written'] : [`Choose ${name}`, ''];
  const is = written === '' ? ',' : ' is';
  if (ranked.length === 1) return `${name} meets every limit${written}.`;
  if (good.length === 1) return `${choose}${is} the only one of ${ranked.length} that meets every limit${held[0]}${written}.`;
  return `${choose}${is} ${OBJECTIVE[objective].best} of the ${good.length} that meet every limit${held[1]}${written}.`;
}

/** What the first lacks, or how surely it meets its limits and which of them is the most likely to be passed. */
function standing(ranked: readonly CandidateResult[], doubt: DoubtResult | undefined): string {
  const [first, ...others] = ranked;
  const own = chancesOf(doubt, first);
  const shortfall = shortfallOf(first);
  const sentences = [
    ...(shortfall === undefined ? [] : [`It ${shortfall}.`]),
    ...(own === undefined ? [] : [`It meets every limit ${inDraws(own.feasible)}.`]),
    ...(shortfall === undefined ? mostLikelyPassed(first, doubt) : []),
  ];
  const safer = others.flatMap((other) => chancesOf(doubt, other) ?? []).find(({ feasible }) => feasible.low > (own?.feasible.high ?? 1));
  if (safer !== undefined) sentences.push(`${safer.name} meets every limit more surely, ${inDraws(safer.feasible)}.`);
  return sentences.join(' ');
}

/** The limit most likely to be passed, with the draws that pass it; where none does, the one with the least left. */
export function decidingLimit(
  candidate: CandidateResult,
  doubt: DoubtResult | undefined,
): { readonly limit: LimitResult; readonly passed?: Chance } | undefined {
  // sorting is stable: of limits passed as often, the one with less left
  const [likely] = [...(chancesOf(doubt, candidate)?.limits ?? [])].sort((a, b) => b.passed.count - a.passed.count);
  const limit = candidate.limits.find(({ id }) => id === likely?.id);
  if (limit !== undefined && likely.passed.count > 0) return { limit, passed: likely.passed };
  const [nearest] = candidate.limits;
  return nearest === undefined ? undefined : { limit: nearest };
}

function mostLikelyPassed(first: CandidateResult, doubt: DoubtResult | undefined): string[] {
  const deciding = decidingLimit(first, doubt);
  if (deciding === undefined) return [];
  const { limit, passed } = deciding;
  const spreadBy = chancesOf(doubt, first)?.limits.find(({ id }) => id === limit.id)?.spreadBy;
  const [worst, bound] = pair(limit, limit.worst, limit.bound);
  const told = `${worst} as written, ${limit.assumed ? 'assumed limit' : 'limit'} ${bound}.`;
  return passed === undefined
    ? [`Its nearest limit is the ${limit.words}: ${told}`]
    : [
        `Most likely to be passed is the ${limit.words}, in ${passed.count} of ${passed.of} draws: ${told}`,
        ...(spreadBy === undefined
          ? []
          : [
              `The largest part of its spread, ${formatQuantity(spreadBy.share, 'fraction', { unit: '%', decimals: 0 })}, comes from the ${bareName(spreadBy.words)}.`,
            ]),
      ];
}

/** Whether every limit is met: surely enough, only with the numbers as written, or not. */
export function keepsLimits(candidate: CandidateResult, doubt: DoubtResult | undefined): 'yes' | 'as written' | 'no' {
  if (!candidate.feasible) return 'no';
  return (chancesOf(doubt, candidate)?.feasible.probability ?? 1) < SURE ? 'as written' : 'yes';
}

function runnerUp(first: CandidateResult, second: CandidateResult, objective: Objective, doubt: DoubtResult | undefined): string {
  const comparison = doubt?.comparisons.find(({ better, worse }) => better === first.name && worse === second.name);
  const sentences = [`${comparedWith(first, second, objective)} the runner-up, ${second.name}.`];
  if (comparison !== undefined)
    sentences.push(
      `${first.name} comes before it ${inDraws(comparison.wins)}${comparison.distinguishable ? '' : ': the two are not told apart'}.`,
    );
  const shortfall = shortfallOf(second);
  const advantage = advantageOf(first, second, objective);
  if (shortfall !== undefined) sentences.push(`${second.name} ${shortfall}.`);
  else if (advantage !== undefined) sentences.push(`Prefer ${second.name} where ${advantage}.`);
  return sentences.join(' ');
}

/** What is odd about the first's sheet. */
function oddSheet(first: CandidateResult, audit: AuditResult | undefined): string[] {
  const odd = oddityOf(first, audit);
  if (odd === undefined) return [];
  return [
    `${odd.weight === 'contradiction' ? 'Its sheet cannot be right' : 'Its sheet is doubtful'}. ${odd.says} This comes before all else.`,
  ];
}

/**
 * `ranked`, the best first; `nearest`: how many of those that fail fail as little as the first. One entry a thought, each of some short
 * sentences.
 */
export function verdictOf(
  ranked: readonly CandidateResult[],
  objective: Objective,
  nearest: number,
  grounds: VerdictGrounds = {},
): string[] {
  const [first, second] = ranked;
  if (first === undefined) return [];
  const { doubt, audit, costly } = grounds;
  const measure = costly === undefined ? undefined : measureFirstSentence(costly);
  return [
    ...gainsaid(ranked),
    choice(ranked, objective, nearest, grounds),
    standing(ranked, doubt),
    ...oddSheet(first, audit),
    ...(second === undefined ? [] : [runnerUp(first, second, objective, doubt)]),
    ...(doubt === undefined ? ['The tolerances were not sampled, so how sure this is was not asked.'] : []),
    ...(measure === undefined ? [] : [measure]),
  ].filter((text) => text !== '');
}
