/** The section that sets the candidates side by side. @module */

import { bestClimb, type CandidateResult } from '@shaftwork/sim-core';
import { channelPrinting, differenceText, listed, printedDifference, quantityText } from '@shaftwork/sim-core/words';
import { counted } from '../../drawing/step-at.js';
import { html } from '../../html/html.js';
import { comparedOf, sideBySide } from '../../tables/side-by-side.js';
import type { ReportView, Section } from '../report-view.js';

const HEAT = channelPrinting('windingTemperature');
const SPEED = channelPrinting('vehicleSpeed');
const CLIMB = channelPrinting('climbRate');
const CHARGE = channelPrinting('charge');

export function sideBySideHeading({ result, best, second }: ReportView): string {
  const lead = best ?? result.candidates[0];
  if (lead === undefined) return 'No candidates were calculated';
  if (second === undefined) {
    const { topSpeed, chargeLeft } = lead.headline;
    const speed = topSpeed.nominal > 0 && bestClimb(lead) === undefined ? `reaches ${quantityText(topSpeed.nominal, SPEED)} and ` : '';
    return `${lead.name} ${speed}ends with ${quantityText(chargeLeft.nominal, CHARGE)} of its charge`;
  }
  // the difference of the values, as verdict and reasons tell it; that of the rounded ones may be one more
  const heat = lead.headline.peakWindingTemperature.nominal - second.headline.peakWindingTemperature.nominal;
  const kelvin = differenceText(heat, HEAT);
  const parts = [
    Number.isFinite(heat) ? (/[1-9]/.test(kelvin) ? `${kelvin} ${heat < 0 ? 'cooler' : 'hotter'}` : 'as hot') : '',
    motion(lead, second),
  ].filter((part) => part !== '');
  return parts.length === 0 ? `${lead.name} ranks before ${second.name}` : `Against ${second.name}, ${lead.name} runs ${listed(parts)}`;
}

/** Who climbs or drives faster, by how much; empty where neither moves. */
function motion(lead: CandidateResult, second: CandidateResult): string {
  const climbs = [bestClimb(lead), bestClimb(second)];
  const climbing = climbs.every((one) => one !== undefined);
  const [a, b] = climbing ? climbs : [lead.headline.topSpeed.nominal, second.headline.topSpeed.nominal];
  const difference = printedDifference(a, b, climbing ? CLIMB : SPEED);
  if (!Number.isFinite(difference) || !(a > 0)) return '';
  const [more, less, same] = climbing
    ? ['better in the climb', 'worse in the climb', 'as well in the climb']
    : ['faster', 'slower', 'as fast'];
  return difference === 0 ? same : `${differenceText(difference, climbing ? CLIMB : SPEED)} ${difference > 0 ? more : less}`;
}

export function sideBySideSection(view: ReportView): Section {
  const { result, looks } = view;
  const compared = comparedOf(result.candidates).length;
  const whose = compared < result.candidates.length ? `${compared} that meet every limit` : counted(compared, 'candidate');
  const hard = result.candidates.filter(({ moment }) => Number.isFinite(moment.time));
  const labels = [...new Set(hard.map(({ moment }) => moment.label))];
  const marked = result.candidates.some(({ limits, facts }) => !facts.fits || limits.some(({ passed }) => passed !== undefined));
  const body = html`${sideBySide(result, looks)}
<p class="note">${compared > 1 ? html`<b>Bold</b> is the best of the ${whose} where one is better. ` : ''}${result.doubt === undefined ? '' : `Soft: 5 to 95\u202f% of ${result.doubt.samples} draws. `}${marked ? html`<sup>†</sup> Past a limit. ` : ''}Limits that are far from all stand among the margins. The hardest moment is that of greatest battery power${labels.length === 1 ? ` (${labels[0]})` : ''}.</p>`;
  return { id: 'side-by-side', word: 'Side by side', heading: sideBySideHeading(view), body };
}
