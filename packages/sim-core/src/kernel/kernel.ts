/**
 * The only room with state: one drive's right-hand side, operating point, event margins and powers, in place and without allocation per
 * evaluation. It calls the plain laws of parts/, heat/ and drive/ with reused records; `test/twin/plain-derivative.ts` says the same in readable
 * lines and a test holds the two together.
 *
 * Which states there are and where each lies: state-places.ts.
 *
 * @module
 */

import type { DriveSystem } from '../drive/drive-system.js';
import { solveAtDuty } from '../drive/duty-law.js';
import type { PowerAccount } from '../drive/power-terms.js';
import { isRotorHeld, type ProfileStep } from '../drive/profile.js';
import { BODIES, type BodyCount } from '../heat/heat-paths.js';
import type { HeatOutlets } from '../heat/heat-ways.js';
import { lossTorque } from '../parts/motor.js';
import { eventMargins } from './event-margins.js';
import { heatFlows } from './heat-flows.js';
import { initialState, kernelMemory, loadSystem, lookAside } from './kernel-memory.js';
import { heldSpeedAt, shareAt } from './motion.js';
import type { OperatingPoint } from './operating-point.js';
import { powerFlows } from './power-flows.js';
import { heldBack, mostCurrent, startFrom } from './shaft-balance.js';
import { solvePoint } from './solve-point.js';
import type { StatePlaces } from './state-places.js';
import { turningInertia } from './turning-shaft.js';

/** The right-hand side of one drive at a time: states, derivatives, powers and margins to events [SI]. */
export interface Kernel {
  /** Number of states of the loaded system. */
  readonly dimension: number;
  readonly point: Readonly<OperatingPoint>;
  /** Where each state of the loaded system lies. */
  readonly at: StatePlaces;
  /** Takes another drive in place of this one. */
  load(system: DriveSystem): void;
  /** Starts a step at time `from`; `flatOut` uses full throttle in place of a hold that is out of reach. */
  begin(step: ProfileStep, from: number, flatOut: boolean): void;
  /** Whether the shaft, where its speed is a state, turns by its inertia from here on; a step begins without. */
  turnFreely(free: boolean): void;
  /** Whether the limiter has let go of the throttle, which then is past what it would meet on the way to where it stands; a step opens it anew. */
  letGo(letGo: boolean): void;
  /** dω/dt at the last solved point while the shaft turns freely [rad/s²]. */
  shaftAcceleration(): number;
  /** Inertia of rotor and load at the motor's shaft [kg·m²]. */
  turningInertia(): number;
  /** Held speed at time t, for a step that holds one; NaN otherwise. */
  heldSpeed(t: number): number;
  /** Share of the step that is over at time t [1]. */
  share(t: number): number;
  initial(y: Float64Array): void;
  derivative(t: number, y: Float64Array, dy: Float64Array): void;
  margins(t: number, y: Float64Array, out: Float64Array): void;
  /** Solves the operating point at (t, y) and leaves it in `point`. */
  solve(t: number, y: Float64Array): void;
  /** Lets `look` solve where it likes: what is solved after it comes out as if it had not. */
  aside(look: () => void): void;
  /** Torque at the motor's shaft [N·m] at another `duty` (0–1] and shaft `speed` [rad/s], temperatures and pack as last solved, current limits kept. */
  shaftTorque(duty: number, speed: number): number;
  /** Motor speed [rad/s] from which a throttle drives no current, up to `fastest`: the corner of its torque line. */
  currentEnds(duty: number, fastest: number): number;
  /** Powers at the last solved point, one drive's share [W]; reused record. */
  powers(y: Float64Array): PowerAccount;
  /** What leaves one drive and the pack each way at the last solved point [W]; reused record. */
  heatOutlets(y: Float64Array): Readonly<HeatOutlets>;
  /** Heat that the bodies of all drives and the pack take in at the last call of `heatOutlets`, of endless capacity or not [W]. */
  heatStored(): number;
}

/** A wheel ties the shaft to the ground: who holds its motor's speed holds the vehicle's, and who holds its rotor fast stops it. */
function onWheels({ load, gearbox }: DriveSystem, step: ProfileStep): ProfileStep {
  if (load.kind !== 'wheel' || step.hold !== 'shaftSpeed') return step;
  if (isRotorHeld(step)) return { ...step, vehicleSpeed: step.value };
  const travel = load.radius / gearbox.ratio;
  const { vehicleSpeed: _, ...rest } = step;
  return { ...rest, hold: 'vehicleSpeed', value: { from: step.value.from * travel, to: step.value.to * travel } };
}

/** A kernel of one drive, before its first step has begun. */
export function createKernel(system: DriveSystem): Kernel {
  const memory = kernelMemory(system);
  const { point, at, bodyIndex, inverseCapacity, heat, chain, chainPoint } = memory;

  const solve = (t: number, y: Float64Array): void => solvePoint(memory, t, y);

  function derivative(t: number, y: Float64Array, dy: Float64Array): void {
    solvePoint(memory, t, y);
    heatFlows(memory, y);
    const { system, cellFactor } = memory;
    const { battery } = system;
    for (let k = 0; k < kernel.dimension; k++) dy[k] = 0;
    const bodies: BodyCount = 6;
    for (let k = 0; k < bodies; k++) dy[bodyIndex[k]] += heat[k] * inverseCapacity[k];
    dy[at.charge] = -point.packCurrent / battery.capacity;
    dy[at.polarisation] =
      (battery.polarisationResistance * cellFactor * (point.packCurrent / battery.cellsInParallel) - y[at.polarisation]) /
      battery.polarisationTime;
    dy[at.speed] = point.acceleration;
    if (memory.turning) dy[at.shaft] = memory.shaftAcceleration;
  }

  // no getters: an object that has one gets a shape of its own, and with a kernel a run all that reads it would slow down
  const kernel: { -readonly [K in keyof Kernel]: Kernel[K] } = {
    dimension: memory.dimension,
    point,
    at,
    shaftAcceleration: () => memory.shaftAcceleration,
    turningInertia: () => turningInertia(memory),
    load(other) {
      loadSystem(memory, other);
      kernel.dimension = memory.dimension;
    },
    begin(step, from, flatOut) {
      memory.solvedTime = Number.NaN;
      memory.step = onWheels(memory.system, step);
      memory.stepFrom = from;
      memory.flatOut = flatOut;
      memory.turning = memory.letGo = false;
      memory.warmDraw = 0;
      memory.hold = flatOut ? 'throttle' : memory.step.hold;
    },
    turnFreely(free) {
      memory.solvedTime = Number.NaN;
      // the balance is then sought from the speed the shaft has
      if (memory.turning && point.speed > 0) startFrom(memory, point.speed);
      memory.turning = free && at.shaft >= 0;
    },
    letGo(letGo) {
      memory.solvedTime = Number.NaN;
      memory.letGo = letGo;
    },
    heldSpeed: (t) => heldSpeedAt(memory, t),
    share: (t) => shareAt(memory, t),
    initial: (y) => initialState(memory, y),
    derivative,
    margins(t, y, out) {
      solvePoint(memory, t, y);
      eventMargins(memory, t, y, out);
    },
    solve,
    aside: (look) => lookAside(memory, look),
    shaftTorque(duty, speed) {
      solveAtDuty(chain, Math.min(duty, memory.mostDuty), point.torqueConstant * speed, chainPoint);
      mostCurrent(memory);
      const current = heldBack(memory) ? memory.most.current : chainPoint.current;
      return point.torqueConstant * current - (speed > 0 ? lossTorque(memory.system.motor, speed, memory.flux) : 0);
    },
    currentEnds(duty, fastest) {
      let [low, high] = [0, fastest];
      for (let k = 0; k < 50; k++) {
        const middle = 0.5 * (low + high);
        solveAtDuty(chain, duty, point.torqueConstant * middle, chainPoint);
        if (chainPoint.current > 0) low = middle;
        else high = middle;
      }
      return high;
    },
    powers(y) {
      powerFlows(memory, y);
      return memory.powers;
    },
    heatOutlets(y) {
      heatFlows(memory, y);
      return memory.outlets;
    },
    heatStored() {
      let sum = 0;
      for (let k = 0; k < BODIES.length; k++) sum += heat[k] * (BODIES[k] === 'cells' ? 1 : memory.system.drives);
      return sum;
    },
  };
  return kernel;
}
