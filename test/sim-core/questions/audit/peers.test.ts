/** Candidates against one another: the middle of three, shapes of one mass, and winds of one frame, from both sides of each mark. */
import { sheetFigures } from '@shaftwork/sim-core/questions/audit/figures';
import { framesOf, peerRemarks, shapeRemarks, windRemarks } from '@shaftwork/sim-core/questions/audit/peers';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { describe, expect, it } from 'vitest';
import { OUTRUNNER, preparedOf } from '../../provenance/drives.js';
import { FULL } from '../judge/simulated.js';

const [input] = preparedOf({}).candidates;
const base = sheetFigures(input, runCandidate(input, FULL));
const usual = base.motorConstant;
type Motor = typeof base.system.motor;
const sheet = (name: string, motor: Partial<Motor> = {}, motorConstant = usual) => ({
  ...base,
  motorConstant,
  input: { ...base.input, name },
  system: { ...base.system, motor: { ...base.system.motor, ...motor } },
});

describe('peers', () => {
  const found = (...constants: readonly number[]) =>
    peerRemarks(
      constants.map((factor, k) => sheet('ABCD'[k] ?? '', {}, factor * usual)),
      [],
    ).map(({ candidate }) => candidate);
  it('out of line with the middle of three are told, by 1.7 either way', () => {
    expect(found(1, 1.01, 1.73)).toEqual(['C']);
    expect(found(1, 1.01, 1.69)).toEqual([]);
    expect(found(1, 1.01, 1 / 1.69)).toEqual([]);
    expect(found(1, 1.01, 1 / 1.72)).toEqual(['C']);
  });
  it('need three that differ', () => {
    expect(found(1, 3)).toEqual([]);
    expect(found(1, 1, 3)).toEqual([]);
  });
  it('are scaled by mass, and kept to their layout', () => {
    // K_m goes with the power 5/6 of the mass
    const heavy = sheet('C', { mass: 8 * base.system.motor.mass }, 8 ** (5 / 6) * usual);
    expect(peerRemarks([sheet('A'), sheet('B', {}, 1.01 * usual), heavy], [])).toEqual([]);
    const other = [sheet('C', { layout: 'inrunner' }, 4 * usual)];
    expect(peerRemarks([sheet('A'), sheet('B', {}, 1.01 * usual), ...other], [])).toEqual([]);
  });
  it('are told once, and what would be in line', () => {
    const three = [sheet('A'), sheet('B', {}, 1.01 * usual), sheet('C', {}, 2 * usual)];
    const [remark] = peerRemarks(three, []);
    expect(remark.value).toBeCloseTo(2 * usual, 12);
    expect(remark.bound).toBeCloseTo(1.01 * usual, 12);
    expect(remark.says).toContain('the other outrunners of this scenario');
    expect(peerRemarks(three, [remark])).toEqual([]);
    expect(peerRemarks(three, [{ ...remark, candidate: 'A' }])).toHaveLength(1);
  });
});

describe('frames', () => {
  const frames = (...motors: readonly Partial<Motor>[]) => framesOf(motors.map((motor, k) => sheet('ABCD'[k] ?? '', motor)));
  const { canDiameter, canLength, mass, torqueConstant } = base.system.motor;
  const wind = { torqueConstant: 0.7 * torqueConstant };
  it('are of one layout, can and mass, and of different windings', () => {
    expect(frames({}, wind)[0].candidates).toEqual(['A', 'B']);
    expect(frames({}, {})).toEqual([]);
    expect(frames({}, { resistance: 0.2 })).toHaveLength(1);
    expect(frames({}, { ...wind, layout: 'inrunner' })).toEqual([]);
  });
  it.each([
    ['diameter', { canDiameter: 1.014 * canDiameter }, { canDiameter: 1.016 * canDiameter }],
    ['length', { canLength: 0.986 * canLength }, { canLength: 0.984 * canLength }],
    ['mass', { mass: 1.039 * mass }, { mass: 1.041 * mass }],
  ] as const)('by their %s', (_, near, far) => {
    expect(frames({}, { ...wind, ...near })).toHaveLength(1);
    expect(frames({}, { ...wind, ...far })).toEqual([]);
  });
  it('count each motor once', () => {
    expect(frames({}, wind, {}, wind)[0].candidates).toEqual(['A', 'B']);
    const two = frames({}, wind, { mass: 2 * mass }, { ...wind, mass: 2 * mass });
    expect(two.map(({ candidates }) => candidates)).toEqual([
      ['A', 'B'],
      ['C', 'D'],
    ]);
  });
  it('have R·Kv² of their winds, and disagree from a quarter on', () => {
    const of = (factor: number) => framesOf([sheet('A'), sheet('B', wind, usual / Math.sqrt(factor))]);
    expect(of(1.2)[0].spread).toBeCloseTo(1.2, 12);
    expect(of(1.2)[0].resistanceTimesKvSquared).toEqual([usual ** -2, expect.closeTo(1.2 * usual ** -2, 9)]);
    expect(windRemarks(of(1.24))).toEqual([]);
    const [odd] = windRemarks(of(1.26));
    expect(odd).toMatchObject({ kind: 'winds-disagree', weight: 'contradiction', candidates: ['A', 'B'], bound: 1.25 });
    expect(odd.says).toMatch(/^A and B share can and mass/);
  });
});

describe('shapes of one mass', () => {
  const { torqueConstant, mass, resistance } = base.system.motor;
  const found = (motor: Partial<Motor>, frames: Parameters<typeof shapeRemarks>[1] = []) =>
    shapeRemarks([sheet('A'), sheet('B', motor)], frames).map(({ candidate, value, bound }) => [candidate, value, bound]);
  it('disagree where one claims a tenth more for its own, the other being named', () => {
    expect(found({ resistance: 1.09 * resistance })).toEqual([]);
    expect(found({ resistance: 1.11 * resistance })).toEqual([
      ['B', expect.closeTo(1.11 * resistance, 12), expect.closeTo(resistance, 12)],
    ]);
    expect(found({ resistance: 0.9 * resistance })[0][0]).toBe('A');
  });
  it('are compared at the same Kv: R·Kv²', () => {
    expect(found({ torqueConstant: 1.2 * torqueConstant, resistance: 1.44 * resistance })).toEqual([]);
    expect(found({ torqueConstant: 1.2 * torqueConstant, resistance: 1.7 * resistance })[0][0]).toBe('B');
  });
  it('by shape: D⁴·L²/(L + D/4) of a stack', () => {
    const [d, l] = [27e-3, 0.47 * 32e-3];
    const square = (diameter: number): number => (diameter ** 4 * l ** 2) / (l + 0.25 * diameter);
    // a wider can of the same stack has so much less resistance
    const less = square(d) / square(1.1 * d);
    expect(found({ canDiameter: 1.1 * d, resistance: less * resistance })).toEqual([]);
    expect(found({ canDiameter: 1.1 * d })[0][2]).toBeCloseTo(less * resistance, 9);
  });
  it('only within a tenth of mass, half of Kv, one layout, and not of one frame', () => {
    const worse = { resistance: 2 * resistance };
    expect(found(worse)).toHaveLength(1);
    expect(found({ ...worse, mass: 1.09 * mass })).toHaveLength(1);
    expect(found({ ...worse, mass: 1.12 * mass })).toEqual([]);
    expect(found({ ...worse, torqueConstant: torqueConstant / 1.49, resistance })).toHaveLength(1);
    expect(found({ ...worse, torqueConstant: torqueConstant / 1.51, resistance })).toEqual([]);
    expect(found({ ...worse, layout: 'inrunner' })).toEqual([]);
    expect(found(worse, [{ candidates: ['A', 'B'], resistanceTimesKvSquared: [1, 2], spread: 2 }])).toEqual([]);
    expect(found(worse, [{ candidates: ['A', 'C'], resistanceTimesKvSquared: [1, 2], spread: 2 }])).toHaveLength(1);
  });
  it('a sheet alone has no rival', () => {
    expect(OUTRUNNER.layout).toBe('outrunner');
    expect(shapeRemarks([sheet('A')], [])).toEqual([]);
  });
});
