/** Every number that was not simply given: its value, how far it may be off, where it comes from; and what was taken where nothing was said. @module */

import type { AssumedChoice, AssumedNumber, RunResult } from '@shaftwork/sim-core';
import { formatQuantity, handyUnit, toUnit, unitSign } from '@shaftwork/sim-core/quantities';
import { NO_NUMBER, narrowedWords } from '@shaftwork/sim-core/words';
import { type Html, html } from '../html/html.js';
import { scrolling } from './data-table.js';

const KINDS: { readonly [K in AssumedNumber['kind']]: string } = {
  given: 'given, without ±',
  narrowed: 'given, then read',
  derived: 'derived',
  estimated: 'estimated',
  default: 'default',
};

/** Those whose error moves a figure that counts, by what the draws found, stand first; the others behind a disclosure. */
export function assumptionTables(result: RunResult): Html {
  const moving = new Set(
    (result.doubt?.candidates ?? []).flatMap(({ sensitivities }) =>
      sensitivities.flatMap(({ shares }) => shares.map(({ words }) => words)),
    ),
  );
  const numbers = result.assumptions.filter((each) => each.kind !== 'choice');
  const choices = result.assumptions.filter((each) => each.kind === 'choice');
  return html`${numberTables(numbers, moving, result)}${choices.length === 0 ? '' : choicesTable(choices, result)}`;
}

function numberTables(numbers: readonly AssumedNumber[], moving: ReadonlySet<string>, result: RunResult): Html {
  const matter = numbers.filter(({ words }) => moving.has(words));
  const others = numbers.filter((one) => !matter.includes(one));
  if (matter.length === 0 || others.length === 0) return assumptionsTable(numbers, result);
  return html`<h3>Those that move the answer</h3>
${assumptionsTable(matter, result)}
<details class="more"><summary>The other ${others.length}, which move it little</summary>${assumptionsTable(others, result)}</details>`;
}

/** What is no number: what was taken, whose it is, and the key that says otherwise. */
function choicesTable(choices: readonly AssumedChoice[], { candidates }: RunResult): Html {
  const whose = (names: readonly string[]): string => (names.length === candidates.length ? '' : ` (${names.join(', ')})`);
  const table = html`<table class="as"><thead><tr><th scope="col">what</th><th scope="col" class="o">taken</th><th scope="col" class="o">key</th><th scope="col" class="o">why</th></tr></thead>
<tbody>${choices.map(
    ({ words, candidates: names, value, path, source }) =>
      html`<tr><th scope="row">${words}${whose(names)}</th><td class="o">${value}</td><td class="o"><code>${path}</code></td><td class="o w">${source}</td></tr>\n`,
  )}</tbody></table>`;
  return html`<h3>Taken where nothing was said</h3>
${scrolling(`Choices, ${choices.length}`, table)}`;
}

function assumptionsTable(assumptions: readonly AssumedNumber[], { candidates }: RunResult): Html {
  const groups = new Map<string, AssumedNumber[]>();
  for (const assumption of assumptions) {
    const all = candidates.length > 1 && candidates.every(({ name }) => assumption.candidates.includes(name));
    const key = all || candidates.length < 2 ? '' : assumption.candidates.join(', ');
    groups.set(key, [...(groups.get(key) ?? []), assumption]);
  }
  const ordered = [...groups].sort(([a], [b]) => Number(a !== '') - Number(b !== ''));
  const table = html`<table class="as"><thead><tr><th scope="col">number, unit</th><th scope="col" class="r">value</th><th scope="col" class="r">95&#8239;% interval</th><th scope="col" class="o">how got</th><th scope="col" class="o">rule or place, and source</th></tr></thead>
${ordered.map(
  ([names, rows]) =>
    html`<tbody>${ordered.length > 1 ? html`<tr class="grp"><th colspan="5" scope="rowgroup">${names === '' ? 'All candidates' : names}</th></tr>\n` : ''}${rows.map(rowOf)}</tbody>`,
)}</table>`;
  return scrolling(`Assumptions, ${assumptions.length}`, table);
}

function rowOf(assumption: AssumedNumber): Html {
  const { words, dimension, value, low, high, kind, origin, source } = assumption;
  const unit = handyUnit(value, dimension);
  const text = (number: number): string => {
    if (!Number.isFinite(number)) return NO_NUMBER;
    // A wire gauge has no value for every cross-section; then SI serves.
    try {
      const digits = Math.abs(toUnit(number, unit)) >= 1000 ? { significant: 4 } : {};
      return formatQuantity(number, dimension, { unit, space: '', ...digits }).replace(unitSign(unit), '');
    } catch {
      return formatQuantity(number, dimension, { space: '' });
    }
  };
  const sign = unitSign(unit);
  const place = [narrowedWords(assumption) ?? '', origin, source].filter((part) => part !== '').join('; ');
  const [from, to] = low > high ? [high, low] : [low, high];
  const about = from < 0 && text(-from) === text(to);
  const interval = low === high ? 'exact' : about ? `±${text(to).replace(/\.?0+$/, '')}` : `${text(from)} – ${text(to)}`;
  return html`<tr><th scope="row">${words}${sign === '' ? '' : `, ${sign}`}</th><td>${text(value)}</td><td>${interval}</td><td class="o">${KINDS[kind]}</td><td class="o w">${place}</td></tr>\n`;
}
