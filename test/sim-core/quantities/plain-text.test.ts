import { plainText } from '@shaftwork/sim-core/quantities/plain-text';
import { describe, expect, it } from 'vitest';

describe('plainText', () => {
  it.each([
    ['12\u00a0V', '12 V', 'no-break space'],
    ['12\u202fV', '12 V', 'narrow no-break space'],
    ['12\u2009V', '12 V', 'thin space'],
    ['  12 \t V ', '12 V', 'runs of blanks'],
    ['12\u200bV\ufeff', '12V', 'characters without width'],
    ['\u22125 °C', '-5 °C', 'minus sign'],
    ['5 \u2103', '5 °C', 'degree Celsius as one character'],
    ['5 ºC', '5 °C', 'ordinal sign'],
    ['5 ° C', '5 °C', 'blank after the degree sign'],
    ['5 deg C', '5 degC', 'blank after deg'],
    ['5 k\u2126', '5 kΩ', 'ohm sign'],
    ['5 \u00b5H', '5 \u03bcH', 'micro sign'],
    ['m²·s⁻¹', 'm^2·s^-1', 'raised digits and sign'],
    ['10² m', '10^2 m', 'a raised digit never joins the number'],
    ['㎜', 'mm', 'square characters'],
    ['１２ V', '12 V', 'full-width digits'],
    ['a*b × c', 'a·b · c', 'other product signs'],
    ['5 A +/- 1 A', '5 A ± 1 A', 'plus-minus in three characters'],
    ['5 A +- 1 A', '5 A ± 1 A', 'plus-minus in two'],
  ])('%j → %j (%s)', (written, plain) => {
    expect(plainText(written)).toBe(plain);
  });

  it('leaves its own answer alone', () => {
    const once = plainText('−5 ºC ± 2 K · m²/(s⁻¹)');
    expect(plainText(once)).toBe(once);
  });
});
