/** The files that `run` leaves: looked at before anything is calculated, made all, then written each whole. @module */

import { join, resolve } from 'node:path';
import type { RunResult } from '@shaftwork/sim-core';
import { InputFault, ReadWriteFault } from '../hands/exit.js';
import type { Io } from '../hands/io.js';
import { linkFrom } from '../hands/paths.js';

export interface OutputOptions {
  readonly html?: string;
  readonly csv?: string;
  readonly markdown?: string;
  readonly text?: string;
  readonly png?: string;
  readonly svg?: string;
  readonly json?: boolean;
  readonly date?: string;
  readonly force?: boolean;
}

const FILES = ['html', 'csv', 'markdown', 'text', 'png'] as const;

/** True where one of the files goes to standard output, so that nothing else may. */
export const toStandardOutput = (options: OutputOptions): boolean => FILES.some((flag) => options[flag] === '-');

/** Refuses what cannot be written before the work is done: throws InputFault. */
export function checkOutputs(io: Io, options: OutputOptions): void {
  const named = FILES.flatMap((flag) => (options[flag] === undefined ? [] : [{ flag, path: options[flag] }]));
  const standard = [...named.filter(({ path }) => path === '-').map(({ flag }) => `--${flag} -`), ...(options.json ? ['--json'] : [])];
  if (standard.length > 1) throw new InputFault(`${standard.join(' and ')} both go to standard output. Give a file to all but one.`);
  if (options.svg === '-') throw new InputFault('--svg writes one file a figure: give it a folder.');
  const paths = new Map<string, string>();
  for (const { flag, path } of named) {
    if (path === '-') continue;
    const before = paths.get(resolve(path));
    if (before !== undefined) throw new InputFault(`--${before} and --${flag} name the same file, ${path}. Give each its own.`);
    paths.set(resolve(path), flag);
    io.check(path, options.force === true);
  }
}

export interface Left {
  /** What was written, a line each. */
  readonly written: readonly string[];
  /** What could not be written, and why. */
  readonly faults: readonly string[];
}

/** Writes what was asked for and says where it is; a file that cannot be written keeps none of the others from it. */
export async function writeOutputs(io: Io, result: RunResult, options: OutputOptions): Promise<Left> {
  const { html, csv, markdown, text, png, svg } = options;
  const dated = options.date === undefined ? {} : { date: options.date };
  const written: string[] = [];
  const faults: string[] = [];
  const contents: { readonly path: string; readonly content: string | Uint8Array; readonly words: string }[] = [];
  const add = (words: string, path: string, content: string | Uint8Array): void => void contents.push({ words, path, content });
  if (html !== undefined || png !== undefined || svg !== undefined) {
    const [{ renderReport }, { embeddedRun }] = await Promise.all([import('@shaftwork/report'), import('@shaftwork/report/history')]);
    const earlier = html === undefined ? undefined : io.ours(html);
    const before = earlier === undefined ? undefined : embeddedRun(earlier);
    const page = await renderReport(result, { ...dated, ...(before === undefined ? {} : { before }) });
    if (html !== undefined) add('Report', html, page);
    const { drawingFiles, poster } = await import('@shaftwork/report/export');
    if (png !== undefined) {
      const { pngOf } = await import('../render/png.js');
      try {
        add('Picture', png, pngOf(poster(page, result, dated), result.version));
      } catch (error) {
        faults.push(`Cannot draw ${png}: ${error instanceof Error ? error.message : error}. Nothing was written there; --svg may do.`);
      }
    }
    if (svg !== undefined) for (const drawing of drawingFiles(page)) add('Figure', join(svg, drawing.name), drawing.text);
  }
  if (csv !== undefined || markdown !== undefined || text !== undefined) {
    const { csvOf, markdownList, textList } = await import('@shaftwork/report/export');
    if (csv !== undefined) add('Channels', csv, csvOf(result));
    if (markdown !== undefined)
      add(
        'List',
        markdown,
        markdownList(result, {
          ...dated,
          ...(png === undefined || png === '-' ? {} : { picture: linkFrom(markdown, png) }),
        }),
      );
    if (text !== undefined) add('List', text, textList(result, dated));
  }
  for (const { words, path, content } of contents) {
    try {
      io.write(path, content, options.force === true);
      if (path !== '-') written.push(`${words}: ${resolve(path)}`);
    } catch (error) {
      if (!(error instanceof ReadWriteFault || error instanceof InputFault)) throw error;
      faults.push(error.message);
    }
  }
  return { written, faults };
}
