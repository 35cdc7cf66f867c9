/** The import table of DEVELOPERS.md, held on every file. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
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

/** Digits of people's units that code outside quantities/ has no business with: temperatures' zero, hours, days, rpm, inches, ounces, horsepower. */
const UNIT_DIGITS = new Set([273.15, 293.15, 298.15, 459.67, 3600, 86400, 1440, 25.4, 0.0254, 0.3048, 28.349523125, 745.7, 4186.8]);
/** Minutes: something over 60, or 60 in one product or quotient with π. */
function isMinutes(node: ts.NumericLiteral): boolean {
  if (Number(node.text) !== 60) return false;
  let whole: ts.Node = node;
  while (ts.isBinaryExpression(whole.parent) || ts.isParenthesizedExpression(whole.parent)) whole = whole.parent;
  const { parent } = node;
  const over = ts.isBinaryExpression(parent) && parent.operatorToken.kind === ts.SyntaxKind.SlashToken && parent.right === node;
  return over || (whole !== node && whole.getText().includes('PI'));
}

/** The unit digits among a text's numeric literals, by TypeScript's own syntax tree: comments, strings and larger numbers do not count. */
function unitDigits(text: string): string[] {
  const found: string[] = [];
  const look = (node: ts.Node): void => {
    if (ts.isNumericLiteral(node)) {
      const value = Number(node.text);
      // 60/(2π) and 2π/60 themselves
      const turns = Math.abs(value - 30 / Math.PI) < 1e-3 || Math.abs(value - Math.PI / 30) < 1e-5;
      if (UNIT_DIGITS.has(value) || turns || isMinutes(node)) found.push(node.text);
    }
    ts.forEachChild(node, look);
  };
  look(ts.createSourceFile('text.ts', text, ts.ScriptTarget.Latest, true));
  return found;
}

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

  it('knows unit digits from other text', () => {
    expect(unitDigits("const a = t + 273.15; // 3600\nconst b = '3600'; const c = 13600; const d = 600;")).toEqual(['273.15']);
    expect(unitDigits('const rpm = (w * 60) / (2 * Math.PI) + 9.5493 * w + 3_600 * h + 3.6e3; const most = 60; const t = s / 60;')).toEqual(
      ['60', '9.5493', '3600', '3600', '60'],
    );
    expect(unitDigits('const shape = 2 * t + 60 * t ** 4; for (let k = 0; k < 60; k++);')).toEqual([]);
  });

  it('keeps unit arithmetic in quantities/', () => {
    for (const file of files(core)) {
      if (roomOf(file) === 'quantities') continue;
      expect(unitDigits(readFileSync(file, 'utf8')), file).toEqual([]);
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
