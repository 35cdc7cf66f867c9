/** The thread in which the command works; `start.ts` begins it and watches. @module */

import { workerData } from 'node:worker_threads';
import { createIo } from './hands/io.js';
import { main } from './main.js';

const { argv, columns } = workerData as { readonly argv: readonly string[]; readonly columns: number | undefined };
process.exitCode = await main(argv, createIo(columns));
