/**
 * Numbers as the report prints them: channels and limits in the units people read, and differences that agree with what stands beside them.
 *
 * @module
 */

import {
  asPrinted,
  type Dimension,
  printedDifference as differenceAsPrinted,
  formatClock,
  formatNumber,
  formatQuantity,
  type QuantityFormat,
  SECONDS_PER_HOUR,
  toUnit,
  type UnitOf,
  unitSign,
} from '../quantities/index.js';
import { CHANNELS, type Channel, type ChannelId } from '../results/channels.js';
import type { LimitResult } from '../results/limit-result.js';

/** What stands in the place of a number that does not exist. */
export const NO_NUMBER = '–';

/** Unit and number of digits [1] in which something is shown. */
export interface Printing {
  readonly dimension: Dimension;
  readonly unit: UnitOf;
  readonly decimals: number;
}

const LIMIT_DECIMALS: { readonly [D in Dimension]?: number } = { current: 1, voltage: 2, energy: 1, time: 0 };

/** How a channel is shown. */
export const channelPrinting = (id: ChannelId): Printing => {
  const channel: Channel = CHANNELS[id];
  return { dimension: channel.dimension, unit: channel.shown, decimals: channel.decimals };
};
/** How a limit is shown. */
export const limitPrinting = ({ dimension, shown }: LimitResult): Printing => ({
  dimension,
  unit: shown,
  decimals: LIMIT_DECIMALS[dimension] ?? 0,
});

/** The number alone; times as on a clock. */
export function numberText(value: number, { dimension, unit, decimals }: Printing): string {
  if (!Number.isFinite(value)) return NO_NUMBER;
  return dimension === 'time' ? formatClock(value) : formatNumber(toUnit(value, unit), { decimals });
}

/** A value [SI] in the unit in which it is shown. */
export function quantityText(value: number, { dimension, unit, decimals }: Printing): string {
  if (!Number.isFinite(value)) return NO_NUMBER;
  return dimension === 'time'
    ? formatClock(value)
    : grouped(formatQuantity(value, dimension, { unit: unit as UnitOf<Dimension>, decimals } as QuantityFormat));
}

/** What somebody wrote, as it is written: 40 A, not 40.0 A. */
export const roundText = (value: number, printing: Printing): string => quantityText(value, printing).replace(/\.0+(?=\D)/, '');

/** From ten thousand on a thin space between the thousands. */
export const grouped = (text: string): string =>
  text.replace(/\d{5,}(?=\D|$)/g, (digits, at: number) =>
    text[at - 1] === '.' ? digits : digits.replace(/(?<=\d)(?=(?:\d{3})+$)/g, '\u202f'),
  );

/** In a sentence three digits count. */
export function sentenceText(value: number, printing: Printing): string {
  if (!Number.isFinite(value) || printing.dimension === 'time') return quantityText(value, printing);
  const shown = toUnit(value, printing.unit);
  if (Math.abs(shown) < 1000) return quantityText(value, printing);
  return `${grouped(formatNumber(Number(shown.toPrecision(3)), { decimals: 0 }))}\u202f${unitSign(printing.unit)}`;
}

/** Less than this from its limit, as printed, a temperature is read to a tenth: "120 °C" beside a limit of 120 says nothing [K]. */
const CLOSE = 1;
/** A value beside its limit. */
export const besideLimit = (value: number, bound: number | undefined, printing: Printing): Printing =>
  bound !== undefined && printing.dimension === 'temperature' && Math.abs(printedDifference(value, bound, printing)) < CLOSE
    ? { ...printing, decimals: 1 }
    : printing;

/** The value as it will be read. */
export const printed = (value: number, { unit, decimals }: Printing): number => asPrinted(value, unit, decimals);

/** a − b of the printed values. */
export const printedDifference = (a: number, b: number, { unit, decimals }: Printing): number => differenceAsPrinted(a, b, unit, decimals);

/** "31 K", "0.08 m/s": a difference without its sign. */
export function differenceText(difference: number, { dimension, unit, decimals }: Printing): string {
  if (dimension === 'time') return formatClock(Math.abs(difference));
  const sign = dimension === 'temperature' && unit !== '°F' ? 'K' : dimension === 'fraction' ? 'points' : unitSign(unit);
  return `${formatNumber(Math.abs(difference), { decimals })}\u202f${sign}`.trimEnd();
}

/** A time [s] as on a stopwatch. */
export const clock = (seconds: number): string => (Number.isFinite(seconds) ? formatClock(seconds) : NO_NUMBER);

/** How a clock of up to this many seconds is read. */
export const clockUnit = (most: number): string => (most >= SECONDS_PER_HOUR ? 'h:mm:ss' : 'm:ss');

const COUNT_WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
/** A small count as a word. */
export const countWord = (count: number): string => COUNT_WORDS[count] ?? String(count);
/** The sentence with a capital letter. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
