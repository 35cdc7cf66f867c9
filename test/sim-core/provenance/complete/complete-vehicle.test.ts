/** What moves: its mass, its drag, and what slows it where nothing was said. */
import { describe, expect, it } from 'vitest';
import { boat, dataOf, from, HULL, INRUNNER, isTaken, problemsOf, type Section, WING, wrongIn } from '../drives.js';

const vehicleOf = (drive: Section) => dataOf(drive).vehicle;
const flying = (wing: Section = WING, more: Section = {}): Section => ({ vehicle: { mass: '1 kg', wing }, ...more });
const car = (wheel: Section = {}, vehicle: Section = {}): Section => ({
  motor: INRUNNER,
  propeller: 'none',
  wheel: { radius: '40 mm', ...wheel },
  vehicle: { mass: '2 kg', ...vehicle },
});

describe('a vehicle', () => {
  it('weighs all that it carries: the pack once, motor and gear for each drive', () => {
    const battery = { cells: { series: 3 }, capacity: '2.2 Ah', mass: '200 g' };
    const gearbox = { ratio: 3, mass: '30 g' };
    expect(vehicleOf(flying(WING, { battery, gearbox })).mass.value).toBeCloseTo(1 + 0.2 + 0.066 + 0.03, 12);
    expect(vehicleOf(flying(WING, { battery, gearbox, drives: 3 })).mass.value).toBeCloseTo(1 + 0.2 + 3 * (0.066 + 0.03), 12);
  });
  it('is none on a bench, which nothing slows', () => {
    const { carriedBy, dragTable, dragArea, inducedFactor, liftArea, addedMass, mass, dragFactor, rollingResistance } = vehicleOf({});
    expect([carriedBy, dragTable]).toEqual(['bench', undefined]);
    expect([dragArea, inducedFactor, addedMass, rollingResistance].map(({ value }) => value)).toEqual([0, 0, 0, 0]);
    expect([liftArea, mass, dragFactor].map(({ value }) => value)).toEqual([Number.POSITIVE_INFINITY, 1, 1]);
  });
  it('needs its mass', () => {
    expect(wrongIn({ vehicle: { drag_area: '0.02 m2' } })).toEqual(['vehicle.mass']);
  });
  it('in water carries some along, in air and on wheels none', () => {
    expect(from(vehicleOf(boat()).addedMass)).toBe('added-mass');
    const table = [
      { advance_ratio: 0, thrust: 0.1, power: 0.05 },
      { advance_ratio: 0.7, thrust: 0.01, power: 0.02 },
    ];
    const propeller = { kind: 'coefficients', diameter: '40 mm', table, medium: 'water' };
    expect(from(vehicleOf(boat({ propeller })).addedMass)).toBe('added-mass');
    expect(from(vehicleOf(flying()).addedMass)).toBe('no-added-mass');
    expect(from(vehicleOf(car()).addedMass)).toBe('no-added-mass');
    expect(vehicleOf(boat({ vehicle: { ...HULL, added_mass: '12 %' } })).addedMass.value).toBe(0.12);
  });
  it('is carried by its wing, its wheels or the water', () => {
    expect([flying(), car(), boat()].map((drive) => vehicleOf(drive).carriedBy)).toEqual(['wing', 'wheels', 'water']);
  });
});

describe('drag', () => {
  it('of a wing is that at no lift, and what lift induces: 1/(π·Λ·e·S)', () => {
    const { dragArea, inducedFactor, liftArea } = vehicleOf(flying());
    expect([dragArea.value, liftArea.value].map((x) => Number(x.toFixed(9)))).toEqual([0.012, 0.48]);
    expect(inducedFactor.value).toBeCloseTo(1 / (Math.PI * 8 * 0.8 * 0.4), 12);
    const given = vehicleOf(flying({ ...WING, span_efficiency: 0.9, zero_lift_drag: 0.02, most_lift: 1.4 }));
    expect(given.dragArea.value).toBeCloseTo(0.008, 12);
    expect(given.inducedFactor.value).toBeCloseTo(1 / (Math.PI * 8 * 0.9 * 0.4), 12);
    expect(given.liftArea.value).toBeCloseTo(0.56, 12);
    expect(wrongIn(flying({ span_efficiency: 0.8 }))).toEqual(['vehicle.wing.area', 'vehicle.wing.aspect_ratio']);
  });
  it('of a car is that of its body or of its wheels, not both', () => {
    expect(vehicleOf(car()).dragArea.value).toBe(0);
    expect(vehicleOf(car({ drag_area: '0.04 m2' })).dragArea.value).toBe(0.04);
    expect(vehicleOf(car({}, { drag_area: '0.05 m2' })).dragArea.value).toBe(0.05);
    expect(wrongIn(car({ drag_area: '0.04 m2' }, { drag_area: '0.05 m2' }))).toEqual(['wheel.drag_area']);
    expect(vehicleOf(car({ rolling_resistance: 0.04 })).rollingResistance.value).toBe(0.04);
    expect(vehicleOf(car()).rollingResistance.value).toBe(0);
    expect(vehicleOf(car({}, { drag_factor: 1.2 })).dragFactor.value).toBe(1.2);
  });
  it('over speed begins at rest, with the square of speed', () => {
    const drag = [
      { speed: '2 m/s', force: '4 N' },
      { speed: '4 m/s', force: '16 N' },
    ];
    const { dragTable } = vehicleOf(boat({ vehicle: { mass: '3 kg', drag } }));
    expect([...(dragTable?.speed ?? [])]).toEqual([0, 2, 4]);
    expect([...(dragTable?.force ?? [])]).toEqual([0, 4, 16]);
    expect(dragTable?.slope[0]).toBe(0);
    expect(dragTable?.slope[1]).toBeGreaterThan(2);
    expect(dragTable?.slope[1]).toBeLessThan(6);
    const written = vehicleOf(boat({ vehicle: { mass: '3 kg', drag: [{ speed: '0 m/s', force: '0 N' }, ...drag] } })).dragTable;
    expect(written).toEqual(dragTable);
    expect(vehicleOf(boat({ vehicle: { mass: '3 kg', drag_area: '0.02 m2' } })).dragTable).toBeUndefined();
  });
  it('must be told of what a propeller drives, at a speed above rest', () => {
    expect(wrongIn({ vehicle: { mass: '1 kg' } })).toEqual(['vehicle.drag']);
    expect(problemsOf(boat({ vehicle: { mass: '1 kg', drag: [{ speed: '0 m/s', force: '0 N' }] } }))).toMatchObject([
      { place: { path: 'vehicle.drag' }, expected: 'a row of drag at a speed above 0' },
    ]);
    for (const vehicle of [HULL, { mass: '1 kg', drag_area: '0.02 m2' }, { mass: '1 kg', wing: WING }])
      expect(isTaken(boat({ vehicle })), JSON.stringify(vehicle)).toBe(true);
    expect(isTaken(car())).toBe(true);
  });
});
