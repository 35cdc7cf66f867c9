/**
 * What people write: each kind of datum by its path of keys, its name, and how far a number of it is off where no ± stands beside it.
 *
 * What a person chooses is exact (throttle, limits, teeth of a gear, the weather of a scenario); so is a figure whose doubt another rule
 * already holds. What a sheet, a label or a quick measurement says is not: `± 0 %` says that it is.
 *
 * @module
 */

import { DIMENSION_FACTS } from '../quantities/dimension-facts.js';
import type { Dimension, Spread } from '../quantities/index.js';
import { type Datum, givenDatum, type Place } from './datum.js';
import type { DoubtGroup } from './rules/doubt-groups.js';
import { PRACTICE, percent, points, SURE } from './rules/spreads.js';

interface WrittenKind {
  readonly words?: string;
  /** 95 % interval of a number without ±: a share of it, an amount [SI], or none. */
  readonly off: { readonly share: number } | { readonly amount: number } | 'exact';
  readonly source: string;
  /** What it is narrowed with, where it may be off. */
  readonly group: DoubtGroup;
}

const share = (group: DoubtGroup, percentage: number, words?: string, source: string = PRACTICE): WrittenKind => ({
  group,
  off: { share: percentage },
  source,
  ...(words === undefined ? {} : { words }),
});
const amount = (group: DoubtGroup, of: number, words?: string): WrittenKind => ({
  group,
  off: { amount: of },
  source: PRACTICE,
  ...(words === undefined ? {} : { words }),
});
/** Off only where a ± is written beside it. */
const exact = (group: DoubtGroup, source: string, words?: string): WrittenKind => ({
  group,
  off: 'exact',
  source,
  ...(words === undefined ? {} : { words }),
});

const CHOSEN = 'chosen by whoever writes the scenario';
const BENCH = 'thirteen small outrunners on a thrust stand, their constants fitted and held against the label';
const MEMORY = 'scatter of constants fitted on benches about sheets (from memory)';
const IN_ERRORS = 'held by the errors of the coefficients, which were found with printed sizes';

const METER = 'meters of model builders; common practice, no published source';
const READ = {
  throttle: exact('other', 'a setting'),
  at: exact('other', 'a clock'),
  after: exact('other', 'a clock'),
  vehicle_speed: exact('other', 'a condition'),
  voltage: share('other', 1, 'voltage read', METER),
  battery_current: share('other', 3, 'battery current read', METER),
  motor_current: share('other', 5, 'motor current read', METER),
  shaft_speed: share('other', 0.5, 'speed read', METER),
  thrust: share('other', 3, 'thrust read', METER),
  resistance: share('other', 5, 'winding resistance read', METER),
  resistance_at: amount('other', 2, 'temperature of the winding when it was read'),
  can: amount('other', 2, 'temperature read on the can'),
  end: amount('other', 2, 'temperature read on the fixed end'),
  controller: amount('other', 2, 'temperature read on the controller'),
  cells: amount('other', 2, 'temperature read on the cells'),
  beside_coils: amount('other', 2, 'temperature read beside the coils'),
  in_slot: amount('other', 2, 'temperature read in a slot'),
  emissivity: exact('other', 'held by the error of a known emissivity'),
} as const satisfies Record<string, WrittenKind>;

const READINGS = Object.fromEntries(Object.entries(READ).map(([key, kind]) => [`readings.${key}`, kind])) as {
  readonly [K in keyof typeof READ as `readings.${K}`]: WrittenKind;
};

export const WRITTEN = {
  'ambient.air': exact('weather', CHOSEN, 'air temperature'),
  'ambient.altitude': exact('other', CHOSEN),
  'ambient.pressure': exact('other', CHOSEN),
  'ambient.water': exact('weather', CHOSEN, 'water temperature'),
  'ambient.compartment': exact('weather', CHOSEN, 'temperature under the hatch'),
  'start.charge': exact('other', CHOSEN),
  'start.temperature': exact('other', CHOSEN),
  'start.battery_temperature': exact('other', CHOSEN),

  'battery.capacity': share('pack-capacity', 6, 'pack capacity'),
  'battery.cell_resistance': share('cell-resistance', 30, 'cell resistance'),
  'battery.polarisation.resistance': share('cell-shape', 40),
  'battery.polarisation.time': share('cell-shape', 50),
  'battery.cell_cutoff': exact('other', CHOSEN),
  'battery.discharge_rating': exact('other', 'a limit'),
  'battery.mass': share('mass', 3, 'pack mass'),
  'battery.supply': share('other', 1, 'voltage of the supply'),
  'battery.current_limit': exact('other', 'a limit'),
  'battery.thermal.to_air': share('other', 40),
  'battery.thermal.capacity': share('other-capacity', 15),

  'wiring.gauge': exact('wiring', 'held by the error of the wiring’s resistance'),
  'wiring.length': exact('wiring', 'held by the error of the wiring’s resistance'),
  'wiring.resistance': share('wiring', 20),

  'controller.path_resistance': share('wiring', 30, 'controller path resistance'),
  'controller.motor_current_limit': exact('other', 'a limit'),
  'controller.battery_current_limit': exact('other', 'a limit'),
  'controller.pwm_frequency': exact('controller', 'a setting'),
  'controller.switching_time': share('other', 50),
  'controller.voltage_loss': share('ripple', 40),
  'controller.dead_time': share('other', 50),
  'controller.derating.from': exact('other', 'a setting'),
  'controller.derating.to': exact('other', 'a setting'),
  'controller.idle_current': share('controller', 30, 'controller idle current'),
  'controller.mass': share('mass', 5),
  'controller.thermal.to_air': share('other', 40),
  'controller.thermal.capacity': share('other-capacity', 20),

  'motor.kv': share('kv', 9, 'Kv', BENCH),
  'motor.resistance': share('resistance', 25, 'winding resistance', MEMORY),
  'motor.inductance': share('inductance', 20),
  'motor.resistance_at': exact('other', 'a condition'),
  'motor.no_load.speed': share('no-load', 3, 'no-load speed', 'catalogue no-load speeds about kn·(V − R·I0), 1 to 2 %'),
  'motor.no_load.current': share('no-load', 30, 'no-load current', MEMORY),
  'motor.no_load.voltage': exact('no-load', 'held by the error of the no-load current'),
  'motor.mass': share('mass', 4, 'motor mass'),
  'motor.can.diameter': share('other', 1.5, 'can diameter'),
  'motor.can.length': share('other', 3, 'can length'),
  'motor.stack_length': share('other', 4, 'stack length'),
  'motor.stator_diameter': share('other', 2, 'stator diameter'),
  'motor.rotor_inertia': share('other', 20),
  'motor.magnet_thickness': share('other', 10),
  'motor.air_gap': share('other', 25),
  'motor.thermal.winding_to_stator': share('slot-contact', 40, 'heat path from winding to stator'),
  'motor.thermal.stator_to_can': share('way-within', 40, 'heat path from stator to can'),
  'motor.thermal.can_to_air': share('way-to-air', 40, 'heat path from can to air'),
  'motor.thermal.stator_to_air.conductance': share('way-to-air', 40, 'air through the motor'),
  'motor.thermal.stator_to_air.at_speed': exact('other', 'held by the error of the conductance'),
  'motor.thermal.winding_to_housing': share('slot-contact', 25, 'heat path from winding to housing'),
  'motor.thermal.housing_to_ambient': share('way-to-air', 25, 'heat path from housing to ambient'),
  'motor.thermal.winding_capacity': share('winding-capacity', 20),
  'motor.thermal.stator_capacity': share('other-capacity', 20),
  'motor.thermal.can_capacity': share('other-capacity', 20),
  'motor.label_kv': exact('other', 'what a label says'),
  'motor.label_resistance': exact('other', 'what a sheet says'),
  'motor.readings.resistance': READ.resistance,
  'motor.readings.resistance_at': READ.resistance_at,
  ...READINGS,
  'motor.maker_limits.current': exact('other', 'a limit'),
  'motor.maker_limits.voltage': exact('other', 'a limit'),
  'motor.maker_limits.input_power': exact('other', 'a limit'),
  'motor.maker_limits.shaft_speed': exact('other', 'a limit'),

  'gearbox.ratio': exact('other', 'teeth are counted'),
  'gearbox.efficiency': amount('other', 0.02),
  'gearbox.mass': share('mass', 5),

  'propeller.diameter': exact('other', IN_ERRORS),
  'propeller.pitch': exact('other', IN_ERRORS),
  'propeller.pitch_ratio': exact('other', IN_ERRORS),
  'propeller.area_ratio': exact('other', IN_ERRORS),
  'propeller.immersion': exact('other', CHOSEN),
  'propeller.wake_fraction': amount('other', 0.04, 'wake fraction'),
  'propeller.thrust_deduction': amount('other', 0.03, 'thrust deduction'),
  'propeller.shaft_efficiency': amount('other', 0.03, 'efficiency of shaft and bearings'),
  'propeller.inertia': share('other', 30),
  'propeller.thrust_factor': share('propeller', 5, 'factor on the propeller’s thrust'),
  'propeller.power_factor': share('propeller', 5, 'factor on the propeller’s power'),
  'propeller.points.shaft_speed': exact('other', 'turns are counted'),
  'propeller.points.thrust': share('other', 5),
  'propeller.points.torque': share('other', 5),
  'propeller.points.shaft_power': share('other', 5),
  'propeller.points.battery_current': share('other', 5),
  'propeller.points.voltage': share('other', 1),
  'propeller.points.throttle': exact('other', 'a setting'),
  'propeller.points.vehicle_speed': exact('other', 'a condition'),
  'propeller.measured_at.air': exact('other', 'a condition'),
  'propeller.measured_at.altitude': exact('other', 'a condition'),

  'wheel.radius': share('other', 2),
  'wheel.rolling_resistance': share('ground', 30, 'rolling resistance'),
  'wheel.drag_area': share('drag', 15),
  'wheel.grip': share('ground', 20, 'grip of the tyres'),
  'wheel.driven_share': exact('other', 'a layout'),
  'wheel.inertia': share('other', 20),

  'vehicle.mass': share('mass', 3, 'vehicle mass'),
  'vehicle.added_mass': amount('other', 0.04),
  'vehicle.drag_factor': share('drag', 10, 'factor on the vehicle’s drag'),
  'vehicle.drag_area': share('drag', 15),
  'vehicle.wing.area': share('other', 2),
  'vehicle.wing.aspect_ratio': share('other', 3),
  'vehicle.wing.span_efficiency': share('other', 10),
  'vehicle.wing.zero_lift_drag': share('drag', 20),
  'vehicle.wing.most_lift': share('other', 10),

  'cooling.water_jacket.conductance': share('water-jacket', 30, 'conductance of the water jacket'),
  'cooling.water_jacket.at_speed': exact('other', 'a condition', 'speed the water jacket was rated at'),
  'cooling.water_jacket.rest_share': amount('water-jacket', 0.06, 'share of the water jacket left at rest'),
  'cooling.water_jacket.thickness': exact('other', 'held by the space'),
  'cooling.water_coil.bore': share('other', 3),
  'cooling.water_coil.length': share('other', 5),
  'cooling.water_coil.share_of_boat_speed': amount('other', 0.15),
  'cooling.water_coil.contact': share('other', 50),
  'cooling.heat_sink.fin_height': share('other', 3),
  'cooling.heat_sink.fin_thickness': share('other', 8),
  'cooling.heat_sink.length': share('other', 2),
  'cooling.heat_sink.breadth': share('other', 2),
  'cooling.heat_sink.contact': share('other', 50),
  'cooling.heat_sink.coverage': amount('other', 0.1),
  'cooling.mount.conductance': share('way-to-air', 50),
  'cooling.mount.plate': share('way-to-air', 5, 'plate the motor stands on'),
  'cooling.fan.diameter': share('other', 2),
  'cooling.fan.flow': share('other', 15, 'flow of the fan'),
  'cooling.fan.power': share('other', 15),
  'cooling.fan.mass': share('mass', 10),
  'cooling.strap.cross_section': share('other', 5),
  'cooling.strap.length': share('other', 5),
  'cooling.strap.contact': share('other', 50),
  'cooling.compartment.speed': share('other', 30),
  'cooling.compartment.share_of_vehicle_speed': amount('other', 0.1),
  'cooling.air.cowl.inlet': share('other', 5),
  'cooling.air.cowl.gap': share('other', 10),
  'cooling.water_coil.pump': share('other', 15, 'flow of the pump'),
  'cooling.air.speed': share('other', 20, 'air speed at the motor'),
  'cooling.air.share_of_vehicle_speed': amount('other', 0.15),
  'cooling.air.share_of_slipstream': amount('other', 0.15),
  'cooling.air.openness': amount('way-within', 0.15),

  'limits.winding': exact('other', 'a limit'),
  'limits.magnets': exact('other', 'a limit'),
  'limits.controller': exact('other', 'a limit'),
  'limits.cells': exact('other', 'a limit'),
  'limits.reserve': exact('other', 'a limit'),
  'limits.battery_power': exact('other', 'a limit'),
  'limits.energy': exact('other', 'a limit'),
  'limits.run_time': exact('other', 'a limit'),
  'space.diameter': exact('other', 'a limit'),
  'space.length': exact('other', 'a limit'),
  'space.mass': exact('other', 'a limit'),
  other_loads: share('other', 20, 'other loads on the pack'),
} as const satisfies Record<string, WrittenKind>;

/** The kind of datum that stands at a path of keys, without candidate and list numbers. Throws Error for a key that was forgotten above. */
function kindOf(subject: string): WrittenKind {
  const found = (WRITTEN as Readonly<Record<string, WrittenKind>>)[subject];
  if (found === undefined) throw new Error(`No rule says how exact ${subject} is without a tolerance.`);
  return found;
}

function usualSpread({ off }: WrittenKind, dimension: Dimension, value: number): Spread {
  if (off === 'exact') return SURE;
  if ('amount' in off) return points(off.amount);
  return DIMENSION_FACTS[dimension].spread === 'normal' ? points((off.share / 100) * Math.abs(value)) : percent(off.share);
}

/** How far a number of this kind is off where no ± stands beside it, as a share (95 %) [1]; NaN where it is no share. */
export function usualShare(subject: keyof typeof WRITTEN): number {
  const { off } = kindOf(subject);
  return off !== 'exact' && 'share' in off ? off.share / 100 : Number.NaN;
}

/** A datum a person wrote; without a `written` tolerance it gets the one of its kind. */
export function writtenDatum<D extends Dimension>(
  subject: string,
  dimension: D,
  value: number,
  written: Spread | undefined,
  place: Place,
  source?: string,
): Datum<D> {
  if (written !== undefined) return givenDatum(subject, dimension, value, written, place, source);
  const kind = kindOf(subject);
  const datum = givenDatum(subject, dimension, value, usualSpread(kind, dimension, value), place, source);
  return datum.unknown.spread.shape === 'none' ? datum : { ...datum, origin: { ...datum.origin, usual: kind.source } };
}

/** The group of doubt of what stands at a path. */
export const writtenGroup = (subject: string): DoubtGroup => kindOf(subject).group;

/** Words for what stands at a path; one without words of its own is read out: "battery.polarisation.time" → "time of the battery’s polarisation". */
export function writtenWords(subject: string): string {
  const { words } = kindOf(subject);
  if (words !== undefined) return words;
  const keys = subject.split('.').map((key) => key.replaceAll('_', ' '));
  return keys.length === 1 ? keys[0] : `${keys.slice(1).join(' ')} of the ${keys[0]}`;
}
