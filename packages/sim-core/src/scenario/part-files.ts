/** Part files that a scenario uses: read, checked, put in their place. @module */

import type { ScenarioProblem } from '../problems/index.js';
import { mergeMaps, type UsingMap } from './merge.js';
import { nearestWord } from './nearest-key.js';
import { partPath } from './part-paths.js';
import { PART_KINDS, type PartKind } from './schema/drive.js';
import { alternatives, problem, quoted } from './wording.js';
import { type ReadDocument, readDocument } from './yaml/located-document.js';
import { childOf, type LocatedEntry, type LocatedMap, textOf, withEntries, without } from './yaml/located-tree.js';

/** Texts by path; null where a path was asked for and could not be read. */
export type FileTexts = ReadonlyMap<string, string | null>;

export interface Documents {
  readonly main: string;
  /** null where the file could not be read. */
  readonly byPath: ReadonlyMap<string, ReadDocument | null>;
  readonly needs: readonly string[];
  /** The log files that are the profile or are compared with it, by where they are named; text null where one could not be read. */
  readonly logs: ReadonlyMap<LogSection, { readonly path: string; readonly text: string | null }>;
  /** Nothing is to be compared with the run. */
  readonly uncompared: boolean;
}

/** Sections of a scenario that name a log file. */
const LOG_SECTIONS = ['profile', 'measured'] as const;
export type LogSection = (typeof LOG_SECTIONS)[number];

export const isPartKind = (key: string): key is PartKind => (PART_KINDS as readonly string[]).includes(key);

/** The maps of a scenario that may say `use:`. */
function* partMaps(root: LocatedMap): Generator<LocatedMap> {
  const candidates = childOf(root, 'candidates');
  const holders = [root, ...(candidates?.kind === 'list' ? candidates.items : [])];
  for (const holder of holders) {
    if (holder.kind !== 'map') continue;
    for (const [key, { value }] of holder.entries) if (isPartKind(key) && value.kind === 'map') yield value;
  }
}

/** Reads the scenario and every part file it reaches, each once; what is not among the texts is needed. `measured` is the log to compare with, in place of the one named; null for none. */
export function gatherDocuments(files: FileTexts, main: string, measured?: string | null): Documents {
  const byPath = new Map<string, ReadDocument | null>();
  const needs: string[] = [];
  const waiting = [main];
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (byPath.has(path) || needs.includes(path)) continue;
    const text = files.get(path);
    if (text === undefined) needs.push(path);
    else if (text === null) byPath.set(path, null);
    else {
      const document = readDocument(path, text);
      byPath.set(path, document);
      if (document.root === undefined) continue;
      for (const map of path === main ? partMaps(document.root) : [document.root]) {
        const use = textOf(childOf(map, 'use'));
        const part = use === undefined ? undefined : partPath(main, path, use);
        if (part !== undefined) waiting.push(part);
      }
    }
  }
  const root = byPath.get(main)?.root;
  const logs = new Map<LogSection, { readonly path: string; readonly text: string | null }>();
  for (const section of LOG_SECTIONS) {
    if (section === 'measured' && measured === null) continue;
    const named = root === undefined ? undefined : textOf(childOf(childOf(root, section), 'log'));
    const path =
      section === 'measured' && typeof measured === 'string'
        ? measured
        : named === undefined
          ? undefined
          : partPath(main, main, named.trim());
    if (path === undefined) continue;
    const text = files.get(path);
    if (text !== undefined) logs.set(section, { path, text });
    else if (!needs.includes(path)) needs.push(path);
  }
  return { main, byPath, needs: needs.sort(), logs, uncompared: measured === null };
}

/** A section with its part file brought in below what stands beside `use:`. */
export function withPart(
  kind: PartKind,
  map: LocatedMap,
  documents: Documents,
  problems: ScenarioProblem[],
  chain: readonly string[],
): UsingMap {
  const useNode = childOf(map, 'use');
  if (useNode === undefined) return map;
  const beside = without(map, 'use');
  const { place } = useNode;
  const object = (...args: Parameters<typeof problem>): UsingMap => {
    problems.push(problem(...args));
    return beside;
  };
  const use = textOf(useNode);
  if (use === undefined || use === '')
    return object('wrong-type', place, 'the path of a part file, such as parts/motor.yaml', 'something else');
  const path = partPath(documents.main, place.file, use);
  if (path === undefined) {
    const hint = 'part files lie beside the scenario or in folders below it, and are named with forward slashes';
    return object('use-outside', place, 'a path inside the folder of the scenario', quoted(use), { hint });
  }
  if (chain.includes(path))
    return object('circular-use', place, 'a file that does not lead back to itself', [...chain, path].join(' uses '));
  const document = documents.byPath.get(path);
  if (document === null || document === undefined) {
    return object('missing-file', place, 'a part file', `${quoted(path)}, which cannot be read`, {
      hint: 'the path is counted from the file that says use:',
    });
  }
  if (document.root === undefined) return beside;
  const { root } = document;
  const part = textOf(childOf(root, 'part'));
  if (part !== kind) {
    const at = childOf(root, 'part')?.place ?? { ...root.place, path: 'part' };
    const found = part === undefined ? 'no such line' : quoted(part);
    const nearest = part !== undefined && isPartKind(part) ? undefined : `part: ${kind}`;
    return object(part === undefined ? 'missing-datum' : 'conflict', at, `part: ${kind}, as the section that uses the file`, found, {
      nearest,
    });
  }
  const body = withPart(kind, without(root, 'part'), documents, problems, [...chain, path]);
  return { ...mergeMaps(body, beside), place: map.place, used: { file: path, beside } };
}

/** All sections of a drive with their part files. */
export function withParts(drive: LocatedMap, documents: Documents, problems: ScenarioProblem[]): LocatedMap {
  const entries = [...drive.entries].map(([key, entry]): readonly [string, LocatedEntry] => {
    if (!isPartKind(key) || entry.value.kind !== 'map') return [key, entry];
    return [key, { ...entry, value: withPart(key, entry.value, documents, problems, [drive.place.file]) }];
  });
  return withEntries(drive, entries);
}

/** What a part file says it is, where that is no part at all. */
export function partKindProblem(root: LocatedMap): ScenarioProblem | undefined {
  const node = childOf(root, 'part');
  const part = textOf(node);
  if (node === undefined || part === undefined || isPartKind(part)) return undefined;
  return problem('unknown-choice', node.place, alternatives(PART_KINDS), quoted(part), { nearest: nearestWord(part, PART_KINDS) });
}
