/** The command reaches for no network, starts no program and makes no code out of text, whatever it is asked. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { ownFolder, SMALLEST } from './call.js';

const { folder, file } = ownFolder();
const smallest = file('smallest.yaml', SMALLEST);
const two = file(
  'two.yaml',
  SMALLEST.replace(
    '  - name: "27-32"',
    '  - name: Other\n    motor: { layout: outrunner, kv: 800 rpm/V, resistance: 120 mohm, no_load: { current: 0.7 A, voltage: 10 V }, mass: 70 g, can: { diameter: 28 mm, length: 34 mm } }\n  - name: "27-32"',
  ),
);
const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const bin = here('../../packages/cli/bin/shaftwork.js');
/** Node itself refuses to make code out of text, and the traps tell who tried. */
const SHUT = ['--disallow-code-generation-from-strings', '--import', new URL('./traps/no-network-no-code.mjs', import.meta.url).href];
const shut = (...words: readonly string[]) => spawnSync(process.execPath, [...SHUT, ...words], { encoding: 'utf8' });

describe('the traps', () => {
  it.each([
    ["fetch('https://localhost:1')"],
    ["import('node:net').then((net) => net.connect(1))"],
    ["import('node:dns').then((dns) => dns.promises.lookup('localhost'))"],
    ["import('node:http').then((http) => http.get('http://localhost:1'))"],
    ["import('node:dgram').then((dgram) => dgram.createSocket('udp4'))"],
    ["import('node:child_process').then(({ spawn }) => spawn('true'))"],
    ["new Function('return 1')()"],
    ["eval('1')"],
  ])('catch %s', (text) => {
    const { status, stderr } = shut('--input-type=module', '-e', text);
    expect(stderr).toMatch(/^trap: /);
    expect(status).toBe(99);
  });

  it('catch a thread', () => {
    const text =
      "import { Worker } from 'node:worker_threads'; new Worker('import(\"node:net\").then((net) => net.connect(1))', { eval: true });";
    expect(shut('--input-type=module', '-e', text).signal).toBe('SIGKILL');
  });
});

const OUTPUTS = ['html', 'csv', 'markdown', 'text', 'png'].flatMap((kind) => [`--${kind}`, join(folder, `out.${kind}`)]);

it.each([
  ['init', join(folder, 'begun'), '--for', 'car'],
  ['check', smallest, '--verbose'],
  ['point', smallest],
  ['run', smallest, '--samples', '16', ...OUTPUTS, '--svg', join(folder, 'svg'), '--date', '2025-01-02'],
  ['rate', smallest],
  ['cool', smallest],
  ['reading', smallest, '--can', '40 °C', '--after', '60 s'],
  ['why', two],
  ['reshape', smallest],
  ['rewind', smallest],
  ['explain', 'motor', 'constant'],
  ['schema'],
])('%s is caught in none of them', (...words) => {
  const { status, stderr } = shut(bin, ...words);
  expect(stderr).not.toContain('trap:');
  expect(status).toBe(0);
});

it('nor are the threads that draw', () => {
  const { status, stderr } = shut(bin, 'run', here('../../scenarios/hot-day-mapper.yaml'), '--samples', '256', '--quiet');
  expect([status, stderr]).toEqual([0, '']);
});

/** Calls by which text becomes code or markup, by TypeScript's own syntax tree. */
function dangerous(text: string): string[] {
  const found: string[] = [];
  const look = (node: ts.Node): void => {
    if ((ts.isCallExpression(node) || ts.isNewExpression(node)) && /^(globalThis\.)?(eval|Function)$/.test(node.expression.getText()))
      found.push(node.getText());
    if (ts.isPropertyAccessExpression(node) && /^(innerHTML|outerHTML|insertAdjacentHTML|write|writeln)$/.test(node.name.text)) {
      if (node.name.text !== 'write' || node.expression.getText() === 'document') found.push(node.getText());
    }
    if (
      ts.isCallExpression(node) &&
      /^set(Timeout|Interval)$/.test(node.expression.getText()) &&
      node.arguments.some(ts.isStringLiteralLike)
    )
      found.push(node.getText());
    ts.forEachChild(node, look);
  };
  look(ts.createSourceFile('text.ts', text, ts.ScriptTarget.Latest, true));
  return found;
}

it('no source of ours makes code or markup out of text', () => {
  expect(dangerous("eval('1'); new Function('x'); a.innerHTML = b; document.write(c); setTimeout('d', 1); io.write(e);")).toHaveLength(5);
  const sources = readdirSync(here('../../packages'), { recursive: true, encoding: 'utf8' }).filter((name) =>
    /^[\w-]+\/src\/.*\.ts$/.test(name),
  );
  expect(sources.length).toBeGreaterThan(200);
  for (const name of sources) expect(dangerous(readFileSync(here(`../../packages/${name}`), 'utf8')), name).toEqual([]);
});

it('the report lets its reader’s browser fetch nothing and run nothing but its own script, known by its digest', () => {
  const page = readFileSync(join(folder, 'out.html'), 'utf8');
  const [, policy = ''] = /<meta http-equiv="Content-Security-Policy" content="([^"]*)">/.exec(page) ?? [];
  const rules = Object.fromEntries(
    policy
      .replaceAll('&#39;', "'")
      .split(';')
      .map((rule) => [rule.trim().split(' ')[0], rule.trim().split(' ').slice(1).join(' ')]),
  );
  expect(Object.keys(rules).sort()).toEqual(['base-uri', 'default-src', 'form-action', 'script-src', 'style-src']);
  for (const none of ['default-src', 'base-uri', 'form-action']) expect(rules[none]).toBe("'none'");
  for (const own of ['script-src', 'style-src']) expect(rules[own]).toMatch(/^'sha256-[\w+/]{43}='$/);
  expect(page).not.toMatch(/unsafe|<link|<iframe|<img|<form| on\w+=|https?:\/\/(?!www\.w3\.org)/);
});
