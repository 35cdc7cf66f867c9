/** Whose drive each reading of a scenario was taken on. @module */

import type { ScenarioProblem } from '../problems/index.js';
import type { GivenDrive, GivenReadingRow } from './given.js';

interface Named {
  readonly name: string;
  readonly given: GivenDrive;
}

/** A row, and the candidate whose drive it was read on. */
export interface TakenReading {
  readonly row: GivenReadingRow;
  readonly candidate: string;
  /** Others that have the motor it was read on, where nobody was named. */
  readonly alsoOf?: readonly string[];
}

/** Whether the propeller was already measured by this very reading. */
function alsoAPoint({ voltage, batteryCurrent }: GivenReadingRow, given: GivenDrive | undefined): boolean {
  const { propeller } = given ?? {};
  if (voltage === undefined || batteryCurrent === undefined || propeller === undefined || !('points' in propeller)) return false;
  return (propeller.points ?? []).some(
    (point) => point.voltage?.value === voltage.value && point.batteryCurrent?.value === batteryCurrent.value,
  );
}

/** Every row once: those of candidates are theirs, those of a motor anybody's that has it; those beside the candidates say whose, where several could be meant. */
export function takenReadings(
  candidates: readonly Named[],
  beside: readonly GivenReadingRow[],
): { readonly taken: readonly TakenReading[]; readonly problems: readonly ScenarioProblem[] } {
  const problems: ScenarioProblem[] = [];
  const taken: TakenReading[] = [];
  const names = candidates.map(({ name }) => name);
  const found = new Map<string, { readonly row: GivenReadingRow; readonly whose: string[]; readonly motors: boolean }>();
  const note = (row: GivenReadingRow, name: string, motors: boolean): void => {
    const key = `${row.place.file}:${row.place.line}:${row.place.column}`;
    const known = found.get(key);
    if (known === undefined) found.set(key, { row, whose: [name], motors });
    else known.whose.push(name);
  };
  for (const row of beside) for (const name of names) note(row, name, false);
  for (const { name, given } of candidates) {
    for (const row of given.motor?.readings ?? []) note(row, name, true);
    for (const row of given.readings ?? []) note(row, name, false);
  }
  for (const { row, whose, motors } of found.values()) {
    const { measuredWith } = row;
    const place = { ...row.place, path: `${row.place.path}.measured_with` };
    if (measuredWith !== undefined && !whose.includes(measuredWith))
      problems.push({
        kind: 'unknown-choice',
        place,
        expected: 'the name of a candidate that it can have been read on',
        found: `“${measuredWith}”`,
        hint: `one of ${whose.join(', ')}`,
      });
    else if (measuredWith !== undefined || whose.length === 1 || motors) {
      const candidate = measuredWith ?? whose[0];
      if (alsoAPoint(row, candidates.find(({ name }) => name === candidate)?.given))
        problems.push({
          kind: 'conflict',
          place: row.place,
          expected: 'a reading in one place',
          found: 'the same volts and amperes among the propeller’s points',
          hint: 'there the motor tells of the propeller, here the propeller of the motor: keep the one that is known worse out',
        });
      taken.push({ row, candidate, ...(measuredWith === undefined && whose.length > 1 ? { alsoOf: whose.slice(1) } : {}) });
    } else
      problems.push({
        kind: 'missing-datum',
        place,
        expected: 'the name of the candidate whose drive it was read on',
        found: 'nothing, where several have it',
        hint: `measured_with: ${whose[0]}, or another of ${whose.join(', ')}; a reading may also stand below its candidate`,
      });
  }
  return { taken, problems };
}
