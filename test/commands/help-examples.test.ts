/** What `--help` gives as an example works for who has just run `init`. */
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { call, ownFolder } from './call.js';

const { folder } = ownFolder();
const COMMANDS = ['check', 'point', 'run', 'rate', 'cool', 'reading', 'why', 'reshape', 'rewind', 'identify', 'explain', 'schema'];

/** The words of a shell line, quoted ones whole. */
const wordsOf = (line: string): string[] => [...line.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!);

describe('the example of', () => {
  beforeAll(async () => {
    expect((await call('init', join(folder, 'my-boat'), '--for', 'boat')).code).toBe(0);
  });

  it.each(COMMANDS)('%s', async (command) => {
    const { out } = await call(command, '--help');
    const [, example] = /Example\n {2}npx shaftwork (.*)/.exec(out)!;
    const words = wordsOf(example!.replace(/ > .*/, '')).map((word) =>
      word === 'my-boat/boat.yaml' || word === 'report.html' ? join(folder, word) : word,
    );
    expect(words[0]).toBe(command);
    const said = await call(...words);
    // 1: no candidate meets every limit, which is an answer
    expect([0, 1], said.err).toContain(said.code);
  });
});
