/**
 * `npm run mutants -- <room> [--share 10] [--seed 1] [--longest 0.4] [file …]`: changes one thing at a time in a room of sim-core and tells which
 * changes the tests do not notice. `--share` is how many per cent of all possible changes are drawn; files, such as `holds`, narrow the room. A mutant is
 * held against the tests of test/sim-core that import from its room, in person or through helpers, those apart that take over 0.4 s (`--longest`) of the
 * processor. Checks, properties and commands are not asked, so the share killed is a lower bound. `equivalent.txt` lists changes that change nothing, each
 * with its reason; they are counted apart; what does not compile is no mutant. Ends with the share killed and its 95 % interval (Wilson 1927).
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { drawMutants, type Mutant } from './draw.js';
import { typeCheck } from './types.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
process.chdir(root);
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    share: { type: 'string', default: '10' },
    seed: { type: 'string', default: '1' },
    longest: { type: 'string', default: '0.4' },
  },
});
const [room, ...named] = positionals;
const share = Number(values.share) / 100;
if (room === undefined || !(share > 0 && share <= 1)) {
  console.error('Say which room, such as: npm run mutants -- heat --share 10 --seed 1');
  process.exit(2);
}

const below = (folder: string, end: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .map((path) => `${folder}/${path.replaceAll('\\', '/')}`)
        .filter((path) => path.endsWith(end))
        .sort()
    : [];
const above = 'packages/sim-core/src/';
const files = below(`${above}${room}`, '.ts').filter(
  (path) => !path.endsWith('.d.ts') && (named.length === 0 || named.some((name) => path.endsWith(`/${name}.ts`))),
);
/** What a test and the helpers that it imports say, those of other folders too. */
function textOf(path: string, read = new Set<string>()): string {
  if (read.has(path) || !existsSync(path)) return '';
  read.add(path);
  const own = readFileSync(path, 'utf8');
  const helpers = Array.from(own.matchAll(/from '(\.[^']+)\.js'/g), ([, to = '']) => `${posix.join(posix.dirname(path), to)}.ts`);
  return [own, ...helpers.filter((each) => each.startsWith('test/')).map((each) => textOf(each, read))].join('\n');
}
const isMirror = (path: string): boolean => path.startsWith(`test/sim-core/${room}/`);
const tests = below('test/sim-core', '.test.ts')
  .map((path) => ({ path, text: textOf(path) }))
  .filter(({ path, text }) => isMirror(path) || text.includes(`'@shaftwork/sim-core/${room}/`))
  .sort((a, b) => Number(isMirror(b.path)) - Number(isMirror(a.path)));
if (files.length === 0 || tests.length === 0) {
  console.error(`Nothing to change in ${above}${room}, or no test imports from there.`);
  process.exit(2);
}

const folder = join(root, 'reports', 'mutants', `${[room, ...named].join('-')}`);
const log = join(folder, 'log.txt');
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const compiles = typeCheck(join(root, 'packages', 'sim-core'));
const { all, drawn, refused, sources } = await drawMutants(files, share, values.seed, (file, text) => compiles(join(root, file), text));
writeFileSync(
  join(folder, 'sources.json'),
  JSON.stringify(Object.fromEntries(Array.from(sources, ([path, text]) => [join(root, path), text]))),
);

const vitest = [join(root, 'node_modules', 'vitest', 'vitest.mjs'), 'run', '--config', 'test/mutants/vitest.config.ts', '--silent'];
const surroundings = (paths: readonly string[], more = {}) => ({
  cwd: root,
  env: {
    ...process.env,
    MUTANTS_LONGEST: values.longest,
    MUTANTS_FOLDER: folder,
    MUTANTS_TESTS: paths.join(','),
    NODE_NO_WARNINGS: '1',
    ...more,
  },
});
const told = (word: string): string[] =>
  (existsSync(log) ? readFileSync(log, 'utf8') : '')
    .split('\n')
    .flatMap((line) => (line.startsWith(`${word} `) ? [line.slice(word.length + 1)] : []));

/** Seconds of the processor without a word from the tests after which the mutant tried last counts as one that never ends. */
const PATIENCE = 60;
/** Seconds of the processor that the tests have had; of the clock where the system does not tell. */
function spent(): number {
  const stat = `/proc/${told('process').at(-1)}/stat`;
  if (!existsSync(stat)) return Date.now() / 1000;
  const [user = 0, system = 0] = readFileSync(stat, 'utf8').split(') ')[1]?.split(' ').slice(11, 13).map(Number) ?? [];
  return (user + system) / 100;
}
/** All tests, each with all mutants it meets; false where a mutant that never ends had to be stopped. */
const tryAll = (): Promise<boolean> =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, vitest, {
      ...surroundings(tests.map(({ path }) => path)),
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    let [said, since] = [0, 0];
    let stopped = false;
    const watch = setInterval(() => {
      if (!existsSync(log)) return;
      const { size } = statSync(log);
      if (size !== said) [said, since] = [size, spent()];
      else if (spent() - since > PATIENCE) {
        stopped = true;
        process.kill(Number(told('process').at(-1)), 'SIGKILL');
        child.kill('SIGKILL');
      }
    }, 5000);
    child.on('close', () => {
      clearInterval(watch);
      resolve(!stopped);
    });
  });
while (!(await tryAll())) {
  const last = told('begin').at(-1);
  if (last === undefined) throw new Error('The tests do not run.');
  writeFileSync(log, `endless ${last}\n`, { flag: 'a' });
}
if (told('process').length === 0) throw new Error('The tests did not start, so nothing is told of any mutant: is the machine too busy?');
const broken = new Set(told('broken'));
if (broken.size > 0) console.log(`These tests fail on unchanged sources and tell nothing: ${Array.from(broken).join('; ')}`);

const killed = new Set(told('killed'));
const endless = new Set(told('endless'));
const hit = new Set(told('hit'));
const loading = new Set(told('loading'));
/** A mutant met while modules were loaded lives in a world of its own, against the tests that name its file; where there are none, against its room's. */
const notices = ({ id, file }: Mutant): boolean => {
  const path = file.slice(above.length, -'.ts'.length);
  const naming = tests.filter(
    (test) => test.path === `test/sim-core/${path}.test.ts` || test.text.includes(`'@shaftwork/sim-core/${path}'`),
  );
  const mirrors = naming.length > 0 ? naming : tests.filter((test) => isMirror(test.path));
  const { status } = spawnSync(process.execPath, vitest, {
    ...surroundings(
      mirrors.map(({ path }) => path),
      { __STRYKER_ACTIVE_MUTANT__: id },
    ),
    stdio: 'ignore',
    timeout: 60 * PATIENCE * 1000,
  });
  if (status === null) endless.add(id);
  return status !== 0;
};
for (const mutant of drawn)
  if (loading.has(mutant.id) && !killed.has(mutant.id) && !endless.has(mutant.id) && notices(mutant) && !endless.has(mutant.id))
    killed.add(mutant.id);

const listed = readFileSync(new URL('equivalent.txt', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => line !== '' && !line.startsWith('#'));
const lineOf = ({ file, from, to }: Mutant): string => `${file.slice(above.length)} | ${from} → ${to} | `;
const isListed = (mutant: Mutant): boolean => listed.some((line) => line.startsWith(lineOf(mutant)));
const lives = drawn.filter(({ id }) => !killed.has(id) && !endless.has(id));
const survivors = lives.filter((mutant) => !isListed(mutant));
for (const { id, file, line, from, to } of survivors)
  console.log(`${file.slice(above.length)}:${line} | ${from} → ${to}${hit.has(id) || loading.has(id) ? '' : '  (no test comes by)'}`);
for (const mutant of drawn.filter((each) => killed.has(each.id) && isListed(each)))
  console.log(`${lineOf(mutant)} listed as equivalent, yet killed`);

const equivalent = lives.length - survivors.length;
const counted = drawn.length - equivalent;
const found = counted - survivors.length;
/** Ends of the interval in which a share lies with 95 %, from k of n: Wilson's score interval. */
const interval = (k: number, n: number): [number, number] => {
  const z = 1.96;
  const middle = (k + z ** 2 / 2) / (n + z ** 2);
  const half = (z / (n + z ** 2)) * Math.sqrt((k * (n - k)) / n + z ** 2 / 4);
  return [middle - half, middle + half];
};
const percent = (x: number): string => (100 * x).toFixed(0);
const [low, high] = interval(found, counted);
console.log(
  `${[room, ...named].join(' ')}: ${drawn.length + refused} of ${all} mutants drawn (seed ${values.seed}); ${refused} do not compile and do not count; killed ${killed.size}, endless ${endless.size}, ` +
    `survived ${survivors.length}, equivalent ${equivalent}; ${percent(found / counted)} % of those not equivalent killed (${percent(low)} … ${percent(high)})`,
);
