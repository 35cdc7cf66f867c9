/** Each event's margin is positive before it and not once it has come, and as large as what is left in the unit of what is limited. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type Held, type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { EVENT_PLACE, isKernelEvent, KERNEL_EVENTS, type KernelEvent } from '@shaftwork/sim-core/kernel/event-margins';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { type At, solved } from './point-laws.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper, car] = ['survey-boat', 'hot-day-mapper', 'grass-car'].map(plain);
const even = (x: number) => ({ from: x, to: x });
const hold = (what: Held, value: number): ProfileStep => stepOfParts({ duration: 10, hold: what, value: even(value) });
const half = hold('throttle', 0.5);

function margin(event: KernelEvent, system: DriveSystem, step: ProfileStep, at: At = {}, t = 0, flatOut = false): number {
  const { kernel, y } = solved(system, step, at, t, flatOut);
  const out = new Float64Array(KERNEL_EVENTS.length);
  kernel.margins(t, y, out);
  return out[EVENT_PLACE[event]];
}
const limited = (limits: Partial<DriveSystem['limits']>): DriveSystem => ({ ...boat, limits: { ...boat.limits, ...limits } });

it('temperatures, charge and reserve by the state that they watch', () => {
  const system = limited({
    windingTemperature: 400,
    magnetTemperature: 360,
    controllerTemperature: 370,
    cellTemperature: 330,
    reserve: 0.2,
  });
  const at = { winding: 390, magnets: 365, controller: 350, cells: 331, charge: 0.3 };
  const left = (event: KernelEvent) => margin(event, system, half, at);
  expect(left('windingTemperature')).toBeCloseTo(10, 9);
  expect(left('magnetTemperature')).toBeCloseTo(-5, 9);
  expect(left('controllerTemperature')).toBeCloseTo(20, 9);
  expect(left('cellTemperature')).toBeCloseTo(-1, 9);
  expect(left('empty')).toBeCloseTo(0.3, 12);
  expect(left('reserve')).toBeCloseTo(0.1, 12);
});

it('what is destroyed first counts, each body at its own temperature', () => {
  const watched = limited({ windingTemperature: 400, magnetTemperature: 360, controllerTemperature: 370, cellTemperature: 330 });
  // 320 °C, 585 K, 217 °C, 250 °C: damage.ts
  expect(margin('burnt', watched, half, { winding: 593.15 - 3 })).toBeCloseTo(3, 9);
  expect(margin('burnt', watched, half, { magnets: 586 })).toBeCloseTo(-1, 9);
  expect(margin('burnt', watched, half, { controller: 490.15 - 2 })).toBeCloseTo(2, 9);
  expect(margin('burnt', watched, half, { cells: 523.15 - 1 })).toBeCloseTo(1, 9);
});

it('currents, powers and speeds by the point', () => {
  const { point } = solved(boat, half, { speed: 1 }).kernel;
  const left = (event: 'motorCurrent' | 'inputPower' | 'shaftSpeed' | 'batteryCurrent' | 'batteryPower', limit: number) =>
    margin(event, limited({ [event]: limit }), half, { speed: 1 });
  expect(left('motorCurrent', 50)).toBeCloseTo(50 - point.current, 9);
  expect(left('inputPower', 500)).toBeCloseTo(500 - point.inputPower, 9);
  expect(left('shaftSpeed', 100)).toBeCloseTo(100 - point.speed, 9);
  expect(left('batteryCurrent', 30)).toBeCloseTo(30 - point.packCurrent, 9);
  expect(left('batteryPower', 200)).toBeCloseTo(200 - point.packCurrent * point.busVoltage, 9);
  expect(margin('cellVoltage', limited({ cellVoltage: 3 }), half, { speed: 1 })).toBeCloseTo(point.cellVoltage - 3, 9);
});

it('braking loads a winding as driving does', () => {
  const brakes: DriveSystem = { ...car, controller: { ...car.controller, braking: 'regenerative' } };
  const step = stepOfParts({ duration: 1, hold: 'vehicleSpeed', value: { from: 6, to: 2 } });
  const { point } = solved(brakes, step, { speed: 6 }).kernel;
  expect(point.current).toBeLessThan(-0.5);
  const strict = { ...brakes, limits: { ...brakes.limits, motorCurrent: 20, inputPower: 300 } };
  expect(margin('motorCurrent', strict, step, { speed: 6 })).toBeCloseTo(20 + point.current, 9);
  expect(margin('inputPower', strict, step, { speed: 6 })).toBeCloseTo(300 - Math.abs(point.inputPower), 9);
});

it('a pack that cannot give what is drawn is under its cut-off, whatever that is', () => {
  const weak = { ...limited({ cellVoltage: 0.1 }), otherLoads: 1e5 };
  expect(margin('cellVoltage', weak, half)).toBe(-1);
});

describe('a hold', () => {
  const lost = (step: ProfileStep, system = boat, at: At = { speed: 1 }) => margin('holdLost', system, step, at);

  it('is lost at full throttle, at the controller’s limit or at the edge of grip, whichever is nearest', () => {
    const { point } = solved(boat, hold('motorCurrent', 5), { speed: 1 }).kernel;
    expect(lost(hold('motorCurrent', 5), { ...boat, controller: { ...boat.controller, motorCurrentLimit: Infinity } })).toBeCloseTo(
      1 - point.dutyAsked,
      9,
    );
    const near: DriveSystem = { ...boat, controller: { ...boat.controller, motorCurrentLimit: 5.1, batteryCurrentLimit: Infinity } };
    expect(lost(hold('motorCurrent', 5), near)).toBeCloseTo(0.1, 9);
    expect(lost(hold('motorCurrent', 5.2), near)).toBeCloseTo(-0.1, 9);
    expect(lost(hold('thrust', 500)) >= 0).toBe(false);
    const slippery = { ...car, load: { ...car.load, grip: 0.01 } } as DriveSystem;
    expect(lost(hold('thrust', 8), slippery, { speed: 3 })).toBeLessThan(0);
  });

  it('is none of a throttle, of a rotor held fast, or of full throttle in place of a hold', () => {
    expect(lost(hold('throttle', 1))).toBe(1);
    const held: DriveSystem = { ...boat, controller: { ...boat.controller, motorCurrentLimit: 2, batteryCurrentLimit: Infinity } };
    expect(lost(hold('throttle', 1), held)).toBe(1);
    expect(lost(hold('shaftSpeed', 0))).toBe(1);
    expect(margin('holdLost', boat, hold('thrust', 500), { speed: 1 }, 0, true)).toBe(1);
  });

  it('of a speed is regained when the vehicle is as fast, of a climb a little later', () => {
    const speeding = stepOfParts({ duration: 10, hold: 'vehicleSpeed', value: { from: 2, to: 4 } });
    expect(margin('holdRegained', boat, speeding, { speed: 1.8 }, 5, true)).toBeCloseTo(3 - 1.8, 9);
    expect(margin('holdRegained', boat, speeding, { speed: 1.8 }, 5)).toBe(1);
    expect(margin('holdRegained', boat, hold('thrust', 9), { speed: 1.8 }, 5, true)).toBe(1);
    const climbing = stepOfParts({ duration: 10, hold: 'vehicleSpeed', value: even(16), climb: { from: 20, to: 40 } });
    const { point } = solved(mapper, climbing, { speed: 16 }, 5, true).kernel;
    expect(margin('holdRegained', mapper, climbing, { speed: 16 }, 5, true)).toBeCloseTo(30 + 1e-3 - 16 * point.climb, 9);
  });
});

it('a limiter is entered where the throttle would draw more, and left where it would not', () => {
  const { point } = solved(boat, half, { speed: 1 }).kernel;
  const at = (share: number): DriveSystem => ({
    ...boat,
    controller: { ...boat.controller, motorCurrentLimit: share * point.current, batteryCurrentLimit: Infinity },
  });
  const both = (system: DriveSystem, step = half) => [
    margin('limiterEntered', system, step, { speed: 1 }),
    margin('limiterLeft', system, step, { speed: 1 }),
  ];
  const [entered, left] = both(at(1.2));
  expect(entered).toBeCloseTo(0.2 * point.current, 8);
  expect(left).toBeCloseTo(-0.2 * point.current, 8);
  const [inside, out] = both(at(0.8));
  expect(inside).toBeLessThan(0);
  expect(out).toBeGreaterThan(0);
  expect(both(at(Infinity))).toEqual([1, 1]);
  expect(both(at(0.8), hold('motorCurrent', 3))).toEqual([1, 1]);
  expect(both(at(0.8), hold('throttle', 0))).toEqual([1, 1]);
});

it('tables end: the propeller’s in advance, the drag’s in speed', () => {
  expect(margin('propellerTable', boat, half, { speed: 1 })).toBe(1);
  expect(margin('propellerTable', boat, hold('throttle', 0.05), { speed: 8 })).toBe(-1);
  expect(margin('propellerTable', boat, hold('throttle', 0), { speed: 8 })).toBe(1);
  const table = boat.vehicle.dragTable;
  if (table === undefined) throw new Error('the boat has a table of drag');
  const last = table.speed[table.speed.length - 1];
  expect(margin('dragTable', boat, half, { speed: last - 0.5 })).toBeCloseTo(0.5, 8);
  // to its end it is known
  expect(margin('dragTable', boat, half, { speed: last })).toBeGreaterThan(0);
  expect(margin('dragTable', boat, half, { speed: last + 0.5 })).toBeCloseTo(-0.5, 8);
  expect(margin('dragTable', { ...boat, vehicle: { ...boat.vehicle, dragTable: undefined } }, half, { speed: 50 })).toBe(1);
});

it('only an event’s name is one', () => {
  expect(isKernelEvent('burnt')).toBe(true);
  expect(isKernelEvent('runTime')).toBe(false);
});
