/** What happens to a file on its way: bits turned, ends cut off, pieces lost, doubled, exchanged or of another encoding, and words that readers trip over. */
import { Buffer } from 'node:buffer';

type Random = () => number;

const LONG_NUMBER = '9'.repeat(400);
/** Written into a file at any place, or in place of a value. */
const WORDS: readonly string[] = [
  ...['&a ', '*a', '<<: *a', '!!binary aGk=', '!!set {a}', '!!omap [a: 1]', '!local x', '%YAML 1.1\n---\n', '---', '...', '? x\n: y'],
  ...['|\n  text', '>-\n  text', '- - -', '"', "'", '`', '@', '#', ' #', ': ', ',', '\t', '\r', ';', '""', '"\n"', '\\'],
  ...['2001-12-14', '190:20:30', '0o17', '0x1F', '0b11', 'yes', 'no', 'on', '~', 'null', '.inf', '-.inf', '.nan', 'NaN', 'Infinity'],
  ...['1e999', '-1e999', '1e-999', '1e308,1e308', '-0', '+1', '1_000', '1,5', '1.5.2', '１２', '٣', '½', LONG_NUMBER, `${LONG_NUMBER} g`],
  ...['\u0000', '\u001b[2J', '"\\u001b[31m"', '\ufeff', '\u00a0', '\u2028', '\u202e', '\ud800', '😀', 'Â°', '± 5 %', '± -5 %', '5 mm^99'],
  ...['__proto__: { a: 1 }', 'constructor: { prototype: { a: 1 } }', 'toString: x', 'use: ../../../etc/passwd', 'use: /etc/passwd'],
  ...['use: a.yaml', 'time [s]', 'time [s],time [s]', 'NaN,NaN', '<script>alert(1)</script>', '=1+1', `${'a'.repeat(2000)}: 1`],
  ...['['.repeat(2000), '{a: '.repeat(1500), '- '.repeat(1000), '5 ((((m))))', 'x: '.repeat(50), 'a'.repeat(100_000)],
];
const NUMBERS = ['0', '-1', '1e300', '1e-300', '1e999', '99999999999999999999', '0.0000001', '1e5', '-0', '0x10', '1e', '١', ''] as const;

const pick = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random() * list.length)];

/** `bytes` with those from `from` to `to` replaced. */
const splice = (bytes: Buffer, from: number, to: number, by: Uint8Array = Buffer.alloc(0)): Buffer =>
  Buffer.concat([bytes.subarray(0, from), by, bytes.subarray(to)]);

/** One match of a pattern replaced by a word; the bytes as they are where there is none. */
function replaced(bytes: Buffer, random: Random, pattern: RegExp, words: readonly string[]): Buffer {
  const found = [...bytes.toString('latin1').matchAll(pattern)];
  if (found.length === 0) return bytes;
  const match = pick(random, found);
  const whole = match[1] ?? match[0];
  const from = match.index + match[0].length - whole.length;
  return splice(bytes, from, from + whole.length, Buffer.from(pick(random, words)));
}

function lines(bytes: Buffer, change: (rows: string[]) => void): Buffer {
  const rows = bytes.toString('latin1').split('\n');
  change(rows);
  return Buffer.from(rows.join('\n'), 'latin1');
}

const WAYS: readonly ((bytes: Buffer, random: Random) => Buffer)[] = [
  (bytes, random) => bytes.subarray(0, Math.floor(random() * (bytes.length + 1))),
  (bytes, random) => {
    const turned = Buffer.from(bytes);
    for (let k = 0; k < 1 + random() * 8 && turned.length > 0; k++)
      turned[Math.floor(random() * turned.length)] ^= 1 << Math.floor(random() * 8);
    return turned;
  },
  (bytes, random) => {
    const at = Math.floor(random() * (bytes.length + 1));
    return splice(bytes, at, at, Buffer.from(Array.from({ length: 1 + random() * 12 }, () => Math.floor(random() * 256))));
  },
  (bytes, random) => {
    const at = Math.floor(random() * (bytes.length + 1));
    const signs = Array.from({ length: 1 + random() * 6 }, () => Math.floor(random() * (random() < 0.5 ? 0x250 : 0x1ffff)));
    return splice(bytes, at, at, Buffer.from(String.fromCodePoint(...signs)));
  },
  (bytes, random) => {
    const at = Math.floor(random() * (bytes.length + 1));
    return splice(bytes, at, at, Buffer.from(pick(random, WORDS)));
  },
  (bytes, random) => replaced(bytes, random, /: ?([^,{}\n#]+)/g, WORDS),
  (bytes, random) => replaced(bytes, random, /\d+(?:\.\d+)?/g, NUMBERS),
  (bytes, random) => {
    const [from, to] = [random(), random()].map((share) => Math.floor(share * (bytes.length + 1))).sort((a, b) => a - b);
    return splice(bytes, from, to);
  },
  (bytes, random) => {
    const [from, to] = [random(), random()].map((share) => Math.floor(share * (bytes.length + 1))).sort((a, b) => a - b);
    const part = bytes.subarray(from, Math.min(to, from + 400));
    return splice(bytes, to, to, Buffer.concat(Array.from({ length: 1 + random() * 20 }, () => part)));
  },
  (bytes, random) =>
    lines(bytes, (rows) => {
      const [a, b] = [random(), random()].map((share) => Math.floor(share * rows.length));
      [rows[a], rows[b]] = [rows[b], rows[a]];
    }),
  (bytes, random) =>
    lines(bytes, (rows) => {
      const at = Math.floor(random() * rows.length);
      rows[at] = (random() < 0.5 ? ' '.repeat(1 + random() * 5) : '\t') + rows[at];
    }),
  (bytes, random) => {
    const text = bytes.toString('utf8');
    if (random() < 0.3) return Buffer.from(text, 'utf16le');
    if (random() < 0.3) return Buffer.from(`\ufeff${text}`);
    return random() < 0.5 ? Buffer.from(text, 'latin1') : Buffer.from(text.replaceAll('\n', random() < 0.5 ? '\r' : '\r\n'));
  },
];
/** No file of a project is longer [bytes]; a repeat of repeats would be. */
const LONGEST = 3e6;

/** The file damaged in one to five ways. */
export function damaged(file: Uint8Array, random: Random): Uint8Array {
  let bytes = Buffer.from(file);
  for (let times = 1 + Math.floor(random() * random() * 5); times > 0; times--) bytes = Buffer.from(pick(random, WAYS)(bytes, random));
  return bytes.subarray(0, LONGEST);
}
