/**
 * A whole drive written a second time, plainly and apart from the product: the realised system as bare numbers, classical Runge–Kutta of order 4 with
 * an even step, every balance by bracketing. No code is shared; propellers are read from their rows (or from a polynomial, where one is given).
 *
 * A speed that is lost on a ramp is driven at full throttle to the ramp's end. *Leaves out* the shaft's speed as a state, and holds that are lost otherwise
 * or found again: where one is, it throws.
 */
import { atDuty, type Circuit, circuitOf, controllerHeat, type Electric, forCurrent, mostCurrent, off, root } from './plain-circuit.js';
import { type Numbers, netHeat, ratesOf } from './plain-heat.js';

const GRAVITY = 9.80665;
/** Six temperatures [K], charge [1], voltage of a cell's RC pair [V], speed [m/s]. */
export type State = readonly number[];

interface Point extends Electric {
  readonly shaft: number;
  readonly thrust: number;
  readonly force: number;
}

const ramp = ({ from, to }: Numbers, share: number): number => from + (to - from) * share;

function hermite(x: ArrayLike<number>, y: ArrayLike<number>, m: ArrayLike<number>, offset: number, at: number): number {
  let k = 0;
  while (k < x.length - 2 && at >= (x[k + 1] ?? 0)) k++;
  const h = (x[k + 1] ?? 0) - (x[k] ?? 0);
  const u = (at - (x[k] ?? 0)) / h;
  const [y0, y1, m0, m1] = [y[offset + k] ?? 0, y[offset + k + 1] ?? 0, m[offset + k] ?? 0, m[offset + k + 1] ?? 0];
  return y0 * (1 + 2 * u) * (1 - u) ** 2 + h * m0 * u * (1 - u) ** 2 + y1 * u * u * (3 - 2 * u) + h * m1 * u * u * (u - 1);
}

/** Thrust [N] and torque [N·m] of a propeller at a shaft speed [rad/s] and a speed of advance [m/s]. */
function propeller(load: Numbers, w: number, advance: number, polynomial: Numbers | undefined): [number, number] {
  const { table, diameter: d, density } = load;
  const rows = table.advanceRatio.length;
  const last = table.advanceRatio[rows - 1];
  const n = w / 2 / Math.PI;
  const j = n > 0 ? advance / (n * d) : advance > 0 ? Infinity : 0;
  const at = Math.min(last, Math.max(table.advanceRatio[0], j));
  const logs = table.logReynolds;
  const re = Math.log((n * d * d) / load.kinematicViscosity);
  let low = 0;
  while (low < logs.length - 2 && re > logs[low + 1]) low++;
  const share = logs.length < 2 ? 0 : Math.min(1, Math.max(0, (re - logs[low]) / (logs[low + 1] - logs[low])));
  const of = (rowsOf: string): number => {
    const powers: readonly number[] | undefined = polynomial?.[rowsOf];
    if (powers !== undefined) return powers.reduce((sum, c, k) => sum + c * at ** k, 0);
    const sheet = (k: number): number => hermite(table.advanceRatio, table[rowsOf], table[`${rowsOf}Slope`], k * rows, at);
    return sheet(low) + (share > 0 ? share * (sheet(low + 1) - sheet(low)) : 0);
  };
  // past the last row both go with the square of the speed of advance alone
  const square = j > last ? (advance / d / last) ** 2 : n * n;
  return [
    load.thrustFactor * of('thrust') * density * square * d ** 4,
    (load.powerFactor * of('power') * density * square * d ** 5) / 2 / Math.PI,
  ];
}

/** Drag [N] at a speed [m/s] on a climb of that sine. */
function dragOf({ vehicle }: Numbers, v: number, sine: number): number {
  const q = 0.5 * vehicle.density * v * v;
  const table = vehicle.dragTable;
  let drag = vehicle.dragArea * q;
  if (table !== undefined) {
    const end = table.speed[table.speed.length - 1];
    drag += v >= end ? table.force[table.force.length - 1] * (v / end) ** 2 : hermite(table.speed, table.force, table.slope, 0, v);
  }
  const carried = vehicle.mass * GRAVITY * (1 - sine * sine) ** 0.5;
  if (v > 0) drag += vehicle.rollingResistance * carried;
  if (v > 0 && vehicle.inducedFactor > 0) drag += (vehicle.inducedFactor * Math.min(carried, vehicle.liftArea * q) ** 2) / q;
  return vehicle.dragFactor * drag;
}

/** What moves with the vehicle [kg]. */
function inertia({ vehicle, load, motor, gearbox, drives }: Numbers): number {
  const turning = load.kind === 'wheel' ? (drives * (load.inertia + motor.rotorInertia * gearbox.ratio ** 2)) / load.radius ** 2 : 0;
  return vehicle.mass * (1 + vehicle.addedMass) + turning;
}

class HoldLost extends Error {}

/** What a step does at a moment: what it holds, the speed and acceleration it imposes (NaN: none), the sine of its climb. */
interface Moment {
  readonly hold: string;
  readonly value: number;
  readonly speed: number;
  readonly acceleration: number;
  readonly sine: number;
}
function momentOf(step: Numbers, share: number): Moment {
  const imposed = step.hold === 'vehicleSpeed' ? step.value : step.vehicleSpeed;
  const speed = imposed === undefined ? Number.NaN : ramp(imposed, share);
  const climb = step.climb === undefined ? 0 : Math.min(1, ramp(step.climb, share) / speed);
  return {
    hold: step.hold,
    value: ramp(step.value, share),
    speed,
    acceleration: imposed === undefined ? Number.NaN : (imposed.to - imposed.from) / step.duration,
    sine: step.grade === undefined ? climb : ramp(step.grade, share),
  };
}

function pointOf(system: Numbers, c: Circuit, v: number, now: Moment, polynomial: Numbers | undefined): Point {
  const { motor, load, gearbox, vehicle, drives } = system;
  const loss = (w: number): number =>
    (motor.hysteresisTorque + motor.eddyTorque * w) * c.flux ** 2 + motor.frictionTorque + motor.windageTorque * w * w;
  const efficiency = gearbox.efficiency * (load.kind === 'propeller' ? load.shaftEfficiency : 1);
  /** Torque at the motor for one behind the gear, which costs its share whichever way power goes. */
  const before = (torque: number): number => torque / gearbox.ratio / (torque > 0 ? efficiency : 1 / efficiency);
  const needed = (dragOf(system, v, now.sine) + vehicle.mass * GRAVITY * now.sine + inertia(system) * now.acceleration) / drives;
  /** The motor turned at `shaft` against `torque` at its own shaft. */
  const driven = (shaft: number, torque: number): Electric | undefined => {
    const current = (torque + loss(shaft)) / c.kt;
    if (current >= 0) {
      const found = forCurrent(system, c, current, c.kt * shaft);
      if (!(found.duty <= 1) || current > mostCurrent(system, c, c.kt * shaft)) throw new HoldLost();
      return found;
    }
    if (system.controller.braking !== 'regenerative') return undefined;
    const found = forCurrent(system, c, Math.max(current, -c.motorLimit), c.kt * shaft);
    return found.duty >= 1e-6 && found.duty <= 1 ? found : atDuty(system, c, found.duty > 1 ? 1 : 1e-6, c.kt * shaft);
  };

  if (load.kind === 'wheel') {
    const shaft = (v / load.radius) * gearbox.ratio;
    if (now.hold === 'vehicleSpeed' || now.hold === 'thrust') {
      const force = now.hold === 'thrust' ? now.value : needed;
      return { ...(driven(shaft, before(force * load.radius)) ?? off(system, c)), shaft, force, thrust: force };
    }
    let electric = now.value === 0 ? off(system, c) : atDuty(system, c, now.value, c.kt * shaft);
    const limit = mostCurrent(system, c, c.kt * shaft);
    if (electric.current > limit) electric = forCurrent(system, c, limit, c.kt * shaft);
    if (electric.current < -c.motorLimit) electric = forCurrent(system, c, -c.motorLimit, c.kt * shaft);
    const given = c.kt * electric.current;
    const torque = shaft > 0 ? given - loss(shaft) : Math.max(0, given - loss(0));
    const force = (torque * gearbox.ratio * (torque > 0 ? efficiency : 1 / efficiency)) / load.radius;
    // a drive eased to what the ground takes: its grip, and what turns along with the vehicle besides
    const grip = load.grip * load.drivenShare * vehicle.mass * GRAVITY * (1 - now.sine ** 2) ** 0.5;
    const own = vehicle.mass * (1 + vehicle.addedMass);
    const against = dragOf(system, v, now.sine) + vehicle.mass * GRAVITY * now.sine;
    const most = (sign: number): number => (sign * grip + (inertia(system) - own) * ((sign * grip - against) / own)) / drives;
    const taken = Math.min(most(1), Math.max(most(-1), force));
    if (taken === force) return { ...electric, shaft, force, thrust: force };
    return { ...(driven(shaft, before(taken * load.radius)) ?? off(system, c)), shaft, force: taken, thrust: taken };
  }

  const advance = v * (1 - load.wakeFraction);
  const blades = (shaft: number): [number, number] => propeller(load, shaft / gearbox.ratio, advance, polynomial);
  const turned = (shaft: number, electric: Electric, folded = false): Point => {
    const thrust = folded ? 0 : blades(shaft)[0];
    return { ...electric, shaft, thrust, force: thrust * (1 - load.thrustDeduction) };
  };
  const coasting = (): Point => {
    if (load.folding) return turned(0, off(system, c), true);
    const slows = (shaft: number): number => loss(shaft) + before(blades(shaft)[1]);
    // from above, as a propeller that turned goes on turning
    const top = (4 * c.emf) / c.kt;
    for (let k = 400; k > 0; k--) {
      const [low, high] = [((k - 1) / 400) * top, (k / 400) * top];
      if (slows(low) < 0) return turned(root(slows, low, high), off(system, c));
    }
    return turned(0, off(system, c));
  };
  const throttled = (duty: number): Point => {
    if (duty === 0) return coasting();
    const electric = (shaft: number): Electric => {
      const open = atDuty(system, c, duty, c.kt * shaft);
      const most = mostCurrent(system, c, c.kt * shaft);
      return open.current > most ? forCurrent(system, c, most, c.kt * shaft) : open;
    };
    const slows = (shaft: number): number => loss(shaft) + before(blades(shaft)[1]) - c.kt * electric(shaft).current;
    const shaft = root(slows, 0, (2 * c.emf) / c.kt);
    return turned(shaft, electric(shaft));
  };
  switch (now.hold) {
    case 'throttle':
      return throttled(now.value);
    case 'motorCurrent': {
      const shaft = root((w) => loss(w) + before(blades(w)[1]) - c.kt * now.value, 0, (2 * c.emf) / c.kt);
      return turned(shaft, forCurrent(system, c, now.value, c.kt * shaft));
    }
    case 'shaftSpeed':
      return turned(now.value, driven(now.value, before(blades(now.value)[1])) ?? off(system, c));
    case 'batteryPower':
    case 'batteryCurrent': {
      const drawn = ({ bus, drawn: own }: Electric): number => {
        const power = drives * bus * own + system.otherLoads;
        return now.hold === 'batteryPower' ? power : power / bus;
      };
      return throttled(root((duty) => drawn(throttled(duty)) - now.value, 1e-4, 1));
    }
    default: {
      const thrust = now.hold === 'thrust' ? now.value : needed / (1 - load.thrustDeduction);
      if (thrust <= blades(0)[0]) return coasting();
      const shaft = root((w) => blades(w)[0] - thrust, 0, 1e4 * gearbox.ratio);
      const electric = driven(shaft, before(blades(shaft)[1]));
      return electric === undefined ? coasting() : turned(shaft, electric);
    }
  }
}

function ratesAt(system: Numbers, y: State, now: Moment, polynomial: Numbers | undefined): number[] {
  const { battery, motor, gearbox, load, heat, vehicle, drives } = system;
  const T = y.slice(0, 6);
  const [charge = 0, slow = 0, speed = 0] = y.slice(6);
  const v = Math.max(0, Number.isNaN(now.speed) ? speed : now.speed);
  const c = circuitOf(system, T, charge, slow);
  const point = pointOf(system, c, v, now, polynomial);
  const { current, shaft } = point;
  const pack = drives * (point.drawn + system.otherLoads / drives / point.bus);
  const cell = pack / battery.cellsInParallel;
  const [stage, ripple] = controllerHeat(system, c, point);
  const iron = (motor.hysteresisTorque + motor.eddyTorque * shaft) * c.flux ** 2 * shaft;
  const friction = motor.frictionTorque * shaft;
  const outrunner = heat.layout === 'outrunner';
  const slowPart = slow === 0 ? 0 : slow ** 2 / (battery.polarisationResistance * c.factor);
  const cells = battery.cellsInSeries * battery.cellsInParallel * (battery.cellResistance * c.factor * cell ** 2 + slowPart);
  const loss = [
    current ** 2 * c.winding,
    iron * (1 - motor.magnetLossShare) + ripple + (outrunner ? friction : 0),
    outrunner ? 0 : friction,
    iron * motor.magnetLossShare,
    stage,
    cells,
  ];
  let wind = heat.airSpeed + heat.vehicleSpeedShare * v;
  if (heat.slipstreamShare > 0 && load.kind === 'propeller' && load.density < 100) {
    const advance = v * (1 - load.wakeFraction);
    const disc = (Math.PI / 4) * load.diameter ** 2;
    const gained = point.thrust > 0 ? (advance ** 2 + (2 * point.thrust) / load.density / disc) ** 0.5 - advance : 0;
    wind = heat.airSpeed + Math.max(heat.vehicleSpeedShare * v, heat.slipstreamShare * advance) + heat.slipstreamShare * gained;
  }
  const net = netHeat(heat, system.surroundings, T, loss, { shaft, vehicle: v, wind });
  const pull = drives * point.force - dragOf(system, v, now.sine) - vehicle.mass * GRAVITY * now.sine;
  const rolling = vehicle.dragFactor * vehicle.rollingResistance * vehicle.mass * GRAVITY * (1 - now.sine ** 2) ** 0.5;
  // what the motor's torque leaves of its own friction holds the wheels
  const left = Math.max(0, motor.hysteresisTorque * c.flux ** 2 + motor.frictionTorque - Math.abs(c.kt * current));
  const held = v > 0 ? 0 : rolling + (load.kind === 'wheel' ? (drives * left * gearbox.ratio) / gearbox.efficiency / load.radius : 0);
  const free = vehicle.carriedBy === 'bench' ? 0 : Math.max(v > 0 ? -Infinity : 0, pull - held) / inertia(system);
  return [
    ...ratesOf(heat, net),
    -pack / battery.capacity,
    (battery.polarisationResistance * c.factor * cell - slow) / battery.polarisationTime,
    Number.isNaN(now.speed) ? free : 0,
  ];
}

/**
 * Drives the profile in even steps of at most `longest` [s]; the state at the start and at each step's end. `polynomial` gives CT and CP by rising
 * powers of the advance ratio in place of the table's rows.
 */
export function plainDrive(system: Numbers, profile: readonly Numbers[], longest: number, polynomial?: Numbers): readonly State[] {
  const { start } = system;
  const motor = Array<number>(4).fill(start.motorTemperature);
  let y: State = [...motor, start.controllerTemperature, start.cellTemperature, start.charge, 0, 0];
  const ends = [y];
  for (const step of profile) {
    const duration: number = step['duration'];
    let lost = false;
    const flat = (at: Moment): Moment => ({ ...at, hold: 'throttle', value: 1, speed: Number.NaN, acceleration: 0 });
    const go = (from: number, to: number): State => {
      const dt = to - from;
      const [first, middle, end] = [from, (from + to) / 2, to].map((at) => {
        const moment = momentOf(step, at / duration);
        return lost ? flat(moment) : moment;
      }) as [Moment, Moment, Moment];
      const moved = (by: readonly number[], share: number): State => y.map((value, k) => value + share * dt * (by[k] ?? 0));
      const a = ratesAt(system, y, first, polynomial);
      const b = ratesAt(system, moved(a, 0.5), middle, polynomial);
      const c = ratesAt(system, moved(b, 0.5), middle, polynomial);
      const d = ratesAt(system, moved(c, 1), end, polynomial);
      const mean = a.map((rate, k) => (rate + 2 * (b[k] ?? 0) + 2 * (c[k] ?? 0) + (d[k] ?? 0)) / 6);
      const next = [...moved(mean, 1)];
      if (!Number.isNaN(end.speed)) next[8] = end.speed;
      return next;
    };
    /** One even step; where a ramp is lost in it, halves lead to where. */
    const advance = (from: number, to: number): void => {
      try {
        y = go(from, to);
      } catch (error) {
        if (!(error instanceof HoldLost) || lost || step['value'].from === step['value'].to) throw error;
        if (to - from < 1e-4) {
          lost = true;
          y = go(from, to);
          return;
        }
        advance(from, (from + to) / 2);
        advance((from + to) / 2, to);
      }
    };
    const count = Math.max(4, Math.ceil(duration / longest));
    for (let n = 0; n < count; n++) advance((n / count) * duration, ((n + 1) / count) * duration);
    ends.push(y);
  }
  return ends;
}
