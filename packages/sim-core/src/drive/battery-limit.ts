/**
 * Motor current at which a drive's battery current reaches a limit below full throttle, where the bus voltage is known. Letters of electrical-chain.ts.
 *
 *   (1) (R_t·i + o)·i + k_s·v·i + k_r·v² = v·(limit − I),  o = e + (1 − d)·V_f + V_t
 *   (2) d = u/v, on which R_t, o and k_r depend: (1), a quadratic in i at a given d, and (2) are taken in turn; where that does not close in, as where
 *       V_f is near v, what is between too low and too high a duty is halved
 *   (3) di/de by the total differentials of both
 *
 * @module
 */

import { conductionResistance } from '../parts/controller.js';
import { bridgeVoltage, type ElectricalChain, leakAt } from './electrical-chain.js';

const found = { current: 0, slope: 0, busVoltage: 0, duty: 0 };
const MOST_PASSES = 60;
/** Share of the change before below which a change closes in [1]. */
const CLOSING = 0.5;

/** Motor current [A] at `limit` [A] and `backEmf` [V], its slope per volt of back-EMF [A/V], bus voltage [V] and duty there, in a reused record. */
export function currentAtBatteryLimit(chain: ElectricalChain, limit: number, backEmf: number): Readonly<typeof found> {
  const { diodeDrop, switchingShare, sinusoidal } = chain;
  const b = chain.emf - chain.sourceResistance * limit;
  if (!(b > 0)) {
    // more than a short circuit of the pack gives: no voltage is held
    found.current = Number.POSITIVE_INFINITY;
    found.busVoltage = Number.NEGATIVE_INFINITY;
    found.slope = found.duty = 0;
    return found;
  }
  const bus = chain.otherPower === 0 ? b : 0.5 * (b + Math.sqrt(Math.max(0, b * b - 4 * chain.sourceResistance * chain.otherPower)));
  const perAmpere = chain.reactiveShare * backEmf;
  let duty = 1;
  let low = 0;
  let high = 1;
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
    const next = Math.min(1, bridge / bus);
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
  found.slope = -(current + perDuty * perEmf) / (root + perDuty * perCurrent);
  return found;
}
