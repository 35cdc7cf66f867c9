/** `init`: a commented scenario to start from, with a part file and the schemas that editors read. Never overwrites. @module */

import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { EXIT, InputFault } from '../hands/exit.js';
import { typed } from '../hands/shell-words.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { schemaText } from './schema.js';

export const STARTERS = ['boat', 'aircraft', 'car'] as const;
type Starter = (typeof STARTERS)[number];

const isStarter = (word: string | undefined): word is Starter => (STARTERS as readonly (string | undefined)[]).includes(word);

export interface InitOptions extends GlobalOptions {
  readonly for?: string;
}

/** Throws InputFault where it is not said for what, or where a file stands in the way. */
export async function init(io: Terminal, folder: string | undefined, options: InitOptions): Promise<number> {
  const { for: vehicle } = options;
  if (!isStarter(vehicle)) {
    const found = vehicle === undefined ? '' : `; found ${vehicle}`;
    throw new InputFault(`Say for what: --for boat, aircraft or car${found}. Such as: npx shaftwork init my-boat --for boat`);
  }
  const into = folder ?? `my-${vehicle}`;
  const starter = (path: string): string => io.read(fileURLToPath(new URL(`../../starters/${vehicle}/${path}`, import.meta.url)));
  const scenario = join(into, `${vehicle}.yaml`);
  const files = [
    { path: scenario, text: starter(`${vehicle}.yaml`) },
    { path: join(into, 'parts', 'motor.yaml'), text: starter('parts/motor.yaml') },
    { path: join(into, 'scenario.schema.json'), text: schemaText(false) },
    { path: join(into, 'part.schema.json'), text: schemaText(true) },
  ];
  io.create(files);
  const [main, part, ...schemas] = files.map(({ path }) => path);
  io.note(`Wrote ${main}, with a comment beside every number: where it stands on a data sheet.
Wrote ${part}, a motor in a file of its own.
Wrote ${schemas.join(' and ')}, by which editors complete and check.

Next
  npx shaftwork run ${typed(scenario)}
  npx shaftwork check ${typed(scenario)}
  npx shaftwork run ${typed(scenario)} --html ${typed(join(into, 'report.html'))}
`);
  return EXIT.done;
}
