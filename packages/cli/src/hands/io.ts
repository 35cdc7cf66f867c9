/** The command's hands: texts in, texts out. A test gives a set of its own. @module */

import { closeSync, existsSync, fstatSync, openSync, readdirSync, readFileSync, readSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { isatty } from 'node:tty';
import type { ProgressStream } from '../render/progress.js';
import { InputFault, ReadWriteFault } from './exit.js';
import { fileFault } from './file-faults.js';
import { liesWithin } from './paths.js';
import { readAll } from './read-all.js';
import { createWhole, obstacleAt, writeWhole } from './whole-files.js';

export interface Io {
  out(text: string): void;
  err(text: string): void;
  /** Text of a file, `-` for standard input; throws ReadWriteFault. */
  read(path: string): string;
  /** Bytes of a file, before it is read; 0 for standard input. Throws ReadWriteFault. */
  size(path: string): number;
  exists(path: string): boolean;
  /** The path, links resolved, of a file in or below a folder; undefined where links lead out of it. Throws ReadWriteFault where there is no file. */
  inside(folder: string, path: string): string | undefined;
  /** Names in a folder, in order; throws ReadWriteFault. */
  list(path: string): readonly string[];
  /** Text of an output of ours that stands at the path; undefined where none does. */
  ours(path: string): string | undefined;
  /** Throws InputFault where a file exists that is not ours, unless `force` and it was not read before; ReadWriteFault where none can be made. */
  check(path: string, force: boolean): void;
  /** Writes a file whole or not at all, `-` for standard output. An existing one is refused as `check` does. */
  write(path: string, content: string | Uint8Array, force: boolean): void;
  /** Writes several new files, all or none; an existing one is refused whatever it is. */
  create(files: readonly { readonly path: string; readonly text: string }[]): void;
  /** Whether what is printed goes to a terminal that shows colours. */
  readonly colourful: { readonly out: boolean; readonly err: boolean };
  /** Where a bar is drawn. */
  readonly screen: ProgressStream;
}

/** Every file of ours carries one of these in its first or last kilobytes: a result as JSON, a report, a table, a list, a figure, a picture. */
const MARKS = [
  '"schema": "shaftwork.',
  '<meta name="generator" content="shaftwork ',
  'candidate,time_s,',
  '<!-- shaftwork list -->',
  'Calculated by shaftwork ',
  '<!-- shaftwork figure -->',
  'Software\0shaftwork ',
];
const LARGEST = 64 * 1024 * 1024;
/** Names of tables of numbers, which may be longer than what people write, and come in the encodings of loggers. */
export const TABLE_NAME = /\.(csv|tsv|txt|log|dat)$/i;

/** `columns` is the width of the terminal, which a thread cannot ask for. */
export function createIo(columns?: number): Io {
  const taken = new Set<string>();
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    exists: (path) => existsSync(path),
    list(path) {
      try {
        return readdirSync(path).sort();
      } catch (error) {
        throw new ReadWriteFault(`${path} cannot be read: ${fileFault(error)}. Name a folder with part files.`);
      }
    },
    colourful: { out: showsColours(isatty(1), process.env), err: showsColours(isatty(2), process.env) },
    screen: { isTTY: isatty(2), write: (text) => process.stderr.write(text), ...(columns === undefined ? {} : { columns }) },
    size(path) {
      if (path === '-') return 0;
      try {
        const found = statSync(path);
        if (found.isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' });
        return found.size;
      } catch (error) {
        throw unreadable(path, error);
      }
    },
    inside(folder, path) {
      const at = join(folder, path);
      try {
        const real = realpathSync(at);
        if (!liesWithin(realpathSync(folder), real)) return undefined;
        // a pipe would wait for ever
        if (!statSync(real).isFile()) throw new Error('it is no file');
        return real;
      } catch (error) {
        throw unreadable(at, error);
      }
    },
    read(path) {
      try {
        if (path === '-') return decoded(readAll(0, LARGEST), path);
        const found = statSync(path);
        // some devices never end
        if (found.isCharacterDevice()) throw new Error('it is a device, not a file');
        if (found.size > LARGEST) throw new Error('it is larger than 64 MB');
        if (!found.isFile()) return decoded(readPipe(path), path);
        taken.add(realpathSync(path));
        return decoded(readFileSync(path), path);
      } catch (error) {
        throw unreadable(path, error);
      }
    },
    ours: (path) => (isOurs(path) ? readFileSync(path, 'utf8') : undefined),
    check(path, force) {
      if (existsSync(path) && !isOurs(path)) {
        if (taken.has(realpathSync(path)))
          throw new InputFault(`${path} is what this command reads, and is kept. Choose another path for what it writes.`);
        if (!force)
          throw new InputFault(
            `${path} exists and is not an output that shaftwork replaces unasked. Choose another path, or add --force to replace it.`,
          );
      }
      const obstacle = obstacleAt(path);
      if (obstacle !== undefined)
        throw new ReadWriteFault(`Cannot write ${path}: ${fileFault(obstacle)}. Nothing was written there; choose another path.`);
    },
    write(path, content, force) {
      if (path === '-') {
        process.stdout.write(content);
        return;
      }
      this.check(path, force);
      try {
        writeWhole(path, content);
      } catch (error) {
        throw new ReadWriteFault(`Cannot write ${path}: ${fileFault(error)}. Nothing was written there; choose another path.`);
      }
    },
    create(files) {
      const [first, ...others] = files.filter(({ path }) => existsSync(path));
      if (first !== undefined) {
        const more = others.length === 0 ? '' : ` and ${others.length} more`;
        throw new InputFault(`${first.path}${more} exists already, and is kept. Nothing was written; choose another folder.`);
      }
      try {
        createWhole(files);
      } catch (error) {
        const folder = dirname(files[0]?.path ?? '');
        throw new ReadWriteFault(`Cannot write ${folder}: ${fileFault(error)}. Nothing was written; choose another folder.`);
      }
    },
  };
}

function readPipe(path: string): Buffer {
  const file = openSync(path, 'r');
  try {
    return readAll(file, LARGEST);
  } finally {
    closeSync(file);
  }
}

/** Loggers write what their maker's country wrote in 1990; a scenario that is not UTF-8 is told instead (`checkText`). */
function decoded(bytes: Uint8Array, path: string): string {
  if (!TABLE_NAME.test(path)) return new TextDecoder('utf-8').decode(bytes);
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

/** Colours only where a person looks, and none where NO_COLOR is set (no-color.org) or the terminal knows none. */
export function showsColours(isTerminal: boolean | undefined, environment: Readonly<Record<string, string | undefined>>): boolean {
  return isTerminal === true && !environment['NO_COLOR'] && environment['TERM'] !== 'dumb';
}

function unreadable(path: string, error: unknown): ReadWriteFault {
  if (error instanceof ReadWriteFault) return error;
  const missing = typeof error === 'object' && error !== null && 'code' in error && error.code === 'ENOENT';
  const beside = missing ? scenariosBeside(path) : [];
  const next =
    beside.length > 0
      ? `Beside it: ${beside.join(', ')}.`
      : missing
        ? 'To begin with a scenario that runs: npx shaftwork init --for boat'
        : 'Check the path, or see: npx shaftwork --help';
  return new ReadWriteFault(`Cannot read ${path}: ${fileFault(error)}. ${next}`);
}

/** A few files of the folder that may have been meant. */
function scenariosBeside(path: string): string[] {
  try {
    return readdirSync(dirname(path))
      .filter((name) => /\.(ya?ml|json)$/.test(name) && !name.endsWith('.schema.json') && name !== basename(path))
      .slice(0, 5)
      .map((name) => join(dirname(path), name));
  } catch {
    return [];
  }
}

function isOurs(path: string): boolean {
  try {
    // a pipe would wait for a writer
    if (!statSync(path).isFile()) return false;
    const file = openSync(path, 'r');
    const piece = Buffer.alloc(4096);
    const end = Math.max(0, fstatSync(file).size - piece.length);
    const texts = [0, end].map((from) => piece.toString('utf8', 0, readSync(file, piece, 0, piece.length, from)));
    closeSync(file);
    return MARKS.some((mark) => texts.some((text) => text.includes(mark)));
  } catch {
    return false;
  }
}
