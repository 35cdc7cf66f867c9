/** Heat into each body at the solved point. @module */

import { airAtMotor } from '../drive/air-at-motor.js';
import { motorHeat } from '../drive/motor-heat.js';
import { type HeatMotion, heatNetwork } from '../heat/heat-network.js';
import { BODIES, type BodyCount } from '../heat/heat-paths.js';
import { controllerLoss } from '../parts/controller.js';
import { windageTorqueAt } from '../parts/motor.js';
import { fittedSurfaces } from './can-flow-fit.js';
import type { KernelMemory } from './kernel-memory.js';

/** Current through the resistance of one cell's slow part that stands at `voltage` [V]; a cell without it has none [A]. */
export const slowCurrent = ({ system, cellFactor }: KernelMemory, voltage: number): number =>
  voltage === 0 ? 0 : voltage / (system.battery.polarisationResistance * cellFactor);

/** Heat of the whole pack: ohmic and slow part [W]. */
export function cellHeat(memory: KernelMemory, y: Float64Array): number {
  const { system, point, cellFactor, at } = memory;
  const { battery } = system;
  const current = point.packCurrent / battery.cellsInParallel;
  const slow = y[at.polarisation];
  return (
    battery.cellsInSeries *
    battery.cellsInParallel *
    (battery.cellResistance * cellFactor * current * current + slow * slowCurrent(memory, slow))
  );
}

const motion: HeatMotion = { shaftSpeed: 0, vehicleSpeed: 0, airSpeed: 0 };
const temperature = new Float64Array(BODIES.length);
const loss = new Float64Array(BODIES.length);

/** Writes the heat into each body [W] into `memory.heat` and what leaves each way into `memory.outlets`. */
export function heatFlows(memory: KernelMemory, y: Float64Array): void {
  const { system, bodyIndex, point, chain, flux, heat, outlets, canFlow } = memory;
  const { motor } = system;
  const { speed, current } = point;
  const { rippleInMotor } = system.controller;
  const bodies: BodyCount = 6;
  for (let k = 0; k < bodies; k++) temperature[k] = y[bodyIndex[k]];
  const outrunner = system.heat.layout === 'outrunner';
  motorHeat(motor, system.heat.layout, speed, flux, current * current * point.windingResistance, rippleInMotor * point.rippleLoss, loss);
  loss[4] = controllerLoss(chain, current, point.busVoltage, point.duty, (1 - rippleInMotor) * point.rippleLoss);
  loss[5] = cellHeat(memory, y);
  motion.shaftSpeed = speed;
  // a trial state may lie a little below rest
  motion.vehicleSpeed = Math.max(0, y[memory.at.speed]);
  motion.airSpeed = airAtMotor(system.heat, system.load, motion.vehicleSpeed, point.thrust);
  canFlow.can = temperature[2];
  canFlow.airSpeed = motion.airSpeed;
  canFlow.spin = outrunner ? speed : 0;
  canFlow.mounted = outrunner ? temperature[1] : temperature[2];
  fittedSurfaces(canFlow);
  outlets.canSide = canFlow.side;
  outlets.canEnds = canFlow.ends;
  outlets.mount = canFlow.mount;
  outlets.windage = windageTorqueAt(motor, speed) * speed;
  heatNetwork(system.heat, system.surroundings, motion, temperature, loss, heat, outlets);
}
