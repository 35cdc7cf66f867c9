/**
 * Loaded before the command (`node --import`): whatever reaches for the network, or makes code out of text, ends the process with code 99 and says so.
 * Threads of the process load it too.
 */
import childProcess from 'node:child_process';
import dgram from 'node:dgram';
import dns from 'node:dns';
import { writeSync } from 'node:fs';
import http from 'node:http';
import http2 from 'node:http2';
import https from 'node:https';
import { syncBuiltinESMExports } from 'node:module';
import net from 'node:net';
import tls from 'node:tls';
import { isMainThread } from 'node:worker_threads';

const caught = (what) => () => {
  writeSync(2, `trap: ${what}\n`);
  // a thread's own exit would only end the thread
  if (!isMainThread) process.kill(process.pid, 'SIGKILL');
  process.reallyExit(99);
};

for (const [name, module, words] of [
  ['net', net, ['connect', 'createConnection', 'createServer']],
  ['tls', tls, ['connect', 'createServer']],
  ['dgram', dgram, ['createSocket']],
  ['dns', dns, ['lookup', 'resolve', 'resolve4', 'resolve6']],
  ['dns.promises', dns.promises, ['lookup', 'resolve', 'resolve4', 'resolve6']],
  ['http', http, ['request', 'get', 'createServer']],
  ['https', https, ['request', 'get', 'createServer']],
  ['http2', http2, ['connect', 'createServer']],
  ['child_process', childProcess, ['spawn', 'spawnSync', 'exec', 'execSync', 'execFile', 'execFileSync', 'fork']],
])
  for (const word of words) module[word] = caught(`${name}.${word}`);
net.Socket.prototype.connect = caught('a socket');
syncBuiltinESMExports();
globalThis.fetch = caught('fetch');
globalThis.eval = caught('eval');
globalThis.Function = new Proxy(Function, { apply: caught('Function'), construct: caught('new Function') });
