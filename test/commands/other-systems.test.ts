/** What other systems write differently: ends of lines, slashes, drives, marks at the beginning of a file, the letters of a path. */
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join, posix, win32 } from 'node:path';
import { fileURLToPath } from 'node:url';
import { folderAbove, liesWithin, linkFrom } from '@shaftwork/cli/hands/paths';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { call, ownFolder, SMALLEST } from './call.js';

const { folder, file } = ownFolder();
const quick = ['--samples', '0'];
const USING = SMALLEST.replace(/motor: .*/, 'motor: { use: my motors/größer 1.yaml }').replace(
  /profile: .*/,
  'profile: { log: runs/a run.csv }',
);
const PART = `part: motor\n${/motor: \{ (.*) \}$/m.exec(SMALLEST)?.[1]?.replace(/, (?=\w+:)(?![^{]*\})/g, '\n')}\n`;
const LOG = `time [s],throttle [%]\n${Array.from({ length: 30 }, (_, k) => `${k},${50 + k}\n`).join('')}`;

/** Numbers of a run of the same three files, each written in a way of its own. */
function numbersOf(written: (text: string) => string): unknown {
  const files = { 'boat.yaml': USING, 'my motors/größer 1.yaml': PART, 'runs/a run.csv': LOG };
  const read = prepareScenario(new Map(Object.entries(files).map(([path, text]) => [path, written(text)])), 'boat.yaml');
  if (read.kind !== 'ready') throw new Error(JSON.stringify(read));
  const [{ headline, energy, limits } = {}] = runScenario(read.prepared).candidates;
  return { headline, energy, limits };
}

describe('ends of lines and a mark at the beginning', () => {
  const plain = numbersOf((text) => text);
  it.each([
    ['CR LF', (text: string) => text.replaceAll('\n', '\r\n')],
    ['a byte order mark', (text: string) => `\ufeff${text}`],
    ['both', (text: string) => `\ufeff${text.replaceAll('\n', '\r\n')}`],
    ['no end of the last line', (text: string) => text.replace(/\n$/, '')],
  ])('%s change no number, in the scenario, a part file and a log', (_, written) => {
    expect(numbersOf(written)).toEqual(plain);
  });

  it('a problem stands at the same line and column', async () => {
    const wrong = SMALLEST.replace('66 g', '66 W').replace('2.2 Ah', '2.2 Ohm');
    const places = async (text: string) =>
      JSON.parse((await call('check', file('wrong.yaml', text), '--json')).out).problems.map((each: { place: object }) => each.place);
    const plainly = await places(wrong);
    expect(plainly).toHaveLength(2);
    expect(await places(wrong.replaceAll('\n', '\r\n'))).toEqual(plainly);
    expect(await places(`\ufeff${wrong}`)).toEqual(plainly);
  });
});

describe('paths', () => {
  it('with blanks and letters beyond ASCII are read and written', async () => {
    file('my boats/my motors/größer 1.yaml', PART);
    file('my boats/runs/a run.csv', LOG);
    const html = join(folder, 'my boats', 'Bericht für später.html');
    const { code, err } = await call('run', file('my boats/mein böot.yaml', USING), '--html', html, ...quick);
    expect([code, existsSync(html)], err).toEqual([0, true]);
    // and the report runs again, its files within it
    expect((await call('run', html, ...quick)).code).toBe(0);
  });

  it('a file lies within a folder whatever the letters of its drive, and not across drives, above, or on another machine', () => {
    const within = (at: string): boolean => liesWithin('C:\\boats\\survey', at, win32);
    expect(['C:\\boats\\survey\\m.yaml', 'c:\\Boats\\Survey\\parts\\m.yaml', 'C:\\boats\\survey\\..m.yaml'].map(within)).toEqual([
      true,
      true,
      true,
    ]);
    expect(
      ['C:\\boats\\m.yaml', 'D:\\boats\\survey\\m.yaml', 'C:\\boats\\survey2\\m.yaml', '\\\\host\\share\\m.yaml', 'C:\\'].map(within),
    ).toEqual([false, false, false, false, false]);
    expect(liesWithin('\\\\host\\share\\boats', '\\\\host\\share\\boats\\m.yaml', win32)).toBe(true);
    expect([liesWithin('/boats', '/boats/..m.yaml', posix), liesWithin('/boats', '/boats2/m.yaml', posix)]).toEqual([true, false]);
  });

  it('a list links its picture with forward slashes', async () => {
    expect(linkFrom('C:\\logs\\list.md', 'C:\\logs\\pictures\\plan.png', win32)).toBe('pictures/plan.png');
    expect(linkFrom('C:\\logs\\list.md', 'C:\\pictures\\plan.png', win32)).toBe('../pictures/plan.png');
    expect(linkFrom('C:\\logs\\list.md', 'D:\\plan.png', win32)).toBe('D:/plan.png');
    // there a backslash is a letter of a name
    expect(linkFrom('/logs/list.md', '/logs/a\\b.png', posix)).toBe('a\\b.png');
    mkdirSync(join(folder, 'pictures'));
    const list = join(folder, 'list.md');
    const words = ['--markdown', list, '--png', join(folder, 'pictures', 'plan.png')];
    expect((await call('run', file('boat.yaml', SMALLEST), ...words, ...quick)).code).toBe(0);
    expect(readFileSync(list, 'utf8')).toContain('](<pictures/plan.png>)');
  });

  it('a drive that is not there ends the search for a folder', () => {
    const some =
      (...there: string[]) =>
      (path: string): boolean =>
        there.includes(path);
    expect(folderAbove('C:\\logs\\new\\plan.html', some('C:\\', 'C:\\logs'), win32)).toBe('C:\\logs');
    expect(folderAbove('Q:\\logs\\plan.html', some('C:\\'), win32)).toBeUndefined();
    expect(folderAbove('\\\\host\\share\\plan.html', some('C:\\'), win32)).toBeUndefined();
  });

  it('names of files that come with the project differ by more than the size of their letters, and Windows allows them', () => {
    const root = fileURLToPath(new URL('../../', import.meta.url));
    const names = ['packages/sim-core/src', 'packages/cli/src', 'packages/report/src', 'packages/cli/bin', 'scenarios', 'docs', 'test']
      .flatMap((each) => readdirSync(join(root, each), { recursive: true, encoding: 'utf8' }).map((name) => `${each}/${name}`))
      .sort();
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
    const forbidden = names.filter((name) =>
      name.split('/').some((part) => /[<>:"\\|?*]|[. ]$/.test(part) || /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i.test(part)),
    );
    expect(forbidden).toEqual([]);
  });
});
