/**
 * Torque that heat allows for ever at each shaft speed, whatever the load: the current at which winding or magnets settle on their limit.
 *
 *   (1) equilibrium of winding, stator, can and magnets at given ω and i          (2) i where the nearest limit is just met
 *   (3) M = k_t(T_m)·i − M_loss(ω)                                               (4) runaway: i above which (1) has no solution
 *
 * Closed form of (4) for one body of conductance G and constant i: i² = G/(α·R₂₀), copper's own feedback alone; at constant torque the magnets'
 * weakening lowers it. *Source* parts/motor.ts, heat/heat-network.ts.
 *
 * @module
 */

import { airAtMotor } from '../../drive/air-at-motor.js';
import type { DriveSystem } from '../../drive/drive-system.js';
import type { HeatLimitId } from '../../drive/heat-limits.js';
import { motorHeat } from '../../drive/motor-heat.js';
import { type HeatMotion, heatNetwork, surfaceOutlets } from '../../heat/heat-network.js';
import { BODIES } from '../../heat/heat-paths.js';
import { emptyHeatOutlets } from '../../heat/heat-ways.js';
import { solveLinear } from '../../numerics/small-matrix.js';
import { fluxRatio, lossTorque, windingResistance } from '../../parts/motor.js';
import { emptyPropellerPoint, evaluatePropeller } from '../../parts/propeller/propeller-laws.js';

const MOTOR_BODIES = 4;
const HOTTEST = 900;

export interface MotorEquilibrium {
  /** Temperatures of winding, stator, can, magnets [K]. */
  readonly temperature: Float64Array;
  readonly current: number;
}

/** Finds equilibria of one motor at given shaft speeds and currents or torques; temperatures are carried on from call to call. */
export function motorEquilibria(system: DriveSystem, vehicleSpeed: number) {
  const { heat, motor, surroundings, load, gearbox } = system;
  const air = surroundings.motorAirTemperature;
  // bodies joined by an infinite conductance: a stiff one stands in
  const stiff = (conductance: number): number => (conductance === Number.POSITIVE_INFINITY ? 1e5 : conductance);
  const paths = {
    ...heat,
    windingToStator: stiff(heat.windingToStator),
    statorToCan: stiff(heat.statorToCan),
    statorToMagnets: stiff(heat.statorToMagnets),
    magnetsToCan: stiff(heat.magnetsToCan),
  };
  const temperature = new Float64Array(BODIES.length).fill(air);
  const moved = new Float64Array(BODIES.length);
  const loss = new Float64Array(BODIES.length);
  const net = new Float64Array(BODIES.length);
  const other = new Float64Array(BODIES.length);
  const matrix = new Float64Array(MOTOR_BODIES * MOTOR_BODIES);
  const right = new Float64Array(MOTOR_BODIES);
  const outlets = emptyHeatOutlets();
  const motion: HeatMotion = { shaftSpeed: 0, vehicleSpeed, airSpeed: 0 };
  const propeller = emptyPropellerPoint();
  let demand: { readonly current: number } | { readonly torque: number } = { current: 0 };

  const currentAt = (magnets: number, shaftSpeed: number): number => {
    if ('current' in demand) return demand.current;
    const flux = fluxRatio(motor, magnets);
    return (demand.torque + lossTorque(motor, shaftSpeed, flux)) / (motor.torqueConstant * flux);
  };
  const balance = (at: Float64Array, into: Float64Array): void => {
    const { shaftSpeed } = motion;
    const flux = fluxRatio(motor, at[3]);
    const current = currentAt(at[3], shaftSpeed);
    motorHeat(motor, heat.layout, shaftSpeed, flux, current * current * windingResistance(motor, at[0]), 0, loss);
    surfaceOutlets(paths, surroundings, motion, at, outlets);
    heatNetwork(paths, surroundings, motion, at, loss, into, outlets);
  };

  /** Equilibrium at `shaftSpeed` for a current or torque; undefined where there is none. */
  function at(
    shaftSpeed: number,
    ask: { readonly current: number } | { readonly torque: number },
    afresh = false,
  ): MotorEquilibrium | undefined {
    demand = ask;
    motion.shaftSpeed = shaftSpeed;
    let thrust = 0;
    if (load.kind === 'propeller') {
      evaluatePropeller(load, load, shaftSpeed / gearbox.ratio, vehicleSpeed * (1 - load.wakeFraction), propeller);
      thrust = propeller.thrust;
    }
    motion.airSpeed = airAtMotor(heat, load, vehicleSpeed, thrust);
    if (afresh) temperature.fill(air);
    // from below, Newton's steps on a balance that bends downwards climb without passing the lower equilibrium; steps are kept short all the same
    for (let iteration = 0; iteration < 80; iteration++) {
      balance(temperature, net);
      for (let j = 0; j < MOTOR_BODIES; j++) {
        moved.set(temperature);
        moved[j] += 0.01;
        balance(moved, other);
        for (let i = 0; i < MOTOR_BODIES; i++) matrix[i * MOTOR_BODIES + j] = (other[i] - net[i]) / -0.01;
      }
      for (let i = 0; i < MOTOR_BODIES; i++) right[i] = net[i];
      if (!solveLinear(MOTOR_BODIES, matrix, right)) return undefined;
      let largest = 0;
      for (let i = 0; i < MOTOR_BODIES; i++) largest = Math.max(largest, Math.abs(right[i]));
      const share = Math.min(1, 60 / largest);
      for (let i = 0; i < MOTOR_BODIES; i++) {
        temperature[i] += share * right[i];
        if (!(temperature[i] > 150 && temperature[i] < HOTTEST)) return undefined;
      }
      if (largest < 1e-6) return { temperature, current: currentAt(temperature[3], shaftSpeed) };
    }
    return undefined;
  }
  return { at };
}

/** (2), (3) at each of `speeds` [rad/s]; a speed at which no current at all keeps the limits gets torque and current 0. */
export function continuousTorque(
  system: DriveSystem,
  vehicleSpeed: number,
  speeds: readonly number[],
): { torque: number[]; current: number[]; binding: HeatLimitId[] } {
  const { motor, limits } = system;
  const { at } = motorEquilibria(system, vehicleSpeed);
  const out = { torque: [] as number[], current: [] as number[], binding: [] as HeatLimitId[] };
  let guess = Math.sqrt(Math.max(1, limits.windingTemperature - system.surroundings.motorAirTemperature) / motor.resistance) * 0.5;
  for (const speed of speeds) {
    const margins = (current: number): { margin: number; binding: HeatLimitId; magnets: number } => {
      const found = at(speed, { current }) ?? at(speed, { current }, true);
      if (found === undefined)
        return { margin: Number.NEGATIVE_INFINITY, binding: 'windingTemperature', magnets: limits.magnetTemperature };
      const winding = limits.windingTemperature - found.temperature[0];
      const magnet = limits.magnetTemperature - found.temperature[3];
      return {
        margin: Math.min(winding, magnet),
        binding: winding <= magnet ? 'windingTemperature' : 'magnetTemperature',
        magnets: found.temperature[3],
      };
    };
    const least = margins(0);
    if (least.margin <= 0) {
      out.torque.push(0);
      out.current.push(0);
      out.binding.push(least.binding);
      continue;
    }
    let low = 0;
    let lowMargin = least.margin;
    let high = guess;
    let best = margins(high);
    while (best.margin > 0) {
      low = high;
      lowMargin = best.margin;
      high *= 1.5;
      best = margins(high);
    }
    let highMargin = best.margin;
    for (let turn = 0; turn < 60 && high - low > 1e-4 * high; turn++) {
      // straight in the square of the current, as copper loss is; halved where that does not narrow
      const straight =
        highMargin > Number.NEGATIVE_INFINITY && turn % 3 !== 2
          ? Math.sqrt(low * low + ((high * high - low * low) * lowMargin) / (lowMargin - highMargin))
          : 0.5 * (low + high);
      const middle = straight > low && straight < high ? straight : 0.5 * (low + high);
      const found = margins(middle);
      if (found.margin > 0) {
        low = middle;
        lowMargin = found.margin;
        if (found.margin < 0.01) break;
      } else {
        high = middle;
        highMargin = found.margin;
        best = found;
      }
    }
    guess = high;
    const flux = fluxRatio(motor, best.magnets);
    out.current.push(low);
    out.torque.push(motor.torqueConstant * flux * low - (speed > 0 ? lossTorque(motor, speed, flux) : 0));
    out.binding.push(best.binding);
  }
  return out;
}

/** (4) Held shaft torque [N·m] and its current [A] above which `speed` [rad/s] has no equilibrium, within a share of 1e-4. */
export function runawayTorque(system: DriveSystem, vehicleSpeed: number, speed: number): { torque: number; current: number } {
  const { at } = motorEquilibria(system, vehicleSpeed);
  let low = 0;
  let current = 0;
  let high = 10 * system.motor.torqueConstant;
  const holds = (torque: number): boolean => {
    const found = at(speed, { torque }, true);
    if (found !== undefined) current = found.current;
    return found !== undefined;
  };
  while (holds(high)) {
    low = high;
    high *= 2;
  }
  while (high - low > 1e-4 * high) {
    const middle = 0.5 * (low + high);
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return { torque: low, current };
}
