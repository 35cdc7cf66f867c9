/**
 * The right-hand side of a drive at a given throttle in plain words, for reading and for checking: the kernel says the same in place.
 *
 *   C·dT/dt = heat in − heat out for each body;   ds/dt = −i/Q;   dv_1/dt = (R_1·i − v_1)/τ;   m_e·dv/dt = F − D
 *
 * *Holds for* a propeller with the motor driving (current not negative) below the controller's limits, on level ground or water.
 * *Source* the parts' own docstrings.
 *
 * @module
 */

import { canEndHeat, canSideHeat } from '../heat/can-surface.js';
import { compartmentConvection, compartmentFactor } from '../heat/compartment.js';
import {
  compartmentAir,
  fittedCoilConductance,
  givenFlowConductance,
  sinkConductance,
  throughFlowConductance,
} from '../heat/heat-network.js';
import { mountHeat } from '../heat/mount.js';
import { jacketConductance } from '../heat/water-jacket.js';
import { brent } from '../numerics/roots.js';
import { activationFactor, openCircuitVoltage, resistanceFactor, surfaceCharge } from '../parts/battery/battery.js';
import { deadTimeDrop, pathResistanceAt, rippleLoss, switchingShare } from '../parts/controller.js';
import { torqueBeforeGear } from '../parts/gearbox.js';
import { fluxRatio, ironTorque, lossTorque, reactiveShare, windingResistance } from '../parts/motor.js';
import { emptyPropellerPoint, evaluatePropeller } from '../parts/propeller/propeller-laws.js';
import { dragForce } from '../parts/vehicle.js';
import { airAtMotor } from './air-at-motor.js';
import type { DriveSystem } from './drive-system.js';
import { solveAtDuty } from './duty-law.js';
import { emptyChainPoint, sourceResistance } from './electrical-chain.js';
import type { DriveState } from './state.js';

/** Rates of all states [K/s, 1/s, V/s, m/s²] at `throttle` [1]. Throws RangeError for a wheel, or where the shaft does not turn. */
export function plainDerivative(system: DriveSystem, throttle: number, state: DriveState): DriveState {
  const { battery, motor, controller, load, gearbox, heat, surroundings, vehicle, drives } = system;
  if (load.kind !== 'propeller') throw new RangeError('the plain right-hand side drives a propeller');
  const activated = activationFactor(battery, state.cells);
  const factor = resistanceFactor(battery, activated, state.charge);
  const surface = surfaceCharge(battery, activated, factor, state.charge, state.polarisation);
  const flux = fluxRatio(motor, state.magnets);
  const kt = motor.torqueConstant * flux;
  const chain = {
    emf: battery.cellsInSeries * (openCircuitVoltage(battery.openCircuit, surface) + battery.voltageOffset - state.polarisation),
    sourceResistance: sourceResistance(battery, factor, drives, system.wiring.resistance),
    idleCurrent: controller.idleCurrent,
    otherPower: system.otherLoads / drives,
    pathResistance: pathResistanceAt(controller, state.controller),
    windingResistance: windingResistance(motor, state.winding),
    reactiveShare: reactiveShare(motor, kt, controller.drive === 'sinusoidal'),
    sinusoidal: controller.drive === 'sinusoidal',
    switchingShare: switchingShare(controller),
    rippleLoss: controller.rippleConstant / motor.inductance,
    diodeDrop: controller.diodeDrop,
    deadTimeDrop: deadTimeDrop(controller),
    regenerative: false,
  };
  const electric = emptyChainPoint();
  const propeller = emptyPropellerPoint();
  const balance = (speed: number): number => {
    solveAtDuty(chain, throttle, kt * speed, electric);
    evaluatePropeller(load, load, speed / gearbox.ratio, state.speed * (1 - load.wakeFraction), propeller);
    const taken = torqueBeforeGear(propeller.torque, gearbox.ratio, gearbox.efficiency * load.shaftEfficiency);
    return kt * electric.current - lossTorque(motor, speed, flux) - taken;
  };
  const speed = brent(balance, 1e-3, (2 * chain.emf) / kt, 1e-12);
  balance(speed);
  const { current, busVoltage, busCurrent } = electric;
  const pack = drives * (busCurrent + chain.otherPower / busVoltage);
  const cell = pack / battery.cellsInParallel;
  const slow = battery.polarisationResistance * factor;
  const outrunner = heat.layout === 'outrunner';
  const air = surroundings.motorAirTemperature;
  const iron = ironTorque(motor, speed, flux) * speed;
  const friction = motor.frictionTorque * speed;

  const { jacket, coil, sink } = heat;
  const water =
    (jacket === undefined ? 0 : jacketConductance(jacket.conductance, jacket.speed, state.speed, jacket.restShare)) +
    (coil === undefined ? 0 : fittedCoilConductance(coil, surroundings.waterTemperature, state.speed));
  const onCan = heat.jacketCovers === 'can' || !outrunner;
  const windingToStator = heat.windingToStator * (state.winding - state.stator);
  const statorToCan = heat.statorToCan * (state.stator - state.can);
  const statorToMagnets = heat.statorToMagnets * (state.stator - state.magnets);
  const magnetsToCan = heat.magnetsToCan * (state.magnets - state.can);
  const wind = airAtMotor(heat, load, state.speed, state.speed * (1 - load.wakeFraction), propeller.thrust);
  const through = 0.5 * throughFlowConductance(heat, speed, wind);
  const given = givenFlowConductance(heat, speed, wind);
  const mounted = outrunner ? state.stator : state.can;
  const byMount = mountHeat(heat, mounted, air, surroundings.airPressure, wind);
  const spin = outrunner ? speed : 0;
  const sides = heat.canToAir * (state.can - air) + canSideHeat(heat, state.can, air, surroundings.airPressure, wind, spin);
  const ends = canEndHeat(heat, state.can, air, surroundings.airPressure, wind, spin);
  const cooled = sink?.covers === 'controller' ? 'controller' : sink?.covers === 'mount' && outrunner ? 'stator' : 'can';
  const around = cooled === 'controller' ? surroundings.compartmentTemperature : air;
  const sunk =
    sink === undefined ? 0 : sinkConductance(sink, state[cooled], around, surroundings.airPressure, wind) * (state[cooled] - around);
  const ripple = rippleLoss(chain.rippleLoss, busVoltage, throttle);
  const controllerLoss =
    current ** 2 * chain.pathResistance +
    (chain.switchingShare * busVoltage + chain.deadTimeDrop) * current +
    ripple * (1 - controller.rippleInMotor) +
    controller.idleCurrent * busVoltage;
  const cells =
    battery.cellsInSeries * battery.cellsInParallel * (battery.cellResistance * factor * cell ** 2 + state.polarisation ** 2 / slow);
  const capacity = heat.capacity;
  const moved = compartmentConvection(surroundings.airPressure, compartmentAir(heat, state.speed));
  const draught = (share: number): number => compartmentFactor(share, moved);
  const strapped = heat.strap?.covers === 'mount' && outrunner ? 'stator' : 'can';
  const strap = heat.strap === undefined ? 0 : heat.strap.conductance * (state[strapped] - surroundings.waterTemperature);
  return {
    winding: (current ** 2 * chain.windingResistance - windingToStator - through * (state.winding - air)) / capacity.winding,
    stator:
      (iron * (1 - motor.magnetLossShare) +
        ripple * controller.rippleInMotor +
        (outrunner ? friction : 0) +
        windingToStator -
        statorToCan -
        statorToMagnets -
        (through + given) * (state.stator - air) -
        (outrunner ? byMount : 0) -
        (onCan ? 0 : water * (state.stator - surroundings.waterTemperature)) -
        (strapped === 'stator' ? strap : 0) -
        (cooled === 'stator' ? sunk : 0)) /
      capacity.stator,
    can:
      ((outrunner ? 0 : friction) +
        statorToCan +
        magnetsToCan -
        sides -
        ends -
        (cooled === 'can' ? sunk : 0) -
        (strapped === 'can' ? strap : 0) -
        (outrunner ? 0 : byMount) -
        (onCan ? water * (state.can - surroundings.waterTemperature) : 0)) /
      capacity.can,
    magnets: (iron * motor.magnetLossShare + statorToMagnets - magnetsToCan) / capacity.magnets,
    controller:
      (controllerLoss -
        heat.controllerToAir * draught(heat.controllerConvection) * (state.controller - surroundings.compartmentTemperature) -
        (cooled === 'controller' ? sunk : 0)) /
      capacity.controller,
    cells: (cells - heat.cellsToAir * draught(heat.cellsConvection) * (state.cells - surroundings.compartmentTemperature)) / capacity.cells,
    charge: -pack / battery.capacity,
    polarisation: (slow * cell - state.polarisation) / battery.polarisationTime,
    speed:
      (drives * propeller.thrust * (1 - load.thrustDeduction) - dragForce(vehicle, state.speed, 0)) /
      (vehicle.mass * (1 + vehicle.addedMass)),
  };
}
