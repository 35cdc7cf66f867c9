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
const imports = (file: string): { target: string }[] =>
  [...readFileSync(file, 'utf8').matchAll(/^(?:import|export)\s+(?:type\s)?[^;]*?from\s+'([^']+)'|import\('([^']+)'\)/gms)].map(
    (match) => ({
      target: match[1] ?? match[2],
    }),
  );

/** Rooms from the ground up, as DEVELOPERS.md draws them: a file may import, types too, only from rows beneath its own or from its own room. */
const ROWS = [
  ['problems'],
  ['quantities'],
  ['numerics', 'media'],
  ['parts', 'heat'],
  ['drive'],
  ['provenance'],
  ['kernel'],
  ['results'],
  ['words', 'json'],
  ['questions'],
  ['drive-from-numbers'],
  ['drive-laws'],
  ['scenario'],
  ['run-scenario'],
  ['other-questions', 'measured-questions', 'bench-questions'],
  ['index'],
] as const;
/** The same within questions/. */
const QUESTIONS = [
  ['candidate'],
  ['simulate', 'frame'],
  ['rate'],
  ['judge'],
  ['run', 'why'],
  ['doubt'],
  ['point-figures', 'cooling-fittings', 'measured'],
  ['point', 'cool', 'identify'],
  ['readings'],
  ['audit'],
  ['shape'],
] as const;
const rowsOf = (rows: readonly (readonly string[])[]): ReadonlyMap<string, number> =>
  new Map(rows.flatMap((names, row) => names.map((name) => [name, row] as const)));
const ROW = rowsOf(ROWS);
const QUESTION_ROW = rowsOf(QUESTIONS);
const core = join(root, 'sim-core/src');
const roomOf = (path: string): string => relative(core, path).split('/')[0].replace(/\.ts$/, '');
const roomWithin = (path: string): string => relative(core, path).split('/')[1].replace(/\.ts$/, '');
/** May a file of one room import from another, or from its own? */
const within = (rows: ReadonlyMap<string, number>, from: string, to: string): boolean =>
  from === to || (rows.get(to) ?? Number.POSITIVE_INFINITY) < (rows.get(from) ?? Number.NEGATIVE_INFINITY);

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
  it.each(files(core).map((file) => [relative(core, file), file]))('%s imports only from rows beneath', (name, file) => {
    const room = roomOf(file);
    expect(ROW.has(room), `${name} stands in a room of the table`).toBe(true);
    for (const { target } of imports(file)) {
      if (!target.startsWith('.')) {
        const allowed =
          room === 'scenario'
            ? ['zod', 'yaml', 'papaparse/papaparse.min.js']
            : room === 'numerics'
              ? ['odex', 'ml-levenberg-marquardt', 'ml-matrix']
              : [];
        expect(allowed, `${name} imports ${target}`).toContain(target);
        continue;
      }
      const path = resolve(dirname(file), target.replace(/\.js$/, '.ts'));
      const to = roomOf(path);
      expect(within(ROW, room, to), `${name} imports ${relative(core, path)}`).toBe(true);
      if (room !== to) continue;
      // a part knows no other part: what joins them is drive/; a propeller is one part in many files
      if (room === 'parts') expect(roomWithin(path), `${name} imports ${relative(core, path)}`).toBe(roomWithin(file));
      if (room === 'questions') {
        expect(within(QUESTION_ROW, roomWithin(file), roomWithin(path)), `${name} imports ${relative(core, path)}`).toBe(true);
      }
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
