/** How a run stands to each of its limits, the closest first. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import { HEAT_LIMIT_BODY, isHeatLimit } from '../../drive/heat-limits.js';
import { isKernelEvent } from '../../kernel/event-margins.js';
import { openCircuitVoltage } from '../../parts/battery/battery.js';
import type { Data, Datum } from '../../provenance/datum.js';
import { RULES, ruleOf } from '../../provenance/rules/rules.js';
import type { LimitPassed, LimitResult } from '../../results/limit-result.js';
import { isPast, isSet, LIMIT_IDS, LIMITS, type LimitId } from '../../results/limits.js';
import { largest, type Peak } from '../simulate/extremes-watch.js';
import type { Simulation } from '../simulate/simulate.js';

/** Where a bound came from, in words. */
export function originOf(datum: Datum): string {
  if (datum.origin.kind === 'given') return `${datum.origin.place.file} line ${datum.origin.place.line}`;
  const rule = RULES[datum.origin.rule];
  return `${rule.words}, ${rule.source}`;
}

const isAssumed = ({ origin }: Datum): boolean => origin.kind === 'default' && ruleOf(origin.rule).said !== true;

/**
 * All limits that are set, the one nearest to its bound (as a share of the way from the start) first. `lasting`: how long the profile lasts
 * when it is driven again and again [s]; needed only where a run time is asked for.
 */
export function limitsOf(simulation: Simulation, data: DriveSystem<Data>, lasting = Number.NaN): LimitResult[] {
  const found: LimitResult[] = [];
  for (const id of LIMIT_IDS) {
    const { words, dimension, shown, sense, chosen } = LIMITS[id];
    const datum = data.limits[id];
    const bound = datum.value;
    if (!isSet(id, bound)) continue;
    const worst = worstOf(id, simulation, lasting);
    if (chosen && !isPast(id, worst.value, bound)) continue;
    const start = startOf(id, simulation, data);
    const margin = sense === 'ceiling' ? bound - worst.value : worst.value - bound;
    const span = Math.abs(bound - start);
    found.push({
      id,
      words,
      dimension,
      shown,
      bound,
      origin: originOf(datum),
      ...(isAssumed(datum) ? { assumed: true } : {}),
      sense,
      start,
      worst: worst.value,
      worstTime: worst.time,
      margin,
      marginShare: span > 0 ? margin / span : margin,
      ...(margin < 0 ? { passed: { at: passedAt(id, simulation, lasting) ?? worst.time, ...passedFor(id, simulation, bound) } } : {}),
    });
  }
  return found.sort((a, b) => a.marginShare - b.marginShare);
}

/** The worst value of what a limit watches over a run, with its time [s]; NaN where the run was not asked for it. `lasting` as `limitsOf` has it. */
export function worstOf(id: LimitId, simulation: Pick<Simulation, 'highest' | 'lowest' | 'drawn' | 'time'>, lasting: number): Peak {
  const { watched, eitherWay, sense } = LIMITS[id];
  if (watched === 'lasting') return { value: lasting, time: lasting };
  if (watched === 'drawn') return { value: simulation.drawn?.energy ?? Number.NaN, time: simulation.time };
  if (eitherWay) return largest(watched, simulation);
  return (sense === 'ceiling' ? simulation.highest : simulation.lowest)[watched];
}

/** When a limit was first passed [s], where its event or its account tells. */
function passedAt(id: LimitId, { passed, drawn }: Simulation, lasting: number): number | undefined {
  const { watched } = LIMITS[id];
  if (watched === 'lasting') return lasting;
  if (watched === 'drawn') return drawn?.passedAt;
  return isKernelEvent(id) ? passed.get(id) : undefined;
}

/** Shorter than this a limit is touched, and nothing is said of how long [s]. */
const TOUCH = 1e-3;

/** How long a curve of straight lines between samples lies above 0 [s]. */
function timeAbove(time: readonly number[], value: (k: number) => number): number {
  let total = 0;
  for (let k = 1; k < time.length; k++) {
    const [from, to] = [value(k - 1), value(k)];
    const [a, b] = [Math.max(0, from), Math.max(0, to)];
    // both above: the whole piece; one above: its share up to the crossing
    if (a > 0 && b > 0) total += time[k] - time[k - 1];
    else if (a + b > 0) total += ((time[k] - time[k - 1]) * (a + b)) / Math.abs(to - from);
  }
  return total;
}

/** How long a channel lies past a bound, between straight lines through the recorded samples [s]. */
function passedFor(id: LimitId, { recorded }: Simulation, bound: number): Pick<LimitPassed, 'lasting'> {
  const { watched, sense, eitherWay } = LIMITS[id];
  if (recorded === undefined || watched === 'drawn' || watched === 'lasting') return {};
  const { time } = recorded.trace;
  const curve = recorded.trace[watched];
  const past: readonly ((k: number) => number)[] =
    sense === 'floor'
      ? [(k) => bound - curve[k]]
      : // braking passes the same bound from the other side
        [(k) => curve[k] - bound, ...(eitherWay ? [(k: number) => -curve[k] - bound] : [])];
  const total = past.reduce((sum, beyond) => sum + timeAbove(time, beyond), 0);
  return total < TOUCH ? {} : { lasting: total };
}

/** Until the reserve is reached, or the cut-off, or as far as it is followed, with the profile driven again and again [s]. */
export const lastingOf = (again: Pick<Simulation, 'time' | 'passed'>, reserve: number): number =>
  (reserve > 0 ? again.passed.get('reserve') : undefined) ?? again.time;

/** Where the way to a limit begins: temperatures and charge as the run starts, the cells' voltage at rest; everything else begins at 0. */
function startOf(id: LimitId, { initialState, kernel: { at } }: Simulation, { battery }: DriveSystem<Data>): number {
  if (isHeatLimit(id)) return initialState[at[HEAT_LIMIT_BODY[id]]];
  const charge = initialState[at.charge];
  const { watched } = LIMITS[id];
  if (watched === 'charge') return charge;
  return watched === 'cellVoltage' ? openCircuitVoltage(battery.openCircuit, charge) + battery.voltageOffset.value : 0;
}

/** Whether a run was driven to its end with no limit passed. */
export const meetsLimits = (simulation: Pick<Simulation, 'end'>, limits: readonly LimitResult[]): boolean =>
  simulation.end === 'finished' && limits.every((limit) => limit.passed === undefined);
