/** The command's hands: texts in, texts out. A test gives a set of its own. */
import { closeSync, existsSync, mkdirSync, openSync, readFileSync, readSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { InputFault, ReadWriteFault } from './exit.js';

export interface Io {
  out(text: string): void;
  err(text: string): void;
  /** Text of a file, `-` for standard input; throws ReadWriteFault. */
  read(path: string): string;
  exists(path: string): boolean;
  /** Writes a file whole or not at all. An existing one is refused unless `force` or it carries one of our marks. */
  write(path: string, text: string, force: boolean): void;
}

/** Every file of ours carries one of these in its first kilobytes: a result as JSON, or a report. */
const MARKS = ['"schema": "shaftwork.run/1"', '<meta name="generator" content="shaftwork '];
const LARGEST = 64 * 1024 * 1024;

const reason = (error: unknown): string => (error instanceof Error ? error.message.replace(/^E[A-Z]+: /, '') : String(error));

export function createIo(): Io {
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    exists: (path) => existsSync(path),
    read(path) {
      try {
        if (path !== '-' && statSync(path).size > LARGEST) throw new Error('larger than 64 MB');
        return new TextDecoder('utf-8').decode(readFileSync(path === '-' ? 0 : path));
      } catch (error) {
        throw new ReadWriteFault(`Cannot read ${path}: ${reason(error)}. Check the path, or run: shaftwork --help`);
      }
    },
    write(path, text, force) {
      if (path === '-') {
        process.stdout.write(text);
        return;
      }
      if (!force && existsSync(path) && !isOurs(path)) {
        throw new InputFault(`${path} exists and is not a shaftwork file. Choose another path, or add --force to replace it.`);
      }
      const part = `${path}.part-${process.pid}`;
      try {
        mkdirSync(dirname(path), { recursive: true });
        writeFileSync(part, text);
        renameSync(part, path);
      } catch (error) {
        rmSync(part, { force: true });
        throw new ReadWriteFault(`Cannot write ${path}: ${reason(error)}. Nothing was written.`);
      }
    },
  };
}

function isOurs(path: string): boolean {
  try {
    const file = openSync(path, 'r');
    const head = Buffer.alloc(4096);
    const length = readSync(file, head, 0, head.length, 0);
    closeSync(file);
    const text = head.toString('utf8', 0, length);
    return MARKS.some((mark) => text.includes(mark));
  } catch {
    return false;
  }
}
