/** A fixed stretch of damaged files; `npm run fuzz -- <count> <seed> --bytes` gives the command more of them. */
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { bytesOne, endBroken, projects } from '../fuzz/bytes/bytes-one.js';

it('damaged files are read, or told with place and advice', async () => {
  // small ones: a demo takes ten times as long
  const from = projects(fileURLToPath(new URL('../..', import.meta.url))).filter(({ files }) => 'a.yaml' in files);
  const fuzzed = [];
  for (let seed = 1; seed <= 12; seed++) fuzzed.push(await bytesOne(seed, from));
  expect(fuzzed.flatMap(({ seed, broken }) => broken.map((law) => `${seed}: ${law}`))).toEqual([]);
  // what is not damaged is read
  for (let seed = 1; seed <= 3; seed++) expect((await bytesOne(seed, from, (file) => file)).refused).toBe(false);
});

it('an end without place or advice, a stack or a steering sign would be found', () => {
  const good =
    'a.yaml:3:1  foo  [unknown-key]\n  expected a key that is known here; found “foo”\n1 problem. Mend and try again: npx shaftwork check a.yaml\n';
  expect(endBroken(2, '', good)).toEqual([]);
  expect(endBroken(2, '', 'wrong').length).toBe(2);
  expect(endBroken(3, '', good).length).toBe(1);
  expect(endBroken(2, '', `${good}    at main (file:///x.js:1:1)`).length).toBe(1);
  expect(endBroken(2, '', `${good}\u001b[2J`).length).toBe(1);
});
