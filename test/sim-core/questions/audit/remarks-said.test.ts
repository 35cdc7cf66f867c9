/** Every remark on a sheet and a run whole: its words, its weight, the number and the mark it stands against. */
import type { SheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { runRemarks } from '@shaftwork/sim-core/questions/audit/run';
import { sheetRemarks } from '@shaftwork/sim-core/questions/audit/sheet';
import type { OddityKind } from '@shaftwork/sim-core/results/audit-result';
import { expect, it } from 'vitest';
import { input, run, sheet, usual, usualRun } from './usual-motor.js';

const { system } = sheet;
const withMass = (mass: number): Partial<SheetFigures> => ({ system: { ...system, motor: { ...system.motor, mass } } });
const PRACTICE = 'common practice, no published source';

type Said = readonly [
  kind: OddityKind,
  more: Partial<SheetFigures>,
  weight: 'contradiction' | 'unusual' | 'note',
  says: string,
  value: number,
  bound: number,
  unit: string,
  basis?: string,
];
const expected = ([kind, , weight, says, value, bound, unit, basis = PRACTICE]: Said) => ({
  kind,
  candidate: input.name,
  weight,
  says,
  basis,
  value: expect.closeTo(value, 3),
  bound: expect.closeTo(bound, 3),
  unit,
});
const plain = <T extends { readonly kind: OddityKind; readonly says: string }>(remarks: readonly T[], kind: OddityKind) =>
  remarks.filter((each) => each.kind === kind).map((each) => ({ ...each, says: each.says.replace(/[\u00a0\u202f]/g, ' ') }));

const OF_SHEETS: readonly Said[] = [
  [
    'rated-power-over-product',
    { ratedPowerShare: 1.2 },
    'contradiction',
    '200 W rated, 250 W by voltage times current',
    1.2,
    1,
    '1',
    'physics',
  ],
  ['rated-power-far-below-product', { ratedPowerShare: 0.4 }, 'unusual', '200 W rated, 250 W by voltage times current', 0.4, 0.5, '1'],
  // 2200 rad/s are 21 008 a minute
  [
    'no-load-speed-over-limit',
    { noLoadSpeed: 2200 },
    'unusual',
    '21008 rpm unloaded at 12.5 V (the sheet’s), limit 20000 rpm',
    2200,
    (20_000 * Math.PI) / 30,
    'rad/s',
    'physics',
  ],
  [
    'rotor-surface-speed-high',
    { rotorSurfaceSpeed: 120, noLoadSpeed: 1200 },
    'unusual',
    'its rim would run at 120 m/s, 11459 rpm unloaded at 12.5 V (the sheet’s)',
    120,
    100,
    'm/s',
  ],
  [
    'electrical-speed-high',
    { electricalSpeed: 30_000, noLoadSpeed: 1200 },
    'unusual',
    '7 pole pairs at 11459 rpm are 286479 rpm electrically',
    30_000,
    8000 * Math.PI,
    'rad/s',
  ],
  [
    'motor-constant-out-of-line',
    { motorConstant: 4 * usual },
    'unusual',
    'motor constant 125 mN·m/√W where outrunners of 66 g have about 31.1 mN·m/√W; with 960 mΩ it would be in line',
    4 * usual,
    usual,
    'N·m/√W',
    `similarity; its level ${PRACTICE}`,
  ],
  // π/4·27²·32 mm³ are 18.32 cm³
  [
    'can-and-mass-apart',
    withMass(0.15),
    'contradiction',
    'can of 27.0 mm × 32.0 mm and mass 150 g make 8.2 g/cm³',
    0.15 / ((Math.PI / 4) * 0.027 ** 2 * 0.032),
    7500,
    'kg/m³',
  ],
  [
    'can-and-mass-apart',
    withMass(0.02),
    'contradiction',
    'can of 27.0 mm × 32.0 mm and mass 20.0 g make 1.1 g/cm³',
    0.02 / ((Math.PI / 4) * 0.027 ** 2 * 0.032),
    1200,
    'kg/m³',
  ],
  [
    'peak-efficiency-unlikely',
    { peakEfficiency: 0.96 },
    'unusual',
    'its no-load current and resistance promise 96.0 % at best, usual are 60 % to 95 %',
    0.96,
    0.945,
    '1',
  ],
  [
    'peak-efficiency-unlikely',
    { peakEfficiency: 0.5 },
    'unusual',
    'its no-load current and resistance promise 50.0 % at best, usual are 60 % to 95 %',
    0.5,
    0.6,
    '1',
  ],
  ['no-load-current-unlikely', { noLoadCurrent: 0.05 }, 'unusual', '0.0500 A unloaded against 20.0 A rated', 0.0025, 0.004, '1'],
  [
    'no-load-current-unlikely',
    { ...withMass(0.2), noLoadCurrent: 4.5 },
    'unusual',
    '4.50 A unloaded against 20.0 A rated',
    0.225,
    0.2,
    '1',
  ],
  [
    'rated-current-near-stall',
    { stallCurrent: 40 },
    'unusual',
    'its rated 20.0 A are 50 % of the 40.0 A it would draw held fast at 12.5 V (the sheet’s)',
    0.5,
    0.4,
    '1',
    'physics',
  ],
  [
    'rated-current-near-stall',
    { stallCurrent: 19 },
    'contradiction',
    'its rated 20.0 A are 105 % of the 19.0 A it would draw held fast at 12.5 V (the sheet’s)',
    20 / 19,
    0.4,
    '1',
    'physics',
  ],
  ['advertised-power-high', { ratedInputPerMass: 6000 }, 'note', 'rated at 6.0 W/g', 6000, 5000, 'W/kg'],
];
it.each(OF_SHEETS.map((said) => ({ said, kind: said[0] })))('of a sheet: $kind', ({ said }) => {
  expect(plain(sheetRemarks({ ...sheet, ...said[1] }), said[0])).toEqual([expected(said)]);
});

it('a current without load is held against motors of its mass and Kv, more above the voltage that is usual', () => {
  const told = (noLoadVoltage: number) => plain(sheetRemarks({ ...sheet, noLoadCurrent: 6, noLoadVoltage }), 'no-load-current-unlikely')[0];
  const [at10, at20, at5] = [10, 20, 5].map(told);
  expect(at10.says).toMatch(/^6\.00 A unloaded, where outrunners of 66 g and this Kv take about 0\.\d{3} A$/);
  expect([at10.weight, at10.bound, at10.unit, at10.basis]).toEqual(['unusual', 3, '1', PRACTICE]);
  expect(at5.value).toBe(at10.value);
  // at twice the voltage the part of the loss that grows with speed has doubled
  expect(at10.value / at20.value).toBeGreaterThan(1.1);
  expect(at10.value / at20.value).toBeLessThan(2);
});

const OF_RUNS: readonly Said[] = [
  ['sustained-over-half-of-rating', { meanInput: 150 }, 'note', '150 W on average over the run, rated 200 W', 0.75, 0.5, '1'],
  ['input-per-mass-high', { meanInput: 250 }, 'note', '3.8 W/g on average over the run', 250 / 0.066, 3000, 'W/kg'],
  [
    'loaded-speed-out-of-band',
    { loadedSpeedRatio: 0.6 },
    'unusual',
    'at full throttle it turns at 0.60 of Kv times the pack’s resting voltage',
    0.6,
    0.65,
    '1',
  ],
  [
    'load-light',
    { noLoadEnergy: 60, copperEnergy: 12 },
    'note',
    'iron and friction take 12 % of its input over the run, the copper 2 %',
    5,
    3,
    '1',
  ],
  ['tip-mach-high', { tipMach: 0.9 }, 'unusual', 'blade tips at Mach 0.90', 0.9, 0.85, '1'],
  ['discharge-optimistic', { dischargeRate: 30 / 3600 }, 'note', 'the pack is asked for 30 C at the peak', 30 / 3600, 24 / 3600, '1/s'],
  ['discharge-optimistic', { dischargeRate: 40 / 3600 }, 'unusual', 'the pack is asked for 40 C at the peak', 40 / 3600, 24 / 3600, '1/s'],
  ['can-hotter-than-practised', {}, 'note', 'can at 77 °C', 350, 343.15, 'K'],
];
it.each(OF_RUNS.map((said) => ({ said, kind: said[0] })))('of a run: $kind', ({ said }) => {
  const hot = { ...run.headline, peakCanTemperature: { dimension: 'temperature' as const, nominal: 350 } };
  expect(plain(runRemarks({ ...usualRun, ...said[1] }, { ...run, headline: hot }), said[0])).toEqual([expected(said)]);
});
