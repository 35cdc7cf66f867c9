/** A child that drives seeds one after another, watched: one that hangs or dies costs its seed alone. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Fuzzed } from './fuzz-one.js';

/** Longer than this is a hang [s of processor time]: of a run, and of its variants or one question. */
const LONGEST = 5;
const LONGEST_MORE = 30;
/** Another language and time zone. */
const ELSEWHERE = { LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8', TZ: 'Pacific/Chatham' } as const;

type Said = { readonly doing: string; readonly seed: number } | Fuzzed;

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

const start = (child: string, args: readonly string[], env: NodeJS.ProcessEnv = process.env) =>
  spawn(process.execPath, ['--max-old-space-size=1500', child, ...args], { env, stdio: ['ignore', 'pipe', 'pipe'] });

/** Drives `seeds` in one child until one of them ends it; tells of each that was driven, that one too. */
export function drive(
  child: string,
  seeds: readonly number[],
  how: readonly ['run', variants: number, questions: number] | readonly ['bytes', root: string],
  told: (row: Fuzzed) => void,
): Promise<void> {
  return new Promise((done, fail) => {
    const hand = start(child, [how[0], seeds.join(), ...how.slice(1).map(String)]);
    let now: { seed: number; doing: string; since: number } | undefined;
    let some = false;
    let [text, errors] = ['', ''];
    const started = Date.now();
    const end = (broken: string): void => {
      if (now === undefined) return;
      told({ seed: now.seed, refused: false, broken: [broken], seconds: processorTime(hand.pid, started) - now.since });
      now = undefined;
    };
    const watch = setInterval(() => {
      if (now === undefined) return;
      const longest = now.doing === 'run' ? LONGEST : LONGEST_MORE;
      if (processorTime(hand.pid, started) - now.since <= longest) return;
      some = true;
      hand.stdout.removeAllListeners('data');
      end(`${now.doing} hangs: over ${longest} s`);
      hand.kill('SIGKILL');
    }, 200);
    hand.stdout.on('data', (chunk) => {
      text += chunk;
      for (let cut = text.indexOf('\n'); cut >= 0; cut = text.indexOf('\n')) {
        const said = JSON.parse(text.slice(0, cut)) as Said;
        text = text.slice(cut + 1);
        some = true;
        if ('doing' in said) now = { seed: said.seed, doing: said.doing, since: processorTime(hand.pid, started) };
        else {
          now = undefined;
          told(said);
        }
      }
    });
    hand.stderr.on('data', (chunk) => {
      errors = (errors + chunk).slice(-2000);
    });
    hand.on('close', (code, signal) => {
      clearInterval(watch);
      if (!some) fail(new Error(errors));
      end(`crash: the process ends with ${code ?? signal} while ${now?.doing}: ${errors.slice(-300)}`);
      done();
    });
  });
}

/** What one seed's result reads as, word for word, in some language and time zone. */
const read = (child: string, seed: number, env?: NodeJS.ProcessEnv): Promise<string> =>
  new Promise((done) => {
    const hand = start(child, ['read', String(seed)], env);
    let text = '';
    hand.stdout.on('data', (chunk) => {
      text += chunk;
    });
    hand.on('close', () => done(text));
  });

/** Whether a seed reads the same in another language and time zone. */
export const sameElsewhere = async (child: string, seed: number): Promise<boolean> =>
  (await read(child, seed)) === (await read(child, seed, { ...process.env, ...ELSEWHERE }));
