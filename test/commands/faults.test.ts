/**
 * What machines do to a run: killed while it writes, a disk that fills, a folder that cannot be written to, a pipe closed, two runs at once, threads
 * that die, an interrupt. Nothing is half-written, nothing finished lost, and the code is that of the contract.
 */
import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { ownFolder, SMALLEST, scenarioPath } from './call.js';

const { folder, file } = ownFolder();
const bin = fileURLToPath(new URL('../../packages/cli/bin/shaftwork.js', import.meta.url));
const smallest = file('smallest.yaml', SMALLEST);
const quick = ['--samples', '0'];
const trap = (name: string): readonly string[] => ['--import', new URL(`./traps/${name}.mjs`, import.meta.url).href];

interface Ended {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}
type Place = {
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly uid?: number;
  readonly node?: readonly string[];
};
const options = ({ cwd, env = {}, uid }: Place) => ({
  encoding: 'utf8' as const,
  ...(cwd === undefined ? {} : { cwd }),
  ...(uid === undefined ? {} : { uid, gid: uid }),
  env: { ...process.env, ...env },
});
const command = (words: readonly string[], place: Place = {}): Ended =>
  spawnSync(process.execPath, [...(place.node ?? []), bin, ...words], options(place));
const shell = (script: string, place: Place = {}): Ended =>
  spawnSync('bash', ['-c', `set -o pipefail\nshaftwork() { "${process.execPath}" "${bin}" "$@"; }\n${script}`], options(place));

/** A command that runs beside others. */
function begun(words: readonly string[], place: Place = {}) {
  const child = spawn(process.execPath, [...(place.node ?? []), bin, ...words], { ...options(place), stdio: ['ignore', 'pipe', 'pipe'] });
  let stdout = '';
  let stderr = '';
  child.stdout.on('data', (text: Buffer) => (stdout += text.toString()));
  child.stderr.on('data', (text: Buffer) => (stderr += text.toString()));
  const ended = new Promise<Ended>((resolve) => child.on('close', (status, signal) => resolve({ status, signal, stdout, stderr })));
  return { child, ended };
}

let last = 0;
/** An empty folder for one test. */
const fresh = (): string => {
  const made = join(folder, `place-${++last}`);
  mkdirSync(made);
  return made;
};
const parts = (where: string): string[] =>
  readdirSync(where, { recursive: true, encoding: 'utf8' }).filter((name) => name.includes('.part-'));
/** Somebody whom the permissions of files bind; the superuser is not. */
const bound: Place = process.getuid?.() === 0 ? { uid: 65_534 } : {};
/** A trace of calls is nobody's words. */
const TRACE = /^\s+at |node:internal|Error:/m;

const OUTPUTS = {
  html: ['--html', 'a.html'],
  csv: ['--csv', 'a.csv'],
  markdown: ['--markdown', 'a.md'],
  text: ['--text', 'a.txt'],
  png: ['--png', 'a.png'],
  svg: ['--svg', 'svg'],
} as const;
const AT = { html: 'a.html', csv: 'a.csv', markdown: 'a.md', text: 'a.txt', png: 'a.png', svg: 'svg/torque.svg' } as const;

/** A folder in which every kind was written whole; nobody changes it. */
let done: string | undefined;
function finished(): string {
  if (done === undefined) {
    done = fresh();
    expect(command(['run', smallest, ...Object.values(OUTPUTS).flat(), ...quick], { cwd: done }).status).toBe(0);
  }
  return done;
}

describe('killed for good while it writes', () => {
  const killed = (where: string, at: string, when: string, words: readonly string[]) =>
    command(words, { cwd: where, node: trap('killed-in-writing'), env: { KILLED_AT: at, KILLED_WHEN: when } });
  /** What a kill would leave at each moment of a command's writing. */
  function moments(where: string, words: readonly string[]): string[] {
    const kept = fresh();
    expect(command(words, { cwd: where, node: trap('seen-in-writing'), env: { WATCHED: where, KEPT: kept } }).status).toBe(0);
    return readdirSync(kept).map((name) => join(kept, name));
  }
  const filesIn = (where: string): string[] =>
    readdirSync(where, { recursive: true, encoding: 'utf8' }).filter((name) => lstatSync(join(where, name)).isFile());
  const named = (where: string): string[] => filesIn(where).filter((name) => !name.includes('.part-'));
  const same = (name: string, ...where: string[]): boolean =>
    new Set(where.map((one) => readFileSync(join(one, name)).toString('latin1'))).size === 1;

  it('where nothing stood: at no moment does anything stand there that is not whole', () => {
    const where = fresh();
    const seen = moments(where, ['run', smallest, ...Object.values(OUTPUTS).flat(), ...quick]);
    expect(named(where)).toEqual(expect.arrayContaining(Object.values(AT)));
    // half, and whole without its name
    expect(seen).toHaveLength(2 * named(where).length);
    for (const [k, left] of seen.entries()) {
      expect(named(left)).toHaveLength(Math.floor(k / 2));
      for (const name of named(left)) expect(same(name, left, where), name).toBe(true);
      expect(parts(left)).toHaveLength(1);
    }
  });

  it('where others stood: each is the old one or the new one, whole', () => {
    const where = fresh();
    cpSync(finished(), where, { recursive: true });
    const seen = moments(where, ['run', smallest, ...Object.values(OUTPUTS).flat(), '--date', '2025-01-02', ...quick]);
    expect(seen).toHaveLength(2 * named(where).length);
    expect(same(AT.html, finished(), where)).toBe(false);
    for (const left of seen) {
      expect(named(left)).toEqual(named(where));
      for (const name of named(left)) expect(same(name, left, where) || same(name, left, finished()), name).toBe(true);
    }
  });

  it('init: every file is whole or absent', () => {
    const where = fresh();
    const seen = moments(where, ['init', 'my-boat', '--for', 'boat']);
    expect(named(where)).toHaveLength(4);
    // half of each, whole before each gets its name
    expect(seen).toHaveLength(2 * 4);
    expect(Math.max(...seen.map((left) => named(left).length))).toBe(3);
    for (const left of seen) for (const name of named(left)) expect(same(name, left, where), name).toBe(true);
  });

  it('in earnest, and a report keeps its memory of earlier runs', () => {
    const where = fresh();
    cpSync(finished(), where, { recursive: true });
    const words = ['run', 'smallest.yaml', '--html', 'a.html', ...quick];
    writeFileSync(join(where, 'smallest.yaml'), SMALLEST.replace('80 %', '70 %'));
    expect(killed(where, 'a.html', 'half', words).signal).toBe('SIGKILL');
    expect(same('a.html', where, finished())).toBe(true);
    expect(parts(where)).toHaveLength(1);
    expect(command(words, { cwd: where }).stderr).toContain('Since the report that stood there');
    expect(readFileSync(join(where, 'a.html'), 'utf8')).toContain('id="history"');
  });

  it('before a file gets its name: what was left beside it goes with the next run, once it is too old to be another’s work', () => {
    const where = fresh();
    const words = ['run', smallest, ...OUTPUTS.text, ...quick];
    expect(killed(where, AT.text, 'named', words).signal).toBe('SIGKILL');
    expect(existsSync(join(where, AT.text))).toBe(false);
    const [left = ''] = parts(where);
    expect(command(words, { cwd: where }).status).toBe(0);
    expect(parts(where)).toEqual([left]);
    utimesSync(join(where, left), 1e9, 1e9);
    expect(command(words, { cwd: where }).status).toBe(0);
    expect(readdirSync(where)).toEqual(['a.txt']);
  });
});

describe('a disk that cannot take it', () => {
  it('a file that grows past what is allowed: code 4, the others written, the result told, the old one kept', () => {
    const where = fresh();
    const words = ['run', smallest, '--html', 'a.html', '--text', 'a.txt', ...quick].join(' ');
    cpSync(finished(), where, { recursive: true });
    const before = readFileSync(join(where, 'a.html'));
    rmSync(join(where, 'a.txt'));
    // 64 blocks of 1024 bytes; a report has hundreds
    const { status, stderr, stdout } = shell(`ulimit -f 64\nshaftwork ${words}`, { cwd: where });
    expect(status).toBe(4);
    expect(stderr).toContain('Cannot write a.html');
    expect(stderr).not.toMatch(TRACE);
    expect(stdout).toContain('27-32');
    expect(readFileSync(join(where, 'a.html')).equals(before)).toBe(true);
    expect(readFileSync(join(where, 'a.txt'), 'utf8')).toContain('27-32');
    expect(parts(where)).toEqual([]);
  });

  it('init past what is allowed leaves no folder', () => {
    const where = fresh();
    const { status, stderr } = shell('ulimit -f 8\nshaftwork init deep/er/my-boat --for boat', { cwd: where });
    expect(status).toBe(4);
    expect(stderr).toContain('Nothing was written');
    expect(readdirSync(where)).toEqual([]);
  });

  it('a folder that can only be read: code 4 before anything is calculated', () => {
    const where = fresh();
    chmodSync(where, 0o555);
    chmodSync(folder, 0o755);
    const { status, stderr, stdout } = command(['run', smallest, '--html', join(where, 'a.html'), ...quick], bound);
    expect([status, stdout]).toEqual([4, '']);
    expect(stderr).toMatch(/permission is denied.*choose another path/);
    expect(stderr).not.toMatch(TRACE);
    const begin = command(['init', join(where, 'my-boat'), '--for', 'boat'], bound);
    expect(begin.status).toBe(4);
    expect(begin.stderr).toContain('permission is denied');
    expect(readdirSync(where)).toEqual([]);
  });

  it('a file that may not be read: code 4', () => {
    const secret = file('secret.yaml', SMALLEST);
    chmodSync(secret, 0);
    const { status, stderr } = command(['check', secret], bound);
    expect(status).toBe(4);
    expect(stderr).toContain('permission is denied');
  });

  it('a link stays a link, and what it leads to is replaced', () => {
    const where = fresh();
    cpSync(finished(), join(where, 'kept'), { recursive: true });
    symlinkSync(join('kept', 'a.txt'), join(where, 'link.txt'));
    expect(command(['run', smallest, '--text', 'link.txt', '--date', '2025-01-02', ...quick], { cwd: where }).status).toBe(0);
    expect(lstatSync(join(where, 'link.txt')).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(where, 'kept', 'a.txt'), 'utf8')).toContain('2025-01-02');
  });
});

describe('a pipe or an output closed', () => {
  it.each([
    ['run', smallest, '--json', ...quick],
    ['run', smallest, '--csv', '-', ...quick],
    ['run', smallest, '--html', '-', ...quick],
    ['check', smallest, '--verbose'],
    ['schema'],
  ])('%s %s %s … is no fault', (...words) => {
    const { status, stderr, stdout } = shell(`shaftwork ${words.join(' ')} | head -1`);
    expect(status).toBe(0);
    expect(stderr).not.toMatch(TRACE);
    expect(stdout.split('\n')).toHaveLength(2);
  });

  it('files are written all the same', () => {
    const where = fresh();
    shell(`shaftwork run ${smallest} --html a.html --samples 0 | true`, { cwd: where });
    expect(readFileSync(join(where, 'a.html'), 'utf8').trimEnd().endsWith('</html>')).toBe(true);
  });

  it.each(['>&-', '2>&-', '>&- 2>&-'])('%s keeps no file from being written whole', (closed) => {
    const where = fresh();
    const { stderr } = shell(`shaftwork run ${smallest} --text a.txt --samples 0 ${closed}`, { cwd: where });
    expect(stderr).not.toMatch(TRACE);
    expect(readFileSync(join(where, 'a.txt'), 'utf8')).toContain('Estimates, not a clearance');
  });
});

describe('two runs at once', () => {
  it('on one output: it is whole, one of theirs, and nothing is left beside it', async () => {
    const where = fresh();
    const dates = ['2025-01-01', '2025-01-02'];
    const all = dates.map((date) =>
      begun(['run', smallest, '--html', 'a.html', '--csv', 'a.csv', '--date', date, ...quick], { cwd: where }),
    );
    for (const { ended } of all) expect((await ended).status).toBe(0);
    const page = readFileSync(join(where, 'a.html'), 'utf8');
    expect(page.startsWith('<!doctype html>') && page.trimEnd().endsWith('</html>')).toBe(true);
    expect(page).toMatch(/2025-01-0[12]/);
    expect(readdirSync(where).sort()).toEqual(['a.csv', 'a.html']);
  });

  it('of init in one folder: one makes it, none takes away what another made', async () => {
    const where = fresh();
    const all = ['boat', 'boat', 'boat'].map((kind) => begun(['init', 'begun', '--for', kind], { cwd: where }));
    const codes = (await Promise.all(all.map(({ ended }) => ended))).map(({ status }) => status);
    expect(codes.filter((code) => code === 0)).toHaveLength(1);
    expect(codes.every((code) => code === 0 || code === 2 || code === 4)).toBe(true);
    expect(parts(where)).toEqual([]);
    expect(command(['check', 'begun/boat.yaml'], { cwd: where }).status).toBe(0);
  });
});

describe('a thread that dies', () => {
  it('takes no draw with it: the rest is worked without threads', () => {
    // enough of them for threads to be worth their start, on quicker machines too
    const words = ['run', scenarioPath('hot-day-mapper'), '--samples', '256'];
    const { status, stdout, stderr } = command(words, { node: trap('dying-thread'), env: { DIES: 'while it works' } });
    expect(status).toBe(0);
    expect(stderr).toContain('A thread of the draws died');
    expect(stderr).not.toMatch(TRACE);
    expect(stdout).toContain('in 9 of 10 draws');
    expect(stdout).toContain('256 draws');
  });
});

describe('an interrupt', () => {
  it('while candidates are run or draws are made ends it within a second, with 130, and nothing is written', async () => {
    const all = [
      [file('many.yaml', many(400)), '0'],
      [scenarioPath('hot-day-mapper'), '20000'],
    ].map(([scenario = '', samples = '']) => {
      const where = fresh();
      return { where, ...begun(['run', scenario, '--samples', samples, '--html', 'a.html'], { cwd: where }) };
    });
    await new Promise((resolve) => setTimeout(resolve, 3000));
    for (const { child, ended, where } of all) {
      const pressed = Date.now();
      child.kill('SIGINT');
      const { status, stdout, stderr } = await ended;
      expect(Date.now() - pressed).toBeLessThan(5000);
      expect([status, stdout, stderr]).toEqual([130, '', '']);
      expect(readdirSync(where)).toEqual([]);
    }
  });
});

describe('little memory', () => {
  it('ends with 5 and what to do, not with an abort', () => {
    const where = fresh();
    const { status, signal, stderr } = command(['run', smallest, '--html', 'a.html', ...quick], {
      cwd: where,
      node: ['--max-old-space-size=8'],
    });
    expect([status, signal]).toEqual([5, null]);
    expect(stderr).toMatch(/^Memory ran out: .* allow more: set NODE_OPTIONS/s);
    expect(stderr).not.toMatch(TRACE);
    expect(readdirSync(where)).toEqual([]);
  });
});

/** A scenario of that many candidates. */
function many(count: number): string {
  const [head = '', motor = ''] = SMALLEST.split('  - name: "27-32"\n');
  return head + Array.from({ length: count }, (_, k) => `  - name: motor ${k}\n${motor.replace('920', String(700 + k))}`).join('');
}
