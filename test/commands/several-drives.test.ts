/** Two drives on one pack: which figure is whose is told, and so it is. */
import { expect, it } from 'vitest';
import { call, ownFolder, SMALLEST } from './call.js';

const { file } = ownFolder();
const two = file('two.yaml', `drives: 2\n${SMALLEST}`);
const one = file('one.yaml', SMALLEST);

it('point says which figures are one drive’s and which the pack’s, and their numbers agree', async () => {
  expect((await call('point', two)).out.replace(/\s+/g, ' ')).toContain('With 2 drives on one pack');
  expect((await call('point', one)).out).not.toContain('drives on one pack');
  const { candidates } = JSON.parse((await call('point', two, '--json')).out);
  const { batteryPower_W: pack, inputPower_W: motor } = candidates[0];
  expect(pack).toBeGreaterThan(2 * motor);
  expect(pack).toBeLessThan(2.3 * motor);
});
