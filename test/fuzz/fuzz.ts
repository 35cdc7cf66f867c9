/** `npm run fuzz -- <count> <seed>`: drives that many scenarios from the seed on and tells which break a law of a run. */
import { fuzzOne } from './fuzz-one.js';

const [count = 200, first = 1] = process.argv.slice(2).map(Number);
if (!(count > 0) || !Number.isInteger(first)) throw new Error('npm run fuzz -- <count> <seed>');
let refused = 0;
let bad = 0;
let slowest = { seconds: 0, seed: first };
for (let seed = first; seed < first + count; seed++) {
  const fuzzed = fuzzOne(seed);
  if (fuzzed.refused) refused++;
  if (fuzzed.seconds > slowest.seconds) slowest = fuzzed;
  if (fuzzed.broken.length === 0) continue;
  bad++;
  console.log(`seed ${seed}: ${fuzzed.broken.slice(0, 4).join('; ').slice(0, 600)}`);
}
console.log(
  `${count} scenarios from seed ${first}: ${count - refused} ran, ${refused} refused, ${bad} break a law; slowest ${slowest.seconds.toFixed(1)} s (seed ${slowest.seed}).`,
);
process.exitCode = bad > 0 ? 1 : 0;
