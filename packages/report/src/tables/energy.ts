/** Where the energy of the cells went over the run, and how nearly the account closes. @module */

import {
  type CandidateResult,
  HEAT_WAY_IDS,
  HEAT_WAYS,
  POWER_TERM_IDS,
  POWER_TERMS,
  type PowerTerm,
  type RunResult,
} from '@shaftwork/sim-core';
import { formatNumber } from '@shaftwork/sim-core/quantities';
import { NO_NUMBER, numberText, type Printing } from '@shaftwork/sim-core/words';
import type { Look } from '../drawing/palette.js';
import { type Html, html } from '../html/html.js';
import { candidateHead } from './candidate-head.js';
import { scrolling } from './data-table.js';
import { numberCell } from './number-cell.js';

const ENERGY: Printing = { dimension: 'energy', unit: 'W·h', decimals: 2 };
/** Smaller than what the table prints in any candidate [J]. */
const NOTHING = 18;
const MOST_WITH_SHARES = 4;

export function energyTable({ candidates }: RunResult, looks: readonly Look[]): Html {
  const shares = candidates.length <= MOST_WITH_SHARES;
  // Nothing stands over and under the shares, so that a narrow screen can leave their column out.
  const beside = shares && html`<td class="pc"></td>`;
  const cells = (energies: readonly number[]): Html[] =>
    candidates.map((candidate, index) => {
      const energy = energies[index];
      const total = candidate.energy.terms.batteryChemical;
      const share = total > 0 && Number.isFinite(energy) ? formatNumber((energy / total) * 100, { decimals: 1 }) : NO_NUMBER;
      return html`${numberCell(numberText(energy, ENERGY))}${shares ? html`<td class="pc">${share}</td>` : ''}`;
    });
  const row = (words: string, value: (candidate: CandidateResult) => number, className = ''): Html => {
    const energies = candidates.map(value);
    if (className !== 'sum' && className !== 'useful' && energies.every((energy) => !(Math.abs(energy) >= NOTHING))) return html``;
    return html`<tr${className === '' ? '' : html` class="${className}"`}><th scope="row">${words}</th>${cells(energies)}</tr>\n`;
  };
  const term = (id: PowerTerm): Html =>
    row(id === 'useful' ? 'moved the vehicle' : POWER_TERMS[id].words, ({ energy }) => energy.terms[id], id === 'useful' ? 'useful' : '');
  const table = html`<table class="en${shares ? '' : ' many'}"><thead><tr><td></td>${looks.map((look) => html`${candidateHead(look)}${beside}`)}</tr>
<tr class="un"><td></td>${candidates.map(() => html`<th scope="col">W·h</th>${shares ? html`<th scope="col" class="pc">%</th>` : ''}`)}</tr></thead><tbody>
${POWER_TERM_IDS.filter((id) => id !== 'batteryChemical').map(term)}${row('of it drag', ({ energy }) => energy.drag, 'part')}${row('of it climb', ({ energy }) => energy.climb, 'part')}${row('of it speed gained', ({ energy }) => energy.kinetic, 'part')}${row('of it imposed by the profile', ({ energy }) => energy.imposed, 'part')}${row('given where a held speed jumps', ({ energy }) => energy.jumps, 'part')}${row('given to shafts that follow a held value', ({ energy }) => energy.shaftFollowed, 'part')}${row('out of the cells', ({ energy }) => energy.terms.batteryChemical, 'sum')}${row('lost heat still held at the end', ({ energy }) => energy.heatStored, 'quiet')}${row('lost heat given off', ({ energy }) => energy.heatShed, 'quiet')}${HEAT_WAY_IDS.map((way) => row(`of it ${HEAT_WAYS[way].words}`, ({ energy }) => energy.heatLeaves[way], 'part'))}<tr class="quiet"><th scope="row">does not close, % of what left the cells</th>${candidates.map(({ energy }) => html`<td class="txt">${residualText(energy.residual)}</td>${beside}`)}</tr>
</tbody></table>`;
  return scrolling('Energy over the run', table);
}

const SMALLEST_SHOWN = 1e-6;
/** In percent; an account that closes to the last digits says so by an upper bound. */
export function residualText(residual: number): string {
  if (!Number.isFinite(residual)) return NO_NUMBER;
  return Math.abs(residual) < SMALLEST_SHOWN ? '< 0.0001' : formatNumber(residual * 100, { significant: 1 });
}
