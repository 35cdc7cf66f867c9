/** A planned bench day against an even sweep of the throttle, by benches that are simulated. @module */
import { informationOf, posterior, type Rows } from '@shaftwork/sim-core/numerics/information';
import { deviationAfter, pickedRuns, planModel, planOf } from '@shaftwork/sim-core/questions/identify/bench-plan';
import { INSTRUMENTS, type InstrumentId, scatterOf } from '@shaftwork/sim-core/questions/identify/instruments';
import { type BenchRun, sweepRuns } from '@shaftwork/sim-core/questions/identify/plan-runs';
import { expect, it } from 'vitest';
import { candidateOf, normals, profileOf } from '../../../identify/make-logs.js';

const ROWS = 8;
const PASSES = 10;
const RELAXED = 0.6;
const GAINS = Object.keys(INSTRUMENTS) as InstrumentId[];
/** Truths are drawn with this much of what is likely, so that laws bend little; what is foretold is reckoned for the same. */
const SPREAD = 0.5;
const input = candidateOf('burst-glider.yaml');
const { profile, objective } = profileOf('burst-glider.yaml');
const model = planModel(input, profile, objective, 'in-slot');

it('beats an even sweep by the factor that it foretells', { timeout: 240_000 }, () => {
  const picked = pickedRuns(model, 6);
  const planned = { runs: picked.map((k) => model.runs[k]), rows: picked.flatMap((k) => [...model.jacobians[k]]) };
  const swept = { runs: sweepRuns(model.system, 'in-slot'), rows: model.sweep };
  expect(deviationAfter(model.gradient, swept.rows) / deviationAfter(model.gradient, planned.rows)).toBeGreaterThan(2);
  // error of g·z where truths are drawn with the spread s and taken to have 1: gᵀ·(C − (1 − s²)·C²)·g
  const expected = (rows: Rows): number => {
    const c = posterior(informationOf(rows, new Float64Array(rows.length).fill(1), model.gradient.length));
    const cg = c.map((row) => row.reduce((sum, each, j) => sum + each * model.gradient[j], 0));
    const direct = cg.reduce((sum, each, j) => sum + each * model.gradient[j], 0);
    return Math.sqrt(direct - (1 - SPREAD * SPREAD) * cg.reduce((sum, each) => sum + each * each, 0));
  };
  const foretold = expected(swept.rows) / expected(planned.rows);

  // what a bench would find of the decision: from what was known before, with the plan's own Jacobian, until the readings are met
  const normal = normals(21);
  const found = (
    { runs, rows }: { readonly runs: readonly BenchRun[]; readonly rows: Rows },
    truth: readonly number[],
    gains: readonly number[],
  ): number => {
    const size = truth.length;
    const readAt = (z: ArrayLike<number>) => runs.flatMap((run) => [...model.readings(run, z)]);
    const base = readAt(new Float64Array(size));
    const noise = base.map(
      ({ value, instrument, scatter }) =>
        scatter ?? (instrument === undefined ? 1 : scatterOf(INSTRUMENTS[instrument], value) / Math.sqrt(ROWS)),
    );
    const gainOf = (instrument: InstrumentId | undefined, z: ArrayLike<number>, from: number): number => {
      const k = instrument === undefined ? -1 : GAINS.indexOf(instrument);
      return k < 0 ? 1 : 1 + (INSTRUMENTS[GAINS[k]].gain * z[from + k]) / 1.96;
    };
    const shown = readAt(truth).map(({ value, instrument }, i) => gainOf(instrument, gains, 0) * value + noise[i] * normal());
    const covariance = posterior(informationOf(rows, new Float64Array(rows.length).fill(1), model.gradient.length));
    const z = new Float64Array(model.gradient.length);
    for (let pass = 0; pass < PASSES; pass++) {
      const off = readAt(z).map(({ value, instrument }, i) => (shown[i] - gainOf(instrument, z, size) * value) / noise[i]);
      const pull = model.gradient.map((_, j) => rows.reduce((sum, row, i) => sum + row[j] * off[i], -z[j]));
      covariance.forEach((row, j) => {
        z[j] += RELAXED * row.reduce((sum, each, k) => sum + each * pull[k], 0);
      });
    }
    return model.gradient.reduce((sum, g, j) => sum + g * (z[j] - (truth[j] ?? 0)), 0);
  };
  let [plan, sweep] = [0, 0];
  const benches = 24;
  for (let bench = 0; bench < benches; bench++) {
    // a quarter of what is likely: laws that bend are another matter than which runs tell most
    const truth = model.words.map(() => SPREAD * normal());
    const gains = GAINS.map(() => SPREAD * normal());
    plan += found(planned, truth, gains) ** 2;
    sweep += found(swept, truth, gains) ** 2;
  }
  const beaten = Math.sqrt(sweep / plan);
  expect(beaten / foretold).toBeGreaterThan(0.7);
  expect(beaten / foretold).toBeLessThan(1.45);
});

it('says what each run narrows, how hot it gets and when to stop', { timeout: 120_000 }, () => {
  const day = planOf(input.name, model, 6);
  expect(day.runs).toHaveLength(6);
  const lefts = day.runs.map(({ left }) => left);
  expect([...lefts].sort((a, b) => b - a)).toEqual(lefts);
  expect(lefts[5]).toBeLessThan(0.9);
  for (const { winding, duration, narrows } of day.runs) {
    expect(winding).toBeLessThan(day.limit);
    expect(duration).toBeGreaterThan(0);
    expect(narrows.length).toBeLessThanOrEqual(3);
  }
  expect(day.runs[0].narrows.length).toBeGreaterThan(0);
  expect(day.better).toBeGreaterThan(1);
});
