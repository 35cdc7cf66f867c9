/**
 * The process: it only watches. The command works in a thread of its own, for where memory runs out Node ends the thread, and the process can still
 * say so; by itself it would be aborted. A closed pipe, a full disk behind standard output and an interrupt end it with the codes of the contract too.
 *
 * @module
 */

import { getHeapStatistics } from 'node:v8';
import { Worker } from 'node:worker_threads';
import { EXIT } from './hands/exit.js';
import { fileFault } from './hands/file-faults.js';

/** Runs the command line; the process ends with its exit code. */
export function start(argv: readonly string[]): void {
  const { stdout, stderr } = process;
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    // a closed pipe (`| head`) is no fault
    if (error.code === 'EPIPE') process.exit(EXIT.done);
    stderr.write(`Cannot write to standard output: ${fileFault(error)}.\n`);
    process.exit(EXIT.readWrite);
  });
  stderr.on('error', () => process.exit(EXIT.readWrite));
  process.once('SIGINT', () => {
    // a bar may stand there
    if (stderr.isTTY) stderr.write('\r\u001b[K');
    process.exit(EXIT.interrupted);
  });
  const thread = new Worker(new URL('./thread.js', import.meta.url), { workerData: { argv, columns: stderr.columns } });
  let failed = false;
  thread.on('error', (error: NodeJS.ErrnoException) => {
    failed = true;
    const full = error.code === 'ERR_WORKER_OUT_OF_MEMORY';
    process.exitCode = full ? EXIT.memory : EXIT.fault;
    stderr.write(full ? outOfMemory() : `A fault of the program, not of your scenario: ${error.stack ?? error.message}\n`);
  });
  thread.on('exit', (code) => {
    if (!failed) process.exitCode = code;
  });
}

function outOfMemory(): string {
  const allowed = Math.round(getHeapStatistics().heap_size_limit / 2 ** 20);
  return (
    `Memory ran out: Node allows this command ${allowed} MB here. No file is half-written.\n` +
    'Ask for less (candidates, steps, samples, rows of a log), or allow more: set NODE_OPTIONS=--max-old-space-size=4096 (MB) and run it again.\n'
  );
}
