/** One damaged file of a project given to the command: it is read, or told what is wrong, where, and what to do. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { createIo, type Io } from '@shaftwork/cli/hands/io';
import { main } from '@shaftwork/cli/main';
import type { Fuzzed } from '../fuzz-one.js';
import { randomOf } from '../generate/dice.js';
import { damaged } from './damage.js';

const SMALL = `title: Small
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 3 min, throttle: 80 % }]
candidates:
  - name: A
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`;
const LOGGED = SMALL.replace('[{ for: 3 min, throttle: 80 % }]', '{ log: run.csv }');
const LOG = '# a comment\ntime [s],throttle [%],vehicle speed [m/s]\n0,0,0\n1,50,2\n2.5,80,4\n4,100,5\n6,"20",3\n8,0,1\n';
const PARTED = SMALL.replace(/motor: \{ layout.*\}\n/, 'motor: { use: parts/motor.yaml }\n');
const PART =
  'part: motor\nlayout: outrunner\nkv: 920 rpm/V ± 4 %\nresistance: 96 mohm\nno_load: { current: 0.9 A, voltage: 10 V }\nmass: 66 g\ncan: { diameter: 27 mm, length: 32 mm }\n';

/** Files of a project by path, the one that is damaged, and what is asked of them. */
interface Project {
  readonly files: Readonly<Record<string, string>>;
  readonly hit: string;
  readonly ask: readonly string[];
}

/** Every text file below a folder, by its path from there. */
const below = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(yaml|csv)$/.test(name))
      .map((name) => [name.replaceAll('\\', '/'), readFileSync(join(folder, name), 'utf8')]),
  );

/** The projects of the repository at `root`, its demos and starters, and small ones that are read in a moment. */
export function projects(root: string): readonly Project[] {
  const demos = below(join(root, 'scenarios'));
  const own = Object.keys(demos).filter((name) => /^[^/]+\.yaml$/.test(name));
  const starters = ['aircraft', 'boat', 'car'].flatMap((name) => {
    const files = below(join(root, 'packages/cli/starters', name));
    return Object.keys(files).map((hit): Project => ({ files, hit, ask: ['point', `${name}.yaml`] }));
  });
  const small: Project = { files: { 'a.yaml': SMALL }, hit: 'a.yaml', ask: ['point', 'a.yaml', '--json'] };
  const logged = { 'a.yaml': LOGGED, 'run.csv': LOG };
  const parted = { 'a.yaml': PARTED, 'parts/motor.yaml': PART };
  return [
    ...[small, small, small, { ...small, ask: ['check', 'a.yaml'] }],
    ...[0, 1, 2].map((): Project => ({ files: logged, hit: 'run.csv', ask: ['point', 'a.yaml'] })),
    { files: logged, hit: 'run.csv', ask: ['run', 'a.yaml', '--samples', '0'] },
    { files: logged, hit: 'a.yaml', ask: ['point', 'a.yaml'] },
    { files: parted, hit: 'parts/motor.yaml', ask: ['point', 'a.yaml'] },
    ...own.map((hit): Project => ({ files: demos, hit, ask: ['point', hit, '--json'] })),
    ...Object.keys(demos)
      .filter((name) => name.startsWith('parts/'))
      .flatMap((hit) => own.map((scenario): Project => ({ files: demos, hit, ask: ['point', scenario] }))),
    ...Object.keys(demos)
      .filter((name) => name.startsWith('known-motors/'))
      .map((hit): Project => ({ files: demos, hit, ask: ['point', own[0], '--known', 'known-motors'] })),
    { files: demos, hit: 'logs/discharge.csv', ask: ['identify', 'logs/discharge.csv', '--pack', own[0]] },
    ...starters,
  ];
}

const EXPECTED = new Set<number | string>([0, 1, 2, 4]);
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const STEERS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

/** What is wrong with the way a command ended, in words. */
export function endBroken(code: number | string, out: string, err: string): string[] {
  const broken: string[] = [];
  const said = err + out;
  if (!EXPECTED.has(code)) broken.push(`crash: code ${code}: ${err.slice(0, 300)}`);
  if (/^\s+at .*(?:\.[jt]s|node:)/m.test(said)) broken.push('crash: tells a stack');
  const steers = STEERS.exec(said);
  if (steers !== null) broken.push(`sends the terminal U+${steers[0].charCodeAt(0).toString(16)}`);
  if (code === 2) {
    // a place is a file with line and column, or a file or key by name
    if (!/\.(?:yaml|csv):\d+|\.(?:yaml|csv)\b/.test(said)) broken.push(`names no place: ${said.slice(0, 200)}`);
    if (!/npx shaftwork|"expected": "|[.:] [A-Z]/.test(said)) broken.push(`says not what to do: ${said.slice(0, 200)}`);
  }
  return broken;
}

/** Processor time that reading may take [s]. */
const LONGEST = 5;

/** `change` is what happens to the file. */
export async function bytesOne(seed: number, from: readonly Project[], change = damaged): Promise<Fuzzed> {
  const random = randomOf(seed * 7919);
  const { files, hit, ask } = from[Math.floor(random() * from.length)];
  const folder = mkdtempSync(join(tmpdir(), 'shaftwork-bytes-'));
  const began = process.cpuUsage();
  try {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), path === hit ? change(Buffer.from(text), random) : text);
    }
    const said = { out: '', err: '' };
    const io: Io = {
      ...createIo(),
      out: (text) => {
        said.out += text;
      },
      err: (text) => {
        said.err += text;
      },
    };
    const argv = ask.map((word) => (word in files || word === 'known-motors' ? join(folder, word) : word));
    const code = await main(argv, io).catch((error: unknown) => String(error));
    const seconds = process.cpuUsage(began).user / 1e6;
    const broken = endBroken(code, said.out, said.err);
    if (seconds > LONGEST) broken.push(`hangs: ${seconds.toFixed(1)} s`);
    return { seed, refused: code !== 0 && code !== 1, broken, seconds };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
