/** Where the controller's limits hold the current of an operating point, driving or braking. @module */

import { solveAtDuty } from '../drive/duty-law.js';
import { LEAST_DUTY, solveForCurrent } from '../drive/electrical-chain.js';
import { brent } from '../numerics/roots.js';
import type { KernelMemory } from './kernel-memory.js';
import { beyondGreatest, greatestCurrent, heldBack, limitBeyondGreatest, mostCurrent } from './shaft-balance.js';

/** How near the battery current at its limit has to come to it [1]. */
const MET = 1e-6;
/** How near a duty is sought [1]. */
export const DUTY_TOLERANCE = 1e-13;

/** Takes over what the chain found. */
export function adopt({ point, chainPoint }: KernelMemory, duty: number): void {
  point.duty = duty;
  point.busVoltage = chainPoint.busVoltage;
  point.busCurrent = chainPoint.busCurrent;
  point.current = chainPoint.current;
}

/** What the controller's limits leave at `backEmf` [V] a current that the pack's high voltage drives, into the point. */
export function limitAt(memory: KernelMemory, backEmf: number): void {
  memory.chainPoint.backEmf = backEmf;
  mostCurrent(memory);
  memory.point.limit = limitBeyondGreatest(memory) ? memory.motorLimit : memory.most.current;
}

/** Share of a `limit` [A] that a current takes [1]; none of it is nothing of a limit of zero too, which a hot controller's is. */
const share = (current: number, limit: number): number => (current > 0 ? current / limit : 0);

/**
 * Duty up to which a throttle opens towards `duty` where the pack's high voltage does not give the limit: a limit is met as that voltage gives way, or the
 * pack collapses where the throttle stands. The chain's point is left there.
 */
function openedAsFar({ chain, chainPoint, point, system }: KernelMemory, duty: number, backEmf: number): number {
  const past = (tried: number): number => {
    solveAtDuty(chain, tried, backEmf, chainPoint);
    return Math.max(share(chainPoint.current, point.limit), share(chainPoint.busCurrent, system.controller.batteryCurrentLimit)) - 1;
  };
  const met = past(duty) > 0 && past(LEAST_DUTY) < 0 ? brent(past, LEAST_DUTY, duty, DUTY_TOLERANCE) : duty;
  past(met);
  return met;
}

/** Holds the current at the controller's limits where the duty asks for more; braking is limited by the motor current alone. */
export function limitCurrent(memory: KernelMemory): void {
  const { point, chain, chainPoint, motorLimit, letGo, system } = memory;
  const { current, backEmf } = chainPoint;
  mostCurrent(memory);
  const { most } = memory;
  const isHeldBack = heldBack(memory);
  const beyond = most.current < motorLimit && limitBeyondGreatest(memory);
  point.limit = most.current;
  // beyond the pack's greatest power what is drawn counts, as the motor current that it stands for at the limit; the motor's own is met on the way
  if (beyond || beyondGreatest(memory)) {
    if (most.current < motorLimit)
      point.currentUnlimited = Math.max(beyond ? 0 : current, (most.current * most.busVoltage) / chainPoint.busVoltage);
    else if (motorLimit < Number.POSITIVE_INFINITY && !letGo) point.currentUnlimited = Math.max(current, greatestCurrent(memory));
  }
  if (!isHeldBack) {
    if (current < -motorLimit) brakeAt(memory, -motorLimit, backEmf);
    else adopt(memory, chainPoint.duty);
    return;
  }
  const { duty } = chainPoint;
  const held = beyond ? Number.NaN : solveForCurrent(chain, point.limit, backEmf, chainPoint);
  // a current alone has several duties: that of a higher voltage, which draws less, or where ripple takes the most that of a lower one
  const otherwise =
    most.current > 0 && most.current < motorLimit && chainPoint.busCurrent > (1 + MET) * system.controller.batteryCurrentLimit;
  if (beyond || otherwise) {
    chainPoint.busVoltage = most.busVoltage;
    chainPoint.current = most.current;
    chainPoint.busCurrent = system.controller.batteryCurrentLimit;
    adopt(memory, most.duty);
  } else adopt(memory, Number.isNaN(held) ? openedAsFar(memory, duty, backEmf) : held);
}

/** Brakes with `current` [A] (negative), or as near to it as a duty between 0 and 1 comes. */
export function brakeAt(memory: KernelMemory, current: number, backEmf: number): void {
  const { point, chain, chainPoint } = memory;
  const duty = solveForCurrent(chain, current, backEmf, chainPoint);
  if (duty >= LEAST_DUTY && duty <= 1) {
    adopt(memory, duty);
    return;
  }
  // less than a short circuit of the winding would be needed, or more than the pack's voltage: the nearer end is all there is
  point.braked = true;
  let nearest = duty > 1 ? 1 : LEAST_DUTY;
  solveAtDuty(chain, nearest, backEmf, chainPoint);
  if (Number.isNaN(duty) && chainPoint.current < current) {
    // so little given back leaves other loads no voltage: full throttle gives what there is
    nearest = 1;
    solveAtDuty(chain, nearest, backEmf, chainPoint);
  }
  adopt(memory, nearest);
}
