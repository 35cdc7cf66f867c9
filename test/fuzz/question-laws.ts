/** Every question asked of one scenario: none crashes, tells a number that is none, or words that are none; bands in order, chances that sum to one. */
import { POINT_FIGURE_IDS, type RunResult, THERMOMETER_PLACES, type ThermometerPlaceId } from '@shaftwork/sim-core';
import { resultJson } from '@shaftwork/sim-core/json';
import {
  checkScenario,
  coolingOfScenario,
  jobsOf,
  type PointAsk,
  planDoubtOf,
  pointsOfScenario,
  ratingsOfScenario,
  readingsOfScenario,
  shapesOfScenario,
  whyOfScenario,
  windingsOfScenario,
  withCostly,
  withDoubt,
  withRatings,
  withWhy,
  workDoubtOf,
} from '@shaftwork/sim-core/other-questions';
import type { PreparedScenario } from '@shaftwork/sim-core/run-scenario';
import { notFinite } from './run-laws.js';
import { NO_WORDS } from './verdict-laws.js';

export type Report = (result: RunResult) => Promise<{ readonly html: string; readonly texts: readonly string[] }>;

const SAMPLES = 16;
const PLACES = Object.keys(THERMOMETER_PLACES) as ThermometerPlaceId[];
const ASKS: readonly PointAsk[] = (
  [
    ['throttle', 0],
    ['throttle', 0.01],
    ['throttle', 0.5],
    ['throttle', 1],
    ['vehicleSpeed', 5],
    ['shaftSpeed', 600],
    ['shaftSpeed', 0],
    ['motorCurrent', 10],
    ['batteryPower', 100],
    ['batteryPower', 0],
    ['batteryCurrent', 8],
    ['thrust', 5],
    ['thrust', 0],
  ] as const
).map(([hold, value], k) => {
  const speed = hold === 'vehicleSpeed' ? value : k % 2 === 0 ? 3 : undefined;
  return { hold, value, ...(speed === undefined ? {} : { vehicleSpeed: speed }) };
});

/** Figures of a point that have no meaning there are NaN by their own word, and told as none. */
const figuresApart = (points: ReturnType<typeof pointsOfScenario>): unknown =>
  points.map(({ figures: _, bands, ...rest }) => ({ ...rest, channelBands: bands?.channels, powerBands: bands?.powers }));

/** `ask` is told before each question, so that one that hangs is known by name. */
export async function questionLawsBroken(
  prepared: PreparedScenario,
  result: RunResult,
  seed: number,
  ask: (question: string) => void,
  report: Report,
): Promise<string[]> {
  const found: string[] = [];
  const study = async <T>(
    question: string,
    answer: () => T | Promise<T>,
    look: (told: T) => unknown = (told) => told,
  ): Promise<T | undefined> => {
    ask(question);
    try {
      const told = await answer();
      for (const bad of notFinite(look(told)).slice(0, 3)) found.push(`${question}: ${bad}`);
      return told;
    } catch (error) {
      // a reading or a charge that tells nothing is refused with words
      if (error instanceof RangeError && question.startsWith('reading')) return undefined;
      found.push(
        `${question}: crash: ${error instanceof Error ? (error.stack ?? error.message).split('\n').slice(0, 3).join(' ') : error}`,
      );
      return undefined;
    }
  };
  let whole = result;
  await study('doubt', () => {
    const plan = planDoubtOf(prepared, { samples: SAMPLES, seed: 1 });
    const rowsOf = (hands: number): Float64Array => {
      const parts = jobsOf(plan, hands).map((job) => workDoubtOf(prepared, plan, job));
      return Float64Array.from(parts.flatMap((part) => [...part]));
    };
    const rows = rowsOf(8);
    if (seed % 3 === 0 && rowsOf(3).some((x, k) => !Object.is(x, rows[k])))
      found.push('doubt: the number of draws a worker takes changes them');
    whole = withDoubt(whole, plan, rows);
    const each = whole.doubt?.candidates ?? [];
    for (const { name, feasible, first } of each)
      for (const { probability } of [feasible, first])
        if (!(probability >= 0 && probability <= 1)) found.push(`doubt: a chance of ${probability} for ${name}`);
    const sum = each.reduce((total, { first }) => total + first.probability, 0);
    if (Math.abs(sum - 1) > 1e-9) found.push(`doubt: chances to be first sum to ${sum}`);
    for (const { name, headline } of whole.candidates)
      for (const [key, { band }] of Object.entries(headline))
        if (band !== undefined && band.p05 > band.p95) found.push(`doubt: ${name} ${key} from ${band.p05} to ${band.p95}`);
    return whole.doubt;
  });
  await study('costly', () => {
    whole = withCostly(prepared, whole);
    return whole.costly;
  });
  await study('ratings', () => {
    whole = withRatings(prepared, whole);
    return whole.candidates.map(({ rating, partThrottle }) => ({ rating, partThrottle }));
  });
  await study(
    'rate',
    () => ratingsOfScenario(prepared, {}),
    (rated) => rated.map(({ limits: _, ...rest }) => rest),
  );
  await study('cool', () => coolingOfScenario(prepared));
  const [leader, second] = result.ranking;
  if (second !== undefined) {
    await study('why', () => {
      whole = withWhy(prepared, whole);
      return whole.why;
    });
    await study('why lasting', () => whyOfScenario(prepared, { from: second, to: leader, result, lasting: true }));
  }
  await study('reshape', () => shapesOfScenario(prepared, { reference: leader }));
  await study('rewind', () => windingsOfScenario(prepared));
  const place = PLACES[seed % PLACES.length];
  await study(`reading ${place}`, () =>
    readingsOfScenario(prepared, { place, reading: 313.15 + (seed % 60), after: seed % 300, samples: SAMPLES, seed: 1 }),
  );
  await study(
    'check',
    () => checkScenario(prepared),
    ({ costly, assumptions }) => [costly, assumptions],
  );
  for (const each of ASKS) await study(`point ${each.hold} ${each.value}`, () => pointsOfScenario(prepared, each), figuresApart);
  if (POINT_FIGURE_IDS.length === 0) found.push('point: no figures');
  await study(
    'JSON',
    () => JSON.stringify(resultJson(whole)),
    (text) => {
      if (/:null\b/.test(text))
        found.push(`JSON: null in …${text.slice(Math.max(0, text.search(/:null\b/) - 80), text.search(/:null\b/) + 10)}`);
      return undefined;
    },
  );
  await study(
    'report',
    () => report(whole),
    ({ html, texts }) => {
      // of what is shown: scripts, styles and embedded data apart
      const shown = html.replace(/<script[\s\S]*?<\/script>/g, '').replace(/<style[\s\S]*?<\/style>/g, '');
      for (const text of [shown, ...texts]) {
        const at = text.search(NO_WORDS);
        if (at >= 0) found.push(`report says …${text.slice(Math.max(0, at - 60), at + 30).replace(/\s+/g, ' ')}…`);
      }
      return undefined;
    },
  );
  return found;
}
