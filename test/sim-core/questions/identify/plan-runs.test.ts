/** The runs of a bench and what is read in each; the model of a day for a drive of which two numbers are unsure. */
import { THERMOMETER_PLACES } from '@shaftwork/sim-core/heat/thermometer';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { planModel } from '@shaftwork/sim-core/questions/identify/bench-plan';
import { INSTRUMENTS, scatterOf } from '@shaftwork/sim-core/questions/identify/instruments';
import { type BenchRun, benchRuns, sweepRuns } from '@shaftwork/sim-core/questions/identify/plan-runs';
import { outcomeOf } from '@shaftwork/sim-core/questions/judge/outcome';
import { recordingOf, simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { sureBut } from '../sure-but.js';
import { OUTRUNNER } from './heat-bench.js';

const { system, data, given, name } = OUTRUNNER;
const held = (throttle: number, duration: number) => ({ duration, hold: 'throttle' as const, value: { from: throttle, to: throttle } });
const onBench = { ...system, vehicle: { ...system.vehicle, carriedBy: 'bench' as const } };
const named = (runs: readonly BenchRun[], words: string): BenchRun => {
  const run = runs.find((each) => each.words === words);
  if (run === undefined) throw new Error(`${words} is not among ${runs.map((each) => each.words).join('; ')}`);
  return run;
};
const WARM = 'stop, let it cool for 240 s, with a thermometer between the wires of a slot';
const DISCHARGE = 'a discharge of the pack with a pause of a minute at every tenth of the charge';
const LEADS = 'the resistance between two leads, cold: a current sent through them, the volts at the leads';

describe('the runs of a bench', () => {
  it('are at throttles with the propeller and without, warm and cool it, read the leads and empty the pack', () => {
    expect(benchRuns(system, 'in-slot').map(({ words, duration }) => [words, duration])).toEqual([
      ['full throttle with a bare shaft', 20],
      ['half throttle with a bare shaft', 20],
      ['full throttle with the propeller', 20],
      ['75 % throttle with the propeller', 20],
      ['50 % throttle with the propeller', 20],
      ['30 % throttle with the propeller', 20],
      [`warm it at 100 % throttle with the propeller, ${WARM}`, 240],
      [`warm it at 60 % throttle with the propeller, ${WARM}`, 480],
      [LEADS, 20],
      [DISCHARGE, 1200],
    ]);
    const supplied = { ...system, battery: { ...system.battery, chemistry: 'supply' as const } };
    expect(benchRuns(supplied, 'in-slot').map(({ words }) => words)).not.toContain(DISCHARGE);
    const wheel = { kind: 'wheel', radius: 0.03, grip: 0.8, drivenShare: 1, inertia: 1e-6 } as const;
    const driven = benchRuns({ ...system, load: wheel }, 'in-slot');
    expect(driven.map(({ words }) => words)).toEqual([
      'full throttle with a bare shaft',
      'half throttle with a bare shaft',
      LEADS,
      DISCHARGE,
    ]);
  });
  it('of the sweep are at six throttles', () => {
    expect(sweepRuns(system, 'in-slot').map(({ words, duration }) => [words, duration])).toEqual(
      [50, 60, 70, 80, 90, 100].map((percent) => [`${percent} % throttle`, 20]),
    );
  });

  it('are halved until the winding stays 10 K below its limit, but not below two seconds', () => {
    const full = (limit: number): BenchRun =>
      named(
        benchRuns({ ...system, limits: { ...system.limits, windingTemperature: limit } }, 'in-slot'),
        'full throttle with the propeller',
      );
    const hottest = full(500).winding(system);
    expect(full(hottest + 10.01).duration).toBe(20);
    const half = full(hottest + 10);
    expect(half.duration).toBe(10);
    expect(half.winding(system)).toBeLessThan(hottest);
    expect(full(half.winding(system) + 10).duration).toBe(5);
    expect(full(200).duration).toBe(1.25);
  });
});

describe('what is read', () => {
  it.each([
    ['full throttle with the propeller', 1],
    ['30 % throttle with the propeller', 0.3],
  ] as const)('at %s is volts, amps, speed and thrust three seconds on, and the thermometer at the end', (words, throttle) => {
    const run = named(benchRuns(system, 'in-slot'), words);
    const read = run.read(system);
    expect(read.map(({ instrument }) => instrument)).toEqual(['voltage', 'current', 'speed', 'thrust', undefined]);
    const after = recordingOf(simulate(onBench, [held(throttle, 3)], { method: 'dormand-prince', relative: 1e-3 })).trace;
    const last = (['busVoltage', 'batteryCurrent', 'shaftSpeed', 'thrust'] as const).map((id) => after[id].at(-1) ?? Number.NaN);
    for (const [k, value] of last.entries()) expect(read[k].value / value).toBeCloseTo(1, 3);
    // a bead in a slot: in balance at the first, then 3 s behind the mean of what it sits on
    const windingAt = (t: number): number =>
      simulate(onBench, [held(throttle, t)], { method: 'dormand-prince', relative: 1e-3, record: false }).highest.windingTemperature.value;
    const winding = windingAt(19.6);
    const { value, scatter = 0 } = read[4];
    const air = system.surroundings.motorAirTemperature;
    const [first, later] = [windingAt(3) - air, winding - air];
    expect(value - air).toBeCloseTo(0.95 * (0.5 * (first + later) + 0.5 * (first - later) * Math.exp(-16.6 / 3)), 1);
    expect(scatter).toBeCloseTo(Math.hypot(0.5, (Math.log(1.1) / STANDARD_DEVIATIONS_95) * (value - air)), 3);
    expect(run.winding(system)).toBeGreaterThan(winding);
    expect(run.winding(system)).toBeLessThan(winding + 1);
  });

  it('with a bare shaft is nearly the speed at which the motor stands against the volts, and no thrust', () => {
    const runs = benchRuns(system, 'on-can');
    for (const [words, throttle] of [
      ['full throttle with a bare shaft', 1],
      ['half throttle with a bare shaft', 0.5],
    ] as const) {
      const [volts, amps, speed, thrust, can] = named(runs, words).read(system);
      expect(speed.value / ((throttle * volts.value) / system.motor.torqueConstant)).toBeGreaterThan(0.85);
      expect(speed.value / ((throttle * volts.value) / system.motor.torqueConstant)).toBeLessThan(1);
      expect(amps.value).toBeLessThan(1.2);
      expect(thrust.value).toBeLessThan(1e-6);
      expect(can.value).toBeLessThan(system.surroundings.motorAirTemperature + 2);
    }
  });

  it('of wheels turns them off the ground, never holds them fast', () => {
    const wheel = { kind: 'wheel', radius: 0.03, grip: 0.8, drivenShare: 1, inertia: 1e-6 } as const;
    const car = { ...system, load: wheel };
    const run = named(benchRuns(car, 'on-can'), 'full throttle with a bare shaft');
    const [volts, amps, speed] = run.read(car);
    expect(speed.value / (volts.value / system.motor.torqueConstant)).toBeGreaterThan(0.85);
    expect(amps.value).toBeLessThan(1.2);
    expect(run.winding(car)).toBeLessThan(system.surroundings.motorAirTemperature + 10);
  });

  it('while it warms and cools is the thermometer five times', () => {
    const run = named(benchRuns(system, 'in-slot'), `warm it at 100 % throttle with the propeller, ${WARM}`);
    const read = run.read(system);
    const air = system.surroundings.motorAirTemperature;
    const { factor } = THERMOMETER_PLACES['in-slot'];
    expect(read.map(({ scatter }) => scatter)).toEqual(
      read.map(({ value }) => expect.closeTo(Math.hypot(0.5, (Math.log(factor) / STANDARD_DEVIATIONS_95) * (value - air)), 9)),
    );
    // by the run itself, its thermometer 3 s late
    const profile = [held(1, 240), held(0, 241)];
    const { trace } = recordingOf(simulate(onBench, profile, { method: 'dormand-prince', relative: 1e-3 }));
    const at = (t: number): number => {
      const k = trace.time.findIndex((each) => each >= t);
      const part = (t - trace.time[k - 1]) / (trace.time[k] - trace.time[k - 1]);
      return trace.windingTemperature[k - 1] + part * (trace.windingTemperature[k] - trace.windingTemperature[k - 1]);
    };
    const times = [80, 235.2, 270, 330, 480];
    let theta = 0.95 * (at(80) - air);
    read.forEach(({ value }, k) => {
      if (k > 0) {
        const towards = 0.95 * (0.5 * (at(times[k - 1]) + at(times[k])) - air);
        theta = towards + (theta - towards) * Math.exp((times[k - 1] - times[k]) / 3);
      }
      expect(Math.abs(value - air - theta)).toBeLessThan(0.05);
    });
    expect(run.winding(system)).toBeCloseTo(Math.max(...trace.windingTemperature), 1);
  });

  it('of leads and pack is the number itself, as sure as such a reading leaves it', () => {
    const runs = benchRuns(system, 'in-slot');
    const { battery, motor, start } = system;
    const as = (value: number, half: number) => ({ value, scatter: expect.closeTo((half * value) / STANDARD_DEVIATIONS_95, 4) });
    expect(named(runs, LEADS).read(system)).toEqual([as(motor.resistance, 0.03)]);
    expect(named(runs, DISCHARGE).read(system)).toEqual([
      as(battery.cellResistance, 0.03),
      as(battery.polarisationResistance, 0.2),
      as(battery.capacity, 0.02),
    ]);
    expect(named(runs, LEADS).read(system)[0].scatter).toBeCloseTo((0.03 * motor.resistance) / STANDARD_DEVIATIONS_95, 6);
    expect([LEADS, DISCHARGE].map((words) => named(runs, words).winding(system))).toEqual([start.motorTemperature, start.motorTemperature]);
  });
});

describe('a model of the day', () => {
  const { resistance } = data.motor;
  const unsure = sureBut(data, (datum) => datum === resistance || datum === data.heat.windingToStator);
  const profile = [held(0.8, 4)];
  const limited = { given, data: unsure, name };

  it('has how what is least sure moves, and how the readings do', () => {
    const model = planModel({ ...OUTRUNNER, ...limited }, profile, 'coolest', 'in-slot');
    const entries = unknownsOf([{ name, data: unsure }]);
    expect(model.words).toEqual(entries.map(({ words }) => words));
    expect(model.words[0]).toBe('winding resistance');
    const nominal = outcomeOf(limited, profile, 'coolest');
    const moved = entries.map(({ key }) => outcomeOf(limited, profile, 'coolest', (asked) => (asked === key ? 0.7 : 0)));
    const sure = nominal.limits.map(({ id, marginShare, words }) => {
      const slopes = moved.map(({ limits }) => ((limits.find((each) => each.id === id)?.marginShare ?? Number.NaN) - marginShare) / 0.7);
      return { words, margin: marginShare, slopes, unsure: Math.abs(marginShare) / Math.hypot(...slopes) };
    });
    const least = sure.filter(({ slopes }) => slopes.some((each) => each !== 0)).sort((a, b) => a.unsure - b.unsure)[0];
    expect(model.limit).toEqual({ words: least.words, margin: least.margin });
    expect(model.gradient).toEqual([...least.slopes, 0, 0, 0, 0, 0, 0]);
    expect(Math.abs(model.gradient[0])).toBeGreaterThan(1e-6);

    expect(model.runs.map(({ words }) => words)).toEqual(benchRuns(system, 'in-slot').map(({ words }) => words));
    const of = (words: string) => model.jacobians[model.runs.findIndex((run) => run.words === words)];
    // 4 % of what is read, over 3 % of it
    expect(of(LEADS)).toEqual([[expect.closeTo(4 / 3, 1), ...new Array(model.words.length - 1 + 6).fill(0)]]);
    const full = 'full throttle with the propeller';
    const read = named(model.runs, full).read(system);
    const warmer = model.readings(named(model.runs, full), [0.7, 0]);
    const ids = Object.keys(INSTRUMENTS);
    expect(of(full)).toEqual(
      read.map(({ value, instrument, scatter }, i) => {
        const noise = instrument === undefined ? (scatter ?? 0) : scatterOf(INSTRUMENTS[instrument], value) / Math.sqrt(8);
        const gains = ids.map((id) =>
          id === instrument ? expect.closeTo((value * INSTRUMENTS[instrument].gain) / STANDARD_DEVIATIONS_95 / noise, 6) : 0,
        );
        return [
          expect.closeTo((warmer[i].value - value) / 0.7 / noise, 6),
          ...new Array(model.words.length - 1).fill(expect.any(Number)),
          ...gains,
        ];
      }),
    );
    // six throttles, five readings of each
    expect(model.sweep).toHaveLength(30);
    expect(model.nominal.limits).toEqual(nominal.limits);
  });
});
