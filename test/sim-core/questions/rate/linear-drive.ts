/**
 * A held drive whose ratings have closed forms: one body that warms towards T₀ + rise·throttle² with one time constant, and cools towards T₀ when it is
 * off; the others stay at T₀. It moves at 10 m/s times the throttle. Steps of time are those of the real integrator.
 */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type ByHeatLimit, byHeatLimit, HEAT_LIMIT_BODY, type HeatLimitId } from '@shaftwork/sim-core/drive/heat-limits';
import { emptyPowerFlows, POWER_TERM_IDS } from '@shaftwork/sim-core/drive/power-terms';
import type { Kernel } from '@shaftwork/sim-core/kernel/kernel';
import { emptyOperatingPoint } from '@shaftwork/sim-core/kernel/operating-point';
import type { StatePlaces } from '@shaftwork/sim-core/kernel/state-places';
import { exponentialRosenbrock } from '@shaftwork/sim-core/numerics/exponential-rosenbrock';
import type { HeldDrive } from '@shaftwork/sim-core/questions/rate/held-drive';

export const COLD = 300;

export interface Linear {
  /** What full throttle warms it by for ever [K]. */
  readonly rise: number;
  /** [s] */
  readonly time: number;
  /** What it warms towards while it is off [K]; nothing unless it is said. */
  readonly rest?: number;
  readonly bounds?: Partial<ByHeatLimit>;
  readonly warms?: HeatLimitId;
  readonly carriedBy?: DriveSystem['vehicle']['carriedBy'];
  /** Loss of the controller at a throttle [W]. */
  readonly loss?: (throttle: number) => number;
  /** Throttles without an operating point. */
  readonly stands?: (throttle: number) => boolean;
  readonly limits?: Partial<DriveSystem['limits']>;
}

const AT: StatePlaces = {
  winding: 0,
  stator: 1,
  can: 2,
  magnets: 3,
  controller: 4,
  cells: 5,
  shaft: -1,
  charge: 6,
  polarisation: 7,
  speed: 8,
};

/** What the drive was driven at, call by call of `advance`: throttle [1], seconds, and the speed it began from [m/s]. */
export type Driven = readonly [throttle: number, duration: number, speed: number];

export function linearDrive({ rise, time, warms = 'windingTemperature', ...more }: Linear): HeldDrive & { readonly driven: Driven[] } {
  const warm = AT[HEAT_LIMIT_BODY[warms]];
  const state = new Float64Array(9);
  const live = Int32Array.of(warm);
  const driven: Driven[] = [];
  let throttle = 0;
  const settled = (): number => COLD + (throttle === 0 ? (more.rest ?? 0) : rise * throttle ** 2);
  const integrator = exponentialRosenbrock(
    1,
    (x, into) => {
      into[0] = (settled() - x[0]) / time;
    },
    Float64Array.of(0.01),
    Float64Array.of(0.03),
  );
  const point = emptyOperatingPoint();
  const runs = (): boolean => more.stands?.(throttle) !== true;
  const solve = (): void => {
    point.duty = throttle;
    point.current = 50 * throttle;
    point.packCurrent = 40 * throttle;
    point.inputPower = 600 * throttle;
    point.loadTorque = 0.5 * throttle;
    point.speed = 1000 * throttle;
    point.stalled = !runs();
  };
  const powers = emptyPowerFlows();
  const kernel = {
    at: AT,
    dimension: 9,
    point,
    solve,
    initial: (y: Float64Array) => {
      y.fill(COLD, 0, 6);
      y[AT.speed] = 0;
    },
    powers: () => {
      for (const id of POWER_TERM_IDS) powers[id] = id === 'controllerConduction' ? (more.loss?.(throttle) ?? throttle) : 0;
      return powers;
    },
  } as Pick<Kernel, 'at' | 'dimension' | 'point' | 'solve' | 'initial' | 'powers'> as Kernel;
  kernel.initial(state);
  state[AT.charge] = 0.5;
  const none = Number.POSITIVE_INFINITY;
  const settleSpeed = (): boolean => {
    state[AT.speed] = 10 * throttle;
    return runs();
  };
  return {
    kernel,
    system: {
      vehicle: { carriedBy: more.carriedBy ?? 'water' },
      limits: { motorCurrent: none, inputPower: none, ...more.limits },
    } as DriveSystem,
    state,
    live,
    integrator,
    driven,
    bounds: byHeatLimit((id) => more.bounds?.[id] ?? none),
    hold(asked) {
      throttle = asked;
    },
    holdStill() {
      throttle = 1;
      state[AT.speed] = 0;
    },
    settleSpeed,
    settle() {
      if (!settleSpeed() || settled() > 900) return false;
      state[warm] = settled();
      return true;
    },
    advance(duration, onStep, propagator) {
      driven.push([throttle, duration, state[AT.speed]]);
      const x = Float64Array.of(state[warm]);
      const reached = integrator.advance(x, duration, onStep, propagator);
      state[warm] = x[0];
      return reached;
    },
    cold() {
      const speed = state[AT.speed];
      kernel.initial(state);
      state[AT.speed] = speed;
    },
    temperature: (limit) => state[AT[HEAT_LIMIT_BODY[limit]]],
  };
}
