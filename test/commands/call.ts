/** The command in process, with a folder of its own that is cleared afterwards. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { main } from '@shaftwork/cli';
import { createIo, type Io } from '@shaftwork/cli/hands/io';
import { afterAll } from 'vitest';

export interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line; `hands` replace those that reach the system. */
export async function callWith(hands: Partial<Io>, ...argv: string[]): Promise<Said> {
  const said = { out: '', err: '' };
  const io: Io = {
    ...createIo(),
    out(text) {
      said.out += text;
    },
    err(text) {
      said.err += text;
    },
    ...hands,
  };
  const code = await main(argv, io);
  return { code, ...said };
}

export const call = (...argv: string[]): Promise<Said> => callWith({}, ...argv);

/** A folder for one test file, and a way to put files into it. */
export function ownFolder(): { readonly folder: string; readonly file: (name: string, text: string | Uint8Array) => string } {
  const folder = mkdtempSync(join(tmpdir(), 'shaftwork-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return {
    folder,
    file(name, text) {
      const path = join(folder, name);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, text);
      return path;
    },
  };
}

export const scenarioPath = (name: string): string => fileURLToPath(new URL(`../../scenarios/${name}.yaml`, import.meta.url));

export { SMALLEST } from '../sim-core/scenario/smallest-scenario.js';
