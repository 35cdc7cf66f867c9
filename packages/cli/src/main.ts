/**
 * The command itself: maps every ending to the exit code of the contract, and loads the simulation only when a command needs it.
 *
 * @module
 */

import { EXIT, InputFault, ReadWriteFault } from './hands/exit.js';
import type { Io } from './hands/io.js';
import { createProgram } from './program.js';

const OWN_COLOUR = String.raw`\u001b\[\d*(?:;\d+)*m`;
const STEERS = new RegExp(`(${OWN_COLOUR})|[^\\P{Cc}\\n\\t]|[\\u202a-\\u202e\\u2066-\\u2069]`, 'gu');

/** A text from which nothing steers a terminal but colours: file names, titles and values come from others. */
const harmless = (text: string): string => text.replace(STEERS, (_, colour?: string) => colour ?? '\ufffd');

/** Runs the command line and returns the exit code; `io` is where it reads and writes (a test gives its own). */
export async function main(argv: readonly string[], given: Io): Promise<number> {
  const io: Io = { ...given, out: (text) => given.out(harmless(text)), err: (text) => given.err(harmless(text)) };
  let code: number = EXIT.done;
  const program = createProgram(io, (next) => {
    code = next;
  });
  try {
    await program.parseAsync([...argv], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof InputFault) {
      io.err(`${error.message}\n`);
      return EXIT.wrongInput;
    }
    if (error instanceof ReadWriteFault) {
      io.err(`${error.message}\n`);
      return EXIT.readWrite;
    }
    if (
      typeof error === 'object' &&
      error !== null &&
      'exitCode' in error &&
      'code' in error &&
      String(error.code).startsWith('commander')
    ) {
      return error.exitCode === 0 ? EXIT.done : EXIT.wrongInput;
    }
    io.err(`A fault of the program, not of your scenario: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
    return EXIT.fault;
  }
}
