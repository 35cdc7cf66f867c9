/**
 * From readings to what is left of the unknowns: all drives' readings at once, for every candidate that shares a number with them.
 *
 * The unknowns are standard normal deviates, each of its own number on its own scale (numerics/normal-conditioning, (1)–(5)); beside them stand what
 * else may be off: conditions, thermometers, the model's own error. These take their part of a deviation and are then left out: what a
 * temperature tells of the model's error is not told to the draws, which keep it whole.
 *
 * @module
 */

import type { ProfileStep } from '../../drive/profile.js';
import { type Conditioned, condition, rootOf } from '../../numerics/normal-conditioning.js';
import type { ScenarioProblem } from '../../problems/index.js';
import type { LearntUnknown, LearntUnknowns } from '../../provenance/learnt.js';
import type { TakenReading } from '../../provenance/taken-readings.js';
import { type UnknownEntry, unknownsOf } from '../../provenance/unknowns.js';
import { deviationOf, drawn, formatClock, interval95, STANDARD_DEVIATIONS_95 } from '../../quantities/index.js';
import type { Contradiction } from '../../results/finding.js';
import type { ReadingsResult } from '../../results/readings-result.js';
import type { CandidateResult } from '../../results/run-result.js';
import type { RunInput } from '../candidate.js';
import { answersOf, otherKeys } from './answers.js';
import { type NumberRead, numbersRead, numberWords, offItsScale, onItsScale, readingWords } from './numbers-read.js';

/** Beyond this many standard deviations a reading is not explained by the intervals of the data. */
export const SURPRISING = 3;
/** A reading that adds this share of what the best one adds to knowing a number is told beside it. */
const TOLD = 0.5;

/** What readings taught. */
export interface Lesson {
  readonly learnt: LearntUnknowns;
  readonly result: ReadingsResult;
  readonly findings: readonly Contradiction[];
  /** Others whose motor a finding speaks of too. */
  readonly alsoOf: ReadonlyMap<Contradiction, readonly string[]>;
  /** Everything, with what else may be off: the deviates' keys in order, and what is left of them. */
  readonly posterior: Conditioned;
  readonly keys: readonly string[];
}

export type Learning =
  | { readonly ok: true; readonly lesson: Lesson }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

/** Candidates as written, and what was taken on them. */
export function learn(candidates: readonly RunInput[], taken: readonly TakenReading[], profile: readonly ProfileStep[]): Learning {
  const measured = candidates.filter(({ name }) => taken.some(({ candidate }) => candidate === name));
  const benches = measured.map((input) => {
    const numbers = taken.filter(({ candidate }) => candidate === input.name).flatMap(numbersRead);
    return { input, numbers, answers: answersOf(input, numbers, profile) };
  });
  const numbers = benches.flatMap((bench) => bench.numbers);
  const sure = numbers.filter(({ datum }) => deviationOf(datum.unknown.spread) === 0);
  if (sure.length > 0) return { ok: false, problems: sure.map(withoutError) };
  const entries = unknownsOf(measured);
  const keys = [...new Set([...entries.map(({ key }) => key), ...benches.flatMap((bench) => otherKeys(bench.numbers, bench.input.name))])];
  const index = new Map(keys.map((key, j) => [key, j]));
  const parts = benches.map(({ input, numbers, answers }) => {
    const others = new Set(otherKeys(numbers, input.name));
    const own = keys.flatMap((key, j) => (others.has(key) || entries[j]?.candidates.includes(input.name) ? [j] : []));
    return remembered(own, (z) => answers((key) => z[index.get(key) ?? -1] ?? 0).map((value, i) => onItsScale(numbers[i].datum, value)));
  });
  const answers = (z: Float64Array): readonly number[] => parts.flatMap((part) => part(z));
  const missing = answers(new Float64Array(keys.length)).flatMap((value, i) => (Number.isFinite(value) ? [] : [numbers[i]]));
  if (missing.length > 0) return { ok: false, problems: missing.map(withoutAnswer) };

  const read = numbers.map(({ datum }) => onItsScale(datum, datum.value));
  const deviations = numbers.map(({ datum }) => deviationOf(datum.unknown.spread));
  const posterior = condition({ dimension: keys.length, answers, read, deviations });
  const root = rootOf(posterior, entries.length);
  const learnt = new Map<string, LearntUnknown>();
  entries.forEach((entry, j) => {
    const told = posterior.sensitivity.map((row) => row[j] ** 2);
    const most = Math.max(...told);
    if (!(most > 0)) return;
    const { mean, deviation, shares } = root[j];
    const mix = entries.flatMap((of, i) => (shares[i] === 0 ? [] : [{ of, weight: shares[i] }]));
    learnt.set(entry.key, {
      mean,
      deviation,
      mix,
      by: numbers.filter((_, i) => told[i] >= TOLD * most).map((number) => `your reading of ${readingWords(number)}`),
    });
  });
  const lines = numbers.map((number, i) => lineOf(number, posterior, i));
  const found = new Map(
    surprising(lines).map((i) => [contradiction(numbers[i], lines[i], posterior, i, entries), numbers[i].taken.alsoOf ?? []] as const),
  );
  return {
    ok: true,
    lesson: {
      learnt,
      result: {
        lines,
        settled: posterior.settled,
        ...(posterior.effectiveDraws === undefined ? {} : { effectiveDraws: posterior.effectiveDraws }),
      },
      findings: [...found.keys()],
      alsoOf: found,
      posterior,
      keys,
    },
  };
}

const REMEMBERED = 8;

/** Answers over the unknowns at `own`; the last few are kept, for most unknowns are of other drives. */
function remembered(own: readonly number[], answers: (z: Float64Array) => readonly number[]): (z: Float64Array) => readonly number[] {
  const known = new Map<string, readonly number[]>();
  return (z) => {
    const key = own.map((j) => z[j]).join();
    const found = known.get(key) ?? answers(z);
    known.delete(key);
    known.set(key, found);
    const [oldest] = known.keys();
    if (known.size > REMEMBERED && oldest !== undefined) known.delete(oldest);
    return found;
  };
}

function lineOf(number: NumberRead, { before, after, sensitivityBefore, surprise }: Conditioned, i: number) {
  const { datum, taken } = number;
  const deviation = deviationOf(datum.unknown.spread);
  const wide = STANDARD_DEVIATIONS_95 * deviation * Math.sqrt(1 + sensitivityBefore[i].reduce((sum, each) => sum + each * each, 0));
  const { file, line } = taken.row.place;
  return {
    candidate: taken.candidate,
    words: numberWords(number),
    told: readingWords(number),
    origin: `${file} line ${line}`,
    ...(datum.source === undefined ? {} : { source: datum.source }),
    dimension: datum.dimension,
    value: datum.value,
    ...interval95(datum.value, datum.unknown.spread),
    expected: {
      value: offItsScale(datum, before[i]),
      low: offItsScale(datum, before[i] - wide),
      high: offItsScale(datum, before[i] + wide),
    },
    since: offItsScale(datum, after[i]),
    off: surprise[i],
  };
}

/** Which readings are off: by what the data say; where none is, the one that the others say is off by most. */
function surprising(lines: ReadingsResult['lines']): number[] {
  const alone = lines.flatMap(({ off }, i) => (Math.abs(off.alone) > SURPRISING ? [i] : []));
  if (alone.length > 0) return alone;
  const size = (i: number): number => Math.abs(lines[i].off.amongAll);
  const worst = lines.reduce((best, _, i) => (size(i) > size(best) ? i : best), 0);
  return size(worst) > SURPRISING ? [worst] : [];
}

/** What a reading contradicts: the number that it would move farthest, or the other readings. */
function contradiction(
  { taken }: NumberRead,
  { candidate, words, value, dimension, expected, off }: ReturnType<typeof lineOf>,
  { mean, sensitivity }: Conditioned,
  i: number,
  entries: readonly UnknownEntry[],
): Contradiction {
  const alone = Math.abs(off.alone) > SURPRISING;
  const pull = (j: number): number => Math.abs(sensitivity[i][j] * mean[j]);
  const farthest = entries.reduce((best, _, j) => (pull(j) > pull(best) ? j : best), 0);
  const { words: against, value: written, spread, dimension: askedDimension } = entries[farthest];
  return {
    candidate,
    kind: 'reading-contradicts',
    reading: words,
    line: taken.row.place.line,
    dimension,
    value,
    bound: expected.value,
    deviations: Math.abs(alone ? off.alone : off.amongAll),
    ...(alone && pull(farthest) > 0 ? { against, written, asked: drawn(written, spread, mean[farthest]), askedDimension } : {}),
  };
}

/** A run with what the readings of its drive, or of its motor, contradict. */
export function withReadings(lesson: Lesson | undefined, run: CandidateResult): CandidateResult {
  if (lesson === undefined) return run;
  const own = lesson.findings.filter(
    (finding) => finding.candidate === run.name || lesson.alsoOf.get(finding)?.includes(run.name) === true,
  );
  return { ...run, findings: [...run.findings, ...own.map((finding) => ({ ...finding, candidate: run.name }))] };
}

const withoutError = ({ datum, taken }: NumberRead): ScenarioProblem => ({
  kind: 'bad-tolerance',
  place: datum.origin.kind === 'given' ? datum.origin.place : taken.row.place,
  expected: 'a reading with its error',
  found: '± 0',
  hint: 'no instrument is exact: write how far it may be off, such as ± 3 %',
});

const withoutAnswer = (number: NumberRead): ScenarioProblem => {
  const { datum, taken } = number;
  const { at, throttle } = taken.row;
  return {
    kind: 'out-of-range',
    place: datum.origin.kind === 'given' ? datum.origin.place : taken.row.place,
    expected: at === undefined ? 'something the drive as written has' : 'a moment that the run as written reaches, with something to read',
    found: `${numberWords(number)}, of which ${taken.candidate} has none`,
    hint:
      at !== undefined
        ? `nothing is to be read at ${formatClock(at.value)}: is the profile the one that was driven, and is the motor on then?`
        : throttle !== undefined
          ? 'look at throttle, voltage and vehicle_speed beside it'
          : 'the run as written fails before its end: “shaftwork run” without this reading tells why',
  };
};
