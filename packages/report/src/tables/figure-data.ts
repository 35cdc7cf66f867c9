/** The numbers behind the figures, so that nothing is said by a picture alone. @module */

import { type CandidateResult, CHANNELS, type ChannelId, POWER_TERM_IDS, POWER_TERMS, type RunResult } from '@shaftwork/sim-core';
import { unitSign } from '@shaftwork/sim-core/quantities';
import {
  channelPrinting,
  clock,
  inflow,
  limitPrinting,
  NO_NUMBER,
  numberText,
  percentText,
  quantityText,
  wattText,
} from '@shaftwork/sim-core/words';
import { timeScale } from '../drawing/round-ticks.js';
import { type Html, html } from '../html/html.js';
import { dataTable } from './data-table.js';

const MOST_ROWS = 40;

/** Ends of the steps when they are few, round times otherwise; none twice as a clock shows it. */
function rowTimes({ scenario: { steps, duration } }: RunResult): readonly number[] {
  const ends = steps.map(({ to }) => to);
  const times = steps.length >= 4 && ends.length < MOST_ROWS ? [0, ...ends, duration] : [...timeScale(duration, 24).ticks, duration];
  return times.sort((a, b) => a - b).filter((time, index) => index === 0 || clock(time) !== clock(times[index - 1]));
}

function valueAt({ trace }: CandidateResult, channel: ChannelId, at: number): number {
  const { time } = trace;
  const next = time.findIndex((one) => one >= at - 1e-9);
  if (next < 0 || time.length === 0) return Number.NaN;
  if (next === 0) return trace[channel][0];
  const before = time[next - 1];
  const share = time[next] > before ? (at - before) / (time[next] - before) : 1;
  return trace[channel][next - 1] + (trace[channel][next] - trace[channel][next - 1]) * Math.min(1, share);
}

export function overTimeTable(result: RunResult, channels: readonly ChannelId[], label: string): Html {
  const several = result.candidates.length > 1;
  return html`${channels.map((channel) =>
    dataTable(
      `${label}: ${CHANNELS[channel].words}`,
      [
        `${CHANNELS[channel].words}, ${unitSign(CHANNELS[channel].shown)}`,
        ...result.candidates.map(({ name }) => (several ? name : 'value')),
      ],
      rowTimes(result).map((at) => [
        clock(at),
        ...result.candidates.map((candidate) => numberText(valueAt(candidate, channel, at), channelPrinting(channel))),
      ]),
    ),
  )}`;
}

export function crossingsTable({ candidates }: RunResult): Html {
  return dataTable(
    'Where motor and load meet',
    ['candidate', 'throttle, %', 'motor speed, rpm', 'torque, N·m', 'motor current, A', 'efficiency of the motor, %'],
    candidates.flatMap(({ name, torqueSpeed }) =>
      torqueSpeed.crossings.map(({ throttle, speed, torque, motorCurrent, efficiency }) => [
        name,
        numberText(throttle, channelPrinting('throttle')),
        numberText(speed, channelPrinting('shaftSpeed')),
        numberText(torque, channelPrinting('motorTorque')),
        numberText(motorCurrent, channelPrinting('motorCurrent')),
        numberText(efficiency, { dimension: 'fraction', unit: '%', decimals: 1 }),
      ]),
    ),
  );
}

export function powerTable({ moment: { power } }: CandidateResult): Html {
  const total = inflow(power);
  return dataTable(
    'Power at the moment',
    ['', 'power', 'share'],
    POWER_TERM_IDS.filter((term) => power[term] !== 0).map((term) => [
      POWER_TERMS[term].words,
      wattText(power[term]),
      percentText(power[term] / total),
    ]),
  );
}

export function marginsTable({ candidates }: RunResult): Html {
  return dataTable(
    'Margins',
    ['limit', 'candidate', 'start', 'worst', 'at', 'limit', 'left, % of the way', 'where the limit comes from'],
    candidates.flatMap(({ name, limits }) =>
      limits.map((limit) => {
        const text = (value: number): string => quantityText(value, limitPrinting(limit));
        const left = Number.isFinite(limit.marginShare)
          ? numberText(limit.marginShare, { dimension: 'fraction', unit: '%', decimals: 0 })
          : NO_NUMBER;
        return [
          limit.words,
          name,
          text(limit.start),
          text(limit.worst),
          clock(limit.worstTime),
          text(limit.bound),
          left,
          html`<span class="long">${limit.origin}</span>`,
        ];
      }),
    ),
  );
}
