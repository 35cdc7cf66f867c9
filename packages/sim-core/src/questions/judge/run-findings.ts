/** What the physics said during a run. @module */

import { damageTemperatures } from '../../drive/damage.js';
import type { DriveSystem } from '../../drive/drive-system.js';
import { byHeatLimit, HEAT_LIMIT_BODY, HEAT_LIMITS, type LimitedBody } from '../../drive/heat-limits.js';
import type { ProfileStep } from '../../drive/profile.js';
import type { GivenDrive } from '../../provenance/given.js';
import type { Finding } from '../../results/finding.js';
import type { Simulation } from '../simulate/simulate.js';
import { SPACE_SIDES, spaceRoom } from './space.js';

/** The body that passed its damage temperature, or came nearest to it by rounding. */
function burntBody({ state, kernel }: Simulation, { limits }: DriveSystem): { readonly body: LimitedBody; readonly value: number } {
  const damage = damageTemperatures(limits);
  const value = byHeatLimit((id) => state[kernel.at[HEAT_LIMIT_BODY[id]]]);
  const most = HEAT_LIMITS.reduce((a, b) => (value[b] - damage[b] > value[a] - damage[a] ? b : a));
  return { body: HEAT_LIMIT_BODY[most], value: value[most] };
}

/** Charge that is no rounding of full [1]. */
const OVERCHARGED = 1.002;

/** A hold that is reached this nearly is held: no instrument tells, and three digits print the same [1]. */
const HELD = 1e-3;

/** Findings of one candidate's run, in the order of their families; limits passed are told with the limits. */
export function findingsOf(
  name: string,
  simulation: Simulation,
  system: DriveSystem,
  profile: readonly ProfileStep[],
  given: GivenDrive,
): Finding[] {
  const findings: Finding[] = [];
  const label = (step: number) => {
    const words = profile[step].label;
    return words === undefined ? {} : { label: words };
  };
  const seen = new Set<string>();
  for (const each of simulation.lost) {
    if (seen.has(`lost${each.step}`) || Math.abs(each.wanted - each.reached) <= HELD * Math.abs(each.wanted)) continue;
    seen.add(`lost${each.step}`);
    findings.push({
      candidate: name,
      time: each.time,
      kind: 'step-not-held',
      step: each.step,
      ...label(each.step),
      ...(each.until === undefined ? {} : { until: each.until }),
      ...(each.climb ? { what: 'climb' as const } : {}),
      wanted: each.wanted,
      reached: each.reached,
    });
  }
  for (const [step, limited] of simulation.limited)
    findings.push({ candidate: name, kind: 'current-limited', step, ...label(step), ...limited });
  for (const step of simulation.braked) findings.push({ candidate: name, kind: 'braked-beyond-drive', step, ...label(step) });
  for (const step of simulation.stalled) findings.push({ candidate: name, kind: 'motor-stalled', step, ...label(step) });
  for (const [step, { time, bound }] of simulation.spun)
    findings.push({ candidate: name, time, kind: 'wheels-spin', step, ...label(step), bound });
  for (const [step, { time, speed, bound }] of simulation.tooSlow)
    findings.push({ candidate: name, time, kind: 'below-stall-speed', step, ...label(step), value: speed, bound });
  for (const [step, { time, left, weight }] of simulation.vertical)
    findings.push({ candidate: name, time, kind: 'steeper-than-vertical', step, ...label(step), value: left, bound: weight });
  for (const step of simulation.unstable) {
    findings.push({
      candidate: name,
      kind: 'no-operating-point',
      step,
      ...label(step),
      why: 'the motor’s torque rises faster with speed than the load’s, so the crossing does not hold',
    });
  }
  if (simulation.end === 'failed') {
    const { step, time, why } = simulation.failure;
    findings.push({ candidate: name, time, kind: 'no-operating-point', step, ...label(step), why });
  }
  if (simulation.end === 'burnt')
    findings.push({ candidate: name, time: simulation.time, kind: 'burnt-out', ...burntBody(simulation, system) });
  if (simulation.end === 'cut-off')
    findings.push({ candidate: name, time: simulation.time, kind: 'cut-off-reached', bound: system.limits.cellVoltage });
  if (simulation.end === 'empty') findings.push({ candidate: name, time: simulation.time, kind: 'battery-empty' });
  const table = simulation.passed.get('propellerTable');
  if (table !== undefined && system.load.kind === 'propeller') {
    findings.push({
      candidate: name,
      time: table,
      kind: 'outside-propeller-table',
      ...(Number.isFinite(simulation.outsideTable)
        ? {
            value:
              (simulation.outsideTable < 0 ? system.load.table.supported.from : system.load.table.supported.to) + simulation.outsideTable,
          }
        : {}),
      bound: simulation.outsideTable < 0 ? system.load.table.supported.from : system.load.table.supported.to,
    });
  }
  const drag = simulation.passed.get('dragTable');
  const rows = system.vehicle.dragTable;
  if (drag !== undefined && rows !== undefined) {
    findings.push({
      candidate: name,
      time: drag,
      kind: 'outside-drag-table',
      value: simulation.highest.vehicleSpeed.value,
      bound: rows.speed[rows.speed.length - 1],
    });
  }
  for (const [step, { time, voltage, bound }] of simulation.overrun)
    findings.push({ candidate: name, time, kind: 'motor-overrun', step, ...label(step), value: voltage, bound });
  const { value: charge, time: fullest } = simulation.highest.charge;
  if (charge > OVERCHARGED) findings.push({ candidate: name, time: fullest, kind: 'pack-overcharged', value: charge, bound: 1 });
  const room = spaceRoom(given, system);
  for (const what of SPACE_SIDES) {
    const side = room?.[what];
    if (side !== undefined && side.room < 0)
      findings.push({ candidate: name, kind: 'does-not-fit', what, value: side.size, bound: side.bound });
  }
  return findings;
}
