/** What is made of a run whose curves are drawn by hand: its hardest moment, what thermometers show after it, lines of torque and of efficiency. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { afterStop, coolDown } from '@shaftwork/sim-core/questions/run/after-stop';
import { currentsAt, efficiencyMap } from '@shaftwork/sim-core/questions/run/efficiency-map';
import { hardestMoment } from '@shaftwork/sim-core/questions/run/hardest-moment';
import { torqueSpeedChart } from '@shaftwork/sim-core/questions/run/torque-speed-chart';
import { recordingOf } from '@shaftwork/sim-core/questions/simulate/simulate';
import type { ChannelId } from '@shaftwork/sim-core/results/channels';
import type { Trace } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, type Section } from '../../provenance/drives.js';
import { simulated, withTrace } from '../judge/simulated.js';

const data = dataOf();
const system = realise(data);
const run = simulated(data);
const of = (more: Section): DriveSystem => realise(dataOf(more));

describe('the hardest moment', () => {
  const step = { duration: 1, hold: 'throttle' as const, value: { from: 0.5, to: 0.5 } };
  const profile = [step, { ...step, duration: 2, label: 'climb' }];
  const momentOf = (rows: readonly (readonly [number, number])[], more: Partial<Record<ChannelId, readonly number[]>> = {}) => {
    const time = rows.map(([t]) => t);
    const throttle = rows.map(() => 0.5);
    const drawn = withTrace(run, time, { throttle, batteryPower: rows.map(([, watts]) => watts), ...more });
    const { moment, torqueSpeed } = hardestMoment(drawn, system, profile);
    expect([torqueSpeed.time, moment.channels.throttle]).toEqual([moment.time, 0.5]);
    return [moment.time, moment.label] as const;
  };

  it('is that of most power, the first of several, but for the first tenth of each step', () => {
    const rows = [
      [0, 90],
      [0.05, 99],
      [0.1, 20],
      [0.5, 20],
      [1, 10],
      [1, 80],
      [1.1, 70],
      [1.2, 12],
      [3, 15],
    ] as const;
    expect(momentOf(rows)).toEqual([0.1, 'step 1']);
    expect(momentOf([...rows.slice(0, 8), [3, 25]])).toEqual([3, 'climb']);
    expect(momentOf([...rows.slice(0, 4), [1, 30], ...rows.slice(5)])).toEqual([1, 'step 1']);
    expect(momentOf([...rows.slice(0, 7), [1.2, 21], [3, 20]])).toEqual([1.2, 'climb']);
    // what comes back from braking is less than nothing
    expect(
      momentOf([
        [0, 9],
        [0.1, -5],
        [0.6, -3],
        [1, -4],
        [1, 8],
        [1.5, -6],
      ]),
    ).toEqual([0.6, 'step 1']);
  });
  it('of a run that ended while it set off is its first', () => {
    expect(
      momentOf([
        [0, 9],
        [0.05, 90],
      ]),
    ).toEqual([0, 'step 1']);
  });
  it('of a shaft that still gathers speed is that moment, and pack and drives each give off their own', () => {
    const two = of({ drives: 2 });
    const spun: DriveSystem = { ...two, shaftSpeed: 'with-inertia' };
    const kernel = createKernel(spun);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    y[kernel.at.shaft] = 120;
    y[kernel.at.cells] += 20;
    y[kernel.at.controller] += 30;
    const drawn = withTrace(simulated(dataOf({ drives: 2 })), [0, 0.5], { throttle: [0.5, 0.5], batteryPower: [9, 9] });
    const recorded = { ...recordingOf(drawn), states: [y, y] };
    const { moment } = hardestMoment({ ...drawn, recorded }, spun, profile);
    expect(moment.channels.shaftSpeed).toBe(120);
    // half the pack's, all of a controller's own
    const alone = createKernel({ ...spun, drives: 1 });
    alone.begin(profile[0], 0, false);
    alone.turnFreely(true);
    alone.solve(0, y);
    const { cells, controller } = alone.heatOutlets(y);
    expect(moment.leaves.cells / cells).toBeCloseTo(0.5, 9);
    expect(moment.leaves.controller / controller).toBeCloseTo(1, 9);
  });
});

describe('after the stop', () => {
  const air = system.surroundings.motorAirTemperature;
  const { at } = run.kernel;
  /** The run's end with every body of the motor `excess` [K] above the air, after `seconds` of curves. */
  const stopAt = (excess: number, seconds: number, curve: (t: number) => number, shaftSpeed = 0) => {
    const state = run.state.slice();
    for (const body of ['winding', 'stator', 'can', 'magnets'] as const) state[at[body]] = air + excess;
    for (const body of ['controller', 'cells'] as const) state[at[body]] = air;
    state[at.polarisation] = 0;
    const time = Array.from({ length: 4 * seconds + 1 }, (_, k) => k / 4);
    const kelvin = time.map((t) => air + curve(t));
    const drawn = withTrace(run, time, {
      ...Object.fromEntries(['winding', 'stator', 'can', 'magnet'].map((body) => [`${body}Temperature`, kelvin])),
      shaftSpeed: time.map(() => shaftSpeed),
    });
    return { ...drawn, time: seconds, state };
  };

  it('a thermometer is as late as the last lags of the run made it', () => {
    // a can that warms by half a kelvin a second; balance five lags of 4 s ago: s·r·(t − τ + τ·exp(−5))
    const stopped = afterStop(
      system,
      stopAt(50, 100, (t) => 0.5 * t),
    );
    expect((stopped?.thermometers['on-can'].reading[0] ?? 0) - air).toBeCloseTo(0.95 * 0.5 * (100 - 4 + 4 * Math.exp(-5)), 1);
    // in the stream of its rotor a bead beside the coils shows less: s/(1 + 0.55·v/10)
    const speed = (2000 * system.motor.canDiameter) / 2;
    const windy = afterStop(
      system,
      stopAt(50, 30, () => 50, 2000),
    );
    const balance = (0.36 * 50) / (1 + 0.055 * speed);
    expect((windy?.thermometers['beside-coils'].reading[0] ?? 0) - air).toBeGreaterThan(balance);
    expect((windy?.thermometers['beside-coils'].reading[0] ?? 0) - air).toBeLessThan(1.05 * balance);
  });

  it('what the winding has where a thermometer shows 60 °C goes by what both have after a minute', () => {
    const { thermometers, trace } =
      afterStop(
        system,
        stopAt(70, 30, () => 70),
      ) ?? {};
    const { reading, at60 } = thermometers?.['beside-coils'] ?? { reading: [] };
    const share = (reading[30] - air) / ((trace?.winding[30] ?? 0) - air);
    expect(trace?.after[30]).toBe(60);
    expect((333.15 - air) / ((at60?.winding ?? 0) - air)).toBeCloseTo(share, 9);
  });

  it('the hidden peak is the run’s, or later where the winding goes on warming', () => {
    const simulation = stopAt(40, 10, () => 40);
    const peaked = (kelvin: number) => {
      const { highest } = simulation;
      return afterStop(system, { ...simulation, highest: { ...highest, windingTemperature: { value: air + kelvin, time: 3 } } });
    };
    expect(peaked(60)?.hiddenPeak).toEqual({ value: air + 60, time: 3 });
    const later = peaked(20);
    expect(later?.hiddenPeak).toEqual({ value: air + 40, time: 10 });
    // a can that others warm has its peak later
    const state = simulation.state.slice();
    state[at.stator] += 40;
    const warming = afterStop(system, { ...simulation, state });
    expect(warming?.later.winding.after).toBeGreaterThan(0);
    expect(warming?.later.winding.value).toBe(Math.max(...(warming?.trace.winding ?? [])));
    expect(warming?.hiddenPeak.time).toBe(10 + (warming?.later.winding.after ?? 0));
    expect(warming?.readings.map(({ after }) => after)).toEqual([0, 30, 60, 120, 300]);
  });

  it('what never warms has its highest at once', () => {
    const still = afterStop(
      system,
      stopAt(0, 10, () => 0),
    );
    for (const { value, after } of Object.values(still?.later ?? {})) expect([value, after]).toEqual([expect.closeTo(air, 3), 0]);
    for (const shown of Object.values(still?.thermometers ?? {})) expect(shown).not.toHaveProperty('at60');
  });

  it('nothing follows a run that failed, nor one that glows beyond the laws of air', () => {
    const simulation = stopAt(40, 10, () => 40);
    expect(afterStop(system, { ...simulation, end: 'failed', failure: { step: 0, time: 1, why: 'none' } })).toBeUndefined();
    const glowing = simulation.state.map((value, k) => (k === at.winding || k === at.can ? 2500 : value));
    expect(coolDown(system, glowing, [0, 60])).toBeUndefined();
    expect(afterStop(system, { ...simulation, state: glowing })).toBeUndefined();
  });

  it('nothing draws from the pack, and what it is asked for is as exact as the tolerance says', () => {
    const { state } = stopAt(60, 1, () => 60);
    const loaded: DriveSystem = { ...system, otherLoads: 5, controller: { ...system.controller, idleCurrent: 1 } };
    const [bare, hung] = [system, loaded].map((each) => coolDown(each, state, [0, 300, 600]));
    expect(hung).toEqual(bare);
    const tight = coolDown(system, state, [0, 300, 600], 1e-11);
    bare?.forEach(({ bodies }, k) => {
      expect(Math.abs(bodies.winding - (tight?.[k].bodies.winding ?? 0))).toBeLessThan(2e-5);
    });
  });
});

describe('lines of torque', () => {
  const chartOf = (drive: DriveSystem, present: number, more: Partial<Record<'speed' | 'charge', number>> = {}) => {
    const kernel = createKernel(drive);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    for (const [key, value] of Object.entries(more)) y[kernel.at[key as 'speed' | 'charge']] = value;
    return torqueSpeedChart(kernel, drive, y, 7, present);
  };

  it('are of even throttles and of the present one, to the per cent', () => {
    const throttles = (present: number): number[] => chartOf(system, present).lines.map(({ throttle }) => throttle);
    expect(throttles(0.437)).toEqual([0.4, 0.44, 0.6, 0.8, 1]);
    expect(throttles(0.6)).toEqual([0.4, 0.6, 0.8, 1]);
    expect(throttles(0)).toEqual([0.4, 0.6, 0.8, 1]);
    expect(chartOf(of(boat()), 0.5, { speed: 1.5, charge: 0.7 })).toMatchObject({ time: 7, vehicleSpeed: 1.5, charge: 0.7, held: false });
  });

  it('lead past where the motor runs without load, or a quarter past where it runs', () => {
    const chart = chartOf(system, 0.5);
    const { battery } = system;
    const full = chart.crossings.at(-1)?.speed ?? 0;
    const kernel = createKernel(system);
    const y = new Float64Array(kernel.dimension);
    kernel.initial(y);
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 1, to: 1 } }, 0, false);
    kernel.solve(0, y);
    const unloaded = (battery.cellsInSeries * kernel.point.openCircuit) / kernel.point.torqueConstant;
    expect((chart.speed.at(-1) ?? 0) / unloaded).toBeCloseTo(1.02, 9);
    const light = chartOf(
      of({
        propeller: {
          kind: 'coefficients',
          diameter: '3 in',
          table: [
            { advance_ratio: 0, thrust: 0.1, power: 0.05 },
            { advance_ratio: 0.7, thrust: 0.01, power: 0.02 },
          ],
        },
      }),
      0.5,
    );
    expect(light.speed.at(-1)).toBeCloseTo(1.25 * (light.crossings.at(-1)?.speed ?? 0), 6);
    expect(full).toBeLessThan(0.8 * unloaded);
    // even spans, and the corner of each line: where its share of the bus makes no current
    expect(chart.speed).toHaveLength(121 + chart.lines.length);
    for (const { throttle, torque } of chart.lines) {
      const corner = chart.speed.findIndex((w, k) => k > 0 && torque[k] < 0 && w > 0);
      expect(chart.speed[corner] / (throttle * unloaded)).toBeGreaterThan(0.95);
      expect(chart.speed[corner] / (throttle * unloaded)).toBeLessThan(1.05);
    }
  });

  it('on wheels have the torque of the throttle that was driven, with what it makes of the power', () => {
    const car = of({
      propeller: 'none',
      wheel: { radius: '40 mm' },
      gearbox: { ratio: 6, efficiency: '95 %', mass: '30 g' },
      vehicle: { mass: '2 kg' },
    });
    const { crossings, held, lines, speed } = chartOf(car, 0.5, { speed: 2.5 });
    expect(held).toBe(true);
    const [{ throttle, speed: w, torque, efficiency, motorCurrent }] = crossings;
    expect([throttle, w]).toEqual([0.5, expect.closeTo((2.5 / 0.04) * 6, 9)]);
    const line = lines.find((each) => each.throttle === 0.5)?.torque ?? [];
    const k = speed.findIndex((each) => each > w);
    const share = (w - speed[k - 1]) / (speed[k] - speed[k - 1]);
    expect(torque).toBeCloseTo(line[k - 1] + share * (line[k] - line[k - 1]), 4);
    // η = M·ω/(R·i² + k·ω·i) of a motor without ripple
    const { torqueConstant, resistance } = car.motor;
    expect(efficiency).toBeCloseTo((torque * w) / (resistance * motorCurrent ** 2 + torqueConstant * w * motorCurrent), 1);
    // where the wheels turn the motor the controller's ripple is all that goes in, and nothing comes of it
    for (const speed of [4, 30]) expect(chartOf(car, 0.5, { speed }).crossings[0].efficiency).toBe(0);
  });

  it('are none where the drive has no operating point', () => {
    const dead: DriveSystem = { ...system, controller: { ...system.controller, idleCurrent: 1e5 } };
    expect(chartOf(dead, 0.5, { charge: 0.6 })).toEqual({
      time: 7,
      vehicleSpeed: 0,
      charge: 0.6,
      speed: [],
      lines: [],
      load: [],
      crossings: [],
      held: false,
    });
    const nowhere: DriveSystem = { ...system, battery: { ...system.battery, cellsInSeries: Number.NaN } };
    expect(chartOf(nowhere, 0.5).lines).toEqual([]);
  });
});

describe('lines of equal efficiency', () => {
  const { motor } = system;
  const nowhere = { time: [], shaftSpeed: [], motorTorque: [] } as Partial<Trace> as Trace;
  it('have two points a speed, and are none of less than two speeds', () => {
    // half is first reached at some speed
    let [low, high] = [1, 2000];
    for (let k = 0; k < 50; k++) {
      const middle = 0.5 * (low + high);
      if (currentsAt(motor, 0.5, middle, 330, 300) === undefined) low = middle;
      else high = middle;
    }
    const half = (steps: number) =>
      efficiencyMap(motor, nowhere, (high * 64) / (64.5 - steps), 330, 300).contours.filter(({ efficiency }) => efficiency === 0.5);
    expect([half(1).length, half(2).length]).toEqual([0, 1]);
    const [{ speed, torque }] = half(2);
    expect(speed).toHaveLength(4);
    // η = M·ω/((R·i + k·ω)·i), M = k·i − M_loss
    const k = motor.torqueConstant * (1 + motor.fluxCoefficient * (300 - 293.15));
    const flux = k / motor.torqueConstant;
    const resistance = motor.resistance * (1 + 0.00393 * (330 - 293.15));
    speed.forEach((w, n) => {
      const loss = (motor.hysteresisTorque + motor.eddyTorque * w) * flux ** 2 + motor.frictionTorque + motor.windageTorque * w ** 2;
      const current = (torque[n] + loss) / k;
      expect((torque[n] * w) / ((resistance * current + k * w) * current)).toBeCloseTo(0.5, 3);
    });
  });
  it('stand over bins of which the last holds the greatest', () => {
    const [speeds, torques] = [
      [0, 1000, 990, 950, 1000],
      [0, 0.2, 0.199, 0.2, 0.19],
    ];
    const trace = { time: [0, 1, 3, 6, 10], shaftSpeed: speeds, motorTorque: torques } as Partial<Trace> as Trace;
    // 950 of 1000 is in the 23rd of 24, 990 in the last; 0.19 of 0.2 in the 23rd
    expect(efficiencyMap(motor, trace, 1100, 330, 300).visits).toEqual([
      { speed: 1000, torque: 0.19, time: 4 },
      { speed: expect.closeTo(2980 / 3, 9), torque: expect.closeTo(0.598 / 3, 9), time: 3 },
      { speed: 950, torque: expect.closeTo(0.2, 12), time: 3 },
    ]);
  });
});
