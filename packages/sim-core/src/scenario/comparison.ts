/** The log that a run is compared with: which file it is, and what is said of it. @module */

import type { ScenarioProblem } from '../problems/index.js';
import type { Place } from '../provenance/datum.js';
import type { MeasuredLog } from '../provenance/measurables.js';
import { readMeasured } from './log/measured.js';
import type { Documents } from './part-files.js';
import type { MeasuredEntry } from './schema/log.js';
import { problem, quoted } from './wording.js';
import { childOf, type LocatedMap } from './yaml/located-tree.js';

/** The log that the run is compared with: one that is named, or what the log that is driven has besides. */
export function readComparison(
  root: LocatedMap,
  entry: MeasuredEntry | undefined,
  documents: Documents,
  problems: ScenarioProblem[],
  driven: MeasuredLog | undefined,
  wheels: boolean,
): MeasuredLog | undefined {
  if (documents.uncompared) return undefined;
  const node = childOf(root, 'measured');
  const log = documents.logs.get('measured');
  if (log === undefined && entry?.log === undefined) {
    if (entry === undefined) return driven;
    const { candidate, ...more } = entry;
    const [key] = Object.keys(more);
    if (driven !== undefined && key === undefined) return candidate === undefined ? driven : { ...driven, candidate };
    const place = node?.place ?? root.place;
    const hint =
      driven === undefined
        ? 'write log: field-run.csv, or give one with --measured'
        : 'what is said of the log that is driven stands in the profile';
    problems.push(problem('missing-datum', place, 'a log to compare the run with', 'none', { hint }));
    return undefined;
  }
  const place = childOf(node, 'log')?.place ?? { ...root.place, path: 'measured' };
  const text = logText(log, place, entry?.log ?? '', problems);
  if (log === undefined || text === undefined) return undefined;
  const read = readMeasured(entry ?? {}, node ?? { ...root, place }, log.path, text, wheels);
  if (read.ok) return read.log;
  problems.push(...read.problems);
  return undefined;
}

/** The text of a log file, or the problem that there is none. */
export function logText(
  log: { readonly path: string; readonly text: string | null } | undefined,
  place: Place,
  written: string,
  problems: ScenarioProblem[],
): string | undefined {
  if (log === undefined) {
    const hint = 'log files lie beside the scenario or in folders below it, and are named with forward slashes';
    problems.push(problem('use-outside', place, 'a path inside the folder of the scenario', quoted(written), { hint }));
    return undefined;
  }
  if (log.text !== null) return log.text;
  const hint = 'the path is counted from the scenario';
  problems.push(problem('missing-file', place, 'a log file', `${quoted(log.path)}, which cannot be read`, { hint }));
  return undefined;
}
