/** The files that run leaves, and a report that runs again. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { call, scenarioPath } from './call.js';

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
