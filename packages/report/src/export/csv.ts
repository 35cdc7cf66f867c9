/** Every channel of every candidate over time, one row a moment, units in the heads (RFC 4180). @module */

import { CHANNEL_IDS, CHANNELS, type RunResult } from '@shaftwork/sim-core';
import { toUnit } from '@shaftwork/sim-core/quantities';

const LINE_END = '\r\n';
/** More digits than any reader needs, fewer than a double has. */
const DIGITS = 7;

/** A field that a spreadsheet would take for a formula is given an apostrophe before it. */
const field = (text: string): string => {
  // their wide forms are the same to some
  const inert = /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
};

/** The traces of a run as CSV, units in the heads. */
export function csvOf({ candidates }: RunResult): string {
  const heads = ['candidate', 'time_s', ...CHANNEL_IDS.map((id) => (CHANNELS[id].suffix === '' ? id : `${id}_${CHANNELS[id].suffix}`))];
  const lines = [heads.join(',')];
  const number = (value: number): string => (Number.isFinite(value) ? String(Number(value.toPrecision(DIGITS))) : '');
  for (const { name, trace } of candidates) {
    const first = field(name);
    trace.time.forEach((time, row) => {
      const values = CHANNEL_IDS.map((id) => number(toUnit(trace[id][row], CHANNELS[id].shown)));
      lines.push([first, number(time), ...values].join(','));
    });
  }
  return lines.join(LINE_END) + LINE_END;
}
