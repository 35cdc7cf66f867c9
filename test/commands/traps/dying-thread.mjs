/** Loaded before the command and by every thread of it: the first that draws ends as DIES says (thread 1 is the command's own). */
import { isMainThread, threadId } from 'node:worker_threads';

const ends = {
  'at once': () => process.exit(7),
  'while it works': () => setTimeout(() => process.exit(7), 10),
  'with a fault': () => {
    throw new Error('the thread is broken');
  },
  'for want of memory': () =>
    setTimeout(() => {
      for (const full = []; ; ) full.push(new Array(1e6).fill(1));
    }, 10),
};
if (!isMainThread && threadId === 2) ends[process.env.DIES]();
