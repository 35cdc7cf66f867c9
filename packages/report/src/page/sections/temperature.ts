/** The section on temperatures over the run. @module */

import type { CandidateResult, LimitResult } from '@shaftwork/sim-core';
import { lastOf } from '@shaftwork/sim-core/problems';
import {
  besideLimit,
  channelPrinting,
  clock,
  differenceText,
  listed,
  NO_NUMBER,
  printed,
  printedDifference,
  quantityText,
} from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { numberedSteps, tintedSteps } from '../../drawing/time-panels.js';
import { temperatureDrawing } from '../../figures/temperature.js';
import { html } from '../../html/html.js';
import { overTimeTable } from '../../tables/figure-data.js';
import type { ReportView, Section } from '../report-view.js';

const PRINTING = channelPrinting('windingTemperature');
const CAN = channelPrinting('canTemperature');

interface Standing {
  readonly name: string;
  readonly peak: number;
  readonly limit: LimitResult | undefined;
  /** Printed degrees below the limit; negative past it. */
  readonly below: number;
  /** When it was first passed [s]. */
  readonly past: number | undefined;
}

function standingOf({ name, limits, headline }: CandidateResult): Standing {
  const limit = limits.find(({ id }) => id === 'windingTemperature');
  const peak = headline.peakWindingTemperature.nominal;
  const below = limit === undefined ? Number.NaN : printedDifference(limit.bound, peak, besideLimit(peak, limit.bound, PRINTING));
  return { name, peak, limit, below, past: limit?.passed?.at };
}

const kelvin = (difference: number): string =>
  difference === 0 ? 'less than 0.1\u202fK' : differenceText(difference, { ...PRINTING, decimals: Math.abs(difference) < 1 ? 1 : 0 });

export function temperatureHeading({ result, best }: ReportView): string {
  const all = result.candidates.map(standingOf).filter(({ peak }) => Number.isFinite(peak));
  if (all.length === 0) return 'No temperature could be calculated';
  const first = all.find(({ name }) => name === best?.name) ?? all[0];
  const ordered = [first, ...all.filter((one) => one !== first)];
  const limited = ordered.filter(({ limit }) => limit !== undefined);
  if (limited.length < ordered.length)
    return `${result.candidates.length === 1 ? 'The winding' : first.name} peaks at ${quantityText(first.peak, PRINTING)}`;
  if (ordered.length === 1) {
    const { past, below, peak } = first;
    return `The winding peaks at ${quantityText(peak, besideLimit(peak, first.limit?.bound, PRINTING))}, ${kelvin(below)} ${past === undefined ? 'below' : 'past'} its limit`;
  }
  const past = ordered.filter((one) => one.past !== undefined);
  const safe = ordered.filter((one) => one.past === undefined);
  if (ordered.length > 3) {
    const lead = safe.includes(first)
      ? `${first.name} peaks ${kelvin(first.below)} below its limit`
      : `${first.name} passes its limit by ${kelvin(first.below)}`;
    return `${lead}; ${past.length === 0 ? 'none' : past.length} of the ${ordered.length} ${past.length === 1 ? 'passes its own' : past.length === 0 ? 'passes it' : 'pass theirs'}`;
  }
  if (safe.length === 0) {
    return `All pass the limit of the winding: ${listed(ordered.map(({ name, below }) => `${name} by ${kelvin(below)}`))}`;
  }
  const [lead, ...others] = safe;
  const parts = [
    `${lead.name} peaks ${kelvin(lead.below)} below the limit`,
    ...others.map(({ name, below }) => `${name} ${kelvin(below)}`),
  ];
  const passing = past.map(({ name, below }) => `${name} passes it by ${kelvin(below)}`);
  return passing.length === 0 ? listed(parts) : `${parts.join(', ')}, and ${listed(passing)}`;
}

export async function temperatureSection(view: ReportView): Promise<Section | undefined> {
  const { result, looks } = view;
  const traced = result.candidates.filter(({ trace }) => trace.time.length > 1);
  if (traced.length === 0) return undefined;
  const wide = temperatureDrawing(result, looks, 'wide');
  const narrow = temperatureDrawing(result, looks, 'narrow');
  const cans = traced.map(({ headline }) => printed(headline.peakCanTemperature.nominal, CAN)).filter(Number.isFinite);
  const windings = traced.map(standingOf).filter(({ peak }) => Number.isFinite(peak));
  const hottest = windings.reduce((best, one) => (one.peak > best.peak ? one : best), windings[0]);
  const early = result.candidates.filter(({ end }) => end !== 'finished');
  const told = result.candidates.map((candidate) => {
    const { name, peak, limit, past } = standingOf(candidate);
    const at = limit === undefined ? '' : ` at ${clock(limit.worstTime)}`;
    return `${name} peaks at ${Number.isFinite(peak) ? quantityText(peak, besideLimit(peak, limit?.bound, PRINTING)) : NO_NUMBER}${at}${past === undefined ? '' : `, past its limit from ${clock(past)} on`}`;
  });
  const several = traced.length > 1;
  const caption = html`Winding above, can below, calculated with the nominal values; the labels give the peaks.${result.doubt === undefined ? '' : ` The band of each holds 5 to 95\u202f% of ${result.doubt.samples} draws of the tolerances.`}${tintedSteps(result).length === 0 ? '' : ' Tinted columns are the steps that take more than the mean battery power.'}${
    cans.length === 0 || hottest === undefined
      ? ''
      : ` ${several ? 'The hottest can reaches' : 'The can reaches'} ${Math.max(...cans)}\u202f°C while ${several ? 'the hottest winding' : 'the winding'} reaches ${quantityText(hottest.peak, besideLimit(hottest.peak, hottest.limit?.bound, PRINTING))}.`
  }${early.map(({ name, end, trace }) => ` ${name} ${END_WORDS[end]}${trace.time.length > 0 ? ` at ${clock(lastOf(trace.time))}` : ''}.`)}${numberedSteps(wide.head, narrow.head)}`;
  const drawn = await figure({
    id: 'figure-temperature',
    number: view.nextFigure(),
    label: 'Line chart of winding and can temperature over the run',
    description: `${told.join('; ')}.`,
    drawings: { wide: wide.drawing, narrow: narrow.drawing },
    caption,
    data: overTimeTable(result, ['windingTemperature', 'canTemperature'], 'Temperatures'),
  });
  return { id: 'temperature', word: 'Temperature', heading: temperatureHeading(view), body: drawn };
}

export const END_WORDS = {
  finished: 'ran to the end',
  'cut-off': 'reaches the cut-off voltage',
  empty: 'runs the pack empty',
  burnt: 'burns out',
  failed: 'could not be calculated further',
} as const;
