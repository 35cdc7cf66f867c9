/** Whose drive each reading was taken on: every row once, and who must be named. */
import { describe, expect, it } from 'vitest';
import { AIR_SCREW, OUTRUNNER, preparedOf, problemsOf, type Section } from './drives.js';

const READ: Section = { throttle: '100 %', battery_current: '11 A', voltage: '11 V' };
const COLD: Section = { resistance: '97 mohm' };
const taken = (drive: Section) => preparedOf(drive).taken.map(({ candidate }) => candidate);
const two = (more: Section, second: Section = {}): Section => ({
  candidates: [
    { name: 'A', motor: OUTRUNNER },
    { name: 'B', motor: { ...OUTRUNNER, resistance: '110 mohm' }, ...second },
  ],
  ...more,
});

describe('a reading', () => {
  it('beside one candidate is that one’s', () => expect(taken({ readings: [READ, COLD] })).toEqual(['A', 'A']));
  it('beside several must be named', () => {
    expect(problemsOf(two({ readings: [READ] }))).toMatchObject([
      { kind: 'missing-datum', place: { path: 'readings[0].measured_with' }, found: 'nothing, where several have it' },
    ]);
    expect(problemsOf(two({ readings: [READ] }))[0].hint).toContain('measured_with: A, or another of A, B');
    expect(taken(two({ readings: [{ ...READ, measured_with: 'B' }] }))).toEqual(['B']);
    expect(problemsOf(two({ readings: [{ ...READ, measured_with: 'C' }] }))).toMatchObject([
      { kind: 'unknown-choice', found: '“C”', hint: 'one of A, B' },
    ]);
  });
  it('below a candidate is its own', () => expect(taken(two({}, { readings: [READ] }))).toEqual(['B']));
  it('below its motor is its own', () => {
    expect(taken({ motor: { ...OUTRUNNER, readings: [COLD] } })).toEqual(['A']);
    expect(taken(two({}, { motor: { ...OUTRUNNER, readings: [COLD] } }))).toEqual(['B']);
  });
  it('is no point of the propeller besides', () => {
    const propeller = {
      kind: 'measured-points',
      diameter: AIR_SCREW.diameter,
      points: [{ shaft_speed: '8000 rpm', battery_current: '11 A', voltage: '11 V', thrust: '8 N' }],
    };
    expect(problemsOf({ propeller, readings: [READ] })).toMatchObject([{ kind: 'conflict', expected: 'a reading in one place' }]);
    for (const other of [{ battery_current: '11.5 A' }, { voltage: '11.1 V' }])
      expect(taken({ propeller, readings: [{ ...READ, ...other }] })).toEqual(['A']);
    expect(taken({ propeller, readings: [COLD] })).toEqual(['A']);
  });
});
