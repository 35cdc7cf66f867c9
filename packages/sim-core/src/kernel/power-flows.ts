/**
 * Every power at the solved point, in the order of POWER_TERMS: each loss by its part's own law. What leaves the cells comes from the solution of
 * the electrical chain and what arrives from the load, so that the sum of all is a test of both, and never a definition.
 *
 * @module
 */

import { conductionLoss, idleLoss, switchingLoss } from '../parts/controller.js';
import { ironTorque, windageTorqueAt } from '../parts/motor.js';
import { cellHeat, slowCurrent } from './heat-flows.js';
import type { KernelMemory } from './kernel-memory.js';
import { turningGearLoss, turningPower } from './turning-shaft.js';

/** Power of one drive and its share of the pack [W], written into `memory.powers`. */
export function powerFlows(memory: KernelMemory, y: Float64Array): void {
  const { powers: out, system, point, chain, flux, gearEfficiency, advance } = memory;
  const { battery, controller, motor, drives, load, gearbox, wiring } = system;
  const { current, busVoltage, speed, duty } = point;
  const vehicleSpeed = Math.max(0, y[memory.at.speed]);
  const slow = y[memory.at.polarisation];
  const perCell = point.packCurrent / battery.cellsInParallel;
  const count = battery.cellsInSeries * battery.cellsInParallel;
  const driveCurrent = point.packCurrent / drives;
  out.batteryChemical = battery.cellsInSeries * point.openCircuit * driveCurrent;
  out.batteryLoss = cellHeat(memory, y) / drives;
  // ½·(τ/R)·v² rises at v·(i − v/R); the pair's capacity is taken at the present temperature
  out.polarisationStored = (count * slow * (perCell - slowCurrent(memory, slow))) / drives;
  out.wiringLoss = wiring.resistance * driveCurrent * driveCurrent;
  out.otherLoads = chain.otherPower;
  out.controllerIdle = idleLoss(chain, busVoltage);
  out.controllerConduction = conductionLoss(chain, current, duty);
  out.controllerSwitching = switchingLoss(chain, current, busVoltage) + (1 - controller.rippleInMotor) * point.rippleLoss;
  out.copperLoss = current * current * point.windingResistance;
  out.ironLoss = ironTorque(motor, speed, flux) * speed + controller.rippleInMotor * point.rippleLoss;
  out.frictionLoss = (motor.frictionTorque + windageTorqueAt(motor, speed)) * speed;
  out.shaftStored = 0;
  // gear and shaft: what the motor's shaft gives less what arrives
  out.gearLoss =
    point.driverTorque >= 0
      ? point.loadTorque * speed * (1 - gearEfficiency)
      : -point.driverTorque * point.driverSpeed * (1 - gearEfficiency);
  if (memory.turning) {
    out.shaftStored = turningPower(memory);
    out.gearLoss = turningGearLoss(memory);
  }
  if (load.kind === 'propeller') {
    const advanced = point.thrust * advance;
    out.propellerLoss =
      point.driverTorque * (speed / gearbox.ratio) - advanced + (advanced - point.thrust * (1 - load.thrustDeduction) * vehicleSpeed);
  } else out.propellerLoss = 0;
  out.useful = point.force * vehicleSpeed;
}
