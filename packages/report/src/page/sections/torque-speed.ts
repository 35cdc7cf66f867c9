/** The section on torque over speed. @module */

import type { CandidateResult } from '@shaftwork/sim-core';
import { certain } from '@shaftwork/sim-core/problems';
import { channelPrinting, clock, quantityText, sentenceText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { atOutput, hasTorqueSpeed, topCrossing, torqueSpeedDrawing } from '../../figures/torque-speed.js';
import { html } from '../../html/html.js';
import { crossingsTable } from '../../tables/figure-data.js';
import type { ReportView, Section } from '../report-view.js';

const SPEED = channelPrinting('shaftSpeed');
const TORQUE = { ...channelPrinting('motorTorque'), decimals: 2 };
const SHARE = channelPrinting('throttle');

export function torqueSpeedHeading({ best, result }: ReportView): string {
  const lead =
    best !== undefined && hasTorqueSpeed(best) ? best : certain(result.candidates.find(hasTorqueSpeed), 'candidate with torque over speed');
  const crossing = topCrossing(lead);
  if (crossing === undefined) return `${lead.name} and its load meet at no throttle that was drawn`;
  const efficient = Number.isFinite(crossing.efficiency) ? `, ${quantityText(crossing.efficiency, SHARE)} efficient` : '';
  if (lead.torqueSpeed.held)
    return `At its hardest moment (${lead.moment.label}, ${quantityText(crossing.throttle, SHARE)} throttle) the motor of ${lead.name} turns at ${sentenceText(crossing.speed, SPEED)} with ${quantityText(crossing.torque, TORQUE)}${efficient}`;
  return `At ${quantityText(crossing.throttle, SHARE)} throttle ${lead.name} turns the load at ${sentenceText(crossing.speed, SPEED)} with ${quantityText(crossing.torque, TORQUE)}${efficient}`;
}

export async function torqueSpeedSection(view: ReportView): Promise<Section | undefined> {
  const { result, looks } = view;
  const shown = result.candidates.filter(hasTorqueSpeed);
  if (shown.length === 0) return undefined;
  const told = shown.map((candidate) => {
    const crossing = topCrossing(candidate);
    return crossing === undefined
      ? `${candidate.name} meets the load nowhere`
      : `${candidate.name} ${candidate.torqueSpeed.held ? 'is driven' : 'meets the load'} at ${sentenceText(crossing.speed, SPEED)} and ${quantityText(crossing.torque, TORQUE)} with ${quantityText(crossing.throttle, SHARE)} throttle`;
  });
  const held = shown.some(({ torqueSpeed }) => torqueSpeed.held);
  const output = atOutput(shown);
  const heat = shown.some(({ rating }) => rating !== undefined);
  const drawn = await figure({
    id: 'figure-torque',
    number: view.nextFigure(),
    label: 'Torque over speed of each motor with its load',
    description: `${told.join('; ')}.`,
    drawings: { wide: torqueSpeedDrawing(result, looks, 'wide'), narrow: torqueSpeedDrawing(result, looks, 'narrow') },
    caption: html`Coloured lines: torque of the motor at the throttles written beside them, in per cent${output ? ', with its speed divided and its torque multiplied by its gear ratio, so that one load curve serves all' : ''}. Marked “load”: what the load asks at steady speed. ${held ? 'The dot is what was driven at the hardest moment: what it has above the load gathers speed.' : 'Dots: where they meet.'} Tinted: what the sagging pack or a current limit forbids.${heat ? ' Hatched: what heat does not let last for ever.' : ''} ${conditions(shown)}`,
    data: crossingsTable(result),
  });
  return { id: 'torque', word: 'Torque and speed', heading: torqueSpeedHeading(view), body: drawn };
}

/** Under what conditions the lines hold; one sentence when they are the same for all. */
function conditions(shown: readonly CandidateResult[]): string {
  const texts = shown.map(({ torqueSpeed: { time, vehicleSpeed, charge } }) => {
    const speed = vehicleSpeed === 0 ? '' : `, ${quantityText(vehicleSpeed, channelPrinting('vehicleSpeed'))}`;
    return `${clock(time)}${speed}, ${quantityText(charge, channelPrinting('charge'))} of the charge left`;
  });
  if (new Set(texts).size === 1) return `Drawn for the state at ${texts[0]}.`;
  if (shown.length > 4) return 'Drawn for the hardest moment of each.';
  return `Drawn for the hardest moment of each: ${shown.map(({ name }, index) => `${name} at ${texts[index]}`).join('; ')}.`;
}
