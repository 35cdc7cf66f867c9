/** Ratings of one body with one time constant, whose equilibria, times and cycles have closed forms. */
import { HEAT_LIMITS } from '@shaftwork/sim-core/drive/heat-limits';
import { recordOf } from '@shaftwork/sim-core/problems/record-of';
import { burstMap } from '@shaftwork/sim-core/questions/rate/burst-map';
import { firstLimit, fullThrottle, LONGEST, stall } from '@shaftwork/sim-core/questions/rate/equilibrium';
import { sweepThrottle, THROTTLES } from '@shaftwork/sim-core/questions/rate/part-throttle';
import { meanWarmth } from '@shaftwork/sim-core/questions/rate/rate';
import { nearest, ratedPoint, temperaturesOf } from '@shaftwork/sim-core/questions/rate/rated-point';
import { settleCycle } from '@shaftwork/sim-core/questions/rate/settled-cycle';
import { TEMPERATURE_CHANNELS } from '@shaftwork/sim-core/results/channels';
import type { Trace } from '@shaftwork/sim-core/results/run-result';
import { describe, expect, it } from 'vitest';
import { COLD, type Linear, linearDrive } from './linear-drive.js';

const BODY = { rise: 200, time: 100 } as const satisfies Linear;
/** Top of the settled cycle of an exponential: rise·(1 − e^(−on/τ))/(1 − e^(−(on + rest)/τ)). */
const top = (on: number, rest: number, throttle = 1, { rise, time }: Linear = BODY): number =>
  COLD + (rise * throttle ** 2 * (1 - Math.exp(-on / time))) / (1 - Math.exp(-(on + rest) / time));
/** Seconds from cold to a temperature. */
const until = (bound: number, { rise, time }: Linear = BODY): number => time * Math.log(rise / (rise - (bound - COLD)));
const peaks = new Float64Array(HEAT_LIMITS.length);

describe('bursts and rests', () => {
  it.each([
    [20, 40, 1],
    [300, 5, 0.7],
    [5, 900, 0.3],
  ])('of %d s and %d s at throttle %d settle on their exponentials', (on, rest, throttle) => {
    expect(settleCycle(linearDrive(BODY), throttle, on, rest, peaks)).toBe(true);
    expect(peaks[0]).toBeCloseTo(top(on, rest, throttle), 1);
    // what does not change is as hot as it was
    expect([...peaks.slice(1)]).toEqual([COLD, COLD, COLD]);
  });

  it('without a rest settle where the throttle does', () => {
    const drive = linearDrive(BODY);
    expect(settleCycle(drive, 0.5, 50, 0, peaks)).toBe(true);
    expect(peaks[0]).toBeCloseTo(COLD + 50, 1);
    // all the while at the speed that the throttle gives
    expect(drive.driven.every(([throttle, duration, speed]) => throttle === 0.5 && duration === 50 && speed === 5)).toBe(true);
  });

  it('begin from rest on the water and rest there, and glide on with a wing', () => {
    const boat = linearDrive(BODY);
    settleCycle(boat, 0.5, 20, 40, peaks);
    expect(new Set(boat.driven.map(String))).toEqual(new Set(['0.5,20,0.01', '0,40,0']));
    const wing = linearDrive({ ...BODY, carriedBy: 'wing' });
    settleCycle(wing, 0.5, 20, 40, peaks);
    expect(new Set(wing.driven.map(String))).toEqual(new Set(['0.5,20,5', '0,40,5']));
  });

  it('take the limits’ bodies as they are, each in its place', () => {
    expect(settleCycle(linearDrive({ ...BODY, warms: 'controllerTemperature' }), 1, 20, 40, peaks)).toBe(true);
    expect(peaks[2]).toBeCloseTo(top(20, 40), 1);
    expect([peaks[0], peaks[1], peaks[3]]).toEqual([COLD, COLD, COLD]);
  });

  it('have no cycle where it runs away, or nothing turns', () => {
    expect(settleCycle(linearDrive({ rise: 9000, time: 100 }), 1, 50, 5, peaks)).toBe(false);
    expect(settleCycle(linearDrive({ ...BODY, stands: () => true }), 1, 20, 40, peaks)).toBe(false);
  });

  it('make a map: every peak, the limit that its middle comes nearest, the least rest that keeps it', () => {
    const bound = COLD + 90;
    const map = burstMap(linearDrive({ ...BODY, bounds: { windingTemperature: bound, cellTemperature: COLD + 300 } }));
    expect([map.binding, map.limit, map.throttle, map.motorCurrent]).toEqual(['windingTemperature', bound, 1, 50]);
    expect(map.settled).toHaveLength(map.on.length * map.rest.length);
    for (const { on, rest, peak } of map.settled) expect(Math.abs(peak - top(on, rest)), `${on} ${rest}`).toBeLessThan(0.2);
    expect(map.leastRest.map(({ on }) => on)).toEqual(map.on);
    for (const { on, rest } of map.leastRest) {
      // 1 − e^(−on/τ) over 1 − e^(−(on + rest)/τ) is the share of the rise that is left
      const share = (1 - Math.exp(-on / 100)) / 0.45;
      if (share >= 1) expect(rest, String(on)).toBeUndefined();
      else {
        const exact = Math.max(map.rest[0], -100 * Math.log(1 - share) - on);
        expect(Math.abs((rest ?? 0) / exact - 1), String(on)).toBeLessThan(0.03);
      }
    }
  });
  it('map names the first of two limits that are as near, also where its middle has no cycle', () => {
    const near = { magnetTemperature: COLD + 10, controllerTemperature: COLD + 10 };
    expect(burstMap(linearDrive({ ...BODY, bounds: near }))).toMatchObject({ binding: 'magnetTemperature', limit: COLD + 10 });
    const none = burstMap(
      linearDrive({ rise: 1e5, time: 100, warms: 'cellTemperature', bounds: { windingTemperature: 400, cellTemperature: 350 } }),
    );
    expect(none).toMatchObject({ binding: 'windingTemperature', limit: 400 });
    expect(none.settled.some(({ on, rest }) => on === 45 && rest === 120)).toBe(false);
    expect(none.leastRest.filter((each) => 'rest' in each)).toEqual([]);
  });
  it('creep off from less than they creep at where less is what the throttle gives', () => {
    const slow = linearDrive(BODY);
    settleCycle(slow, 0.0005, 20, 40, peaks);
    expect(slow.driven[0]).toEqual([0.0005, 20, 0.005]);
  });
  it('map leaves out what has no cycle, and names the limit of the body that comes nearest', () => {
    const hot = burstMap(
      linearDrive({ rise: 1000, time: 100, warms: 'cellTemperature', bounds: { windingTemperature: 400, cellTemperature: 350 } }),
    );
    expect(hot.binding).toBe('cellTemperature');
    // a cycle that begins hotter than any part survives is none
    const begins = (on: number, rest: number) => COLD + (top(on, rest, 1, { rise: 1000, time: 100 }) - COLD) * Math.exp(-rest / 100);
    const lasting = hot.rest.flatMap((rest) => hot.on.map((on) => [on, rest] as const)).filter(([on, rest]) => begins(on, rest) < 900);
    expect(hot.settled.map(({ on, rest }) => [on, rest])).toEqual(lasting);
    expect(lasting.length).toBeLessThan(36);
  });
});

describe('a held throttle', () => {
  it('passes each limit when its exponential does, the first of them first', () => {
    const bounds = { windingTemperature: COLD + 100, controllerTemperature: COLD + 50 };
    const drive = linearDrive({ ...BODY, bounds });
    drive.hold(1);
    const first = firstLimit(drive, 1000);
    expect(first?.limit).toBe('windingTemperature');
    expect(first?.time).toBeCloseTo(until(COLD + 100), 1);
    drive.cold();
    expect(firstLimit(drive, 0.9 * until(COLD + 100))).toBeUndefined();
    const controller = linearDrive({ ...BODY, bounds, warms: 'controllerTemperature' });
    controller.hold(1);
    expect(firstLimit(controller, 1000)).toEqual({ limit: 'controllerTemperature', time: expect.closeTo(until(COLD + 50), 1) });
  });

  it('stops at the first limit, and tells the sooner of two within one step', () => {
    const two = linearDrive({ ...BODY, bounds: { windingTemperature: COLD + 8, controllerTemperature: COLD + 3 } });
    const both: typeof two = {
      ...two,
      live: Int32Array.of(0, 4),
      advance: (duration, onStep) => {
        const at = (t: number, into: Float64Array) => into.fill(COLD + t);
        const step = { from: 0, to: 10, start: Float64Array.of(COLD, COLD), end: Float64Array.of(COLD + 10, COLD + 10), at };
        expect([onStep?.({ ...step, startRate: step.start, endRate: step.end }), duration]).toEqual([false, 50]);
        return 10;
      },
    };
    expect(firstLimit(both, 50)).toEqual({ limit: 'controllerTemperature', time: expect.closeTo(3, 1) });
  });

  it('that is hotter than a limit from the start passes it at once', () => {
    const hot = linearDrive({ ...BODY, bounds: { windingTemperature: COLD - 5 } });
    expect(stall(hot)).toMatchObject({ kind: 'runaway', timeToLimit: { windingTemperature: 0 } });
  });

  it('has passed at once what it is at already', () => {
    const drive = linearDrive({ ...BODY, bounds: { magnetTemperature: COLD } });
    expect(firstLimit(drive, 10)).toEqual({ time: 0, limit: 'magnetTemperature' });
    expect(firstLimit(linearDrive({ ...BODY, bounds: { magnetTemperature: COLD + 0.1 } }), 10)).toBeUndefined();
  });

  it('settles at full throttle with its times from cold, runs away, or has no point', () => {
    const rated = (linear: Linear) => {
      const drive = linearDrive(linear);
      return fullThrottle(drive, sweepThrottle(drive).swept);
    };
    const bounds = { windingTemperature: COLD + 100 };
    expect(rated({ ...BODY, bounds })).toEqual({
      settled: {
        kind: 'settled',
        motorCurrent: 50,
        temperatures: { windingTemperature: COLD + 200, magnetTemperature: COLD, controllerTemperature: COLD, cellTemperature: COLD },
        timeToLimit: { windingTemperature: expect.closeTo(until(COLD + 100), 1) },
      },
      speed: 10,
      shaftSpeed: 1000,
    });
    const hot = { rise: 2000, time: 100 };
    expect(rated({ ...hot, bounds })).toEqual({
      settled: { kind: 'runaway', motorCurrent: 50, timeToLimit: { windingTemperature: expect.closeTo(until(COLD + 100, hot), 1) } },
      speed: 10,
      shaftSpeed: 1000,
    });
    const none = { settled: { kind: 'no-operating-point', motorCurrent: 0, timeToLimit: {} }, speed: 0, shaftSpeed: 1 };
    expect(rated({ ...BODY, stands: (throttle) => throttle === 1 })).toEqual(none);
    const drive = linearDrive(BODY);
    expect(fullThrottle(drive, [])).toEqual(none);
    expect(fullThrottle(drive, sweepThrottle(drive, [0.5, 0.9]).swept)).toEqual(none);
  });

  it('with the rotor held passes its limit from cold, or never within the longest time asked for', () => {
    const drive = linearDrive({ ...BODY, bounds: { windingTemperature: COLD + 100 } });
    drive.state[0] = 500;
    expect(stall(drive)).toEqual({
      kind: 'runaway',
      motorCurrent: 50,
      timeToLimit: { windingTemperature: expect.closeTo(until(COLD + 100), 1) },
    });
    const cool = linearDrive({ ...BODY, bounds: { windingTemperature: COLD + 300 } });
    expect(stall(cool)).toEqual({ kind: 'settled', motorCurrent: 50, timeToLimit: {} });
    expect(cool.driven).toEqual([[1, LONGEST, 0]]);
    const lame = linearDrive(BODY);
    const { point } = lame.kernel;
    lame.kernel.solve = () => Object.assign(point, { current: Number.NaN });
    expect(stall(lame)).toEqual({ kind: 'no-operating-point', motorCurrent: 0, timeToLimit: {} });
  });
});

describe('a rated point', () => {
  it('is the operating point as it stands, its torque and speed the shaft’s power', () => {
    const drive = linearDrive(BODY);
    drive.hold(0.5);
    drive.settle();
    expect(ratedPoint(drive)).toEqual({
      throttle: 0.5,
      motorCurrent: 25,
      batteryCurrent: 20,
      inputPower: 300,
      shaftPower: 125,
      shaftSpeed: 500,
      motorTorque: 0.25,
      vehicleSpeed: 5,
      temperatures: { windingTemperature: COLD + 50, magnetTemperature: COLD, controllerTemperature: COLD, cellTemperature: COLD },
    });
    expect(
      ratedPoint(
        drive,
        recordOf(HEAT_LIMITS, (_, k) => k),
      ).temperatures,
    ).toEqual({
      windingTemperature: 0,
      magnetTemperature: 1,
      controllerTemperature: 2,
      cellTemperature: 3,
    });
  });
  it('tells its shares of what the maker allows, where a maker allows some', () => {
    const drive = linearDrive({ ...BODY, limits: { motorCurrent: 40, inputPower: 1200 } });
    drive.hold(0.5);
    expect(ratedPoint(drive)).toMatchObject({ currentShare: 0.625, powerShare: 0.25 });
  });
  it('is nearest to the limit with the least room, as it stands or by peaks', () => {
    const drive = linearDrive({
      ...BODY,
      bounds: { windingTemperature: COLD + 60, magnetTemperature: COLD + 40, cellTemperature: COLD + 40 },
    });
    expect(nearest(drive)).toEqual({ margin: 40, binding: 'magnetTemperature' });
    expect(nearest(drive, [COLD + 30, COLD, COLD, COLD + 1])).toEqual({ margin: 30, binding: 'windingTemperature' });
    expect(nearest(drive, [COLD, COLD, 900, COLD + 50])).toEqual({ margin: -10, binding: 'cellTemperature' });
    expect(temperaturesOf(drive).cellTemperature).toBe(COLD);
  });
});

describe('part throttle', () => {
  it('is swept from a tenth to full in twentieths', () => {
    expect(THROTTLES).toHaveLength(19);
    THROTTLES.forEach((throttle, k) => {
      expect(throttle).toBeCloseTo(0.1 + 0.05 * k, 12);
    });
  });

  it('tells what settles at each, with its room to the nearest limit', () => {
    const drive = linearDrive({ ...BODY, bounds: { windingTemperature: COLD + 150 } });
    const { partThrottle, swept } = sweepThrottle(drive, [0.5, 1]);
    expect(partThrottle).toEqual({
      charge: 0.5,
      points: [
        {
          throttle: 0.5,
          vehicleSpeed: 5,
          shaftSpeed: 500,
          motorCurrent: 25,
          batteryCurrent: 20,
          controllerLoss: 0.5,
          controllerTemperature: COLD,
          windingTemperature: COLD + 50,
        },
        expect.objectContaining({ throttle: 1, windingTemperature: COLD + 200 }),
      ],
      avoid: [],
    });
    expect(swept.map(({ throttle, margin, binding }) => [throttle, margin, binding])).toEqual([
      [0.5, 100, 'windingTemperature'],
      [1, -50, 'windingTemperature'],
    ]);
    expect([swept[0].state?.[0], swept[1].state?.[0]]).toEqual([COLD + 50, COLD + 200]);
  });

  it('keeps what does not settle without temperatures, and leaves out what does not turn', () => {
    const { partThrottle, swept } = sweepThrottle(
      linearDrive({ rise: 1000, time: 100, stands: (throttle) => throttle === 0.2 }),
      [0.2, 0.5, 1],
    );
    expect(partThrottle.points.map(({ throttle }) => throttle)).toEqual([0.5, 1]);
    expect(partThrottle.points[1]).not.toHaveProperty('windingTemperature');
    expect(partThrottle.points[1]).not.toHaveProperty('controllerTemperature');
    expect(swept[1]).toEqual({ throttle: 1, state: undefined, margin: Number.NEGATIVE_INFINITY, binding: 'windingTemperature' });
  });

  it('leaves out what has no speed, stalled or not, and is empty where nothing has', () => {
    const drive = linearDrive(BODY);
    const lame = { ...drive, settle: () => false, settleSpeed: () => false };
    for (const stands of [lame, linearDrive({ ...BODY, stands: () => true })])
      expect(sweepThrottle(stands, [0.5, 1])).toEqual({ partThrottle: { charge: 0.5, points: [], avoid: [] }, swept: [] });
  });

  it('names the throttles at which the controller loses more than at full', () => {
    const loss = (throttle: number) => ({ 0.2: 1, 0.4: 5, 0.6: 4, 0.8: 3 })[throttle] ?? 3;
    const at = [0.2, 0.4, 0.6, 0.8, 1];
    expect(sweepThrottle(linearDrive({ ...BODY, loss }), at).partThrottle.lossier).toEqual({ from: 0.4, to: 0.6 });
    expect(sweepThrottle(linearDrive({ ...BODY, loss: () => 3 }), at).partThrottle).not.toHaveProperty('lossier');
  });

  it('names those that pass a limit which full throttle keeps, and no others', () => {
    // the laws of a body that is hottest half way up
    const drive = linearDrive({ ...BODY, warms: 'controllerTemperature', bounds: { controllerTemperature: COLD + 40 } });
    const settle = drive.settle;
    const hottest = (throttle: number): number => COLD + 60 - 100 * Math.abs(throttle - 0.6);
    const peaked = {
      ...drive,
      settle() {
        const runs = settle();
        drive.state[4] = hottest(drive.kernel.point.duty);
        return runs;
      },
      hold(throttle: number) {
        drive.hold(throttle);
        drive.kernel.solve(0, drive.state);
      },
    };
    const at = [0.2, 0.4, 0.5, 0.6, 0.7, 0.8, 1];
    expect(sweepThrottle(peaked, at).partThrottle.avoid).toEqual([{ from: 0.5, to: 0.7, limit: 'controllerTemperature' }]);
    // just at the limit is not past it, at full throttle or below
    const bounded = (bound: number) =>
      sweepThrottle({ ...peaked, bounds: { ...peaked.bounds, controllerTemperature: bound } }, at).partThrottle.avoid;
    expect(bounded(hottest(0.5))).toEqual([{ from: 0.6, to: 0.6, limit: 'controllerTemperature' }]);
    expect(bounded(hottest(1))).toEqual([{ from: 0.4, to: 0.8, limit: 'controllerTemperature' }]);
    expect(bounded(hottest(1) - 0.1)).toEqual([]);
    // where full throttle passes it too, it is no matter of part throttle
    expect(sweepThrottle(peaked, [0.4, 0.6, 0.7]).partThrottle.avoid).toEqual([]);
  });
});

it('mean warmth weighs each stretch of a run by how long it lasts', () => {
  const trace = (time: readonly number[], row: readonly number[]) =>
    meanWarmth({ time, ...recordOf(TEMPERATURE_CHANNELS, () => row) } as Trace);
  // 10 s at 310 in the mean, 30 s at 330
  expect(trace([5, 15, 45], [300, 320, 340]).winding).toBeCloseTo((10 * 310 + 30 * 330) / 40, 12);
  expect(trace([3], [307]).cells).toBe(307);
});
