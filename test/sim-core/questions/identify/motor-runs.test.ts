/** Runs that a bench could still make, and what each would leave open, against benches that are made by a textbook's laws. */
import { informationOf, withInformation } from '@shaftwork/sim-core/numerics/information';
import { jacobianOf } from '@shaftwork/sim-core/numerics/least-squares';
import type { BenchRows } from '@shaftwork/sim-core/questions/identify/bench-rows';
import { motorModel } from '@shaftwork/sim-core/questions/identify/motor-model';
import { worthOfRuns } from '@shaftwork/sim-core/questions/identify/motor-runs';
import { describe, expect, it } from 'vitest';
import { MADE, SETUP } from '../../../identify/coverage.js';
import { madeBench, type Point } from '../../../identify/made-bench.js';
import { covarianceOf, fitWith, STARTS } from './motor-bench.js';

const P1 = { name: 'P1', torque: 1.6e-8, thrust: 1.2e-6 };
const P2 = { name: 'P2', torque: 2.6e-8, thrust: 1.6e-6 };
const exact = (points: readonly Point[], read?: Parameters<typeof madeBench>[3]): BenchRows =>
  madeBench(MADE, points, 1, { exact: true, ...read });
const at = (supply: number, propeller: Point['propeller'], duty = 1): Point => ({ supply, duty, propeller });
const rows = exact([at(7.4, undefined), at(12.6, undefined), at(12.6, P1), at(12.6, P2)]);
const model = motorModel(rows, SETUP, STARTS);
/** At the truth: what the rules take is moved to what was made. */
const truth = model.list.map(({ key, start, deviation }) => {
  const value = { inductanceTime: MADE.inductance / MADE.resistance, ripple: MADE.ripple, idle: MADE.idle }[key];
  return value === undefined ? 0 : Math.log(value / start) / deviation;
});
const sds = model.list.map((_, k) => 0.5 + 0.03 * k);
const fit = fitWith({ deviates: truth, covariance: covarianceOf(sds, []) });
const plain = (words: string): string => words.replace(/[\u00a0\u202f]/g, ' ');

it('are the bare shaft, a lighter propeller, the same on two voltages and at half throttle, and the leads', () => {
  expect(worthOfRuns(rows, SETUP, model, fit, STARTS).map(({ words }) => plain(words))).toEqual([
    'the bare shaft at full throttle on 7.4 V and 12.6 V',
    'a propeller that asks for half the torque, at full throttle on 12.6 V',
    'the same propeller at full throttle on 7.4 V and 12.6 V',
    'the same propeller at half throttle on 12.6 V',
    'the resistance between two leads, by a current sent through them and the volts at the leads',
  ]);
  // of a bench on one voltage, the other is two thirds of it; of a bare one any propeller is another
  const bare = exact([at(11.1, undefined), at(11.1, undefined), at(10.9, undefined)]);
  const starts = { ...STARTS, torque: [], thrust: [] };
  const none = motorModel(bare, SETUP, starts);
  const unknown = fitWith({
    deviates: none.list.map(() => 0),
    covariance: covarianceOf(
      none.list.map(() => 0.5),
      [],
    ),
  });
  expect(
    worthOfRuns(bare, SETUP, none, unknown, starts)
      .map(({ words }) => plain(words))
      .slice(0, -1),
  ).toEqual(['the bare shaft at full throttle on 7.4 V and 11.1 V', 'a propeller at full throttle on 11.1 V']);
});

describe('leave open', () => {
  const worth = worthOfRuns(rows, SETUP, model, fit, STARTS);
  const half = { name: 'another', torque: 0.8e-8, thrust: 0 };
  const four = [0, 1, 2, 3];
  const both = (propeller: Point['propeller']) => four.flatMap(() => [at(12.6, propeller), at(7.4, propeller)]);
  it.each<readonly [string, number, readonly Point[], boolean]>([
    ['by the bare shaft', 0, both(undefined), false],
    ['by a lighter propeller', 1, four.flatMap(() => [at(12.6, half), at(12.6, half)]), false],
    ['by the same propeller', 2, both(P1), false],
    ['at half throttle', 3, four.flatMap(() => [at(12.6, P1, 0.5), at(12.6, P1, 0.5)]), true],
  ])('%s what eight rows of it by the same instruments do', (_, k, points, unknownDuty) => {
    const tried = exact(points, { read: ['voltage', 'current', 'speed'] });
    const seen = unknownDuty ? { ...tried, duty: tried.duty.map(() => Number.NaN) } : tried;
    const trial = motorModel(seen, SETUP, {
      ...STARTS,
      torque: points.slice(0, 1).map(({ propeller }) => propeller?.torque ?? 0),
      thrust: [0],
    });
    const place = trial.list.map(({ key }) => model.list.findIndex((each) => each.key === key));
    const z = place.map((j) => (j < 0 ? 0 : truth[j]));
    trial.weigh(z);
    const more = informationOf(jacobianOf(trial, z), new Float64Array(trial.count).fill(1), trial.unknowns);
    const left = withInformation(
      fit.covariance,
      more,
      place.map((j) => (j < 0 ? model.unknowns : j)),
    );
    let told = 0;
    model.list.forEach((__, j) => {
      const [made, expected] = [Math.sqrt(worth[k].covariance[j][j]), Math.sqrt(left[j][j])];
      // the textbook's bench has a dead time's drop, which the runs leave out
      expect(Math.abs(made / expected - 1), model.list[j].key).toBeLessThan(0.04);
      if (made < 0.8 * sds[j]) told++;
    });
    expect(told).toBeGreaterThan(0);
  });
  it('by the leads the resistance as well as 3 % of it are known', () => {
    const leads = worth[4].covariance;
    const r = model.list.findIndex(({ key }) => key === 'resistance');
    const read = 0.03 / 1.959963984540054 / model.list[r].deviation;
    expect(leads[r][r]).toBeCloseTo(1 / (1 / sds[r] ** 2 + 1 / read ** 2), 9);
    model.list.forEach((_, j) => {
      if (j !== r) expect(leads[j][j]).toBeCloseTo(sds[j] ** 2, 9);
    });
  });
});
