/**
 * The right-hand side of a drive at a given throttle in plain words, for reading and for checking: the parts' public laws, put together
 * apart from the kernel, which says the same in place.
 *
 *   C·dT/dt = heat in − heat out for each body;   ds/dt = −i/Q;   dv_1/dt = (R_1·i − v_1)/τ;   m_e·dv/dt = F − D
 *
 * *Holds for* a propeller with the motor driving (current not negative) below the controller's limits, on level ground or water.
 * *Source* the parts' own docstrings.
 *
 * @module
 */

import { airAtMotor } from '@shaftwork/sim-core/drive/air-at-motor';
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { solveAtDuty } from '@shaftwork/sim-core/drive/duty-law';
import { emptyChainPoint, sourceResistance } from '@shaftwork/sim-core/drive/electrical-chain';
import { canEndHeat, canSideHeat } from '@shaftwork/sim-core/heat/can-surface';
import { compartmentConvection, compartmentFactor } from '@shaftwork/sim-core/heat/compartment';
import {
  compartmentAir,
  fittedCoilConductance,
  givenFlowConductance,
  sinkConductance,
  throughFlowConductance,
} from '@shaftwork/sim-core/heat/heat-network';
import { mountHeat } from '@shaftwork/sim-core/heat/mount';
import { jacketConductance } from '@shaftwork/sim-core/heat/water-jacket';
import { brent } from '@shaftwork/sim-core/numerics/roots';
import { activationFactor, openCircuitVoltage, resistanceFactor, surfaceCharge } from '@shaftwork/sim-core/parts/battery/battery';
import { controllerLoss, deadTimeDrop, pathResistanceAt, rippleLoss, switchingShare } from '@shaftwork/sim-core/parts/controller';
import { torqueBeforeGear } from '@shaftwork/sim-core/parts/gearbox';
import { fluxRatio, ironTorque, lossTorque, reactiveShare, windingResistance } from '@shaftwork/sim-core/parts/motor';
import { emptyPropellerPoint, evaluatePropeller } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { dragForce } from '@shaftwork/sim-core/parts/vehicle';

/** What a drive's run carries from moment to moment; the kernel keeps the same in an array, in this order. */
export interface DriveState {
  /** Temperatures [K]. */
  readonly winding: number;
  readonly stator: number;
  readonly can: number;
  readonly magnets: number;
  readonly controller: number;
  readonly cells: number;
  /** State of charge [1]. */
  readonly charge: number;
  /** Voltage of one cell's RC pair [V]. */
  readonly polarisation: number;
  /** Speed of the vehicle along its path [m/s]. */
  readonly speed: number;
}

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
  const onCan = (jacket ?? coil)?.covers !== 'mount' || !outrunner;
  const windingToStator = heat.windingToStator * (state.winding - state.stator);
  const statorToCan = heat.statorToCan * (state.stator - state.can);
  const statorToMagnets = heat.statorToMagnets * (state.stator - state.magnets);
  const magnetsToCan = heat.magnetsToCan * (state.magnets - state.can);
  const wind = airAtMotor(heat, load, state.speed, propeller.thrust);
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
  const lostInController = controllerLoss(chain, current, busVoltage, throttle, ripple * (1 - controller.rippleInMotor));
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
      (lostInController -
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
