/** What is asked of a path, in the words of the system it was typed on; given another system's, so that Windows is tested everywhere. @module */

import path, { type PlatformPath } from 'node:path';

/** Whether a file lies in or below a folder; both whole, links resolved. */
export function liesWithin(folder: string, file: string, system: PlatformPath = path): boolean {
  const way = system.relative(folder, file);
  return !system.isAbsolute(way) && way.split(system.sep)[0] !== '..';
}

/** The way from a page to a file, as pages write it: with forward slashes. Across drives there is none, and the file's own path is given. */
export const linkFrom = (page: string, file: string, system: PlatformPath = path): string =>
  system.relative(system.dirname(system.resolve(page)), system.resolve(file)).replaceAll(system.sep, '/');

/** The nearest folder above a path that is there; undefined where not even the drive is. */
export function folderAbove(at: string, exists: (path: string) => boolean, system: PlatformPath = path): string | undefined {
  for (let folder = system.dirname(at); ; folder = system.dirname(folder)) {
    if (exists(folder)) return folder;
    if (system.dirname(folder) === folder) return undefined;
  }
}
