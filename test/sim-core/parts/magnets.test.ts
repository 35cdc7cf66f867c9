/** Demagnetisation: the formula step by step, and its trends. No published number stands behind the whole; (1)–(3) are Ampère's law. */
import { demagnetisingCurrent, type Magnet } from '@shaftwork/sim-core/parts/magnets';
import { describe, expect, it } from 'vitest';

const magnet: Magnet = {
  thickness: 2.5e-3,
  gap: 0.5e-3,
  remanence: 1.3,
  remanenceCoefficient: -0.0012,
  coercivity: 1353e3,
  coercivityCoefficient: -0.0055,
  statorRadius: 0.02,
  stackLength: 0.012,
};
const current = (change: Partial<Magnet> = {}, temperature = 293.15): number =>
  demagnetisingCurrent({ ...magnet, ...change }, 7, 0.01, temperature);

describe('demagnetising current', () => {
  it('closes Ampère’s law round magnet, gap and iron at the knee', () => {
    const i = current();
    const path = 2.5e-3 + 1.05 * 0.5e-3;
    const flux = (1.3 * 2.5e-3) / path;
    const loading = (0.01 * i) / (2 * Math.PI * 0.02 ** 2 * 0.012 * flux);
    const ampereTurns = (loading * Math.PI * 0.02) / 14;
    const field = (ampereTurns + (1.3 * 0.5e-3) / (4e-7 * Math.PI)) / path;
    expect(field / (0.9 * 1353e3)).toBeCloseTo(1, 9);
  });

  it('falls with heat and with thinner magnets, and is nothing where heat alone does it', () => {
    expect(current({}, 373.15)).toBeLessThan(current());
    expect(current({ thickness: 1.5e-3 })).toBeLessThan(current());
    expect(current({}, 460)).toBe(0);
  });
});
