/** Loaded before the command and by every thread of it: the first that draws ends as DIES says (thread 1 is the command's own). */
import { isMainThread, threadId } from 'node:worker_threads';

/** In the midst of the work: a thread that waits for jobs runs no timers on newer Node. */
const amidWork = (end) => () => {
  const own = Math.exp;
  let calls = 0;
  Math.exp = (x) => {
    if (++calls === 10_000) end();
    return own(x);
  };
};

const ends = {
  'at once': () => process.exit(7),
  'while it works': amidWork(() => process.exit(7)),
  'with a fault': () => {
    throw new Error('the thread is broken');
  },
  'for want of memory': amidWork(() => {
    for (const full = []; ; ) full.push(new Array(1e6).fill(1));
  }),
};
if (!isMainThread && threadId === 2) ends[process.env.DIES]();
