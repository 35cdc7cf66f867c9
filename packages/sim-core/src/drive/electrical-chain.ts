/**
 * Pack, wiring, controller and winding in series, for one drive: everything electrical between open-circuit voltage and back-EMF.
 *
 *   (1) v_bus = E − R_b·(i_bus + P/v_bus)                      (2) i_bus = (d + k_s·sgn i)·i + I_idle + k_v·v_bus
 *   (3) d·v_bus = R_t·i + k_e·ω + [(1 − d)·V_f + V_t]·sgn i             R_t = winding + controller path
 *
 * For given duty and back-EMF (1)–(3) are linear in i, or a quadratic in v_bus when other loads draw constant power; the high-voltage
 * root is the one a pack takes. For given current and back-EMF v_bus is a quadratic too, and d = v_needed/v_bus.
 * R_b counts the pack as often as there are drives on it. k_s, k_v and V_t are taken with their fade towards full throttle.
 * *Holds for* E > 0, R_b > 0, R_t > 0. *Sign* i > 0 drives. *Source* balance of voltages; parts/controller.ts.
 */
import type { Battery } from '../parts/battery.js';
import { SWITCHING_FADE, switchingFade } from '../parts/controller.js';

/** The least duty that counts as on: nearly a short circuit of the winding, the most that braking can do at low speed [1]. */
export const LEAST_DUTY = 1e-6;

export interface ElectricalChain {
  /** E — open-circuit voltage less polarisation [V]. */
  emf: number;
  /** R_b — resistance between E and the bus as one drive sees it [Ω]. */
  sourceResistance: number;
  idleCurrent: number;
  /** P — constant power of other loads, one drive's share [W]. */
  otherPower: number;
  pathResistance: number;
  windingResistance: number;
  /** k_s, k_v before the fade. */
  switchingShare: number;
  voltageLoss: number;
  diodeDrop: number;
  /** V_t — voltage that the dead times cost, before the fade [V]. */
  deadTimeDrop: number;
  regenerative: boolean;
}

/** What the solutions read and write; made once, used again. */
export interface ChainPoint {
  /** Back-EMF, read [V]. */
  backEmf: number;
  /** NaN where the pack cannot give what is asked. */
  busVoltage: number;
  current: number;
  /** di/d(back-EMF) at fixed duty [S], negative. */
  currentSlope: number;
  duty: number;
  /** Battery side current of one drive, other loads not counted [A]. */
  busCurrent: number;
}

export const emptyElectricalChain = (): ElectricalChain => ({
  emf: 0,
  sourceResistance: 1,
  idleCurrent: 0,
  otherPower: 0,
  pathResistance: 0,
  windingResistance: 1,
  switchingShare: 0,
  voltageLoss: 0,
  diodeDrop: 0,
  deadTimeDrop: 0,
  regenerative: false,
});

/** R_b [Ω]: the pack's ohmic part, counted as often as there are drives on it, and one drive's wiring; `cellFactor` [1] for temperature. */
export const sourceResistance = (
  battery: Pick<Battery, 'cellsInSeries' | 'cellsInParallel' | 'cellResistance'>,
  cellFactor: number,
  drives: number,
  wiringResistance: number,
): number => (drives * battery.cellsInSeries * battery.cellResistance * cellFactor) / battery.cellsInParallel + wiringResistance;

export const emptyChainPoint = (): ChainPoint => ({ backEmf: 0, busVoltage: 0, current: 0, currentSlope: 0, duty: 0, busCurrent: 0 });

const pathAt = (chain: ElectricalChain, duty: number): number =>
  chain.diodeDrop > 0 ? chain.pathResistance * 0.5 * (1 + duty) : chain.pathResistance;

/** Bus voltage [V] with the motor's devices open: only idle draw, voltage loss `leak` [S] and other loads. */
function openBusVoltage(chain: ElectricalChain, leak: number): number {
  const a = 1 + chain.sourceResistance * leak;
  const b = chain.emf - chain.sourceResistance * chain.idleCurrent;
  if (chain.otherPower === 0) return b / a;
  return (b + Math.sqrt(b * b - 4 * a * chain.sourceResistance * chain.otherPower)) / (2 * a);
}

/** Throttle off: no current, the pack feeds idle draw and other loads. */
export function solveOff(chain: ElectricalChain, out: ChainPoint): void {
  out.busVoltage = openBusVoltage(chain, 0);
  out.current = 0;
  out.currentSlope = 0;
  out.duty = 0;
  out.busCurrent = chain.idleCurrent;
}

/** Current [A] at `duty` in (0, 1] against `backEmf` [V], written into `out`; as `solveDuty`. */
export function solveAtDuty(chain: ElectricalChain, duty: number, backEmf: number, out: ChainPoint): void {
  out.duty = duty;
  out.backEmf = backEmf;
  solveDuty(chain, out);
}

/** (1)–(3) at one duty and one sign of the current, as a law of the back-EMF alone: what stays while a shaft's speed is sought. */
export interface DutyLaw {
  /** Read by `setDutyLaw`. */
  duty: number;
  /** d + k_s·sgn i [1], k_v [S] and the opposing voltages beside the back-EMF [V], all with their fade. */
  share: number;
  leak: number;
  drop: number;
  /** 1/R_t [S]; R_b·share/R_t [1]. */
  conductance: number;
  coupling: number;
  /** Of a·v² − b·v + R_b·P = 0: b at no back-EMF [V], 1/(2a) [1], 4·a·R_b·P [V²]. */
  start: number;
  half: number;
  product: number;
  idleCurrent: number;
}

export const emptyDutyLaw = (): DutyLaw => ({
  duty: 0,
  share: 0,
  leak: 0,
  drop: 0,
  conductance: 1,
  coupling: 0,
  start: 0,
  half: 0.5,
  product: 0,
  idleCurrent: 0,
});

/** Makes the law of the record's duty, in (0, 1], for currents of `sign` 1 or −1. */
export function setDutyLaw(chain: ElectricalChain, sign: number, law: DutyLaw): void {
  const { duty } = law;
  const { sourceResistance } = chain;
  const fade = switchingFade(duty);
  law.leak = chain.voltageLoss * fade;
  law.share = duty + sign * chain.switchingShare * fade;
  law.drop = sign * ((1 - duty) * chain.diodeDrop + fade * chain.deadTimeDrop);
  law.conductance = 1 / (chain.windingResistance + pathAt(chain, duty));
  law.coupling = sourceResistance * law.share * law.conductance;
  law.idleCurrent = chain.idleCurrent;
  law.start = chain.emf - sourceResistance * chain.idleCurrent + law.coupling * law.drop;
  const a = 1 + sourceResistance * law.leak + law.coupling * duty;
  law.half = 0.5 / a;
  law.product = 4 * a * sourceResistance * chain.otherPower;
}

/** Everything but the duty at the record's back-EMF, whatever the current's sign comes out as; NaN where the pack cannot give it. Allocates nothing. */
export function followDutyLaw(law: DutyLaw, out: ChainPoint): void {
  const { backEmf } = out;
  const { duty, coupling, conductance, half } = law;
  const b = law.start + coupling * backEmf;
  let bus = 2 * half * b;
  let busSlope = 2 * half * coupling;
  if (law.product !== 0) {
    const root = Math.sqrt(b * b - law.product);
    bus = half * (b + root);
    busSlope = (coupling * bus) / root;
  }
  const current = (duty * bus - backEmf - law.drop) * conductance;
  out.busVoltage = bus;
  out.current = current;
  out.currentSlope = (duty * busSlope - 1) * conductance;
  out.busCurrent = law.share * current + law.idleCurrent + law.leak * bus;
}

const lawOfSolve = emptyDutyLaw();

/**
 * Current at the record's duty, in (0, 1], and back-EMF, (1)–(3). Without regenerative braking the current is never negative: the load then
 * drives the motor against its loss torque alone. Allocates nothing.
 */
export function solveDuty(chain: ElectricalChain, out: ChainPoint): void {
  lawOfSolve.duty = out.duty;
  setDutyLaw(chain, 1, lawOfSolve);
  followDutyLaw(lawOfSolve, out);
  // NaN stays
  if (!(out.current < 0)) return;
  if (chain.regenerative) {
    setDutyLaw(chain, -1, lawOfSolve);
    followDutyLaw(lawOfSolve, out);
    if (!(out.current > 0)) return;
  }
  out.busVoltage = openBusVoltage(chain, lawOfSolve.leak);
  out.current = 0;
  out.currentSlope = 0;
  out.busCurrent = chain.idleCurrent + lawOfSolve.leak * out.busVoltage;
}

/** Duty that one pass of (1)–(3) asks for at `current`, with fade, diode and path taken at `duty`; writes everything but the duty. */
function askedDuty(chain: ElectricalChain, duty: number, current: number, backEmf: number, out: ChainPoint): number {
  const fade = switchingFade(duty);
  const leak = chain.voltageLoss * fade;
  const sign = current < 0 ? -1 : 1;
  const drop = (1 - duty) * chain.diodeDrop + fade * chain.deadTimeDrop;
  const needed = (chain.windingResistance + pathAt(chain, duty)) * current + backEmf + sign * drop;
  const drawn = chain.switchingShare * fade * Math.abs(current) + chain.idleCurrent;
  const a = 1 + chain.sourceResistance * leak;
  const b = chain.emf - chain.sourceResistance * drawn;
  const bus = (b + Math.sqrt(b * b - 4 * a * chain.sourceResistance * (needed * current + chain.otherPower))) / (2 * a);
  out.busVoltage = bus;
  out.current = current;
  out.currentSlope = 0;
  out.busCurrent = (needed / bus) * current + drawn + leak * bus;
  return needed / bus;
}

/**
 * Duty that drives `current` [A] against `backEmf` [V], written into `out` and returned. Above 1: full throttle does not reach it (the
 * figures are then those of the impossible duty). NaN: the pack cannot give the power at all.
 */
export function solveForCurrent(chain: ElectricalChain, current: number, backEmf: number, out: ChainPoint): number {
  let duty = askedDuty(chain, 0.5, current, backEmf, out);
  if (chain.diodeDrop > 0) {
    // near the pack's most power, half a duty's diode loss may already be too much where the true duty's is not: from the other end then
    if (Number.isNaN(duty)) duty = askedDuty(chain, 1 - SWITCHING_FADE, current, backEmf, out);
    // the diode's share depends on the duty itself; the map contracts by about V_f/v_bus
    for (let k = 0; k < 40; k++) {
      const next = askedDuty(chain, Math.min(duty, 1 - SWITCHING_FADE), current, backEmf, out);
      if (Math.abs(next - duty) < 1e-15) break;
      duty = next;
    }
  }
  if (duty > 1 - SWITCHING_FADE) {
    // inside the fade: false position on d − asked(d), which changes sign unless full throttle is not enough
    let low = 1 - SWITCHING_FADE;
    let high = 1;
    const atFull = askedDuty(chain, 1, current, backEmf, out);
    if (!(atFull < 1)) {
      out.duty = atFull;
      return atFull;
    }
    for (let k = 0; k < 100 && high - low > 1e-15; k++) {
      const middle = 0.5 * (low + high);
      if (askedDuty(chain, middle, current, backEmf, out) > middle) low = middle;
      else high = middle;
    }
    duty = 0.5 * (low + high);
    askedDuty(chain, duty, current, backEmf, out);
  }
  out.duty = duty;
  return duty;
}

const batteryLimited = { current: 0, slope: 0 };

/**
 * Motor current [A] at which the drive's battery current reaches `limit` [A] at `backEmf` [V] below full throttle, and its slope per volt of
 * back-EMF [A/V], in a reused record: the positive root of
 *
 *   d(i)·i + k_s·i = limit − I_idle − k_v·v_bus,   d(i) = (R_w·i + R_p·i·½(1 + d) + k_e·ω + (1 − d)·V_f + V_t)/v_bus
 *
 * where R_p carries the whole current and V_f vanishes with synchronous rectification; a quadratic then, else Newton's method from its root.
 */
export function currentAtBatteryLimit(chain: ElectricalChain, limit: number, backEmf: number): Readonly<typeof batteryLimited> {
  const { windingResistance, pathResistance, diodeDrop, deadTimeDrop, switchingShare } = chain;
  const b = chain.emf - chain.sourceResistance * limit;
  const bus = chain.otherPower === 0 ? b : 0.5 * (b + Math.sqrt(b * b - 4 * chain.sourceResistance * chain.otherPower));
  const share = limit - chain.idleCurrent - chain.voltageLoss * bus;
  const opposing = backEmf + deadTimeDrop;
  const linear = opposing + switchingShare * bus;
  const resistance = windingResistance + pathResistance;
  const root = Math.sqrt(linear * linear + 4 * resistance * bus * share);
  let current = (2 * bus * share) / (linear + root);
  let slope = -current / root;
  if (diodeDrop > 0) {
    for (let k = 0; k < 30; k++) {
      // d(i) with the path's and the diode's own dependence on d solved for
      const below = bus + diodeDrop - 0.5 * pathResistance * current;
      const duty = ((windingResistance + 0.5 * pathResistance) * current + opposing + diodeDrop) / below;
      const dutySlope = (windingResistance + 0.5 * pathResistance * (1 + duty)) / below;
      const rise = duty + switchingShare + current * dutySlope;
      const newton = (share - (duty + switchingShare) * current) / rise;
      slope = -current / (below * rise);
      current += newton;
      if (Math.abs(newton) <= 1e-15 * Math.abs(current)) break;
    }
  }
  batteryLimited.current = current;
  batteryLimited.slope = slope;
  return batteryLimited;
}
