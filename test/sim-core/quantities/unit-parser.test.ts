import { ONE, parseUnit, raised, type Unit } from '@shaftwork/sim-core/quantities/unit-parser';
import { SYMBOLS } from '@shaftwork/sim-core/quantities/unit-symbols';
import { describe, expect, it } from 'vitest';

const unit = (text: string): Unit => {
  const read = parseUnit(text, SYMBOLS);
  if (!read.ok) throw new Error(`${text}: ${JSON.stringify(read)}`);
  return read.unit;
};
const size = ({ times, over, powers }: Unit) => ({ factor: times / over, powers });

describe('parseUnit', () => {
  it.each([
    ['W/(m^2·K)', 1, [1, 0, -3, 0, -1, 0]],
    ['W/m2/K', 1, [1, 0, -3, 0, -1, 0]],
    ['W per m2 per K', 1, [1, 0, -3, 0, -1, 0]],
    ['W·m-2·K-1', 1, [1, 0, -3, 0, -1, 0]],
    ['W m^-2 K^-1', 1, [1, 0, -3, 0, -1, 0]],
    ['kg·m/s2', 1, [1, 1, -2, 0, 0, 0]],
    ['N·m', 1, [1, 2, -2, 0, 0, 0]],
    ['mm2', 1e-6, [0, 2, 0, 0, 0, 0]],
    ['(m/s)^2', 1, [0, 2, -2, 0, 0, 0]],
    ['1/(m/s)', 1, [0, -1, 1, 0, 0, 0]],
    ['/min', 1 / 60, [0, 0, -1, 0, 0, 0]],
    ['1/min', 1 / 60, [0, 0, -1, 0, 0, 0]],
    ['rad/(s·V)', 1, [-1, -2, 2, 1, 0, 1]],
    ['((K))/W', 1, [-1, -2, 3, 0, 1, 0]],
    ['km / h', 1 / 3.6, [0, 1, -1, 0, 0, 0]],
  ])('%s', (text, factor, powers) => {
    expect(size(unit(text)).factor).toBeCloseTo(factor, 12);
    expect(unit(text).powers).toEqual(powers);
  });

  it('reduces factors, so that km/h is exactly 5/18', () => {
    expect(unit('km/h')).toMatchObject({ times: 5, over: 18 });
  });

  it('remembers the symbols by their first names and powers', () => {
    expect(unit('mΩ/metre2').symbols).toEqual([
      { name: 'ohm', power: 1 },
      { name: 'm', power: -2 },
    ]);
  });

  it('undoes a unit by its power −1', () => {
    expect(raised(raised(unit('km/h'), -1), -1)).toEqual(unit('km/h'));
  });

  it.each(['W/m2·K', 'W/m2 K', 'J/kg K', '1/s·V'])('does not decide what %s means', (text) => {
    expect(parseUnit(text, SYMBOLS)).toMatchObject({ ok: false, kind: 'unclear-quotient' });
  });

  it('offers the spelling with parentheses', () => {
    expect(parseUnit('J/kg K', SYMBOLS)).toMatchObject({ clearer: 'J/(kg K)' });
  });

  it.each(['', '(', ')', 'm)', '(m', 'm/', '/', 'm^', 'm^0', 'm22', '2', '2 m', '1.5', 'm·', '·m', 'm//s', 'm;', '()', '^2', '100/s'])(
    'calls %j malformed',
    (text) => {
      expect(parseUnit(text, SYMBOLS)).toMatchObject({ ok: false, kind: 'malformed' });
    },
  );

  it('names the symbol it does not know', () => {
    expect(parseUnit('W/(m2·Kel)', SYMBOLS)).toEqual({ ok: false, kind: 'unknown-symbol', symbol: 'Kel' });
  });

  it('takes its symbols from outside', () => {
    const ell: Unit = { ...ONE, times: 1143, over: 1000, powers: [0, 1, 0, 0, 0, 0] };
    expect(parseUnit('ell2', new Map([['ell', ell]]))).toMatchObject({ ok: true, unit: { powers: [0, 2, 0, 0, 0, 0] } });
  });
});

describe('the symbols', () => {
  it.each([
    ['mohm', 'Mohm', 1e-9],
    ['mΩ', 'MΩ', 1e-9],
    ['mPa', 'MPa', 1e-9],
    ['mHz', 'MHz', undefined],
    ['mA', 'MA', undefined],
    ['mW', 'MW', undefined],
  ])('never takes %s for %s', (small, large, ratio) => {
    const [a, b] = [SYMBOLS.get(small), SYMBOLS.get(large)];
    if (ratio === undefined) expect([a, b].filter((read) => read === undefined)).toHaveLength(1);
    else expect(a!.times / a!.over / (b!.times / b!.over)).toBeCloseTo(ratio, 20);
  });

  it.each([
    [['ohm', 'Ω', 'Ohm', 'ohms']],
    [['mohm', 'mΩ', 'milliohm']],
    [['kg', 'kilogram']],
    [['uH', '\u03bcH', 'microhenry']],
    [['L', 'l', 'litre']],
    [['°C', 'degC']],
    [['min', 'minute', 'minutes']],
    [['mNm', 'millinewton·metre']],
  ])('has the spellings %j for one unit', (spellings) => {
    for (const spelling of spellings) expect(size(unit(spelling))).toEqual(size(unit(spellings[0]!)));
  });

  it.each(['millim', 'mmetre', 'kmin', 'mmin', 'mft', 'µ', 'k', 'M', 'hW', 'kK'])('does not know %s', (spelling) => {
    expect(SYMBOLS.has(spelling)).toBe(false);
  });
});
