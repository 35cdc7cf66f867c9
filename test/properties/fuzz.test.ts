/** A fixed stretch of generated scenarios that run in a moment each; `npm run fuzz -- <count> <seed>` drives more of them. */
import { expect, it } from 'vitest';
import { fuzzOne } from '../fuzz/fuzz-one.js';

it('generated scenarios keep the laws of a run', async () => {
  // how long a run takes depends on the machine, and is told by the script alone
  const fuzzed = await Promise.all(Array.from({ length: 16 }, (_, k) => fuzzOne(k + 101, { variants: 8 })));
  expect(fuzzed.flatMap(({ seed, broken }) => broken.filter((law) => !law.startsWith('takes ')).map((law) => `${seed}: ${law}`))).toEqual(
    [],
  );
  // a generator of refusals would test nothing
  expect(fuzzed.filter(({ refused }) => !refused).length).toBeGreaterThan(8);
});
