/** One draw of a drive against the run that is made here of the same draw: every figure of its row, and where rows lie. */
import { startTemperature } from '@shaftwork/sim-core/drive/start-temperature';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import type { Objective } from '@shaftwork/sim-core/provenance/given';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { deviatesOf, modelFactor, planDoubt } from '@shaftwork/sim-core/questions/doubt/plan';
import {
  ENDS,
  jobsOf,
  limitBits,
  ROW_FIGURES,
  type RowFigure,
  rowIndex,
  rowLength,
  sampleStart,
  watchedIn,
  watchedSamples,
  workDoubt,
} from '@shaftwork/sim-core/questions/doubt/sample';
import { coolDown } from '@shaftwork/sim-core/questions/run/after-stop';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { thermometerShares, watchSystem } from '@shaftwork/sim-core/questions/simulate/watch';
import { BODY_CHANNEL } from '@shaftwork/sim-core/results/channels';
import { describe, expect, it } from 'vitest';
import { INRUNNER, OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';

const ASK = { samples: 16, seed: 4 } as const;
const OPTIONS = { method: 'dormand-prince', relative: 5e-4, record: false } as const;
function drawn(more: Section = {}, objective: Objective = 'coolest', index = 3) {
  const { candidates, scenario } = preparedOf({
    profile: [
      { for: '3 s', throttle: '70 %' },
      { for: '2 s', throttle: '30 %' },
    ],
    ...more,
  });
  const [input] = candidates;
  const plan = planDoubt(candidates, scenario.profile, objective, ASK);
  const row = workDoubt(plan, candidates, { from: index, to: index + 1 });
  const deviates = deviatesOf(plan, index);
  const deviate = (key: string): number => deviates.get(key) ?? 0;
  const system = realise(input.data, deviate);
  const run = simulate(system, scenario.profile, { ...OPTIONS, keepAt: Float64Array.from(plan.times) });
  const factor = modelFactor(deviate, input.name);
  const figure = (id: RowFigure): number => row[rowIndex(id)];
  const rise = (value: number, body: (typeof BODIES)[number]): number => {
    const start = startTemperature(system.start, body);
    return start + (value - start) * factor;
  };
  return { candidates, plan, row, system, run, figure, rise, deviate, factor, profile: scenario.profile };
}

describe('a row', () => {
  it('has the figures of the run of its draw, every rise by as much more as the model errs', () => {
    const { plan, row, system, run, figure, rise, factor } = drawn();
    expect(factor).not.toBe(1);
    for (const body of BODIES) expect(figure(BODY_CHANNEL[body])).toBeCloseTo(rise(run.highest[BODY_CHANNEL[body]].value, body), 9);
    for (const id of ['motorCurrent', 'batteryCurrent', 'inputPower', 'batteryPower', 'thrust', 'shaftSpeed'] as const)
      expect(figure(id), id).toBe(Math.max(run.highest[id].value, -run.lowest[id].value));
    const cooled = coolDown(system, run.state, [60], 5e-4)?.[0].bodies.can ?? Number.NaN;
    expect({
      topSpeed: figure('topSpeed'),
      chargeLeft: figure('chargeLeft'),
      runTime: figure('runTime'),
      mass: figure('mass'),
      end: ENDS[figure('end')],
      passed: figure('passed'),
      stepsLost: figure('stepsLost'),
      lack: figure('lack'),
      canAfterStop: figure('canAfterStop'),
      again: [figure('timeToCutoff'), figure('timeToReserve'), figure('lasting')],
    }).toEqual({
      topSpeed: 0,
      chargeLeft: run.state[run.kernel.at.charge],
      runTime: 5,
      mass: system.motor.mass,
      end: 'finished',
      passed: 0,
      stepsLost: 0,
      lack: 0,
      canAfterStop: expect.closeTo(rise(cooled, 'can'), 9),
      again: [Number.NaN, Number.NaN, Number.NaN],
    });
    // behind them the temperatures at the plan's times, body by body
    expect(row).toHaveLength(ROW_FIGURES.length + 6 * plan.times.length);
    BODIES.forEach((body, k) => {
      plan.times.forEach((_, i) => {
        const value = run.kept[i][run.kernel.at[body]];
        expect(row[ROW_FIGURES.length + k * plan.times.length + i]).toBeCloseTo(rise(value, body), 9);
      });
    });
  });

  it('has how long the pack lasts where that is asked for, by what is aimed at or by a limit', () => {
    const small: Section = { battery: { chemistry: 'lithium-polymer', cells: { series: 3 }, capacity: '0.3 Ah' } };
    const { figure, system, profile } = drawn(small, 'longest');
    const long = simulate(system, profile, { ...OPTIONS, again: true });
    expect([figure('timeToCutoff'), figure('lasting')]).toEqual([long.time, long.passed.get('reserve') ?? long.time]);
    expect(figure('timeToReserve')).toBe(long.passed.get('reserve') ?? Number.NaN);
    const asked = drawn({ ...small, limits: { run_time: '10 min' } });
    expect(asked.figure('lasting')).toBeGreaterThan(0);
    const short = asked.figure('lasting') < 600;
    expect(asked.figure('passed')).toBe(short ? limitBits(['runTime']) : 0);
  });

  it('has a bit for each limit that is passed, and the steps that are not held', () => {
    const hot = drawn({ limits: { winding: '16 °C' }, profile: [{ for: '20 s', throttle: '90 %' }] });
    expect(hot.figure('windingTemperature')).toBeGreaterThan(289.15);
    expect(hot.figure('passed')).toBe(limitBits(['windingTemperature']));
    expect(drawn({ limits: { winding: '160 °C' } }).figure('passed')).toBe(0);
    const weak = drawn({
      profile: [
        { for: '1 s', thrust: '20 N' },
        { for: '1 s', thrust: '1 N' },
      ],
    });
    expect(weak.figure('stepsLost')).toBe(1);
    const most = weak.run.highest.thrust.value;
    expect(weak.figure('lack')).toBeCloseTo((20 - weak.run.lost[0].reached) / 20, 9);
    expect(most).toBeLessThan(20);
  });

  it('of a run that ends early has no temperatures beyond, and passes the cells’ voltage where they are cut off', () => {
    const { figure, row, plan, run } = drawn({
      battery: { chemistry: 'lithium-polymer', cells: { series: 3 }, capacity: '0.004 Ah' },
      profile: [{ for: '60 s', throttle: '80 %' }],
    });
    expect(['cut-off', 'empty']).toContain(run.end);
    expect([ENDS[figure('end')], figure('runTime')]).toEqual([run.end, run.time]);
    expect(figure('passed') & limitBits(['cellVoltage'])).toBe(run.end === 'cut-off' ? limitBits(['cellVoltage']) : 0);
    const last = ROW_FIGURES.length + plan.times.length - 1;
    expect([Number.isNaN(row[last]), Number.isNaN(row[ROW_FIGURES.length])]).toEqual([true, false]);
  });
});

describe('rows lie', () => {
  const two = preparedOf({
    profile: [{ for: '2 s', throttle: '70 %' }],
    candidates: [
      { name: 'A', motor: OUTRUNNER },
      { name: 'B', motor: INRUNNER },
    ],
  });
  const { candidates, scenario } = two;
  it('sample by sample, candidate by candidate, whoever works them out', () => {
    const plan = planDoubt(candidates, scenario.profile, 'coolest', ASK);
    const length = rowLength(plan);
    const both = workDoubt(plan, candidates, { from: 2, to: 4 });
    expect(both).toHaveLength(4 * length);
    expect([sampleStart(plan, 3), watchedSamples(plan)]).toEqual([6 * length, 0]);
    const later = workDoubt(plan, candidates, { from: 3, to: 4 });
    expect(both.subarray(2 * length)).toEqual(later);
    const alone = workDoubt({ ...plan, names: ['B'] }, candidates.slice(1), { from: 3, to: 4 });
    expect(later.subarray(length)).toEqual(alone);
    expect(later.subarray(0, length)).not.toEqual(alone);
    expect(both.subarray(0, length)).not.toEqual(later.subarray(0, length));
  });
  it('with what was watched of one behind them, for 256 samples at most', () => {
    const watch = { candidate: 'B', ids: ['battery_current', 'can_temperature'] as const, times: Float64Array.of(0.5, 1, 1.5) };
    const plan = planDoubt(candidates, scenario.profile, 'coolest', { ...ASK, watch });
    const length = 2 * rowLength(plan) + 6;
    expect([sampleStart(plan, 2), watchedSamples(plan), watchedSamples({ ...plan, samples: 300 })]).toEqual([2 * length, 16, 256]);
    expect(sampleStart({ ...plan, samples: 300 }, 300)).toBe(300 * 2 * rowLength(plan) + 256 * 6);
    const rows = workDoubt(plan, candidates, { from: 0, to: 1 });
    expect(rows).toHaveLength(length);
    const deviates = deviatesOf(plan, 0);
    const deviate = (key: string): number => deviates.get(key) ?? 0;
    const system = realise(candidates[1].data, deviate);
    const watched = watchSystem(system, watch);
    simulate(system, scenario.profile, { ...OPTIONS, keepAt: Float64Array.from(plan.times), watch: watched.watch });
    expect(watchedIn(plan, rows, 0)).toEqual(watched.series(modelFactor(deviate, 'B'), thermometerShares(4, 0)));
  });
  it('in jobs of about one size', () => {
    const plan = planDoubt(candidates, scenario.profile, 'coolest', { samples: 20, seed: 1 });
    expect(jobsOf(plan, 8)).toEqual([
      { from: 0, to: 8 },
      { from: 8, to: 16 },
      { from: 16, to: 20 },
    ]);
    expect(limitBits([])).toBe(0);
    expect(() => planDoubt(candidates, scenario.profile, 'coolest', { samples: 15, seed: 1 })).toThrow(
      new RangeError('Doubt is sampled 16 times or more, not 15.'),
    );
    expect(() => planDoubt(candidates, scenario.profile, 'coolest', { samples: 16.5, seed: 1 })).toThrow(RangeError);
  });
});
