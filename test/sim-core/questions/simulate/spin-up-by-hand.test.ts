/** When a shaft turns by its inertia and when it follows, by a kernel of one law: it comes to its steady speed with one time constant. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import type { ProfileStep } from '@shaftwork/sim-core/drive/profile';
import { emptyOperatingPoint } from '@shaftwork/sim-core/kernel/operating-point';
import { emptyStatePlaces } from '@shaftwork/sim-core/kernel/state-places';
import { mechanicalTime, type ShaftOfKernel, spinUp } from '@shaftwork/sim-core/questions/simulate/spin-up';
import { describe, expect, it } from 'vitest';

const STEADY = 1000;
const system = {
  motor: { resistance: 0.05, torqueConstant: 0.01 },
  controller: { pathResistance: 0.03 },
  wiring: { resistance: 0.02 },
} as DriveSystem;
/** J·R/k_t² with 10⁻⁵ kg·m² and 0.1 Ω [s]. */
const TIME = (1e-5 * 0.1) / 1e-4;

/** A kernel of two states, the second the shaft's speed, that falls towards STEADY; `pull` is what the acceleration gains by speed [1/s]. */
function shaftKernel({ shaft = 1, pull = -1 / TIME } = {}) {
  const point = emptyOperatingPoint();
  const turned: boolean[] = [];
  let asked = 0;
  let free = false;
  const kernel: ShaftOfKernel = {
    at: { ...emptyStatePlaces(), shaft },
    dimension: 2,
    point,
    turningInertia: () => 1e-5,
    turnFreely: (freely: boolean) => {
      turned.push(freely);
      free = freely;
    },
    solve: (_: number, y: Float64Array) => {
      asked++;
      point.speed = free ? y[1] : STEADY;
    },
    shaftAcceleration: () => pull * (point.speed - STEADY),
  };
  return { kernel, turned, spin: spinUp(kernel, system), solved: () => asked };
}
const step = (hold: string, from = 1, to = from, more: object = {}): ProfileStep =>
  ({ duration: 10, hold, value: { from, to }, ...more }) as ProfileStep;

it('the time constant is that of inertia, the whole resistance and the torque constant', () => {
  expect(mechanicalTime(shaftKernel().kernel, system)).toBeCloseTo(TIME, 12);
});

describe('a shaft', () => {
  it('turns freely where throttle or motor current is held, and follows else', () => {
    for (const [hold, freely] of [
      ['throttle', true],
      ['motorCurrent', true],
      ['vehicleSpeed', false],
      ['thrust', false],
      ['batteryPower', false],
    ] as const) {
      const { spin, turned } = shaftKernel();
      spin.begin(step(hold));
      expect(turned).toEqual([freely]);
      // one that follows is integrated to the end at once
      expect(spin.until(5, 9)).toBeCloseTo(freely ? 5 + 12 * TIME : 9, 12);
    }
  });

  it('is looked at after twelve time constants, and after twice as many each time, until the step ends', () => {
    const { spin } = shaftKernel();
    spin.begin(step('throttle'));
    expect([spin.until(0, 9), spin.until(1, 9), spin.until(2, 9), spin.until(3, 3.1)]).toEqual([
      expect.closeTo(12 * TIME, 12),
      expect.closeTo(1 + 24 * TIME, 12),
      expect.closeTo(2 + 48 * TIME, 12),
      3.1,
    ]);
    spin.begin(step('throttle'));
    expect(spin.until(0, 9)).toBeCloseTo(12 * TIME, 12);
  });

  it('follows once it lags by less than a ten-thousandth of its speed', () => {
    const lagging = (share: number) => {
      const { spin, turned } = shaftKernel();
      spin.begin(step('throttle'));
      const y = Float64Array.of(7, STEADY * (1 - share));
      spin.reached(1, y);
      return [turned.at(-1), y[1]] as const;
    };
    expect(lagging(0.9e-4)).toEqual([false, STEADY]);
    expect(lagging(1.1e-4)).toEqual([true, STEADY * (1 - 1.1e-4)]);
    expect(lagging(-0.9e-4)).toEqual([false, STEADY]);
    expect(lagging(-1.1e-4)[0]).toBe(true);
    // then it is integrated to the end
    const { spin } = shaftKernel();
    spin.begin(step('throttle'));
    spin.reached(1, Float64Array.of(0, STEADY));
    expect(spin.until(2, 9)).toBe(9);
  });

  it('that gains by speed never follows, nor one at rest that is about to start', () => {
    const { spin, turned } = shaftKernel({ pull: 1 / TIME });
    spin.begin(step('throttle'));
    spin.reached(1, Float64Array.of(0, STEADY * (1 - 1e-6)));
    expect(turned.at(-1)).toBe(true);
    const still = shaftKernel();
    still.spin.begin(step('throttle'));
    const y = Float64Array.of(0, -1e-9);
    still.spin.reached(1, y);
    // what lies below rest is rest
    expect([still.turned.at(-1), y[1]]).toEqual([true, 0]);
  });

  it('that nothing moves follows at once where what is held stays, and waits where it changes', () => {
    const rests = (held: ProfileStep): boolean | undefined => {
      const { spin, turned } = shaftKernel({ pull: 0 });
      spin.begin(held);
      spin.reached(1, Float64Array.of(0, 500));
      return turned.at(-1);
    };
    expect(rests(step('throttle', 0))).toBe(false);
    expect(rests(step('throttle', 0, 1))).toBe(true);
    expect(rests(step('throttle', 0.5, 0.5, { vehicleSpeed: { from: 3, to: 3 } }))).toBe(false);
    expect(rests(step('throttle', 0.5, 0.5, { vehicleSpeed: { from: 3, to: 4 } }))).toBe(true);
  });

  it('without a state of its own follows all along', () => {
    const { spin, turned, solved } = shaftKernel({ shaft: -1 });
    spin.begin(step('throttle'));
    const y = Float64Array.of(1, 2);
    spin.reached(1, y);
    expect([turned, solved(), spin.until(1, 9), [...y]]).toEqual([[], 0, 9, [1, 2]]);
  });
});
