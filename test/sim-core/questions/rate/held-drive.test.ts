/** A held drive: which of its states change, where its search begins and ends, and what it keeps while it is off. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { HEAT_LIMITS } from '@shaftwork/sim-core/drive/heat-limits';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { type HeldDrive, holdDrive } from '@shaftwork/sim-core/questions/rate/held-drive';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, INRUNNER, type Section } from '../../provenance/drives.js';

const of = (more: Section = {}): DriveSystem => realise(dataOf(more));
const car = (resistance = 0.03): Section => ({
  propeller: 'none',
  wheel: { radius: '40 mm', rolling_resistance: resistance },
  gearbox: { ratio: 6, efficiency: '95 %', mass: '30 g' },
  vehicle: { mass: '2 kg', drag_area: '0.02 m2' },
});
const aboard = of(boat({ motor: { ...INRUNNER, kv: '500 rpm/V' } }));
const names = ({ live, kernel }: HeldDrive): string[] =>
  Array.from(live, (place) =>
    (Object.entries(kernel.at) as [string, number][])
      .filter(([, at]) => at === place)
      .map(([name]) => name)
      .join('+'),
  );

describe('what changes', () => {
  it('is the bodies and the cells, and the speed of a vehicle that nobody sets', () => {
    const sorted = (drive: HeldDrive) =>
      names(drive)
        .flatMap((each) => each.split('+'))
        .sort();
    const all = [...BODIES, 'polarisation'].sort();
    expect(sorted(holdDrive(of(), 0.5))).toEqual(all);
    expect(sorted(holdDrive(of(), 0.5, 3))).toEqual(all);
    expect(sorted(holdDrive(aboard, 0.5))).toEqual([...all, 'speed'].sort());
    expect(sorted(holdDrive(aboard, 0.5, 2))).toEqual(all);
    expect(names(holdDrive(aboard, 0.5)).at(-1)).toBe('speed');
  });
  it('is no body that holds its temperature', () => {
    const base = of();
    const fixed = { ...base, heat: { ...base.heat, capacity: { ...base.heat.capacity, cells: Number.POSITIVE_INFINITY } } };
    expect(
      names(holdDrive(fixed, 0.5))
        .flatMap((each) => each.split('+'))
        .sort(),
    ).toEqual([...BODIES.filter((body) => body !== 'cells'), 'polarisation'].sort());
  });
  it('is no shaft’s speed, which is steady where it is held for ever', () => {
    const heavy = holdDrive({ ...aboard, shaftSpeed: 'with-inertia' }, 0.5);
    const light = holdDrive(aboard, 0.5);
    expect([heavy.system.shaftSpeed, names(heavy)]).toEqual(['quasi-steady', names(light)]);
    for (const drive of [heavy, light]) {
      drive.hold(0.6);
      expect(drive.settle()).toBe(true);
    }
    expect(Array.from(heavy.state)).toEqual(Array.from(light.state));
  });
});

describe('an equilibrium', () => {
  it('is the same from cold and from hot, and where it was', () => {
    const drive = holdDrive(aboard, 0.5);
    drive.hold(0.7);
    expect(drive.settle()).toBe(true);
    const there = drive.state.slice();
    for (const start of [280, 420, 880]) {
      for (const body of BODIES) drive.state[drive.kernel.at[body]] = start;
      expect(drive.settle(), String(start)).toBe(true);
      there.forEach((each, k) => {
        expect(drive.state[k]).toBeCloseTo(each, 3);
      });
    }
  });
  it('of a car that just rolls while it is cold may be at rest, and is never backwards', () => {
    const system = of({ ...car(0.2), motor: { ...INRUNNER, resistance: '0.4 ohm', thermal: { winding_to_stator: '0.3 W/K' } } });
    const drive = holdDrive(system, 0.5);
    const { speed } = drive.kernel.at;
    const rolls = (throttle: number): boolean => {
      drive.cold();
      drive.hold(throttle);
      expect(drive.settleSpeed()).toBe(true);
      return drive.state[speed] > 0;
    };
    let [low, high] = [0.001, 0.9];
    expect([rolls(low), rolls(high)]).toEqual([false, true]);
    for (let k = 0; k < 12; k++) {
      const middle = 0.5 * (low + high);
      if (rolls(middle)) high = middle;
      else low = middle;
    }
    for (const throttle of [high, 1.001 * high, 1.01 * high, 1.1 * high]) {
      rolls(throttle);
      expect(drive.settle()).toBe(true);
      expect(drive.state[speed]).toBeGreaterThanOrEqual(0);
      const rates = new Float64Array(drive.kernel.dimension);
      drive.kernel.derivative(0, drive.state, rates);
      for (const place of drive.live) expect(Math.abs(rates[place])).toBeLessThan(1e-4);
    }
  });
});

describe('a speed', () => {
  it('is nought where the drive does not overcome what holds it', () => {
    const drive = holdDrive(of(car(0.5)), 0.5);
    drive.state[drive.kernel.at.speed] = 3;
    drive.hold(0.02);
    expect([drive.settleSpeed(), drive.state[drive.kernel.at.speed]]).toEqual([true, 0]);
    expect(drive.settle()).toBe(true);
  });
  it('is none where nothing ever holds back', () => {
    const plain = of(car());
    // 12 V at 920 rpm/V turn a wheel of 400 mm, without a gear, for 460 m/s
    const racing: DriveSystem = {
      ...plain,
      gearbox: { ...plain.gearbox, ratio: 1 },
      load: { ...plain.load, radius: 0.4 } as DriveSystem['load'],
      vehicle: { ...plain.vehicle, dragFactor: 0 } as DriveSystem['vehicle'],
    };
    const drive = holdDrive(racing, 0.5);
    drive.hold(1);
    expect([drive.settleSpeed(), drive.settle()]).toEqual([false, false]);
    // with half the wheel it comes to an end below that
    const slower = holdDrive({ ...racing, load: { ...racing.load, radius: 0.1 } as DriveSystem['load'] }, 0.5);
    slower.hold(1);
    expect(slower.settleSpeed()).toBe(true);
    expect(slower.state[slower.kernel.at.speed]).toBeGreaterThan(60);
  });
  it('is found to the last digit that matters from rest and from any other', () => {
    const drive = holdDrive(aboard, 0.5);
    const { speed } = drive.kernel.at;
    const found = [0, 0.005, 0.5, 2, 2.3, 9].map((from) => {
      drive.state[speed] = from;
      drive.hold(0.8);
      expect(drive.settleSpeed()).toBe(true);
      expect(Math.abs(drive.kernel.point.acceleration)).toBeLessThan(1e-5);
      return drive.state[speed];
    });
    for (const each of found) expect(each).toBeCloseTo(found[0], 6);
  });
});

describe('off', () => {
  it('a speed that stands moves nothing else, and nothing moves it', () => {
    const drive = holdDrive(aboard, 0.5);
    const m = drive.live.length;
    const carried = (throttle: number): Float64Array => {
      const propagator = new Float64Array(m * m);
      for (let k = 0; k < m; k++) propagator[k * m + k] = 1;
      drive.state[drive.kernel.at.speed] = 2;
      drive.hold(throttle);
      drive.advance(30, undefined, propagator);
      return propagator;
    };
    const off = carried(0);
    for (let k = 0; k < m - 1; k++) for (const at of [k * m + m - 1, (m - 1) * m + k]) expect(off[at]).toBeCloseTo(0, 9);
    expect([off[m * m - 1], drive.state[drive.kernel.at.speed]]).toEqual([1, 2]);
    // driven, it forgets where it began
    const on = carried(0.6);
    expect(Math.abs(on[m * m - 1])).toBeLessThan(0.01);
    expect(drive.state[drive.kernel.at.speed]).not.toBe(2);
  });
  it('cells forget their polarisation by its own time', () => {
    const system = of();
    const drive = holdDrive(system, 0.5);
    const { polarisation } = drive.kernel.at;
    const left = (begins: number): number => {
      drive.state[polarisation] = begins;
      drive.hold(0);
      drive.advance(system.battery.polarisationTime);
      return drive.state[polarisation];
    };
    expect(left(0.1) - left(0.05)).toBeCloseTo(0.05 / Math.E, 3);
  });
  it('with its rotor held it keeps standing', () => {
    const drive = holdDrive(aboard, 0.5);
    drive.state[drive.kernel.at.speed] = 2;
    drive.holdStill();
    drive.advance(5);
    expect([drive.state[drive.kernel.at.speed], drive.kernel.point.stalled]).toEqual([0, true]);
    expect(drive.temperature(HEAT_LIMITS[0])).toBeGreaterThan(290);
  });
});
