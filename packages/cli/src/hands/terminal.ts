/** What a command speaks through: the hands of `Io`, and how much to say and in which colours. @module */

import pc from 'picocolors';
import { InputFault } from './exit.js';
import type { Io } from './io.js';

export interface GlobalOptions {
  readonly quiet?: boolean;
  readonly verbose?: boolean;
  readonly color?: string;
  readonly force?: boolean;
  readonly strict?: boolean;
  /** A folder of identified motors, of commands that take a scenario. */
  readonly known?: string;
}

type Paint = (text: string) => string;
export interface Colours {
  readonly strong: Paint;
  readonly faint: Paint;
  readonly bad: Paint;
}

export interface Terminal extends Io {
  /** Remarks to standard error: what was written, what to do next. Silent under --quiet. */
  note(text: string): void;
  readonly quiet: boolean;
  readonly verbose: boolean;
  /** For standard output, and for standard error. */
  readonly colours: Colours;
  readonly errColours: Colours;
}

const WHEN = ['auto', 'never', 'always'];

const coloursOf = (on: boolean): Colours => {
  const { bold, dim, red } = pc.createColors(on);
  return { strong: bold, faint: dim, bad: red };
};

/** Throws InputFault for a word after --color other than auto, never and always. */
export function terminalOf(io: Io, { quiet = false, verbose = false, color = 'auto' }: GlobalOptions): Terminal {
  if (!WHEN.includes(color)) throw new InputFault(`--color takes auto, never or always; found ${color}. For help: npx shaftwork --help`);
  if (quiet && verbose) throw new InputFault('--quiet and --verbose exclude each other: keep one of them.');
  const on = (auto: boolean): boolean => (color === 'auto' ? auto : color === 'always');
  const errColours = coloursOf(on(io.colourful.err));
  return {
    ...io,
    quiet,
    verbose,
    colours: coloursOf(on(io.colourful.out)),
    errColours,
    note: (text) => {
      if (!quiet) io.err(errColours.faint(text));
    },
  };
}
