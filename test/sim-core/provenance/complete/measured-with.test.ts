/** Whose motor turned a propeller: which reading counts, and who must be named. */
import { describe, expect, it } from 'vitest';
import { AIR_SCREW, OUTRUNNER, preparedOf, problemsOf, type Section } from '../drives.js';

const screw = (points: readonly Section[], more: Section = {}): Section => ({
  kind: 'measured-points',
  diameter: AIR_SCREW.diameter,
  points,
  ...more,
});
const row = (battery_current: string, more: Section = {}): Section => ({
  shaft_speed: '8000 rpm',
  battery_current,
  voltage: '11 V',
  thrust: '8 N',
  ...more,
});
const readingOf = (points: readonly Section[]) => {
  const { reading } = preparedOf({ propeller: screw(points) }).candidates[0].given.motor ?? {};
  return reading === undefined ? undefined : [reading.voltage.value, reading.current.value];
};

describe('the reading of a motor', () => {
  it('is the one at full throttle with the greatest current', () => {
    expect(readingOf([row('11 A'), row('12 A', { voltage: '11.2 V' }), row('11.5 A')])).toEqual([11.2, 12]);
    expect(readingOf([row('11 A'), row('13 A', { throttle: '95 %' })])).toEqual([11, 11]);
  });
  it('counts as full from 99 % on', () => {
    expect(readingOf([row('11 A', { throttle: '99 %' })])).toEqual([11, 11]);
    expect(readingOf([row('11 A', { throttle: '98.9 %' })])).toBeUndefined();
  });
  it('is none without voltage or current', () => {
    expect(readingOf([{ shaft_speed: '8000 rpm', thrust: '8 N', torque: '0.1 N·m', battery_current: '11 A' }])).toBeUndefined();
    expect(readingOf([{ shaft_speed: '8000 rpm', thrust: '8 N', torque: '0.1 N·m' }])).toBeUndefined();
    // beside a torque the reading still tells of the motor
    expect(readingOf([row('11 A', { torque: '0.1 N·m' })])).toEqual([11, 11]);
  });
});

describe('several motors', () => {
  const OTHER = { ...OUTRUNNER, resistance: '150 mohm' };
  const two = (propeller: Section, second: Section = OTHER, more: Section = {}): Section => ({
    propeller,
    candidates: [
      { name: 'A', motor: OUTRUNNER },
      { name: 'B', motor: second, ...more },
    ],
  });
  const powersOf = (drive: Section): readonly number[] =>
    preparedOf(drive).candidates.map(({ data: { load } }) => (load.kind === 'propeller' ? load.table.power[0] : Number.NaN));

  it('share the propeller that the named one turned, which alone has the reading', () => {
    const drive = two(screw([row('11 A')], { measured_with: 'B' }));
    const { candidates } = preparedOf(drive);
    expect(candidates.map(({ given }) => given.motor?.reading?.current.value)).toEqual([undefined, 11]);
    const [a, b] = powersOf(drive);
    expect(a).toBe(b);
    // it is the power that B, with more resistance, leaves for the shaft
    expect(b).toBeLessThan(powersOf(two(screw([row('11 A')], { measured_with: 'A' })))[0]);
  });
  it('ask whose it was where torque is read off a current, and not where torque or power is written', () => {
    expect(problemsOf(two(screw([row('11 A')])))).toMatchObject([
      { kind: 'missing-datum', place: { path: 'propeller.measured_with' }, found: 'nothing, where the candidates have different motors' },
    ]);
    expect(problemsOf(two(screw([row('11 A')], { measured_with: 'C' })))).toMatchObject([
      { kind: 'unknown-choice', place: { path: 'propeller.measured_with' }, found: '"C"' },
    ]);
    expect(problemsOf(two(screw([row('11 A')])))[0].hint).toContain('one of A, B');
    for (const torque of [{ torque: '0.1 N·m' }, { shaft_power: '80 W' }])
      expect(preparedOf(two(screw([row('11 A', torque)]))).candidates).toHaveLength(2);
  });
  it('one gear is another drive than another', () => {
    const geared = two(screw([row('11 A')]), OUTRUNNER, { gearbox: { ratio: 1.02 } });
    expect(problemsOf(geared)).toMatchObject([{ kind: 'missing-datum' }]);
  });
});
