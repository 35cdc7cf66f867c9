/** What is told in words at the end: findings, assumptions, cautions, and the files to run it again. @module */

import type { AssumedNumber } from '@shaftwork/sim-core';
import { capital, countWord, findingLines, listed } from '@shaftwork/sim-core/words';
import { counted } from '../../drawing/step-at.js';
import { html } from '../../html/html.js';
import { assumptionTables } from '../../tables/assumptions.js';
import { type ReportView, type Section, withNames } from '../report-view.js';

export function findingsSection({ result, looks }: ReportView): Section {
  const lines = findingLines(result);
  const passed = result.findings.filter(({ kind }) => kind === 'limit-passed').length;
  const heading =
    lines.length === 0
      ? 'The run met nothing out of the ordinary'
      : passed === 0
        ? `${capital(counted(lines.length, 'thing'))} to know beside the figures, none of them a limit passed`
        : `${capital(counted(passed, 'limit is', 'limits are'))} passed${lines.length > passed ? `, and ${counted(lines.length - passed, 'more thing')} to know` : ''}`;
  const body =
    lines.length === 0
      ? html`<p>No limit was passed, every step was held, and no table was left.</p>`
      : html`<ul class="list">${lines.map(({ candidate, sentence }) => html`<li>${result.candidates.length > 1 ? html`<b>${withNames(candidate, looks)}.</b> ` : ''}${sentence}</li>\n`)}</ul>`;
  return { id: 'findings', word: 'Findings', heading, body };
}

export function assumptionsSection({ result }: ReportView): Section | undefined {
  if (result.assumptions.length === 0) return undefined;
  const assumptions = result.assumptions.filter(({ kind }) => kind !== 'choice');
  const count = (kind: AssumedNumber['kind']): number => assumptions.filter((assumption) => assumption.kind === kind).length;
  const parts = [
    [count('given'), 'given without a ±'],
    [count('narrowed'), 'given and narrowed by what was read'],
    [count('derived'), 'derived'],
    [count('estimated'), 'estimated'],
    [count('default'), count('default') === 1 ? 'a default' : 'defaults'],
  ] as const;
  const told = listed(parts.filter(([number]) => number > 0).map(([number, words]) => `${number} ${words}`));
  const guessed = count('estimated') + count('default');
  const whole =
    guessed === assumptions.length
      ? capital(counted(guessed, 'number'))
      : `Of ${counted(assumptions.length, 'number')}, ${countWord(guessed)}`;
  const heading =
    guessed === 0
      ? `All ${assumptions.length} numbers were given or follow from what was given`
      : `${whole} ${guessed === 1 ? 'was' : 'were'} not given but estimated or taken by default`;
  const body = html`<p>${capital(told)}. A number that you measure and write into the scenario takes the place of its estimate; with a ± beside it its own interval counts, and ± 0 % says exact.</p>
${assumptionTables(result)}`;
  return { id: 'assumptions', word: 'Assumptions', heading, body };
}

export function cautionsSection({ result: { cautions } }: ReportView): Section | undefined {
  if (cautions.length === 0) return undefined;
  const heading = `${capital(counted(cautions.length, 'caution'))} ${cautions.length === 1 ? 'bounds' : 'bound'} what this report can say`;
  return {
    id: 'cautions',
    word: 'Cautions',
    heading,
    body: html`<ul class="list">${cautions.map((caution) => html`<li>${caution}</li>\n`)}</ul>`,
  };
}

export function scenarioSection({ result: { scenario } }: ReportView): Section {
  const { files } = scenario;
  const heading = files.length === 1 ? 'This file runs it again' : `These ${countWord(files.length)} files run it again`;
  const missing = files.filter(({ shortened }) => shortened).map(({ path }) => path);
  const keep = missing.length === 0 ? '' : ` Of ${listed(missing)} only the beginning stands in this page: keep the file beside it.`;
  const body = html`${files.map(({ path, text }) => html`<details class="file"><summary>${path}</summary><pre>${shownOf(text)}</pre></details>\n`)}
<p class="note">Save ${files.length === 1 ? 'it' : 'them under these names'} and call <code>shaftwork run ${files[0]?.path ?? ''}</code>, or give it this page.${keep}</p>`;
  return { id: 'scenario', word: 'Scenario', heading, body };
}

/** Rows of numbers are shown as far as a person reads them; the page remembers them whole. */
const LONGEST_SHOWN = 20_000;
const shownOf = (text: string): string => (text.length <= LONGEST_SHOWN ? text : `${text.slice(0, text.lastIndexOf('\n', 1000) + 1)}…`);
