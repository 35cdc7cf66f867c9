/** From a path to a prepared scenario: reads it and the part files it names, each only after its size is known. @module */

import { basename, dirname } from 'node:path';
import { type EmbeddedRun, embeddedRun } from '@shaftwork/report/history';
import type { ScenarioProblem } from '@shaftwork/sim-core/problems';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { type KnownFolder, linkedOutside, tooLarge } from '@shaftwork/sim-core/scenario';
import { InputFault, ReadWriteFault } from '../hands/exit.js';
import { type Io, TABLE_NAME } from '../hands/io.js';
import { typed } from '../hands/shell-words.js';
import type { Terminal } from '../hands/terminal.js';
import { problemJson, problemText } from '../render/problems.js';

export type Prepared =
  /** `embedded` where the scenario was taken out of a report. */
  | { readonly kind: 'ready'; readonly prepared: PreparedScenario; readonly embedded?: EmbeddedRun }
  | { readonly kind: 'problems'; readonly problems: readonly ScenarioProblem[] };

/** `measured` is the path of a log that the run is compared with, `knownFolder` that of a folder of identified motors. */
export function prepare(
  io: Io,
  path: string,
  { measured, known: knownFolder }: { readonly measured?: string; readonly known?: string } = {},
): Prepared {
  const known = knownFolder === undefined ? undefined : readFolder(io, knownFolder);
  const at = forwardSlashes(io, path);
  const folder = at === '-' ? '.' : dirname(at);
  const main = at === '-' ? 'standard-input.yaml' : basename(at);
  if (/\.html?$/i.test(at)) return prepareReport(io, io.read(at), path, folder, measured, known);
  const large = tooLarge(main, io.size(at));
  if (large !== undefined) return { kind: 'problems', problems: [large] };
  const text = io.read(at);
  const log = new Map(measured === undefined ? [] : [[measured, io.read(measured)] as const]);
  if (/^\s*<!doctype html/i.test(text)) return prepareReport(io, text, path, folder, measured, known);
  const files = new Map<string, string | null>([[main, text], ...log]);
  for (;;) {
    const preparation = prepareScenario(files, main, measured, known);
    if (preparation.kind !== 'needs') return preparation;
    for (const need of preparation.needs) {
      const part = readPart(io, folder, need);
      if (typeof part === 'object' && part !== null) return { kind: 'problems', problems: [part] };
      files.set(need, part);
    }
  }
}

/** A report carries its scenario and part files; nothing beside it is read but a log too long to be carried. */
function prepareReport(
  io: Io,
  page: string,
  path: string,
  folder: string,
  measured: string | undefined,
  known: KnownFolder | undefined,
): Prepared {
  const embedded = embeddedRun(page);
  if (embedded === undefined)
    throw new InputFault(`${path} is a page, but not a shaftwork report with its scenario in it. Give a scenario file, or such a report.`);
  const files = new Map<string, string | null>();
  for (const { path: name, text, shortened } of embedded.files) {
    const whole = shortened ? readPart(io, folder, name) : text;
    if (typeof whole !== 'string')
      throw new InputFault(`${path} carries only the beginning of ${name}. Put that file beside the report, or give the scenario file.`);
    files.set(name, whole);
  }
  if (measured !== undefined) files.set(measured, io.read(measured));
  const main = embedded.files[0].path;
  for (;;) {
    const preparation = prepareScenario(files, main, measured, known);
    if (preparation.kind === 'needs') for (const need of preparation.needs) files.set(need, null);
    else return preparation.kind === 'ready' ? { ...preparation, embedded } : preparation;
  }
}

/** All part files of a folder; those that tell nothing of motors are passed over later. */
function readFolder(io: Io, path: string): KnownFolder {
  const names = io.list(path).filter((name) => /\.ya?ml$/i.test(name));
  const files = names.map((name) => `${path.replace(/[/\\]+$/, '')}/${name}`).map((each) => ({ path: each, text: io.read(each) }));
  if (!files.some(({ text }) => /^part:\s*motor\b/m.test(text)))
    throw new InputFault(
      `--known: expected a folder with part files of motors (part: motor), as “shaftwork identify” writes them; found none in ${path}.`,
    );
  return { folder: path, files };
}

/** Prints what is wrong with a scenario or a log, as text or as one JSON document; `command` is the one to try again. */
export function sayProblems(
  terminal: Terminal,
  problems: readonly ScenarioProblem[],
  path: string,
  json = false,
  command: 'check' | 'identify' = 'check',
): void {
  if (json) terminal.out(problemJson(problems));
  else terminal.err(problemText(problems, `${command} ${typed(path)}`, { colours: terminal.errColours, all: terminal.verbose }));
}

/** A path typed on another system: backslashes, where the file with slashes is the one that exists. */
function forwardSlashes(io: Io, path: string): string {
  const slashed = path.replaceAll('\\', '/');
  return slashed !== path && !io.exists(path) && io.exists(slashed) ? slashed : path;
}

/**
 * A file beside the scenario: its text; the problem of one that is too large, or lies elsewhere; null where it cannot be read, so that all
 * problems come at once.
 */
function readPart(io: Io, folder: string, path: string): string | ScenarioProblem | null {
  try {
    const at = io.inside(folder, path);
    return at === undefined ? linkedOutside(path) : (tooLarge(path, io.size(at), TABLE_NAME.test(path)) ?? io.read(at));
  } catch (error) {
    if (error instanceof ReadWriteFault) return null;
    throw error;
  }
}

/** A candidate named on the command line, or undefined where none was; throws InputFault for an unknown name. */
export function candidateNamed({ candidates }: PreparedScenario, name: string | undefined, flag = '--candidate'): string | undefined {
  if (name === undefined || candidates.some((each) => each.name === name)) return name;
  throw new InputFault(`${flag}: expected one of ${candidates.map((each) => each.name).join(', ')}; found ${name}.`);
}
