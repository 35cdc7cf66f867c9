/** From the texts of a scenario and its parts to given data, or to all problems at once. @module */
import { certain } from '../problems/certain.js';
import type { ScenarioProblem } from '../problems/index.js';
import type { GivenDrive, GivenScenario } from '../provenance/given.js';
import { logText, readComparison } from './comparison.js';
import { checkDrive } from './drive-checks.js';
import { given } from './given.js';
import { givenDrive } from './given-drive.js';
import { logProfileSteps } from './log/log-profile.js';
import { mergeMaps, NONE, withoutNone } from './merge.js';
import { nearestWord } from './nearest-key.js';
import { checkNone } from './never-none.js';
import { type Documents, type FileTexts, gatherDocuments, isPartKind, partKindProblem, withParts } from './part-files.js';
import { profileSteps, type ReadProfile } from './profile.js';
import { checkReadings } from './reading-checks.js';
import { candidateName, drive, head, PARTS, SECTION_NAMES } from './schema/drive.js';
import { logProfile } from './schema/log.js';
import { profile } from './schema/profile.js';
import { tooManyCandidates } from './size-checks.js';
import { validate } from './validate.js';
import { alternatives, inPath, problem, quoted } from './wording.js';
import { childOf, type LocatedEntry, type LocatedMap, type LocatedNode, textOf, withEntries, without } from './yaml/located-tree.js';

/** What came of reading. */
export type ScenarioReading =
  /** `files` are the scenario, its parts and its log file. */
  | { readonly kind: 'read'; readonly scenario: GivenScenario; readonly files: readonly string[] }
  | { readonly kind: 'problems'; readonly problems: readonly ScenarioProblem[] }
  /** Files named by `use:` that are not among the texts yet; null as text says that a file cannot be read. */
  | { readonly kind: 'needs'; readonly needs: readonly string[] };

/**
 * 1 read every document, 2 check each by itself, 3 bring in parts and merge, 4 check the merged whole, 5 turn it into given data.
 * All problems come back at once. Paths have forward slashes; `use:` is counted from the file that says it. `measured` is the path of a log that the
 * run is compared with, in place of the one that the scenario names; null for none.
 */
export function readScenario(files: FileTexts, main: string, measured?: string | null): ScenarioReading {
  const documents = gatherDocuments(files, main, measured);
  if (documents.needs.length > 0) return { kind: 'needs', needs: documents.needs };
  const problems = [...documents.byPath.values()].flatMap((document) => document?.problems ?? []);
  const root = documents.byPath.get(main)?.root;
  if (root === undefined) {
    if (documents.byPath.get(main) === null) {
      const place = { file: main, line: 1, column: 1, path: '' };
      problems.push(problem('missing-file', place, 'a scenario', `${quoted(main)}, which cannot be read`));
    }
    return { kind: 'problems', problems };
  }

  problems.push(...checkParts(documents));
  const common = pick(root, SECTION_NAMES);
  problems.push(...checkDocument(common));
  const top = readHead(root, documents, problems);
  const crowd = tooManyCandidates(root, top?.profile.length ?? 0);
  if (crowd !== undefined) problems.push(crowd);
  // what was read beside the candidates says whose it is, and is not inherited
  const readings = readReadings(pick(common, ['readings']));
  const candidates = crowd === undefined ? readCandidates(root, without(common, 'readings'), documents, problems) : [];

  const names = candidates.map(({ name }) => name);
  if (problems.length === 0 && top?.measured?.candidate !== undefined && !names.includes(top.measured.candidate)) {
    const { candidate } = top.measured;
    const place = childOf(childOf(root, 'measured'), 'candidate')?.place ?? root.place;
    problems.push(problem('unknown-choice', place, alternatives(names), quoted(candidate), { nearest: nearestWord(candidate, names) }));
  }
  const found = withoutRepetition(problems, main);
  if (found.length > 0 || top === undefined) return { kind: 'problems', problems: found };
  return {
    kind: 'read',
    scenario: { ...top, candidates, ...readings },
    // a log from outside is no part of the scenario
    files: [...new Set([...documents.byPath.keys(), ...[...documents.logs.values()].map(({ path }) => path)])].filter(
      (path) => path !== measured,
    ),
  };
}

/** Problems of theirs are told with the document's. */
function readReadings(beside: LocatedMap): Pick<GivenScenario, 'readings'> {
  const read = validate(drive, beside);
  const { readings } = read.ok ? given(read.value, beside) : {};
  return readings === undefined ? {} : { readings };
}

function readHead(root: LocatedMap, documents: Documents, problems: ScenarioProblem[]): Omit<GivenScenario, 'candidates'> | undefined {
  const profileNode = childOf(root, 'profile');
  const top = validate(head.omit({ profile: true }), without(root, ...SECTION_NAMES, 'candidates', 'profile'), [
    'profile',
    'candidates',
    ...SECTION_NAMES,
  ]);
  if (!top.ok) problems.push(...top.problems);
  const read = profileNode === undefined ? undefined : readProfile(profileNode, documents, problems, hasWheels(root));
  if (profileNode === undefined || (read?.steps.length === 0 && read.problems.length === 0)) {
    const place = profileNode?.place ?? { ...root.place, path: 'profile' };
    const hint = 'write profile: [{ for: 3 min, throttle: 80 % }]';
    problems.push(problem('nothing-to-do', place, 'a profile with at least one step', profileNode ? 'an empty one' : 'none', { hint }));
  }
  if (!top.ok || read === undefined) return undefined;
  const { title, notes, objective = 'coolest' } = top.value;
  const log = read.facts === undefined ? {} : { log: read.facts };
  const measured = readComparison(root, top.value.measured, documents, problems, read.measured, hasWheels(root));
  return {
    title,
    ...(notes === undefined ? {} : { notes }),
    objective,
    profile: read.steps,
    ...log,
    ...(measured === undefined ? {} : { measured }),
  };
}

/** Whether a car is meant: wheels for all, or for some candidate. */
function hasWheels(root: LocatedMap): boolean {
  const candidates = childOf(root, 'candidates');
  return [root, ...(candidates?.kind === 'list' ? candidates.items : [])].some((each) => childOf(each, 'wheel') !== undefined);
}

function readProfile(node: LocatedNode, documents: Documents, problems: ScenarioProblem[], wheels: boolean): ReadProfile | undefined {
  if (childOf(node, 'log') !== undefined) return readLog(node as LocatedMap, documents, problems, wheels);
  const entries = validate(profile, node);
  if (!entries.ok) {
    problems.push(...entries.problems);
    return undefined;
  }
  const read = profileSteps(entries.value, node);
  problems.push(...read.problems);
  return read;
}

/** A profile that is a map names a log file. */
function readLog(node: LocatedMap, documents: Documents, problems: ScenarioProblem[], wheels: boolean): ReadProfile | undefined {
  const entry = validate(logProfile, node);
  if (!entry.ok) {
    problems.push(...entry.problems);
    return undefined;
  }
  const { place } = certain(childOf(node, 'log'), 'log');
  const log = documents.logs.get('profile');
  const text = logText(log, place, entry.value.log, problems);
  if (log === undefined || text === undefined) return undefined;
  const read = logProfileSteps(entry.value, node, log.path, text, wheels);
  problems.push(...read.problems);
  return read;
}

function readCandidates(root: LocatedMap, common: LocatedMap, documents: Documents, problems: ScenarioProblem[]) {
  const node = childOf(root, 'candidates');
  const hint = 'write candidates: and below it - name: …, with a motor';
  if (node?.kind !== 'list' || node.items.length === 0) {
    const nothing = node === undefined || node.kind === 'list' || textOf(node) === '';
    const place = node?.place ?? { ...root.place, path: 'candidates' };
    problems.push(
      nothing
        ? problem('nothing-to-do', place, 'at least one candidate', 'none', { hint })
        : problem('wrong-type', place, 'a list of candidates, each after a dash', 'something else', { hint }),
    );
    return [];
  }
  const base = withParts(common, documents, problems);
  const names = new Map<string, number>();
  const candidates: { readonly name: string; readonly given: GivenDrive }[] = [];
  for (const item of node.items) {
    if (item.kind !== 'map') {
      problems.push(
        problem('wrong-type', item.place, 'a candidate with name and motor', item.kind === 'list' ? 'a list' : quoted(item.text), { hint }),
      );
      continue;
    }
    const own = pick(item, SECTION_NAMES);
    problems.push(...checkDocument(own));
    const named = validate(candidateName, without(item, ...SECTION_NAMES), SECTION_NAMES);
    if (!named.ok) problems.push(...named.problems);

    const merged = oneRowAsList(mergeMaps(base, withParts(own, documents, problems)));
    problems.push(...checkDrive(merged));
    const whole = validate(drive, merged);
    if (!whole.ok) problems.push(...whole.problems);
    if (!named.ok) continue;
    const { name } = named.value;
    const earlier = names.get(name);
    if (earlier === undefined) names.set(name, item.place.line);
    else
      problems.push(
        problem(
          'duplicate-name',
          certain(childOf(item, 'name'), 'name').place,
          'a name of its own for each candidate',
          `${quoted(name)}, as in line ${earlier}`,
        ),
      );
    if (whole.ok) candidates.push({ name, given: givenDrive(whole.value, merged) });
  }
  return candidates;
}

/** Each document by itself: everything but what may still come from elsewhere. */
function checkDocument(written: LocatedMap): readonly ScenarioProblem[] {
  const kept = [...written.entries]
    .filter(([key, { value }]) => textOf(value) !== NONE && !(key === 'propeller' && value.kind === 'map' && !value.entries.has('kind')))
    .map(
      ([key, entry]) =>
        [key, isPartKind(key) && entry.value.kind === 'map' ? { ...entry, value: without(entry.value, 'use') } : entry] as const,
    );
  const listedRows = oneRowAsList(withoutNone(withEntries(written, kept)));
  return [
    ...checkNone(written),
    ...withoutMissing(validate(drive, listedRows)),
    ...checkReadings(childOf(listedRows, 'readings')),
    ...checkReadings(childOf(childOf(listedRows, 'motor'), 'readings')),
  ];
}

function checkParts(documents: Documents): readonly ScenarioProblem[] {
  return [...documents.byPath].flatMap(([path, document]) => {
    const root = document?.root;
    if (root === undefined || path === documents.main) return [];
    const part = textOf(childOf(root, 'part'));
    if (part === undefined || !isPartKind(part)) return partKindProblem(root) ?? [];
    const body = withoutNone(without(root, 'part', 'use'));
    if (part === 'propeller' && !body.entries.has('kind')) return [];
    const whole = part === 'motor' ? listed(body) : body;
    return [...withoutMissing(validate(PARTS[part], whole)), ...(part === 'motor' ? checkReadings(childOf(whole, 'readings')) : [])];
  });
}

const withoutMissing = (result: ReturnType<typeof validate>): readonly ScenarioProblem[] =>
  result.ok ? [] : result.problems.filter(({ kind }) => kind !== 'missing-datum');

function pick(map: LocatedMap, keys: readonly string[]): LocatedMap {
  return withEntries(
    map,
    [...map.entries].filter(([key]) => keys.includes(key)),
  );
}

/** People with one row of no-load data write it without a list. */
function oneRowAsList(written: LocatedMap): LocatedMap {
  const motor = written.entries.get('motor');
  if (motor?.value.kind !== 'map') return written;
  return withEntries(written, new Map<string, LocatedEntry>(written.entries).set('motor', { ...motor, value: listed(motor.value) }));
}

function listed(motor: LocatedMap): LocatedMap {
  const row = motor.entries.get('no_load');
  if (row?.value.kind !== 'map') return motor;
  const list: LocatedNode = { kind: 'list', place: row.value.place, items: [row.value] };
  return withEntries(motor, new Map<string, LocatedEntry>(motor.entries).set('no_load', { ...row, value: list }));
}

/**
 * One problem to a place and path, the first found; in reading order, the scenario's own before its parts'. What is missing only because its
 * key is misspelt is said once, by the misspelt key.
 */
function withoutRepetition(problems: readonly ScenarioProblem[], main: string): readonly ScenarioProblem[] {
  const misspelt = new Set(
    problems.flatMap(({ kind, place, nearest }) => (kind === 'unknown-key' && nearest ? [inPath(above(place.path), nearest)] : [])),
  );
  const first = new Map<string, ScenarioProblem>();
  for (const found of problems) {
    const { file, line, column, path } = found.place;
    if ((found.kind === 'missing-datum' || found.kind === 'nothing-to-do') && misspelt.has(path)) continue;
    const key = `${file}\n${line}:${column}:${path}`;
    if (!first.has(key)) first.set(key, found);
  }
  const order = ({ file }: ScenarioProblem['place']) => (file === main ? '' : file);
  return [...first.values()].sort(
    ({ place: a }, { place: b }) => (order(a) < order(b) ? -1 : order(a) > order(b) ? 1 : 0) || a.line - b.line || a.column - b.column,
  );
}

const above = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf('.')));
