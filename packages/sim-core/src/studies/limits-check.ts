/** How a run stands to each of its limits, the closest first. */
import type { DriveSystem } from '../drive/drive-system.js';
import type { KernelEvent } from '../kernel/event-margins.js';
import { openCircuitVoltage } from '../parts/battery.js';
import type { Datum } from '../provenance/datum.js';
import { RULES } from '../provenance/rules.js';
import type { Dimension } from '../quantities/index.js';
import type { ChannelId } from '../results/channels.js';
import type { LimitId, LimitResult } from '../results/run-result.js';
import type { Simulation } from './simulate.js';

interface LimitSpec {
  readonly id: LimitId;
  readonly words: string;
  readonly channel: ChannelId;
  readonly dimension: Dimension;
  readonly shown: string;
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

/** Where a bound came from, in words. */
export function originOf(datum: Datum): string {
  if (datum.origin.kind === 'given') return `${datum.origin.place.file} line ${datum.origin.place.line}`;
  const rule = RULES[datum.origin.rule];
  return `${rule.words}, ${rule.source}`;
}

/** All limits that are set, the one nearest to its bound (as a share of the way from the start) first. */
export function limitsOf(simulation: Simulation, data: DriveSystem<Datum>): LimitResult[] {
  const { highest, lowest, passed } = simulation;
  const starts = startsOf(simulation, data);
  const found: LimitResult[] = [];
  for (const spec of LIMITS) {
    const datum = spec.datum(data.limits);
    const bound = datum.value;
    if (!Number.isFinite(bound) || (spec.id === 'reserve' && bound === 0)) continue;
    const ceiling = spec.sense === 'ceiling';
    // the pack's voltage is chosen, not run into: it is told only when it is too high
    if (spec.id === 'busVoltage' && highest.busVoltage.value <= bound) continue;
    const worst = ceiling ? highest[spec.channel] : lowest[spec.channel];
    const start = starts[spec.id] ?? 0;
    const margin = ceiling ? bound - worst.value : worst.value - bound;
    const span = Math.abs(bound - start);
    const passedAt = margin < 0 ? (spec.id === 'busVoltage' ? worst.time : passed.get(spec.id as KernelEvent)) : undefined;
    found.push({
      id: spec.id,
      words: spec.words,
      dimension: spec.dimension,
      shown: spec.shown,
      bound,
      origin: originOf(datum),
      sense: spec.sense,
      start,
      worst: worst.value,
      worstTime: worst.time,
      margin,
      marginShare: span > 0 ? margin / span : margin,
      ...(margin < 0 ? { passedAt: passedAt ?? worst.time } : {}),
    });
  }
  return found.sort((a, b) => a.marginShare - b.marginShare);
}

/** Where the way to a limit begins: temperatures and charge as the run starts, the cells' voltage at rest; everything else begins at 0. */
function startsOf({ initialState, kernel }: Simulation, data: DriveSystem<Datum>): Partial<Record<LimitId, number>> {
  const body = (k: number): number => initialState[kernel.bodyIndex[k]];
  const charge = initialState[kernel.dimension - 3];
  return {
    windingTemperature: body(0),
    magnetTemperature: body(3),
    controllerTemperature: body(4),
    cellTemperature: body(5),
    reserve: charge,
    cellVoltage: openCircuitVoltage(data.battery.openCircuit, charge) + data.battery.voltageOffset.value,
  };
}

/** Whether a run was driven to its end with no limit passed. */
export const meetsLimits = (simulation: Pick<Simulation, 'end'>, limits: readonly LimitResult[]): boolean =>
  simulation.end === 'finished' && limits.every((limit) => limit.passedAt === undefined && limit.margin >= 0);
