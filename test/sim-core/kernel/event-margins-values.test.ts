/** Each margin by its own number, at a point and a state made by hand: what is left to the limit, in its unit, and when it is asked at all. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { EVENT_PLACE, eventMargins, isKernelEvent, KERNEL_EVENTS, type KernelEvent } from '@shaftwork/sim-core/kernel/event-margins';
import { type KernelMemory, kernelMemory } from '@shaftwork/sim-core/kernel/kernel-memory';
import type { OperatingPoint } from '@shaftwork/sim-core/kernel/operating-point';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper] = ['survey-boat', 'hot-day-mapper'].map(plain);
const even = (x: number) => ({ from: x, to: x });
const throttle = stepOfParts({ duration: 8, hold: 'throttle', value: even(0.5) });
const cruising = stepOfParts({ duration: 8, hold: 'vehicleSpeed', value: { from: 10, to: 14 } });
const power = stepOfParts({ duration: 8, hold: 'batteryPower', value: even(100) });
const rotorHeld = stepOfParts({ duration: 8, hold: 'shaftSpeed', value: even(0) });
const climbing = stepOfParts({ duration: 8, hold: 'vehicleSpeed', value: even(12), climb: { from: 1, to: 3 } });

const STATE = {
  winding: 350,
  stator: 340,
  can: 330,
  magnets: 335,
  controller: 320,
  cells: 305,
  charge: 0.6,
  polarisation: 0.02,
  speed: 11,
};
const POINT: Partial<OperatingPoint> = {
  overloaded: false,
  cellVoltage: 3.5,
  dutyAsked: 0.7,
  duty: 0.7,
  limit: 40,
  currentUnlimited: 25,
  gripLeft: 0.8,
  current: 24,
  inputPower: 300,
  speed: 900,
  packCurrent: 21,
  busVoltage: 14,
  outsideTable: 0,
  climb: 0.05,
};
const LIMITS = {
  windingTemperature: 400,
  magnetTemperature: 360,
  controllerTemperature: 370,
  cellTemperature: 330,
  cellVoltage: 3,
  reserve: 0.1,
  motorCurrent: 60,
  inputPower: 500,
  shaftSpeed: 1500,
  batteryCurrent: 50,
  batteryPower: 700,
};
const DAMAGE = { windingTemperature: 500, magnetTemperature: 510, controllerTemperature: 520, cellTemperature: 530 };

interface Case {
  readonly system?: DriveSystem;
  readonly step?: ProfileStep;
  readonly flatOut?: boolean;
  readonly point?: Partial<OperatingPoint>;
  readonly state?: Partial<typeof STATE>;
  readonly damage?: Partial<typeof DAMAGE>;
  readonly t?: number;
}
/** Margins by name of a step that began at 100 s, 102 s now. */
function marginsOf({ system = mapper, step = throttle, flatOut = false, point = {}, state = {}, damage = {}, t = 102 }: Case = {}) {
  const memory: KernelMemory = kernelMemory({ ...system, limits: { ...system.limits, ...LIMITS } });
  Object.assign(memory, { step, stepFrom: 100, flatOut, hold: flatOut ? 'throttle' : step.hold, damage: { ...DAMAGE, ...damage } });
  Object.assign(memory.point, POINT, point);
  const y = new Float64Array(memory.dimension);
  for (const [name, value] of Object.entries({ ...STATE, ...state }) as [keyof typeof STATE, number][]) y[memory.at[name]] = value;
  const out = new Float64Array(KERNEL_EVENTS.length);
  eventMargins(memory, t, y, out);
  return Object.fromEntries(KERNEL_EVENTS.map((id) => [id, out[EVENT_PLACE[id]]])) as Record<KernelEvent, number>;
}

it('what is left to each limit, in its unit', () => {
  const margins = marginsOf();
  const expected = {
    windingTemperature: 50,
    magnetTemperature: 25,
    controllerTemperature: 50,
    cellTemperature: 25,
    cellVoltage: 0.5,
    empty: 0.6,
    reserve: 0.5,
    motorCurrent: 36,
    inputPower: 200,
    shaftSpeed: 600,
    batteryCurrent: 29,
    batteryPower: 700 - 21 * 14,
    propellerTable: 1,
    // the cells reach where they are destroyed last
    burnt: 150,
  };
  for (const [id, value] of Object.entries(expected)) expect(margins[id as KernelEvent], id).toBeCloseTo(value, 9);
});

it('braking loads as driving does; a pack that collapses is below any cut-off', () => {
  expect(marginsOf({ point: { current: -50, inputPower: -450 } })).toMatchObject({ motorCurrent: 10, inputPower: 50 });
  expect(marginsOf({ point: { overloaded: true } }).cellVoltage).toBe(-1);
});

it.each([
  ['windingTemperature', 'winding'],
  ['magnetTemperature', 'magnets'],
  ['controllerTemperature', 'controller'],
  ['cellTemperature', 'cells'],
] as const)('what is nearest to being destroyed counts: %s', (limit, body) => {
  expect(marginsOf({ damage: { [limit]: STATE[body] + 7 } }).burnt).toBeCloseTo(7, 9);
  expect(marginsOf({ damage: { [limit]: STATE[body] - 7 } }).burnt).toBeCloseTo(-7, 9);
});

describe('a hold', () => {
  it.each<[string, Case, number]>([
    ['least of duty', { step: power, point: { dutyAsked: 0.95 } }, 0.05],
    ['least of current', { step: power, point: { currentUnlimited: 39.8 } }, 0.2],
    ['least of grip', { step: power, point: { gripLeft: 0.1 } }, 0.1],
    ['a duty beyond reach', { step: power, point: { dutyAsked: 1.5 } }, -0.5],
    ['more than the limit leaves', { step: power, point: { currentUnlimited: 43 } }, -3],
    ['no limit of current', { step: power, point: { limit: Infinity, dutyAsked: 0.2, gripLeft: 1 } }, 0.8],
    ['no limit of current, nothing else near', { step: power, point: { limit: Infinity, dutyAsked: -1, gripLeft: 3 } }, 1],
    ['a throttle holds nothing', { point: { dutyAsked: 1.5 } }, 1],
    ['flat out holds nothing', { step: cruising, flatOut: true, point: { dutyAsked: 1.5 } }, 1],
    ['a held rotor asks for nothing', { step: rotorHeld, point: { dutyAsked: 1.5 } }, 1],
    ['a speed is a hold', { step: cruising, point: { dutyAsked: 1.5 } }, -0.5],
  ])('is lost by %s', (_, made, margin) => {
    expect(marginsOf(made).holdLost).toBeCloseTo(margin, 9);
  });

  it.each<[string, Case, number]>([
    // a quarter of the step is over: 11 m/s are asked
    ['once as fast as asked', { step: cruising, flatOut: true, state: { speed: 10.5 } }, 0.5],
    ['not below it', { step: cruising, flatOut: true, state: { speed: 11.25 } }, -0.25],
    ['only where it was lost', { step: cruising, state: { speed: 10.5 } }, 1],
    ['only of a speed', { step: power, flatOut: true, state: { speed: 10.5 } }, 1],
    // 1.5 m/s are asked, and 1 mm/s more; 0.05·12 are climbed
    ['of a wing once it climbs as asked and a little more', { step: climbing, flatOut: true }, 1.5 + 1e-3 - 0.6],
    ['of a boat by its speed', { system: boat, step: climbing, flatOut: true, state: { speed: 11.5 } }, 0.5],
  ])('is regained %s', (_, made, margin) => {
    expect(marginsOf(made).holdRegained).toBeCloseTo(margin, 9);
  });
});

it.each<[string, Case, number, number]>([
  ['below its limit', {}, 15, -15],
  ['above it', { point: { currentUnlimited: 42 } }, -2, 2],
  ['none with a hold', { step: power }, 1, 1],
  ['none without a limit', { point: { limit: Infinity } }, 1, 1],
  ['none without throttle', { point: { duty: 0 } }, 1, 1],
  ['flat out counts as a throttle', { step: power, flatOut: true }, 15, -15],
])('the limiter of a throttle: %s', (_, made, entered, left) => {
  const { limiterEntered, limiterLeft } = marginsOf(made);
  expect([limiterEntered, limiterLeft]).toEqual([entered, left].map((each) => expect.closeTo(each, 9)));
});

it('the ends of tables: of a propeller that is driven, and of a vehicle that has one', () => {
  expect(marginsOf({ point: { outsideTable: 1 } }).propellerTable).toBe(-1);
  expect(marginsOf({ point: { outsideTable: -1 } }).propellerTable).toBe(-1);
  expect(marginsOf({ point: { outsideTable: 1, duty: 0 } }).propellerTable).toBe(1);
  const tabled = (...speeds: readonly number[]): number => {
    const speed = Float64Array.from(speeds);
    const dragTable = { speed, force: speed.map((v) => v * v), slope: speed.map((v) => 2 * v) };
    return marginsOf({ system: { ...mapper, vehicle: { ...mapper.vehicle, dragTable } } }).dragTable;
  };
  expect(tabled(1, 5, 13)).toBeCloseTo(2, 8);
  expect(tabled(1, 5, 11)).toBeGreaterThan(0);
  expect(tabled(1, 5, 10)).toBeCloseTo(-1, 8);
  expect(mapper.vehicle.dragTable).toBeUndefined();
  expect(marginsOf().dragTable).toBe(1);
});

it('an event is known by its name, nothing else is', () => {
  for (const id of KERNEL_EVENTS) expect(isKernelEvent(id)).toBe(true);
  expect(isKernelEvent('nothing')).toBe(false);
});
