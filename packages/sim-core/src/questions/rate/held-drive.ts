/**
 * One drive at a held throttle with the pack held at one charge: what ratings ask about. States are the body temperatures that can change, the cells'
 * polarisation, and the vehicle's speed, which leans on them (a car's motor turns as its wheels do); equilibrium by Newton's method with implicit steps, time by exponential steps.
 *
 * *Leaves out* the run-up where nobody sets a speed to begin from: the vehicle has its settled speed from the first moment. At rest a vehicle stands; one with a wing glides on at the speed it had.
 * *Source* pseudo-transient continuation: C.T. Kelley & D.E. Keyes, SIAM J. Numer. Anal. 35, 1998.
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { type ByHeatLimit, byHeatLimit, HEAT_LIMIT_BODY, type HeatLimitId } from '../../drive/heat-limits.js';
import { BODIES } from '../../heat/heat-paths.js';
import { createKernel, type Kernel } from '../../kernel/kernel.js';
import { type ByKind, bodyPlaces, stateVector } from '../../kernel/state-places.js';
import { type ExponentialIntegrator, type ExponentialStep, exponentialRosenbrock } from '../../numerics/exponential-rosenbrock.js';
import { brent } from '../../numerics/roots.js';
import { solveLinear } from '../../numerics/small-matrix.js';

/** Hotter than any part survives; an equilibrium search that comes here has none [K]. */
const NO_EQUILIBRIUM = 900;
const FASTEST_VEHICLE = 200;
/** Change of each state [K, V, m/s] by which its column of the Jacobian is taken, and the error a step may leave in it; shaft and charge stand still. */
const INCREMENT: ByKind = { temperature: 0.01, polarisation: 1e-5, speed: 1e-4, shaft: Number.NaN, charge: Number.NaN };
const TOLERANCE: ByKind = { temperature: 0.03, polarisation: 2e-3, speed: 0.1, shaft: Number.NaN, charge: Number.NaN };

export interface HeldDrive {
  readonly kernel: Kernel;
  readonly system: DriveSystem;
  /** Full state in the kernel's order; temperatures, polarisation and speed are carried on from call to call. */
  readonly state: Float64Array;
  /** Places of the states that change: bodies first, then the cells' polarisation, then the vehicle's speed where it moves. */
  readonly live: Int32Array;
  readonly integrator: ExponentialIntegrator;
  /** Bound of each temperature limit [K]. */
  readonly bounds: ByHeatLimit;
  /** Holds a throttle; at 0, off, the vehicle keeps the speed it has. */
  hold(throttle: number): void;
  /** Rotor held at full throttle. */
  holdStill(): void;
  /** Vehicle speed [m/s] at which it no longer accelerates at the held throttle; false where there is no operating point. */
  settleSpeed(): boolean;
  /** Carries the temperatures to equilibrium; false where there is none. */
  settle(): boolean;
  /** Carries the state over `duration` [s]; NaN where it leaves the laws. */
  advance(duration: number, onStep?: (step: ExponentialStep) => boolean, propagator?: Float64Array): number;
  /** Puts all bodies at the start's temperatures. */
  cold(): void;
  /** Temperature of a limit's body [K]. */
  temperature(limit: HeatLimitId): number;
}

/** `vehicleSpeed` [m/s] is kept where it is given, whatever the drive would do to it: in a climb, or on a hill; else it is the one that the drive settles at. */
export function holdDrive(given: DriveSystem, charge: number, vehicleSpeed?: number): HeldDrive {
  // held for ever, a shaft has its steady speed
  const system: DriveSystem = { ...given, shaftSpeed: 'quasi-steady' };
  const kernel = createKernel(system);
  const n = kernel.dimension;
  const state = new Float64Array(n);
  kernel.initial(state);
  const { at } = kernel;
  state[at.charge] = charge;
  const speedIndex = at.speed;
  const bodies = new Set<number>(bodyPlaces(at));
  const fixed = new Set(BODIES.filter((body) => system.heat.capacity[body] === Number.POSITIVE_INFINITY).map((body) => at[body]));
  const moves = system.vehicle.carriedBy !== 'bench' && vehicleSpeed === undefined;
  if (vehicleSpeed !== undefined) state[speedIndex] = vehicleSpeed;
  const live = Int32Array.from([...[...bodies].filter((place) => !fixed.has(place)), at.polarisation, ...(moves ? [speedIndex] : [])]);
  const m = live.length;
  const dy = new Float64Array(n);
  const full = new Float64Array(n);
  const x = new Float64Array(m);
  let standing = false;
  const rate = new Float64Array(m);
  const matrix = new Float64Array(m * m);
  const ofLive = (value: ByKind): Float64Array => {
    const vector = stateVector(n, at, value);
    return Float64Array.from(live, (place) => vector[place]);
  };
  const increments = ofLive(INCREMENT);
  const tolerance = ofLive(TOLERANCE);
  const rates = (from: Float64Array, into: Float64Array): void => {
    full.set(state);
    for (let k = 0; k < m; k++) full[live[k]] = from[k];
    if (standing) full[speedIndex] = state[speedIndex];
    kernel.derivative(0, full, dy);
    for (let k = 0; k < m; k++) into[k] = dy[live[k]];
    if (moves && standing) into[m - 1] = 0;
  };
  const integrator = exponentialRosenbrock(m, rates, increments, tolerance);
  const take = (): void => {
    for (let k = 0; k < m; k++) x[k] = state[live[k]];
  };
  const give = (): void => {
    for (let k = 0; k < m; k++) state[live[k]] = x[k];
  };
  const begin = (hold: 'throttle' | 'shaftSpeed', value: number): void =>
    kernel.begin(
      {
        duration: 1,
        hold,
        value: { from: value, to: value },
        ...(vehicleSpeed === undefined ? {} : { vehicleSpeed: { from: vehicleSpeed, to: vehicleSpeed } }),
      },
      0,
      false,
    );
  const { limits } = system;
  const accelerationAt = (speed: number): number => {
    state[speedIndex] = speed;
    kernel.solve(0, state);
    return kernel.point.acceleration;
  };

  function settleSpeed(): boolean {
    const was = state[speedIndex];
    if (!moves || !(accelerationAt(0) > 0)) {
      kernel.solve(0, state);
      return !Number.isNaN(kernel.point.current);
    }
    let low = 0;
    let high = was > 0.01 ? was * 1.05 : 1;
    if (was > 0.01 && accelerationAt(was * 0.95) > 0) low = was * 0.95;
    while (accelerationAt(high) > 0) {
      low = high;
      high *= 1.5;
      if (high > FASTEST_VEHICLE) return false;
    }
    // where motor and load meet at two speeds, which one is found depends on where the search comes from, and the bracket may not hold when asked again
    if (!(accelerationAt(low) > 0 && accelerationAt(high) <= 0)) return false;
    state[speedIndex] = brent(accelerationAt, low, high, 1e-7);
    kernel.solve(0, state);
    return true;
  }

  function newton(): boolean {
    take();
    let step = 3e3;
    for (let iteration = 0; iteration < 60; iteration++) {
      integrator.linearise(x, rate);
      for (let k = 0; k < m * m; k++) matrix[k] = -integrator.jacobian[k];
      for (let k = 0; k < m * m; k += m + 1) matrix[k] += 1 / step;
      if (!solveLinear(m, matrix, rate)) return false;
      let largest = 0;
      for (let k = 0; k < m; k++) {
        largest = Math.max(largest, Math.abs(rate[k]));
      }
      // a step past hotter than anything is not believed: a shorter one is tried
      if (largest > 300) {
        step /= 10;
        continue;
      }
      for (let k = 0; k < m; k++) {
        x[k] += rate[k];
        if (bodies.has(live[k]) && !(x[k] < NO_EQUILIBRIUM)) return false;
        if (live[k] === speedIndex && x[k] < 0) x[k] = 0;
      }
      if (largest < 1e-5 && step > 1e7) {
        give();
        return true;
      }
      step *= 20;
    }
    return false;
  }

  return {
    kernel,
    system,
    state,
    live,
    integrator,
    bounds: byHeatLimit((id) => limits[id]),
    hold(throttle) {
      standing = throttle === 0;
      begin('throttle', throttle);
    },
    holdStill() {
      standing = true;
      state[speedIndex] = 0;
      begin('shaftSpeed', 0);
    },
    settleSpeed,
    settle: () => settleSpeed() && newton(),
    advance(duration, onStep, propagator) {
      take();
      const reached = integrator.advance(x, duration, onStep, propagator);
      give();
      return reached;
    },
    cold() {
      const speed = state[speedIndex];
      kernel.initial(state);
      state[at.charge] = charge;
      state[speedIndex] = speed;
    },
    temperature: (limit) => state[at[HEAT_LIMIT_BODY[limit]]],
  };
}
