/** A motor from its sheet: what fills a gap, what contradicts itself, and what a half sheet is written out to. */
import { complete } from '@shaftwork/sim-core/provenance/complete/complete';
import { writtenOut } from '@shaftwork/sim-core/provenance/complete/complete-motor';
import { describe, expect, it } from 'vitest';
import { AIR_SCREW, dataOf, from, INRUNNER, isTaken, KT, OUTRUNNER, preparedOf, problemsOf, type Section, wrongIn } from '../drives.js';

const motorOf = (more: Section) => dataOf({ motor: { ...OUTRUNNER, ...more } }).motor;
const { resistance: _, no_load: __, ...HALF } = OUTRUNNER;
const R = 96e-3;

describe('a motor', () => {
  it('needs layout, Kv, mass and both sizes of its can, told together', () => {
    expect(wrongIn({ motor: { resistance: '96 mohm' } })).toEqual([
      'motor.layout',
      'motor.kv',
      'motor.mass',
      'motor.can.diameter',
      'motor.can.length',
    ]);
  });

  it('is what was given, where it was', () => {
    const { torqueConstant, resistance, inductance, mass, canDiameter, canLength, rotorInertia, polePairs, layout } = motorOf({
      inductance: '20 uH',
      rotor_inertia: '6e-6 kg*m2',
      poles: 12,
    });
    expect(torqueConstant.value).toBeCloseTo(KT, 12);
    const given = [resistance, inductance, mass, canDiameter, canLength, rotorInertia];
    expect(given.map(from)).toEqual(given.map(() => 'given'));
    expect(given.map(({ value }) => Number(value.toPrecision(9)))).toEqual([0.096, 20e-6, 0.066, 0.027, 0.032, 6e-6]);
    expect([polePairs, layout]).toEqual([6, 'outrunner']);
  });

  it('has fourteen poles where its can turns, else four', () => {
    expect(motorOf({}).polePairs).toBe(7);
    expect(dataOf({ motor: INRUNNER }).motor.polePairs).toBe(2);
  });

  it('has an even number of poles', () => {
    expect(wrongIn({ motor: { ...OUTRUNNER, poles: 13 } })).toEqual(['motor.poles']);
    // nor where a drive is made of numbers, without a schema
    const [{ given }] = preparedOf({}).candidates;
    if (given.motor === undefined) throw new Error('a motor');
    const withPoles = (poles: number) => complete('A', { ...given, motor: { ...given.motor, poles, place: given.place } });
    expect(withPoles(13)).toMatchObject({ ok: false, problems: [{ expected: 'an even number of poles' }] });
    expect(withPoles(10)).toMatchObject({ ok: true, data: { motor: { polePairs: 5 } } });
  });

  // magnet makers' tables; UH, EH, AH from memory
  it.each([
    ['N', -0.0012],
    ['M', -0.0012],
    ['H', -0.0012],
    ['SH', -0.0011],
    ['UH', -0.0011],
    ['EH', -0.0011],
    ['AH', -0.0011],
  ] as const)('of magnets of grade %s loses flux with heat', (magnet_grade, coefficient) => {
    expect(motorOf({ magnet_grade }).fluxCoefficient.value).toBe(coefficient);
  });

  it('has its resistance between lines at 20 °C, whatever it was stated as', () => {
    expect(motorOf({ resistance_between: 'lines' }).resistance.value).toBe(R);
    expect(motorOf({ resistance_between: 'phase-and-star' }).resistance.value).toBe(2 * R);
    const warm = motorOf({ resistance_between: 'phase-and-star', resistance_at: '60 °C', inductance: '10 uH' });
    // IEC 60028: 0.393 % a kelvin
    expect(warm.resistance.value).toBeCloseTo((2 * R) / (1 + 0.00393 * 40), 12);
    expect(warm.inductance.value).toBeCloseTo(20e-6, 12);
    expect(motorOf({}).inductance.value).toBeCloseTo(R * 0.3e-3, 12);
  });

  it('has its torque constant from a no-load speed where no Kv is given', () => {
    const speed = (9000 * 2 * Math.PI) / 60;
    const { kv: ___, ...sheet } = OUTRUNNER;
    const by = (more: Section) => dataOf({ motor: { ...sheet, ...more } }).motor.torqueConstant.value;
    expect(by({ no_load: { current: '0.9 A', voltage: '10 V', speed: '9000 rpm' } })).toBeCloseTo((10 - 0.9 * R) / speed, 12);
    // without current or resistance the little that they take is left out
    expect(by({ no_load: { voltage: '10 V', speed: '9000 rpm' } })).toBeCloseTo(10 / speed, 12);
    // Kv counts where both are given
    expect(motorOf({ no_load: { current: '0.9 A', voltage: '10 V', speed: '9000 rpm' } }).torqueConstant.value).toBeCloseTo(KT, 12);
    expect(wrongIn({ motor: { ...sheet, no_load: { current: '0.9 A', speed: '9000 rpm' } } })).toContain('motor.kv');
  });
});

describe('no-load points', () => {
  const losses = ({ hysteresisTorque, frictionTorque, eddyTorque }: ReturnType<typeof motorOf>) => ({
    constant: hysteresisTorque.value + frictionTorque.value,
    slope: eddyTorque.value,
  });
  const points = (...rows: readonly (readonly [amperes: number, volts: number])[]): Section => ({
    no_load: rows.map(([current, voltage]) => ({ current: `${current} A`, voltage: `${voltage} V` })),
  });
  const speed = (volts: number, amperes: number): number => (volts - amperes * R) / KT;

  it('give the loss torque that they were read with: one, at its speed', () => {
    const { constant, slope } = losses(motorOf(points([0.9, 10])));
    expect(constant + slope * speed(10, 0.9)).toBeCloseTo(KT * 0.9, 12);
  });

  it('the first and the last of several', () => {
    const { constant, slope } = losses(motorOf(points([0.7, 6], [5, 8], [0.9, 10])));
    expect(constant + slope * speed(6, 0.7)).toBeCloseTo(KT * 0.7, 12);
    expect(constant + slope * speed(10, 0.9)).toBeCloseTo(KT * 0.9, 12);
  });

  it('may rise or stay with voltage, not fall, nor rise so fast that nothing is left at rest', () => {
    const odd = (...rows: readonly (readonly [number, number])[]) => {
      const drive = { motor: { ...OUTRUNNER, ...points(...rows) } };
      return isTaken(drive) ? [] : problemsOf(drive).map(({ kind, found }) => `${kind}: ${found}`);
    };
    const told = ['conflict: points whose loss torque falls with speed, or vanishes at rest'];
    expect(odd([0.7, 6], [0.9, 10])).toEqual([]);
    expect(odd([0.8, 6], [0.8, 10])).toEqual([]);
    expect(odd([0.9, 6], [0.7, 10])).toEqual(told);
    // 0.3 A more over 4 V from 0.3 A at 6 V: below nothing at rest
    expect(odd([0.3, 6], [0.6, 10])).toEqual(told);
  });

  it('leave at least half of their voltage to the back-EMF', () => {
    const lost = (current: number): readonly string[] => {
      const drive = { motor: { ...OUTRUNNER, ...points([current, 1]) } };
      return isTaken(drive) ? [] : problemsOf(drive).map(({ place, found }) => `${place.path}: ${found}`);
    };
    // 0.5 V over 96 mΩ are 5.208 A
    expect(lost(5.2)).toEqual([]);
    expect(lost(5.3)).toEqual(['candidates[0].motor.no_load: 51 % taken by no-load current times resistance']);
    // each of several
    expect(wrongIn({ motor: { ...OUTRUNNER, ...points([0.5, 6], [60, 10]) } })).toContain('motor.no_load');
  });
});

describe('a resistance from a reading', () => {
  const read = (voltage: string, more: Section = {}): Section => ({
    motor: { ...OUTRUNNER, resistance: 'from-reading', ...more },
    propeller: {
      kind: 'measured-points',
      diameter: AIR_SCREW.diameter,
      points: [{ shaft_speed: '8000 rpm', battery_current: '12 A', voltage, thrust: '8 N' }],
    },
  });
  it('makes the reading true: the drive turns so fast at that voltage and current', () => {
    const { motor, controller } = dataOf(read('11 V'));
    const speed = (8000 * 2 * Math.PI) / 60;
    // power by hand, switching and dead times left out: P = i²·(R + 4 mΩ) + k_t·ω·i, i a little above what the pack gives
    const electrical = 11 * (12 - controller.idleCurrent.value);
    const current =
      (-KT * speed + Math.sqrt((KT * speed) ** 2 + 4 * (motor.resistance.value + 4e-3) * electrical)) /
      (2 * (motor.resistance.value + 4e-3));
    expect(current / 12).toBeGreaterThan(1);
    expect(current / 12).toBeLessThan(1.1);
  });
  it('needs a reading', () => {
    expect(problemsOf({ motor: { ...OUTRUNNER, resistance: 'from-reading' } })).toMatchObject([
      { kind: 'missing-datum', place: { path: 'candidates[0].motor.resistance' } },
    ]);
  });
  it('refuses one that leaves no voltage for the winding', () => {
    // Kv alone asks for 8.7 V at that speed
    expect(isTaken(read('9.5 V'))).toBe(true);
    expect(problemsOf(read('8.75 V'))).toMatchObject([
      { kind: 'conflict', expected: 'a reading that leaves some voltage for the winding' },
    ]);
  });
  it('takes the inductance that the sheet has, between the points that it was read at', () => {
    const more = read('11 V', { inductance: '40 uH' });
    const star = read('11 V', { inductance: '20 uH', resistance_between: 'phase-and-star' });
    expect(dataOf(star).motor.resistance.value).toBeCloseTo(dataOf(more).motor.resistance.value, 12);
    expect(dataOf(read('11 V', { inductance: '20 uH' })).motor.resistance.value).not.toBeCloseTo(dataOf(more).motor.resistance.value, 4);
  });
});

describe('a half sheet written out', () => {
  const made = (motor: Section) => {
    const [{ given, data }] = preparedOf({ motor }).candidates;
    return { given, data, out: writtenOut(given, data.motor) };
  };
  it('has the resistance and the no-load point that stood in, and makes the same motor', () => {
    const { data, out } = made(HALF);
    expect(out.motor?.resistance).toMatchObject({ value: data.motor.resistance.value, dimension: 'resistance' });
    expect(out.motor?.noLoad).toHaveLength(1);
    expect(out.motor?.noLoad?.[0].voltage?.value).toBe(10);
    expect(out.motor?.noLoad?.[0].current?.value).toBeCloseTo((0.11 * 0.066) / KT, 12);
    const again = complete('A', out);
    if (!again.ok) throw new Error(JSON.stringify(again.problems));
    for (const key of ['torqueConstant', 'resistance', 'eddyTorque', 'hysteresisTorque', 'frictionTorque'] as const)
      expect(again.data.motor[key].value).toBeCloseTo(data.motor[key].value, 12);
  });
  it('keeps what was written', () => {
    const { given, out } = made({ ...HALF, no_load: { current: '0.8 A' }, resistance: '90 mohm' });
    expect(out.motor?.resistance).toBe(given.motor?.resistance);
    expect(out.motor?.noLoad?.[0].current).toBe(given.motor?.noLoad?.[0].current);
    expect(out.motor?.noLoad?.[0].voltage?.value).toBe(10);
    const two = made({
      ...OUTRUNNER,
      no_load: [
        { current: '0.7 A', voltage: '6 V' },
        { current: '0.9 A', voltage: '10 V' },
      ],
    });
    const values = (sheet: typeof two.out.motor) => sheet?.noLoad?.map(({ current, voltage }) => [current?.value, voltage?.value]);
    expect(values(two.out.motor)).toEqual([
      [0.7, 6],
      [0.9, 10],
    ]);
  });
});
