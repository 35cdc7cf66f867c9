/** Makes the mutants of files, draws a share of them, and gives the sources in which each drawn one waits for its turn. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { Instrumenter } from '@stryker-mutator/instrumenter';

/** One change of one file. */
export interface Mutant {
  readonly id: string;
  /** From the root of the project, with slashes. */
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** What is written there, and what takes its place, each on one line. */
  readonly from: string;
  readonly to: string;
}
export interface Draw {
  /** Number of all mutants of the files. */
  readonly all: number;
  readonly drawn: readonly Mutant[];
  /** How many more were drawn that do not compile, and are no mutants. */
  readonly refused: number;
  /** Text of each file with the drawn mutants in it. */
  readonly sources: ReadonlyMap<string, string>;
}

const no = (): boolean => false;
const nothing = (): void => {};
const silent = {
  isTraceEnabled: no,
  isDebugEnabled: no,
  isInfoEnabled: no,
  isWarnEnabled: no,
  isErrorEnabled: no,
  isFatalEnabled: no,
  trace: nothing,
  debug: nothing,
  info: nothing,
  warn: nothing,
  error: nothing,
  fatal: nothing,
};

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** Each mutant draws for itself, out of the seed and what it changes where: the same seed draws the same ones whatever happens elsewhere. */
const isDrawn = (share: number, ...of: readonly (string | number)[]): boolean =>
  createHash('sha256').update(of.join('\n')).digest().readUInt32BE() / 2 ** 32 < share;

/** `share` in 0 … 1; `compiles` says so of a file and its changed text. */
export async function drawMutants(
  files: readonly string[],
  share: number,
  seed: string,
  compiles: (file: string, text: string) => boolean,
): Promise<Draw> {
  const written = new Map(files.map((file) => [file, readFileSync(file, 'utf8')]));
  const instrumented = await new Instrumenter(silent).instrument(
    Array.from(written, ([name, content]) => ({ name, content, mutate: true })),
    // a whole function that gives nothing: most are made while modules load, and each such one costs a world of its own
    { plugins: null, excludedMutations: ['ArrowFunction'], ignorers: [] },
  );
  const made = instrumented.mutants.filter(({ status }) => status === undefined);
  let refused = 0;
  const drawn = made.flatMap(({ id, fileName, location: { start, end }, mutatorName, replacement }): Mutant[] => {
    const source = written.get(fileName) ?? '';
    const offset = ({ line, column }: typeof start): number =>
      source.split('\n', line).reduce((sum, each) => sum + each.length + 1, column);
    const [from, to] = [offset(start), offset(end)];
    if (!isDrawn(share, seed, fileName, start.line, start.column, end.line, end.column, mutatorName, replacement)) return [];
    if (!compiles(fileName, `${source.slice(0, from)}${replacement}${source.slice(to)}`)) {
      refused++;
      return [];
    }
    return [{ id, file: fileName, line: start.line + 1, from: oneLine(source.slice(from, to)), to: oneLine(replacement) }];
  });
  const ids = new Set(drawn.map(({ id }) => id));
  const sources = new Map(
    instrumented.files.map(({ name, content }) => [
      name,
      content
        .replace(/stryMutAct_9fa48\("(\d+)"\)/g, (call, id: string) => (ids.has(id) ? call : 'false'))
        .replace(/stryCov_9fa48\(("\d+"(?:, "\d+")*)\)/g, (_, list: string) => {
          const kept = list.split(', ').filter((id) => ids.has(id.slice(1, -1)));
          return kept.length === 0 ? '0' : `stryCov_9fa48(${kept.join(', ')})`;
        }),
    ]),
  );
  return { all: made.length, drawn, refused, sources };
}
