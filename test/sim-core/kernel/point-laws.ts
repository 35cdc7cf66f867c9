/** An operating point held against every law it must obey, each written from the parts' own laws: what is left over of each balance. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { effectiveMass } from '@shaftwork/sim-core/drive/effective-mass';
import type { ProfileStep } from '@shaftwork/sim-core/drive/profile';
import { createKernel, type Kernel } from '@shaftwork/sim-core/kernel/kernel';
import { activationFactor, openCircuitVoltage, resistanceFactor, surfaceCharge } from '@shaftwork/sim-core/parts/battery/battery';
import { deadTimeDrop, pathResistanceAt, switchingShare } from '@shaftwork/sim-core/parts/controller';
import { fluxRatio, lossTorque, reactiveShare, windingResistance } from '@shaftwork/sim-core/parts/motor';
import { emptyPropellerPoint, turnPropeller } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { dragForce } from '@shaftwork/sim-core/parts/vehicle';
import { chainMisses } from '../drive/chain-equations.js';

/** The state to solve at; what is not told is the start's. */
export interface At {
  readonly speed?: number;
  readonly charge?: number;
  readonly polarisation?: number;
  readonly shaft?: number;
  /** Of the bodies [K]. */
  readonly winding?: number;
  readonly stator?: number;
  readonly can?: number;
  readonly magnets?: number;
  readonly controller?: number;
  readonly cells?: number;
}

/** A kernel that stands solved at a time of a step, and its state. */
export function solved(
  system: DriveSystem,
  step: ProfileStep,
  at: At,
  t = 0,
  flatOut = false,
  free = false,
): { kernel: Kernel; y: Float64Array } {
  const kernel = createKernel(system);
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  for (const [state, value] of Object.entries(at) as [keyof At, number][]) y[kernel.at[state]] = value;
  kernel.begin(step, 0, flatOut);
  if (free) kernel.turnFreely(true);
  kernel.solve(t, y);
  return { kernel, y };
}

const over = (miss: number, scale: number): number => Math.abs(miss) / (1e-3 + Math.abs(scale));

/**
 * Misses of all balances, by name, each over the size of what is balanced. A wheel may hold less than its motor gives at rest. `duty` false where the point
 * stands outside what the bridge can do.
 */
export function missesOf(system: DriveSystem, { point, at }: Kernel, y: Float64Array, imposed?: number): Record<string, number> {
  const { battery, motor, controller, load, gearbox, wiring, vehicle, drives } = system;
  const activated = activationFactor(battery, y[at.cells]);
  const factor = resistanceFactor(battery, activated, y[at.charge]);
  const slow = y[at.polarisation];
  const flux = fluxRatio(motor, y[at.magnets]);
  const constant = motor.torqueConstant * flux;
  const surface = surfaceCharge(battery, activated, factor, y[at.charge], slow);
  const open = openCircuitVoltage(battery.openCircuit, surface) + battery.voltageOffset;
  const sinusoidal = controller.drive === 'sinusoidal';
  const cells = (battery.cellsInSeries * battery.cellResistance * factor) / battery.cellsInParallel;
  const chain = {
    emf: battery.cellsInSeries * (open - slow),
    sourceResistance: drives * cells + wiring.resistance,
    idleCurrent: controller.idleCurrent,
    otherPower: system.otherLoads / drives,
    pathResistance: pathResistanceAt(controller, y[at.controller]),
    windingResistance: windingResistance(motor, y[at.winding]),
    reactiveShare: reactiveShare(motor, constant, sinusoidal),
    sinusoidal,
    switchingShare: switchingShare(controller),
    rippleLoss: motor.inductance > 0 ? controller.rippleConstant / motor.inductance : 0,
    diodeDrop: controller.diodeDrop,
    deadTimeDrop: deadTimeDrop(controller),
    regenerative: controller.braking === 'regenerative',
  };
  const { speed, current } = point;
  const [mesh, bridgePower, motorMesh] = chainMisses(chain, constant * speed, point);
  const given = constant * current - (speed > 0 ? lossTorque(motor, speed, flux) : 0);
  const vehicleSpeed = Math.max(0, y[at.speed]);
  const efficiency = gearbox.efficiency * (load.kind === 'propeller' ? load.shaftEfficiency : 1);
  const passing = point.driverTorque >= 0 ? 1 / (gearbox.ratio * efficiency) : efficiency / gearbox.ratio;
  const misses: Record<string, number> = {
    mesh,
    bridgePower,
    pack: over(drives * (point.busCurrent + chain.otherPower / point.busVoltage) - point.packCurrent, point.packCurrent),
    cell: over(open - slow - (battery.cellResistance * factor * point.packCurrent) / battery.cellsInParallel - point.cellVoltage, 1),
    ripple: over(chain.rippleLoss * (point.busVoltage * point.duty * (1 - point.duty)) ** 2 - point.rippleLoss, point.rippleLoss),
    input: over(
      (chain.windingResistance * current + constant * speed) * current + controller.rippleInMotor * point.rippleLoss - point.inputPower,
      point.inputPower,
    ),
    shaft: over(given - point.loadTorque, point.loadTorque),
    gear: over(point.driverTorque * passing - point.loadTorque, point.loadTorque),
    turns: over(point.driverSpeed * gearbox.ratio - speed, speed),
    constant: over(point.torqueConstant - constant, constant),
  };
  if (point.duty > 0) misses.motorMesh = motorMesh;
  if (load.kind === 'propeller') {
    const propeller = { ...emptyPropellerPoint(), angularSpeed: point.driverSpeed, advanceSpeed: (1 - load.wakeFraction) * vehicleSpeed };
    turnPropeller(load, load, propeller);
    misses.torque = over(propeller.torque - point.driverTorque, point.driverTorque);
    misses.thrust = over(propeller.thrust - point.thrust, point.thrust);
    misses.force = over((1 - load.thrustDeduction) * propeller.thrust - point.force, point.force);
  } else {
    misses.force = over(point.driverTorque / load.radius - point.force, point.force);
    misses.rolling = over(vehicleSpeed / load.radius - point.driverSpeed, point.driverSpeed);
  }
  if (vehicle.carriedBy !== 'bench' && vehicleSpeed > 0.01) {
    const weight = vehicle.mass * 9.80665 * point.climb;
    misses.drag = over(dragForce(vehicle, vehicleSpeed, point.climb) - point.drag, point.drag);
    if (imposed === undefined)
      misses.motion = over(drives * point.force - point.drag - weight - effectiveMass(system) * point.acceleration, point.drag);
    else misses.motion = over(imposed - point.acceleration, imposed);
  }
  return misses;
}
