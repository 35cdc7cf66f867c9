/**
 * Files come into being whole or not at all: written beside their place under a name that nobody else has, then put there.
 *
 * @module
 */

import { randomBytes } from 'node:crypto';
import {
  accessSync,
  constants,
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { folderAbove } from './paths.js';

const PART = /\.part-[0-9a-f]{12}$/;
const partOf = (path: string): string => `${path}.part-${randomBytes(6).toString('hex')}`;

/** Writing takes seconds: a part that is older was left by a run that was killed [ms]. */
const LEFT_BEHIND = 3_600_000;

/** Replaces what stands at the path, or makes it with its folder; a link stays a link, and a device or pipe is written to in place. Throws what the system says. */
export function writeWhole(path: string, content: string | Uint8Array): void {
  if (isDevice(path)) {
    writeFileSync(path, content);
    return;
  }
  const at = existsSync(path) ? realpathSync(path) : path;
  const made = makeFolder(dirname(at));
  clearLeftBehind(at);
  const part = partOf(at);
  try {
    // reaches the disk before its name does
    writeFileSync(part, content, { flag: 'wx', flush: true });
    renameSync(part, at);
  } catch (error) {
    removed(part);
    takeBack(made);
    throw error;
  }
}

/** Makes several new files, all or none, and replaces nothing, also where another run makes the same ones at this moment. Throws what the system says. */
export function createWhole(files: readonly { readonly path: string; readonly text: string }[]): void {
  const folders: string[] = [];
  const parts: string[] = [];
  const placed: string[] = [];
  try {
    for (const { path, text } of files) {
      folders.unshift(...makeFolder(dirname(path)));
      const part = partOf(path);
      parts.push(part);
      writeFileSync(part, text, { flag: 'wx', flush: true });
    }
    for (const [index, { path }] of files.entries()) {
      place(parts[index] ?? '', path);
      placed.push(path);
    }
  } catch (error) {
    for (const path of [...placed, ...parts]) removed(path);
    takeBack(folders);
    throw error;
  }
  for (const part of parts) removed(part);
}

/** Why a file could not be made at the path, as the system says it, asked before there is anything to write; undefined where nothing speaks against it. */
export function obstacleAt(path: string): unknown {
  try {
    const found = statSync(path, { throwIfNoEntry: false });
    if (found?.isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' });
    if (found !== undefined && !found.isFile()) return undefined;
    const folder = folderAbove(found === undefined ? resolve(path) : realpathSync(path), existsSync);
    if (folder === undefined) throw Object.assign(new Error(), { code: 'ENOENT' });
    if (!statSync(folder).isDirectory()) throw Object.assign(new Error(), { code: 'ENOTDIR' });
    accessSync(folder, constants.W_OK | constants.X_OK);
    return undefined;
  } catch (error) {
    return error;
  }
}

/** Gives a part its name; a link is refused where the name is taken, which renaming is not. */
function place(part: string, path: string): void {
  try {
    linkSync(part, path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    // disks of cameras and radios know no links
    if (code === 'EEXIST' || existsSync(path)) throw error;
    renameSync(part, path);
  }
}

/** Makes a folder and those above it; those that were not there, the deepest first. */
function makeFolder(path: string): readonly string[] {
  const folder = resolve(path);
  const first = mkdirSync(folder, { recursive: true });
  const made: string[] = [];
  for (let at = folder; first !== undefined && at.length >= resolve(first).length; at = dirname(at)) made.push(at);
  return made;
}

/** Folders that were made for nothing; one in which another run has put something by now stays. */
function takeBack(folders: readonly string[]): void {
  for (const folder of folders) {
    try {
      rmdirSync(folder);
    } catch {
      // not empty, or gone
    }
  }
}

function clearLeftBehind(path: string): void {
  try {
    for (const name of readdirSync(dirname(path))) {
      if (!PART.test(name) || name.replace(PART, '') !== basename(path)) continue;
      const part = join(dirname(path), name);
      if (Date.now() - statSync(part).mtimeMs > LEFT_BEHIND) removed(part);
    }
  } catch {
    // a folder that cannot be looked through can still be written to
  }
}

/** Takes away what was begun; where that fails too, there is nothing more to do. */
function removed(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // the first fault is the one to tell
  }
}

function isDevice(path: string): boolean {
  const found = statSync(path, { throwIfNoEntry: false });
  return found !== undefined && !found.isFile() && !found.isDirectory();
}
