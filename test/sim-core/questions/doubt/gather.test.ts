/** Rows written by hand, read back as bands, chances and shares: what the draws say is counted here from the rows themselves. */
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { band, differences, samplesOf } from '@shaftwork/sim-core/questions/doubt/columns';
import { bodyInQuestion, curvesOf, peaksOf } from '@shaftwork/sim-core/questions/doubt/curves';
import { gatherDoubt } from '@shaftwork/sim-core/questions/doubt/gather';
import { type DoubtPlan, sampleOf } from '@shaftwork/sim-core/questions/doubt/plan';
import { limitBits, ROW_FIGURES, type RowFigure, rowIndex, rowLength } from '@shaftwork/sim-core/questions/doubt/sample';
import type { LimitResult } from '@shaftwork/sim-core/results/limit-result';
import type { LimitId } from '@shaftwork/sim-core/results/limits';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';
import { madeUnknown } from './made-unknown.js';

const SAMPLES = 64;
const plan: DoubtPlan = {
  samples: SAMPLES,
  seed: 5,
  names: ['A', 'B'],
  profile: [{ duration: 60, hold: 'throttle', value: { from: 1, to: 1 } }],
  objective: 'coolest',
  unknowns: [madeUnknown('air', ['A', 'B']), madeUnknown('own', ['A'], 'own@own'), madeUnknown('other', ['B'])],
  quasiRandom: 0,
  sequence: undefined,
  times: [0, 30, 60],
};

const limit = (id: LimitId, marginShare: number, bound = 400): LimitResult => ({
  id,
  words: `limit of ${id}`,
  dimension: 'temperature',
  shown: '°C',
  bound,
  origin: 'a test',
  sense: 'ceiling',
  start: 293,
  worst: 350,
  worstTime: 60,
  margin: 1,
  marginShare,
});
const result = (name: string, winding: number, limits: readonly LimitResult[] = [limit('windingTemperature', 0.2)]): CandidateResult =>
  ({
    name,
    limits,
    headline: {
      peakWindingTemperature: { dimension: 'temperature', nominal: winding },
      runTime: { dimension: 'time', nominal: 60 },
      topSpeed: { dimension: 'speed', nominal: 3 },
      energy: { dimension: 'energy', nominal: 9 },
    },
    facts: { mass: 0.2, fits: true },
  }) as CandidateResult;

type Row = Partial<Record<RowFigure, number>>;
/** Rows of both candidates; what is not said is a run to its end that passes nothing. */
function rowsOf(
  row: (sample: number, candidate: number) => Row,
  temperature = (_i: number, body: number, time: number) => 300 + body + time,
) {
  const length = rowLength(plan);
  const rows = new Float64Array(SAMPLES * 2 * length);
  for (let i = 0; i < SAMPLES; i++)
    for (const c of [0, 1]) {
      const start = (2 * i + c) * length;
      const figures: Row = { runTime: 60, timeToCutoff: Number.NaN, timeToReserve: Number.NaN, ...row(i, c) };
      ROW_FIGURES.forEach((figure) => {
        rows[start + rowIndex(figure)] = figures[figure] ?? 0;
      });
      for (let body = 0; body < 6; body++)
        for (let t = 0; t < 3; t++) rows[start + ROW_FIGURES.length + 3 * body + t] = temperature(i, body, t);
    }
  return rows;
}
const of = (rows: Float64Array, candidate = 0, objective: DoubtPlan['objective'] = 'coolest') =>
  samplesOf({ ...plan, objective }, rows, result('AB'[candidate], 350), candidate, rowLength(plan));

it('a band goes from 5 to 95 of a hundred, whatever their order', () => {
  expect(band(Array.from({ length: 101 }, (_, k) => (37 * k) % 101))).toEqual({ p05: 5, p50: 50, p95: 95 });
});

describe('a draw stands', () => {
  it('as each candidate’s own row says', () => {
    const rows = rowsOf((i, c) => ({ windingTemperature: 340 + i + 100 * c, topSpeed: 2 + c, mass: 0.1 + c }));
    expect(of(rows).standings[7]).toMatchObject({ fits: true, feasible: true, holds: true, driven: 1, failures: 0, winding: 347 });
    expect(of(rows, 1).standings[7].winding).toBe(447);
    expect(of(rows, 1).column('topSpeed')[3]).toBe(3);
    expect(of(rows, 1, 'fastest').standings[0].objective).toBe(-3);
    expect(of(rows, 1, 'lightest').standings[0].objective).toBeCloseTo(1.1, 12);
    expect(of(rows).at(2, 4, 1)).toBe(305);
  });

  it('as failed where it ends early or passes a limit, each limit and each lost step a failure', () => {
    const rows = rowsOf((i) => ({
      end: i === 1 ? 1 : 0,
      runTime: i === 1 ? 15 : 60,
      passed: i === 2 ? limitBits(['windingTemperature', 'motorCurrent', 'reserve']) : 0,
      stepsLost: i === 3 ? 2 : 0,
      lack: i === 3 ? 0.4 : 0,
    }));
    const [fine, early, past, lost] = of(rows).standings;
    expect([fine, early, past, lost].map(({ feasible, holds }) => [feasible, holds])).toEqual([
      [true, true],
      [false, true],
      [false, true],
      [true, false],
    ]);
    expect([fine, early, past, lost].map(({ failures }) => failures)).toEqual([0, 0, 3, 2]);
    expect([early.driven, lost.lack]).toEqual([0.25, 0.4]);
  });

  it('by how long it lasts when it is driven again and again, whatever ends it', () => {
    const rows = rowsOf((i) => ({ lasting: [86_400, 900, 700][i] ?? 0 }));
    expect([0, 1, 2].map((i) => of(rows, 0, 'longest').standings[i].objective)).toEqual([-86_400, -900, -700]);
  });
});

describe('curves', () => {
  it('are bands of the draws that still run, as far as half of them do', () => {
    // a quarter stops before 30 s, three quarters before the end
    const rows = rowsOf(
      () => ({}),
      (i, body, t) => (t >= (i % 4 === 0 ? 1 : i % 4 === 3 ? 3 : 2) ? Number.NaN : 300 + i + 100 * body),
    );
    const { time, running, channels } = curvesOf(plan, of(rows));
    expect(time).toEqual([0, 30]);
    expect(running).toEqual([1, 0.75]);
    expect(Object.keys(channels)).toHaveLength(6);
    expect(channels.windingTemperature.p50).toEqual([331.5, expect.closeTo(332, 9)]);
    expect(channels.cellTemperature.p05).toEqual([expect.closeTo(803.15, 9), expect.closeTo(803.7, 9)]);
    expect(channels.cellTemperature.p95[0]).toBeCloseTo(859.85, 9);
  });
  it('reach the end where all run to it, and where just half do', () => {
    expect(curvesOf(plan, of(rowsOf(() => ({})))).time).toEqual([0, 30, 60]);
    const half = rowsOf(
      () => ({}),
      (i, _body, t) => (t === 2 && i % 2 === 0 ? Number.NaN : 300),
    );
    expect(curvesOf(plan, of(half)).running).toEqual([1, 1, 0.5]);
  });
});

describe('the body spoken of', () => {
  const near = [
    result('A', 350, [limit('motorCurrent', 0.01), limit('controllerTemperature', 0.3)]),
    result('B', 350, [limit('windingTemperature', 0.4), limit('cellTemperature', 0.1)]),
  ];
  it('is the winding where the coolest wins, else the one nearest to its limit on either leader', () => {
    expect(bodyInQuestion(near, 'coolest')).toBe('windingTemperature');
    expect(bodyInQuestion(near, 'longest')).toBe('cellTemperature');
    expect(bodyInQuestion(near.slice(0, 1), 'longest')).toBe('controllerTemperature');
    expect(bodyInQuestion([result('A', 350, [limit('motorCurrent', 0.01)])], 'longest')).toBe('windingTemperature');
  });
  it('has its peaks in rising order beside the candidate’s limit of it', () => {
    const rows = rowsOf((i) => ({ windingTemperature: 400 - i, canTemperature: 300 + i }));
    const { channel, words, candidates } = peaksOf([of(rows)], 'windingTemperature');
    expect([channel, words]).toEqual(['windingTemperature', 'peak winding temperature']);
    expect(candidates).toEqual([{ name: 'A', bound: 400, draws: Array.from({ length: SAMPLES }, (_, k) => 337 + k) }]);
    expect(peaksOf([of(rows)], 'canTemperature').candidates[0]).not.toHaveProperty('bound');
  });
});

/** The first unknown's deviate in each draw, and the others'. */
const z = Array.from({ length: SAMPLES }, (_, i) => [...sampleOf(plan, i)].map(inverseNormal));

describe('what is gathered', () => {
  // B is always 10 K hotter than A but in six draws; its limit is passed in four of them all
  const winding = (i: number, c: number): number => 350 + 5 * z[i][0] + z[i][c === 0 ? 1 : 2] + (c === 0 ? 0 : i < 6 ? -30 : 30);
  const rows = rowsOf((i, c) => ({
    windingTemperature: winding(i, c),
    motorCurrent: 20 + z[i][0],
    chargeLeft: 0.5,
    topSpeed: 3,
    passed: c === 1 && i >= 60 ? limitBits(['windingTemperature']) : 0,
    end: c === 1 && i === 63 ? 3 : 0,
    timeToCutoff: i === 5 ? Number.NaN : 900,
    canAfterStop: c === 1 && i === 9 ? Number.NaN : 310 + i,
  }));
  const gathered = (...ranking: readonly string[]) => gatherDoubt(plan, rows, [result('A', 350), result('B', 380)], ranking);

  it('counts who comes first, ends as planned, passes what', () => {
    const { doubt } = gathered('A', 'B');
    const [a, b] = doubt.candidates;
    expect([doubt.samples, doubt.seed, doubt.unknowns, doubt.quasiRandom]).toEqual([64, 5, 3, 0]);
    expect([a.name, b.name]).toEqual(['A', 'B']);
    expect([a.first.count, b.first.count, b.first.of]).toEqual([58, 6, 64]);
    expect([a.feasible.count, b.feasible.count]).toEqual([64, 60]);
    expect([a.ended.count, b.ended.count]).toEqual([0, 1]);
    expect(b.limits).toEqual([
      { id: 'windingTemperature', words: 'limit of windingTemperature', passed: expect.objectContaining({ count: 4, of: 64 }) },
    ]);
    expect(a.limits[0].passed.count).toBe(0);
  });

  it('compares each with those behind it in the ranking, by what it is the better by', () => {
    const { doubt } = gathered('A', 'B');
    expect(doubt.comparisons).toHaveLength(1);
    const [{ better, worse, wins, distinguishable, difference }] = doubt.comparisons;
    expect([better, worse, wins.count, distinguishable]).toEqual(['A', 'B', 58, true]);
    expect(difference).toMatchObject({ words: 'peak winding temperature', dimension: 'temperatureDifference', nominal: 30 });
    const counted = Array.from({ length: SAMPLES }, (_, i) => winding(i, 1) - winding(i, 0));
    expect(difference.p50).toBeCloseTo(band(counted).p50, 9);
    expect([...differences(of(rows), of(rows, 1))]).toEqual(counted.map((each) => expect.closeTo(each, 9)));
    const turned = gathered('B', 'A').doubt.comparisons[0];
    expect([turned.better, turned.wins.count, turned.distinguishable, turned.difference.nominal]).toEqual(['B', 6, false, -30]);
  });

  it('is distinguished from 80 % on, at the lower end of the chance', () => {
    const won = (losses: number) =>
      gatherDoubt(
        plan,
        rowsOf((i, c) => ({ windingTemperature: 350 + (c === 0 ? 0 : i < losses ? -9 : 9) + 0.1 * z[i][0] })),
        [result('A', 350), result('B', 380)],
        ['A', 'B'],
      ).doubt.comparisons[0];
    expect([won(6), won(7)].map(({ wins, distinguishable }) => [wins.low >= 0.8, distinguishable])).toEqual([
      [true, true],
      [false, false],
    ]);
  });

  it('has bands of the figures that are there and known in every draw', () => {
    const { bands } = gathered('A', 'B');
    expect(bands.get('A')).toEqual({
      peakWindingTemperature: { p05: expect.any(Number), p95: expect.any(Number) },
      runTime: { p05: 60, p95: 60 },
      topSpeed: { p05: 3, p95: 3 },
    });
    const counted = band(Array.from({ length: SAMPLES }, (_, i) => winding(i, 1)));
    expect(bands.get('B')?.peakWindingTemperature).toEqual({ p05: counted.p05, p95: counted.p95 });
  });

  it('tells the can after the stop where every draw has a stop', () => {
    const [a, b] = gathered('A', 'B').doubt.candidates;
    expect(a.canAfterStop).toEqual(band(Array.from({ length: SAMPLES }, (_, i) => 310 + i)));
    expect(b).not.toHaveProperty('canAfterStop');
  });

  it('shares the spread of a figure out among its own unknowns: 25 to 1 of what moves it by 5 K and 1 K', () => {
    const { doubt } = gathered('A', 'B');
    const [a] = doubt.candidates;
    // exact sums: only the sampling of 64 draws is between these and 25/26 and 1/26
    expect(a.sensitivities.map(({ words }) => words)).toEqual(['peak winding temperature', 'peak motor current']);
    const [first, second] = a.sensitivities[0].shares;
    expect(a.sensitivities[0].dimension).toBe('temperatureDifference');
    expect([first.group, first.words, first.candidates]).toEqual(['air', 'the air', []]);
    expect([second.group, second.candidates]).toEqual(['own@own', ['A']]);
    expect(first.share).toBeGreaterThan(0.9);
    expect(first.share + second.share + a.sensitivities[0].rest).toBeCloseTo(1, 9);
    expect(second.share / first.share).toBeGreaterThan(0.02);
    expect(second.share / first.share).toBeLessThan(0.07);
    // what the winding's two own unknowns do is all that is left between the two: the air moves both alike
    const { sensitivity, better, worse } = doubt.leaders ?? { better: '', worse: '', sensitivity: a.sensitivities[0] };
    expect([better, worse]).toEqual(['A', 'B']);
    expect(sensitivity.words).toBe('difference of peak winding temperature between A and B');
    expect(sensitivity.shares.map(({ group }) => group)).not.toContain('air');
  });

  it('tells what the spread of a temperature comes from whose limit is passed, and of nothing else', () => {
    const limits = [limit('windingTemperature', 0.2), limit('motorCurrent', 0.1), limit('cellTemperature', 0.3)];
    const hot = rowsOf((i) => ({
      windingTemperature: 350 + 5 * z[i][0] + z[i][1],
      canTemperature: 320 + z[i][0],
      motorCurrent: 20 + z[i][0],
      passed: i < 5 ? limitBits(['windingTemperature', 'motorCurrent']) : 0,
    }));
    const { candidates, leaders } = gatherDoubt(plan, hot, [result('A', 350, limits), result('B', 380)], ['A', 'B']).doubt;
    const [{ limits: told }] = candidates;
    expect(told.map(({ id, passed }) => [id, passed.count])).toEqual([
      ['windingTemperature', 5],
      ['motorCurrent', 5],
      ['cellTemperature', 0],
    ]);
    expect(told[0].spreadBy).toEqual({ words: 'the air', share: candidates[0].sensitivities[0].shares[0].share });
    expect(told.slice(1).map((each) => 'spreadBy' in each)).toEqual([false, false]);
    // both alike in every draw: none wins, the first of the ranking comes first, and nothing parts them
    expect(candidates.map(({ first }) => first.count)).toEqual([64, 0]);
    expect(leaders?.sensitivity.shares).toEqual([]);
    const [{ wins }] = gatherDoubt(plan, hot, [result('A', 350), result('B', 380)], ['B', 'A']).doubt.comparisons;
    expect(wins.count).toBe(0);
  });

  it('asks what parts the leaders of the unknowns of both', () => {
    const apart = rowsOf((i, c) => ({ windingTemperature: 350 + 20 * c + 5 * z[i][0] + (c === 0 ? 2 * z[i][1] : 3 * z[i][2]) }));
    const { leaders } = gatherDoubt(plan, apart, [result('A', 350), result('B', 380)], ['A', 'B']).doubt;
    expect(leaders?.sensitivity.shares.map(({ group }) => group)).toEqual(['other', 'own@own']);
    expect(leaders?.sensitivity.dimension).toBe('temperatureDifference');
  });

  it('of one alone compares nothing', () => {
    const alone = gatherDoubt({ ...plan, names: ['A'] }, rows.slice(0, rows.length / 2), [result('A', 350)], ['A']).doubt;
    expect([alone.comparisons, alone.leaders]).toEqual([[], undefined]);
  });

  it('refuses rows of another plan', () => {
    expect(() => gatherDoubt(plan, rows.slice(1), [result('A', 350), result('B', 380)], ['A', 'B'])).toThrow(/not those of this plan/);
  });
});
