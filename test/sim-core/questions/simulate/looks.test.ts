/** What looks at a run: instruments and thermometers, the surfaces they touch, peaks within steps, scales and bounds; each by a law written down beside it. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { throughMount } from '@shaftwork/sim-core/heat/mount';
import { THERMOMETER_PLACES, type ThermometerPlaceId } from '@shaftwork/sim-core/heat/thermometer';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import type { StepView } from '@shaftwork/sim-core/numerics/ode-system';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { energyMeter, packMeter } from '@shaftwork/sim-core/questions/simulate/energy-account';
import { extremesWatch } from '@shaftwork/sim-core/questions/simulate/extremes-watch';
import { followedFor, mostEvaluations } from '@shaftwork/sim-core/questions/simulate/run-work';
import { recordingOf, simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { stateScale } from '@shaftwork/sim-core/questions/simulate/state-scale';
import { stepSight } from '@shaftwork/sim-core/questions/simulate/step-sight';
import { stopBodies } from '@shaftwork/sim-core/questions/simulate/stop-bodies';
import { airAround } from '@shaftwork/sim-core/questions/simulate/thermometer-excess';
import { seriesLength, shareFactor, thermometerShares, watchSystem } from '@shaftwork/sim-core/questions/simulate/watch';
import { CHANNEL_IDS } from '@shaftwork/sim-core/results/channels';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, INRUNNER, KT, type Section } from '../../provenance/drives.js';

const of = (more: Section = {}): DriveSystem => realise(dataOf(more));
const bench = of();
const throttle = (duration: number, value: number): ProfileStep =>
  stepOfParts({ duration, hold: 'throttle', value: { from: value, to: value } });
const startOf = (system: DriveSystem) => {
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  return { kernel, y };
};

describe('instruments', () => {
  it('show what the curves have there, and the charge that was drawn', () => {
    const begun = { ...bench, start: { ...bench.start, charge: 0.9 } };
    const ids = ['charge_used', 'battery_current', 'voltage', 'shaft_speed', 'throttle'] as const;
    const watched = watchSystem(begun, { ids, times: Float64Array.of(0, 3, 6) });
    const { trace } = recordingOf(simulate(begun, [throttle(6, 0.6)], { watch: watched.watch }));
    const series = watched.series();
    expect(series).toHaveLength(seriesLength({ ids, times: Float64Array.of(0, 3, 6) }));
    const k = trace.time.findIndex((t) => t > 3 - 1e-6);
    const drawn = (to: number): number =>
      trace.time
        .slice(1, to + 1)
        .reduce((sum, t, i) => sum + 0.5 * (trace.batteryCurrent[i] + trace.batteryCurrent[i + 1]) * (t - trace.time[i]), 0);
    expect([series[0], series[1] / drawn(k), series[2] / drawn(trace.time.length - 1)]).toEqual([
      0,
      expect.closeTo(1, 4),
      expect.closeTo(1, 4),
    ]);
    expect(series[4] / trace.batteryCurrent[k]).toBeCloseTo(1, 5);
    expect(series[7] / trace.busVoltage[k]).toBeCloseTo(1, 5);
    expect(series[10] / trace.shaftSpeed[k]).toBeCloseTo(1, 5);
    expect([...series.subarray(12)]).toEqual([0.6, 0.6, 0.6]);
  });

  it('a thermometer shows its share of the excess, from balance, less of it in the stream of its rotor', () => {
    // so heavy that nothing changes: 40 K over the air
    const { capacity } = bench.heat;
    const endless = Object.fromEntries(Object.keys(capacity).map((body) => [body, 1e9])) as typeof capacity;
    const heavy = { ...bench, heat: { ...bench.heat, capacity: endless }, start: { ...bench.start, motorTemperature: 328.15 } };
    const shown = (ids: readonly ('beside_coils_temperature' | 'in_slot_temperature')[], duty: number) => {
      const watched = watchSystem(heavy, { ids, times: Float64Array.of(0, 1, 2) });
      const { highest } = simulate(heavy, [throttle(2, duty)], { watch: watched.watch, record: false });
      return { series: watched.series, wind: 0.5 * heavy.motor.canDiameter * highest.shaftSpeed.value };
    };
    const air = heavy.surroundings.motorAirTemperature;
    const [still, spun] = [0, 0.7].map((duty) => shown(['beside_coils_temperature', 'in_slot_temperature'], duty));
    for (const k of [0, 1, 2]) {
      expect(still.series()[k]).toBeCloseTo(air + 0.36 * 40, 4);
      expect(spun.series()[k]).toBeCloseTo(air + (0.36 * 40) / (1 + 0.055 * spun.wind), 3);
      expect(spun.series()[3 + k]).toBeCloseTo(air + 0.95 * 40, 3);
      // what is there at the start is no rise of the model's
      expect(still.series(1.5)[k]).toBeCloseTo(still.series()[k], 4);
      expect(still.series(1, (place) => (place === 'in-slot' ? 0.5 : 1))[3 + k]).toBeCloseTo(air + 0.5 * 0.95 * 40, 4);
    }
    expect(spun.wind).toBeGreaterThan(5);
    expect([...shown(['in_slot_temperature'], 0).series()].every(Number.isFinite)).toBe(true);
  });

  it('differ by a factor that holds 95 % of them, and none takes more than all', () => {
    // 1.96 deviations are its factor, half of them its root (log-normal)
    const z = 1.959964;
    expect(shareFactor('beside-coils', z)).toBeCloseTo(2, 5);
    expect(shareFactor('beside-coils', -z)).toBeCloseTo(0.5, 5);
    expect(shareFactor('on-controller', -0.5 * z)).toBeCloseTo(1 / Math.sqrt(1.3), 5);
    expect([shareFactor('on-can', z), shareFactor('beside-coils', 3 * z)]).toEqual([1 / 0.95, 1 / 0.36]);
    expect(shareFactor('on-cells', 0)).toBe(1);
  });

  it('of a draw are drawn each for itself, in a stream that no datum has', () => {
    const places = Object.keys(THERMOMETER_PLACES) as readonly ThermometerPlaceId[];
    const shares = (index: number): number[] => places.map(thermometerShares(7, index));
    expect(shares(3)).toEqual(shares(3));
    expect(new Set([...shares(3), ...shares(4)]).size).toBeGreaterThan(8);
    // the first is above its middle where the first number of the stream is
    for (const index of [0, 1, 2, 3, 4, 5]) {
      const first = seededRandom(7, 2 ** 31 + index).fraction();
      expect(shares(index)[0] > 1).toBe(first > 0.5);
    }
  });
});

describe('what can be touched', () => {
  const at = (system: DriveSystem, stator: number) => {
    const { kernel, y } = startOf(system);
    y[kernel.at.stator] = stator;
    y[kernel.at.can] = 320;
    return stopBodies(system, kernel.at, y);
  };
  const { motorAirTemperature: air } = bench.surroundings;

  it('an outrunner’s fixed end lies on the way from its iron to the mount, of which the joint takes its share', () => {
    const bare = { ...bench, heat: { ...bench.heat, mount: undefined } };
    const { endPlace, toMount } = bench.heat;
    expect(endPlace).toBeGreaterThan(0);
    expect(at(bare, air + 50)).toMatchObject({ end: expect.closeTo(air + 50 * (1 - endPlace), 9), can: 320, stator: air + 50 });
    for (const none of [
      { ...bare, heat: { ...bare.heat, toMount: 0 } },
      { ...bench, heat: { ...bench.heat, toMount: 0, mount: { area: 0.01, emissivity: 0.9 } } },
    ])
      expect(at(none, air + 50).end).toBeCloseTo(air + 50 * (1 - endPlace), 9);
    // joint and surface in series: the mount is at air + 50·G_joint/(G_joint + h·A); h of some 10 W/(m²·K)
    const plate = { ...bench, heat: { ...bench.heat, mount: { area: 0.004, emissivity: 0.9 } } };
    const share = (h: number): number => throughMount(toMount, 0.004, h) / toMount;
    const end = at(plate, air + 50).end;
    expect(end).toBeGreaterThan(air + 50 * (1 - endPlace * share(25)));
    expect(end).toBeLessThan(air + 50 * (1 - endPlace * share(5)));
    expect(at(plate, air).end).toBe(air);
  });
  it('an inrunner’s is its can', () => expect(at(of({ motor: INRUNNER }), 350).end).toBe(320));
  it('the air about motor, controller and cells is each their own', () => {
    const warm = { ...bench, surroundings: { ...bench.surroundings, motorAirTemperature: 300, compartmentTemperature: 310 } };
    const airs = (Object.keys(THERMOMETER_PLACES) as readonly ThermometerPlaceId[]).map((place) => [
      place,
      airAround(THERMOMETER_PLACES[place], warm),
    ]);
    expect(Object.fromEntries(airs)).toEqual({
      'on-can': 300,
      'on-end': 300,
      'beside-coils': 300,
      'in-slot': 300,
      'on-controller': 310,
      'on-cells': 310,
    });
  });
});

describe('peaks of all else within a step', () => {
  const hull = of(boat());
  /** Looks at one step from 2 to 5 s in which the speed runs along `curve`, after another speed was seen. */
  const sought = (curve: (t: number) => number, before = Number.NaN) => {
    const { kernel, y } = startOf(hull);
    kernel.begin(throttle(10, 0.5), 0, false);
    const watch = extremesWatch(kernel);
    let asked = -2;
    const at = (t: number, into: Float64Array): void => {
      asked++;
      into.set(y);
      into[kernel.at.speed] = curve(t);
    };
    const [start, end, first] = [y.slice(), y.slice(), y.slice()];
    at(2, start);
    at(5, end);
    if (!Number.isNaN(before)) {
      first[kernel.at.speed] = before;
      watch.note(1, first);
    }
    const step: StepView = { from: 2, to: 5, start, end, at };
    watch.note(2, start);
    watch.search(step);
    watch.note(5, end);
    return { most: watch.highest().vehicleSpeed, least: watch.lowest().vehicleSpeed, asked };
  };

  it('are found, round or with a corner, high or low, wherever they lie', () => {
    for (const top of [2.01, 2.4, 3.37, 4.2, 4.995])
      for (const sign of [1, -1])
        for (const curve of [(t: number) => 3 - sign * 0.2 * (t - top) ** 2, (t: number) => 3 - sign * 0.2 * Math.abs(t - top)]) {
          const { most, least } = sought(curve);
          const peak = sign > 0 ? most : least;
          expect(peak.value).toBeCloseTo(3, 6);
          expect(peak.time).toBeCloseTo(top, 3);
        }
  });
  it('are left where the step only rises or falls, or where more was seen before', () => {
    // three places between and one beside each end are all that is asked for
    expect(sought((t) => t / 2)).toMatchObject({ most: { value: 2.5, time: 5 }, least: { value: 1, time: 2 }, asked: 5 });
    expect(sought((t) => 3 - t / 2)).toMatchObject({ most: { value: 2, time: 2 }, least: { value: 0.5, time: 5 }, asked: 5 });
    expect(sought((t) => 3 - 0.2 * (t - 3.37) ** 2, 3.2).most).toEqual({ value: 3.2, time: 1 });
    expect(sought((t) => 1 + 0.2 * (t - 3.37) ** 2, 0.5).least).toEqual({ value: 0.5, time: 1 });
    // just above what was seen
    expect(sought((t) => 3 - 0.2 * (t - 3.37) ** 2, 2.9999).most).toEqual({ value: expect.closeTo(3, 6), time: expect.closeTo(3.37, 3) });
    expect(sought((t) => 3 - 0.2 * (t - 3.37) ** 2, 3 - 1e-9).most.time).toBe(1);
    // a corner that its samples hide by half, above and below what was seen
    const corner = (t: number): number => 3 - 0.2 * Math.abs(t - 2.4);
    expect(sought(corner, 2.95).most).toEqual({ value: expect.closeTo(3, 6), time: expect.closeTo(2.4, 5) });
    expect(sought(corner, 3.01).most).toEqual({ value: 3.01, time: 1 });
    // by less than a billionth: no peak
    expect(sought((t) => 3 - 1e-10 * (t - 3.37) ** 2).most.time).toBeLessThan(3.6);
  });
});

describe('what is noted', () => {
  const hull = of(boat());
  const noted = (step: ProfileStep, speeds: readonly number[]) => {
    const { kernel, y } = startOf(hull);
    kernel.begin(step, 0, false);
    const watch = extremesWatch(kernel);
    const points = speeds.map((speed) => {
      y[kernel.at.speed] = speed;
      watch.note(speed, y);
      return kernel.point.outsideTable;
    });
    return { watch, points };
  };
  it('is how far the propeller’s table was left at most, while it drives', () => {
    const { watch, points } = noted(throttle(10, 0.5), [1, 7, 9]);
    expect(points[1]).toBeGreaterThan(points[2]);
    expect([points[2] > 0, watch.outsideTable()]).toEqual([true, points[1]]);
    expect(noted(throttle(10, 0), [3, 9]).watch.outsideTable()).toBe(0);
  });
  it('is nothing that no throttle gives', () => {
    const fast = stepOfParts({ duration: 1, hold: 'vehicleSpeed', value: { from: 4, to: 4 } });
    expect(noted(fast, [4]).watch.highest().vehicleSpeed.value).toBe(Number.NEGATIVE_INFINITY);
  });
  it('is searched for no longer than hundreds of peaks take', () => {
    const { kernel, y } = startOf(hull);
    kernel.begin(throttle(10, 0.5), 0, false);
    const watch = extremesWatch(kernel);
    let asked = 0;
    const look = (height: number): number => {
      asked = 0;
      const at = (t: number, into: Float64Array): void => {
        asked++;
        into.set(y);
        into[kernel.at.speed] = height - 0.2 * (t - 0.6) ** 2;
      };
      const [start, end] = [y.slice(), y.slice()];
      start[kernel.at.speed] = height - 0.2 * 0.36;
      end[kernel.at.speed] = height - 0.2 * 0.16;
      watch.search({ from: 0, to: 1, start, end, at });
      return asked;
    };
    const looks = Array.from({ length: 500 }, (_, k) => look(2 + 0.002 * k));
    expect(looks[0]).toBeGreaterThan(30);
    expect(looks.at(-1)).toBe(5);
    // ends and middle are not peaks: thirty thousand, and those of the one that goes beyond
    const beyond = looks.reduce((sum, each) => sum + each - 5, 0) - 30_000;
    expect(beyond).toBeGreaterThan(0);
    expect(beyond).toBeLessThan(100);
  });
});

describe('one of many runs', () => {
  it('sees the same peaks as one that is shown, at breaks too, and keeps no curves', () => {
    const profile = [throttle(1, 1), throttle(1, 0.3), throttle(1, 0.8)];
    const [shown, many] = [true, false].map((record) => simulate(bench, profile, { record, method: 'dormand-prince', relative: 1e-8 }));
    expect([many.recorded, many.drawn]).toEqual([undefined, undefined]);
    for (const id of CHANNEL_IDS) {
      const size = Math.max(Math.abs(shown.highest[id].value), 1e-9);
      expect(many.highest[id].value / size).toBeCloseTo(shown.highest[id].value / size, 4);
      expect(many.lowest[id].value / size).toBeCloseTo(shown.lowest[id].value / size, 4);
    }
  });
  it('keeps its states where it was asked, the first and a shaft’s speed among them', () => {
    const spun: DriveSystem = { ...bench, shaftSpeed: 'with-inertia' };
    const { kept, kernel } = simulate(spun, [throttle(2, 0.5)], { record: false, keepAt: Float64Array.of(0, 1, 2, 3) });
    expect(kept).toHaveLength(3);
    const { at } = kernel;
    expect(kept.map((y) => y[at.shaft] > 100)).toEqual([false, true, true]);
    expect(kept[0][at.charge]).toBe(1);
    expect(kept[1][at.charge]).toBeGreaterThan(kept[2][at.charge]);
    const { states, trace } = recordingOf(simulate(spun, [throttle(2, 0.5)]));
    expect(states.map((y) => y[at.shaft])).toEqual(trace.shaftSpeed);
  });
  it('is given so much work and so much time', () => {
    expect(mostEvaluations(5, false) - mostEvaluations(4, false)).toBe(500);
    expect(mostEvaluations(0, false)).toBe(100_000);
    expect(mostEvaluations(40, true)).toBe(3 * mostEvaluations(40, false));
    expect([followedFor(0), followedFor(100_000)]).toEqual([86_400, 100_000]);
  });
  it('allows the speed of wheels by that of their motor', () => {
    const car = of({ propeller: 'none', wheel: { radius: '40 mm' }, gearbox: { ratio: 6 }, vehicle: { mass: '2 kg' } });
    const geared = (ratio: number): number => stateScale({ ...car, gearbox: { ...car.gearbox, ratio } }).speed;
    // twice the way of a wheel on three full cells without load
    const { kernel, y } = startOf(car);
    kernel.begin(throttle(1, 1), 0, false);
    kernel.solve(0, y);
    expect(geared(6) / ((2 * 3 * kernel.point.openCircuit * 0.04) / (KT * 6))).toBeCloseTo(1, 2);
    expect([geared(0.5), geared(1e6), stateScale(bench).speed]).toEqual([30, 1e-3, 30]);
  });
});

it('a step whose charge does not close is not seen at all', () => {
  const { kernel, y } = startOf(bench);
  kernel.begin(throttle(1, 0.6), 0, false);
  const rates = new Float64Array(kernel.dimension);
  kernel.derivative(0, y, rates);
  const look = { record: true, tolerance: 1e-8, span: 1, keepAt: Float64Array.of(0.5), watch: undefined };
  const taken = (leak: number) => {
    const end = Float64Array.from(y, (value, k) => value + (k === kernel.at.charge ? 1 + leak : 1) * rates[k]);
    const sight = stepSight(kernel, bench, look);
    sight.begin(0, y);
    const answer = sight.step({ from: 0, to: 1, start: y, end, at: (_, into) => into.set(y) });
    return [answer, sight.kept.length, sight.recording(1, y, end)?.trace.time.length];
  };
  // between 1200 spans and at the end
  expect(taken(0)).toEqual([true, 1, 1200]);
  expect(taken(0.01)).toEqual([false, 0, 0]);
});

describe('accounts', () => {
  it('of nothing are closed', () => {
    const { kernel, y } = startOf(bench);
    const account = energyMeter(kernel, bench, 1e-8).account(y, y);
    expect([account.residual, account.heatResidual, account.chargeResidual, account.shaftFollowed, account.kinetic]).toEqual([
      0, 0, 0, 0, 0,
    ]);
  });
  it('tell a fault of the program where heat comes from nowhere', () => {
    const { kernel, y } = startOf(bench);
    kernel.begin(throttle(1, 0.6), 0, false);
    // a millionth of what moves is rounding
    const leaking = (by: number) => ({ ...kernel, heatStored: () => (1 + by) * kernel.heatStored() });
    const still: StepView = { from: 0, to: 1, start: y, end: y, at: (_, into) => into.set(y) };
    for (const [each, fault] of [
      [leaking(2e-6), true],
      [leaking(5e-7), false],
      [kernel, false],
    ] as const) {
      const meter = energyMeter(each, bench, Number.POSITIVE_INFINITY);
      expect(meter.add(still)).toBe(true);
      const told = () => meter.account(y, y);
      if (fault) expect(told).toThrow(/does not keep its heat: made \d.* J, stored \d.* J, given off \d.* J/);
      else {
        const { heatMade, heatStored, heatShed, heatResidual } = told();
        expect(heatResidual).toBeCloseTo(1 - (heatStored + heatShed) / heatMade, 12);
        expect(heatResidual < -1e-7).toBe(each !== kernel);
      }
    }
  });
  it('of a climb have the weight times its height, of both ways; the shaft’s, both drives’', () => {
    const wing = of({ vehicle: { mass: '1 kg', wing: { area: '0.4 m2', aspect_ratio: 8 } }, drives: 2 });
    const climbing = stepOfParts({ duration: 2, hold: 'vehicleSpeed', value: { from: 12, to: 12 }, climb: { from: 1, to: 1 } });
    const { energy } = recordingOf(simulate(wing, [climbing]));
    expect(Math.abs(energy.imposed)).toBeLessThan(1e-6 * energy.climb);
    expect(energy.climb / (wing.vehicle.mass * 9.80665 * 2)).toBeCloseTo(1, 6);
    expect(Math.abs(energy.terms.useful - energy.drag - energy.climb)).toBeLessThan(1e-6 * energy.terms.useful);
    const spun: DriveSystem = { ...bench, drives: 2, shaftSpeed: 'with-inertia' };
    const quick = simulate(spun, [throttle(0.3, 0.6)]);
    const stored = quick.kernel.turningInertia() * quick.state[quick.kernel.at.shaft] ** 2;
    expect(recordingOf(quick).energy.terms.shaftStored / stored).toBeCloseTo(1, 3);
    expect(Math.abs(recordingOf(quick).energy.shaftFollowed)).toBeLessThan(1e-3 * stored);
    const held = stepOfParts({ duration: 1, hold: 'shaftSpeed', value: { from: 500, to: 500 } });
    expect(recordingOf(simulate(spun, [held])).energy.shaftFollowed / (quick.kernel.turningInertia() * 500 ** 2)).toBeCloseTo(1, 9);
  });
  it('of a pack with a cap say when that was passed, once', () => {
    const capped = { ...bench, limits: { ...bench.limits, batteryEnergy: 100 } };
    const { kernel, y } = startOf(capped);
    kernel.begin(throttle(1, 0.6), 0, false);
    kernel.solve(0, y);
    const watts = kernel.point.cellVoltage * 3 * kernel.point.packCurrent;
    const meter = packMeter(kernel, capped);
    const lasting = (from: number, to: number): void => meter.add({ from, to, start: y, end: y, at: (_, into) => into.set(y) });
    lasting(0, 40 / watts);
    expect([meter.energy, meter.passedAt]).toEqual([expect.closeTo(40, 9), undefined]);
    lasting(40 / watts, 90 / watts);
    expect(meter.passedAt).toBeUndefined();
    lasting(90 / watts, 150 / watts);
    expect(meter.energy).toBeCloseTo(150, 9);
    kernel.begin(throttle(1, 0.3), 0, false);
    lasting(150 / watts, 300 / watts);
    expect(meter.passedAt).toBeCloseTo(100 / watts, 9);
  });
});
