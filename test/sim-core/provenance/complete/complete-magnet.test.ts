/** What demagnetisation is judged by: grade, thickness and the sizes about them. */
import { describe, expect, it } from 'vitest';
import { dataOf, OUTRUNNER, preparedOf, type Section } from '../drives.js';

/** The can. */
const [D, L] = [27e-3, 32e-3];

describe('magnets', () => {
  // makers' tables in kOe, 1 kOe = 10⁶/(4π) A/m; UH, EH, AH from memory
  it.each([
    ['N', 12],
    ['M', 14],
    ['H', 17],
    ['SH', 20],
    ['UH', 25],
    ['EH', 30],
    ['AH', 35],
  ] as const)('of grade %s bear at least %s kOe', (magnet_grade, kilooersted) => {
    const { magnet } = dataOf({ motor: { ...OUTRUNNER, magnet_thickness: '2 mm', magnet_grade } });
    expect(magnet?.coercivity.value).toBeGreaterThan(0);
    expect(Math.abs((magnet?.coercivity.value ?? 0) / ((kilooersted * 1e6) / (4 * Math.PI)) - 1)).toBeLessThan(1e-3);
  });
  it('are judged only where thickness and grade are both known, by the sizes that were given', () => {
    const magnet = (more: Section) => preparedOf({ motor: { ...OUTRUNNER, ...more } }).candidates[0].data.magnet;
    expect(magnet({ magnet_thickness: '2 mm' })).toBeUndefined();
    expect(magnet({ magnet_grade: 'H' })).toBeUndefined();
    const known = magnet({
      magnet_thickness: '2 mm',
      magnet_grade: 'H',
      air_gap: '0.7 mm',
      stator_diameter: '22 mm',
      stack_length: '12 mm',
    });
    expect([known?.thickness, known?.gap, known?.statorRadius, known?.stackLength].map((datum) => datum?.value)).toEqual([
      2e-3, 0.7e-3, 11e-3, 12e-3,
    ]);
    const half = magnet({ magnet_thickness: '2 mm', magnet_grade: 'H' });
    expect(half?.stackLength.value).toBeCloseTo(0.47 * L, 12);
    expect(half?.statorRadius.value).toBeCloseTo(0.415 * D, 12);
  });
});
