/** How a run stands to each of its limits, the closest first. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { KernelEvent } from '../../kernel/event-margins.js';
import { openCircuitVoltage } from '../../parts/battery/battery.js';
import type { Datum } from '../../provenance/datum.js';
import { RULES, type RuleId } from '../../provenance/rules/rules.js';
import type { Dimension, UnitOf } from '../../quantities/index.js';
import type { ChannelId } from '../../results/channels.js';
import type { LimitId, LimitResult } from '../../results/limit-result.js';
import { largest, type Peak } from '../simulate/extremes-watch.js';
import type { Simulation } from '../simulate/simulate.js';

interface LimitSpec {
  readonly id: LimitId;
  readonly words: string;
  readonly channel: ChannelId;
  readonly dimension: Dimension;
  readonly shown: UnitOf;
  readonly sense: 'ceiling' | 'floor';
  readonly datum: (limits: DriveSystem<Datum>['limits']) => Datum;
}

const LIMITS: readonly LimitSpec[] = [
  {
    id: 'windingTemperature',
    words: 'winding temperature',
    channel: 'windingTemperature',
    dimension: 'temperature',
    shown: '°C',
    sense: 'ceiling',
    datum: (l) => l.windingTemperature,
  },
  {
    id: 'magnetTemperature',
    words: 'magnet temperature',
    channel: 'magnetTemperature',
    dimension: 'temperature',
    shown: '°C',
    sense: 'ceiling',
    datum: (l) => l.magnetTemperature,
  },
  {
    id: 'controllerTemperature',
    words: 'controller temperature',
    channel: 'controllerTemperature',
    dimension: 'temperature',
    shown: '°C',
    sense: 'ceiling',
    datum: (l) => l.controllerTemperature,
  },
  {
    id: 'cellTemperature',
    words: 'cell temperature',
    channel: 'cellTemperature',
    dimension: 'temperature',
    shown: '°C',
    sense: 'ceiling',
    datum: (l) => l.cellTemperature,
  },
  {
    id: 'motorCurrent',
    words: 'motor current (maker)',
    channel: 'motorCurrent',
    dimension: 'current',
    shown: 'A',
    sense: 'ceiling',
    datum: (l) => l.motorCurrent,
  },
  {
    id: 'inputPower',
    words: 'input power (maker)',
    channel: 'inputPower',
    dimension: 'power',
    shown: 'W',
    sense: 'ceiling',
    datum: (l) => l.inputPower,
  },
  {
    id: 'shaftSpeed',
    words: 'motor speed (maker)',
    channel: 'shaftSpeed',
    dimension: 'angularSpeed',
    shown: 'rpm',
    sense: 'ceiling',
    datum: (l) => l.shaftSpeed,
  },
  {
    id: 'busVoltage',
    words: 'voltage (maker)',
    channel: 'busVoltage',
    dimension: 'voltage',
    shown: 'V',
    sense: 'ceiling',
    datum: (l) => l.busVoltage,
  },
  {
    id: 'batteryCurrent',
    words: 'battery current (rating)',
    channel: 'batteryCurrent',
    dimension: 'current',
    shown: 'A',
    sense: 'ceiling',
    datum: (l) => l.batteryCurrent,
  },
  {
    id: 'batteryPower',
    words: 'battery power (cap)',
    channel: 'batteryPower',
    dimension: 'power',
    shown: 'W',
    sense: 'ceiling',
    datum: (l) => l.batteryPower,
  },
  {
    id: 'cellVoltage',
    words: 'loaded cell voltage',
    channel: 'cellVoltage',
    dimension: 'voltage',
    shown: 'V',
    sense: 'floor',
    datum: (l) => l.cellVoltage,
  },
  { id: 'reserve', words: 'charge left', channel: 'charge', dimension: 'fraction', shown: '%', sense: 'floor', datum: (l) => l.reserve },
];

/** Limits on a magnitude: braking counts as driving does. */
const EITHER_WAY: ReadonlySet<LimitId> = new Set(['motorCurrent', 'inputPower']);

const ENERGY_CAP = {
  id: 'batteryEnergy',
  words: 'energy from the pack (cap)',
  dimension: 'energy',
  shown: 'W·h',
  sense: 'ceiling',
} as const;
const LEAST_TIME = { id: 'runTime', words: 'time it lasts', dimension: 'time', shown: 'min', sense: 'floor' } as const;

/** Where a bound came from, in words. */
export function originOf(datum: Datum): string {
  if (datum.origin.kind === 'given') return `${datum.origin.place.file} line ${datum.origin.place.line}`;
  const rule = RULES[datum.origin.rule];
  return `${rule.words}, ${rule.source}`;
}

/** What follows from a class or grade that was given. */
const FROM_GIVEN: ReadonlySet<RuleId> = new Set(['insulation-class', 'magnet-grade']);
const isAssumed = ({ origin }: Datum): boolean => origin.kind === 'default' && !FROM_GIVEN.has(origin.rule);

/**
 * All limits that are set, the one nearest to its bound (as a share of the way from the start) first. `lasting`: how long the profile lasts
 * when it is driven again and again [s]; needed only where a run time is asked for.
 */
export function limitsOf(simulation: Simulation, data: DriveSystem<Datum>, lasting = Number.NaN): LimitResult[] {
  const { highest, lowest, passed, drawn, time } = simulation;
  const starts = startsOf(simulation, data);
  const found: LimitResult[] = [];
  const tell = (
    spec: Omit<LimitSpec, 'channel' | 'datum'> & { readonly channel?: ChannelId },
    datum: Datum,
    worst: Peak,
    passedAt: number | undefined,
  ): void => {
    const { id, words, dimension, shown, sense, channel } = spec;
    const bound = datum.value;
    const start = starts[id] ?? 0;
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
      ...(margin < 0 ? { passedAt: passedAt ?? worst.time, ...passedFor(simulation, channel, bound, sense, EITHER_WAY.has(id)) } : {}),
    });
  };
  for (const spec of LIMITS) {
    const datum = spec.datum(data.limits);
    if (!Number.isFinite(datum.value) || (spec.id === 'reserve' && datum.value === 0)) continue;
    // the pack's voltage is chosen, not run into: it is told only when it is too high
    const chosen = spec.id === 'busVoltage';
    if (chosen && highest.busVoltage.value <= datum.value) continue;
    const worst = EITHER_WAY.has(spec.id) ? largest(spec.channel, simulation) : (spec.sense === 'ceiling' ? highest : lowest)[spec.channel];
    tell(spec, datum, worst, chosen ? undefined : passed.get(spec.id as KernelEvent));
  }
  const { batteryEnergy, runTime } = data.limits;
  if (drawn !== undefined) tell(ENERGY_CAP, batteryEnergy, { value: drawn.energy, time }, drawn.passedAt);
  if (runTime.value > 0) tell(LEAST_TIME, runTime, { value: lasting, time: lasting }, lasting);
  return found.sort((a, b) => a.marginShare - b.marginShare);
}

/** Shorter than this a limit is touched, and nothing is said of how long [s]. */
const TOUCH = 1e-3;

/** How long a channel lies past a bound, between straight lines through the recorded samples [s]. */
function passedFor(
  { recorded }: Simulation,
  channel: ChannelId | undefined,
  bound: number,
  sense: LimitSpec['sense'],
  eitherWay: boolean,
): { readonly passedFor?: number } {
  if (recorded === undefined || channel === undefined) return {};
  const { time } = recorded.trace;
  const past = recorded.trace[channel].map((value) =>
    sense === 'ceiling' ? (eitherWay ? Math.abs(value) : value) - bound : bound - value,
  );
  let total = 0;
  for (let k = 1; k < time.length; k++) {
    const [a, b] = [Math.max(0, past[k - 1]), Math.max(0, past[k])];
    const fall = Math.abs(past[k] - past[k - 1]);
    // both past: the whole piece; one past: its share up to the crossing
    if (a > 0 && b > 0) total += time[k] - time[k - 1];
    else if (fall > 0) total += ((time[k] - time[k - 1]) * (a + b)) / fall;
  }
  return total < TOUCH ? {} : { passedFor: total };
}

/** Until the reserve is reached, or the cut-off, or a day is over, with the profile driven again and again [s]. */
export const lastingOf = (again: Pick<Simulation, 'time' | 'passed'>, reserve: number): number =>
  (reserve > 0 ? again.passed.get('reserve') : undefined) ?? again.time;

/** Where the way to a limit begins: temperatures and charge as the run starts, the cells' voltage at rest; everything else begins at 0. */
function startsOf({ initialState, kernel }: Simulation, data: DriveSystem<Datum>): Partial<Record<LimitId, number>> {
  const { at } = kernel;
  const charge = initialState[at.charge];
  return {
    windingTemperature: initialState[at.winding],
    magnetTemperature: initialState[at.magnets],
    controllerTemperature: initialState[at.controller],
    cellTemperature: initialState[at.cells],
    reserve: charge,
    cellVoltage: openCircuitVoltage(data.battery.openCircuit, charge) + data.battery.voltageOffset.value,
  };
}

/** Whether a run was driven to its end with no limit passed. */
export const meetsLimits = (simulation: Pick<Simulation, 'end'>, limits: readonly LimitResult[]): boolean =>
  simulation.end === 'finished' && limits.every((limit) => limit.passedAt === undefined && limit.margin >= 0);
