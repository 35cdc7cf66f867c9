/**
 * Loaded before the command: kills the process for good while a file whose path holds KILLED_AT is being written: at KILLED_WHEN `half`, when half of
 * its bytes are on the disk; at `named`, when all are and the file is to get its name.
 */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

const { KILLED_AT = '', KILLED_WHEN } = process.env;
const die = () => process.kill(process.pid, 'SIGKILL');
const { writeFileSync } = fs;
fs.writeFileSync = (path, content, options) => {
  if (KILLED_WHEN !== 'half' || !String(path).includes(KILLED_AT)) return writeFileSync(path, content, options);
  const bytes = Buffer.from(content);
  writeFileSync(path, bytes.subarray(0, bytes.length / 2), options);
  return die();
};
for (const word of ['renameSync', 'linkSync']) {
  const given = fs[word];
  fs[word] = (from, to) => (KILLED_WHEN === 'named' && String(to).includes(KILLED_AT) ? die() : given(from, to));
}
syncBuiltinESMExports();
