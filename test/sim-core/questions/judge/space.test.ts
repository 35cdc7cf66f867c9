import { complete } from '@shaftwork/sim-core/provenance/complete/complete';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { fits, spaceRoom } from '@shaftwork/sim-core/questions/judge/space';
import { describe, expect, it } from 'vitest';
import { driveOf } from '../../scenario/smallest-scenario.js';

const place = { file: 'a.yaml', line: 1, column: 1, path: 'space' };
const datum = (dimension: 'length' | 'mass', value: number) => ({
  dimension,
  value,
  unknown: { key: 'a', spread: { shape: 'none' as const } },
  origin: { kind: 'given' as const, place, subject: 'space.length' },
});
const system = {
  motor: { canDiameter: 0.039, canLength: 0.047, mass: 0.236 },
  gearbox: { mass: 0.034 },
  heat: { addedThickness: 0, addedMass: 0 },
} as never;

describe('space', () => {
  it('gives the room on every side that was given, the gearbox in the mass', () => {
    const given = { space: { place, diameter: datum('length', 0.042), mass: datum('mass', 0.25) } } as never;
    const room = spaceRoom(given, system);
    expect(room?.diameter?.room).toBeCloseTo(0.003, 12);
    expect(room?.length).toBeUndefined();
    expect(room?.mass?.room).toBeCloseTo(-0.02, 12);
    expect(fits(room)).toBe(false);
    // one side that is too small is enough, and what just fits fits
    const sides = (diameter: number, mass: number) =>
      fits({ diameter: { size: 1, bound: 1 + diameter, room: diameter }, mass: { size: 1, bound: 1 + mass, room: mass } });
    expect([sides(0, 0), sides(-0.1, 0.1), sides(0.1, -0.1), sides(0.1, 0.1)]).toEqual([true, false, false, true]);
  });

  it('is absent where no space was given, and everything then fits', () => {
    expect(spaceRoom({}, system)).toBeUndefined();
    expect(fits(undefined)).toBe(true);
  });

  it('counts fins round a can, and the mass of what is fitted: 8 mm fins do not leave 4 mm in 40 mm round a can of 36 mm', () => {
    const drive = driveOf(`title: fins
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 3 min, throttle: 80 % }]
space: { diameter: 40 mm, mass: 300 g }
cooling: { heat_sink: { fins: 12, fin_height: 8 mm, fin_thickness: 1 mm, length: 45 mm, breadth: 110 mm } }
candidates:
  - { name: A, motor: { layout: inrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 195 g, can: { diameter: 36 mm, length: 58 mm } } }
`);
    const completion = complete('A', drive);
    if (!completion.ok) throw new Error(JSON.stringify(completion));
    const room = spaceRoom(drive, realise(completion.data))!;
    expect(room.diameter!.size).toBeCloseTo(0.036 + 2 * (0.008 + 0.0015), 9);
    expect(room.diameter!.room).toBeLessThan(0);
    // 12 fins of 45 × 8 × 1 mm and a base of 45 × 110 × 1.5 mm of aluminium, 2.70 g/cm³ (handbook)
    expect(room.mass!.size).toBeCloseTo(0.195 + 2.7e-3 * (12 * 4.5 * 0.8 * 0.1 + 4.5 * 11 * 0.15), 6);
    expect(fits(room)).toBe(false);
  });
});
