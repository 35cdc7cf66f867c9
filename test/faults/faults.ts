/**
 * `npm run faults -- [times] [seed]`: what machines do to a run, for real and at moments nobody chose: a small disk filled, a folder that can only be read,
 * kills and interrupts at random times, pipes closed, runs racing, little memory, threads that die, no network at all. Tells what it found, and ends with
 * how many of each kind were tried and held.
 */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { randomOf } from '../fuzz/generate/dice.js';
import { SMALLEST } from '../sim-core/scenario/smallest-scenario.js';

const [times = 3, seed = 1] = process.argv.slice(2).map(Number);
const random = randomOf(seed);
const bin = fileURLToPath(new URL('../../packages/cli/bin/shaftwork.js', import.meta.url));
const trap = fileURLToPath(new URL('../commands/traps/dying-thread.mjs', import.meta.url));
const mapper = fileURLToPath(new URL('../../scenarios/hot-day-mapper.yaml', import.meta.url));
const root = mkdtempSync(join(tmpdir(), 'shaftwork-faults-'));
const smallest = join(root, 'smallest.yaml');
writeFileSync(smallest, SMALLEST);

const OUTPUTS = ['--html', 'a.html', '--csv', 'a.csv', '--markdown', 'a.md', '--text', 'a.txt', '--png', 'a.png', '--svg', 'svg'];
const RUN = ['run', smallest, '--samples', '0', ...OUTPUTS];
/** Faults tried, and those that did not hold, by kind. */
const kinds = new Map<string, { tried: number; bad: number }>();
let kind = { tried: 0, bad: 0 };
const begins = (words: string): void => {
  kind = { tried: 0, bad: 0 };
  kinds.set(words, kind);
  console.log(words);
};
const say = (words: string): void => {
  kind.bad++;
  console.log(`  ${words}`);
};
/** Counts one fault as tried, and as bad once where something is found. */
function once(look: () => void): void {
  const before = kind.bad;
  kind.tried++;
  look();
  if (kind.bad > before) kind.bad = before + 1;
}

interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
}
const begin = (
  words: readonly string[],
  cwd: string,
  node: readonly string[] = [],
  env = {},
): { child: ChildProcess; ended: Promise<Ended> } => {
  const child = spawn(process.execPath, [...node, bin, ...words], {
    cwd,
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let out = '';
  let err = '';
  child.stdout.on('data', (text: Buffer) => (out += text.toString()));
  child.stderr.on('data', (text: Buffer) => (err += text.toString()));
  return { child, ended: new Promise((resolve) => child.on('close', (code, signal) => resolve({ code, signal, out, err }))) };
};
let last = 0;
const fresh = (): string => {
  const made = join(root, `place-${++last}`);
  mkdirSync(made);
  return made;
};

/** Ends by which a reader knows that a file of ours is whole. */
const WHOLE: Readonly<Record<string, (bytes: Buffer) => boolean>> = {
  html: (bytes) => bytes.toString().trimEnd().endsWith('</html>'),
  svg: (bytes) => bytes.toString().trimEnd().endsWith('</svg>'),
  csv: (bytes) => bytes.toString().endsWith('\r\n'),
  md: (bytes) => bytes.toString().trimEnd().endsWith('not a clearance.'),
  txt: (bytes) => bytes.toString().trimEnd().endsWith('not a clearance.'),
  png: (bytes) => bytes.subarray(-8, -4).toString('latin1') === 'IEND',
  json: (bytes) => JSON.parse(bytes.toString()) !== null,
  yaml: (bytes) => bytes.toString().endsWith('\n'),
};
/** Files with their own names that are not whole. */
function halves(where: string): string[] {
  const names = readdirSync(where, { recursive: true, encoding: 'utf8' }).filter(
    // another run may just have given it its name
    (name) => statSync(join(where, name), { throwIfNoEntry: false })?.isFile() === true,
  );
  return names.filter((name) => {
    if (/\.part-[0-9a-f]{12}$/.test(name)) return false;
    try {
      return WHOLE[name.split('.').at(-1) ?? '']?.(readFileSync(join(where, name))) !== true;
    } catch {
      return true;
    }
  });
}
function judge(what: string, where: string, { code, signal, err }: Ended, codes: readonly (number | null)[], parts = false): void {
  once(() => {
    if (!codes.includes(code)) say(`${what}: code ${code} ${signal ?? ''} ${err.slice(0, 300)}`);
    if (/^\s+at .*:\d+:\d+/m.test(err)) say(`${what}: a trace of calls: ${err.slice(0, 300)}`);
    const broken = halves(where);
    if (broken.length > 0) say(`${what}: half-written ${broken.join(', ')}`);
    if (!parts && readdirSync(where, { recursive: true, encoding: 'utf8' }).some((name) => name.includes('.part-')))
      say(`${what}: parts are left`);
  });
}

/** How long a whole run takes here [ms]. */
begins('a run undisturbed');
const began = Date.now();
judge('a run', fresh(), await begin(RUN, join(root, `place-${last}`)).ended, [0]);
const whole = Date.now() - began;

const logs = fileURLToPath(new URL('../../scenarios/logs', import.meta.url));
const many = join(root, 'many.yaml');
const [head = '', motor = ''] = SMALLEST.split('  - name: "27-32"\n');
writeFileSync(
  many,
  head + Array.from({ length: 60 }, (_, k) => `  - name: motor ${k}\n${motor.replace('920', String(700 + 5 * k))}`).join(''),
);
const INTERRUPTED = {
  'a run with all its files': RUN,
  'sixty candidates': ['run', many, '--samples', '0', ...OUTPUTS],
  'draws in threads': ['run', mapper, '--samples', '5000', '--html', 'a.html'],
  'an identification': ['identify', join(logs, 'motor-sweep.csv'), '--write', 'parts', '--html', 'a.html'],
};
begins('killed for good, interrupted or ended at a random moment');
for (let k = 0; k < times; k++)
  for (const [what, words] of Object.entries(INTERRUPTED))
    for (const signal of ['SIGKILL', 'SIGINT', 'SIGTERM'] as const) {
      const where = fresh();
      const { child, ended } = begin(words, where);
      setTimeout(() => child.kill(signal), random() * whole * 1.2);
      judge(`${signal}, ${what}`, where, await ended, [0, 1, 130, null], true);
    }

begins('a pipe that is closed');
for (const words of [['run', smallest, '--samples', '0', '--json'], ['check', smallest, '--verbose'], ['schema'], RUN]) {
  const where = fresh();
  const { child, ended } = begin(words, where);
  child.stdout?.destroy();
  judge(words.slice(0, 2).join(' '), where, await ended, [0]);
}

begins('a folder that can only be read');
{
  const where = fresh();
  mkdirSync(join(where, 'shut'), { mode: 0o555 });
  // permissions do not bind the superuser
  const bound = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
  chmodSync(root, 0o755);
  for (const words of [RUN, ['init', 'begun', '--for', 'boat']]) {
    const { status, signal, stdout, stderr } = spawnSync(process.execPath, [bin, ...words], {
      cwd: join(where, 'shut'),
      encoding: 'utf8',
      ...bound,
    });
    judge(`${words[0]}`, where, { code: status, signal, out: stdout, err: stderr }, [4]);
  }
}

begins('runs racing for one output, and init for one folder');
for (let k = 0; k < times; k++) {
  const where = fresh();
  const all = [1, 2, 3].map(() => begin(RUN, where));
  for (const { ended } of all) judge('a race', where, await ended, [0], true);
  const home = fresh();
  const codes = (await Promise.all(['boat', 'car', 'aircraft'].map((kind) => begin(['init', 'begun', '--for', kind], home).ended))).map(
    ({ code }) => code,
  );
  once(() => {
    if (!codes.includes(0) || codes.some((code) => code !== 0 && code !== 2 && code !== 4)) say(`init raced: ${codes.join(', ')}`);
    if (halves(home).length > 0) say(`init raced: half-written ${halves(home).join(', ')}`);
  });
}

begins('little memory');
for (const megabytes of [4, 8, 12, 16, 20, 24, 28, 32, 48]) {
  const where = fresh();
  const ended = await begin(RUN, where, [`--max-old-space-size=${megabytes}`]).ended;
  judge(`${megabytes} MB`, where, ended, [0, 5], true);
  if (ended.code === 5 && !ended.err.startsWith('Memory ran out')) say(`${megabytes} MB: not told: ${ended.err.slice(0, 300)}`);
}

begins('threads that die');
for (const how of ['at once', 'while it works', 'with a fault', 'for want of memory']) {
  const where = fresh();
  const ended = await begin(['run', mapper, '--samples', '256', '--csv', 'a.csv'], where, ['--max-old-space-size=300', '--import', trap], {
    DIES: how,
  }).ended;
  judge(how, where, ended, [0, 1]);
  if (!ended.err.includes('A thread of the draws died')) say(`${how}: not told`);
}

const can = (program: string, ...words: string[]): boolean => spawnSync(program, words, { stdio: 'ignore' }).status === 0;
begins('a full disk');
for (const size of [100, 200, 400, 600, 800, 1000]) {
  const where = fresh();
  if (!can('mount', '-t', 'tmpfs', '-o', `size=${size}k`, 'tmpfs', where)) {
    console.log('  not tried: only the superuser may mount a small disk');
    break;
  }
  try {
    const ended = await begin(RUN, where).ended;
    judge(`${size} kB`, where, ended, [0, 4]);
    if (ended.code === 4 && !(ended.err.includes('the disk is full') && ended.out.includes('27-32')))
      say(`${size} kB: ${ended.err.slice(0, 200)}`);
    spawnSync('sh', ['-c', `head -c ${size * 1024} /dev/zero > '${join(where, 'fill')}'`], { stdio: 'ignore' });
    const init = await begin(['init', 'begun', '--for', 'boat'], where).ended;
    once(() => {
      if (init.code !== 4 || existsSync(join(where, 'begun'))) say(`init on ${size} kB: code ${init.code} ${init.err.slice(0, 200)}`);
    });
  } finally {
    can('umount', where);
  }
}

begins('no network at all');
if (can('unshare', '-n', 'true'))
  for (const words of [RUN, ['check', smallest], ['run', mapper, '--samples', '128']]) {
    const { status, signal, stdout, stderr } = spawnSync('unshare', ['-n', process.execPath, bin, ...words], {
      cwd: fresh(),
      encoding: 'utf8',
    });
    judge('without a network', join(root, `place-${last}`), { code: status, signal, out: stdout, err: stderr }, [0, 1]);
  }
else console.log('  not tried: only the superuser may take the network away');

rmSync(root, { recursive: true, force: true });
const all = [...kinds];
const sum = (of: 'tried' | 'bad'): number => all.reduce((total, [, each]) => total + each[of], 0);
const each = all.map(([words, { tried, bad }]) => `${words} ${tried - bad} of ${tried}`).join('; ');
console.log(`${sum('tried')} faults tried from seed ${seed}, ${sum('tried') - sum('bad')} held: ${each}.`);
process.exitCode = sum('bad') > 0 ? 1 : 0;
