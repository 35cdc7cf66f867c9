/** What a scenario names is read only where it lies in or below the scenario's folder, links resolved, and only where it is a file. */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { call, ownFolder, SMALLEST } from './call.js';

const { folder, file } = ownFolder();
const SECRET = 'hush-4711';
const quick = ['--samples', '0'];
const using = (path: string): string => SMALLEST.replace(/motor: .*/, `motor: { use: ${JSON.stringify(path)} }`);
const driven = (path: string): string => SMALLEST.replace(/profile: .*/, `profile: { log: ${JSON.stringify(path)} }`);
const PART = `part: motor\n${/motor: \{ (.*) \}$/m.exec(SMALLEST)?.[1]?.replace(/, (?=\w+:)(?![^{]*\})/g, '\n')}\n`;
const LOG = `time [s],throttle [%]\n${Array.from({ length: 30 }, (_, k) => `${k},${50 + k}\n`).join('')}`;

file('secret.yaml', `part: motor\nkv: ${SECRET}\n`);
file('secret.csv', `time [s],throttle [%]\n0,${SECRET}\n`);
mkdirSync(join(folder, 'home', 'inner'), { recursive: true });
file('home/inner/motor.yaml', PART);
file('home/inner/run.csv', LOG);
symlinkSync('../secret.yaml', join(folder, 'home', 'link.yaml'));
symlinkSync('../secret.csv', join(folder, 'home', 'link.csv'));
symlinkSync('..', join(folder, 'home', 'up'));
symlinkSync('/', join(folder, 'home', 'root'));
symlinkSync('inner', join(folder, 'home', 'near'));
symlinkSync('loop.yaml', join(folder, 'home', 'loop.yaml'));

const OUTSIDE = [
  'link.yaml',
  'up/secret.yaml',
  'root/etc/passwd',
  '../secret.yaml',
  'inner/../../secret.yaml',
  '/etc/passwd',
  '..\\secret.yaml',
  'C:\\secret.yaml',
  'c:/secret.yaml',
  '\\\\host\\share\\secret.yaml',
  'file:///etc/passwd',
  'https://localhost/part.yaml',
  '~/secret.yaml',
  'inner/\u202emotor.yaml',
];

describe('a part file', () => {
  it.each(OUTSIDE)('%s is not read', async (path) => {
    const { code, err, out } = await call('check', file('home/boat.yaml', using(path)));
    expect(code).toBe(2);
    expect(err).toMatch(/\[(use-outside|missing-file)\]/);
    expect(err + out).not.toContain(SECRET);
  });

  it.each(['inner/motor.yaml', './inner/motor.yaml', 'inner/../inner/motor.yaml', 'near/motor.yaml', 'up/home/inner/motor.yaml'])(
    '%s is, for it lies inside',
    async (path) => {
      expect((await call('check', file('home/boat.yaml', using(path)))).code).toBe(0);
    },
  );

  it('a circle of links, a folder and a pipe are told, and nothing waits', async () => {
    for (const path of ['loop.yaml', 'inner']) {
      const { code, err } = await call('check', file('home/boat.yaml', using(path)));
      expect([code, err.includes('[missing-file]')]).toEqual([2, true]);
    }
    const pipe = join(folder, 'home', 'pipe.yaml');
    if (spawnSync('mkfifo', [pipe]).status === 0) expect((await call('check', file('home/boat.yaml', using('pipe.yaml')))).code).toBe(2);
    expect(existsSync('/dev/zero') ? (await call('check', file('home/boat.yaml', using('root/dev/zero')))).code : 2).toBe(2);
  });
});

describe('a log', () => {
  it.each(OUTSIDE.map((path) => path.replace('.yaml', '.csv')))('%s is not read', async (path) => {
    const html = join(folder, 'page.html');
    const { code, err, out } = await call('run', file('home/boat.yaml', driven(path)), '--html', html, ...quick);
    expect(code).toBe(2);
    expect(err + out).not.toContain(SECRET);
    expect(existsSync(html)).toBe(false);
  });

  it('is read inside, by a link that stays inside too', async () => {
    for (const path of ['inner/run.csv', 'near/run.csv']) expect((await call('check', file('home/boat.yaml', driven(path)))).code).toBe(0);
  });
});

it('a report from somebody else reads nothing beside it through a link or out of its folder', async () => {
  const page = join(folder, 'home', 'page.html');
  expect((await call('run', file('home/boat.yaml', driven('inner/run.csv')), '--html', page, ...quick)).code).toBe(0);
  const text = readFileSync(page, 'utf8');
  for (const path of ['link.csv', '../secret.csv', join(folder, 'secret.csv')]) {
    const changed = text.replace('"path":"inner/run.csv"', `"shortened":true,"path":${JSON.stringify(path)}`);
    expect(changed).not.toBe(text);
    const { code, err } = await call('run', file('home/changed.html', changed), ...quick);
    expect(code).toBe(2);
    expect(err).toContain('carries only the beginning');
    expect(err).not.toContain(SECRET);
  }
});

it('the scenario itself may be reached by a link, and its folder by another', async () => {
  cpSync(join(folder, 'home', 'inner', 'motor.yaml'), join(folder, 'home', 'motor.yaml'));
  file('home/boat.yaml', using('motor.yaml'));
  symlinkSync('home', join(folder, 'house'));
  expect((await call('check', join(folder, 'house', 'boat.yaml'))).code).toBe(0);
});

describe('texts that are traps', () => {
  it.each([
    [
      'aliases that multiply',
      `a: &a [${'x,'.repeat(50)}]\n${Array.from({ length: 9 }, (_, k) => `b${k}: &b${k} [${`*${k === 0 ? 'a' : `b${k - 1}`},`.repeat(9)}]`).join('\n')}\n`,
      'too-large',
    ],
    ['an alias of itself', 'notes: &n [*n]\n', 'broken-yaml'],
    ['brackets', `notes: ${'['.repeat(200_000)}\n`, 'too-deep'],
    ['dashes', `notes:\n  ${'- '.repeat(5000)}x\n`, 'too-deep'],
    ['indents', `notes:\n${Array.from({ length: 900 }, (_, k) => `${' '.repeat(k + 1)}k:`).join('\n')}\n`, 'too-deep'],
  ])('%s are refused at once', async (_, text, kind) => {
    const began = process.cpuUsage();
    const { code, err } = await call('check', file('trap.yaml', SMALLEST + text));
    expect([code, err.includes(`[${kind}]`)]).toEqual([2, true]);
    expect(process.cpuUsage(began).user / 1e6).toBeLessThan(3);
  });

  it.each(['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', 'valueOf'])(
    'a key %s is an unknown key and no more',
    async (key) => {
      const before = Object.getOwnPropertyNames(Object.prototype).sort();
      for (const text of [
        `${SMALLEST}${key}: { polluted: yes }\n`,
        SMALLEST.replace('battery: {', `battery: { ${key}: { polluted: yes },`),
        SMALLEST.replace('candidates:', `candidates:\n  - { name: x, ${key}: { polluted: yes } }`),
        driven('inner/run.csv').replace('profile: {', `profile: { columns: { ${key}: x },`),
      ]) {
        const { code, err } = await call('check', file('home/proto.yaml', text));
        expect(code).toBe(2);
        expect(err).toContain('[unknown-key]');
      }
      expect(Object.getOwnPropertyNames(Object.prototype).sort()).toEqual(before);
      expect('polluted' in {}).toBe(false);
    },
  );

  it.each(['__proto__', 'constructor', 'toString'])('a candidate, a step or a column may be called %s', async (name) => {
    const called = SMALLEST.replace('27-32', name).replace('for: 3 min', `label: ${name}, for: 20 s`);
    const { code, out } = await call('run', file('called.yaml', called), '--json', ...quick);
    expect(code).toBe(0);
    expect(JSON.parse(out).ranking).toEqual([name]);
    file('home/named.csv', LOG.replace('throttle [%]', name));
    const columns = driven('named.csv').replace('" }', `", columns: { throttle: "${name} [%]" } }`);
    expect((await call('check', file('home/columns.yaml', columns))).code).not.toBe(3);
    for (const word of ['--candidate', '--between']) {
      const asked = word === '--candidate' ? ['reading', '--can', '40 °C', '--after', '60 s', word, name] : ['why', word, name, 'b'];
      const [command = '', ...words] = asked;
      expect((await call(command, join(folder, 'called.yaml'), ...words)).code).not.toBe(3);
    }
    expect((await call('explain', name)).code).toBe(2);
  });
});
