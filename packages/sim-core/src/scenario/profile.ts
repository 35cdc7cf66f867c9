/** From a profile’s entries to steps in a row. @module */

import { type Held, type ProfileStep, profileDuration, stepOfParts } from '../drive/profile.js';
import { certain } from '../problems/certain.js';
import type { ScenarioProblem } from '../problems/index.js';
import type { Place } from '../provenance/datum.js';
import type { LogFacts } from '../provenance/given.js';
import type { MeasuredLog } from '../provenance/measurables.js';
import { formatQuantity } from '../quantities/index.js';
import { MOST_STEPS, type ProfileEntry } from './schema/profile.js';
import { alternatives, problem } from './wording.js';
import { childOf, type LocatedNode } from './yaml/located-tree.js';

export const HOLDS = {
  throttle: 'throttle',
  vehicle_speed: 'vehicleSpeed',
  shaft_speed: 'shaftSpeed',
  battery_power: 'batteryPower',
  battery_current: 'batteryCurrent',
  motor_current: 'motorCurrent',
  thrust: 'thrust',
} as const satisfies Partial<Record<keyof ProfileEntry, Held>>;
type HoldKey = keyof typeof HOLDS;
const HOLD_KEYS = Object.keys(HOLDS) as readonly HoldKey[];
const OF_A_STEP = ['for', 'climb', 'grade', ...HOLD_KEYS] as const;

export interface ReadProfile {
  readonly steps: readonly ProfileStep[];
  /** Where they come from a log file. */
  readonly facts?: LogFacts;
  readonly measured?: MeasuredLog;
  readonly problems: readonly ScenarioProblem[];
}

/** Validated entries → steps with all repeats unrolled. */
export function profileSteps(entries: readonly ProfileEntry[], node: LocatedNode): ReadProfile {
  const problems: ScenarioProblem[] = [];
  const items = (list: LocatedNode | undefined) => (list?.kind === 'list' ? list.items : []);

  const check = (entry: ProfileEntry, here: LocatedNode): void => {
    if (entry.repeat === undefined && entry.steps === undefined) problems.push(...stepProblems(entry, here.place));
    else {
      problems.push(...repeatProblems(entry, here));
      for (const [index, inner] of (entry.steps ?? []).entries()) check(inner, items(childOf(here, 'steps'))[index]);
    }
  };
  for (const [index, entry] of entries.entries()) check(entry, items(node)[index]);
  const total = countOf(entries);
  if (total > MOST_STEPS) {
    problems.push(
      problem('too-large', node.place, `at most ${MOST_STEPS} steps with all repeats`, `${total} steps`, {
        hint: 'repeat less often, or make one longer step of equal ones',
      }),
    );
  }
  const steps = problems.length > 0 ? [] : unrolled(entries);
  const duration = profileDuration(steps);
  if (steps.length > 0 && duration < LEAST_TIME) {
    problems.push(
      problem('out-of-range', node.place, 'a profile of a second or more', `${formatQuantity(duration, 'time', { unit: 's' })} in all`, {
        hint: 'min are minutes, ms thousandths of a second',
      }),
    );
  }
  return { steps: problems.length > 0 ? [] : steps, problems };
}

/** A profile is driven again and again until the pack is empty; shorter ones are slips of a unit [s]. */
const LEAST_TIME = 1;

const countOf = (entries: readonly ProfileEntry[]): number =>
  entries.reduce((sum, { repeat = 1, steps }) => sum + (steps === undefined ? 1 : repeat * countOf(steps)), 0);

function unrolled(entries: readonly ProfileEntry[]): readonly ProfileStep[] {
  return entries.flatMap((entry) => {
    if (entry.steps === undefined) return [stepOf(entry)];
    const once = unrolled(entry.steps);
    return Array.from({ length: entry.repeat ?? 1 }, () => once).flat();
  });
}

function stepOf(entry: ProfileEntry): ProfileStep {
  const held = certain(holdOf(entry), 'hold of a step');
  return stepOfParts({
    duration: certain(entry.for, 'time of a step').value,
    ...(entry.label === undefined ? {} : { label: entry.label }),
    hold: HOLDS[held],
    value: certain(entry[held], held),
    vehicleSpeed: held === 'vehicle_speed' ? undefined : entry.vehicle_speed,
    climb: entry.climb,
    grade: entry.grade,
  });
}

/** The one key that is held: `vehicle_speed` only where it stands alone. */
function holdOf(entry: ProfileEntry): HoldKey | undefined {
  const written = HOLD_KEYS.filter((key) => entry[key] !== undefined);
  return written.find((key) => key !== 'vehicle_speed') ?? written[0];
}

function stepProblems(entry: ProfileEntry, place: Place): readonly ScenarioProblem[] {
  const problems: ScenarioProblem[] = [];
  const held = HOLD_KEYS.filter((key) => entry[key] !== undefined);
  const others = held.filter((key) => key !== 'vehicle_speed');
  const at = (key: string): Place => ({ ...place, path: `${place.path}.${key}` });
  if (entry.for === undefined)
    problems.push(problem('missing-datum', at('for'), 'how long the step takes', 'nothing', { hint: 'write for: 45 s' }));
  if (held.length === 0) {
    problems.push(
      problem('missing-datum', place, `one of ${alternatives(HOLD_KEYS)}`, 'a step that holds nothing', { hint: 'throttle: 0 % is off' }),
    );
  }
  if (others.length > 1) {
    const hint = 'only vehicle_speed may stand beside another hold';
    problems.push(problem('conflict', place, 'one hold in a step', others.join(' and '), { hint }));
  }
  if (entry.climb !== undefined && entry.grade !== undefined) {
    problems.push(
      problem('conflict', at('grade'), 'climb or grade', 'both', { hint: 'climb is for aircraft, grade for what stays on the ground' }),
    );
  } else if (entry.climb !== undefined && (others.length > 0 || entry.vehicle_speed === undefined)) {
    const hint = 'with a throttle and a speed the climb is a result; with a speed alone it can be held';
    problems.push(
      problem('conflict', at('climb'), 'climb with vehicle_speed as the one hold', `climb with ${others[0] ?? 'no speed'}`, { hint }),
    );
  }
  const { climb, vehicle_speed: speed } = entry;
  const tooSteep = (end: 'from' | 'to'): boolean => climb !== undefined && speed !== undefined && Math.abs(climb[end]) > speed[end];
  if (tooSteep('from') || tooSteep('to')) {
    const hint = 'climb is the vertical part of vehicle_speed along the path, and cannot be more than all of it';
    problems.push(problem('conflict', at('climb'), 'a climb that is at most the vehicle speed', 'a larger one', { hint }));
  }
  return problems;
}

function repeatProblems(entry: ProfileEntry, here: LocatedNode): readonly ScenarioProblem[] {
  const { place } = here;
  const problems: ScenarioProblem[] = [];
  const at = (key: string): Place => childOf(here, key)?.place ?? { ...place, path: `${place.path}.${key}` };
  if (entry.repeat === undefined)
    problems.push(problem('missing-datum', at('repeat'), 'how often the steps are done', 'nothing', { hint: 'write repeat: 8' }));
  if (entry.steps === undefined || entry.steps.length === 0) {
    problems.push(
      problem('missing-datum', at('steps'), 'steps to repeat', 'nothing', { hint: 'write them below steps:, each after a dash' }),
    );
  }
  for (const key of OF_A_STEP) {
    if (entry[key] === undefined) continue;
    problems.push(problem('conflict', at(key), 'repeat and steps', `${key} beside them`, { hint: 'it belongs to one of the steps' }));
  }
  return problems;
}
