/** Numbers as they are printed: units, digits, groups, what stands beside a limit, and differences that agree with what is read. */

import {
  besideLimit,
  capital,
  channelPrinting,
  clock,
  clockUnit,
  countWord,
  differenceText,
  grouped,
  limitPrinting,
  NO_NUMBER,
  numberText,
  type Printing,
  printed,
  printedDifference,
  quantityText,
  roundText,
  sentenceText,
} from '@shaftwork/sim-core/words/printing';
import { describe, expect, it } from 'vitest';
import { limitResult } from './limit-result.js';

const CELSIUS: Printing = { dimension: 'temperature', unit: '°C', decimals: 0 };
const FAHRENHEIT: Printing = { dimension: 'temperature', unit: '°F', decimals: 0 };
const AMPERE: Printing = { dimension: 'current', unit: 'A', decimals: 1 };
const WATT: Printing = { dimension: 'power', unit: 'W', decimals: 0 };
const PERCENT: Printing = { dimension: 'fraction', unit: '%', decimals: 0 };
const TIME: Printing = { dimension: 'time', unit: 's', decimals: 0 };
const SPEED: Printing = { dimension: 'speed', unit: 'm/s', decimals: 2 };
const plain = (text: string): string => text.replaceAll('\u202f', ' ');

describe('numbers and quantities', () => {
  it('are shown in people’s units with their digits', () => {
    expect(numberText(373.15, CELSIUS)).toBe('100');
    expect(plain(quantityText(373.15, CELSIUS))).toBe('100 °C');
    expect(numberText(12.34, AMPERE)).toBe('12.3');
    expect(plain(quantityText(12.34, AMPERE))).toBe('12.3 A');
    expect(plain(quantityText(0.257, PERCENT))).toBe('26 %');
  });

  it('times are those of a clock', () => {
    expect(numberText(90, TIME)).toBe('1:30');
    expect(quantityText(90, TIME)).toBe('1:30');
    expect(clock(90)).toBe('1:30');
    expect([clockUnit(3599), clockUnit(3600)]).toEqual(['m:ss', 'h:mm:ss']);
  });

  it('a dash stands where there is no number', () => {
    for (const nothing of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])
      for (const text of [numberText(nothing, AMPERE), quantityText(nothing, AMPERE), sentenceText(nothing, WATT), clock(nothing)])
        expect(text).toBe(NO_NUMBER);
  });

  it('from ten thousand on thousands stand apart, before the point alone', () => {
    expect(plain(grouped('9999 rpm'))).toBe('9999 rpm');
    expect(plain(grouped('10000 rpm'))).toBe('10 000 rpm');
    expect(plain(grouped('1234567'))).toBe('1 234 567');
    expect(plain(grouped('12345.67891 W'))).toBe('12 345.67891 W');
    expect(plain(quantityText(45678, WATT))).toBe('45 678 W');
  });

  it('what somebody wrote has no zeros after the point', () => {
    expect(plain(roundText(40, AMPERE))).toBe('40 A');
    expect(plain(roundText(40.5, AMPERE))).toBe('40.5 A');
    expect(plain(roundText(4, SPEED))).toBe('4 m/s');
  });

  it('in a sentence three digits count, from a thousand on', () => {
    expect(plain(sentenceText(999.4, WATT))).toBe('999 W');
    expect(plain(sentenceText(12.34, AMPERE))).toBe('12.3 A');
    expect(plain(sentenceText(1234, WATT))).toBe('1230 W');
    expect(plain(sentenceText(-1234, WATT))).toBe('−1230 W');
    expect(plain(sentenceText(45678, WATT))).toBe('45 700 W');
    expect(sentenceText(5000, TIME)).toBe('1:23:20');
  });
});

describe('beside a limit', () => {
  it('a temperature is read to a tenth where it prints within a kelvin, on either side', () => {
    const near = (celsius: number) => besideLimit(273.15 + celsius, 273.15 + 120, CELSIUS).decimals;
    expect([near(119.7), near(120.4), near(118.4), near(121.4), near(119.4)]).toEqual([1, 1, 0, 0, 0]);
  });
  it('nothing else is', () => {
    expect(besideLimit(20, 20, AMPERE)).toBe(AMPERE);
    expect(besideLimit(393.15, undefined, CELSIUS)).toBe(CELSIUS);
  });
});

describe('differences', () => {
  it('are those of the printed values', () => {
    expect(printed(373.65, CELSIUS)).toBe(101);
    // 100.4 and 99.6 both read 100
    expect(printedDifference(373.55, 372.75, CELSIUS)).toBe(0);
    expect(printedDifference(373.75, 372.75, CELSIUS)).toBe(1);
    expect(printedDifference(372.75, 373.75, CELSIUS)).toBe(-1);
  });
  it('of temperatures are kelvins, of shares points, without their sign', () => {
    expect(plain(differenceText(-31, CELSIUS))).toBe('31 K');
    expect(plain(differenceText(31, FAHRENHEIT))).toBe('31 °F');
    expect(plain(differenceText(-3, PERCENT))).toBe('3 points');
    expect(plain(differenceText(-0.08, SPEED))).toBe('0.08 m/s');
    expect(differenceText(-75, TIME)).toBe('1:15');
    expect(plain(differenceText(2, { dimension: 'ratio', unit: '1', decimals: 0 }))).toBe('2');
  });
});

describe('channels and limits', () => {
  it('print as their lists say', () => {
    expect(channelPrinting('motorCurrent')).toEqual(AMPERE);
    expect(channelPrinting('windingTemperature')).toEqual(CELSIUS);
    expect(limitPrinting(limitResult({ id: 'motorCurrent' }))).toEqual(AMPERE);
    expect(limitPrinting(limitResult({ id: 'cellVoltage' })).decimals).toBe(2);
    expect(limitPrinting(limitResult({ id: 'windingTemperature' })).decimals).toBe(0);
    expect(limitPrinting(limitResult({ id: 'runTime' })).decimals).toBe(0);
    expect(limitPrinting(limitResult({ id: 'batteryEnergy' })).decimals).toBe(1);
  });
});

describe('words', () => {
  it('counts up to a dozen', () => {
    expect(Array.from({ length: 14 }, (_, k) => countWord(k)).join(' ')).toBe(
      'no one two three four five six seven eight nine ten eleven twelve 13',
    );
  });
  it('begins a sentence', () => expect([capital('it is'), capital('')]).toEqual(['It is', '']));
});
