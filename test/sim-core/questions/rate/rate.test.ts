/** Ratings against long integration of the same kernel, closed forms, limits and monotonicity. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { HEAT_LIMITS } from '@shaftwork/sim-core/drive/heat-limits';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { integrate } from '@shaftwork/sim-core/numerics/integrate';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { holdDrive } from '@shaftwork/sim-core/questions/rate/held-drive';
import { rate } from '@shaftwork/sim-core/questions/rate/rate';
import { settleCycle } from '@shaftwork/sim-core/questions/rate/settled-cycle';
import type { AllowedTime } from '@shaftwork/sim-core/results/rating-result';
import { describe, expect, it } from 'vitest';
import { demo } from '../../../demo.js';

const { candidates } = demo('survey-boat');
const small: DriveSystem = realise(candidates[2].data);
const long: DriveSystem = realise(candidates[1].data);
const { rating } = rate(small, { charge: 0.5, cycle: 600 });

/** The kernel integrated for `duration` at a throttle, charge held; the vehicle free. */
function integrated(system: DriveSystem, y: Float64Array, throttle: number, duration: number): void {
  const kernel = createKernel(system);
  const n = kernel.dimension;
  kernel.begin({ duration, hold: 'throttle', value: { from: throttle, to: throttle } }, 0, false);
  integrate(
    {
      dimension: n,
      eventCount: 0,
      derivative(t, s, ds) {
        kernel.derivative(t, s, ds);
        ds[kernel.at.charge] = 0;
        if (throttle === 0) ds[kernel.at.speed] = 0;
      },
    },
    'dormand-prince',
    { relative: 1e-8, absolute: new Float64Array(n).fill(1e-6) },
    0,
    y,
    duration,
  );
}

describe('the continuous rating', () => {
  it('is where a long integration settles on the limit', () => {
    expect(rating.continuous.kind).toBe('limited');
    if (rating.continuous.kind !== 'limited') return;
    expect(rating.continuous.binding).toBe('windingTemperature');
    const drive = holdDrive(small, 0.5);
    drive.hold(rating.continuous.point.throttle);
    drive.settleSpeed();
    const y = drive.state.slice();
    integrated(small, y, rating.continuous.point.throttle, 20_000);
    // 2e-4 of throttle is about 0.3 K of winding here
    expect(Math.abs(y[0] - small.limits.windingTemperature)).toBeLessThan(0.5);
    expect(rating.continuous.point.motorCurrent).toBeLessThan(rating.fullThrottle.motorCurrent);
    expect(rating.continuous.point.currentShare).toBeCloseTo(rating.continuous.point.motorCurrent / 34, 9);
  });

  it('says full throttle where nothing limits', () => {
    const free = rate(long, { charge: 0.5, cycle: 600 }).rating;
    expect(free.continuous.kind).toBe('full-throttle');
    expect(free.shortTime.fromCold.every(({ kind }) => kind === 'for-ever')).toBe(true);
  });

  it('refuses a charge or cycle that is none', () => {
    expect(() => rate(small, { charge: 0, cycle: 600 })).toThrow(/charge above 0/);
    expect(() => rate(small, { charge: 0.5, cycle: 0 })).toThrow(/cycle takes some time/);
  });
});

const timeOf = (allowed: AllowedTime): number => (allowed.kind === 'until' ? allowed.time : Number.POSITIVE_INFINITY);

describe('short times', () => {
  it('are what the integrated kernel needs to the limit, shorter for more current and from warm', () => {
    const times = rating.shortTime.fromCold.map(timeOf);
    for (let k = 1; k < times.length; k++) expect(times[k]).toBeLessThanOrEqual(times[k - 1]);
    const last = rating.shortTime.fromCold[times.length - 1];
    const drive = holdDrive(small, 0.5);
    drive.hold(1);
    drive.settleSpeed();
    const y = drive.state.slice();
    integrated(small, y, 1, timeOf(last));
    expect(Math.abs(y[0] - small.limits.windingTemperature)).toBeLessThan(0.3);
    const warm = rate(small, {
      charge: 0.5,
      cycle: 600,
      warm: { winding: 350, stator: 320, can: 315, magnets: 310, controller: 305, cells: 300 },
    }).rating.shortTime.fromWarm;
    warm.forEach((allowed, k) => {
      expect(timeOf(allowed)).toBeLessThanOrEqual(times[k]);
    });
  });
});

describe('bursts and rests', () => {
  it('settle where the integrated kernel settles after many cycles', () => {
    const peaks = new Float64Array(HEAT_LIMITS.length);
    const drive = holdDrive(small, 0.5);
    drive.hold(1);
    drive.settleSpeed();
    expect(settleCycle(drive, 1, 20, 40, peaks)).toBe(true);
    const other = holdDrive(small, 0.5);
    for (let turn = 0; turn < 120; turn++) {
      other.hold(1);
      const y = other.state.slice();
      // each burst begins from a standstill
      y[other.kernel.at.speed] = 0.01;
      integrated(small, y, 1, 20);
      if (turn === 119) expect(Math.abs(peaks[0] - y[other.kernel.at.winding])).toBeLessThan(0.5);
      y[other.kernel.at.speed] = 0;
      integrated(small, y, 0, 40);
      other.state.set(y);
    }
  });

  it('get hotter with longer bursts and cooler with longer rests', () => {
    const { settled, on, rest } = rating.bursts;
    // no settled cycle is hotter than any
    const hot = (r: number, k: number): number =>
      settled.find((each) => each.on === on[k] && each.rest === rest[r])?.peak ?? Number.POSITIVE_INFINITY;
    expect(settled.length).toBeGreaterThan(20);
    for (let r = 0; r < rest.length; r++) {
      for (let k = 0; k < on.length; k++) {
        if (k > 0) expect(hot(r, k)).toBeGreaterThanOrEqual(hot(r, k - 1) - 0.2);
        if (r > 0) expect(hot(r, k)).toBeLessThanOrEqual(hot(r - 1, k) + 0.2);
      }
    }
  });

  it('come to the continuous peak where they are long enough that the heat of the start is gone at their end', () => {
    const drive = holdDrive(small, 0.5);
    drive.hold(0.85);
    expect(drive.settle()).toBe(true);
    const settled = drive.temperature('windingTemperature');
    const peaks = new Float64Array(HEAT_LIMITS.length);
    for (const duty of [0.9, 0.99, 0.999]) {
      expect(settleCycle(drive, 0.85, duty * 1800, (1 - duty) * 1800, peaks)).toBe(true);
      expect(Math.abs(peaks[0] - settled)).toBeLessThan(0.1);
    }
  });

  it('rate more current the smaller the duty', () => {
    const currents = rating.intermittent.duties.map(({ rating: each }) => (each.kind === 'none' ? 0 : each.point.throttle));
    for (let k = 1; k < currents.length; k++) expect(currents[k]).toBeLessThanOrEqual(currents[k - 1]);
    if (rating.continuous.kind === 'limited')
      expect(currents[currents.length - 1]).toBeGreaterThanOrEqual(rating.continuous.point.throttle);
  });
});

describe('part throttle', () => {
  /** The ripple's loss all in the controller, as who gives its voltage_loss has measured it. */
  const lossy = (system: DriveSystem): DriveSystem => ({ ...system, controller: { ...system.controller, rippleInMotor: 0 } });

  it('finds the controller lossier below full throttle, where it switches', () => {
    const { partThrottle } = rate(lossy(small), { charge: 0.5, cycle: 600 });
    expect(partThrottle.lossier).toBeDefined();
    expect(partThrottle.points[partThrottle.points.length - 1].throttle).toBe(1);
    for (const point of partThrottle.points) expect(point.controllerLoss).toBeGreaterThan(0);
  });

  it('names the range in which the controller passes a limit that full throttle keeps', () => {
    const { points } = rate(lossy(long), { charge: 0.5, cycle: 600 }).partThrottle;
    const full = points[points.length - 1];
    const hottest = Math.max(...points.map(({ controllerTemperature }) => controllerTemperature ?? 0));
    expect(hottest).toBeGreaterThan(full.controllerTemperature! + 1);
    const between = 0.5 * (full.controllerTemperature! + hottest);
    const tight = {
      ...lossy(long),
      limits: { ...long.limits, controllerTemperature: between, windingTemperature: 600, magnetTemperature: 600 },
    };
    const { avoid } = rate(tight, { charge: 0.5, cycle: 600 }).partThrottle;
    expect(avoid).toHaveLength(1);
    expect(avoid[0].limit).toBe('controllerTemperature');
    expect(avoid[0].to).toBeLessThan(1);
  });
});
