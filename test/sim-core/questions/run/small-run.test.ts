/** A run of seconds and all that is made of it: figures against its own curves, charts against the motor's laws, the texts it carries. */
import { windingResistance } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { afterStop, coolDown } from '@shaftwork/sim-core/questions/run/after-stop';
import { currentsAt, efficiencyMap } from '@shaftwork/sim-core/questions/run/efficiency-map';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { textsCarried } from '@shaftwork/sim-core/questions/run/texts-carried';
import { crossingsOf } from '@shaftwork/sim-core/questions/run/torque-speed-chart';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import type { TorqueSpeedChart, Trace } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';
import { boat, PACK, preparedOf, type Section, TABLE_SCREW } from '../../provenance/drives.js';

const BRIEF: Section = { profile: [{ for: '120 s', throttle: '60 %' }] };
const runOf = (more: Section = {}) => {
  const { candidates, scenario } = preparedOf({
    profile: [
      { for: '4 s', throttle: '40 %' },
      { for: '4 s', throttle: '70 %', label: 'pull' },
    ],
    ...more,
  });
  return { run: runCandidate(candidates[0], scenario.profile), system: realise(candidates[0].data) };
};
/** ∫ of a channel over the run. */
const integral = (time: readonly number[], values: readonly number[]): number =>
  time.reduce((sum, t, k) => (k === 0 ? 0 : sum + 0.5 * (values[k] + values[k - 1]) * (t - time[k - 1])), 0);

describe('a run', () => {
  it('has the figures of its curves', () => {
    const { run, system } = runOf();
    const { trace, headline } = run;
    expect([run.name, run.end, run.feasible]).toEqual(['A', 'finished', true]);
    const most = (values: readonly number[]): number => Math.max(...values);
    const near = (figure: { readonly nominal: number }, value: number, within = 0.01): void =>
      expect(Math.abs(figure.nominal / value - 1)).toBeLessThan(within);
    near(headline.peakWindingTemperature, most(trace.windingTemperature), 1e-3);
    near(headline.peakCanTemperature, most(trace.canTemperature), 1e-3);
    near(headline.peakMagnetTemperature, most(trace.magnetTemperature), 1e-3);
    near(headline.peakControllerTemperature, most(trace.controllerTemperature), 1e-3);
    near(headline.peakCellTemperature, most(trace.cellTemperature), 1e-3);
    near(headline.peakMotorCurrent, most(trace.motorCurrent));
    near(headline.peakBatteryCurrent, most(trace.batteryCurrent));
    near(headline.peakInputPower, most(trace.inputPower));
    near(headline.peakBatteryPower, most(trace.batteryPower));
    near(headline.peakThrust, most(trace.thrust));
    near(headline.topShaftSpeed, most(trace.shaftSpeed));
    near(headline.energy, integral(trace.time, trace.batteryPower));
    near(headline.chargeLeft, 1 - integral(trace.time, trace.batteryCurrent) / system.battery.capacity, 1e-4);
    expect([headline.topSpeed.nominal, headline.driveEfficiency.nominal, headline.runTime.nominal]).toEqual([0, 0, 8]);
    // again and again until the cells are empty: the charge over the mean current, about
    near(headline.timeToCutoff ?? { nominal: 0 }, (8 * system.battery.capacity) / integral(trace.time, trace.batteryCurrent), 0.15);
    expect(headline).not.toHaveProperty('timeToReserve');
    expect(run.statistics).toMatchObject({ method: 'odex', tolerance: 1e-8 });
    expect(run.statistics.steps).toBeGreaterThan(3);
  });

  it('driven again and again ends with the pack, or as what ends it sooner', () => {
    const plain = runOf().run;
    expect(plain).not.toHaveProperty('endsRepeated');
    expect(plain).not.toHaveProperty('outlasts');
    const hot = { battery: { ...PACK, capacity: '50 Ah' }, propeller: { ...TABLE_SCREW, diameter: '14 in' } };
    const { run } = runOf({ ...hot, profile: [{ for: '3 s', throttle: '100 %' }] });
    expect([run.end, run.endsRepeated]).toEqual(['finished', 'burnt']);
    expect(run.headline.timeToCutoff?.nominal).toBeGreaterThan(3);
    expect(run.headline.chargeLeft.nominal).toBeGreaterThan(0.9);
  });

  it('that nothing ends within a day outlasts it, and says no time to the cut-off', () => {
    const { run } = runOf({ battery: { ...PACK, capacity: '900 Ah' }, profile: [{ for: '1 h', throttle: '2 %' }] });
    expect(run.outlasts).toBe(24 * 3600);
    expect(run.headline).not.toHaveProperty('timeToCutoff');
    expect(run).not.toHaveProperty('endsRepeated');
  });

  it('has its motor’s facts', () => {
    const { run, system } = runOf({ ...BRIEF, gearbox: { ratio: 3, efficiency: '95 %', mass: '20 g' } });
    const { facts } = run;
    expect(facts.mass).toBeCloseTo(0.066, 12);
    expect([facts.canDiameter, facts.canLength, facts.gearRatio, facts.fits]).toEqual([0.027, 0.032, 3, true]);
    expect(facts.sideArea).toBeCloseTo(Math.PI * 0.027 * 0.032, 12);
    expect(facts.endArea).toBeCloseTo((Math.PI * 0.027 ** 2) / 2, 12);
    expect(facts.motorConstant).toBeCloseTo(facts.torqueConstant / Math.sqrt(facts.resistance), 12);
    expect(facts.torqueConstant).toBe(system.motor.torqueConstant);
    expect(run).not.toHaveProperty('space');
    const tight = runOf({ ...BRIEF, space: { diameter: '20 mm' } }).run;
    expect([tight.facts.fits, tight.space?.diameter]).toEqual([false, expect.anything()]);
  });

  it('tells each limit that it passes first, when and by how much', () => {
    const { run } = runOf({ limits: { winding: '16 °C', reserve: '99.9 %' } });
    expect(run.feasible).toBe(false);
    const passed = run.findings.filter(({ kind }) => kind === 'limit-passed');
    expect(run.findings.slice(0, passed.length)).toEqual(passed);
    const winding = passed.find((each) => each.kind === 'limit-passed' && each.limit === 'windingTemperature');
    expect(winding).toMatchObject({ candidate: 'A', bound: 289.15, value: run.headline.peakWindingTemperature.nominal });
    expect(winding?.time).toBeGreaterThan(0);
    expect(winding?.time).toBeLessThan(8);
    expect(run.headline.timeToReserve?.nominal).toBeGreaterThan(0);
    expect(run.headline.timeToReserve?.nominal).toBeLessThan(20);
  });

  it('is looked at where it takes most of the pack, after the first tenth of a step', () => {
    const { moment, torqueSpeed, trace } = runOf().run;
    expect(moment.label).toBe('pull');
    expect(moment.time).toBeGreaterThanOrEqual(4.4);
    const later = trace.batteryPower.filter((_, k) => trace.time[k] >= 4.4);
    expect(moment.channels.batteryPower).toBeCloseTo(Math.max(...later), 4);
    expect([torqueSpeed.time, torqueSpeed.vehicleSpeed, torqueSpeed.held]).toEqual([moment.time, 0, false]);
    expect(
      runOf({
        profile: [
          { for: '4 s', throttle: '70 %' },
          { for: '4 s', throttle: '30 %' },
        ],
      }).run.moment.label,
    ).toBe('step 1');
    // what leaves goes somewhere
    expect(Object.values(moment.leaves).some((watts) => watts > 0)).toBe(true);
    expect(moment.power.copperLoss).toBeCloseTo(moment.channels.copperLoss, 9);
  });
});

describe('the chart of torque over speed', () => {
  it('has a falling line for each throttle, meeting the load where the drive runs', () => {
    const { torqueSpeed: chart, moment } = runOf().run;
    expect(chart.lines.map(({ throttle }) => throttle)).toEqual([0.4, 0.6, expect.closeTo(0.7, 9), 0.8, 1]);
    expect([...chart.speed]).toEqual([...chart.speed].sort((a, b) => a - b));
    expect(chart.speed.length).toBeGreaterThanOrEqual(121);
    for (const { torque } of chart.lines) {
      expect(torque).toHaveLength(chart.speed.length);
      for (let k = 1; k < torque.length; k++) expect(torque[k]).toBeLessThanOrEqual(torque[k - 1] + 1e-9);
    }
    expect(chart.load[0]).toBe(0);
    const loadAt = (speed: number): number => {
      const k = chart.speed.findIndex((w) => w > speed);
      const share = (speed - chart.speed[k - 1]) / (chart.speed[k] - chart.speed[k - 1]);
      return chart.load[k - 1] + share * (chart.load[k] - chart.load[k - 1]);
    };
    expect(chart.crossings).toHaveLength(5);
    for (const { speed, torque, efficiency, motorCurrent } of chart.crossings) {
      expect(torque / loadAt(speed)).toBeCloseTo(1, 2);
      expect(efficiency).toBeGreaterThan(0.3);
      expect(efficiency).toBeLessThan(1);
      expect(motorCurrent).toBeGreaterThan(0);
    }
    const driven = chart.crossings[2];
    expect(driven.speed).toBeCloseTo(moment.channels.shaftSpeed, 0);
    expect(driven.efficiency).toBeCloseTo(moment.channels.shaftPower / moment.channels.inputPower, 2);
  });

  it('counts crossings of the full-throttle line with the load', () => {
    const chart = (torque: readonly number[], load: readonly number[]) =>
      ({
        lines: [
          { throttle: 0.4, torque: [] },
          { throttle: 1, torque },
        ],
        load,
      }) as Partial<TorqueSpeedChart> as TorqueSpeedChart;
    expect(crossingsOf(chart([5, 4, 3, 2], [0, 1, 2, 3]))).toBe(1);
    expect(crossingsOf(chart([5, 1, 3, 2], [0, 2, 2, 3]))).toBe(3);
    expect(crossingsOf(chart([5, 5, 5], [0, 1, 2]))).toBe(0);
    expect(crossingsOf({ lines: [], load: [] } as Partial<TorqueSpeedChart> as TorqueSpeedChart)).toBe(0);
  });

  it('on wheels is what the road holds', () => {
    const { torqueSpeed } = runOf({
      ...BRIEF,
      propeller: 'none',
      wheel: { radius: '40 mm', rolling_resistance: 0.03 },
      gearbox: { ratio: 6, efficiency: '95 %', mass: '30 g' },
      vehicle: { mass: '2 kg', drag_area: '0.02 m2' },
    }).run;
    expect(torqueSpeed.held).toBe(true);
    expect(torqueSpeed.crossings).toHaveLength(1);
  });
});

describe('the map of efficiency', () => {
  const { motor } = realise(preparedOf({}).candidates[0].data);
  it('has two currents of one efficiency at a speed, and none where the motor is never that good', () => {
    const [small, large] = currentsAt(motor, 0.6, 600, 330, 300) ?? [0, 0];
    expect(small).toBeLessThan(large);
    const k = motor.torqueConstant * (1 + motor.fluxCoefficient * (300 - 293.15));
    const r = windingResistance(motor, 330);
    const flux = k / motor.torqueConstant;
    const loss = (motor.hysteresisTorque + motor.eddyTorque * 600) * flux ** 2 + motor.frictionTorque + motor.windageTorque * 600 ** 2;
    for (const i of [small, large]) expect(((k * i - loss) * 600) / ((r * i + k * 600) * i)).toBeCloseTo(0.6, 9);
    expect(currentsAt(motor, 0.95, 600, 330, 300)).toBeUndefined();
  });

  it('counts the time about each speed and torque, in means weighed by it, the longest first', () => {
    const trace = (rows: readonly (readonly [number, number, number])[]) =>
      ({
        time: rows.map(([t]) => t),
        shaftSpeed: rows.map(([, w]) => w),
        motorTorque: rows.map(([, , m]) => m),
      }) as Partial<Trace> as Trace;
    const { visits, windingTemperature, magnetTemperature } = efficiencyMap(
      motor,
      trace([
        [0, 0, 0],
        [1, 1000, 0.2],
        // two in one bin: 500 for 2 s and 503 for 4 s
        [3, 500, 0.1],
        [7, 503, 0.1],
        [7, 1000, 0.2],
        [9, -5, 0.1],
        [10, 400, -0.1],
      ]),
      1100,
      330,
      300,
    );
    expect([windingTemperature, magnetTemperature]).toEqual([330, 300]);
    expect(visits).toEqual([
      { speed: expect.closeTo(502, 9), torque: expect.closeTo(0.1, 9), time: 6 },
      { speed: 1000, torque: 0.2, time: 1 },
    ]);
    expect(
      efficiencyMap(
        motor,
        trace([
          [0, 0, 0.1],
          [1, 0, 0.1],
        ]),
        1100,
        330,
        300,
      ).visits,
    ).toEqual([]);
    expect(
      efficiencyMap(
        motor,
        trace([
          [0, 10, 0],
          [1, 10, Number.NaN],
        ]),
        1100,
        330,
        300,
      ).visits,
    ).toEqual([]);
  });

  it('draws each line down along the small currents and back along the large', () => {
    const { contours } = efficiencyMap(motor, { time: [], shaftSpeed: [], motorTorque: [] } as Partial<Trace> as Trace, 1100, 330, 300);
    expect(contours.length).toBeGreaterThan(1);
    for (const { speed, torque, efficiency } of contours) {
      expect([0.5, 0.6, 0.7, 0.75, 0.8, 0.84, 0.87, 0.9, 0.92]).toContain(efficiency);
      expect([speed[0], speed.at(-1)]).toEqual([1100, 1100]);
      expect(torque[0]).toBeLessThan(torque.at(-1) ?? 0);
      const turn = speed.indexOf(Math.min(...speed));
      expect(speed.slice(0, turn + 1)).toEqual([...speed.slice(0, turn + 1)].sort((a, b) => b - a));
    }
  });
});

describe('after the stop', () => {
  it('everything ends at the temperature of the air, unplugged', () => {
    const { candidates } = preparedOf({ controller: { idle_current: '2 A' } });
    const system = realise(candidates[0].data);
    const { state, kernel } = simulate(system, [{ duration: 20, hold: 'throttle', value: { from: 0.8, to: 0.8 } }]);
    const before = state[kernel.at.charge];
    const [now, late] = coolDown(system, state, [0, 40_000], 1e-4) ?? [];
    expect(now.bodies.winding).toBe(state[kernel.at.winding]);
    expect(now.bodies.winding).toBeGreaterThan(300);
    for (const kelvin of Object.values(late.bodies)) expect(Math.abs(kelvin - 288.15)).toBeLessThan(0.5);
    expect(state[kernel.at.charge]).toBe(before);
  });

  it('a thermometer says what the winding is when it shows 60 °C, and nothing where there is nothing to show', () => {
    const { candidates } = preparedOf(boat());
    const system = realise(candidates[0].data);
    const stopped = (throttle: number) =>
      afterStop(system, simulate(system, [{ duration: 30, hold: 'throttle', value: { from: throttle, to: throttle } }]));
    const hot = stopped(0.6);
    expect(hot?.stoppedAt).toBe(30);
    expect(hot?.readings.map(({ after }) => after)).toEqual([0, 30, 60, 120, 300]);
    expect(hot?.trace.after).toHaveLength(85);
    expect([hot?.trace.after[29], hot?.trace.after[30], hot?.trace.after[84]]).toEqual([58, 60, 600]);
    const beside = hot?.thermometers['beside-coils'];
    expect(beside?.reading).toHaveLength(85);
    expect(beside?.at60?.winding).toBeGreaterThan(333.15);
    const cold = stopped(0);
    expect(cold?.thermometers['on-can']).not.toHaveProperty('at60');
  });
});

describe('texts', () => {
  const long = `t,v\n${'1,2\n'.repeat(80_000)}`;
  const log = { file: 'run.csv', rows: 9, pieces: 3, from: 0, to: 20, deviations: [], taken: [] };
  it('are carried whole, but a long log by its first rows', () => {
    const files = [
      { path: 'a.yaml', text: long },
      { path: 'run.csv', text: long },
    ];
    const [scenario, shortened] = textsCarried(files, { log });
    expect(scenario).toEqual(files[0]);
    expect(shortened.shortened).toBe(true);
    expect(shortened.text.length).toBeLessThanOrEqual(1011);
    expect(shortened.text).toMatch(/^t,v\n(1,2\n)+# and so on$/);
    expect(textsCarried([{ path: 'run.csv', text: long.slice(0, 300_000) }], { log })[0]).not.toHaveProperty('shortened');
    expect(textsCarried(files, {})[1]).toEqual(files[1]);
    const measured = { ...log, time: new Float64Array(), columns: new Map(), begins: { by: 'given', at: 0 } } as const;
    expect(textsCarried(files, { measured })[1].shortened).toBe(true);
  });
});

it('a run that ends in its first tenth is recorded over what it drove', () => {
  const { run } = runOf({ battery: { cells: { series: 3 }, capacity: '0.1 Ah' }, profile: [{ for: '1000 s', throttle: '70 %' }] });
  expect(run.end).not.toBe('finished');
  expect(run.headline.runTime.nominal).toBeLessThan(100);
  expect(run.trace.time.length).toBeGreaterThan(1190);
});
