/**
 * The chain at one duty and one sign of the current, as a law of the back-EMF e alone: what stays while a shaft's speed is sought. Letters of
 * electrical-chain.ts; o = e + drop, s = d + k_s·sgn i.
 *
 *   (1) block: i = (d·v − o)·g with g = 1/(R_t + ξ·e); in (2) of the chain a quadratic in v = v_bus
 *   (2) sinusoidal: u = d·v is a quadratic in i; with it Newton's method in v on F, begun from (1) without inductance
 *   (3) F(v, i, e) = v·(E − v) − R_b·[(R_t·i + o)·i + (s − d)·v·i + I·v + k_r·v² + P] = 0 and G = d·v − u(i, e) = 0 give, by their total
 *       differentials, di/de = −(u_e·A + d·R_b·i)/(u_i·A + d·R_b·B),  A = −F_v,  B = −F_i/R_b
 *
 * *Source* electrical-chain.ts; the theorem of implicit functions.
 *
 * @module
 */

import { conductionResistance } from '../parts/controller.js';
import { type ChainPoint, type ElectricalChain, leakAt, openBusVoltage } from './electrical-chain.js';

const MOST_PASSES = 100;
/** Newton's step at which (2) has settled, over the voltage. */
const SMALL_STEP = 1e-14;
/** Steps in which a root is looked for where Newton's method finds none. */
const STEPS_DOWN = 64;

/** The terms of the duty’s law at one moment, written over by each use [SI]. */
export interface DutyLaw {
  /** Read by `setDutyLaw`, and its inverse. */
  duty: number;
  inverseDuty: number;
  sign: number;
  sinusoidal: boolean;
  /** s − d [1], k_r [S] and the opposing voltages beside the back-EMF [V]. */
  switching: number;
  leak: number;
  drop: number;
  /** R_t, R_b [Ω]. */
  resistance: number;
  sourceResistance: number;
  /** ξ where the drive is block, and where it is sinusoidal; the other is 0 [1/A]. */
  blockShare: number;
  rootShare: number;
  /** E − R_b·I [V], 1 + R_b·k_r [1], R_b·P [V²]. */
  start: number;
  lead: number;
  product: number;
  idleCurrent: number;
}

/** A record to be written over. */
export const emptyDutyLaw = (): DutyLaw => ({
  duty: 0,
  inverseDuty: 0,
  sign: 1,
  sinusoidal: false,
  switching: 0,
  leak: 0,
  drop: 0,
  resistance: 1,
  sourceResistance: 1,
  blockShare: 0,
  rootShare: 0,
  start: 0,
  lead: 1,
  product: 0,
  idleCurrent: 0,
});

/** Makes the law of the record's duty, in (0, 1], for currents of `sign` 1 or −1. */
export function setDutyLaw(chain: ElectricalChain, sign: number, law: DutyLaw): void {
  const { duty } = law;
  const { sourceResistance } = chain;
  law.inverseDuty = 1 / duty;
  law.sign = sign;
  law.sinusoidal = chain.sinusoidal;
  law.switching = sign * chain.switchingShare;
  law.leak = leakAt(chain, duty);
  law.drop = sign * ((1 - duty) * chain.diodeDrop + chain.deadTimeDrop);
  law.resistance = chain.windingResistance + conductionResistance(chain, duty);
  law.sourceResistance = sourceResistance;
  law.blockShare = chain.sinusoidal ? 0 : chain.reactiveShare;
  law.rootShare = chain.sinusoidal ? chain.reactiveShare : 0;
  law.start = chain.emf - sourceResistance * chain.idleCurrent;
  law.lead = 1 + sourceResistance * law.leak;
  law.product = sourceResistance * chain.otherPower;
  law.idleCurrent = chain.idleCurrent;
}

/** All but duty and battery side current at the record's back-EMF, whatever the current's sign comes out as; where the pack cannot give it, its most power. Allocates nothing. */
export function followDutyLaw(law: DutyLaw, out: ChainPoint): void {
  // a sinusoidal drive without its inductance: the true current lies nearer to zero; without conductance the pack gives that its most, and no more
  followBlock(law, out);
  if (!law.sinusoidal || (law.sign > 0 && !(out.current > 0))) return;
  if (out.conductance === 0) seekSinusoidal(law, out);
  else followSinusoidal(law, out);
}

/**
 * (1) and (3), the quadratic taken times the square of R_t + ξ·e: its root of the discriminant is then what stands below the fractions of (3), by
 * that sum, and two divisions are all it costs.
 */
function followBlock(law: DutyLaw, out: ChainPoint): void {
  const { backEmf } = out;
  const { duty, resistance, sourceResistance, start, lead, switching, blockShare } = law;
  const opposing = backEmf + law.drop;
  const reactive = blockShare * backEmf;
  const all = resistance + reactive;
  const square = all * all;
  const share = (duty + switching) * all;
  const short = reactive * duty;
  const twice = 2 * (lead * square + sourceResistance * duty * (share - short));
  const b = start * square + sourceResistance * opposing * (share - 2 * short);
  // not positive where the pack cannot give what the other loads ask for
  const inside = b * b - 2 * twice * (law.product * square - sourceResistance * reactive * opposing * opposing);
  const root = inside > 0 ? Math.sqrt(inside) : 0;
  const inverse = 1 / (twice * all);
  const bus = (b + root) * inverse * all;
  const current = (duty * bus - opposing) * inverse * twice;
  const fall = 2 * lead * bus - start + sourceResistance * switching * current;
  const down = root > 0 ? all / root : 0;
  out.starved = false;
  out.busVoltage = bus;
  out.current = current;
  out.conductance = fall * down;
  out.currentSlope = -((1 + blockShare * current) * fall + duty * sourceResistance * current) * down;
}

/** Current and bus voltage of a block drive once the back-EMF has moved by a little `step` [V] from where law and curvature were taken. */
export function stepDutyLaw(law: DutyLaw, out: ChainPoint, step: number): void {
  out.backEmf += step;
  out.current += step * (out.currentSlope + 0.5 * step * out.currentCurvature);
  out.busVoltage = ((law.resistance + law.blockShare * out.backEmf) * out.current + out.backEmf + law.drop) * law.inverseDuty;
}

/** Battery side current [A] at the record's point, by the balance of power. */
export function drawBusCurrent(law: DutyLaw, out: ChainPoint): void {
  const { current, busVoltage } = out;
  const working = law.resistance * current + out.backEmf + law.drop;
  out.busCurrent = (working * current) / busVoltage + law.switching * current + law.idleCurrent + law.leak * busVoltage;
}

/** A bus voltage tried for (2): F, its slope in v, and what flows there; written over by each use [SI]. */
const trial = { opposing: 0, perAmpere: 0, squares: 1, shorted: 0, busVoltage: 0, off: 0, rise: 0, current: 0, working: 0 };

function startTrials({ resistance, rootShare, drop }: DutyLaw, { backEmf }: ChainPoint): void {
  trial.opposing = backEmf + drop;
  trial.perAmpere = rootShare * backEmf;
  trial.squares = resistance * resistance + trial.perAmpere * trial.perAmpere;
  trial.shorted = (-resistance * trial.opposing) / trial.squares;
}

/**
 * F at the trial's voltage. Braking at a duty for which no current in phase with the back-EMF leaves so little voltage: the one that leaves least,
 * which is that of the shorted winding.
 */
function tryVoltage({ duty, resistance, sourceResistance, start, lead, switching, product }: DutyLaw): void {
  const { opposing, perAmpere, squares, busVoltage: bus } = trial;
  const given = duty * duty * bus * bus - (perAmpere * perAmpere * opposing * opposing) / squares;
  const above = given > 0 ? Math.sqrt(given / squares) : 0;
  const current = trial.shorted + above;
  const slope = above > 0 ? (duty * duty * bus) / (squares * above) : 0;
  const working = resistance * current + opposing;
  trial.current = current;
  trial.working = working;
  trial.off = lead * bus * bus - start * bus + sourceResistance * ((working + switching * bus) * current) + product;
  trial.rise =
    2 * lead * bus - start + sourceResistance * ((working + resistance * current + switching * bus) * slope + switching * current);
}

/** (3) at the trial, where it is a root. The shorted winding’s current follows the back-EMF alone. */
function tellTrial({ duty, resistance, sourceResistance, start, lead, switching, rootShare }: DutyLaw, out: ChainPoint): void {
  const { opposing, perAmpere, squares, shorted, busVoltage: bus, current, working } = trial;
  if (current === shorted) {
    out.busVoltage = bus;
    out.current = current;
    out.conductance = 0;
    out.currentSlope = (resistance * ((2 * opposing * perAmpere * rootShare) / squares - 1)) / squares;
    return;
  }
  const reactive = perAmpere * current;
  const bridge = Math.sqrt(working * working + reactive * reactive);
  const fall = 2 * lead * bus - start + sourceResistance * switching * current;
  const along = (working * resistance + reactive * perAmpere) / bridge;
  const down = 1 / (along * fall + duty * sourceResistance * (working + resistance * current + switching * bus));
  out.busVoltage = bus;
  out.current = current;
  out.conductance = fall * down;
  out.currentSlope = -(((working + reactive * rootShare * current) / bridge) * fall + duty * sourceResistance * current) * down;
}

/** (2) and (3), from the record's bus voltage on. */
function followSinusoidal(law: DutyLaw, out: ChainPoint): void {
  startTrials(law, out);
  trial.busVoltage = out.busVoltage;
  // where the current in phase with the back-EMF sets in the law has a kink, over which Newton's method alone jumps to and fro
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    tryVoltage(law);
    const bus = trial.busVoltage;
    if (trial.off > 0) high = bus;
    else low = bus;
    const newton = trial.off / trial.rise;
    if (!(Math.abs(newton) > SMALL_STEP * bus && high - low > SMALL_STEP * bus)) {
      tellTrial(law, out);
      return;
    }
    const next = bus - newton;
    trial.busVoltage = next > low && next < high ? next : high < Number.POSITIVE_INFINITY ? 0.5 * (low + high) : 2 * low;
  }
  seekSinusoidal(law, out);
}

/**
 * (2) where the pack gives so little that (1) has no root, or hardly one: F from the voltage at which no current flows down to where it is no
 * longer positive and rising. That is its highest root or, where it has none, its least value: the pack's most power, with slopes of 0 as in (1).
 */
function seekSinusoidal(law: DutyLaw, out: ChainPoint): void {
  const { duty, sign, start, lead, product } = law;
  startTrials(law, out);
  const stays = (bus: number): boolean => {
    trial.busVoltage = bus;
    tryVoltage(law);
    return trial.off > 0 && trial.rise > 0;
  };
  // braking lifts the voltage beyond that of rest
  let high = Math.max(trial.opposing, (start + Math.sqrt(Math.max(0, start * start - 4 * lead * product))) / (2 * lead));
  for (let pass = 0; pass < MOST_PASSES && !stays(high); pass++) high *= 2;
  const step = (high - (sign > 0 ? trial.opposing / duty : 0)) / STEPS_DOWN;
  let low = high - step;
  for (let taken = 1; taken < STEPS_DOWN && stays(low); taken++) {
    high = low;
    low -= step;
  }
  for (let pass = 0; pass < MOST_PASSES && high - low > SMALL_STEP * high; pass++) {
    const middle = 0.5 * (low + high);
    if (stays(middle)) high = middle;
    else low = middle;
  }
  stays(low);
  const root = trial.off <= 0;
  tellTrial(law, out);
  if (!root) out.conductance = out.currentSlope = 0;
}

/** d²i/de² [A/V²] of (1), from the second differentials of F and G, into the record. */
export function bendDutyLaw(law: DutyLaw, out: ChainPoint): void {
  const { resistance, sourceResistance, lead, switching, blockShare } = law;
  const { busVoltage, current, currentSlope } = out;
  const all = resistance + blockShare * out.backEmf;
  const fall = 2 * lead * busVoltage - law.start + sourceResistance * switching * current;
  const busSlope = (all * currentSlope + 1 + blockShare * current) * law.inverseDuty;
  const fallSlope = 2 * lead * busSlope + sourceResistance * switching * currentSlope;
  const bend = (2 * resistance * currentSlope + 2 + switching * busSlope) * currentSlope;
  out.currentCurvature =
    -(2 * blockShare * currentSlope + (law.duty * (sourceResistance * bend + fallSlope * busSlope)) / fall) * out.conductance;
}

const lawOfSolve = emptyDutyLaw();

/**
 * Current at the record's duty, in (0, 1], and back-EMF. Without regenerative braking the current is never negative: the load then drives the
 * motor against its loss torque alone. Allocates nothing.
 */
export function solveDuty(chain: ElectricalChain, out: ChainPoint): void {
  lawOfSolve.duty = out.duty;
  setDutyLaw(chain, 1, lawOfSolve);
  followDutyLaw(lawOfSolve, out);
  const opposing = out.backEmf + lawOfSolve.drop;
  // so little resistance leaves other loads no voltage: least is missing where no current flows, or one that is mostly reactive
  if (out.current < 0 && out.conductance === 0 && out.duty * openBusVoltage(chain, lawOfSolve.leak) > opposing) {
    out.starved = true;
    out.busVoltage = opposing * lawOfSolve.inverseDuty;
    out.current = 0;
    if (chain.sinusoidal) seekSinusoidal(lawOfSolve, out);
    out.current = Math.max(0, out.current);
  }
  // NaN stays
  let found = !(out.current < 0);
  if (!found && chain.regenerative) {
    setDutyLaw(chain, -1, lawOfSolve);
    followDutyLaw(lawOfSolve, out);
    found = !(out.current > 0);
  }
  if (found) {
    drawBusCurrent(lawOfSolve, out);
    return;
  }
  out.busVoltage = openBusVoltage(chain, lawOfSolve.leak);
  out.current = 0;
  out.currentSlope = 0;
  out.conductance = 0;
  out.busCurrent = chain.idleCurrent + lawOfSolve.leak * out.busVoltage;
}

/** Current [A] at `duty` in (0, 1] against `backEmf` [V], written into `out`; as `solveDuty`. */
export function solveAtDuty(chain: ElectricalChain, duty: number, backEmf: number, out: ChainPoint): void {
  out.duty = duty;
  out.backEmf = backEmf;
  solveDuty(chain, out);
}
