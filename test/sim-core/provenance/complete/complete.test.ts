/** What holds a whole drive together: surroundings, start, other loads, and how its shaft is solved. */
import { describe, expect, it } from 'vitest';
import { boat, dataOf, INRUNNER, preparedOf, type Section, wrongIn } from '../drives.js';

const zero = (celsius: number): number => 273.15 + celsius;

describe('surroundings', () => {
  const of = (ambient: Section, cooling: Section = {}) => dataOf({ ambient, cooling }).surroundings;
  it('are a standard day at sea level where nothing is said', () => {
    const { airTemperature, airPressure, motorAirTemperature, compartmentTemperature, waterTemperature } = dataOf().surroundings;
    expect([airTemperature, motorAirTemperature, compartmentTemperature, waterTemperature].map(({ value }) => value)).toEqual([
      288.15, 288.15, 288.15, 288.15,
    ]);
    expect(airPressure.value).toBeCloseTo(101_325, 6);
  });
  it('are what was given; pressure before altitude', () => {
    expect(of({ air: '30 °C' }).compartmentTemperature.value).toBe(zero(30));
    expect(of({ air: '30 °C', compartment: '41 °C' }).compartmentTemperature.value).toBe(zero(41));
    expect(of({ altitude: '2000 m', pressure: '900 hPa' }).airPressure.value).toBeCloseTo(90_000, 6);
    // ISO 2533: 795.01 hPa at a geometric altitude of 2000 m
    expect(of({ altitude: '2000 m' }).airPressure.value / 79_501).toBeCloseTo(1, 4);
    expect(dataOf(boat({ ambient: { water: '8 °C' } })).surroundings.waterTemperature.value).toBe(zero(8));
  });
  it('of the motor are outside, or the compartment where that is said', () => {
    const ambient = { air: '30 °C', compartment: '41 °C' };
    expect(of(ambient).motorAirTemperature.value).toBe(zero(30));
    expect(of(ambient, { air: { from: 'outside' } }).motorAirTemperature.value).toBe(zero(30));
    expect(of(ambient, { air: { from: 'compartment' } }).motorAirTemperature.value).toBe(zero(41));
  });
});

describe('the start', () => {
  const of = (start: Section) => {
    const { charge, motorTemperature, controllerTemperature, cellTemperature } = dataOf({ ambient: { air: '30 °C' }, start }).start;
    return [
      charge.value,
      ...[motorTemperature, controllerTemperature, cellTemperature].map(({ value }) => Number((value - 273.15).toFixed(9))),
    ];
  };
  it('is full and as warm as the air', () => expect(of({})).toEqual([1, 30, 30, 30]));
  it('is as warm as was said', () => expect(of({ temperature: '22 °C', charge: '80 %' })).toEqual([0.8, 22, 22, 22]));
  it('the pack’s own temperature is its own', () => {
    expect(of({ battery_temperature: '12 °C' })).toEqual([1, 30, 30, 12]);
    expect(of({ temperature: '22 °C', battery_temperature: '12 °C' })).toEqual([1, 22, 22, 12]);
  });
});

describe('other loads', () => {
  const fan = { fan: { diameter: '40 mm', flow: '180 L/min', power: '1.5 W' } };
  const of = (more: Section) => dataOf({ motor: INRUNNER, ...more }).otherLoads.value;
  it('are none, those given, the fan’s, or both', () => {
    expect(of({})).toBe(0);
    expect(of({ other_loads: '5 W' })).toBe(5);
    expect(of({ cooling: fan })).toBe(1.5);
    expect(of({ other_loads: '5 W', cooling: fan })).toBe(6.5);
    expect(of({ other_loads: '5 W', cooling: { fan: { diameter: '40 mm', flow: '180 L/min' } } })).toBe(5);
  });
});

it('drives and the solution of the shaft are what was said', () => {
  expect([dataOf().drives, dataOf().shaftSpeed]).toEqual([1, undefined]);
  const { drives, shaftSpeed } = dataOf({ drives: 2, solver: { shaft_speed: 'with-inertia' } });
  expect([drives, shaftSpeed]).toEqual([2, 'with-inertia']);
  expect(preparedOf({}).candidates[0].choices.map(({ choice }) => choice)).toEqual(expect.arrayContaining(['drives', 'shaft-speed']));
});

it('all that is missing is told at once', () => {
  const wrong = wrongIn({ battery: {}, motor: { layout: 'inrunner' }, propeller: { kind: 'blade-element' }, vehicle: {} });
  for (const path of ['battery.cells', 'battery.capacity', 'motor.kv', 'motor.mass', 'propeller.diameter', 'vehicle.mass'])
    expect(wrong).toContain(path);
});
