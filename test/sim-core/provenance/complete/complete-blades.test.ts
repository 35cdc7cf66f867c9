/** A propeller calculated from its blades: how far off its angle may be, whose that error is, and what a point at rest makes of it. */
import { emptyPropellerPoint, evaluatePropeller } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { halfWidth95 } from '@shaftwork/sim-core/quantities/spread';
import { describe, expect, it } from 'vitest';
import { AIR_SCREW, dataOf, from, preparedOf, problemsOf, type Section } from '../drives.js';

const DEGREE = Math.PI / 180;
const loadOf = (propeller: Section) => {
  const { load } = dataOf({ propeller });
  if (load.kind !== 'propeller' || load.shape === undefined) throw new Error('a calculated propeller');
  return { ...load, shape: load.shape };
};
/** Doubt of the angle [°]. */
const doubt = (propeller: Section): number => halfWidth95(loadOf(propeller).shape.amount.unknown.spread) / DEGREE;
const stations = (twist: number): Section => ({ stations: [0.2, 0.75, 1].map((radius) => ({ radius, chord: 0.16, twist: `${twist}°` })) });
const bare = { kind: 'blade-element', diameter: '9 in' };

describe('the doubt of a blade’s angle', () => {
  it('is that of what is known of it', () => {
    expect(doubt({ ...bare, pitch: '4.5 in' })).toBeCloseTo(4, 9);
    expect(doubt({ ...bare, pitch: '4.5 in', family: 'thin' })).toBeCloseTo(3, 9);
    expect(doubt({ ...bare, ...stations(14) })).toBeCloseTo(3.4, 9);
  });
  it('is half more below 0.15 m of diameter', () => {
    expect(doubt({ ...bare, diameter: '15 cm', pitch: '8 cm', family: 'thin' })).toBeCloseTo(3, 9);
    expect(doubt({ ...bare, diameter: '14.9 cm', pitch: '8 cm', family: 'thin' })).toBeCloseTo(4.5, 9);
  });
  it('is wider where print and measured twist lie more than 1.5° apart, by 1.5 of that', () => {
    // the printed pitch stands at three quarters of the radius: atan(p/(0.75·π·D)); the face of a thin blade lies some way off its chord
    const { pitch, ...rest } = { ...bare, pitch: '6 in' };
    const printed = Math.atan(6 / (0.75 * Math.PI * 9)) / DEGREE;
    const at = (twist: number): number => doubt({ ...rest, pitch, ...stations(twist) });
    const widths = [printed - 8, printed - 7].map((twist) => Math.sqrt(at(twist) ** 2 - 2.7 ** 2) / 1.5);
    // a degree more apart is a degree more
    expect(widths[0] - widths[1]).toBeCloseTo(1, 6);
    expect(widths[0]).toBeGreaterThan(7);
    expect(widths[0]).toBeLessThan(10);
    // flatter or steeper
    expect(at(printed + 8)).toBeGreaterThan(8);
    expect(at(printed)).toBeCloseTo(2.7, 9);
  });
});

describe('the errors of a blade', () => {
  const keys = (propeller: Section) => {
    const { shape, thrustFactor, powerFactor } = loadOf(propeller);
    return [shape.amount, thrustFactor, powerFactor].map(({ unknown }) => unknown.key);
  };
  it('are those of one propeller, whoever turns it, and of no other', () => {
    const first = keys({ ...AIR_SCREW, family: 'thin' });
    expect(keys({ ...AIR_SCREW, family: 'thin' })).toEqual(first);
    // 9 in × 4.5 in in millimetres
    expect(keys({ kind: 'blade-element', diameter: '228.6 mm', pitch: '114.3 mm', family: 'thin' })).toEqual(first);
    for (const other of [
      { family: 'broad' },
      { family: 'thin', pitch: '5 in' },
      { family: 'thin', diameter: '10 in' },
      { family: 'thin', blades: 3 },
    ])
      expect(keys({ ...AIR_SCREW, ...other }).filter((key) => first.includes(key))).toEqual([]);
  });
});

describe('a point at rest beside a blade', () => {
  const at = (propeller: Section, speed: number) => {
    const { diameter, table, density, kinematicViscosity } = loadOf(propeller);
    const out = emptyPropellerPoint();
    const medium = { density: density.value, kinematicViscosity: kinematicViscosity.value };
    evaluatePropeller({ diameter: diameter.value, table, thrustFactor: 1, powerFactor: 1 }, medium, speed, 0, out);
    return out;
  };
  const SPEED = 300 * Math.PI;
  const thrust = (newtons: number): Section => ({ shaft_speed: '9000 rpm', thrust: `${newtons} N` });

  it('that it gives itself turns it by nothing', () => {
    const own = at(AIR_SCREW, SPEED);
    const { shape } = loadOf({ ...AIR_SCREW, points: [{ ...thrust(own.thrust), torque: `${own.torque} N·m` }] });
    expect(Math.abs(shape.amount.value) / DEGREE).toBeLessThan(0.01);
  });
  it('with more thrust turns it steeper, with less flatter, and thrust alone is given back', () => {
    const own = at(AIR_SCREW, SPEED);
    const angle = (share: number): number => loadOf({ ...AIR_SCREW, points: [thrust(share * own.thrust)] }).shape.amount.value;
    expect(angle(1.2)).toBeGreaterThan(0.2 * DEGREE);
    expect(angle(0.8)).toBeLessThan(-0.2 * DEGREE);
    const more = { ...AIR_SCREW, points: [thrust(1.1 * own.thrust)] };
    expect(at(more, SPEED).thrust / own.thrust).toBeCloseTo(1.1, 6);
  });
  it('of thrust alone leaves the power to the blade, and its error', () => {
    const load = loadOf({ ...AIR_SCREW, points: [thrust(8)] });
    expect([load.thrustFactor, load.powerFactor].map(from)).toEqual(['blade-set-thrust-error', 'blade-power-error']);
    const torque = loadOf({ ...AIR_SCREW, points: [{ shaft_speed: '9000 rpm', torque: '0.1 N·m' }] });
    expect([torque.thrustFactor, torque.powerFactor].map(from)).toEqual(['blade-thrust-error', 'blade-set-power-error']);
  });
  it('is believed the more the surer it was read', () => {
    const width = (tolerance: string): number =>
      halfWidth95(
        loadOf({ ...AIR_SCREW, points: [{ shaft_speed: '9000 rpm', thrust: `8 N ± ${tolerance}` }] }).shape.amount.unknown.spread,
      );
    expect(width('1 %')).toBeLessThan(width('5 %'));
    expect(width('5 %')).toBeLessThan(width('20 %'));
  });
  it('is read in the air of the scenario unless it is said where', () => {
    const choices = (more: Section) =>
      preparedOf({ propeller: { ...AIR_SCREW, points: [thrust(8)], ...more } }).candidates[0].choices.map(({ choice }) => choice);
    expect(choices({})).toContain('measured-at');
    expect(choices({ measured_at: { air: '5 °C' } })).not.toContain('measured-at');
  });
});

it('a blade needs its pitch or its stations', () => {
  expect(problemsOf({ propeller: bare })).toMatchObject([{ place: { path: 'propeller.pitch' }, found: 'no pitch' }]);
});
