/**
 * Which missing or doubtful numbers cost the answer most: each kind of unknown alone at the ends of its 95 % interval, on the real profile.
 *
 *   (1) cost = ½·|peak(z₉₅) − peak(−z₉₅)| of the body nearest to its limit, the greater of the two leading candidates, the second only if it
 *       meets its limits or nearly so
 *   (2) after = (1) with the interval that a cheap measurement leaves
 *
 * A rule's common and own errors move together along their steepest direction, z = z₉₅·σ_k/√Σσ², since one measurement settles both. The
 * same datum of several candidates, each on its own line, is one kind: all are drawn in one go, and the choice is tried with each alone.
 * Kinds are first drawn at one end only; those that move the answer most are drawn at the other end too, for every candidate.
 * *Leaves out* what only shows when several unknowns are off at once; the sampled doubt has that.
 */
import type { ProfileStep } from '../drive/profile.js';
import type { Draw } from '../provenance/realise.js';
import { type UnknownEntry, unknownsOf } from '../provenance/unknowns.js';
import { halfWidth95, logNormal95, normal95, type Spread, STANDARD_DEVIATIONS_95 } from '../quantities/index.js';
import type { CostlyEffect, CostlyNumber, CostlyResult } from '../results/costly-result.js';
import type { LimitId } from '../results/run-result.js';
import { type Method, measurementOf, onUsualSheets } from './measurements.js';
import { type Outcome, outcomeOf } from './outcome.js';
import { compareStandings } from './rank.js';
import type { RunInput } from './run.js';

/** Kinds that are looked at from both ends. */
const MOST_BOTH_ENDS = 6;
/** What is already as good as a cheap measurement is no doubtful number. */
const WORTH_MEASURING = 1.3;
/** A missing line of the sheet comes first where it costs this share of the costliest number. */
const WORTH_ASKING = 0.1;

type Outcomes = ReadonlyMap<string, Outcome>;

/** Unknowns of one subject. */
interface Kind {
  readonly subject: string;
  readonly first: UnknownEntry;
  /** Deviate of every key for one standard deviation of the whole [1]. */
  readonly direction: ReadonlyMap<string, number>;
  /** The whole's spread: common and own errors together. */
  readonly spread: Spread;
  readonly candidates: readonly string[];
  /** Candidates that share a line, or a rule: what moves together. */
  readonly together: readonly (readonly string[])[];
}

const deviationOf = (spread: Spread): number => (spread.shape === 'none' ? 0 : spread.shape === 'normal' ? spread.sd : spread.sigma);
const withDeviation = (shape: Spread['shape'], deviation: number): Spread =>
  shape === 'normal' ? { shape, sd: deviation } : { shape: 'log-normal', sigma: deviation };

function kindsOf(unknowns: readonly UnknownEntry[]): Kind[] {
  const bySubject = new Map<string, UnknownEntry[]>();
  for (const entry of unknowns) bySubject.set(entry.subject, [...(bySubject.get(entry.subject) ?? []), entry]);
  return [...bySubject].map(([subject, entries]) => {
    const common = entries.filter(({ key }) => !key.includes('@'));
    const first = common[0] ?? entries[0];
    const own = entries.find(({ key }) => key.includes('@'));
    const deviation = Math.hypot(deviationOf(first.spread), own === undefined || own === first ? 0 : deviationOf(own.spread));
    const given = !first.group.startsWith('rule:');
    return {
      subject,
      first,
      // each given line is its own unknown, drawn whole
      direction: new Map(entries.map(({ key, spread }) => [key, given ? 1 : deviationOf(spread) / deviation])),
      spread: withDeviation(first.spread.shape, deviation),
      candidates: [...new Set(entries.flatMap(({ candidates }) => candidates))],
      together: common.map(({ candidates }) => candidates),
    };
  });
}

const TEMPERATURES: readonly LimitId[] = ['windingTemperature', 'magnetTemperature', 'controllerTemperature', 'cellTemperature'];

/** Share of the interval [1] that `method` leaves; 1 or more where it gains nothing. */
function remaining({ spread, first }: Kind, { accuracy }: Method): number {
  const size = Math.max(Math.abs(first.value), halfWidth95(spread));
  return deviationOf(spread.shape === 'log-normal' ? logNormal95(accuracy) : normal95(accuracy * size)) / deviationOf(spread);
}

/** A runner-up that fails its limits by far is no alternative, whatever is measured; margin as a share of the way from start to limit. */
const NEAR_MISS = -0.15;
const inPlay = ({ standing, limits }: Outcome): boolean => standing.feasible || (limits[0]?.marginShare ?? 0) > NEAR_MISS;

/**
 * The `most` costliest numbers of `candidates` on `profile`; candidates beyond the first two of the ranking count only for the choice.
 * Throws RangeError where a run changes its mode without end.
 */
export function costlyNumbers(candidates: readonly RunInput[], profile: readonly ProfileStep[], objective: string, most = 3): CostlyResult {
  let simulations = 0;
  const run = (input: RunInput, draw?: Draw): Outcome => {
    simulations++;
    return outcomeOf(input, profile, objective, draw);
  };
  const nominal: Outcomes = new Map(candidates.map((input) => [input.name, run(input)]));
  const order = (outcomes: Outcomes): string[] =>
    candidates.map(({ name }) => name).sort((a, b) => compareStandings(outcomes.get(a)!.standing, outcomes.get(b)!.standing));
  const ranking = order(nominal);
  const leader = ranking[0];
  const leading = ranking.slice(0, 2).filter((name, k) => k === 0 || inPlay(nominal.get(name)!));
  const binding = new Map(
    candidates.map(({ name }) => {
      const nearest = nominal.get(name)!.limits.find(({ id }) => TEMPERATURES.includes(id));
      return [name, { limit: nearest?.id ?? ('windingTemperature' as LimitId), words: nearest?.words ?? 'winding temperature' }] as const;
    }),
  );
  const peak = (outcomes: Outcomes, name: string): number => {
    const { limits, simulation } = outcomes.get(name)!;
    return limits.find(({ id }) => id === binding.get(name)!.limit)?.worst ?? simulation.highest.windingTemperature.value;
  };
  /** Outcomes of those of `names` that hold the kind, at z standard deviations of it; nominal for the rest. */
  const at = (kind: Kind, z: number, names: readonly string[]): Outcomes => {
    const draw: Draw = (key) => z * (kind.direction.get(key) ?? 0);
    const drawn = candidates.filter(({ name }) => names.includes(name) && kind.candidates.includes(name));
    return new Map([...nominal, ...drawn.map((input) => [input.name, run(input, draw)] as const)]);
  };
  const span = (low: Outcomes, high: Outcomes, name: string): number => 0.5 * Math.abs(peak(high, name) - peak(low, name));
  const widest = (low: Outcomes, high: Outcomes): number => Math.max(...leading.map((name) => span(low, high, name)));

  const screened = kindsOf(unknownsOf(candidates))
    .filter((kind) => leading.some((name) => kind.candidates.includes(name)))
    .map((kind) => {
      // one candidate tells enough to sort by
      const names = [leading.find((name) => kind.candidates.includes(name))!];
      const upper = at(kind, STANDARD_DEVIATIONS_95, names);
      return { kind, names, upper, cost: 2 * widest(nominal, upper) };
    })
    .sort((a, b) => b.cost - a.cost);

  const looked = screened.slice(0, MOST_BOTH_ENDS).map(({ kind, names, upper: begun }) => {
    const others = candidates.map(({ name }) => name).filter((name) => !names.includes(name));
    const upper: Outcomes = new Map([
      ...at(kind, STANDARD_DEVIATIONS_95, others),
      ...names.map((name) => [name, begun.get(name)!] as const),
    ]);
    const lower = at(
      kind,
      -STANDARD_DEVIATIONS_95,
      candidates.map(({ name }) => name),
    );
    // the choice, with what moves together moved and all else nominal
    const leaders = kind.together.flatMap((moved) =>
      [lower, upper].map((end) => order(new Map([...nominal, ...moved.map((name) => [name, end.get(name)!] as const)]))[0]),
    );
    const changed = leaders.find((name) => name !== leader);
    const decidesLimits = lower.get(leader)!.standing.feasible !== upper.get(leader)!.standing.feasible;
    return { kind, lower, upper, changed, decidesLimits, before: widest(lower, upper) };
  });
  const weight = (each: (typeof looked)[number]): number => each.before * (each.changed !== undefined || each.decidesLimits ? 2 : 1);
  const costliest = Math.max(0, ...looked.map(({ before }) => before));
  const asked = ({ kind, before }: (typeof looked)[number]): boolean => onUsualSheets(kind.subject) && before > WORTH_ASKING * costliest;

  const numbers = looked
    .filter(({ kind }) => {
      const method = measurementOf(kind.subject);
      return method !== undefined && remaining(kind, method) * WORTH_MEASURING < 1;
    })
    .sort((a, b) => Number(asked(b)) - Number(asked(a)) || weight(b) - weight(a))
    .slice(0, most)
    .map(({ kind, lower, upper, changed, decidesLimits, before }): CostlyNumber => {
      const advice = measurementOf(kind.subject)!;
      const z = remaining(kind, advice) * STANDARD_DEVIATIONS_95;
      const [narrowLow, narrowHigh] = [at(kind, -z, leading), at(kind, z, leading)];
      const effects = leading
        .filter((name) => kind.candidates.includes(name))
        .map(
          (candidate): CostlyEffect => ({
            candidate,
            ...binding.get(candidate)!,
            nominal: peak(nominal, candidate),
            low: peak(lower, candidate),
            high: peak(upper, candidate),
            before: span(lower, upper, candidate),
            after: span(narrowLow, narrowHigh, candidate),
          }),
        )
        .sort((a, b) => b.before - a.before);
      return {
        subject: kind.subject,
        words: kind.first.words,
        standing: kind.first.group.startsWith('rule:') ? 'missing' : 'doubtful',
        dimension: kind.first.dimension,
        tolerance: { in: kind.spread.shape === 'normal' ? 'amount' : 'share', halfWidth: halfWidth95(kind.spread) },
        effects,
        before,
        after: effects[0].after,
        ...(changed === undefined ? {} : { changesChoiceTo: changed }),
        decidesLimits,
        advice,
      };
    });
  return {
    numbers,
    all: [
      ...looked.map(({ kind, before }) => ({ subject: kind.subject, words: kind.first.words, before })),
      ...screened.slice(MOST_BOTH_ENDS).map(({ kind, cost }) => ({ subject: kind.subject, words: kind.first.words, before: 0.5 * cost })),
    ].sort((a, b) => b.before - a.before),
    ranking,
    simulations,
  };
}
