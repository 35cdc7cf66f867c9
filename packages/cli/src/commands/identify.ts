/** `identify`: constants of motor, heat or pack from a bench log. @module */
import { join } from 'node:path';
import type { IdentifyResult } from '@shaftwork/sim-core';
import {
  type BenchEntry,
  benchKeys,
  heatOfLogs,
  motorChangeOfLogs,
  motorOfLogs,
  packChangeOfLogs,
  packOfLogs,
  USUAL_WINDING,
} from '@shaftwork/sim-core/bench-questions';
import { identifyJson } from '@shaftwork/sim-core/json';
import { type PreparedScenario, VERSION } from '@shaftwork/sim-core/run-scenario';
import { fitSentence, identifySentence, misfits, notToldSentence, numberName, numberParts } from '@shaftwork/sim-core/words';
import { EXIT, InputFault } from '../hands/exit.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { BARE, label, own, type Row } from '../render/labels.js';
import { table, wrap } from '../render/table.js';
import { candidateNamed, prepare, sayProblems } from './prepare.js';
import { quantityFlag } from './quantity-flag.js';

export interface IdentifyOptions extends GlobalOptions {
  readonly heat?: string;
  readonly pack?: string;
  readonly plan?: string;
  readonly thermometer?: string;
  readonly before?: readonly string[];
  readonly after?: readonly string[];
  readonly candidate?: string;
  readonly poles?: string;
  readonly electricalRpm?: boolean;
  readonly sinusoidal?: boolean;
  readonly fullThrottle?: boolean;
  readonly bare?: readonly string[];
  readonly winding?: string;
  readonly column?: readonly string[];
  readonly pulse?: readonly string[];
  readonly part?: string;
  readonly from?: string;
  readonly to?: string;
  readonly write?: string;
  readonly html?: string;
  readonly svg?: string;
  readonly date?: string;
  readonly json?: boolean;
}

const POLES = 14;

/** What is asked: constants of one bench, what changed between two, or a plan of one. */
export async function identify(io: Terminal, logs: readonly string[], options: IdentifyOptions): Promise<number> {
  const { plan, before, after } = options;
  if ((before === undefined) !== (after === undefined)) throw new InputFault('--before and --after belong together: give both.');
  if ([plan !== undefined, before !== undefined, logs.length > 0].filter(Boolean).length !== 1)
    throw new InputFault('Give logs, or --before and --after, or --plan with a scenario. For help: npx shaftwork identify --help');
  if (options.heat !== undefined && options.pack !== undefined)
    throw new InputFault('Give --heat or --pack, not both: each takes its own log.');
  try {
    if (plan !== undefined) return (await import('./bench-plan.js')).plan(io, plan, options);
    return await learn(io, logs, options);
  } catch (error) {
    const whose = logs.length === 0 ? '' : `${logs.join(', ')}: `;
    if (error instanceof RangeError) throw new InputFault(`${whose}${error.message} For help: npx shaftwork identify --help`);
    throw error;
  }
}

async function learn(io: Terminal, logs: readonly string[], options: IdentifyOptions): Promise<number> {
  const { heat, pack, before, after, bare = [], sinusoidal = false, fullThrottle = false, winding } = options;
  const scenario = heat ?? pack;
  if (scenario !== undefined && logs.length > 1) throw new InputFault(`--${heat === undefined ? 'pack' : 'heat'} takes one log.`);
  if (heat !== undefined && before !== undefined) throw new InputFault('--before and --after compare a motor, or with --pack a pack.');
  if (options.json && options.html === '-')
    throw new InputFault('--html - and --json both go to standard output. Give a file to one of them.');
  if (options.html !== undefined && options.html !== '-') io.check(options.html, options.force === true);
  const poles = polesOf(options);
  const entry = entryOf(options, poles);
  const filesOf = (paths: readonly string[]) => paths.map((path) => ({ path, text: io.read(path) }));
  const bench = {
    entry,
    poles,
    sinusoidal,
    fullThrottle,
    bare,
    winding: winding === undefined ? USUAL_WINDING.temperature : quantityFlag('--winding', winding, 'temperature'),
  };
  let drive: { readonly prepared: PreparedScenario; readonly candidate: string } | undefined;
  if (scenario !== undefined) {
    const prepared = prepare(io, scenario);
    if (prepared.kind === 'problems') {
      sayProblems(io, prepared.problems, scenario, options.json);
      return EXIT.wrongInput;
    }
    const candidate = candidateNamed(prepared.prepared, options.candidate) ?? prepared.prepared.candidates[0].name;
    drive = { prepared: prepared.prepared, candidate };
  }
  if (before !== undefined && after !== undefined) {
    const [first, second] = [filesOf(before), filesOf(after)];
    const compared = drive === undefined ? motorChangeOfLogs(bench, first, second) : packChangeOfLogs({ entry, ...drive }, first, second);
    if (compared.kind === 'problems') {
      sayProblems(io, compared.problems, before[0], options.json, 'identify');
      return EXIT.wrongInput;
    }
    return (await import('./changed.js')).sayChange(io, compared.result, options.json === true);
  }
  const files = filesOf([...logs, ...bare]);
  const identification =
    drive === undefined ? motorOfLogs({ ...bench, files }) : (heat === undefined ? packOfLogs : heatOfLogs)({ files, entry, ...drive });
  if (identification.kind === 'problems') {
    sayProblems(io, identification.problems, logs[0], options.json, 'identify');
    return EXIT.wrongInput;
  }
  const { result } = identification;
  const written = await write(io, result, options);
  if (options.json) io.out(`${JSON.stringify(identifyJson(result), null, 2)}\n`);
  else if (options.html !== '-') say(io, result);
  if (written.length > 0) io.note(`${written.map((path) => `Written: ${path}`).join('\n')}\n`);
  return result.numbers.some(({ told }) => told) && result.settled ? EXIT.done : EXIT.notFeasible;
}

function polesOf({ poles }: IdentifyOptions): number {
  const count = poles === undefined ? POLES : Number(poles);
  if (!(Number.isInteger(count) && count >= 2 && count <= 100 && count % 2 === 0))
    throw new InputFault('--poles: expected an even number from 2 to 100; count the magnets.');
  return count;
}

/** What the options say of the file. */
function entryOf(options: IdentifyOptions, poles: number): BenchEntry {
  const { column = [], pulse = [], part, from, to } = options;
  const keys = benchKeys();
  const columns: Record<string, string> = {};
  for (const each of column) {
    const [, key = '', head = ''] = /^\s*([\w ]+?)\s*=\s*(.*?)\s*$/.exec(each) ?? [];
    const named = key.replaceAll(' ', '_');
    if (head === '' || !keys.includes(named))
      throw new InputFault(`--column: expected key=head, the key one of ${keys.join(', ')}; found ${each}.`);
    columns[named] = head;
  }
  const pulses = pulse.map((each) => {
    const [at = '', duty = ''] = each.split('=').map((side) => side.trim());
    if (duty === '') throw new InputFault(`--pulse: expected a pulse and its duty, '1100 us = 0 %'; found ${each}.`);
    return { at: quantityFlag('--pulse', at, 'time'), duty: quantityFlag('--pulse', duty, 'fraction') };
  });
  if (pulses.length === 1) throw new InputFault("--pulse: give two at least, --pulse '1100 us = 0 %' --pulse '1900 us = 100 %'.");
  const chosen = part === undefined ? undefined : Number(part);
  if (chosen !== undefined && !(Number.isInteger(chosen) && chosen >= 1)) throw new InputFault('--part: expected a whole number from 1.');
  const time = (flag: string, text: string) => ({ dimension: 'time' as const, value: quantityFlag(flag, text, 'time') });
  return {
    columns,
    ...(pulses.length === 0 ? {} : { pulse: pulses.sort((a, b) => a.at - b.at) }),
    ...(options.electricalRpm ? { pole_pairs: poles / 2 } : {}),
    ...(chosen === undefined ? {} : { part: chosen }),
    ...(from === undefined ? {} : { from: time('--from', from) }),
    ...(to === undefined ? {} : { to: time('--to', to) }),
  };
}

/** Part files, page and figures; returns where they are. */
async function write(io: Terminal, result: IdentifyResult, options: IdentifyOptions): Promise<readonly string[]> {
  const { html, svg, date, write: folder } = options;
  const contents: { readonly path: string; readonly text: string }[] = [];
  if (html !== undefined || svg !== undefined) {
    const { renderIdentified } = await import('@shaftwork/report');
    const page = await renderIdentified(result, { version: VERSION, ...(date === undefined ? {} : { date }) });
    if (html !== undefined) contents.push({ path: html, text: page });
    if (svg !== undefined) {
      const { drawingFiles } = await import('@shaftwork/report/export');
      for (const { name, text } of drawingFiles(page)) contents.push({ path: join(svg, name), text });
    }
  }
  if (folder !== undefined) for (const { file, text } of result.parts) contents.push({ path: join(folder, file), text });
  const force = options.force === true;
  for (const { path } of contents) if (path !== '-') io.check(path, force);
  for (const { path, text } of contents) io.write(path, text, force);
  return contents.flatMap(({ path }) => (path === '-' ? [] : [path]));
}

function say(io: Terminal, result: IdentifyResult): void {
  const told = result.numbers.filter((number) => number.told);
  io.out(`${wrap(identifySentence(result))}\n\n`);
  if (told.length > 0) {
    io.out(
      `${table(
        [BARE, label('value'), label('95 % interval')],
        told.map((number): Row => {
          const { value, interval } = numberParts(number);
          return [own(numberName(number)), value, interval];
        }),
      )}\n`,
    );
  }
  for (const number of result.numbers) if (number.instead !== undefined) io.out(`${wrap(notToldSentence(number, number.instead))}\n`);
  io.out('\n');
  for (const fit of result.fits) io.out(`${wrap(misfits(result) ? io.colours.strong(fitSentence(fit)) : fitSentence(fit))}\n`);
  for (const { a, b, correlation } of result.together)
    io.note(`${wrap(`${a} and ${b} belong together (correlation ${correlation.toFixed(2)}): one is off with the other.`)}\n`);
  for (const each of result.taken) io.note(`${wrap(`${each[0].toUpperCase()}${each.slice(1)}.`)}\n`);
  if (result.parts.length > 0)
    io.note(
      `${wrap(`Part files to be brought in by use: come with --write folder: ${result.parts.map(({ file }) => file).join(', ')}.`)}\n`,
    );
}
