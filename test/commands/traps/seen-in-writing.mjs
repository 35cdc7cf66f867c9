/**
 * Loaded before the command: keeps what lies in the folder WATCHED, as it lies there, each time half of a file's bytes are on the disk, and each time a
 * file is whole and has not got its name yet: what a kill at that moment would leave. Copies go into the folder KEPT, by number.
 */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

const { WATCHED = '', KEPT = '' } = process.env;
let number = 0;
const keep = () => fs.cpSync(WATCHED, `${KEPT}/${String(++number).padStart(3, '0')}`, { recursive: true });
fs.writeFileSync = (path, content, { flag }) => {
  const bytes = Buffer.from(content);
  const half = Math.floor(bytes.length / 2);
  const file = fs.openSync(path, flag);
  fs.writeSync(file, bytes, 0, half);
  keep();
  fs.writeSync(file, bytes, half);
  fs.closeSync(file);
};
for (const word of ['renameSync', 'linkSync']) {
  const given = fs[word];
  fs[word] = (from, to) => {
    keep();
    given(from, to);
  };
}
syncBuiltinESMExports();
