/** Heat into each body at the solved point. @module */

import { airAtMotor } from '../drive/air-at-motor.js';
import { type HeatMotion, heatNetwork } from '../heat/heat-network.js';
import { ironTorque, windageTorqueAt } from '../parts/motor.js';
import { fittedSurfaces } from './can-flow-fit.js';
import type { KernelMemory } from './kernel-memory.js';

/** Resistance of the controller's path, less of it while a diode carries the rest of the cycle [Ω]. */
export const conductionResistance = ({ chain, point }: KernelMemory): number =>
  chain.diodeDrop > 0 ? point.pathResistance * 0.5 * (1 + point.duty) : point.pathResistance;

/** Current through the resistance of one cell's slow part that stands at `voltage` [V]; a cell without it has none [A]. */
export const slowCurrent = ({ system, cellFactor }: KernelMemory, voltage: number): number =>
  voltage === 0 ? 0 : voltage / (system.battery.polarisationResistance * cellFactor);

/** Heat of the whole pack: ohmic and slow part [W]. */
export function cellHeat(memory: KernelMemory, y: Float64Array): number {
  const { system, point, cellFactor, polarisation } = memory;
  const { battery } = system;
  const current = point.packCurrent / battery.cellsInParallel;
  const slow = y[polarisation];
  return (
    battery.cellsInSeries *
    battery.cellsInParallel *
    (battery.cellResistance * cellFactor * current * current + slow * slowCurrent(memory, slow))
  );
}

const motion: HeatMotion = { shaftSpeed: 0, vehicleSpeed: 0, airSpeed: 0 };
const temperature = new Float64Array(6);
const loss = new Float64Array(6);

/** Loss that heats the controller [W]: conduction, switching, dead times, its share of the ripple, diodes, idle draw. */
function controllerHeat(memory: KernelMemory): number {
  const { system, point, chain } = memory;
  const { current, busVoltage, duty } = point;
  const { rippleInMotor, diodeDrop } = system.controller;
  const size = Math.abs(current);
  return (
    current * current * conductionResistance(memory) +
    size * (chain.switchingShare * busVoltage + chain.deadTimeDrop) +
    (1 - rippleInMotor) * point.rippleLoss +
    (1 - duty) * diodeDrop * size +
    chain.idleCurrent * busVoltage
  );
}

/** Writes the heat into each body [W] into `memory.heat` and what leaves each way into `memory.outlets`. */
export function heatFlows(memory: KernelMemory, y: Float64Array): void {
  const { system, bodyIndex, point, flux, heat, outlets, canFlow } = memory;
  const { motor } = system;
  const { speed, current } = point;
  for (let k = 0; k < 6; k++) temperature[k] = y[bodyIndex[k]];
  const iron = ironTorque(motor, speed, flux) * speed;
  const friction = motor.frictionTorque * speed;
  const outrunner = system.heat.layout === 'outrunner';
  loss[0] = current * current * point.windingResistance;
  loss[1] = iron * (1 - motor.magnetLossShare) + (outrunner ? friction : 0) + system.controller.rippleInMotor * point.rippleLoss;
  loss[2] = outrunner ? 0 : friction;
  loss[3] = iron * motor.magnetLossShare;
  loss[4] = controllerHeat(memory);
  loss[5] = cellHeat(memory, y);
  motion.shaftSpeed = speed;
  motion.vehicleSpeed = y[memory.speed];
  motion.airSpeed = airAtMotor(system.heat, system.load, motion.vehicleSpeed, memory.advance, point.thrust);
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
