/** A motor in another shape, and rewound: every datum of its sheet by the law of similarity that it follows, by hand. */
import type { Datum } from '@shaftwork/sim-core/provenance/datum';
import type { GivenDrive } from '@shaftwork/sim-core/provenance/given';
import { END_TURNS, motorConstantSquared, reshaped, rewound, shapeAt, shearTorque } from '@shaftwork/sim-core/questions/frame/shape-laws';
import { stackOf } from '@shaftwork/sim-core/questions/frame/stack-of';
import { describe, expect, it } from 'vitest';
import { boat, INRUNNER, OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';

const inputOf = (more: Section) => preparedOf(more).candidates[0];
const THERMAL = {
  winding_to_stator: '0.8 W/K',
  stator_to_can: '4 W/K',
  can_to_air: '0.3 W/K',
};
const SHEET = {
  ...OUTRUNNER,
  inductance: '20 uH',
  rotor_inertia: '6e-6 kg*m2',
  stack_length: '16 mm',
  stator_diameter: '22 mm',
  thermal: { ...THERMAL, stator_to_air: { conductance: '0.8 W/K', at_speed: '9000 rpm' } },
  maker_limits: { current: '20 A', voltage: '13 V', shaft_speed: '20000 rpm' },
};
const FROM = { diameter: 0.027, length: 0.032, stack: 0.016 };
/** Wider by 1.2, the can longer by 0.75, the stack by half. */
const TO = { diameter: 1.2 * 0.027, length: 0.75 * 0.032, stack: 0.008 };
/** How many times a datum is of what it was. */
const ratio = (of: (drive: GivenDrive) => Datum | undefined, before: GivenDrive, after: GivenDrive): number =>
  (of(after)?.value ?? Number.NaN) / (of(before)?.value ?? Number.NaN);

describe('shapes', () => {
  it('torque of a shear stress is force times radius', () => {
    // 10 kPa on a gap of 40 mm and 30 mm: 37.7 N at 20 mm
    expect(shearTorque(10e3, 0.04, 0.03)).toBeCloseTo(10e3 * Math.PI * 0.04 * 0.03 * 0.02, 12);
  });
  it('the motor constant is greatest at one mass where stack and end turns are least together', () => {
    // D²·L kept, no end bells: L/D = k/2
    const square = (shape: number): number => motorConstantSquared(shape ** (-1 / 3), shape ** (2 / 3), 0.5);
    expect(square(0.25)).toBeGreaterThan(square(0.24));
    expect(square(0.25)).toBeGreaterThan(square(0.26));
    expect(motorConstantSquared(2, 3, 0.5)).toBeCloseTo((16 * 9) / 4, 12);
    expect(END_TURNS).toEqual({ inrunner: 0.5, outrunner: 0.25 });
  });
  it('of one mass keep D²·L and the length of the end bells', () => {
    const made = shapeAt(FROM, 2);
    expect(made.diameter / made.length).toBeCloseTo(2, 12);
    expect(made.diameter ** 2 * made.length).toBeCloseTo(FROM.diameter ** 2 * FROM.length, 15);
    expect(made.length - made.stack).toBeCloseTo(0.016, 12);
    expect(shapeAt(FROM, FROM.diameter / FROM.length)).toEqual({
      diameter: expect.closeTo(0.027, 12),
      length: expect.closeTo(0.032, 12),
      stack: expect.closeTo(0.016, 12),
    });
    for (const [shape, wide] of [
      [FROM, 4],
      [{ diameter: 1, length: 1, stack: 0 }, 1],
    ] as const)
      expect(() => shapeAt(shape, wide)).toThrow(
        expect.toSatisfy((error) => error instanceof RangeError && /leaves no room for a stack/.test(error.message)),
      );
  });
  it('have the stack that is given, else that of the rule', () => {
    expect(stackOf(inputOf({ motor: SHEET }))).toBe(0.016);
    expect(stackOf(inputOf({}))).toBeCloseTo(0.47 * 0.032, 12);
    expect(stackOf(inputOf({ motor: INRUNNER }))).toBeCloseTo(0.017, 12);
  });
});

describe('a motor in another shape', () => {
  const before = inputOf({ motor: SHEET }).given;
  const made = (): GivenDrive => reshaped(before, FROM, TO, 0.4);
  const times = (of: (drive: GivenDrive) => Datum | undefined): number => ratio(of, before, made());
  const [wide, stack, length] = [1.2, 0.5, 0.75];

  it('keeps its Kv and mass, and has the resistance of its motor constant', () => {
    expect([times(({ motor }) => motor?.kv), times(({ motor }) => motor?.mass)]).toEqual([1, 1]);
    // R·K_m² kept: D⁴·L²/(L + D/4)
    const square = ({ diameter, stack: l }: typeof FROM): number => (diameter ** 4 * l ** 2) / (l + 0.25 * diameter);
    expect(times(({ motor }) => motor?.resistance as Datum)).toBeCloseTo(square(FROM) / square(TO), 9);
  });
  it('has iron and turns by D²·L of its stack: inductance by the inverse, no-load current by iron and friction', () => {
    const iron = wide ** 2 * stack;
    expect(times(({ motor }) => motor?.inductance)).toBeCloseTo(1 / iron, 12);
    expect(times(({ motor }) => motor?.noLoad?.[0].current)).toBeCloseTo(0.4 + 0.6 * iron, 12);
    expect(times(({ motor }) => motor?.noLoad?.[0].voltage)).toBe(1);
  });
  it('has its sizes', () => {
    expect(times(({ motor }) => motor?.can?.diameter)).toBeCloseTo(wide, 12);
    expect(times(({ motor }) => motor?.can?.length)).toBeCloseTo(length, 12);
    expect(times(({ motor }) => motor?.statorDiameter)).toBeCloseTo(wide, 12);
    expect(made().motor?.stackLength?.value).toBe(0.008);
    expect(times(({ motor }) => motor?.rotorInertia)).toBeCloseTo(wide ** 2, 12);
  });
  it('passes heat by its faces: within by D·L of the stack, to the air by the whole can', () => {
    const face = wide * stack;
    expect(times(({ motor }) => motor?.thermal?.windingToStator)).toBeCloseTo(face, 12);
    expect(times(({ motor }) => motor?.thermal?.statorToCan)).toBeCloseTo(face, 12);
    expect(times(({ motor }) => motor?.thermal?.statorToAir?.conductance)).toBeCloseTo(face, 12);
    expect(times(({ motor }) => motor?.thermal?.statorToAir?.atSpeed)).toBe(1);
    // π·D·L + π·D²/2
    const whole = ({ diameter, length: l }: typeof FROM): number => diameter * l + 0.5 * diameter ** 2;
    expect(times(({ motor }) => motor?.thermal?.canToAir)).toBeCloseTo(whole(TO) / whole(FROM), 12);
    const printed = inputOf({ motor: { ...INRUNNER, thermal: { winding_to_housing: '2.9 K/W', housing_to_ambient: '9 K/W' } } }).given;
    const other = reshaped(printed, FROM, TO, 0.4);
    expect(ratio(({ motor }) => motor?.thermal?.windingToHousing, printed, other)).toBeCloseTo(face, 12);
    expect(ratio(({ motor }) => motor?.thermal?.housingToAmbient, printed, other)).toBeCloseTo(whole(TO) / whole(FROM), 12);
  });
  it('may turn so fast that its surface has the same speed; current and voltage stay', () => {
    expect(times(({ motor }) => motor?.makerLimits?.shaftSpeed)).toBeCloseTo(1 / wide, 12);
    expect([times(({ motor }) => motor?.makerLimits?.current), times(({ motor }) => motor?.makerLimits?.voltage)]).toEqual([1, 1]);
  });
  it('has as much of a jacket as its side, none on a mount', () => {
    const jacket = (covers: string) => boat({ cooling: { water_jacket: { conductance: '1.8 W/K', at_speed: '3 m/s', covers } } });
    const of = (covers: string): number => {
      const { given } = inputOf(jacket(covers));
      return ratio(({ cooling }) => cooling?.waterJacket?.conductance, given, reshaped(given, FROM, TO, 0.4));
    };
    expect([of('can'), of('mount')]).toEqual([expect.closeTo(wide * length, 12), 1]);
  });
  it('needs a sheet with layout, resistance and can', () => {
    const { motor: whole, ...nothing } = before;
    if (whole === undefined) throw new Error('a motor');
    const { layout: _, ...noLayout } = whole;
    const { resistance: __, ...noResistance } = whole;
    const { can: ___, ...noCan } = whole;
    for (const drive of [nothing, ...[noLayout, noResistance, noCan].map((motor) => ({ ...nothing, motor }))])
      expect(() => reshaped(drive, FROM, TO, 0.4)).toThrow(
        new RangeError('A motor without layout, resistance and can has no shape to change.'),
      );
  });
  it('has the stack of its family, as well known as it was, or as the can it is told by', () => {
    const bare = inputOf({}).given;
    const known = (of: GivenDrive) => reshaped(of, FROM, TO, 0.4).motor?.stackLength?.origin;
    expect(known(before)).toEqual(before.motor?.stackLength?.origin);
    expect(known(bare)).toEqual(bare.motor?.can?.length?.origin);
  });
  it('leaves other coolings as they are, and a sheet without no-load points without', () => {
    const { given } = inputOf({ cooling: { fan: { diameter: '30 mm', flow: '90 L/min' } } });
    expect(reshaped(given, FROM, TO, 0.4).cooling).toEqual(given.cooling);
    const { noLoad: _, ...noPoints } = before.motor ?? { place: before.place };
    for (const made of [reshaped({ ...before, motor: noPoints }, FROM, TO, 0.4), rewound({ ...before, motor: noPoints }, 1.5)])
      expect(made.motor).not.toHaveProperty('noLoad');
  });
  it('says nothing of what its sheet does not say', () => {
    const bare = reshaped(inputOf({}).given, FROM, TO, 0.4).motor;
    for (const key of ['inductance', 'statorDiameter', 'rotorInertia', 'thermal', 'makerLimits'] as const)
      expect(bare).not.toHaveProperty(key);
    // but the stack, which the family keeps
    expect(bare?.stackLength?.value).toBe(0.008);
  });
});

describe('a motor rewound', () => {
  const before = inputOf({ motor: SHEET }).given;
  const made = (): GivenDrive => rewound(before, 1.5);
  const times = (of: (drive: GivenDrive) => Datum | undefined): number => ratio(of, before, made());
  it('keeps its motor constant, its loss torque and its copper loss at the rated current', () => {
    const [kv, r] = [times(({ motor }) => motor?.kv), times(({ motor }) => motor?.resistance as Datum)];
    expect(kv).toBeCloseTo(1.5, 12);
    expect(r * kv ** 2).toBeCloseTo(1, 12);
    expect(times(({ motor }) => motor?.inductance) * kv ** 2).toBeCloseTo(1, 12);
    expect(times(({ motor }) => motor?.noLoad?.[0].current) / kv).toBeCloseTo(1, 12);
    expect(times(({ motor }) => motor?.noLoad?.[0].voltage) * kv).toBeCloseTo(1, 12);
    const rated = times(({ motor }) => motor?.makerLimits?.current);
    expect(rated ** 2 * r).toBeCloseTo(1, 12);
  });
  it('has its rated voltage by Kv, unless a speed limit says the same better', () => {
    expect(made().motor?.makerLimits).not.toHaveProperty('voltage');
    expect(times(({ motor }) => motor?.makerLimits?.shaftSpeed)).toBe(1);
    const { given } = inputOf({ motor: { ...OUTRUNNER, maker_limits: { voltage: '13 V' } } });
    expect(ratio(({ motor }) => motor?.makerLimits?.voltage, given, rewound(given, 1.5))).toBeCloseTo(1 / 1.5, 12);
  });
  it('needs its Kv, or a no-load speed', () => {
    const { kv: _, ...noKv } = OUTRUNNER;
    const by = inputOf({ motor: { ...noKv, no_load: { current: '0.9 A', voltage: '10 V', speed: '9100 rpm' } } }).given;
    expect(ratio(({ motor }) => motor?.noLoad?.[0].voltage, by, rewound(by, 2))).toBeCloseTo(0.5, 12);
    const { motor: __, ...nothing } = before;
    const refused = new RangeError('A motor without Kv or no-load speed cannot be rewound.');
    expect(() => rewound(nothing, 1.5)).toThrow(refused);
    const { kv, noLoad, ...without } = before.motor ?? { place: before.place };
    expect(kv).toBeDefined();
    for (const points of [{}, { noLoad: [] }, { noLoad: noLoad ?? [] }])
      expect(() => rewound({ ...before, motor: { ...without, ...points } }, 1.5)).toThrow(refused);
  });
});
