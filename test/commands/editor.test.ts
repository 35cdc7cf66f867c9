/** What an editor with YAML support says over the committed schema: yaml-language-server over standard input and output. */
import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SMALLEST } from './call.js';

interface Diagnostic {
  readonly message: string;
  readonly range: { readonly start: { readonly line: number } };
}
interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly params?: { readonly uri: string; readonly diagnostics: readonly Diagnostic[] };
  readonly result?: unknown;
}

const root = new URL('../../', import.meta.url);
const bin = fileURLToPath(new URL('node_modules/yaml-language-server/bin/yaml-language-server', root));
const HEAD = '# yaml-language-server: $schema=./scenario.schema.json\n';
let server: ChildProcess;
let count = 0;
let buffer = Buffer.alloc(0);
const answers = new Map<number, (result: unknown) => void>();
const diagnostics = new Map<string, (found: readonly Diagnostic[]) => void>();

function send(message: object): void {
  const body = JSON.stringify({ jsonrpc: '2.0', ...message });
  server.stdin!.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
}

function heard(message: Message): void {
  if (message.method === 'textDocument/publishDiagnostics') diagnostics.get(message.params!.uri)?.(message.params!.diagnostics);
  else if (message.method !== undefined && message.id !== undefined)
    send({ id: message.id, result: message.method === 'workspace/configuration' ? [{}, {}, {}, {}, {}] : null });
  else if (message.id !== undefined) answers.get(message.id)?.(message.result);
}

function read(piece: Buffer): void {
  buffer = Buffer.concat([buffer, piece]);
  for (;;) {
    const end = buffer.indexOf('\r\n\r\n');
    if (end < 0) return;
    const length = Number(/Content-Length: (\d+)/i.exec(buffer.toString('utf8', 0, end))![1]);
    if (buffer.length < end + 4 + length) return;
    const body = buffer.toString('utf8', end + 4, end + 4 + length);
    buffer = buffer.subarray(end + 4 + length);
    heard(JSON.parse(body) as Message);
  }
}

const request = (method: string, params: object): Promise<unknown> =>
  new Promise((resolve) => {
    const id = ++count;
    answers.set(id, resolve);
    send({ id, method, params });
  });

function open(text: string): { readonly uri: string; readonly found: Promise<readonly Diagnostic[]> } {
  const uri = new URL(`scenarios/editor-${++count}.yaml`, root).href;
  const found = new Promise<readonly Diagnostic[]>((resolve) => {
    diagnostics.set(uri, resolve);
  });
  send({ method: 'textDocument/didOpen', params: { textDocument: { uri, languageId: 'yaml', version: 1, text } } });
  return { uri, found };
}

/** Labels that the editor offers where `|` stands. */
async function offered(text: string): Promise<string[]> {
  const before = text.slice(0, text.indexOf('|')).split('\n');
  const { uri } = open(text.replace('|', ''));
  const position = { line: before.length - 1, character: before[before.length - 1].length };
  const result = (await request('textDocument/completion', { textDocument: { uri }, position })) as { items: { label: string }[] };
  return result.items.map(({ label }) => label);
}

beforeAll(async () => {
  server = spawn(process.execPath, [bin, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
  server.stdout!.on('data', read);
  await request('initialize', { processId: process.pid, rootUri: root.href, capabilities: {}, workspaceFolders: null });
  send({ method: 'initialized', params: {} });
  const yaml = { validate: true, completion: true, hover: true, schemaStore: { enable: false } };
  send({ method: 'workspace/didChangeConfiguration', params: { settings: { yaml } } });
});
afterAll(() => void server.kill());

describe('diagnostics', () => {
  it('are none for the smallest scenario', async () => {
    expect(await open(HEAD + SMALLEST).found).toEqual([]);
  });

  it.each([
    ['a wrong unit', '96 mohm', '96 V', 'Write a resistance in mohm or ohm, such as 65 mohm ± 15 %; or from-reading.', 7],
    ['a bare number', '96 mohm', '96', 'Write a resistance in mohm or ohm, such as 65 mohm ± 15 %; or from-reading.', 7],
    ['an unknown key', 'mass: 66 g', 'mas: 66 g', 'Property mas is not allowed.', 7],
    ['a word that is no choice', 'outrunner', 'outruner', 'Value is not accepted. Valid values: "inrunner", "outrunner"', 7],
    ['a wrong section', 'battery:', 'batery:', 'Property batery is not allowed.', 2],
  ])('say %s readably, on its line', async (_, from, to, says, line) => {
    const found = await open((HEAD + SMALLEST).replace(from, to)).found;
    expect(found.map(({ message }) => message).join('\n')).toContain(says);
    expect(found[0].range.start.line).toBe(line);
  });
});

describe('completion', () => {
  it('offers the sections at the top, the keys of a motor, and the words of a choice', async () => {
    expect(await offered(`${HEAD}title: T\n|`)).toEqual(expect.arrayContaining(['battery', 'propeller', 'candidates', 'limits']));
    const motor = await offered(`${HEAD}candidates:\n  - name: A\n    motor:\n      layout: inrunner\n      |`);
    expect(motor).toEqual(expect.arrayContaining(['kv', 'resistance', 'no_load', 'magnet_grade']));
    expect(motor).not.toContain('layout');
    expect(await offered(`${HEAD}battery:\n  chemistry: |`)).toEqual(expect.arrayContaining(['lithium-polymer', 'lithium-ion']));
  });
});
