/**
 * `npm run fuzz -- <count> <seed> [--variants <every>] [--questions <every>] [--jobs <n>]`: drives that many generated scenarios from the seed on, in
 * children that are ended when one of them hangs, and tells which break a law. Every so many are written otherwise too, asked every question, and a
 * few driven in another language and time zone.
 */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Scenarios of one child: enough to pay for its start, few enough to be lost with it. */
const BATCH = 250;
/** Longer than this is a hang [s of processor time]: of a run, and of its variants or one question. */
const LONGEST = 5;
const LONGEST_MORE = 30;
/** Of how many scenarios one is driven elsewhere too, and where. */
const ELSEWHERE_EVERY = 500;
const ELSEWHERE = { LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8', TZ: 'Pacific/Chatham' } as const;

const flag = (name: string, usual: number): number => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? usual : Number(process.argv[at + 1]);
};
const [count = 200, first = 1] = process.argv
  .slice(2, 4)
  .filter((text) => !text.startsWith('--'))
  .map(Number);
const [variants, questions, jobs] = [flag('variants', 10), flag('questions', 200), flag('jobs', 1)];
if (!(count > 0) || !Number.isInteger(first) || !(jobs > 0)) throw new Error('npm run fuzz -- <count> <seed>');

const tally = { ran: 0, refused: 0, crashes: 0, hangs: 0, broken: 0, elsewhere: 0, slowest: 0, slowestSeed: first };
const tell = (seed: number, broken: readonly string[]): void => {
  tally.broken++;
  if (broken.some((law) => law.includes('crash: '))) tally.crashes++;
  if (broken.some((law) => law.includes('hangs'))) tally.hangs++;
  console.log(`seed ${seed}: ${broken.slice(0, 4).join('; ').slice(0, 900)}`);
};

/** Processor time of a child [s], by Linux's table of processes; elsewhere the time since its start. */
function processorTime(pid: number | undefined, since: number): number {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
      .replace(/^.*\) /, '')
      .split(' ');
    return (Number(fields[11]) + Number(fields[12])) / 100;
  } catch {
    return (Date.now() - since) / 1000;
  }
}

type Row =
  | { readonly doing: string; readonly seed: number }
  | { readonly seed: number; readonly refused: boolean; readonly broken: readonly string[]; readonly seconds: number };

const CHILD = fileURLToPath(new URL('fuzz-child.ts', import.meta.url));
const child = (args: readonly string[], env: NodeJS.ProcessEnv = process.env) =>
  spawn(process.execPath, [...process.execArgv, '--max-old-space-size=1500', CHILD, ...args], { env, stdio: ['ignore', 'pipe', 'pipe'] });

/** Drives seeds from `from` up to before `to`; the seed to go on with. */
function batch(from: number, to: number): Promise<number> {
  return new Promise((done) => {
    const hand = child(['run', String(from), String(to), String(variants), String(questions)]);
    let now: { seed: number; doing: string; since: number } | undefined;
    let next = from;
    let [text, errors] = ['', ''];
    const started = Date.now();
    const watch = setInterval(() => {
      if (now === undefined) return;
      const longest = now.doing === 'run' ? LONGEST : LONGEST_MORE;
      if (processorTime(hand.pid, started) - now.since <= longest) return;
      tell(now.seed, [`${now.doing} hangs: over ${longest} s`]);
      next = now.seed + 1;
      now = undefined;
      hand.kill('SIGKILL');
    }, 200);
    hand.stdout.on('data', (chunk) => {
      text += chunk;
      for (let cut = text.indexOf('\n'); cut >= 0; cut = text.indexOf('\n')) {
        const row = JSON.parse(text.slice(0, cut)) as Row;
        text = text.slice(cut + 1);
        if (row.seed < next) continue;
        if ('doing' in row) {
          now = { seed: row.seed, doing: row.doing, since: processorTime(hand.pid, started) };
          continue;
        }
        now = undefined;
        next = row.seed + 1;
        if (row.refused) tally.refused++;
        else tally.ran++;
        if (row.seconds > tally.slowest) [tally.slowest, tally.slowestSeed] = [row.seconds, row.seed];
        if (row.broken.length > 0) tell(row.seed, row.broken);
      }
    });
    hand.stderr.on('data', (chunk) => {
      errors = (errors + chunk).slice(-2000);
    });
    hand.on('close', (code, signal) => {
      clearInterval(watch);
      if (now !== undefined) {
        tell(now.seed, [`crash: the process ends with ${code ?? signal} while ${now.doing}: ${errors.slice(-300)}`]);
        next = now.seed + 1;
      } else if (code !== 0 && next === from) throw new Error(errors);
      done(next);
    });
  });
}

/** What one seed's result reads as, word for word, in some language and time zone. */
const read = (seed: number, env?: NodeJS.ProcessEnv): Promise<string> =>
  new Promise((done) => {
    const hand = child(['read', String(seed)], env);
    let text = '';
    hand.stdout.on('data', (chunk) => {
      text += chunk;
    });
    hand.on('close', () => done(text));
  });

async function lane(from: number, to: number): Promise<void> {
  for (let next = from; next < to; ) next = await batch(next, Math.min(next + BATCH, to));
  for (let seed = Math.ceil(from / ELSEWHERE_EVERY) * ELSEWHERE_EVERY; seed < to; seed += ELSEWHERE_EVERY) {
    tally.elsewhere++;
    if ((await read(seed)) !== (await read(seed, { ...process.env, ...ELSEWHERE })))
      tell(seed, ['reads otherwise in another language and time zone']);
  }
}

const began = Date.now();
const share = Math.ceil(count / jobs);
await Promise.all(Array.from({ length: jobs }, (_, k) => lane(first + k * share, Math.min(first + (k + 1) * share, first + count))));
const { ran, refused, crashes, hangs, broken, elsewhere, slowest, slowestSeed } = tally;
console.log(
  `${count} scenarios from seed ${first} in ${((Date.now() - began) / 1000).toFixed(0)} s: ${ran} ran, ${refused} refused, ${crashes} crash, ${hangs} hang, ${broken} break a law or do either; ${elsewhere} read in another language; slowest run ${slowest.toFixed(1)} s (seed ${slowestSeed}).`,
);
process.exitCode = broken > 0 ? 1 : 0;
