/** The command in process, with a folder of its own that is cleared afterwards. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { main } from '@shaftwork/cli';
import { createIo, type Io } from '@shaftwork/cli/io';
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

export const SMALLEST = `title: Will this motor stay cool?
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 3 min, throttle: 80 % }]
candidates:
  - name: "27-32"
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`;
