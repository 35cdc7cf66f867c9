/** Heat into each body at the solved point. */
import { jacketConductance } from '../heat/water-jacket.js';
import { switchingFade } from '../parts/controller.js';
import { ironTorque } from '../parts/motor.js';
import { fittedCanFlow } from './can-flow-fit.js';
import type { KernelMemory } from './kernel-memory.js';

/** Speed of the air along the can [m/s] at the vehicle's `speed` [m/s]: own, flight or driving, and the propeller's slipstream. */
function airSpeedAt({ system, point, advance }: KernelMemory, speed: number): number {
  const { heat, load } = system;
  let air = heat.airSpeed + heat.vehicleSpeedShare * speed;
  if (heat.slipstreamShare > 0 && load.kind === 'propeller' && point.thrust > 0) {
    const disc = 0.25 * Math.PI * load.diameter * load.diameter;
    const induced = -0.5 * advance + Math.sqrt(0.25 * advance * advance + point.thrust / (2 * load.density * disc));
    air += 2 * heat.slipstreamShare * induced;
  }
  return air;
}

const joined = (conductance: number, difference: number): number =>
  conductance === Number.POSITIVE_INFINITY ? 0 : conductance * difference;

/** Resistance of the controller's path, less of it while a diode carries the rest of the cycle [Ω]. */
export const conductionResistance = ({ chain, point }: KernelMemory): number =>
  chain.diodeDrop > 0 ? point.pathResistance * 0.5 * (1 + point.duty) : point.pathResistance;

/** Heat of the whole pack: ohmic and slow part [W]. */
export function cellHeat({ system, point, cellFactor, polarisation }: KernelMemory, y: Float64Array): number {
  const { battery } = system;
  const current = point.packCurrent / battery.cellsInParallel;
  const slow = y[polarisation];
  return (
    battery.cellsInSeries *
    battery.cellsInParallel *
    (battery.cellResistance * cellFactor * current * current + (slow * slow) / (battery.polarisationResistance * cellFactor))
  );
}

/** Writes the heat into each body [W] into `memory.heat`; returns what one drive's bodies and its share of the pack give off [W]. */
export function heatFlows(memory: KernelMemory, y: Float64Array): number {
  const { system, bodyIndex, point, flux, chain, heat } = memory;
  const { heat: paths, surroundings, motor, controller, drives } = system;
  const winding = y[bodyIndex[0]];
  const stator = y[bodyIndex[1]];
  const can = y[bodyIndex[2]];
  const magnets = y[bodyIndex[3]];
  const air = surroundings.airTemperature;
  const { speed, current, busVoltage, duty } = point;
  const vehicleSpeed = y[memory.speed];
  const outrunner = paths.layout === 'outrunner';
  const iron = ironTorque(motor, speed, flux) * speed;
  const friction = motor.frictionTorque * speed;
  const through = 0.5 * paths.throughFlow * speed;
  const jacketOnCan = paths.jacketCovers === 'can' || !outrunner;
  let jacketed = 0;
  if (paths.jacket !== undefined) {
    const conductance = jacketConductance(paths.jacket.conductance, paths.jacket.speed, vehicleSpeed, paths.jacket.restShare);
    jacketed = conductance * ((jacketOnCan ? can : stator) - surroundings.waterTemperature);
  }
  const { canFlow } = memory;
  canFlow.can = can;
  canFlow.airSpeed = airSpeedAt(memory, vehicleSpeed);
  canFlow.spin = outrunner ? speed * paths.openness : 0;
  fittedCanFlow(canFlow);
  const canShed = canFlow.flow + paths.canToMount * (can - air) + (jacketOnCan ? jacketed : 0);
  const statorShed = (paths.statorToMount + through) * (stator - air) + (jacketOnCan ? 0 : jacketed);
  const windingShed = through * (winding - air);
  const windingToStator = joined(paths.windingToStator, winding - stator);
  const statorToCan = joined(paths.statorToCan, stator - can);
  const statorToMagnets = joined(paths.statorToMagnets, stator - magnets);
  const magnetsToCan = joined(paths.magnetsToCan, magnets - can);
  heat[0] = current * current * point.windingResistance - windingToStator - windingShed;
  heat[1] = iron * (1 - motor.magnetLossShare) + (outrunner ? friction : 0) + windingToStator - statorToCan - statorToMagnets - statorShed;
  heat[2] = (outrunner ? 0 : friction) + statorToCan + magnetsToCan - canShed;
  heat[3] = iron * motor.magnetLossShare + statorToMagnets - magnetsToCan;
  const fade = duty > 0 ? switchingFade(duty) : 0;
  const size = Math.abs(current);
  const controllerLoss =
    current * current * conductionResistance(memory) +
    (size * chain.switchingShare + controller.voltageLoss * busVoltage) * fade * busVoltage +
    (1 - duty) * controller.diodeDrop * size +
    chain.idleCurrent * busVoltage;
  const controllerShed = paths.controllerToAir * (y[bodyIndex[4]] - surroundings.compartmentTemperature);
  const cellShed = paths.cellsToAir * (y[bodyIndex[5]] - surroundings.compartmentTemperature);
  heat[4] = controllerLoss - controllerShed;
  heat[5] = cellHeat(memory, y) - cellShed;
  return canShed + statorShed + windingShed + controllerShed + cellShed / drives;
}
