/** Checks over a whole drive, beyond any single section. @module */
import { entryOf } from '../problems/certain.js';
import type { ScenarioProblem } from '../problems/index.js';
import type { Place } from '../provenance/datum.js';
import { inPath, problem } from './wording.js';
import { childOf, type LocatedMap, textOf } from './yaml/located-tree.js';

const WHERE_TO_FIND = {
  battery: 'chemistry, cells and capacity stand on the label of the pack',
  motor: 'layout, kv, resistance, no-load current, mass and size stand on its data sheet',
} as const;

/** What no single section can know of itself: which of them a whole drive needs, and which exclude each other. */
export function checkDrive(drive: LocatedMap): readonly ScenarioProblem[] {
  const problems: ScenarioProblem[] = [];
  const has = (key: string) => drive.entries.has(key);
  const missing = (key: string): Place => ({ ...drive.place, path: inPath(drive.place.path, key) });
  for (const key of ['battery', 'motor'] as const) {
    if (!has(key))
      problems.push(
        problem('missing-datum', missing(key), `a ${key}, for this candidate or for all`, 'nothing', { hint: WHERE_TO_FIND[key] }),
      );
  }
  if (!has('propeller') && !has('wheel')) {
    const hint = 'write propeller: { kind: …, … } or wheel: { radius: … }';
    problems.push(problem('missing-datum', missing('propeller'), 'a propeller or a wheel', 'neither', { hint }));
  }
  if (has('propeller') && has('wheel')) {
    const hint = 'a candidate removes what all have in common by propeller: none or wheel: none';
    problems.push(problem('conflict', entryOf(drive.entries, 'wheel').keyPlace, 'a propeller or a wheel', 'both', { hint }));
  }
  const battery = childOf(drive, 'battery');
  const supply = childOf(battery, 'supply');
  const limit = childOf(battery, 'current_limit');
  const cell = [
    'cells',
    'capacity',
    'chemistry',
    'cell_resistance',
    'open_circuit',
    'polarisation',
    'cell_cutoff',
    'discharge_rating',
    'mass',
  ].find((key) => childOf(battery, key));
  if (supply && cell !== undefined)
    problems.push(
      problem('conflict', supply.place, 'a pack or a bench supply', `both supply and ${cell}`, {
        hint: 'a supply has voltage and current_limit only',
      }),
    );
  if (limit && !supply)
    problems.push(
      problem('conflict', limit.place, 'current_limit beside supply', 'a pack', {
        hint: 'a pack has discharge_rating; a controller has battery_current_limit',
      }),
    );
  const propeller = childOf(drive, 'propeller');
  const ratio = childOf(propeller, 'pitch_ratio');
  if (ratio && childOf(propeller, 'pitch'))
    problems.push(problem('conflict', ratio.place, 'pitch or pitch_ratio', 'both', { hint: 'keep the one you measured' }));
  const vehicle = childOf(drive, 'vehicle');
  const wing = childOf(vehicle, 'wing');
  if (wing && has('wheel'))
    problems.push(
      problem('conflict', wing.place, 'wheels or a wing', 'both', { hint: 'what flies is turned by a propeller, what rolls by wheels' }),
    );
  const dragArea = childOf(childOf(drive, 'wheel'), 'drag_area');
  if (dragArea && childOf(vehicle, 'drag_area'))
    problems.push(problem('conflict', dragArea.place, 'drag_area of the wheel or of the vehicle', 'both', { hint: 'keep one of them' }));
  if (has('wheel') && !has('vehicle') && !has('propeller')) {
    const hint = 'write vehicle: { mass: … }, ready to run but without motor and pack';
    problems.push(problem('missing-datum', missing('vehicle'), 'what the wheels carry', 'nothing', { hint }));
  }
  const poles = childOf(childOf(drive, 'motor'), 'poles');
  const polesText = textOf(poles);
  if (poles !== undefined && polesText !== undefined && Number(polesText) % 2 === 1) {
    problems.push(
      problem('out-of-range', poles.place, 'an even number of magnet poles', polesText, {
        hint: 'magnets are counted, not pole pairs or stator teeth',
      }),
    );
  }
  return problems;
}
