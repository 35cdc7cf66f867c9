/**
 * The only room with state: one drive's right-hand side, operating point, event margins and observations, in place and without
 * allocation per evaluation. It calls the plain laws of parts/, heat/ and drive/ with reused records; `drive/plain-derivative.ts` says the
 * same in forty readable lines and a test holds the two together.
 *
 * States: the temperatures of all bodies that are not joined by an infinite conductance, then charge, polarisation, vehicle speed.
 */

import type { DriveSystem } from '../drive/drive-system.js';
import {
  type ChainPoint,
  currentAtBatteryLimit,
  type ElectricalChain,
  emptyChainPoint,
  solveAtDuty,
  solveForCurrent,
  solveOff,
} from '../drive/electrical-chain.js';
import type { Held, ProfileStep } from '../drive/profile.js';
import { canHeatFlow } from '../heat/can-surface.js';
import { BODIES } from '../heat/heat-paths.js';
import { jacketConductance } from '../heat/water-jacket.js';
import { openCircuitVoltage, resistanceFactor } from '../parts/battery.js';
import { pathResistanceAt, switchingFade, switchingShare } from '../parts/controller.js';
import { torqueBeforeGear } from '../parts/gearbox.js';
import { fluxRatio, ironTorque, lossTorque, lossTorqueSlope, windageTorqueAt, windingResistance } from '../parts/motor.js';
import { emptyPropellerPoint, evaluatePropeller } from '../parts/propeller/propeller-laws.js';
import { dragForce } from '../parts/vehicle.js';
import { turningMass } from '../parts/wheel.js';
import { STANDARD_GRAVITY } from '../quantities/constants.js';

/** Events, in the order of their margins. */
export const KERNEL_EVENTS = [
  'windingTemperature',
  'magnetTemperature',
  'controllerTemperature',
  'cellTemperature',
  'cellVoltage',
  'empty',
  'reserve',
  'holdLost',
  'holdRegained',
  'limiterEntered',
  'limiterLeft',
  'motorCurrent',
  'inputPower',
  'shaftSpeed',
  'batteryCurrent',
  'batteryPower',
  'propellerTable',
  'dragTable',
] as const;
export type KernelEvent = (typeof KERNEL_EVENTS)[number];

/** What the last solve found; reused, SI. */
export interface OperatingPoint {
  duty: number;
  /** Motor shaft speed [rad/s]. */
  speed: number;
  current: number;
  busVoltage: number;
  busCurrent: number;
  /** Current of the whole pack [A]. */
  packCurrent: number;
  torqueConstant: number;
  windingResistance: number;
  pathResistance: number;
  /** Torque that the load takes at the motor's shaft [N·m]. */
  loadTorque: number;
  /** Force of one drive on the vehicle [N]. */
  force: number;
  thrust: number;
  /** Torque and speed at the propeller or wheel. */
  driverTorque: number;
  driverSpeed: number;
  /** Duty that would be needed; above 1 the demand is out of reach. */
  dutyAsked: number;
  /** Current that full use of the demand would draw without the limiter [A]. */
  currentUnlimited: number;
  limit: number;
  outsideTable: number;
  acceleration: number;
  /** Sine of the climb. */
  climb: number;
  drag: number;
  stalled: boolean;
  /** True where a small rise of speed would go on rising: torque grows faster than the load. */
  unstable: boolean;
  /** True where braking beyond what the drive can do is left to the profile. */
  braked: boolean;
  openCircuit: number;
  cellVoltage: number;
}

export interface Kernel {
  /** Number of states of the loaded system. */
  readonly dimension: number;
  readonly point: OperatingPoint;
  /** Index of each body's temperature among the states. */
  readonly bodyIndex: Int32Array;
  load(system: DriveSystem): void;
  /** Starts a step at time `from`; `flatOut` uses full throttle in place of a hold that is out of reach. */
  begin(step: ProfileStep, from: number, flatOut: boolean): void;
  /** Held speed at time t, for a step that holds one; NaN otherwise. */
  heldSpeed(t: number): number;
  initial(y: Float64Array): void;
  derivative(t: number, y: Float64Array, dy: Float64Array): void;
  margins(t: number, y: Float64Array, out: Float64Array): void;
  /** Solves the operating point at (t, y) and leaves it in `point`. */
  solve(t: number, y: Float64Array): void;
  /** Powers at the last solved point, in the order of POWER_TERMS, one drive's share [W]. */
  powers(y: Float64Array, out: Float64Array): void;
  /** Heat given off by all bodies to their surroundings, whole pack counted in one drive's share [W]. */
  shed(y: Float64Array): number;
}

const ROOT_TOLERANCE = 1e-13;
const MOST_ITERATIONS = 200;

const fixedCapacity = (capacity: number): boolean => capacity === Number.POSITIVE_INFINITY;

export function createKernel(): Kernel {
  let system!: DriveSystem;
  let step!: ProfileStep;
  let stepFrom = 0;
  let flatOut = false;
  let hold: Held = 'throttle';
  const chain: ElectricalChain = {
    emf: 0,
    sourceResistance: 1,
    idleCurrent: 0,
    otherPower: 0,
    pathResistance: 0,
    windingResistance: 1,
    switchingShare: 0,
    voltageLoss: 0,
    diodeDrop: 0,
    regenerative: false,
  };
  const chainPoint: ChainPoint = emptyChainPoint();
  const propeller = emptyPropellerPoint();
  const medium = { density: 1, kinematicViscosity: 1 };
  const bodyIndex = new Int32Array(BODIES.length);
  const capacities = new Float64Array(BODIES.length);
  const heat = new Float64Array(BODIES.length);
  let bodies = 0;
  let charge = 0;
  let polarisation = 0;
  let speedIndex = 0;
  // per system
  let gearEfficiency = 1;
  let effectiveMass = 1;
  let ks = 0;
  let warmSpeed = 0;
  let flux = 1;
  let solvedTime = Number.NaN;
  const solvedState = new Float64Array(BODIES.length + 3);
  // per evaluation
  let cellFactor = 1;
  let advance = 0;
  const point: OperatingPoint = {
    duty: 0,
    speed: 0,
    current: 0,
    busVoltage: 0,
    busCurrent: 0,
    packCurrent: 0,
    torqueConstant: 0,
    windingResistance: 0,
    pathResistance: 0,
    loadTorque: 0,
    force: 0,
    thrust: 0,
    driverTorque: 0,
    driverSpeed: 0,
    dutyAsked: 0,
    currentUnlimited: 0,
    limit: 0,
    outsideTable: 0,
    acceleration: 0,
    climb: 0,
    drag: 0,
    stalled: false,
    unstable: false,
    braked: false,
    openCircuit: 0,
    cellVoltage: 0,
  };

  function load(next: DriveSystem): void {
    solvedTime = Number.NaN;
    system = next;
    const { heat: paths, gearbox, load, vehicle, motor } = system;
    // bodies joined by an infinite conductance share one state
    const parent = [0, 1, 2, 3, 4, 5];
    const join = (a: number, b: number, conductance: number) => {
      if (conductance !== Number.POSITIVE_INFINITY) return;
      const [from, to] = [parent[b], parent[a]];
      for (let k = 0; k < parent.length; k++) if (parent[k] === from) parent[k] = to;
    };
    join(0, 1, paths.windingToStator);
    join(1, 2, paths.statorToCan);
    join(1, 3, paths.statorToMagnets);
    join(2, 3, paths.magnetsToCan);
    capacities.fill(0);
    bodies = 0;
    const slot = new Map<number, number>();
    for (let k = 0; k < BODIES.length; k++) {
      const root = parent[k];
      let index = slot.get(root);
      if (index === undefined) {
        index = bodies++;
        slot.set(root, index);
      }
      bodyIndex[k] = index;
      capacities[index] += paths.capacity[BODIES[k]];
    }
    charge = bodies;
    polarisation = bodies + 1;
    speedIndex = bodies + 2;
    ks = switchingShare(system.controller);
    chain.idleCurrent = system.controller.idleCurrent;
    chain.otherPower = system.otherLoads / system.drives;
    chain.switchingShare = ks;
    chain.voltageLoss = system.controller.voltageLoss;
    chain.diodeDrop = system.controller.diodeDrop;
    chain.regenerative = system.controller.braking === 'regenerative';
    gearEfficiency = gearbox.efficiency * (load.kind === 'propeller' ? load.shaftEfficiency : 1);
    effectiveMass = vehicle.mass * (1 + vehicle.addedMass);
    if (load.kind === 'wheel') {
      effectiveMass += system.drives * turningMass(load.inertia, motor.rotorInertia, gearbox.ratio, load.radius);
    } else {
      medium.density = load.density;
      medium.kinematicViscosity = load.kinematicViscosity;
    }
    warmSpeed = 0;
  }

  function begin(next: ProfileStep, from: number, atFull: boolean): void {
    solvedTime = Number.NaN;
    step = next;
    stepFrom = from;
    flatOut = atFull;
    hold = atFull ? 'throttle' : next.hold;
  }

  const share = (t: number): number => (step.duration > 0 ? (t - stepFrom) / step.duration : 0);

  const heldSpeed = (t: number): number => {
    const ramp = step.hold === 'vehicleSpeed' ? step.value : step.vehicleSpeed;
    return ramp === undefined ? Number.NaN : ramp.from + (ramp.to - ramp.from) * share(t);
  };

  function initial(y: Float64Array): void {
    const { start } = system;
    const temperatures = [
      start.motorTemperature,
      start.motorTemperature,
      start.motorTemperature,
      start.motorTemperature,
      start.controllerTemperature,
      start.cellTemperature,
    ];
    for (let k = 0; k < BODIES.length; k++) y[bodyIndex[k]] = temperatures[k];
    y[charge] = start.charge;
    y[polarisation] = 0;
    y[speedIndex] = 0;
  }

  /** Load at motor speed ω: torque at the motor's shaft and force on the vehicle, into `point`; returns dM/dω. */
  function loadAt(speed: number, folded: boolean): number {
    const { load, gearbox } = system;
    if (load.kind === 'wheel') {
      return 0;
    }
    if (folded) {
      point.loadTorque = point.force = point.thrust = point.driverTorque = point.outsideTable = 0;
      point.driverSpeed = speed / gearbox.ratio;
      return 0;
    }
    evaluatePropeller(load, medium, speed / gearbox.ratio, advance, propeller);
    point.driverSpeed = speed / gearbox.ratio;
    point.driverTorque = propeller.torque;
    point.thrust = propeller.thrust;
    point.force = propeller.thrust * (1 - load.thrustDeduction);
    point.outsideTable = propeller.outside;
    point.loadTorque = torqueBeforeGear(propeller.torque, gearbox.ratio, gearEfficiency);
    const slope = propeller.torqueSlope / gearbox.ratio;
    return propeller.torque >= 0 ? slope / (gearbox.ratio * gearEfficiency) : (slope * gearEfficiency) / gearbox.ratio;
  }

  let residualValue = 0;
  let residualSlope = 0;
  /** Torque balance at motor speed ω for the demand `duty` (throttle) or `fixedCurrent` (NaN where the duty rules). */
  function residual(speed: number, duty: number, fixedCurrent: number, folded: boolean): void {
    const slopeLoad = loadAt(speed, folded);
    const kt = point.torqueConstant;
    let current: number;
    let slope = 0;
    if (Number.isNaN(fixedCurrent)) {
      current = 0;
      if (duty > 0) {
        solveAtDuty(chain, duty, kt, speed, chainPoint);
        current = chainPoint.current;
        slope = chainPoint.currentSlope;
        point.currentUnlimited = current;
        if (current > system.controller.motorCurrentLimit) {
          current = system.controller.motorCurrentLimit;
          slope = 0;
        }
        if (system.controller.batteryCurrentLimit !== Number.POSITIVE_INFINITY) {
          const most = currentAtBatteryLimit(chain, system.controller.batteryCurrentLimit, kt * speed);
          if (current > most) {
            current = most;
            slope = 0;
          }
        }
      }
    } else current = fixedCurrent;
    point.current = current;
    residualValue = kt * current - lossTorque(system.motor, speed, flux) - point.loadTorque;
    residualSlope = kt * slope - lossTorqueSlope(system.motor, speed, flux) - slopeLoad;
  }

  /** Root of the torque balance in ω ≥ 0: warm Newton, guarded by a bracket; standing still is an inequality. */
  function balance(duty: number, fixedCurrent: number, folded: boolean): number {
    let low = 0;
    let high = Number.POSITIVE_INFINITY;
    let speed = warmSpeed > 0 ? warmSpeed : Math.max(1, (0.7 * duty * chain.emf) / point.torqueConstant);
    for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
      residual(speed, duty, fixedCurrent, folded);
      if (Number.isNaN(residualValue)) return Number.NaN;
      const newton = -residualValue / residualSlope;
      // convergence is tested before the guard, else rounding at the root spoils the error control of the integrator
      if (Math.abs(newton) <= ROOT_TOLERANCE * speed + 1e-12) {
        point.stalled = false;
        point.unstable = residualSlope > 0;
        return speed;
      }
      if (residualValue > 0) low = speed;
      else high = speed;
      let next = speed + newton;
      if (!(next > low && next < high)) {
        if (low === 0 && next <= 0) {
          // nothing positive found yet: does the shaft turn at all?
          if (high < 1e-6) {
            residual(0, duty, fixedCurrent, folded);
            if (residualValue <= 0) {
              point.stalled = true;
              return 0;
            }
          }
          next = 0.2 * high;
        } else next = high === Number.POSITIVE_INFINITY ? 2 * speed + 10 : 0.5 * (low + high);
      }
      if (high < Number.POSITIVE_INFINITY && high - low <= ROOT_TOLERANCE * high) return speed;
      speed = next;
    }
    return Number.NaN; // never a speed that did not settle
  }

  /** Motor speed at which the propeller gives `thrust` at the present speed of advance; NaN where none below 1e5 rad/s does. */
  function speedForThrust(thrust: number): number {
    const { load, gearbox } = system;
    if (load.kind !== 'propeller') return Number.NaN;
    const at = (speed: number) => evaluatePropeller(load, medium, speed, advance, propeller);
    let low = 0;
    let high = Number.POSITIVE_INFINITY;
    at(0);
    if (propeller.thrust >= thrust) return 0;
    let speed = warmSpeed > 0 ? warmSpeed / gearbox.ratio : 100;
    for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
      at(speed);
      const miss = propeller.thrust - thrust;
      if (Number.isNaN(miss)) return Number.NaN;
      const newton = -miss / propeller.thrustSlope;
      if (Math.abs(newton) <= ROOT_TOLERANCE * speed && miss * miss <= 1e-18 * (1 + thrust * thrust)) return speed * gearbox.ratio;
      if (miss < 0) low = speed;
      else high = speed;
      let next = speed + newton;
      if (!(next > low && next < high)) next = high === Number.POSITIVE_INFINITY ? 2 * speed : 0.5 * (low + high);
      if (high < Number.POSITIVE_INFINITY && high - low <= ROOT_TOLERANCE * high) return speed * gearbox.ratio;
      if (next > 1e5) return Number.NaN;
      speed = next;
    }
    return speed * gearbox.ratio;
  }

  function prepare(y: Float64Array): void {
    const { battery, motor, controller } = system;
    cellFactor = resistanceFactor(battery.activation, y[bodyIndex[5]]);
    point.openCircuit = openCircuitVoltage(battery.openCircuit, y[charge]) + battery.voltageOffset;
    chain.emf = battery.cellsInSeries * (point.openCircuit - y[polarisation]);
    chain.sourceResistance =
      (system.drives * battery.cellsInSeries * battery.cellResistance * cellFactor) / battery.cellsInParallel + system.wiring.resistance;
    point.windingResistance = windingResistance(motor, y[bodyIndex[0]]);
    point.pathResistance = pathResistanceAt(controller, y[bodyIndex[4]]);
    chain.windingResistance = point.windingResistance;
    chain.pathResistance = point.pathResistance;
    flux = fluxRatio(motor, y[bodyIndex[3]]);
    point.torqueConstant = motor.torqueConstant * flux;
    const { load } = system;
    advance = load.kind === 'propeller' ? y[speedIndex] * (1 - load.wakeFraction) : y[speedIndex];
  }

  /** Takes over what the chain found. */
  function adopt(duty: number): void {
    point.duty = duty;
    point.busVoltage = chainPoint.busVoltage;
    point.busCurrent = chainPoint.busCurrent;
    point.current = chainPoint.current;
  }

  function solveThrottle(duty: number): void {
    const { load } = system;
    const folded = load.kind === 'propeller' && load.folding && duty === 0;
    if (load.kind === 'wheel') {
      const speed = (advance / load.radius) * system.gearbox.ratio;
      point.speed = speed;
      if (duty > 0) solveAtDuty(chain, duty, point.torqueConstant, speed, chainPoint);
      else solveOff(chain, chainPoint);
      point.currentUnlimited = chainPoint.current;
      limitCurrent(duty, speed);
      wheelForce(speed);
      point.stalled = false;
      return;
    }
    const speed = balance(duty, Number.NaN, folded);
    point.speed = speed;
    if (speed > 0) warmSpeed = speed;
    loadAt(speed, folded);
    if (duty === 0) {
      solveOff(chain, chainPoint);
      adopt(0);
      point.currentUnlimited = 0;
    } else {
      solveAtDuty(chain, duty, point.torqueConstant, speed, chainPoint);
      point.currentUnlimited = chainPoint.current;
      limitCurrent(duty, speed);
    }
  }

  /** Holds the current at the controller's limits where the throttle asks for more. */
  function limitCurrent(duty: number, speed: number): void {
    const { controller } = system;
    let most = controller.motorCurrentLimit;
    if (controller.batteryCurrentLimit !== Number.POSITIVE_INFINITY) {
      most = Math.min(most, currentAtBatteryLimit(chain, controller.batteryCurrentLimit, point.torqueConstant * speed));
    }
    point.limit = most;
    if (chainPoint.current > most) {
      const held = solveForCurrent(chain, most, point.torqueConstant * speed, chainPoint);
      adopt(held);
    } else if (chainPoint.current < -most) {
      const held = solveForCurrent(chain, -most, point.torqueConstant * speed, chainPoint);
      adopt(held);
    } else adopt(duty);
  }

  /** Force at the wheels that the present current gives. */
  function wheelForce(speed: number): void {
    const { load, gearbox, motor } = system;
    if (load.kind !== 'wheel') return;
    const torque = point.torqueConstant * point.current - (speed > 0 ? lossTorque(motor, speed, flux) : 0);
    point.loadTorque = torque;
    point.driverTorque = torque >= 0 ? torque * gearbox.ratio * gearEfficiency : (torque * gearbox.ratio) / gearEfficiency;
    point.driverSpeed = speed / gearbox.ratio;
    point.force = point.driverTorque / load.radius;
    point.thrust = point.force;
    point.outsideTable = 0;
  }

  /** Motor current and duty for a known load torque at a known speed; negative current only where the controller brakes. */
  function solveShaft(speed: number): void {
    point.speed = speed;
    if (speed > 0) warmSpeed = speed;
    const current = (point.loadTorque + lossTorque(system.motor, speed, flux)) / point.torqueConstant;
    point.currentUnlimited = current;
    point.limit = system.controller.motorCurrentLimit;
    const backEmf = point.torqueConstant * speed;
    if (current < 0 && (!chain.regenerative || speed === 0)) {
      solveOff(chain, chainPoint);
      adopt(0);
      point.dutyAsked = 0;
      point.braked = true;
      return;
    }
    if (current < -point.limit) {
      point.braked = true;
      point.dutyAsked = solveForCurrent(chain, -point.limit, backEmf, chainPoint);
    } else point.dutyAsked = solveForCurrent(chain, current, backEmf, chainPoint);
    adopt(point.dutyAsked);
  }

  /** Off: the shaft turns as the load drags it, nothing is given. */
  function letGo(): void {
    point.dutyAsked = 0;
    solveThrottle(0);
  }

  function forceNeeded(speed: number, acceleration: number, climb: number): number {
    const { vehicle } = system;
    point.drag = dragForce(vehicle, speed, climb);
    return (point.drag + vehicle.mass * STANDARD_GRAVITY * climb + effectiveMass * acceleration) / system.drives;
  }

  /** The path's climb as the profile sets it; 0 where it says nothing. */
  function climbAt(t: number, speed: number): number {
    if (step.grade !== undefined) return step.grade.from + (step.grade.to - step.grade.from) * share(t);
    if (step.climb !== undefined && speed > 0) return Math.min(1, (step.climb.from + (step.climb.to - step.climb.from) * share(t)) / speed);
    return 0;
  }

  /** Whether (t, y) is the place solved last: a step's end is asked for by stepper, margins and observer in turn. */
  function alreadySolved(t: number, y: Float64Array): boolean {
    if (t !== solvedTime) return false;
    for (let k = 0; k <= speedIndex; k++) if (y[k] !== solvedState[k]) return false;
    return true;
  }

  function solve(t: number, y: Float64Array): void {
    if (alreadySolved(t, y)) return;
    solvedTime = t;
    for (let k = 0; k <= speedIndex; k++) solvedState[k] = y[k];
    prepare(y);
    point.braked = false;
    point.stalled = false;
    point.unstable = false;
    point.dutyAsked = 0;
    const { vehicle, load, drives } = system;
    const speed = y[speedIndex];
    const value = flatOut ? 1 : step.value.from + (step.value.to - step.value.from) * share(t);
    const imposed = !flatOut || step.hold !== 'vehicleSpeed' ? (step.hold === 'vehicleSpeed' ? step.value : step.vehicleSpeed) : undefined;
    const acceleration = imposed === undefined || step.duration === 0 ? 0 : (imposed.to - imposed.from) / step.duration;
    let climb = climbAt(t, speed);
    if (hold === 'throttle') solveThrottle(Math.min(1, Math.max(0, value)));
    else if (hold === 'vehicleSpeed') {
      const force = forceNeeded(speed, acceleration, climb);
      if (load.kind === 'wheel') {
        const driverTorque = force * load.radius;
        point.driverTorque = driverTorque;
        point.force = point.thrust = force;
        point.loadTorque = torqueBeforeGear(driverTorque, system.gearbox.ratio, gearEfficiency);
        const shaft = (speed / load.radius) * system.gearbox.ratio;
        point.driverSpeed = speed / load.radius;
        solveShaft(shaft);
        if (point.braked) wheelForce(shaft);
      } else {
        const wanted = force / (1 - load.thrustDeduction);
        const shaft = wanted > 0 ? speedForThrust(wanted) : 0;
        if (Number.isNaN(shaft)) {
          solveThrottle(1);
          point.dutyAsked = 2;
        } else if (shaft > 0) {
          loadAt(shaft, false);
          solveShaft(shaft);
          if (point.braked) {
            // thrust asked is less than a freely turning propeller gives: the drive can only let go
            letGo();
          }
        } else {
          letGo();
          point.braked = wanted < 0;
        }
      }
    } else if (hold === 'shaftSpeed') {
      if (value <= 0) {
        // a held rotor at full throttle
        advance = 0;
        loadAt(0, false);
        point.speed = 0;
        point.stalled = true;
        solveAtDuty(chain, 1, point.torqueConstant, 0, chainPoint);
        point.currentUnlimited = chainPoint.current;
        limitCurrent(1, 0);
      } else {
        loadAt(value, false);
        solveShaft(value);
        // the load turns the shaft faster than asked: the drive can only let go
        if (point.braked) letGo();
      }
    } else if (hold === 'motorCurrent') {
      if (load.kind === 'wheel') {
        const shaft = (speed / load.radius) * system.gearbox.ratio;
        point.speed = shaft;
        point.dutyAsked = solveForCurrent(chain, value, point.torqueConstant * shaft, chainPoint);
        adopt(point.dutyAsked);
        wheelForce(shaft);
      } else {
        const shaft = balance(1, value, false);
        point.speed = shaft;
        if (shaft > 0) warmSpeed = shaft;
        loadAt(shaft, false);
        point.dutyAsked = solveForCurrent(chain, value, point.torqueConstant * shaft, chainPoint);
        adopt(point.dutyAsked);
      }
      point.currentUnlimited = value;
      point.limit = system.controller.motorCurrentLimit;
    } else if (hold === 'thrust') {
      const shaft = load.kind === 'propeller' ? (value > 0 ? speedForThrust(value) : 0) : (speed / load.radius) * system.gearbox.ratio;
      if (Number.isNaN(shaft)) {
        solveThrottle(1);
        point.dutyAsked = 2;
      } else if (load.kind === 'wheel') {
        point.driverTorque = value * load.radius;
        point.force = point.thrust = value;
        point.loadTorque = torqueBeforeGear(point.driverTorque, system.gearbox.ratio, gearEfficiency);
        point.driverSpeed = speed / load.radius;
        solveShaft(shaft);
        if (point.braked) wheelForce(shaft);
      } else {
        loadAt(shaft, false);
        solveShaft(shaft);
        if (point.braked) letGo();
      }
    } else solveBatteryPower(value);
    point.packCurrent = drives * (point.busCurrent + chain.otherPower / point.busVoltage);
    point.cellVoltage =
      point.openCircuit -
      y[polarisation] -
      (system.battery.cellResistance * cellFactor * point.packCurrent) / system.battery.cellsInParallel;
    // motion
    if (vehicle.carriedBy === 'bench') {
      point.acceleration = imposed === undefined ? 0 : acceleration;
      point.climb = 0;
      point.drag = 0;
      return;
    }
    const pull = drives * point.force;
    if (imposed !== undefined) {
      point.acceleration = acceleration;
      if (vehicle.carriedBy === 'wing' && step.hold !== 'vehicleSpeed' && step.climb === undefined && speed > 0) {
        // speed and throttle are both given: the climb is the result; drag depends on it only through the lift carried
        for (let k = 0; k < 3; k++) {
          climb = (pull - dragForce(vehicle, speed, climb) - effectiveMass * acceleration) / (vehicle.mass * STANDARD_GRAVITY);
          climb = Math.min(1, Math.max(-1, climb));
        }
      }
    }
    point.climb = climb;
    point.drag = dragForce(vehicle, speed, climb);
    if (imposed === undefined) {
      const free = (pull - point.drag - vehicle.mass * STANDARD_GRAVITY * climb) / effectiveMass;
      point.acceleration = speed <= 0 && free < 0 ? 0 : free;
    }
  }

  /** Held battery power of one drive: the duty below full throttle at which it is drawn, on the high-voltage side. */
  function solveBatteryPower(power: number): void {
    const drawn = (duty: number): number => {
      solveThrottle(duty);
      return point.busVoltage * point.busCurrent * system.drives;
    };
    let low = 1e-4;
    let high = 1;
    if (drawn(low) >= power) {
      point.dutyAsked = low;
      return;
    }
    if (drawn(1) < power && drawn(1 - 1e-9) < power) {
      solveThrottle(1);
      point.dutyAsked = 2;
      return;
    }
    for (let k = 0; k < 80 && high - low > 1e-13; k++) {
      const middle = 0.5 * (low + high);
      if (drawn(middle) < power) low = middle;
      else high = middle;
    }
    solveThrottle(0.5 * (low + high));
    point.dutyAsked = 0.5 * (low + high);
  }

  const airSpeed = (speed: number): number => {
    const { heat: paths, load } = system;
    let air = paths.airSpeed + paths.vehicleSpeedShare * speed;
    if (paths.slipstreamShare > 0 && load.kind === 'propeller' && point.thrust > 0) {
      const disc = 0.25 * Math.PI * load.diameter * load.diameter;
      const induced = -0.5 * advance + Math.sqrt(0.25 * advance * advance + point.thrust / (2 * load.density * disc));
      air += 2 * paths.slipstreamShare * induced;
    }
    return air;
  };

  /** Heat flows between bodies and to the surroundings at the solved point; returns what is given off [W]. */
  function flows(y: Float64Array): number {
    const { heat: paths, surroundings, motor, battery, controller, drives } = system;
    const winding = y[bodyIndex[0]];
    const stator = y[bodyIndex[1]];
    const can = y[bodyIndex[2]];
    const magnets = y[bodyIndex[3]];
    const control = y[bodyIndex[4]];
    const cells = y[bodyIndex[5]];
    const air = surroundings.airTemperature;
    const { speed, current } = point;
    const outrunner = paths.layout === 'outrunner';
    const iron = ironTorque(motor, speed, flux) * speed;
    const friction = motor.frictionTorque * speed;
    const spin = outrunner ? speed * paths.openness : 0;
    const through = paths.throughFlow * speed;
    const still = airSpeed(y[speedIndex]);
    let shed = canHeatFlow(paths, can, air, surroundings.airPressure, still, spin);
    let jacketed = 0;
    if (paths.jacket !== undefined) {
      const conductance = jacketConductance(paths.jacket.conductance, paths.jacket.speed, y[speedIndex], paths.jacket.restShare);
      if (paths.jacketCovers === 'can') jacketed = conductance * (can - surroundings.waterTemperature);
      else jacketed = conductance * ((outrunner ? stator : can) - surroundings.waterTemperature);
    }
    const jacketOnCan = paths.jacketCovers === 'can' || !outrunner;
    shed += (jacketOnCan ? jacketed : 0) + paths.canToMount * (can - air);
    const statorShed = paths.statorToMount * (stator - air) + 0.5 * through * (stator - air) + (jacketOnCan ? 0 : jacketed);
    const windingShed = 0.5 * through * (winding - air);
    const a = joined(paths.windingToStator, winding - stator);
    const b = joined(paths.statorToCan, stator - can);
    const c = joined(paths.statorToMagnets, stator - magnets);
    const d = joined(paths.magnetsToCan, magnets - can);
    heat[0] = current * current * point.windingResistance - a - windingShed;
    heat[1] = iron * (1 - motor.magnetLossShare) + (outrunner ? friction : 0) + a - b - c - statorShed;
    heat[2] = (outrunner ? 0 : friction) + b + d - shed;
    heat[3] = iron * motor.magnetLossShare + c - d;
    const fade = point.duty > 0 ? switchingFade(point.duty) : 0;
    const controllerLoss =
      current * current * conductionResistance() +
      Math.abs(current) * ks * fade * point.busVoltage +
      controller.voltageLoss * fade * point.busVoltage * point.busVoltage +
      (1 - point.duty) * controller.diodeDrop * Math.abs(current) +
      chain.idleCurrent * point.busVoltage;
    const controllerShed = paths.controllerToAir * (control - surroundings.compartmentTemperature);
    heat[4] = controllerLoss - controllerShed;
    const cellCurrent = point.packCurrent / battery.cellsInParallel;
    const count = battery.cellsInSeries * battery.cellsInParallel;
    const cellHeat =
      count *
      (battery.cellResistance * cellFactor * cellCurrent * cellCurrent +
        (y[polarisation] * y[polarisation]) / (battery.polarisationResistance * cellFactor));
    const cellShed = paths.cellsToAir * (cells - surroundings.compartmentTemperature);
    heat[5] = cellHeat - cellShed;
    return shed + statorShed + windingShed + controllerShed + cellShed / drives;
  }

  const conductionResistance = (): number => (chain.diodeDrop > 0 ? point.pathResistance * 0.5 * (1 + point.duty) : point.pathResistance);

  const joined = (conductance: number, difference: number): number =>
    conductance === Number.POSITIVE_INFINITY ? 0 : conductance * difference;

  function derivative(t: number, y: Float64Array, dy: Float64Array): void {
    solve(t, y);
    flows(y);
    const { battery } = system;
    for (let k = 0; k < bodies; k++) dy[k] = 0;
    for (let k = 0; k < BODIES.length; k++) dy[bodyIndex[k]] += heat[k];
    for (let k = 0; k < bodies; k++) dy[k] = fixedCapacity(capacities[k]) ? 0 : dy[k] / capacities[k];
    dy[charge] = -point.packCurrent / battery.capacity;
    dy[polarisation] =
      (battery.polarisationResistance * cellFactor * (point.packCurrent / battery.cellsInParallel) - y[polarisation]) /
      battery.polarisationTime;
    dy[speedIndex] = point.acceleration;
  }

  function margins(t: number, y: Float64Array, out: Float64Array): void {
    solve(t, y);
    const { limits, vehicle } = system;
    out[0] = limits.windingTemperature - y[bodyIndex[0]];
    out[1] = limits.magnetTemperature - y[bodyIndex[3]];
    out[2] = limits.controllerTemperature - y[bodyIndex[4]];
    out[3] = limits.cellTemperature - y[bodyIndex[5]];
    out[4] = point.cellVoltage - limits.cellVoltage;
    out[5] = y[charge];
    out[6] = y[charge] - limits.reserve;
    const holds = !flatOut && hold !== 'throttle';
    out[7] = holds ? Math.min(1 - point.dutyAsked, 1 - point.currentUnlimited / system.controller.motorCurrentLimit) : 1;
    // regained once the vehicle is as fast as the profile wants it
    out[8] = flatOut && step.hold === 'vehicleSpeed' ? heldSpeed(t) - y[speedIndex] : 1;
    const limited = hold === 'throttle' && point.limit < Number.POSITIVE_INFINITY && point.duty > 0;
    out[9] = limited ? point.limit - point.currentUnlimited : 1;
    out[10] = limited ? point.currentUnlimited - point.limit : 1;
    out[11] = limits.motorCurrent - point.current;
    out[12] = limits.inputPower - motorInput();
    out[13] = limits.shaftSpeed - point.speed;
    out[14] = limits.batteryCurrent - point.packCurrent;
    out[15] = limits.batteryPower - point.packCurrent * point.busVoltage;
    out[16] = point.duty > 0 && point.outsideTable !== 0 ? -1 : 1;
    const table = vehicle.dragTable;
    out[17] = table === undefined ? 1 : table.speed[table.speed.length - 1] - y[speedIndex] + 1e-9;
    // infinite limits stay out of the root search
    for (let k = 0; k < out.length; k++) if (out[k] === Number.POSITIVE_INFINITY) out[k] = 1;
  }

  const motorInput = (): number => (point.windingResistance * point.current + point.torqueConstant * point.speed) * point.current;

  function powers(y: Float64Array, out: Float64Array): void {
    const { battery, controller, motor, drives, load, gearbox, wiring, vehicle } = system;
    const { current, busVoltage, speed, duty } = point;
    const pack = point.packCurrent;
    const perCell = pack / battery.cellsInParallel;
    const count = battery.cellsInSeries * battery.cellsInParallel;
    const fade = duty > 0 ? switchingFade(duty) : 0;
    const slow = battery.polarisationResistance * cellFactor;
    out[0] = (battery.cellsInSeries * point.openCircuit * pack) / drives;
    out[1] = (count * (battery.cellResistance * cellFactor * perCell * perCell + (y[polarisation] * y[polarisation]) / slow)) / drives;
    // ½·(τ/R)·v² rises at v·(i − v/R); the pair's capacity is taken at the present temperature
    out[2] = (count * y[polarisation] * (perCell - y[polarisation] / slow)) / drives;
    const driveCurrent = pack / drives;
    out[3] = wiring.resistance * driveCurrent * driveCurrent;
    out[4] = chain.otherPower;
    out[5] = chain.idleCurrent * busVoltage;
    out[6] = current * current * conductionResistance() + (1 - duty) * controller.diodeDrop * Math.abs(current);
    out[7] = Math.abs(current) * ks * fade * busVoltage + controller.voltageLoss * fade * busVoltage * busVoltage;
    out[8] = current * current * point.windingResistance;
    out[9] = ironTorque(motor, speed, flux) * speed;
    out[10] = (motor.frictionTorque + windageTorqueAt(motor, speed)) * speed;
    // gear and shaft: what the motor's shaft gives less what arrives
    out[11] =
      point.driverTorque >= 0
        ? point.loadTorque * speed * (1 - gearEfficiency)
        : -point.driverTorque * point.driverSpeed * (1 - gearEfficiency);
    if (load.kind === 'propeller') {
      const advanced = point.thrust * advance;
      out[12] =
        point.driverTorque * (speed / gearbox.ratio) - advanced + (advanced - point.thrust * (1 - load.thrustDeduction) * y[speedIndex]);
    } else out[12] = 0;
    out[13] = vehicle.carriedBy === 'bench' && load.kind === 'wheel' ? 0 : point.force * y[speedIndex];
  }

  return {
    get dimension() {
      return bodies + 3;
    },
    point,
    bodyIndex,
    load,
    begin,
    heldSpeed,
    initial,
    derivative,
    margins,
    solve,
    powers,
    shed: flows,
  };
}
