/** A sheet beside a reading of its motor on the bench, measured points beside one square law: each number by the balance of the winding. */
import { sideOf } from '@shaftwork/sim-core/provenance/bench-reading';
import { sheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { sheetRemarks } from '@shaftwork/sim-core/questions/audit/sheet';
import { describe, expect, it } from 'vitest';
import { OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';
import { run } from './usual-motor.js';

const { resistance: _, ...withoutResistance } = OUTRUNNER;
const plain = (text: string): string => text.replaceAll('\u202f', ' ');

describe('a bench reading beside the sheet', () => {
  /** Kv and instruments are all but exact unless `more` says otherwise, and so is the controller's path. */
  const read = (shaft_speed: string, resistance: string, { kv = '920 rpm/V ± 0.01 %', inductance = '29 uH ± 0.01 %', gear = 1 } = {}) => {
    const propeller = {
      kind: 'measured-points',
      diameter: '9 in',
      points: [{ shaft_speed, battery_current: '11 A ± 0.01 %', voltage: '11 V ± 0.01 %', thrust: '1 N', torque: '0.1 N·m' }],
    };
    const [each] = preparedOf({
      propeller,
      controller: { path_resistance: '5 mohm ± 0.01 %' },
      ...(gear === 1 ? {} : { gearbox: { ratio: gear } }),
      motor: { ...withoutResistance, kv, ...(inductance === '' ? {} : { inductance }), ...(resistance === '' ? {} : { resistance }) },
    }).candidates;
    const figures = sheetFigures(each, run);
    const [found] = sheetRemarks(figures).filter(({ kind }) => kind === 'reading-and-sheet-apart');
    return { found, says: plain(found?.says ?? ''), ...figures.system };
  };
  /** v and i of the winding at 11 V, 11 A and a speed. */
  const sideAt = (rpm: number, { motor: of, controller }: ReturnType<typeof read>) =>
    sideOf({ voltage: 11, current: 11, speed: (rpm * Math.PI) / 30, duty: 1 }, of, controller);

  // 11 V less 11.2 A times 96 mΩ and as much of inductance leave 8.9 V: some 8100 rpm at 920 rpm/V
  it('agrees within a twentieth', () => {
    expect(read('8000 rpm', '96 mohm ± 2 %').found).toBeUndefined();
    const apart = read('7400 rpm', '96 mohm ± 2 %');
    const { voltage, current } = sideAt(7400, apart);
    const speed = (voltage - (0.096 + 0.005) * current) / apart.motor.torqueConstant;
    expect(apart.found).toMatchObject({ weight: 'contradiction', unit: '1', bound: 1, basis: 'physics' });
    expect(apart.found.value).toBeCloseTo(speed / ((7400 * Math.PI) / 30), 9);
  });

  it('may be right where the sheet’s own doubt allows it: from the resistance on that the reading asks for', () => {
    const asked = (rpm: number): number => {
      const apart = read(`${rpm} rpm`, '96 mohm ± 2 %');
      const { voltage, current } = sideAt(rpm, apart);
      return (voltage - (apart.motor.torqueConstant * rpm * Math.PI) / 30) / current - 0.005;
    };
    const weight = (rpm: number, ohms: number, factor: number): string =>
      read(`${rpm} rpm`, `${1000 * ohms} mohm ± ${(100 * (factor - 1)).toFixed(2)} %`).found.weight;
    const slow = asked(7700) / 0.096;
    expect([slow > 1.3, weight(7700, 0.096, 0.97 * slow), weight(7700, 0.096, 1.03 * slow)]).toEqual([true, 'contradiction', 'unusual']);
    const fast = 0.15 / asked(8000);
    expect([fast > 1.3, weight(8000, 0.15, 0.97 * fast), weight(8000, 0.15, 1.03 * fast)]).toEqual([true, 'contradiction', 'unusual']);
  });

  it('is moved by all that is in doubt together', () => {
    const apart = read('7700 rpm', '96 mohm ± 2 %');
    const { voltage, current } = sideAt(7700, apart);
    const speed = (7700 * Math.PI) / 30;
    // what resistance and Kv alone would have to be
    const r = ((voltage - apart.motor.torqueConstant * speed) / current - 0.005) / 0.096;
    const k = (voltage - 0.101 * current) / (apart.motor.torqueConstant * speed);
    const weight = (share: number, also: number): string => {
      const half = (factor: number, power: number): string => `± ${(100 * (factor ** power - 1)).toFixed(3)} %`;
      return read('7700 rpm', `96 mohm ${half(r, share)}`, { kv: `920 rpm/V ${half(k, also)}` }).found.weight;
    };
    // each alone comes four fifths of the way or less, both together as far as the root of their squares
    expect([weight(0.8, 0.01), weight(0.01, 0.8), weight(0.8, 0.8), weight(0.55, 0.55)]).toEqual([
      'contradiction',
      'contradiction',
      'unusual',
      'contradiction',
    ]);
  });

  it('says what resistance or Kv would agree', () => {
    const apart = read('7400 rpm', '96 mohm ± 2 %');
    const { voltage, current } = sideAt(7400, apart);
    const speed = (7400 * Math.PI) / 30;
    const mohm = (ohms: number): string => `${(1000 * ohms).toFixed(0)} mΩ`;
    const kv = speed / (voltage - 0.101 * current) / ((2 * Math.PI) / 60);
    const back = apart.motor.torqueConstant * speed;
    expect(apart.says).toBe(
      `11.0 V and 11.0 A turned it at 7400 rpm on the bench, where its Kv and resistance give ${(7400 * apart.found.value).toFixed(0)} rpm; ` +
        `a winding of ${mohm((voltage - back) / current - 0.005)} would agree with its Kv (${mohm((11 - back) / current)} in all from supply to back-EMF), ` +
        `or a Kv of ${kv.toFixed(0)} rpm/V with its 96.0 mΩ`,
    );
    // behind a gear the motor turns by as much faster
    expect(read('3700 rpm', '96 mohm ± 2 %', { gear: 2 }).says).toContain('turned it at 7400 rpm on the bench');
  });

  it('that no winding explains, or that the winding lets no current for, is told so', () => {
    expect(read('10400 rpm', '96 mohm ± 2 %').says).toMatch(
      /; no winding would agree with its Kv, or a Kv of 1\d{3} rpm\/V with its 96\.0 mΩ$/,
    );
    const choked = read('7400 rpm', '96 mohm ± 2 %', { inductance: '900 uH ± 0.01 %' });
    expect(choked.found).toMatchObject({ weight: 'contradiction', value: 0 });
    expect(choked.says).toMatch(/where its Kv and resistance let no such current through; no winding would agree with its Kv$/);
  });

  it('has an inductance that follows the winding where the sheet has none', () => {
    const winding = (inductance: string): number =>
      Number(/a winding of (\d+) mΩ/.exec(read('7000 rpm', '96 mohm ± 2 %', { inductance }).says)?.[1]);
    const follows = winding('');
    const { motor: of, controller } = read('7000 rpm', '96 mohm ± 2 %', { inductance: '' });
    // with as much inductance to its resistance as the sheet’s motor has, the winding that is told makes the reading true
    const ohms = follows / 1000;
    const other = { ...of, resistance: ohms, inductance: (of.inductance / of.resistance) * ohms };
    const { voltage, current } = sideOf({ voltage: 11, current: 11, speed: (7000 * Math.PI) / 30, duty: 1 }, other, controller);
    expect(voltage - (ohms + 0.005) * current).toBeCloseTo((of.torqueConstant * 7000 * Math.PI) / 30, 1);
    expect(winding(`${(1e6 * of.inductance).toFixed(3)} uH`)).not.toBe(follows);
  });

  it('says nothing of a sheet without a resistance', () => expect(read('5000 rpm', '').found).toBeUndefined());
});

it('measured points are held against one square law, more blades than six are wondered at', () => {
  const point = (rpm: number, thrust: number, torque: number) => ({
    shaft_speed: `${rpm} rpm`,
    thrust: `${thrust} N`,
    torque: `${torque} N·m`,
  });
  const of = (propeller: Section) => {
    const [each] = preparedOf({ propeller }).candidates;
    return sheetRemarks(sheetFigures(each, run)).flatMap(({ kind, says, value, bound }) =>
      kind === 'measured-points-apart' || kind === 'many-blades' ? [{ says: plain(says), value, bound }] : [],
    );
  };
  const measured = (...points: readonly ReturnType<typeof point>[]) => of({ kind: 'measured-points', diameter: '9 in', points });
  // twice the speed, four times the thrust and torque
  expect(measured(point(4000, 2, 0.04), point(8000, 8, 0.16))).toEqual([]);
  const thrust = measured(point(4000, 2, 0.04), point(8000, 12, 0.16));
  expect(thrust).toEqual([
    {
      says: expect.stringMatching(/^the thrust of the propeller’s measured points lies \d\d % off one square law \(root mean square\)$/),
      value: expect.any(Number),
      bound: 0.08,
    },
  ]);
  expect(measured(point(4000, 2, 0.04), point(8000, 8, 0.24)).map(({ says }) => says.slice(0, 9))).toEqual(['the power']);
  const bladed = (blades: number) => of({ kind: 'blade-element', diameter: '9 in', pitch: '4.5 in', blades });
  expect([bladed(6), bladed(7)]).toEqual([[], [{ says: '7 blades, calculated as turning free, without a duct', value: 7, bound: 6 }]]);
});
