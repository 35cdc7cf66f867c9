/**
 * Pack, wiring, controller and winding in series, for one drive: everything electrical between open-circuit voltage and back-EMF.
 *
 *   (1) v_bus = E − R_b·(i_bus + P/v_bus)
 *   (2) v_bus·i_bus = v·i + k_s·v_bus·|i| + I_idle·v_bus + k_r·v_bus²        k_r = κ/L·[d·(1 − d)]²
 *   (3) v = R_t·i + k_e·ω + [(1 − d)·V_f + V_t]·sgn i                       R_t = winding + controller path
 *   (4) d·v_bus = u(v, i): v + ξ·k_e·ω·i, or √(v² + (ξ·k_e·ω·i)²) where the drive is sinusoidal (parts/motor.ts; ξ is its reactiveShare)
 *
 * v does work, u is what the bridge must give for it: (2) takes v, so that inductance takes no power. (1) and (2) are a quadratic in v_bus for a given
 * current; with (4) for block drive they are one for a given duty too (`duty-law.ts`). The high-voltage root is the one a pack takes;
 * where more is asked for than it can give, that of its most power, which (1) then does not meet (`overloaded`).
 * R_b counts the pack as often as there are drives on it.
 * *Holds for* E > 0, R_b > 0, R_t > 0. *Sign* i > 0 drives. *Source* balance of voltages and of power; parts/controller.ts, parts/motor.ts.
 *
 * @module
 */

import type { Battery } from '../parts/battery/battery.js';
import { conductionResistance, rippleLoss, type SwitchingStage } from '../parts/controller.js';

/** The least duty that counts as on: nearly a short circuit of the winding, the most that braking can do at low speed [1]. */
export const LEAST_DUTY = 1e-6;

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** What the parts bring at one moment; the controller's as its laws take it. Filled again for each. All [SI]. */
export interface ElectricalChain extends Writable<SwitchingStage> {
  /** E — open-circuit voltage less polarisation [V]. */
  emf: number;
  /** R_b — resistance between E and the bus as one drive sees it [Ω]. */
  sourceResistance: number;
  /** P — constant power of other loads, one drive's share [W]. */
  otherPower: number;
  windingResistance: number;
  /** ξ — reactive voltage over back-EMF for one ampere [1/A]. */
  reactiveShare: number;
  sinusoidal: boolean;
  /** κ/L — loss of the current ripple over the square of v_bus·d·(1 − d) [W/V²]. */
  rippleLoss: number;
  regenerative: boolean;
}

/** What the solutions read and write; made once, used again. All [SI]. */
export interface ChainPoint {
  /** Back-EMF, read [V]. */
  backEmf: number;
  /** NaN where the pack cannot give what is asked. */
  busVoltage: number;
  current: number;
  /** di/d(back-EMF) at fixed duty [S], negative but where a shorted winding brakes the less the faster it turns. */
  currentSlope: number;
  /** d²i/d(back-EMF)² at fixed duty [A/V²], where asked for. */
  currentCurvature: number;
  /** di/du, the bus sagging with it [S]. */
  conductance: number;
  duty: number;
  /** Whether the duty asks for a current and other loads leave the pack none to give: it collapses. */
  starved: boolean;
  /** Battery side current of one drive, other loads not counted [A]. */
  busCurrent: number;
}

/** A record to be written over. */
export const emptyElectricalChain = (): ElectricalChain => ({
  emf: 0,
  sourceResistance: 1,
  idleCurrent: 0,
  otherPower: 0,
  pathResistance: 0,
  windingResistance: 1,
  reactiveShare: 0,
  sinusoidal: false,
  switchingShare: 0,
  rippleLoss: 0,
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

/** A record to be written over. */
export const emptyChainPoint = (): ChainPoint => ({
  backEmf: 0,
  busVoltage: 0,
  current: 0,
  currentSlope: 0,
  currentCurvature: 0,
  conductance: 0,
  duty: 0,
  starved: false,
  busCurrent: 0,
});

/** k_r of (2): loss of the ripple at one volt [S]. */
export const leakAt = (chain: ElectricalChain, duty: number): number => rippleLoss(chain.rippleLoss, 1, duty);

/** (4) u [V] for the voltage `v` that works, and `reactive` = ξ·k_e·ω·i. */
export const bridgeVoltage = (sinusoidal: boolean, v: number, reactive: number): number =>
  sinusoidal ? Math.sqrt(v * v + reactive * reactive) : v + reactive;

/** Whether not even the controller's idle draw leaves a voltage: its wires and cells are all that the pack feeds. */
export const collapsed = ({ emf, sourceResistance, idleCurrent }: ElectricalChain): boolean => !(emf > sourceResistance * idleCurrent);

/** Bus voltage [V] with the motor's devices open: only idle draw, loss `leak` [S] and other loads; 0 where the pack collapses under them. */
export function openBusVoltage(chain: ElectricalChain, leak: number): number {
  const a = 1 + chain.sourceResistance * leak;
  const b = chain.emf - chain.sourceResistance * chain.idleCurrent;
  if (b <= 0) return 0;
  if (chain.otherPower === 0) return b / a;
  return (b + Math.sqrt(Math.max(0, b * b - 4 * a * chain.sourceResistance * chain.otherPower))) / (2 * a);
}

/** Share of the voltage by which (1) misses before the pack counts as overloaded [1]. */
const MISS = 1e-9;

/** Whether the pack cannot give what a solution with `busCurrent` [A] at `busVoltage` [V] draws: idle draw through long wires may alone ask for more. */
export const overloaded = ({ emf, sourceResistance, otherPower }: ElectricalChain, busVoltage: number, busCurrent: number): boolean =>
  !(busVoltage > 0 && emf - sourceResistance * (busCurrent + otherPower / busVoltage) >= busVoltage - MISS * Math.abs(emf));

/** Throttle off: no current, the pack feeds idle draw and other loads. */
export function solveOff(chain: ElectricalChain, out: ChainPoint): void {
  out.busVoltage = openBusVoltage(chain, 0);
  out.current = 0;
  out.currentSlope = 0;
  out.conductance = 0;
  out.duty = 0;
  out.busCurrent = out.busVoltage > 0 ? chain.idleCurrent : Math.max(0, chain.emf / chain.sourceResistance);
}

/** Duty that one pass of (1)–(4) asks for at `current`, with ripple, diode and path taken at `duty`; writes everything but the duty. */
function askedDuty(chain: ElectricalChain, duty: number, current: number, backEmf: number, out: ChainPoint): number {
  const leak = leakAt(chain, duty);
  const sign = current < 0 ? -1 : 1;
  const drop = (1 - duty) * chain.diodeDrop + chain.deadTimeDrop;
  const working = (chain.windingResistance + conductionResistance(chain, duty)) * current + backEmf + sign * drop;
  const drawn = chain.switchingShare * Math.abs(current) + chain.idleCurrent;
  const a = 1 + chain.sourceResistance * leak;
  // where idle draw and switching alone take all the voltage, both roots lie below zero
  const b = Math.max(0, chain.emf - chain.sourceResistance * drawn);
  const bus = (b + Math.sqrt(b * b - 4 * a * chain.sourceResistance * (working * current + chain.otherPower))) / (2 * a);
  out.busVoltage = bus;
  out.current = current;
  out.currentSlope = 0;
  out.conductance = 0;
  out.busCurrent = (working / bus) * current + drawn + leak * bus;
  return bridgeVoltage(chain.sinusoidal, working, chain.reactiveShare * backEmf * current) / bus;
}

const MOST_PASSES = 20;

/**
 * Duty that drives `current` [A] against `backEmf` [V], written into `out` and returned. Above 1: full throttle does not reach it (the
 * figures are then those of the impossible duty). NaN: the pack cannot give the power at all.
 */
export function solveForCurrent(chain: ElectricalChain, current: number, backEmf: number, out: ChainPoint): number {
  // at full duty nothing is lost to ripple and diodes: what is out of reach there is so everywhere, but for a path that a diode shortens
  let duty = askedDuty(chain, 1, current, backEmf, out);
  if (Number.isNaN(duty) && chain.diodeDrop > 0) duty = askedDuty(chain, 0.5, current, backEmf, out);
  if (duty < 1 && (chain.rippleLoss > 0 || chain.diodeDrop > 0)) {
    // ripple and diode depend on the duty itself; the map contracts by about V_f/v_bus, and R_b·κ/L
    let settled = false;
    for (let pass = 0; pass < MOST_PASSES && !settled; pass++) {
      // less than a short circuit brakes no harder by ripple
      const next = askedDuty(chain, Math.max(0, duty), current, backEmf, out);
      settled = Math.abs(next - duty) < 1e-15;
      duty = next;
      if (!(duty < 1)) break;
    }
    if (!settled) duty = bisectedDuty(chain, current, backEmf, out);
  }
  out.duty = duty;
  return duty;
}

/** How near a duty has to come to what it asks for [1]. */
const MET = 1e-6;

/**
 * The same where the map does not contract: d − asked(d) changes sign between 0 and 1, but where less than a short circuit is asked for. Where the pack
 * cannot give the ripple on the way a throttle that is opened comes to a duty below that first; one beyond it is taken where there is none.
 */
function bisectedDuty(chain: ElectricalChain, current: number, backEmf: number, out: ChainPoint): number {
  const least = askedDuty(chain, 0, current, backEmf, out);
  if (least <= 0) return least;
  for (const beyond of [false, true]) {
    let [low, high] = [0, 1];
    for (let pass = 0; pass < 60; pass++) {
      const middle = 0.5 * (low + high);
      const asked = askedDuty(chain, middle, current, backEmf, out);
      if (asked <= middle || (Number.isNaN(asked) && !beyond)) high = middle;
      else low = middle;
    }
    if (Math.abs(askedDuty(chain, high, current, backEmf, out) - high) <= MET) return high;
  }
  return Number.NaN;
}
