/** The files that run leaves, and a report that runs again. */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { call, SMALLEST, scenarioPath } from './call.js';

const boat = scenarioPath('survey-boat');
const folder = mkdtempSync(join(tmpdir(), 'shaftwork-outputs-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

test('writes every kind, each known for its own again, and the picture under 1 MB', async () => {
  const words = [
    '--html',
    at('b.html'),
    '--csv',
    at('b.csv'),
    '--markdown',
    at('b.md'),
    '--text',
    at('b.txt'),
    '--png',
    at('b.png'),
    '--svg',
    at('svg'),
  ];
  for (const _ of [1, 2]) expect((await call('run', boat, '--samples', '0', ...words)).code).toBe(0);
  const picture = readFileSync(at('b.png'));
  expect(picture.subarray(1, 4).toString()).toBe('PNG');
  expect(picture.length).toBeLessThan(1_000_000);
  expect(picture.readUInt32BE(16)).toBe(2 * 960);
  expect(readdirSync(at('svg'))).toContain('temperature.svg');
  expect(readFileSync(at('b.txt'), 'utf8')).toMatch(/propeller +52 mm/);
  expect(readdirSync(folder).some((name) => name.includes('.part'))).toBe(false);
});

test('refuses somebody else’s file before anything is written, and two for standard output', async () => {
  writeFileSync(at('mine.csv'), 'mine');
  const { code, err } = await call('run', boat, '--samples', '0', '--html', at('new.html'), '--csv', at('mine.csv'));
  expect(code).toBe(2);
  expect(err).toContain('--force');
  expect(existsSync(at('new.html'))).toBe(false);
  expect(readFileSync(at('mine.csv'), 'utf8')).toBe('mine');
  expect((await call('run', boat, '--csv', '-', '--json')).code).toBe(2);
  expect((await call('run', boat, '--csv', at('x'), '--text', at('x'))).code).toBe(2);
  expect((await call('run', boat, '--svg', '-')).code).toBe(2);
});

test('a report runs again and says that nothing moved; after an edit it says what did', async () => {
  const report = at('plan.html');
  await call('run', boat, '--samples', '0', '--html', report);
  expect((await call('run', report, '--samples', '0')).err).toContain('no headline number moved');
  expect((await call('check', report)).code).toBe(0);
  const edited = at('edited.yaml');
  writeFileSync(edited, readFileSync(boat, 'utf8').replace('6.2 Ah', '5.2 Ah'));
  const { err } = await call('run', edited, '--samples', '0', '--html', report);
  expect(err).toMatch(/Wide, charge left: \d+ → \d+/);
  expect(readFileSync(report, 'utf8')).toContain('id="history"');
  writeFileSync(at('page.html'), '<!doctype html><p>mine');
  expect((await call('run', at('page.html'))).code).toBe(2);
});

test.each(['boat.yaml', 'parts/motor.yaml', 'run.csv'])(
  'never puts an output in the place of what it reads, forced or not: %s',
  async (name) => {
    const [scenario, motor] = [
      SMALLEST.replace(/motor: \{.*\}/, 'motor: { use: parts/motor.yaml }'),
      /motor: \{ (.*) \}/.exec(SMALLEST)?.[1],
    ];
    const files = {
      'boat.yaml': scenario,
      'parts/motor.yaml': `{ part: motor, ${motor} }\n`,
      'run.csv': 'time (s),battery_current (A)\n0,9\n60,9\n120,9\n180,9\n',
    };
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(at(path)), { recursive: true });
      writeFileSync(at(path), text);
    }
    const { code, err } = await call('run', at('boat.yaml'), '--samples', '0', '--measured', at('run.csv'), '--html', at(name), '--force');
    expect(err).toContain(`${at(name)} is what this command reads`);
    expect(code).toBe(2);
    for (const [path, text] of Object.entries(files)) expect(readFileSync(at(path), 'utf8')).toBe(text);
  },
);
