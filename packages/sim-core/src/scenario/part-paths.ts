/** Paths of part files, counted from the file that names them; forward slashes on every system. @module */

import { CONTROL_CHARACTER } from '../quantities/line-of-words.js';

const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/') + 1);

/** The path without `.` and `x/..`; undefined where `..` climbs above a root. */
function normalised(path: string): string | undefined {
  const root = path.startsWith('/') ? '/' : '';
  const kept: string[] = [];
  for (const step of path.split('/')) {
    if (step === '' || step === '.') continue;
    if (step !== '..') kept.push(step);
    else if (kept.length > 0 && kept.at(-1) !== '..') kept.pop();
    else if (root === '/') return undefined;
    else kept.push(step);
  }
  return root + kept.join('/');
}

/** The path a `use:` means, or undefined where it leaves the folder of the main scenario. */
export function partPath(main: string, from: string, use: string): string | undefined {
  if (CONTROL_CHARACTER.test(use) || use.startsWith('/') || /^[a-z][a-z0-9+.-]*:|\\/i.test(use)) return undefined;
  const path = normalised(folderOf(from) + use);
  const tree = normalised(folderOf(main));
  if (path === undefined || tree === undefined) return undefined;
  const within = tree === '' ? path : path.startsWith(tree.replace(/\/?$/, '/')) ? path.slice(tree.length).replace(/^\//, '') : undefined;
  return within === undefined || /^\.\.(\/|$)|^\//.test(within) ? undefined : path;
}
