/** Figures of a point made of plain numbers, worked out by hand: a propeller of 1 m that turns once a second behind a gear of 2, in air of 1.2 kg/m³. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { LIQUID } from '@shaftwork/sim-core/media/water';
import { pointFigures } from '@shaftwork/sim-core/questions/point-figures';
import { describe, expect, it } from 'vitest';

type Channels = Parameters<typeof pointFigures>[1];
type Powers = Parameters<typeof pointFigures>[2];
const CHANNELS = { shaftPower: 8, inputPower: 10, shaftSpeed: 4 * Math.PI, vehicleSpeed: 2, thrust: 0.6 };
const POWERS = { useful: 3, batteryChemical: 12, gearLoss: 2 };
const of = (channels: Partial<typeof CHANNELS> = {}, powers: Partial<typeof POWERS> = {}, load: Record<string, unknown> = {}) =>
  pointFigures(
    {
      load: { kind: 'propeller', diameter: 1, density: 1.2, wakeFraction: 0.25, ...load },
      gearbox: { ratio: 2 },
    } as Partial<DriveSystem> as DriveSystem,
    { ...CHANNELS, ...channels } as Partial<Channels> as Channels,
    { ...POWERS, ...powers } as Partial<Powers> as Powers,
  );
const NONE = Number.NaN;

describe('figures of a point', () => {
  it('under way are J = 0.75·2, C_T = 0.6/1.2, C_P = (8 − 2)/1.2, η = 1.5·0.5/5', () => {
    expect(of()).toEqual({
      advanceRatio: 1.5,
      thrustCoefficient: 0.5,
      powerCoefficient: expect.closeTo(5, 12),
      figureOfMerit: NONE,
      propellerEfficiency: expect.closeTo(0.15, 12),
      motorEfficiency: 0.8,
      driveEfficiency: 0.25,
    });
  });

  it('go with n, n² and n³, and with D, D⁴ and D⁵', () => {
    const found = of({ shaftSpeed: 12 * Math.PI }, {}, { diameter: 2 });
    expect(found.advanceRatio).toBeCloseTo(1.5 / 6, 12);
    expect(found.thrustCoefficient).toBeCloseTo(0.5 / (9 * 16), 12);
    expect(found.powerCoefficient).toBeCloseTo(5 / (27 * 32), 12);
  });

  it('at rest have a merit in air, 0.5^1.5·√(2/π)/5, none in a liquid, and no efficiency', () => {
    const still = of({ vehicleSpeed: 0 });
    expect(still.figureOfMerit).toBeCloseTo((0.35355339 * 0.79788456) / 5, 8);
    expect([still.advanceRatio, still.propellerEfficiency]).toEqual([0, NONE]);
    expect(of({ vehicleSpeed: 0 }, {}, { density: LIQUID }).figureOfMerit).toBeNaN();
    expect(of({ vehicleSpeed: 0 }, {}, { density: LIQUID - 1 }).figureOfMerit).toBeGreaterThan(0);
  });

  it('at rest is slower than a millionth of a diameter a turn, forwards or backwards', () => {
    const at = (vehicleSpeed: number) => of({ vehicleSpeed }, {}, { wakeFraction: 0 });
    expect([at(0.99e-6).propellerEfficiency, at(-0.99e-6).propellerEfficiency]).toEqual([NONE, NONE]);
    expect(at(1e-6).propellerEfficiency).toBeCloseTo(1e-7, 12);
    expect([at(1e-6).figureOfMerit, at(-2).figureOfMerit]).toEqual([NONE, NONE]);
    expect(at(-2).propellerEfficiency).toBeCloseTo(-0.2, 12);
  });

  it('have no merit and no efficiency where the propeller gives no thrust or takes no power', () => {
    for (const vehicleSpeed of [0, 2])
      for (const [channels, powers] of [
        [{ thrust: 0 }, {}],
        [{ thrust: -0.6 }, {}],
        [{}, { gearLoss: 8 }],
        [{}, { gearLoss: 9 }],
      ] as const) {
        const { figureOfMerit, propellerEfficiency } = of({ vehicleSpeed, ...channels }, powers);
        expect([figureOfMerit, propellerEfficiency]).toEqual([NONE, NONE]);
      }
  });

  it('have no efficiency of a motor or a drive that gives nothing, or takes nothing', () => {
    for (const some of [{ shaftPower: 0 }, { shaftPower: -1 }, { inputPower: 0 }, { inputPower: -1 }])
      expect(of(some)).toMatchObject({ motorEfficiency: NONE, driveEfficiency: 0.25 });
    for (const some of [{ useful: 0 }, { useful: -1 }, { batteryChemical: 0 }, { batteryChemical: -1 }])
      expect(of({}, some)).toMatchObject({ motorEfficiency: 0.8, driveEfficiency: NONE });
  });

  it('are none of a propeller on a wheel, or on a shaft that stands or turns back', () => {
    const none = {
      advanceRatio: NONE,
      thrustCoefficient: NONE,
      powerCoefficient: NONE,
      figureOfMerit: NONE,
      propellerEfficiency: NONE,
      motorEfficiency: 0.8,
      driveEfficiency: 0.25,
    };
    expect(of({}, {}, { kind: 'wheel' })).toEqual(none);
    for (const shaftSpeed of [0, -1]) expect(of({ shaftSpeed })).toEqual(none);
  });
});
