/**
 * Motor current at which a drive's battery current reaches a limit below full throttle, where the bus voltage is known. Letters of electrical-chain.ts.
 *
 *   (1) (R_t·i + o)·i + k_s·v·i + k_r·v² = v·(limit − I),  o = e + (1 − d)·V_f + V_t
 *   (2) d = u/v, on which R_t, o and k_r depend: (1), a quadratic in i at a given d, and (2) are taken in turn; where that does not close in, as where
 *       V_f is near v, what is between too low and too high a duty is halved
 *   (3) di/de by the total differentials of both
 *   (4) k_r(d)·v = limit − I: where ripple alone takes all of it, a throttle that is opened comes no further than the lower of the two d
 *
 * Where ripple takes much there are several d: a throttle that is opened stops at the least of them, below that of the most ripple, or is past it.
 *
 * @module
 */

import { conductionResistance } from '../parts/controller.js';
import { bridgeVoltage, type ElectricalChain, leakAt } from './electrical-chain.js';

const found = { current: 0, slope: 0, busVoltage: 0, duty: 0 };
const MOST_PASSES = 60;
/** Share of the change before below which a change closes in [1]. */
const CLOSING = 0.5;

/** Bus voltage [V] at `limit` [A]; not positive where a short circuit of the pack gives no more than that. */
function busAtLimit({ emf, sourceResistance, otherPower }: ElectricalChain, limit: number): number {
  const b = emf - sourceResistance * limit;
  return b > 0 && otherPower !== 0 ? 0.5 * (b + Math.sqrt(Math.max(0, b * b - 4 * sourceResistance * otherPower))) : b;
}

/** Most of (d·(1 − d))², at half throttle [1]. */
const MOST_RIPPLE = 1 / 16;

/** (4) Duty [1] at the limit's bus voltage; 1 where ripple leaves the motor something at each. */
function openTo({ rippleLoss, idleCurrent }: ElectricalChain, limit: number, bus: number): number {
  const left = limit - idleCurrent;
  const most = rippleLoss * bus * MOST_RIPPLE;
  // what the controller draws for itself leaves no throttle that would help
  return left > 0 && left < most ? 0.5 * (1 - Math.sqrt(1 - Math.sqrt(left / most))) : 1;
}

/** (4) Most duty [1] to which `limit` [A] lets a throttle open against the ripple alone. */
export const dutyUnderRipple = (chain: ElectricalChain, limit: number): number => openTo(chain, limit, busAtLimit(chain, limit));

/** Share of the limit that ripple takes at the most where there may be several duties [1]. */
const MUCH = 0.25;
/** Where a search for the least of them begins: at the duty of the most ripple, or that of (4) [1]. */
function leastFrom(chain: ElectricalChain, limit: number, bus: number): number {
  const much = chain.rippleLoss * bus * MOST_RIPPLE > MUCH * (limit - chain.idleCurrent);
  return much ? Math.min(0.5, openTo(chain, limit, bus)) : 1;
}

/** Motor current [A] at `limit` [A] and `backEmf` [V], its slope per volt of back-EMF [A/V], bus voltage [V] and duty there, in a reused record: a throttle's that is opened or, `past` the most ripple, that of the highest duty. */
export function currentAtBatteryLimit(chain: ElectricalChain, limit: number, backEmf: number, past = false): Readonly<typeof found> {
  const { diodeDrop, switchingShare, sinusoidal } = chain;
  const bus = busAtLimit(chain, limit);
  if (!(bus > 0)) {
    // more than a short circuit of the pack gives: no voltage is held
    found.current = Number.POSITIVE_INFINITY;
    found.busVoltage = Number.NEGATIVE_INFINITY;
    found.slope = found.duty = 0;
    return found;
  }
  const perAmpere = chain.reactiveShare * backEmf;
  const most = past ? 1 : openTo(chain, limit, bus);
  let duty = past ? 1 : leastFrom(chain, limit, bus);
  let low = 0;
  let high = most;
  let change = Number.POSITIVE_INFINITY;
  let current = 0;
  let resistance = 0;
  let working = 0;
  let bridge = 0;
  let root = 0;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    resistance = chain.windingResistance + conductionResistance(chain, duty);
    const opposing = backEmf + (1 - duty) * diodeDrop + chain.deadTimeDrop;
    const linear = opposing + switchingShare * bus;
    // what the controller itself draws leaves nothing to the motor where it is more than the limit
    const power = bus * Math.max(0, limit - chain.idleCurrent - leakAt(chain, duty) * bus);
    root = Math.sqrt(linear * linear + 4 * resistance * power);
    current = (2 * power) / (linear + root);
    working = resistance * current + opposing;
    bridge = bridgeVoltage(sinusoidal, working, perAmpere * current);
    const next = Math.min(most, bridge / bus);
    const before = change;
    change = Math.abs(next - duty);
    if (!(change > 1e-15)) break;
    if (next > duty) low = duty;
    else high = duty;
    duty = change < CLOSING * before && next >= low && next <= high ? next : 0.5 * (low + high);
  }
  const reactive = perAmpere * current;
  const [along, across] = sinusoidal ? [working / bridge, reactive / bridge] : [1, 1];
  const perCurrent = along * resistance + across * perAmpere;
  const perEmf = along + across * chain.reactiveShare * current;
  const ofDuty = duty < 1 ? 0.5 * (chain.diodeDrop > 0 ? chain.pathResistance : 0) * current - diodeDrop : 0;
  const lossOfDuty = ofDuty * current + (duty < 1 ? 2 * chain.rippleLoss * bus * bus * duty * (1 - duty) * (1 - 2 * duty) : 0);
  const perDuty = lossOfDuty / (bus - along * ofDuty);
  found.current = current;
  found.busVoltage = bus;
  found.duty = duty;
  // where nothing is left to the motor, nothing is left at the next voltage either
  found.slope = current > 0 ? -(current + perDuty * perEmf) / (root + perDuty * perCurrent) : 0;
  return found;
}
