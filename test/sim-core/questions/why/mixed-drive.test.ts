/** Drives mixed part by part: each part brings what is its own and nothing else, a gear is taken at the driven shaft, and all parts together are the other. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { motorConstant } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import {
  assertEnds,
  differsIn,
  mixedDrive,
  overridesThatDiffer,
  waysThatDiffer,
  withWays,
} from '@shaftwork/sim-core/questions/why/mixed-drive';
import { WHY_PARTS, type WhyPartId } from '@shaftwork/sim-core/results/why-result';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, INRUNNER, OUTRUNNER, type Section, TABLE_SCREW } from '../../provenance/drives.js';

const screw = (diameter: string): Section => ({ ...TABLE_SCREW, diameter });
const systemOf = (more: Section = {}): DriveSystem => realise(dataOf(more));
const motor = (more: Section): Section => ({ motor: { ...OUTRUNNER, ...more } });
const parts = (a: DriveSystem, b: DriveSystem): WhyPartId[] => WHY_PARTS.filter((part) => differsIn(part, a, b));
const mixed = (a: DriveSystem, b: DriveSystem, ...from: readonly WhyPartId[]): DriveSystem =>
  mixedDrive(a, b, (part) => from.includes(part));

describe('two drives', () => {
  it('that are one differ in nothing', () => {
    expect(parts(systemOf(), systemOf())).toEqual([]);
    expect(overridesThatDiffer(systemOf(), systemOf())).toEqual([]);
    expect(waysThatDiffer(systemOf(), systemOf())).toEqual([]);
  });

  it.each<readonly [string, Section, readonly WhyPartId[]]>([
    [
      'rewound: Kv doubled, resistance and no-load current after it',
      { kv: '1840 rpm/V', resistance: '24 mohm', no_load: { current: '1.8 A', voltage: '5 V' } },
      ['speedConstant'],
    ],
    ['of another resistance', { resistance: '110 mohm' }, ['motorConstant', 'lossTorque']],
    ['of another no-load current', { no_load: { current: '1.1 A', voltage: '10 V' } }, ['lossTorque']],
    ['of another way within', { thermal: { winding_to_stator: '1.4 W/K' } }, ['heatPaths']],
    ['of another heat capacity', { thermal: { winding_capacity: '9 J/K' } }, ['heatCapacity']],
    ['of another rotor', { rotor_inertia: '9e-6 kg*m2' }, ['heatCapacity']],
    ['of another length of can', { can: { diameter: '27 mm', length: '34 mm' } }, ['heatPaths']],
  ])('%s', (_, more, expected) => {
    expect(parts(systemOf(), systemOf(motor(more)))).toEqual(expected);
  });

  it.each([
    ['the battery', { battery: { cells: { series: 3 }, capacity: '2.4 Ah' } }],
    ['the controller', { controller: { path_resistance: '6 mohm' } }],
    ['the wiring', { wiring: { resistance: '9 mohm' } }],
    ['the propeller or wheel', { propeller: screw('9.5 in') }],
    ['the surroundings', { ambient: { air: '30 °C' } }],
    ['the start', { start: { charge: '80 %' } }],
    ['other loads', { other_loads: '5 W' }],
    ['the number of drives', { drives: 2 }],
    ['the cooling air', { cooling: { air: { speed: '4 m/s' } } }],
  ] as const)('that differ in %s are told so', (words, more) => {
    expect(parts(systemOf(), systemOf(more))).toEqual(['overrides']);
    expect(overridesThatDiffer(systemOf(), systemOf(more))).toContain(words);
  });

  it('do not differ by limits, but for the cut-off, nor by what cooling takes of the space', () => {
    expect(parts(systemOf(), systemOf({ limits: { winding: '99 °C', reserve: '20 %' } }))).toEqual([]);
    expect(
      overridesThatDiffer(systemOf(), systemOf({ battery: { cells: { series: 3 }, capacity: '2.2 Ah', cell_cutoff: '3.5 V' } })),
    ).toEqual(['the battery']);
  });

  it.each<readonly [string, readonly string[]]>([
    ['the heat sink', ['heat.sink', 'heat.sideCovered']],
    ['the water jacket', ['heat.jacket']],
    ['the water coil', ['heat.coil']],
    ['the strap to the hull', ['heat.strap']],
    ['the controller', ['heat.controllerToAir', 'heat.controllerConvection', 'heat.capacity.controller', 'controller.pathResistance']],
    ['the battery', ['heat.cellsToAir', 'heat.cellsConvection', 'heat.capacity.cells', 'battery.capacity', 'limits.cellVoltage']],
    ['the air in the compartment', ['heat.compartmentAirSpeed', 'heat.compartmentSpeedShare']],
    ['the cooling air', ['heat.airSpeed', 'heat.vehicleSpeedShare', 'heat.slipstreamShare', 'heat.openness', 'heat.convectionFactor']],
    ['the can’s surface', ['heat.emissivity']],
    ['the place of a thermometer', ['heat.endPlace']],
    ['the rest of the motor’s sheet', ['motor.another']],
    ['the magnets’ grade and thickness', ['magnet']],
    ['the wiring', ['wiring.resistance']],
    ['the gear’s loss and mass', ['gearbox.efficiency', 'gearbox.mass']],
    ['the propeller or wheel', ['load.diameter']],
    ['the vehicle', ['vehicle.dragFactor']],
    ['the number of drives', ['drives']],
    ['the surroundings', ['surroundings.airPressure']],
    ['the start', ['start.charge']],
    ['other loads', ['otherLoads']],
    ['how the shaft’s speed follows', ['shaftSpeed']],
  ])('are told to differ in %s and in nothing else, number by number', (words, paths) => {
    const base = systemOf(boat());
    for (const path of paths) {
      const [section = '', ...rest] = path.split('.');
      const changed = (x: unknown, [key, ...more]: readonly string[]): unknown =>
        key === undefined
          ? typeof x === 'number' && Number.isFinite(x)
            ? x * 1.5 + 0.1
            : 'another'
          : { ...(x as object), [key]: changed((x as Section)[key], more) };
      const other = { ...base, [section]: changed(base[section as keyof DriveSystem], rest) };
      expect(overridesThatDiffer(base, other), path).toEqual([words]);
      expect(parts(base, other), path).toEqual(['overrides']);
    }
  });

  it('do not differ by what rounding leaves, in the tenth digit and beyond', () => {
    const base = systemOf();
    const by = (share: number) => parts(base, { ...base, battery: { ...base.battery, capacity: base.battery.capacity * (1 + share) } });
    expect([by(0), by(5e-10), by(-5e-10)]).toEqual([[], [], []]);
    expect([by(2e-9), by(-2e-9)]).toEqual([['overrides'], ['overrides']]);
  });

  it('differ in the words of each cooling', () => {
    const jacket = boat({ cooling: { water_jacket: { conductance: '1 W/K', at_speed: '3 m/s' } } });
    const coil = boat({ cooling: { water_coil: { bore: '3 mm', length: '60 cm' } } });
    const strap = boat({ cooling: { strap: { cross_section: '30 mm2', length: '80 mm' } } });
    expect(overridesThatDiffer(systemOf(boat()), systemOf(jacket))).toContain('the water jacket');
    expect(overridesThatDiffer(systemOf(boat()), systemOf(coil))).toContain('the water coil');
    expect(overridesThatDiffer(systemOf(boat()), systemOf(strap))).toContain('the strap to the hull');
  });
});

describe('a mixture', () => {
  const a = systemOf();
  const b = systemOf({
    motor: {
      ...OUTRUNNER,
      kv: '1300 rpm/V',
      resistance: '60 mohm',
      no_load: { current: '1.6 A', voltage: '10 V' },
      mass: '90 g',
      can: { diameter: '30 mm', length: '36 mm' },
      thermal: { winding_to_stator: '1.4 W/K' },
    },
    gearbox: { ratio: 2, efficiency: '95 %', mass: '30 g' },
    battery: { cells: { series: 3 }, capacity: '3 Ah' },
  });

  it('of no part is the one, of all the other', () => {
    expect(() => assertEnds(a, b, parts(a, b))).not.toThrow();
    expect(parts(a, mixed(a, b))).toEqual([]);
    expect(parts(b, mixed(a, b, ...WHY_PARTS))).toEqual([]);
    // one part forgotten is told
    expect(() => assertEnds(a, b, parts(a, b).slice(1))).toThrow(/No part of a drive has/);
  });

  it.each(parts(a, b))('of %s alone differs in that alone, from the one and from the other', (part) => {
    expect(parts(a, mixed(a, b, part))).toEqual([part]);
    expect(parts(b, mixed(b, a, part))).toEqual([part]);
  });

  it('takes winding, motor constant and loss at the driven shaft', () => {
    const kv = mixed(a, b, 'speedConstant').motor;
    expect(kv.torqueConstant).toBeCloseTo(2 * b.motor.torqueConstant, 12);
    expect(motorConstant(kv)).toBeCloseTo(motorConstant(a.motor), 12);
    // L/R stays
    expect(kv.inductance / kv.resistance).toBeCloseTo(a.motor.inductance / a.motor.resistance, 12);
    const size = mixed(a, b, 'motorConstant').motor;
    expect(motorConstant(size)).toBeCloseTo(2 * motorConstant(b.motor), 12);
    expect(size.torqueConstant).toBe(a.motor.torqueConstant);
    expect(size.inductance / size.resistance).toBeCloseTo((2 * b.motor.inductance) / b.motor.resistance, 12);
    const loss = mixed(a, b, 'lossTorque').motor;
    expect(loss.hysteresisTorque).toBeCloseTo(2 * b.motor.hysteresisTorque, 12);
    expect(loss.frictionTorque).toBeCloseTo(2 * b.motor.frictionTorque, 12);
    expect(loss.eddyTorque).toBeCloseTo(4 * b.motor.eddyTorque, 12);
    const bulk = mixed(a, b, 'heatCapacity').motor;
    expect(bulk.rotorInertia).toBeCloseTo(4 * b.motor.rotorInertia, 15);
    expect(bulk.mass).toBe(b.motor.mass);
    // the motor turns as the one whose heat paths it has
    const paths = mixed(a, b, 'heatPaths');
    expect([paths.gearbox.ratio, paths.motor.canDiameter]).toEqual([2, b.motor.canDiameter]);
    expect(paths.motor.torqueConstant).toBeCloseTo(a.motor.torqueConstant / 2, 12);
    expect(paths.motor.eddyTorque).toBeCloseTo(a.motor.eddyTorque / 4, 15);
    expect(mixed(a, b, 'overrides').battery.capacity).toBe(b.battery.capacity);
  });

  it('carries the mass of the motor that it has, once a drive', () => {
    const flown = (mass: string, drives = 1) => systemOf({ ...boat({ motor: { ...INRUNNER, mass } }), drives });
    const [light, heavy] = [flown('66 g', 2), flown('86 g', 2)];
    expect(mixed(light, heavy, 'heatCapacity').vehicle.mass).toBeCloseTo(heavy.vehicle.mass, 12);
    expect(heavy.vehicle.mass - light.vehicle.mass).toBeCloseTo(0.04, 12);
    expect(mixed(light, heavy, 'overrides').vehicle.mass).toBeCloseTo(light.vehicle.mass, 12);
  });
});

describe('ways for heat', () => {
  const a = systemOf(motor({}));
  it('differ one by one', () => {
    expect(waysThatDiffer(a, systemOf(motor({ thermal: { winding_to_stator: '1.4 W/K' } })))).toEqual(['inside']);
    expect(waysThatDiffer(a, systemOf({ cooling: { mount: { conductance: '0.3 W/K' } } }))).toEqual(['elsewhere']);
    const long = systemOf(motor({ can: { diameter: '27 mm', length: '40 mm' } }));
    expect(waysThatDiffer(a, long)).toContain('side');
    expect(waysThatDiffer(a, long)).not.toContain('ends');
    // a can that turns and one that does not are not exchanged way by way
    expect(waysThatDiffer(a, systemOf({ motor: INRUNNER }))).toEqual([]);
  });
  it('are exchanged where they are taken, the can with its side and ends', () => {
    const b = systemOf(motor({ can: { diameter: '30 mm', length: '40 mm' } }));
    const side = withWays(a, b, (way) => way === 'side');
    expect([side.heat.sideArea, side.heat.canLength, side.motor.canLength]).toEqual([b.heat.sideArea, 0.04, 0.04]);
    expect([side.heat.endArea, side.motor.canDiameter]).toEqual([a.heat.endArea, 0.027]);
    const ends = withWays(a, b, (way) => way === 'ends');
    expect([ends.heat.endArea, ends.motor.canDiameter, ends.motor.canLength]).toEqual([b.heat.endArea, 0.03, 0.032]);
    expect(withWays(a, b, () => false).heat).toEqual(a.heat);
  });
});
