/** Heat data that cannot be together: each pair, and each bound from both sides, with the place it is told at. */
import { describe, expect, it } from 'vitest';
import { boat, INRUNNER, OUTRUNNER, preparationOf, type Section, SINK, WING } from '../drives.js';

const told = (drive: Section): readonly string[] => {
  const preparation = preparationOf(drive);
  if (preparation.kind === 'needs') throw new Error('it needs a file');
  return preparation.kind === 'ready'
    ? []
    : preparation.problems.map(({ kind, place, expected, found, hint }) => {
        expect((hint ?? '').length).toBeGreaterThan(20);
        return `${kind} ${place.path.replace('candidates[0].', '')}: ${expected} | ${found}`.replaceAll('\u202f', ' ');
      });
};
const inner = (thermal: Section, more: Section = {}): Section => ({ motor: { ...INRUNNER, thermal }, ...more });
const outer = (thermal: Section, more: Section = {}): Section => ({ motor: { ...OUTRUNNER, thermal }, ...more });

describe('a limit', () => {
  const limited = (key: string, celsius: number, more: Section = {}): Section => ({
    ambient: { air: '24 °C' },
    limits: { [key]: `${celsius} °C` },
    ...more,
  });
  it.each(['winding', 'magnets', 'controller', 'cells'])('of the %s lies above where the run starts', (key) => {
    expect(told(limited(key, 24))).toEqual([
      `conflict limits.${key}: a limit of the ${key} above the temperature they start at, 24 °C | 24 °C`,
    ]);
    expect(told(limited(key, 25))).toEqual([]);
  });
  it('is held against the start that was written, the pack’s own for its cells', () => {
    expect(told(limited('winding', 40, { start: { temperature: '45 °C' } }))).toHaveLength(1);
    expect(told(limited('cells', 40, { start: { temperature: '45 °C' } }))).toHaveLength(1);
    expect(told(limited('cells', 40, { start: { temperature: '45 °C', battery_temperature: '20 °C' } }))).toEqual([]);
    expect(told(limited('cells', 40, { start: { battery_temperature: '41 °C' } }))).toHaveLength(1);
  });
});

describe('water', () => {
  it.each([
    ['water_jacket', { conductance: '1 W/K', at_speed: '3 m/s' }],
    ['water_coil', { bore: '3 mm', length: '50 cm' }],
    ['strap', { cross_section: '30 mm2', length: '80 mm' }],
  ] as const)('for a %s is told, and there', (key, section) => {
    const cooling = { [key]: section };
    expect(told(boat({ cooling }))).toEqual([]);
    expect(told(boat({ cooling, ambient: { air: '20 °C' } }))).toEqual([
      'missing-datum ambient.water: the temperature of the cooling water | nothing',
    ]);
    const flown = { motor: INRUNNER, ambient: { water: '15 °C' }, cooling, vehicle: { mass: '1 kg', wing: WING } };
    expect(told(flown)).toEqual([`conflict cooling.${key}: cooling for a vehicle without water | a water jacket`]);
    const car = {
      motor: INRUNNER,
      ambient: { water: '15 °C' },
      cooling,
      propeller: 'none',
      wheel: { radius: '40 mm' },
      vehicle: { mass: '2 kg' },
    };
    expect(told(car)).toEqual([`conflict cooling.${key}: cooling for a vehicle without water | a water jacket`]);
  });
});

describe('ways that hold one another', () => {
  const toHousing = { winding_to_housing: '3 K/W' };
  const whole = { housing_to_ambient: '9 K/W' };
  it('the printed way within holds both of an inrunner’s, and that to the stator of an outrunner', () => {
    expect(told(inner({ ...toHousing, winding_to_stator: '1 W/K' }))).toEqual([
      'conflict motor.thermal.winding_to_stator: winding_to_housing or winding_to_stator | both',
    ]);
    expect(told(inner({ ...toHousing, stator_to_can: '4 W/K' }))).toEqual([
      'conflict motor.thermal.stator_to_can: winding_to_housing or stator_to_can | both',
    ]);
    expect(told(outer({ ...toHousing, stator_to_can: '0.2 W/K' }))).toEqual([]);
    expect(told(outer({ ...toHousing, winding_to_stator: '1 W/K' }))).toHaveLength(1);
  });
  it('the printed way to the air is the whole one', () => {
    expect(told(inner({ ...whole, can_to_air: '0.1 W/K' }))).toEqual([
      'conflict motor.thermal.can_to_air: housing_to_ambient or can_to_air | both',
    ]);
    expect(told(outer({ ...whole, stator_to_air: { conductance: '0.4 W/K' } }))).toEqual([
      'conflict motor.thermal.stator_to_air.conductance: housing_to_ambient or stator_to_air | both',
    ]);
    for (const mount of [{ conductance: '0.2 W/K' }, { plate: '5 cm2' }])
      expect(told(inner(whole, { cooling: { mount } }))[0]).toContain('housing_to_ambient or cooling.mount | both');
    for (const air of [{ speed: '3 m/s' }, { share_of_vehicle_speed: '30 %' }, { share_of_slipstream: '30 %' }, { openness: '30 %' }])
      expect(told(inner(whole, { cooling: { air } }))[0], JSON.stringify(air)).toContain('housing_to_ambient or cooling.air | both');
    expect(told(inner(whole, { cooling: { heat_sink: SINK } }))).toEqual([
      'conflict cooling.heat_sink: housing_to_ambient or a heat sink on the motor | both',
    ]);
    expect(told(inner(whole, { cooling: { heat_sink: { ...SINK, covers: 'controller' } } }))).toEqual([]);
    expect(told(inner({ ...whole, ...toHousing }))).toEqual([]);
  });
  it('can_to_air is the whole way from a can, with no sink, air or mount beside it', () => {
    const can = { can_to_air: '0.3 W/K' };
    expect(told(inner(can))).toEqual([]);
    expect(told(inner(can, { cooling: { heat_sink: SINK } }))[0]).toContain('can_to_air or a heat sink on the can | both');
    expect(told(inner(can, { cooling: { heat_sink: { ...SINK, covers: 'can' } } }))).toHaveLength(1);
    expect(told(inner(can, { cooling: { heat_sink: { ...SINK, covers: 'mount' } } }))).toEqual([]);
    expect(told(inner(can, { cooling: { air: { speed: '3 m/s' } } }))).toEqual([
      'conflict motor.thermal.can_to_air: can_to_air or cooling.air | both',
    ]);
    expect(told(inner(can, { cooling: { air: { openness: '30 %' } } }))).toEqual([]);
    expect(told(inner(can, { cooling: { mount: { plate: '5 cm2' } } }))[0]).toContain('can_to_air or cooling.mount | both');
    expect(told(outer(can, { cooling: { mount: { plate: '5 cm2' } } }))).toEqual([]);
  });
  it('a mount is given once', () => {
    expect(told({ cooling: { mount: { plate: '5 cm2', conductance: '0.2 W/K' } } })[0]).toContain(
      'cooling.mount.conductance or cooling.mount.plate | both',
    );
  });
  it('air through a motor has its conductance, and a speed only where the can turns', () => {
    expect(told(outer({ stator_to_air: { at_speed: '9000 rpm' } }))).toEqual([
      'conflict motor.thermal.stator_to_air: conductance of stator_to_air | a speed alone',
    ]);
    expect(told(inner({ stator_to_air: { conductance: '0.4 W/K', at_speed: '9000 rpm' } }))[0]).toContain('at_speed on an inrunner');
    expect(told(outer({ stator_to_air: { conductance: '0.4 W/K', at_speed: '9000 rpm' } }))).toEqual([]);
    expect(told(inner({ stator_to_air: { conductance: '0.4 W/K' } }))).toEqual([]);
  });
});

describe('sizes', () => {
  it('a plate fits in the space, across it or along it', () => {
    const plate = (area: string, space: Section): Section => ({ motor: INRUNNER, cooling: { mount: { plate: area } }, space });
    // a disc of 50 mm has 19.6 cm²
    expect(told(plate('19.6 cm2', { diameter: '50 mm' }))).toEqual([]);
    expect(told(plate('19.7 cm2', { diameter: '50 mm' }))[0]).toContain('a plate that fits in the space, at most 20 cm² | 20 cm²');
    // along it 50 × 90 mm
    expect(told(plate('44.9 cm2', { diameter: '50 mm', length: '90 mm' }))).toEqual([]);
    expect(told(plate('45.1 cm2', { diameter: '50 mm', length: '90 mm' }))).toHaveLength(1);
    expect(told(plate('19.6 cm2', { diameter: '50 mm', length: '33 mm' }))).toEqual([]);
    expect(told(plate('200 cm2', { length: '90 mm' }))).toEqual([]);
  });
  it('no motor holds more heat than a kilojoule a kilogram and kelvin', () => {
    // 66 g: 66 J/K; what is not given is 0.3 · 460 and 0.25 · 650 of the mass, 19.8 J/K
    const with_ = (winding: number): Section => inner({ winding_capacity: `${winding} J/K`, winding_to_stator: '1 W/K' });
    expect(told(with_(46))).toEqual([]);
    expect(told(with_(46.5))[0]).toMatch(
      /^conflict motor\.thermal\.winding_capacity: heat capacities of a motor of 66 g, together below 66 J\/K \| 66 J\/K$/,
    );
    expect(told(inner({ can_capacity: '60 J/K' }))[0]).toContain('motor.thermal.can_capacity');
    expect(told(inner({ stator_capacity: '60 J/K' }))[0]).toContain('motor.thermal.stator_capacity');
  });
  it('a winding follows its iron within 0.2 s to half an hour', () => {
    const time = (conductance: number): readonly string[] =>
      told(inner({ winding_capacity: '10 J/K', winding_to_stator: `${conductance} W/K` }));
    expect([time(49), time(51), time(0.0056), time(0.0055)].map(({ length }) => length)).toEqual([0, 1, 0, 1]);
    expect(time(51)[0]).toMatch(
      /motor\.thermal\.winding_to_stator: a winding that follows its iron within 0\.2 s to 30 min \| a time constant of 0\.20 s/,
    );
    // of a capacity alone, against the way that is estimated
    expect(told(inner({ winding_capacity: '1e-3 J/K' }))[0]).toContain('motor.thermal.winding_capacity');
  });
});
