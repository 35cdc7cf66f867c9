/** What no single key of a reading can know of itself: when it was taken, and what can be read then. @module */

import type { ScenarioProblem } from '../problems/index.js';
import { alternatives, inPath, problem } from './wording.js';
import { childOf, type LocatedNode } from './yaml/located-tree.js';

const OCCASIONS = ['throttle', 'at', 'after'] as const;
type Occasion = (typeof OCCASIONS)[number] | 'cold';
const occasionOf = (given: readonly Occasion[]): Occasion => given[0] ?? 'cold';

const ELECTRIC = ['battery_current', 'motor_current', 'shaft_speed', 'thrust'];
const SURFACES = ['can', 'end', 'controller', 'cells'];
const TEMPERATURES = [...SURFACES, 'beside_coils', 'in_slot'];

/** What is read on each occasion, and what may stand beside it as a condition. */
const TAKEN: Readonly<Record<Occasion, { readonly words: string; readonly read: readonly string[]; readonly beside: readonly string[] }>> =
  {
    throttle: { words: 'at a throttle', read: ELECTRIC, beside: ['throttle', 'voltage', 'vehicle_speed'] },
    at: { words: 'in the run', read: [...ELECTRIC, 'voltage', ...TEMPERATURES], beside: ['at', 'emissivity'] },
    after: { words: 'after the stop', read: [...TEMPERATURES, 'resistance'], beside: ['after', 'emissivity'] },
    cold: { words: 'without throttle, at or after', read: ['resistance'], beside: ['resistance_at'] },
  };
const ALWAYS = ['measured_with', 'source'];

/** Of a list of readings, wherever it stands; nothing of what is no list of rows, which the schema refuses. */
export function checkReadings(list: LocatedNode | undefined): readonly ScenarioProblem[] {
  return list?.kind === 'list' ? list.items.flatMap(checkRow) : [];
}

function checkRow(row: LocatedNode): readonly ScenarioProblem[] {
  if (row.kind !== 'map') return [];
  const given = OCCASIONS.filter((key) => row.entries.has(key));
  if (given.length > 1) {
    const { keyPlace } = row.entries.get(given[1]) ?? { keyPlace: row.place };
    const hint = 'what was read at different moments stands in rows of its own';
    return [problem('conflict', keyPlace, alternatives(OCCASIONS), given.join(' and '), { hint })];
  }
  const occasion = occasionOf(given);
  const { words, read, beside } = TAKEN[occasion];
  const problems: ScenarioProblem[] = [];
  for (const [key, { keyPlace }] of row.entries) {
    if ([...read, ...beside, ...ALWAYS].includes(key)) continue;
    const elsewhere = (Object.keys(TAKEN) as Occasion[]).filter(
      (each) => TAKEN[each].read.includes(key) || TAKEN[each].beside.includes(key),
    );
    // an unknown key is told by the schema
    if (elsewhere.length === 0) continue;
    const when = elsewhere.map((each) => (each === 'cold' ? 'alone' : `beside ${each}`)).join(' or ');
    const hint =
      occasion === 'cold'
        ? 'say when it was read: throttle: 100 % on the bench, at: 90 s into the run, or after: 60 s from its stop'
        : `${key} stands ${when}`;
    problems.push(problem('conflict', keyPlace, `what is read ${words}: ${alternatives(read)}`, key, { hint }));
  }
  const emissivity = childOf(row, 'emissivity');
  const inside = ['beside_coils', 'in_slot'].filter((key) => row.entries.has(key));
  if (emissivity !== undefined && (inside.length > 0 || !SURFACES.some((key) => row.entries.has(key)))) {
    const hint = 'an infrared thermometer sees a surface: can, end, controller or cells';
    problems.push(problem('conflict', emissivity.place, 'emissivity beside a surface', inside[0] ?? 'no temperature of one', { hint }));
  }
  if (problems.length === 0 && !read.some((key) => row.entries.has(key)))
    problems.push(
      problem('missing-datum', { ...row.place, path: inPath(row.place.path, read[0]) }, `what was read: ${alternatives(read)}`, 'nothing'),
    );
  return problems;
}
