/**
 * All that the kernel remembers between calls: the loaded system, the step being driven, reused records, and what the last solve found.
 *
 * @module
 */

import { damageTemperatures } from '../drive/damage.js';
import type { DriveSystem } from '../drive/drive-system.js';
import { type DutyLaw, emptyDutyLaw } from '../drive/duty-law.js';
import { effectiveMass } from '../drive/effective-mass.js';
import {
  type ChainPoint,
  type ElectricalChain,
  emptyChainPoint,
  emptyElectricalChain,
  sourceResistance,
} from '../drive/electrical-chain.js';
import { type ByHeatLimit, byHeatLimit } from '../drive/heat-limits.js';
import { emptyPowerFlows, type PowerFlows } from '../drive/power-terms.js';
import type { Held, ProfileStep } from '../drive/profile.js';
import { startTemperature } from '../drive/start-temperature.js';
import { BODIES } from '../heat/heat-paths.js';
import { emptyHeatOutlets, type HeatOutlets } from '../heat/heat-ways.js';
import { deadTimeDrop, switchingShare } from '../parts/controller.js';
import { torqueBeforeGear } from '../parts/gearbox.js';
import { emptyPropellerPoint, type PropellerMedium, type PropellerPoint } from '../parts/propeller/propeller-laws.js';
import { type CanFlowFit, emptyCanFlowFit, prepareCanFlow } from './can-flow-fit.js';
import { emptyOperatingPoint, type OperatingPoint } from './operating-point.js';
import { bodyPlaces, emptyStatePlaces, type FilledPlaces, placeStates, STATES } from './state-places.js';

export interface KernelMemory {
  system: DriveSystem;
  /** Where the bodies are destroyed [K]. */
  damage: ByHeatLimit;
  step: ProfileStep;
  stepFrom: number;
  flatOut: boolean;
  /** What is held now; throttle where full throttle stands in. */
  hold: Held;
  readonly chain: ElectricalChain;
  readonly chainPoint: ChainPoint;
  /** The chain at the duty asked, while the shaft's speed is sought. */
  readonly dutyLaw: DutyLaw;
  readonly propeller: PropellerPoint;
  readonly medium: { -readonly [K in keyof PropellerMedium]: PropellerMedium[K] };
  readonly canFlow: CanFlowFit;
  readonly point: OperatingPoint;
  /** Power of every term at the solved point [W]. */
  readonly powers: PowerFlows;
  /** Where each state lies, and how many there are. */
  readonly at: FilledPlaces;
  dimension: number;
  /** Places of the bodies' temperatures, in the order of BODIES. */
  readonly bodyIndex: Int32Array;
  /** One over the heat capacity of the state that each body belongs to [K/J]. */
  readonly inverseCapacity: Float64Array;
  /** Heat into each body at the last solved point [W]. */
  readonly heat: Float64Array;
  /** What left each way there [W]. */
  readonly outlets: HeatOutlets;
  /** Whether the shaft turns by its inertia now; else its speed follows the balance at once. */
  turning: boolean;
  /** The state's shaft speed [rad/s], and its rate [rad/s²]. */
  shaftState: number;
  shaftAcceleration: number;
  gearEfficiency: number;
  /** 1/gear ratio; torque at the motor's shaft per torque of a load that takes, and of one that gives [1]. */
  inverseRatio: number;
  torqueTaken: number;
  torqueGiven: number;
  /** The pack's ohmic part of the source resistance at 25 °C [Ω]. */
  packResistance: number;
  effectiveMass: number;
  /** k_t/k_t20 and factor on cell resistances at the present temperatures; speed of the fluid into the propeller [m/s]. */
  flux: number;
  cellFactor: number;
  /** Speed of the cells' kinetics [1] and the cell temperature it is of [K]. */
  activated: number;
  activatedAt: number;
  /** State of charge that `cellFactor` is of [1]. */
  factorCharge: number;
  advance: number;
  /** Most motor current the controller allows at its present temperature [A]. */
  motorLimit: number;
  /** Most duty to which the battery current's limit lets a throttle open against the ripple alone [1]. */
  mostDuty: number;
  /** Whether the limiter has let go of the throttle in this step: it is past the most ripple and the pack's greatest power, where less flows again. */
  letGo: boolean;
  /** Whether the torque jumps past the load at the speed that was found, as where a limit lets go and the pack gives way. */
  hunts: boolean;
  /** What is asked of the balance: a duty, or a fixed motor current [A] where that is a number; whether the blades are folded. */
  duty: number;
  fixedCurrent: number;
  folded: boolean;
  /** dM/dω of the load at the motor's shaft [N·m·s/rad]. */
  loadSlope: number;
  /** Most current that the controller's limits leave [A], and its slope in the back-EMF [S]; bus voltage [V] and duty at the limit of the battery current. */
  readonly most: { current: number; slope: number; busVoltage: number; duty: number };
  /** Speed of the vehicle at the state being solved [m/s]. */
  vehicleSpeed: number;
  /** Acceleration that the step imposes, NaN where speed is a state [m/s²]; sine of the climb it sets. */
  imposed: number;
  setClimb: number;
  /** Most force of one drive that the ground takes forward, and (negative) backward; ±Infinity without a ground [N]. */
  gripForward: number;
  gripBackward: number;
  /** The root found last [rad/s]; 0 where there is none. Whether the shaft has come to rest since. */
  warmSpeed: number;
  atRest: boolean;
  /** What it was found at, speed of advance [m/s], E [V] and duty [1], and how it moves with each: where the next search begins. */
  warmAdvance: number;
  warmEmf: number;
  warmDuty: number;
  /** Duty at which the held draw was found last in this step; 0 before it was. */
  warmDraw: number;
  speedPerAdvance: number;
  speedPerEmf: number;
  speedPerDuty: number;
  solvedTime: number;
  readonly solvedState: Float64Array;
}

/** Where the next solve begins. */
type Beginning = Pick<KernelMemory, Extract<keyof KernelMemory, `warm${string}` | `speedPer${string}` | 'atRest'>>;

/** Lets `look` solve, and goes on afterwards from where it was. */
export function lookAside(memory: KernelMemory, look: () => void): void {
  const { warmSpeed, atRest, warmAdvance, warmEmf, warmDuty, warmDraw, speedPerAdvance, speedPerEmf, speedPerDuty } = memory;
  const before: Beginning = {
    warmSpeed,
    atRest,
    warmAdvance,
    warmEmf,
    warmDuty,
    warmDraw,
    speedPerAdvance,
    speedPerEmf,
    speedPerDuty,
  };
  look();
  Object.assign(memory, before, { solvedTime: Number.NaN });
}

/** Before a step has begun. */
const OFF: ProfileStep = { duration: 0, hold: 'throttle', value: { from: 0, to: 0 } };

/** The memory of a kernel of `system`, which stands with its motor off. */
export function kernelMemory(system: DriveSystem): KernelMemory {
  const memory: KernelMemory = {
    system,
    damage: byHeatLimit(() => Number.POSITIVE_INFINITY),
    step: OFF,
    stepFrom: 0,
    flatOut: false,
    hold: 'throttle',
    chain: emptyElectricalChain(),
    chainPoint: emptyChainPoint(),
    dutyLaw: emptyDutyLaw(),
    propeller: emptyPropellerPoint(),
    medium: { density: 1, kinematicViscosity: 1 },
    canFlow: emptyCanFlowFit(),
    point: emptyOperatingPoint(),
    powers: emptyPowerFlows(),
    at: emptyStatePlaces(),
    dimension: 0,
    bodyIndex: new Int32Array(BODIES.length),
    inverseCapacity: new Float64Array(BODIES.length),
    heat: new Float64Array(BODIES.length),
    outlets: emptyHeatOutlets(),
    turning: false,
    shaftState: 0,
    shaftAcceleration: 0,
    gearEfficiency: 1,
    inverseRatio: 1,
    torqueTaken: 1,
    torqueGiven: 1,
    packResistance: 0,
    effectiveMass: 1,
    flux: 1,
    cellFactor: 1,
    activated: 1,
    activatedAt: Number.NaN,
    factorCharge: Number.NaN,
    advance: 0,
    motorLimit: Number.POSITIVE_INFINITY,
    mostDuty: 1,
    letGo: false,
    hunts: false,
    duty: 0,
    fixedCurrent: Number.NaN,
    folded: false,
    loadSlope: 0,
    most: { current: 0, slope: 0, busVoltage: Number.NEGATIVE_INFINITY, duty: 0 },
    vehicleSpeed: 0,
    imposed: Number.NaN,
    setClimb: 0,
    gripForward: Number.POSITIVE_INFINITY,
    gripBackward: Number.NEGATIVE_INFINITY,
    warmSpeed: 0,
    atRest: false,
    warmAdvance: 0,
    warmEmf: 0,
    warmDuty: 0,
    warmDraw: 0,
    speedPerAdvance: 0,
    speedPerEmf: 0,
    speedPerDuty: 0,
    solvedTime: Number.NaN,
    solvedState: new Float64Array(STATES.length),
  };
  loadSystem(memory, system);
  return memory;
}

/** Takes in a system: where its states lie, and what does not change during a run. */
export function loadSystem(memory: KernelMemory, system: DriveSystem): void {
  memory.solvedTime = Number.NaN;
  memory.warmSpeed = memory.warmDraw = 0;
  memory.atRest = false;
  memory.gripForward = Number.POSITIVE_INFINITY;
  memory.gripBackward = Number.NEGATIVE_INFINITY;
  memory.system = system;
  memory.damage = damageTemperatures(system.limits);
  const { heat, gearbox, load, controller, motor, drives } = system;
  memory.dimension = placeStates(system, memory.at);
  memory.bodyIndex.set(bodyPlaces(memory.at));
  // bodies joined by an infinite conductance share one state
  const capacities = new Float64Array(BODIES.length);
  for (const body of BODIES) capacities[memory.at[body]] += heat.capacity[body];
  for (let k = 0; k < BODIES.length; k++) memory.inverseCapacity[k] = 1 / capacities[memory.bodyIndex[k]];
  prepareCanFlow(memory.canFlow, heat, system.surroundings.motorAirTemperature, system.surroundings.airPressure);
  const { chain } = memory;
  chain.idleCurrent = controller.idleCurrent;
  chain.otherPower = system.otherLoads / drives;
  chain.switchingShare = switchingShare(controller);
  chain.sinusoidal = controller.drive === 'sinusoidal';
  // without inductance there is nothing that ripples
  chain.rippleLoss = motor.inductance > 0 ? controller.rippleConstant / motor.inductance : 0;
  chain.diodeDrop = controller.diodeDrop;
  chain.deadTimeDrop = deadTimeDrop(controller);
  chain.regenerative = controller.braking === 'regenerative';
  memory.gearEfficiency = gearbox.efficiency * (load.kind === 'propeller' ? load.shaftEfficiency : 1);
  memory.inverseRatio = 1 / gearbox.ratio;
  memory.torqueTaken = torqueBeforeGear(1, gearbox.ratio, memory.gearEfficiency);
  memory.torqueGiven = -torqueBeforeGear(-1, gearbox.ratio, memory.gearEfficiency);
  memory.activatedAt = Number.NaN;
  memory.packResistance = sourceResistance(system.battery, 1, drives, 0);
  memory.effectiveMass = effectiveMass(system);
  if (load.kind === 'propeller') {
    memory.medium.density = load.density;
    memory.medium.kinematicViscosity = load.kinematicViscosity;
  }
}

/** The start's temperatures, charge and rest. */
export function initialState({ system, at }: KernelMemory, y: Float64Array): void {
  const { start } = system;
  y.fill(0);
  for (const body of BODIES) y[at[body]] = startTemperature(start, body);
  y[at.charge] = start.charge;
}
