/** The verdict of hand-made results, sentence by sentence; verdict.test.ts holds the numbers of five thousand random ones. */
import type { AuditResult } from '@shaftwork/sim-core/results/audit-result';
import { chanceOf } from '@shaftwork/sim-core/results/chance';
import type { CostlyNumber } from '@shaftwork/sim-core/results/costly-result';
import type { DoubtResult } from '@shaftwork/sim-core/results/doubt-result';
import type { Finding } from '@shaftwork/sim-core/results/finding';
import type { LimitResult } from '@shaftwork/sim-core/results/limit-result';
import type { CandidateResult, RunEnd } from '@shaftwork/sim-core/results/run-result';
import { decidingLimit, keepsLimits, shortfallOf, verdictOf } from '@shaftwork/sim-core/words/verdict';
import { describe, expect, it } from 'vitest';
import { limitResult } from './limit-result.js';

const plain = (text: string | undefined): string => (text ?? '').replaceAll('\u202f', ' ');
const winding = (worst: number, more: Partial<LimitResult> = {}): LimitResult =>
  limitResult({ id: 'windingTemperature', bound: 403.15, start: 293.15, worst, ...more });
const current = (worst: number, more: Partial<LimitResult> = {}): LimitResult =>
  limitResult({ id: 'motorCurrent', bound: 30, worst, ...more });

interface Made {
  readonly name?: string;
  readonly peak?: number;
  readonly end?: RunEnd;
  readonly runTime?: number;
  readonly limits?: readonly LimitResult[];
  readonly feasible?: boolean;
  readonly fits?: boolean;
  readonly mass?: number;
  readonly lost?: { readonly label?: string };
}
const candidate = ({
  name = 'A',
  peak = 350,
  end = 'finished',
  runTime = 600,
  limits = [winding(peak)],
  mass = 0.2,
  ...more
}: Made = {}) => {
  const lost: readonly Finding[] =
    more.lost === undefined ? [] : [{ candidate: name, kind: 'step-not-held', step: 0, wanted: 4, reached: 3, ...more.lost }];
  return {
    name,
    feasible: more.feasible ?? (end === 'finished' && limits.every(({ passed }) => passed === undefined)),
    limits,
    end,
    headline: {
      peakWindingTemperature: { dimension: 'temperature', nominal: peak },
      topSpeed: { dimension: 'speed', nominal: 5 },
      runTime: { dimension: 'time', nominal: runTime },
    },
    facts: { fits: more.fits ?? true, mass, canLength: 0.05, canDiameter: 0.04 },
    findings: lost,
  } as CandidateResult;
};

describe('what a candidate lacks', () => {
  const lacks = (made: Made): string => plain(shortfallOf(candidate(made)));
  it('is nothing where it lacks nothing', () => expect(shortfallOf(candidate())).toBeUndefined());

  it('is the limit passed first, with others counted', () => {
    expect(lacks({ limits: [winding(420, { passed: { at: 65 } })] })).toBe(
      'passes its limit of winding temperature, 130 °C, at 1:05 and reaches 147 °C',
    );
    const two = [winding(420, { passed: { at: 65 } }), current(40, { passed: { at: 5 } })];
    expect(lacks({ limits: two })).toBe(
      'passes its limit of motor current (maker), 30 A, at 0:05 and reaches 40 A, and passes 1 other limit',
    );
    expect(lacks({ limits: [...two, limitResult({ id: 'inputPower', worst: 40, passed: { at: 70 } })] })).toContain(
      'passes 2 other limits',
    );
  });
  it('tells how long it was passed, where that was a moment', () => {
    const span = (lasting: number): string => lacks({ limits: [current(40, { passed: { at: 5, lasting } })] });
    expect(span(0.84)).toContain('at 0:05, for 0.84 s in all, and reaches');
    expect(span(9.94)).toContain('for 9.9 s in all,');
    expect(span(10)).toContain('at 0:05 and reaches');
    expect(span(0.0009)).toContain('at 0:05, for an instant, and reaches');
    expect(span(0.001)).toContain('for 0.0010 s in all,');
  });
  it('has a digit more where bound and worst would read alike', () => {
    expect(lacks({ limits: [current(30.4, { passed: { at: 5 } })] })).toContain('30.0 A, at 0:05 and reaches 30.4 A');
    expect(lacks({ limits: [current(30.004, { passed: { at: 5 } })] })).toContain('30 A, at 0:05 and reaches 30 A');
    const cell = limitResult({ id: 'cellVoltage', bound: 3.3, worst: 3.299, start: 4.2, passed: { at: 5 } });
    expect(lacks({ limits: [cell] })).toContain('3.300 V, at 0:05 and reaches 3.299 V');
  });
  it('is how the run ended', () => {
    const ended = (end: RunEnd, runTime = 90): string => lacks({ end, runTime });
    expect(ended('cut-off')).toBe('stops at 1:30: the cells are at their cut-off');
    expect(ended('empty')).toBe('stops at 1:30: the cells are empty');
    expect(ended('burnt')).toBe('stops at 1:30: it burns out');
    expect(ended('failed')).toBe('stops at 1:30: there is no operating point');
    expect(ended('failed', 0.4)).toBe('cannot start: there is no operating point');
    expect(ended('failed', 0.5)).toContain('stops at');
    expect(lacks({ end: 'burnt', runTime: 90, limits: [winding(600, { passed: { at: 40 } })] })).toMatch(
      /reaches 327 °C; it stops at 1:30: it burns out$/,
    );
  });
  it('is a step that is lost, else the space', () => {
    expect(lacks({ lost: { label: 'climb' }, fits: false })).toBe('does not hold the step “climb”');
    expect(lacks({ lost: {} })).toBe('does not hold a step of the profile');
    expect(lacks({ fits: false })).toBe('does not fit the space given');
  });
});

const doubtOf = (chances: Readonly<Record<string, number>>, more: Partial<DoubtResult> = {}): DoubtResult =>
  ({
    samples: 64,
    candidates: Object.entries(chances).map(([name, count]) => ({ name, feasible: chanceOf(count, 64), limits: [] })),
    comparisons: [],
    ...more,
  }) as unknown as DoubtResult;
const verdict = (ranked: readonly CandidateResult[], nearest = 1, grounds: Parameters<typeof verdictOf>[3] = {}): string[] =>
  verdictOf(ranked, 'coolest', nearest, grounds).map(plain);

describe('the choice', () => {
  const [good, warm] = [candidate(), candidate({ name: 'B', peak: 360 })];
  const failing = candidate({ name: 'C', limits: [winding(420, { passed: { at: 65 } })] });
  const chosen = (ranked: readonly CandidateResult[], nearest = 1, grounds = {}): string | undefined =>
    verdict(ranked, nearest, grounds)[0];

  it('is the best of those that do all that is asked', () => {
    expect(chosen([good, warm, failing])).toBe('Choose A, the coolest of the 2 that meet every limit.');
    expect(chosen([good, failing])).toBe('Choose A, the only one of 2 that meets every limit.');
    expect(chosen([good])).toBe('A meets every limit.');
    expect(verdict([])).toEqual([]);
  });
  it('says so where steps are lost by others', () => {
    const loses = candidate({ name: 'D', lost: { label: 'climb' } });
    expect(chosen([good, loses])).toBe('Choose A, the only one of 2 that meets every limit and holds every step.');
    expect(chosen([good, warm, loses])).toBe('Choose A, the coolest of the 2 that meet every limit and hold every step.');
  });
  it('is made with a reserve where it fails in more than a tenth of the draws', () => {
    expect(chosen([good, warm], 1, { doubt: doubtOf({ A: 57 }) })).toBe(
      'A is the coolest of the 2 that meet every limit, with the numbers as written.',
    );
    expect(chosen([good, failing], 1, { doubt: doubtOf({ A: 57 }) })).toBe(
      'A is the only one of 2 that meets every limit, with the numbers as written.',
    );
    expect(chosen([good], 1, { doubt: doubtOf({ A: 57 }) })).toBe('A meets every limit, with the numbers as written.');
    expect(chosen([good, warm], 1, { doubt: doubtOf({ A: 58 }) })).toContain('Choose A');
  });
  it('comes after a reading that cannot be, and with a reserve then', () => {
    const read = { candidate: 'B', kind: 'reading-contradicts', line: 8, dimension: 'temperature' } as const;
    const far = { ...read, reading: 'temperature on the can 1:00 after the stop', value: 493.15, bound: 297.15, deviations: 9 };
    const near = { ...read, reading: 'battery current at 100 % throttle', value: 21, bound: 9, deviations: 5 };
    const thoughts = verdict([good, { ...warm, findings: [near, far] }]);
    expect(thoughts[0]).toBe(
      'Look at what was read first: 220 °C were read as temperature on the can 1:00 after the stop, where 24 °C were to be expected, and 1 more. No drive of this description reads that; what follows was made with it taken in, and means little.',
    );
    expect(thoughts[1]).toBe('A is the coolest of the 2 that meet every limit, with the numbers as written.');
  });
  it('is none where none does what is asked: the nearest is told', () => {
    const worse = candidate({ name: 'D', limits: [winding(430, { passed: { at: 60 } })] });
    expect(chosen([failing, worse])).toBe('None of the 2 meets every limit; C comes nearest.');
    expect(chosen([failing, worse], 2)).toBe('None of the 2 meets every limit; C is the coolest of the 2 that come nearest.');
    // and by what it is the nearest, where something sets it before another
    for (const [nearestBy, words] of [
      ['driven', 'for driving more of the run'],
      ['failures', 'for the fewest limits passed and steps not held'],
      ['lack', 'for its worst step, which falls short by less'],
      ['fits', 'for room, which the others lack'],
    ] as const)
      expect(chosen([failing, worse], 1, { nearestBy })).toBe(`None of the 2 meets every limit; C comes nearest, ${words}.`);
    expect(chosen([failing])).toBe('C does not meet every limit.');
    expect(chosen([candidate({ limits: [winding(420, { passed: { at: 65 } })], fits: false, lost: {} })])).toBe(
      'A does not meet every limit, fit the space given or hold every step.',
    );
    const small = candidate({ name: 'E', fits: false });
    expect(chosen([small, failing])).toBe('None of the 2 meets every limit and fits the space given; E comes nearest.');
  });
  it('keeps its limits, keeps them as written, or does not', () => {
    expect(keepsLimits(good, undefined)).toBe('yes');
    expect(keepsLimits(good, doubtOf({ A: 58 }))).toBe('yes');
    expect(keepsLimits(good, doubtOf({ A: 57 }))).toBe('as written');
    expect(keepsLimits(failing, doubtOf({ C: 64 }))).toBe('no');
  });
});

describe('how it stands', () => {
  it('names the nearest limit where no draw passes one', () => {
    expect(verdict([candidate()])[1]).toBe('Its nearest limit is the winding temperature: 77 °C as written, limit 130 °C.');
    expect(verdict([candidate({ limits: [winding(350, { assumed: true })] })])[1]).toContain('assumed limit 130 °C');
    expect(verdict([candidate({ limits: [] })])).toEqual([
      'A meets every limit.',
      'The tolerances were not sampled, so how sure this is was not asked.',
    ]);
  });
  it('names the limit that draws pass most, of those alike the one with less left', () => {
    const first = candidate({ limits: [winding(350), current(20)] });
    const passing = (w: number, c: number): DoubtResult => {
      const doubt = doubtOf({ A: 60 });
      const limits = [
        { id: 'windingTemperature', words: 'winding temperature', passed: chanceOf(w, 64) },
        { id: 'motorCurrent', words: 'motor current (maker)', passed: chanceOf(c, 64) },
      ];
      return { ...doubt, candidates: [{ ...doubt.candidates[0], limits }] } as unknown as DoubtResult;
    };
    expect(plain(verdictOf([first], 'coolest', 1, { doubt: passing(1, 4) })[1])).toBe(
      'It meets every limit in 60 of 64 draws, 94 % (85 to 98 %). Most likely to be passed is the motor current (maker), in 4 of 64 draws: 20 A as written, limit 30 A.',
    );
    const [draws] = passing(1, 4).candidates;
    const [winds, amperes] = draws.limits;
    const spreadBy = { words: 'winding to stator: 120 W/(m²·K) on its walls', share: 0.347 };
    const spread = { ...passing(5, 4), candidates: [{ ...draws, limits: [{ ...winds, passed: chanceOf(5, 64), spreadBy }, amperes] }] };
    expect(plain(verdictOf([first], 'coolest', 1, { doubt: spread })[1])).toMatch(
      /in 5 of 64 draws: .*°C\. The largest part of its spread, 35 %, comes from the winding to stator\.$/,
    );
    expect(decidingLimit(first, passing(2, 2))?.limit.id).toBe('windingTemperature');
    expect(decidingLimit(first, passing(0, 0))).toEqual({ limit: first.limits[0] });
    expect(decidingLimit(candidate({ limits: [] }), undefined)).toBeUndefined();
  });
  it('tells what is lacking before the draws, and who is safer', () => {
    const failing = candidate({ limits: [winding(420, { passed: { at: 65 } })] });
    const safer = candidate({ name: 'B', peak: 360 });
    expect(verdict([failing, safer], 1, { doubt: doubtOf({ A: 6, B: 60 }) })[1]).toBe(
      'It passes its limit of winding temperature, 130 °C, at 1:05 and reaches 147 °C. It meets every limit in 6 of 64 draws, 9 % (4 to 19 %). B meets every limit more surely, in 60 of 64 draws, 94 % (85 to 98 %).',
    );
    // intervals that overlap tell nobody apart
    expect(verdict([candidate(), safer], 1, { doubt: doubtOf({ A: 58, B: 62 }) })[1]).not.toContain('more surely');
  });
});

describe('the runner-up', () => {
  const [first, second] = [candidate(), candidate({ name: 'B', peak: 360, mass: 0.15 })];
  it('is compared by the objective, and preferred where it serves better', () => {
    expect(verdict([first, candidate({ name: 'B', peak: 360 })])[2]).toBe('Its winding peaks 10 K cooler than that of the runner-up, B.');
    // a run ends where its winding burns out: how hot it would have become nobody knows
    const burnt = (name: string, body: 'winding' | 'cells' = 'winding') => ({
      ...candidate({ name, peak: 593, end: 'burnt' }),
      findings: [{ candidate: name, kind: 'burnt-out' as const, body, value: 593 }],
    });
    expect(verdict([first, burnt('B')])[2]).toContain('Its winding peaks at least 243 K cooler than that of the runner-up, B.');
    expect(verdict([first, burnt('B', 'cells')])[2]).toContain('Its winding peaks 243 K cooler than');
    expect(verdict([burnt('A'), burnt('B')])[2]).toContain('Its winding burns out like that of the runner-up, B.');
    // a tenth of a gram is not nothing
    expect(verdict([candidate({ mass: 2.4e-4 }), candidate({ name: 'B', mass: 1.4e-4 })])[2]).toContain('(0.14 g against 0.24 g)');
    expect(verdict([first, second])[2]).toBe(
      'Its winding peaks 10 K cooler than that of the runner-up, B. Prefer B where weight matters more (150 g against 200 g).',
    );
  });
  it('is told with what it lacks, and not preferred then', () => {
    const failing = candidate({ name: 'B', peak: 360, mass: 0.15, fits: false });
    expect(verdict([first, failing])[2]).toMatch(/the runner-up, B\. B does not fit the space given\.$/);
  });
  it('is told with how often it comes second', () => {
    const comparison = (distinguishable: boolean) =>
      ({ better: 'A', worse: 'B', wins: chanceOf(40, 64), distinguishable }) as DoubtResult['comparisons'][number];
    const told = (distinguishable: boolean) =>
      verdict([first, second], 1, { doubt: doubtOf({ A: 64, B: 64 }, { comparisons: [comparison(distinguishable)] }) })[2];
    expect(told(false)).toContain('A comes before it in 40 of 64 draws, 63 % (50 to 73 %): the two are not told apart.');
    expect(told(true)).toContain('A comes before it in 40 of 64 draws, 63 % (50 to 73 %).');
    for (const pair of [
      { better: 'B', worse: 'A' },
      { better: 'A', worse: 'C' },
    ])
      expect(
        verdict([first, second], 1, { doubt: doubtOf({ A: 64 }, { comparisons: [{ ...comparison(true), ...pair }] }) })[2],
      ).not.toContain('comes before');
  });
});

describe('a sheet that is odd', () => {
  const audit = (kind: string, weight: string, candidates = ['A']): AuditResult =>
    ({ candidates: [], frames: [], oddities: [{ kind, weight, candidates, says: 'A: can and mass disagree.' }] }) as unknown as AuditResult;
  const said = (of: AuditResult): string => verdict([candidate()], 1, { audit: of }).join(' ');
  it('comes before all else where it cannot be right, or is hardly right', () => {
    expect(said(audit('can-and-mass-apart', 'contradiction'))).toContain(
      'A meets every limit, with the numbers as written. Its nearest limit',
    );
    expect(said(audit('can-and-mass-apart', 'contradiction'))).toContain(
      'Its sheet cannot be right. A: can and mass disagree. This comes before all else.',
    );
    for (const kind of [
      'motor-constant-out-of-line',
      'peak-efficiency-unlikely',
      'no-load-current-unlikely',
      'pack-capacity-unlikely',
      'rated-current-near-stall',
      'reading-and-sheet-apart',
      'rotor-surface-speed-high',
    ])
      expect(said(audit(kind, 'unusual')), kind).toContain('Its sheet is doubtful.');
  });
  it('is not told of the run, of notes, or of others', () => {
    for (const of of [
      audit('loaded-speed-out-of-band', 'unusual'),
      audit('motor-constant-out-of-line', 'note'),
      audit('can-and-mass-apart', 'contradiction', ['B']),
    ])
      expect(said(of)).not.toContain('Its sheet');
  });
});

it('says when nothing was sampled, and not when something was', () => {
  const unsure = 'The tolerances were not sampled, so how sure this is was not asked.';
  expect(verdict([candidate()]).at(-1)).toBe(unsure);
  expect(verdict([candidate()], 1, { doubt: doubtOf({ A: 64 }) })).toEqual([
    'A meets every limit.',
    'It meets every limit in all 64 draws, so at least 95 %. Its nearest limit is the winding temperature: 77 °C as written, limit 130 °C.',
  ]);
});

it('ends with what to measure first, where that is known', () => {
  const number: CostlyNumber = {
    subject: 'motor.resistance',
    words: 'winding resistance',
    candidates: ['A'],
    standing: 'doubtful',
    dimension: 'resistance',
    value: 0.065,
    low: 0.055,
    high: 0.075,
    cost: 0.4,
    effects: [],
    tips: [{ at: 0.06, kind: 'leads', candidate: 'B' }],
    advice: { how: 'pass 5 A', effort: 'minutes', needsTheMotor: false, accuracy: 0.03, key: 'motor.resistance' },
  };
  const costly = { numbers: [number], all: [], ranking: [], leading: [], simulations: 1 };
  expect(verdict([candidate()], 1, { costly }).at(-1)).toMatch(/^Measure first: winding resistance of A, 65\.0 mΩ;/);
  expect(verdict([candidate()], 1, { costly: { ...costly, numbers: [] } })).toHaveLength(3);
});
