/** The build list line by line: what was given of a part, in the units people buy it in, and nothing that was not given. */

import type { GivenDrive } from '@shaftwork/sim-core/provenance/given';
import { partsList } from '@shaftwork/sim-core/questions/run/parts-list';
import { expect, it } from 'vitest';
import { boat, INRUNNER, OUTRUNNER, preparedOf, type Section, TABLE_SCREW } from '../../provenance/drives.js';

const linesOf = (drive: Section) => partsList(preparedOf(drive).candidates[0].given);
/** The line's text with plain spaces. */
const line = (id: string, drive: Section): string | undefined =>
  linesOf(drive)
    .find((each) => each.id === id)
    ?.text.replace(/[\u00a0\u202f]/g, ' ');
const words = (id: string, drive: Section): string | undefined => linesOf(drive).find((each) => each.id === id)?.words;
const cooled = (cooling: Section, drive: Section = boat()): string | undefined => line('cooling', { ...drive, cooling });
const CAR: Section = { propeller: 'none', wheel: { radius: '40 mm' }, vehicle: { mass: '2 kg' } };

it('has a line for each part of which something was given, in the order of the drive', () => {
  expect(linesOf({}).map(({ id }) => id)).toEqual(['motor', 'windings', 'battery', 'load']);
  const whole = boat({
    controller: { path_resistance: '4 mohm' },
    wiring: { length: '30 cm' },
    gearbox: { ratio: 2 },
    cooling: { fan: { diameter: '30 mm', flow: '90 L/min' } },
  });
  expect(linesOf(whole).map((each) => each.words)).toEqual([
    'vehicle',
    'motor',
    'Kv and winding',
    'controller',
    'cells',
    'wiring',
    'gearbox',
    'propeller',
    'cooling',
  ]);
});

it('has no line where nothing was given', () => {
  const { place } = preparedOf({}).candidates[0].given;
  expect(partsList({ place })).toEqual([]);
  const plain = (given: Omit<GivenDrive, 'place'>) =>
    partsList({ place, ...given }).map(({ text }) => text.replace(/[\u00a0\u202f]/g, ' '));
  expect(plain({ motor: { place, can: {} }, gearbox: { place }, cooling: { place, heatSink: { place } }, battery: { place } })).toEqual([
    'heat sink',
  ]);
});

it('vehicle: its mass without what is counted apart, and drives where there are several', () => {
  expect(line('vehicle', boat())).toBe('3 kg without motor and battery');
  expect(line('vehicle', boat({ drives: 2 }))).toBe('3 kg without motor and battery, 2 drives');
  expect(line('vehicle', boat({ drives: 1 }))).toBe('3 kg without motor and battery');
});

it('motor: layout, mass, can, poles', () => {
  expect(line('motor', {})).toBe('outrunner, 66 g, can 27 mm × 32 mm');
  expect(line('motor', { motor: { ...INRUNNER, poles: 4, mass: '66.5 g' } })).toBe('inrunner, 66.5 g, can 27 mm × 32 mm, 4 poles');
});

it('windings: Kv, resistance, the first no-load point', () => {
  expect(line('windings', {})).toBe('920 rpm/V, 96 mΩ, no load 0.9 A at 10 V');
  const bare = { layout: 'outrunner', kv: '920 rpm/V', mass: '66 g', can: OUTRUNNER.can };
  expect(line('windings', { motor: bare })).toBe('920 rpm/V');
});

it('controller: limit, resistance, frequency', () => {
  const controller = { motor_current_limit: '60 A', path_resistance: '4.5 mohm', pwm_frequency: '16 kHz' };
  expect(line('controller', { controller })).toBe('limit 60 A, 4.5 mΩ, 16 kHz');
  expect(line('controller', { controller: { pwm_frequency: '8 kHz' } })).toBe('8 kHz');
});

it('battery: cells in series and parallel, chemistry, charge, resistance; or a bench’s supply', () => {
  const cells = { cells: { series: 3, parallel: 2 }, chemistry: 'lithium-ion', capacity: '2.2 Ah', cell_resistance: '5 mohm' };
  expect(line('battery', { battery: cells })).toBe('3 in series, 2 parallel, lithium ion, 2.2 A·h, 5 mΩ a cell');
  expect(line('battery', {})).toBe('3 in series, 2.2 A·h');
  expect(line('battery', { battery: { cells: { series: 3, parallel: 1 }, capacity: '2.2 Ah' } })).toBe('3 in series, 2.2 A·h');
  expect(words('battery', {})).toBe('cells');
  const supply = { battery: { supply: '12 V', current_limit: '20 A' } };
  expect([words('battery', supply), line('battery', supply)]).toEqual(['supply', '12 V, at most 20 A']);
});

it('wiring: a gauge where it is a whole one, else its cross-section', () => {
  expect(line('wiring', { wiring: { gauge: '12 AWG', length: '30 cm' } })).toBe('12 AWG, 30 cm');
  expect(line('wiring', { wiring: { length: '30 cm' } })).toBe('30 cm');
  expect(line('wiring', { wiring: { gauge: '2.5 mm2', resistance: '1.5 mohm' } })).toBe('2.5 mm², 1.5 mΩ');
});

it('gearbox and wheel', () => {
  expect(line('gearbox', { ...CAR, gearbox: { ratio: 5.4, efficiency: '95 %' } })).toBe('5.40 : 1, 95 %');
  expect([words('load', CAR), line('load', CAR)]).toEqual(['wheel', 'radius 40 mm']);
});

it('propeller: inches in air, millimetres in water, with pitch or its ratio, and blades', () => {
  expect([words('load', {}), line('load', {})]).toEqual(['propeller', '9 in']);
  const air = { kind: 'blade-element', diameter: '9 in', pitch: '4.5 in', blades: 3 };
  expect(line('load', { propeller: air })).toBe('9 in, pitch 4.5 in, 3 blades');
  expect(line('load', boat())).toBe('40 mm, pitch ratio 1.10');
  expect(line('load', boat({ propeller: { kind: 'marine-series', diameter: '40 mm', pitch: '44 mm' } }))).toBe('40 mm, pitch 44 mm');
  expect(line('load', boat({ propeller: { ...TABLE_SCREW, diameter: '50 mm', medium: 'water' } }))).toBe('50 mm');
});

it.each<readonly [Section, string]>([
  [{ water_jacket: { conductance: '1.2 W/K', at_speed: '3 m/s' } }, 'water jacket, 1.2 W/K at 3 m/s'],
  [{ water_coil: { bore: '3 mm', length: '60 cm', pump: '2 L/min' } }, 'water coil, bore 3 mm, length 60 cm, pump 2 L/min'],
  [
    { heat_sink: { fins: 9, fin_height: '8 mm', fin_thickness: '1 mm', length: '30 mm', breadth: '60 mm' } },
    'heat sink, 9 fins, 8 mm high',
  ],
  [{ strap: { cross_section: '30 mm2', length: '80 mm' } }, 'copper strap to the hull, 30 mm², length 80 mm'],
  [{ strap: { material: 'aluminium', cross_section: '30 mm2', length: '80 mm' } }, 'aluminium strap to the hull, 30 mm², length 80 mm'],
  [{ fan: { diameter: '30 mm', flow: '90 L/min' } }, 'fan, 30 mm, 90 L/min'],
  [{ mount: { conductance: '0.3 W/K' } }, 'mount, 0.3 W/K'],
  [{ mount: { plate: '40 cm2' } }, 'mount, plate of 40 cm²'],
  [{ mount: { conductance: '0.045 W/K' } }, 'mount, 0.045 W/K'],
  [{ mount: { conductance: '0.0102 W/K' } }, 'mount, 0.0102 W/K'],
  [{ air: { speed: '4 m/s' } }, 'air 4 m/s'],
  [{ air: { share_of_vehicle_speed: '35 %' } }, 'air 35 % of the vehicle speed'],
  [{ compartment: { speed: '2 m/s' } }, 'air past controller and pack, 2 m/s'],
  [{ compartment: { share_of_vehicle_speed: '20 %' } }, 'air past controller and pack, 20 % of the vehicle speed'],
  [{ mount: { plate: '40 cm2' }, fan: { diameter: '30 mm', flow: '90 L/min' } }, 'fan, 30 mm, 90 L/min, mount, plate of 40 cm²'],
])('cooling %j', (cooling, text) => {
  expect(cooled(cooling)).toBe(text);
});
it('cooling of an aircraft: the slipstream’s share, a cowl', () => {
  expect(cooled({ air: { share_of_slipstream: '40 %' } }, {})).toBe('air 40 % of the slipstream');
  expect(cooled({ air: { openness: '40 %' } }, {})).toBe('air');
  expect(cooled({ air: { cowl: { inlet: '6 cm2', gap: '4 mm' } } }, {})).toBe('cowl, inlet 6 cm², gap 4 mm');
});
