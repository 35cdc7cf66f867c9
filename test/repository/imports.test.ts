/** The import table of DEVELOPERS.md, held on every file. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../packages', import.meta.url));
const files = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => join(entry.parentPath, entry.name));
const imports = (file: string): { target: string; typeOnly: boolean }[] =>
  [...readFileSync(file, 'utf8').matchAll(/^(?:import|export)\s+(type\s)?[^;]*?from\s+'([^']+)'|import\('([^']+)'\)/gms)].map((match) => ({
    typeOnly: match[1] !== undefined || match[3] !== undefined,
    target: match[2] ?? match[3],
  }));

const ROW: Record<string, number> = {
  quantities: 0,
  problems: 0,
  numerics: 1,
  media: 1,
  parts: 2,
  heat: 2,
  drive: 3,
  provenance: 3,
  kernel: 4,
  results: 5,
  studies: 6,
  scenario: 7,
};
const core = join(root, 'sim-core/src');
const roomOf = (path: string): string => relative(core, path).split('/')[0];

describe('sim-core', () => {
  it.each(files(core).map((file) => [relative(core, file), file]))('%s imports only from rows above', (name, file) => {
    const room = roomOf(file);
    if (!name.includes('/')) return expect(['index.ts', 'run-scenario.ts']).toContain(name);
    for (const { target, typeOnly } of imports(file)) {
      if (!target.startsWith('.')) {
        const allowed = room === 'scenario' ? ['zod', 'yaml', 'papaparse/papaparse.min.js'] : room === 'numerics' ? ['odex'] : [];
        expect(allowed, `${name} imports ${target}`).toContain(target);
        continue;
      }
      const to = roomOf(resolve(dirname(file), target));
      if (to === room) continue;
      const ok = ROW[to] < ROW[room] || (typeOnly && ROW[to] <= ROW[room] + 2) || (ROW[to] === ROW[room] && typeOnly);
      expect(ok, `${name} (row ${ROW[room]}) imports ${to} (row ${ROW[to]})`).toBe(true);
    }
  });

  it('keeps Node, the console and the clock out', () => {
    for (const file of files(core))
      expect(readFileSync(file, 'utf8'), file).not.toMatch(/from 'node:|\bconsole\.|Date\.now|Math\.random|\bprocess\./);
  });

  it('keeps unit arithmetic in quantities/', () => {
    for (const file of files(core)) {
      if (roomOf(file) === 'quantities') continue;
      const code = readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$|'(?:[^'\\\n]|\\.)*'/gm, '');
      expect(code, file).not.toMatch(/273\.15|\b3600\b|9\.549|298\.15/);
    }
  });
});

describe('the packages', () => {
  it('report knows sim-core only, cli knows both', () => {
    for (const file of files(join(root, 'report/src'))) {
      for (const { target } of imports(file)) expect(target).toMatch(/^(\.|@shaftwork\/sim-core|vega)/);
    }
    for (const file of files(join(root, 'cli/src'))) {
      for (const { target } of imports(file))
        expect(target).toMatch(/^(\.|@shaftwork\/|node:|commander|picocolors|tinypool|@resvg\/resvg-js$)/);
    }
  });
});
