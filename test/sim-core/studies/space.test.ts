import { fits, spaceRoom } from '@shaftwork/sim-core/studies/space';
import { describe, expect, it } from 'vitest';

const place = { file: 'a.yaml', line: 1, column: 1, path: 'space' };
const datum = (dimension: 'length' | 'mass', value: number) => ({
  dimension,
  value,
  unknown: { key: 'a', spread: { shape: 'none' as const } },
  origin: { kind: 'given' as const, place, subject: 'space.length' },
});
const system = { motor: { canDiameter: 0.039, canLength: 0.047, mass: 0.236 }, gearbox: { mass: 0.034 } } as never;

describe('space', () => {
  it('gives the room on every side that was given, the gearbox in the mass', () => {
    const given = { space: { place, diameter: datum('length', 0.042), mass: datum('mass', 0.25) } } as never;
    const room = spaceRoom(given, system);
    expect(room?.diameter?.room).toBeCloseTo(0.003, 12);
    expect(room?.length).toBeUndefined();
    expect(room?.mass?.room).toBeCloseTo(-0.02, 12);
    expect(fits(room)).toBe(false);
  });

  it('is absent where no space was given, and everything then fits', () => {
    expect(spaceRoom({}, system)).toBeUndefined();
    expect(fits(undefined)).toBe(true);
  });
});
