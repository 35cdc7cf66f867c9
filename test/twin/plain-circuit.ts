/**
 * Pack, controller and winding of one drive, written a second time, plainly: the balances of voltage and of power by bisection, no closed form and
 * no code shared with the product. *Source* the laws' own: Chen & Rincón-Mora's cell, Hanselman's motor, Erickson & Maksimović's converter.
 */
import type { Numbers } from './plain-heat.js';

/** Where `f`, which rises from below nothing, passes it; NaN counts as above. The bracket's ends where it does not pass. */
export function root(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  let [fa, fb] = [f(a), f(b)];
  if (fa >= 0) return a;
  if (fb < 0) return b;
  for (let k = 0; k < 200 && b - a > 1e-13 * (Math.abs(a) + Math.abs(b)) + 1e-15; k++) {
    // false position where it is sure to shrink the bracket, halves in between
    const guess = Number.isNaN(fb) || k % 3 === 2 ? (a + b) / 2 : (a * fb - b * fa) / (fb - fa);
    const x = guess > a && guess < b ? guess : (a + b) / 2;
    const fx = f(x);
    if (fx < 0) {
      [a, fa] = [x, fx];
      if (fb > 0) fb /= 2;
    } else {
      [b, fb] = [x, fx];
      fa /= 2;
    }
    if (fx === 0) return x;
  }
  return (a + b) / 2;
}

/** What the six temperatures, charge and lag of the cells make of the parts. */
export interface Circuit {
  readonly emf: number;
  readonly source: number;
  /** Factor on the cells' resistances [1]. */
  readonly factor: number;
  readonly winding: number;
  readonly path: number;
  readonly kt: number;
  readonly flux: number;
  readonly motorLimit: number;
}

/** Open-circuit voltage of a cell [V]: the polymer curve in closed form, straight beyond both ends; else the curve the drive was given. */
function openCircuit({ openCircuit: curve, voltageOffset }: Numbers, s: number): number {
  if (curve.name === 'lithium-polymer') {
    const v = (q: number): number => -1.031 * Math.exp(-35 * q) + 3.685 + 0.2156 * q - 0.1178 * q * q + 0.3201 * q ** 3;
    const slope = (q: number): number => 36.085 * Math.exp(-35 * q) + 0.2156 - 0.2356 * q + 0.9603 * q * q;
    const end = Math.min(1, Math.max(0, s));
    return v(end) + slope(end) * (s - end) + voltageOffset;
  }
  const n = curve.voltage.length - 1;
  const end = Math.min(1, Math.max(0, s));
  const k = Math.min(n - 1, Math.floor(end * n));
  const u = end * n - k;
  const [v0, v1, m0, m1] = [curve.voltage[k], curve.voltage[k + 1], curve.slope[k] / n, curve.slope[k + 1] / n];
  const held = v0 * (1 + 2 * u) * (1 - u) ** 2 + m0 * u * (1 - u) ** 2 + v1 * u * u * (3 - 2 * u) + m1 * u * u * (u - 1);
  return held + (s - end) * (s < 0 ? curve.slope[0] : curve.slope[n]) + voltageOffset;
}

export function circuitOf(system: Numbers, T: readonly number[], charge: number, slow: number): Circuit {
  const { battery, motor, controller, wiring, drives } = system;
  const [winding = 0, , , magnets = 0, stage = 0, cells = 0] = T;
  const quick = Math.exp(battery.activation * (1 / cells - 1 / 298.15));
  const empty = Math.exp(-charge / battery.emptyRiseWidth) - Math.exp(-0.5 / battery.emptyRiseWidth);
  const factor = (1 - battery.activatedShare + battery.activatedShare * quick) * (1 + battery.emptyRise * empty);
  const through = slow === 0 ? 0 : slow / (battery.polarisationResistance * factor);
  const surface = charge - (battery.surfaceLag * quick * through) / (battery.capacity / battery.cellsInParallel);
  const flux = 1 + motor.fluxCoefficient * (magnets - 293.15);
  const { deratingFrom: from, deratingTo: to } = controller;
  const left = stage <= from ? 1 : stage >= to ? 0 : (to - stage) / (to - from);
  return {
    emf: battery.cellsInSeries * (openCircuit(battery, surface) - slow),
    source: (drives * battery.cellsInSeries * battery.cellResistance * factor) / battery.cellsInParallel + wiring.resistance,
    factor,
    winding: motor.resistance * (1 + motor.resistanceCoefficient * (winding - 293.15)),
    path: controller.pathResistance * (1 + controller.resistanceCoefficient * (stage - 298.15)),
    kt: motor.torqueConstant * flux,
    flux,
    motorLimit: controller.motorCurrentLimit * left,
  };
}

/** One electrical point: bus voltage [V], its current without the other loads [A], motor current [A], duty [1], what heats the controller [W]. */
export interface Electric {
  readonly bus: number;
  readonly drawn: number;
  readonly current: number;
  readonly duty: number;
}

/** Bus and bridge voltage [V] at a motor current and a duty, against a back-EMF; NaN where the pack cannot give it. */
function voltages(system: Numbers, c: Circuit, current: number, emf: number, duty: number) {
  const { controller, motor } = system;
  const sign = current < 0 ? -1 : 1;
  const rectified = controller.diodeDrop > 0 ? (c.path * (1 + duty)) / 2 : c.path;
  const drop = (1 - duty) * controller.diodeDrop + controller.deadTimeDrop * controller.deadTime * controller.pwmFrequency;
  const working = (c.winding + rectified) * current + emf + sign * drop;
  const leak = motor.inductance > 0 && duty < 1 ? (controller.rippleConstant / motor.inductance) * (duty * (1 - duty)) ** 2 : 0;
  const drawn = (controller.switchingTime / 2) * controller.pwmFrequency * Math.abs(current) + controller.idleCurrent;
  const other = system.otherLoads / system.drives;
  // E − v = R_b·(drawn + leak·v + (working·i + other)/v), the higher of its two voltages
  const one = c.emf - c.source * drawn;
  const bus = (one + (one * one - 4 * (1 + c.source * leak) * c.source * (working * current + other)) ** 0.5) / 2 / (1 + c.source * leak);
  const reactive = motor.polePairs * (emf / c.kt) * motor.inductance * current;
  const bridge = controller.drive === 'sinusoidal' ? Math.hypot(working, reactive) : working + (3 / (2 * Math.PI)) * reactive;
  return { bus, bridge, drawn: drawn + leak * bus + (working * current) / bus };
}

/** Duty that drives a current against a back-EMF; above 1 out of reach. */
export function forCurrent(system: Numbers, c: Circuit, current: number, emf: number): Electric {
  const asked = (duty: number): number => {
    const { bridge, bus } = voltages(system, c, current, emf, duty);
    return bridge / bus;
  };
  const duty = asked(1) >= 1 ? asked(1) : root((d) => d - asked(d), 0, 1);
  return { ...voltages(system, c, current, emf, duty), current, duty };
}

/** Current at a duty against a back-EMF; none against the motor unless the controller brakes. */
export function atDuty(system: Numbers, c: Circuit, duty: number, emf: number): Electric {
  const lacking = (current: number): number => {
    const { bridge, bus } = voltages(system, c, current, emf, duty);
    return bridge - duty * bus;
  };
  const most = (c.emf + emf) / c.winding;
  const brakes = system.controller.braking === 'regenerative';
  // at no current the drop of dead times stands for either sign
  const current = lacking(0) < 0 ? root(lacking, 0, most) : brakes && lacking(-1e-12) > 0 ? root(lacking, -most, -1e-12) : 0;
  return { ...voltages(system, c, current, emf, duty), current, duty };
}

/** Throttle off: the pack feeds idle draw and other loads. */
export function off(system: Numbers, c: Circuit): Electric {
  const { bus } = voltages(system, c, 0, 0, 1);
  return { bus, drawn: system.controller.idleCurrent, current: 0, duty: 0 };
}

/** Most motor current that the controller's limits leave against a back-EMF [A]. */
export function mostCurrent(system: Numbers, c: Circuit, emf: number): number {
  const limit = system.controller.batteryCurrentLimit;
  if (limit === Infinity) return c.motorLimit;
  // where ripple may take it a throttle that is opened stops at the least duty that draws the limit
  if (system.motor.inductance > 0 && (system.controller.rippleConstant / system.motor.inductance) * c.emf > 4 * limit) {
    const past = (duty: number): number => atDuty(system, c, duty, emf).drawn - limit;
    const first = Array.from({ length: 400 }, (_, k) => (k + 1) / 400).find((duty) => past(duty) > 0) ?? 1;
    return Math.min(c.motorLimit, atDuty(system, c, root(past, first - 1 / 400, first), emf).current);
  }
  const high = Math.min(c.motorLimit, c.emf / c.winding);
  if (forCurrent(system, c, high, emf).drawn <= limit) return c.motorLimit;
  return root((current) => forCurrent(system, c, current, emf).drawn - limit, 0, high);
}

/** What heats the controller [W], and the ripple's share in the motor's iron [W]. */
export function controllerHeat({ controller, motor }: Numbers, c: Circuit, { current, bus, duty }: Electric): [number, number] {
  const ripple = motor.inductance > 0 && duty < 1 ? (controller.rippleConstant / motor.inductance) * (bus * duty * (1 - duty)) ** 2 : 0;
  const rectified = controller.diodeDrop > 0 ? (c.path * (1 + duty)) / 2 : c.path;
  const i = Math.abs(current);
  const heat =
    i * i * rectified +
    i * (1 - duty) * controller.diodeDrop +
    i * controller.deadTimeDrop * controller.deadTime * controller.pwmFrequency +
    (i * bus * controller.switchingTime * controller.pwmFrequency) / 2 +
    controller.idleCurrent * bus +
    (1 - controller.rippleInMotor) * ripple;
  return [heat, controller.rippleInMotor * ripple];
}
