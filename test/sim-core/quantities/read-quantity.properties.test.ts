import { fromUnit } from '@shaftwork/sim-core/quantities/convert';
import { formatQuantity } from '@shaftwork/sim-core/quantities/format-quantity';
import { readNumber } from '@shaftwork/sim-core/quantities/read-number';
import { readQuantity } from '@shaftwork/sim-core/quantities/read-quantity';
import { readRange } from '@shaftwork/sim-core/quantities/read-range';
import { halfWidth95 } from '@shaftwork/sim-core/quantities/spread';
import { type Dimension, UNITS, type UnitOf } from '@shaftwork/sim-core/quantities/units';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const DIMENSIONS = Object.keys(UNITS) as Dimension[];
const dimension = fc.constantFrom(...DIMENSIONS);
const listed = fc.constantFrom(...DIMENSIONS.flatMap((of) => UNITS[of].map((unit) => ({ of, unit: unit as UnitOf }))));
/** Seventeen digits tell every double from its neighbours. */
const EVERY_DIGIT = 17;

describe('properties of reading and formatting', () => {
  it('reads back what it formats, in every unit', () => {
    fc.assert(
      fc.property(listed, fc.double({ min: 1e-3, max: 1, noNaN: true }), fc.boolean(), ({ of, unit }, size, negative) => {
        const shown = negative && unit !== 'K' && unit !== 'AWG' ? -size : size;
        const si = fromUnit(shown, unit);
        const read = readQuantity(formatQuantity(si, of, { unit, significant: EVERY_DIGIT }), of);
        expect(read).toMatchObject({ ok: true, shownUnit: unit });
        // A zero point of some hundred kelvins and the logarithm of a gauge cost digits of a small number; one rounding each way otherwise.
        if (read.ok)
          expect(Math.abs(read.value - si)).toBeLessThanOrEqual((unit === 'AWG' ? 1e-13 : 1e-15) * Math.max(Math.abs(si), 1e-300));
      }),
      { numRuns: 2000 },
    );
  });

  it('reads back the tolerance of every log-normal % it is given', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 99.9, noNaN: true }), fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (percent, value) => {
        const read = readQuantity(`${value} mohm ± ${percent} %`, 'resistance');
        expect(read.ok && read.tolerance && halfWidth95(read.tolerance)).toBeCloseTo(percent / 100, 12);
      }),
    );
  });

  it('gives a conductance and its reciprocal one spread', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), fc.integer({ min: 1, max: 99 }), (value, percent) => {
        const there = readQuantity(`${value} W/K ± ${percent} %`, 'conductance');
        const back = readQuantity(`${1 / value} K/W ± ${percent} %`, 'conductance');
        if (!there.ok || !back.ok) throw new Error(`${value} ± ${percent} %`);
        expect(back.tolerance).toEqual(there.tolerance);
        expect(back.value / there.value).toBeCloseTo(1, 12);
      }),
    );
  });

  const fragments = fc.constantFrom(
    ...[
      '5',
      '-',
      '1.5',
      'e',
      '1e9',
      ' ',
      '±',
      '+/-',
      '%',
      '(',
      ')',
      '/',
      '·',
      '^',
      '2',
      '²',
      '⁻¹',
      'm',
      's',
      'K',
      '°C',
      'C',
      'rpm',
      'AWG',
      'to',
      'per',
      'Ω',
      ',',
    ],
  );
  const scraps = fc.array(fragments, { maxLength: 12 }).map((parts) => parts.join(''));

  it.each([
    ['any text', fc.string({ unit: 'grapheme', maxLength: 250 })],
    ['any sequence of code units', fc.string({ unit: 'binary', maxLength: 250 })],
    ['any arrangement of what quantities are made of', scraps],
  ])('answers %s without throwing, with a finite number or a reason', (_, texts) => {
    fc.assert(
      fc.property(texts, dimension, (text, of) => {
        for (const read of [readQuantity(text, of), readRange(text, of), readNumber(text)]) {
          if (!read.ok) {
            expect(read.expected).not.toBe('');
            expect(read.found).not.toBe('');
          } else if ('from' in read) expect(Number.isFinite(read.from) && Number.isFinite(read.to)).toBe(true);
          else expect(Number.isFinite(read.value)).toBe(true);
        }
      }),
      { numRuns: 3000 },
    );
  });
});
