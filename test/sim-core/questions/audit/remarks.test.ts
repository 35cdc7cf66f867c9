/** Every mark of the audit from both sides: remarked on beyond it, and not within. */
import { givenDatum } from '@shaftwork/sim-core/provenance/datum';
import { NO_SPREAD } from '@shaftwork/sim-core/quantities';
import type { SheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { together } from '@shaftwork/sim-core/questions/audit/remark';
import { runRemarks } from '@shaftwork/sim-core/questions/audit/run';
import { sheetRemarks } from '@shaftwork/sim-core/questions/audit/sheet';
import { figuresOf } from '@shaftwork/sim-core/questions/audit/table';
import { duration, slipOf } from '@shaftwork/sim-core/questions/audit/words';
import type { RatedHeating } from '@shaftwork/sim-core/questions/rate/rated-current';
import type { OddityKind } from '@shaftwork/sim-core/results/audit-result';
import { describe, expect, it } from 'vitest';
import { input, run, sheet, usual, usualRun } from './usual-motor.js';

const { system } = sheet;
const { motor } = system;
const plain = (text: string): string => text.replaceAll('\u202f', ' ');

const kinds = (more: Partial<SheetFigures>): OddityKind[] => sheetRemarks({ ...sheet, ...more }).map(({ kind }) => kind);
const withMotor = (more: Partial<typeof motor>): Partial<SheetFigures> => ({ system: { ...system, motor: { ...motor, ...more } } });

describe('a blade that was measured and has its pitch printed on it', () => {
  const said = (twist: number): string => {
    // ten inches of diameter and five of pitch: 11.98° at three quarters of the radius, and 0.61° of a thin blade's face
    const propeller = {
      ...input.given.propeller,
      kind: 'blade-element',
      family: 'thin',
      pitch: givenDatum('propeller.pitch', 'length', 0.127, NO_SPREAD, input.given.place),
      stations: [0.2, 0.75, 1].map((radius) => ({ radius, chord: 0.15, twist })),
    } as const;
    const load = { ...system.load, diameter: 0.254 } as typeof system.load;
    const remarks = sheetRemarks({
      ...sheet,
      system: { ...system, load },
      input: { ...input, given: { ...input.given, propeller } as typeof input.given },
    });
    return plain(remarks.find(({ kind }) => kind === 'blade-angles-apart')?.says ?? '');
  };
  const printed = Math.atan(5 / (10 * Math.PI * 0.75)) + (0.61 * Math.PI) / 180;
  it('is remarked on from 1.5° between the two on, steeper or flatter', () => {
    const degree = Math.PI / 180;
    expect(said(printed - 2 * degree)).toContain('has the blades 2.0° steeper than the measured twist');
    expect(said(printed + 3 * degree)).toContain('has the blades 3.0° flatter than the measured twist');
    expect([said(printed + 1.4 * degree), said(printed - 1.4 * degree)]).toEqual(['', '']);
  });
});

describe('a sheet', () => {
  it('that is as most are is not remarked on', () => expect(kinds({})).toEqual([]));

  it.each<readonly [OddityKind, readonly Partial<SheetFigures>[], readonly Partial<SheetFigures>[]]>([
    ['rated-power-over-product', [{ ratedPowerShare: 1.031 }], [{ ratedPowerShare: 1.029 }, { ratedPowerShare: undefined }]],
    ['rated-power-far-below-product', [{ ratedPowerShare: 0.499 }], [{ ratedPowerShare: 0.501 }]],
    ['no-load-speed-over-limit', [{ noLoadSpeed: 2095 }], [{ noLoadSpeed: 2094 }]],
    ['rotor-surface-speed-high', [{ rotorSurfaceSpeed: 100.1 }], [{ rotorSurfaceSpeed: 99.9 }]],
    ['electrical-speed-high', [{ electricalSpeed: 25_133 }], [{ electricalSpeed: 25_132 }]],
    [
      'motor-constant-out-of-line',
      [{ motorConstant: 2.21 * usual }, { motorConstant: usual / 2.21 }],
      [{ motorConstant: 2.19 * usual }, { motorConstant: usual / 2.19 }],
    ],
    // π/4·27²·32 mm³ are 18.32 cm³
    [
      'can-and-mass-apart',
      [withMotor({ mass: 7510 * 18.322e-6 }), withMotor({ mass: 1199 * 18.322e-6 })],
      [withMotor({ mass: 7490 * 18.322e-6 }), withMotor({ mass: 1201 * 18.322e-6 })],
    ],
    [
      'peak-efficiency-unlikely',
      [{ peakEfficiency: 0.946 }, { peakEfficiency: 0.599 }],
      [{ peakEfficiency: 0.944 }, { peakEfficiency: 0.601 }],
    ],
    // rated 20 A; a heavier motor might well take it
    [
      'no-load-current-unlikely',
      [{ ...withMotor({ mass: 0.2 }), noLoadCurrent: 4.01 }, { noLoadCurrent: 0.079 }],
      [{ ...withMotor({ mass: 0.2 }), noLoadCurrent: 3.99 }, { noLoadCurrent: 0.081 }],
    ],
    ['rated-current-near-stall', [{ stallCurrent: 49.9 }], [{ stallCurrent: 50.1 }]],
    ['advertised-power-high', [{ ratedInputPerMass: 5001 }], [{ ratedInputPerMass: 4999 }, { ratedInputPerMass: undefined }]],
  ])('%s', (kind, beyond, within) => {
    for (const each of beyond) expect(kinds(each), JSON.stringify(each)).toContain(kind);
    for (const each of within) expect(kinds(each), JSON.stringify(each)).not.toContain(kind);
  });

  it('contradicts itself where more than voltage times current is rated, or more than held fast', () => {
    const weight = (more: Partial<SheetFigures>) => sheetRemarks({ ...sheet, ...more }).map(({ weight: each }) => each);
    expect(weight({ ratedPowerShare: 1.2 })).toEqual(['contradiction']);
    expect(weight({ stallCurrent: 19 })).toEqual(['contradiction']);
    expect(weight({ stallCurrent: 21 })).toEqual(['unusual']);
  });

  it('tells the time to its limit at the rated current', () => {
    const rated = { current: 20, copperLoss: 38.4, heating: { limitAfter: 45 } };
    const [found] = sheetRemarks({ ...sheet, rated });
    expect(found).toMatchObject({ kind: 'rated-current-overheats', weight: 'note', value: 45 });
    expect(plain(found.says)).toBe('20 A are 38 W of copper loss cold and take the winding to its 130 °C in 45 s');
  });

  it('says where its voltage is from', () => {
    const says = (voltageFrom: 'sheet' | 'pack') => plain(sheetRemarks({ ...sheet, rotorSurfaceSpeed: 120, voltageFrom })[0].says);
    expect(says('sheet')).toContain('at 12.5 V (the sheet’s)');
    expect(says('pack')).toContain('(the full pack’s)');
  });
});

describe('a run', () => {
  const found = (more: Partial<SheetFigures>, can = 300) =>
    runRemarks(
      { ...usualRun, ...more },
      { ...run, headline: { ...run.headline, peakCanTemperature: { dimension: 'temperature', nominal: can } } },
    );
  const told = (more: Partial<SheetFigures>, can = 300): OddityKind[] => found(more, can).map(({ kind }) => kind);

  it('that is as most are is not remarked on', () => expect(told({})).toEqual([]));

  it.each<readonly [OddityKind, readonly Partial<SheetFigures>[], readonly Partial<SheetFigures>[]]>([
    // 200 W rated, 66 g
    ['sustained-over-half-of-rating', [{ meanInput: 100.1 }], [{ meanInput: 99.9 }]],
    ['input-per-mass-high', [{ meanInput: 198.1 }], [{ meanInput: 197.9 }]],
    [
      'loaded-speed-out-of-band',
      [{ loadedSpeedRatio: 0.649 }, { loadedSpeedRatio: 0.931 }],
      [{ loadedSpeedRatio: 0.651 }, { loadedSpeedRatio: 0.929 }, { loadedSpeedRatio: undefined }],
    ],
    [
      'load-light',
      [{ noLoadEnergy: 60, copperEnergy: 19 }],
      [
        { noLoadEnergy: 60, copperEnergy: 21 },
        { noLoadEnergy: 49, copperEnergy: 1 },
      ],
    ],
    ['tip-mach-high', [{ tipMach: 0.851 }], [{ tipMach: 0.849 }, { tipMach: undefined }]],
    ['discharge-optimistic', [{ dischargeRate: 24.1 / 3600 }], [{ dischargeRate: 23.9 / 3600 }]],
  ])('%s', (kind, beyond, within) => {
    for (const each of beyond) expect(told(each), JSON.stringify(each)).toContain(kind);
    for (const each of within) expect(told(each), JSON.stringify(each)).not.toContain(kind);
  });

  it('with a can hotter than people keep to', () => {
    expect([told({}, 343.2), told({}, 343.1)]).toEqual([['can-hotter-than-practised'], []]);
  });
  it('with more air past its motor than finds its way into a boat or car', () => {
    const told = (air: number, top: number, tipMach?: number): string[] => {
      const { place } = input.given;
      const cooling = { place, air: { speed: givenDatum('cooling.air.speed', 'speed', air, NO_SPREAD, place) } };
      const topSpeed = { dimension: 'speed', nominal: top } as const;
      return runRemarks(
        { ...sheet, tipMach, input: { ...input, given: { ...input.given, cooling } } },
        { ...run, headline: { ...run.headline, topSpeed } },
      ).flatMap(({ kind, says }) => (kind === 'air-at-motor-fast' ? [plain(says)] : []));
    };
    expect(told(15, 2)).toEqual(['15 m/s of air past the motor is written, in a vehicle that reaches 2.0 m/s']);
    // of a vehicle nearly as fast, on a bench, and behind a propeller in air it is usual
    expect([told(15, 7.1), told(15, 0), told(15, 2, 0.4)]).toEqual([[], [], []]);
    expect(told(15, 6.9)).toHaveLength(1);
  });
  it('asks for more than any pack gives from 36 C on', () => {
    const weight = (rate: number) => found({ dischargeRate: rate / 3600 })[0].weight;
    expect([weight(35.9), weight(36.1)]).toEqual(['note', 'unusual']);
  });
  it('names the end of the band that it passes, and the shares of its losses', () => {
    expect(found({ loadedSpeedRatio: 0.6 })[0].bound).toBe(0.65);
    expect(found({ loadedSpeedRatio: 0.95 })[0].bound).toBe(0.93);
    const [light] = found({ noLoadEnergy: 60, copperEnergy: 12 });
    expect(light.value).toBeCloseTo(5, 12);
    expect(plain(light.says)).toBe('iron and friction take 12 % of its input over the run, the copper 2 %');
    // a winding without any loss
    expect(found({ noLoadEnergy: 60, copperEnergy: 0 })[0].value).toBeCloseTo(1e9, 0);
  });
});

describe('a slip of a digit', () => {
  const slip = (ratio: number): string => plain(slipOf(ratio, sheet));
  it('in Kv or in the resistance is named where it would explain a motor constant so far off', () => {
    expect(slip(0.1)).toBe('; with a Kv of 92 rpm/V it would be in line');
    expect(slip(10)).toBe('; with a Kv of 9200 rpm/V it would be in line');
    expect(slip(1 / Math.sqrt(10))).toBe('; with 9.60 mΩ it would be in line');
    expect(slip(Math.sqrt(10))).toBe('; with 960 mΩ it would be in line');
    expect(slip(1)).toBe('');
    // half of the logarithm of 2.2 to either side
    for (const [near, far] of [
      [1.48, 1.49],
      [1 / 1.48, 1 / 1.49],
    ]) {
      expect(slip(10 * near)).toContain('Kv');
      expect(slip(10 * far)).not.toContain('of 9200');
    }
  });
});

describe('remarks together', () => {
  const remark = (candidate: string, more: object = {}) => ({
    kind: 'tip-mach-high' as const,
    candidate,
    weight: 'unusual' as const,
    says: 'fast',
    basis: 'practice',
    value: 0.9,
    bound: 0.85,
    unit: '1',
    ...more,
  });
  it('of one kind are told once, those that say the same in one clause', () => {
    const [one, ...more] = together([remark('A'), remark('B'), remark('C', { says: 'faster', weight: 'contradiction' })]);
    expect(more).toEqual([]);
    expect(one).toMatchObject({ candidates: ['A', 'B', 'C'], says: 'A and B: fast; C: faster.', weight: 'contradiction', value: 0.9 });
    expect(together([remark('A')])[0].weight).toBe('unusual');
    expect(one.settles.length).toBeGreaterThan(10);
  });
});

describe('the table', () => {
  const table = (more: Partial<SheetFigures>) => new Map(figuresOf({ ...sheet, ...more }, run).map((figure) => [figure.id, figure]));
  it('leaves out what has no number', () => {
    const ids = [
      ...table({ motorConstant: Number.NaN, ratedPowerShare: undefined, rated: undefined, tipMach: undefined, inputEnergy: 0 }).keys(),
    ];
    for (const id of ['motorConstant', 'resistanceTimesKvSquared', 'ratedPowerShare', 'ratedCopperLoss', 'tipMach', 'noLoadShare'] as const)
      expect(ids).not.toContain(id);
    expect([...table({}).keys()].length).toBeGreaterThan(ids.length + 4);
  });
  it('shows a motor constant as the loss at a torque, and per hundred grams', () => {
    const made = table({ motorConstant: 0.02 });
    expect(made.get('resistanceTimesKvSquared')?.value).toBeCloseTo(2500, 9);
    expect(plain(made.get('resistanceTimesKvSquared')?.text ?? '')).toBe('25.0 W of copper loss at 0.1 N·m');
    expect(made.get('motorConstantPerMass')?.value).toBeCloseTo(0.02 / 0.066, 12);
    expect(plain(made.get('motorConstantPerMass')?.text ?? '')).toBe('30.3 mN·m/√W per 100 g');
    expect(plain(table({ gradient: 1000 }).get('speedTorqueGradient')?.text ?? '')).toBe('9.55 rpm per mN·m');
    expect(made.get('meanInputPerMass')?.value).toBeCloseTo(sheet.meanInput / 0.066, 9);
    expect(table({ noLoadEnergy: 30, inputEnergy: 120 }).get('noLoadShare')?.value).toBe(0.25);
  });
  it('has the rated current’s copper loss, where it settles, and when it is too hot', () => {
    const rated = (heating: RatedHeating) => table({ rated: { current: 20, copperLoss: 38.4, heating } });
    expect(rated({ settles: 350 }).get('ratedWindingTemperature')).toMatchObject({ value: 350, at: expect.stringContaining('20.0') });
    expect(rated({ settles: 350 }).has('ratedTimeToLimit')).toBe(false);
    expect(plain(rated({ limitAfter: 300 }).get('ratedTimeToLimit')?.text ?? '')).toBe('5:00 min');
    expect(rated({ limitAfter: 300 }).has('ratedWindingTemperature')).toBe(false);
  });
});

it('durations are seconds up to two minutes', () => {
  expect([119.4, 120].map((seconds) => plain(duration(seconds)))).toEqual(['119 s', '2:00 min']);
});
