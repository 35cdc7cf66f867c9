/** `reshape` and `rewind` in process. */
import { expect, it } from 'vitest';
import { call, scenarioPath } from './call.js';

const boat = scenarioPath('survey-boat');

const finite = (text: string): ReturnType<typeof JSON.parse> =>
  JSON.parse(text, (key, value) => {
    if (typeof value === 'number') expect(Number.isFinite(value), key).toBe(true);
    expect(value === null, `${key} is null`).toBe(false);
    return value;
  });

it.each([
  ['reshape', 'Long or wide'],
  ['rewind', 'Kv'],
])('%s answers in 80 columns', async (word, begins) => {
  const { code, out } = await call(word, boat, '--candidate', 'Wide');
  expect(code).toBe(0);
  expect(out).toContain(begins);
  for (const line of out.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(80);
});

it.each(['reshape', 'rewind'])('%s prints one JSON document, every number finite', async (word) => {
  const { code, out } = await call(word, boat, '--candidate', 'Wide', '--json');
  expect(code).toBe(0);
  expect(finite(out).schema).toBe(`shaftwork.${word}/1`);
});

it('a name that is no candidate ends with 2 and lists those that are', async () => {
  const { code, err } = await call('reshape', boat, '--candidate', 'wide');
  expect(code).toBe(2);
  expect(err).toContain('Wide, Long, Small');
});

it('run tells the room that is left, and ranks what does not fit after what fits', async () => {
  const { out } = await call('run', boat, '--samples', '0');
  expect(out).toMatch(/room across\s+12\s?mm\s+3\s?mm\s+9\s?mm/);
  const { readFileSync, mkdtempSync, writeFileSync, rmSync } = await import('node:fs');
  const { tmpdir } = await import('node:os');
  const { join } = await import('node:path');
  const folder = mkdtempSync(join(tmpdir(), 'shaftwork-'));
  try {
    const tight = join(folder, 'tight.yaml');
    writeFileSync(tight, readFileSync(boat, 'utf8').replace('length: 80 mm, mass: 320 g', 'length: 70 mm, mass: 320 g'));
    const document = finite((await call('run', tight, '--samples', '0', '--json')).out);
    expect(document.ranking).toEqual(['Wide', 'Small', 'Long']);
    const long = document.candidates.find(({ name }: { name: string }) => name === 'Long');
    expect(long.space.length.room_mm).toBeCloseTo(-4, 9);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

it('check --strict ends with 1 where sheets contradict themselves or look unusual, not for notes', async () => {
  const { readFileSync, mkdtempSync, writeFileSync, rmSync } = await import('node:fs');
  const { tmpdir } = await import('node:os');
  const { join } = await import('node:path');
  const folder = mkdtempSync(join(tmpdir(), 'shaftwork-'));
  try {
    const slip = join(folder, 'slip.yaml');
    writeFileSync(slip, readFileSync(boat, 'utf8').replace('kv: 610 rpm/V', 'kv: 6100 rpm/V'));
    const strict = await call('check', slip, '--strict');
    expect(strict.code).toBe(1);
    expect(strict.out).toMatch(/with a Kv of\s+610/);
    // a file that can be read is not called right where its sheets contradict themselves
    writeFileSync(slip, readFileSync(boat, 'utf8').replace('mass: 236 g', 'mass: 2360 g'));
    const told = await call('check', slip);
    expect([told.code, /can be run(.*?)\./.exec(told.out.replace(/\s+/g, ' '))?.[1]]).toEqual([0, ', but contradicts itself, see below']);
    expect((await call('check', boat, '--strict')).code).toBe(0);
    // --force too reaches the command, wherever it stands
    const report = join(folder, 'theirs.html');
    writeFileSync(report, 'mine');
    expect((await call('run', boat, '--samples', '0', '--html', report)).code).toBe(2);
    expect((await call('--force', 'run', boat, '--samples', '0', '--html', report)).code).toBe(0);
    expect(readFileSync(report, 'utf8')).toContain('<html');
  } finally {
    rmSync(folder, { recursive: true });
  }
});
