/**
 * `npm run fuzz -- <count> <seed> [--variants <every>] [--questions <every>] [--jobs <n>] [--rows <file>]`: drives that many generated scenarios from the
 * seed on, in children that are ended when one of them hangs, and tells which break a law. Every so many are written otherwise too, asked every
 * question, and a few driven in another language and time zone. With a file of rows it goes on where it was; `--again <file>` drives the seeds that broke once
 * more, on the code of now; `--sum <file> …` says what several found together. `--bytes` gives damaged files of the project to the command instead.
 */
import { fileURLToPath } from 'node:url';
import { bundledChild, commitDriven } from './fuzz-bundle.js';
import { drive, sameElsewhere } from './fuzz-hand.js';
import type { Fuzzed } from './fuzz-one.js';
import { keep, type Row, type Rows, rowsOf, summary } from './fuzz-rows.js';

/** Scenarios of one child: enough to pay for its start, few enough to be lost with it. */
const BATCH = 1000;
/** Of how many scenarios one is driven elsewhere too. */
const ELSEWHERE_EVERY = 500;

const words = process.argv.slice(2);
const after = (name: string): readonly string[] => {
  const at = words.indexOf(`--${name}`);
  const rest = at < 0 ? [] : words.slice(at + 1);
  const next = rest.findIndex((word) => word.startsWith('--'));
  return next < 0 ? rest : rest.slice(0, next);
};
const number = (name: string, usual: number): number => Number(after(name)[0] ?? usual);

const BYTES = words.includes('--bytes');
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const HOW = BYTES ? (['bytes', ROOT] as const) : (['run', number('variants', 10), number('questions', 200)] as const);

const tell = ({ seed, broken }: Fuzzed): void => {
  if (broken.length > 0) console.log(`seed ${seed}: ${broken.slice(0, 4).join('; ').slice(0, 900)}`);
};

async function campaign(seeds: readonly number[], rows: Rows, file: string | undefined): Promise<void> {
  const commit = commitDriven();
  const child = await bundledChild();
  const take = (row: Row): void => {
    rows.set(row.seed, row);
    if (file !== undefined) keep(file, row);
  };
  const hand = async (waiting: number[]): Promise<void> => {
    while (waiting.length > 0) {
      const batch = waiting.slice(0, BATCH);
      let driven = 0;
      let [elsewhere, last]: [number[], Row | undefined] = [[], undefined];
      await drive(child, batch, HOW, (fuzzed) => {
        driven++;
        last = { ...fuzzed, commit };
        if (!BYTES && fuzzed.seed % ELSEWHERE_EVERY === 0) elsewhere = [...elsewhere, fuzzed.seed];
        take(last);
        tell(fuzzed);
      });
      waiting.splice(0, driven);
      for (const seed of elsewhere) {
        const row = rows.get(seed);
        if (row === undefined) continue;
        const broken = (await sameElsewhere(child, seed))
          ? row.broken
          : [...row.broken, 'reads otherwise in another language and time zone'];
        take({ ...row, broken, elsewhere: true });
        if (broken.length > row.broken.length) tell({ ...row, broken });
      }
    }
  };
  const jobs = number('jobs', 1);
  const share = Math.ceil(seeds.length / jobs);
  await Promise.all(Array.from({ length: jobs }, (_, k) => hand(seeds.slice(k * share, (k + 1) * share))));
}

const [sum, again, file] = [after('sum'), after('again'), after('rows')[0]];
const rows = rowsOf(sum.length > 0 ? sum : again.length > 0 ? again : file === undefined ? [] : [file]);
if (sum.length > 0) for (const row of rows.values()) tell(row);
else if (again.length > 0) {
  const seeds = [...rows.values()].filter(({ broken }) => broken.length > 0).map(({ seed }) => seed);
  await campaign(seeds, rows, again.at(-1));
} else {
  const [count = 200, first = 1] = words
    .slice(0, 2)
    .filter((word) => !word.startsWith('--'))
    .map(Number);
  if (!(count > 0) || !Number.isInteger(first)) throw new Error('npm run fuzz -- <count> <seed>');
  const seeds = Array.from({ length: count }, (_, k) => first + k).filter((seed) => !rows.has(seed));
  await campaign(seeds, rows, file);
}
console.log(summary(rows, BYTES));
process.exitCode = [...rows.values()].some(({ broken }) => broken.length > 0) ? 1 : 0;
