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
import { PRACTICE, percent, points, SURE } from './rules/spreads.js';

interface WrittenKind {
  readonly words?: string;
  /** 95 % interval of a number without ±: a share of it, an amount [SI], or none. */
  readonly off: { readonly share: number } | { readonly amount: number } | 'exact';
  readonly source: string;
}

const share = (percentage: number, words?: string, source: string = PRACTICE): WrittenKind => ({
  off: { share: percentage },
  source,
  ...(words === undefined ? {} : { words }),
});
const amount = (of: number, words?: string): WrittenKind => ({
  off: { amount: of },
  source: PRACTICE,
  ...(words === undefined ? {} : { words }),
});
const exact = (source: string, words?: string): WrittenKind => ({ off: 'exact', source, ...(words === undefined ? {} : { words }) });

const CHOSEN = 'chosen by whoever writes the scenario';
const BENCH = 'thirteen small outrunners on a thrust stand, their constants fitted and held against the label';
const MEMORY = 'scatter of constants fitted on benches about sheets (from memory)';
const IN_ERRORS = 'held by the errors of the coefficients, which were found with printed sizes';

const METER = 'meters of model builders; common practice, no published source';
const READ = {
  throttle: exact('a setting'),
  at: exact('a clock'),
  after: exact('a clock'),
  vehicle_speed: exact('a condition'),
  voltage: share(1, 'voltage read', METER),
  battery_current: share(3, 'battery current read', METER),
  motor_current: share(5, 'motor current read', METER),
  shaft_speed: share(0.5, 'speed read', METER),
  thrust: share(3, 'thrust read', METER),
  resistance: share(5, 'winding resistance read', METER),
  resistance_at: amount(2, 'temperature of the winding when it was read'),
  can: amount(2, 'temperature read on the can'),
  end: amount(2, 'temperature read on the fixed end'),
  controller: amount(2, 'temperature read on the controller'),
  cells: amount(2, 'temperature read on the cells'),
  beside_coils: amount(2, 'temperature read beside the coils'),
  in_slot: amount(2, 'temperature read in a slot'),
  emissivity: exact('held by the error of a known emissivity'),
} as const satisfies Record<string, WrittenKind>;

const READINGS = Object.fromEntries(Object.entries(READ).map(([key, kind]) => [`readings.${key}`, kind])) as {
  readonly [K in keyof typeof READ as `readings.${K}`]: WrittenKind;
};

export const WRITTEN = {
  'ambient.air': exact(CHOSEN, 'air temperature'),
  'ambient.altitude': exact(CHOSEN),
  'ambient.pressure': exact(CHOSEN),
  'ambient.water': exact(CHOSEN, 'water temperature'),
  'ambient.compartment': exact(CHOSEN, 'temperature under the hatch'),
  'start.charge': exact(CHOSEN),
  'start.temperature': exact(CHOSEN),
  'start.battery_temperature': exact(CHOSEN),

  'battery.capacity': share(6, 'pack capacity'),
  'battery.cell_resistance': share(30, 'cell resistance'),
  'battery.polarisation.resistance': share(40),
  'battery.polarisation.time': share(50),
  'battery.cell_cutoff': exact(CHOSEN),
  'battery.discharge_rating': exact('a limit'),
  'battery.mass': share(3, 'pack mass'),
  'battery.supply': share(1, 'voltage of the supply'),
  'battery.current_limit': exact('a limit'),
  'battery.thermal.to_air': share(40),
  'battery.thermal.capacity': share(15),

  'wiring.gauge': exact('held by the error of the wiring’s resistance'),
  'wiring.length': exact('held by the error of the wiring’s resistance'),
  'wiring.resistance': share(20),

  'controller.path_resistance': share(30, 'controller path resistance'),
  'controller.motor_current_limit': exact('a limit'),
  'controller.battery_current_limit': exact('a limit'),
  'controller.pwm_frequency': exact('a setting'),
  'controller.switching_time': share(50),
  'controller.voltage_loss': share(40),
  'controller.dead_time': share(50),
  'controller.derating.from': exact('a setting'),
  'controller.derating.to': exact('a setting'),
  'controller.idle_current': share(30, 'controller idle current'),
  'controller.mass': share(5),
  'controller.thermal.to_air': share(40),
  'controller.thermal.capacity': share(20),

  'motor.kv': share(9, 'Kv', BENCH),
  'motor.resistance': share(25, 'winding resistance', MEMORY),
  'motor.inductance': share(20),
  'motor.resistance_at': exact('a condition'),
  'motor.no_load.speed': share(3, 'no-load speed', 'catalogue no-load speeds about kn·(V − R·I0), 1 to 2 %'),
  'motor.no_load.current': share(30, 'no-load current', MEMORY),
  'motor.no_load.voltage': exact('held by the error of the no-load current'),
  'motor.mass': share(4, 'motor mass'),
  'motor.can.diameter': share(1.5, 'can diameter'),
  'motor.can.length': share(3, 'can length'),
  'motor.stack_length': share(4, 'stack length'),
  'motor.stator_diameter': share(2, 'stator diameter'),
  'motor.rotor_inertia': share(20),
  'motor.magnet_thickness': share(10),
  'motor.air_gap': share(25),
  'motor.thermal.winding_to_stator': share(40, 'heat path from winding to stator'),
  'motor.thermal.stator_to_can': share(40, 'heat path from stator to can'),
  'motor.thermal.can_to_air': share(40, 'heat path from can to air'),
  'motor.thermal.stator_to_air.conductance': share(40, 'air through the motor'),
  'motor.thermal.stator_to_air.at_speed': exact('held by the error of the conductance'),
  'motor.thermal.winding_to_housing': share(25, 'heat path from winding to housing'),
  'motor.thermal.housing_to_ambient': share(25, 'heat path from housing to ambient'),
  'motor.thermal.winding_capacity': share(20),
  'motor.thermal.stator_capacity': share(20),
  'motor.thermal.can_capacity': share(20),
  'motor.label_kv': exact('what a label says'),
  'motor.label_resistance': exact('what a sheet says'),
  'motor.readings.resistance': READ.resistance,
  'motor.readings.resistance_at': READ.resistance_at,
  ...READINGS,
  'motor.maker_limits.current': exact('a limit'),
  'motor.maker_limits.voltage': exact('a limit'),
  'motor.maker_limits.input_power': exact('a limit'),
  'motor.maker_limits.shaft_speed': exact('a limit'),

  'gearbox.ratio': exact('teeth are counted'),
  'gearbox.efficiency': amount(0.02),
  'gearbox.mass': share(5),

  'propeller.diameter': exact(IN_ERRORS),
  'propeller.pitch': exact(IN_ERRORS),
  'propeller.pitch_ratio': exact(IN_ERRORS),
  'propeller.area_ratio': exact(IN_ERRORS),
  'propeller.immersion': exact(CHOSEN),
  'propeller.wake_fraction': amount(0.04, 'wake fraction'),
  'propeller.thrust_deduction': amount(0.03, 'thrust deduction'),
  'propeller.shaft_efficiency': amount(0.03, 'efficiency of shaft and bearings'),
  'propeller.inertia': share(30),
  'propeller.thrust_factor': share(5, 'factor on the propeller’s thrust'),
  'propeller.power_factor': share(5, 'factor on the propeller’s power'),
  'propeller.points.shaft_speed': exact('turns are counted'),
  'propeller.points.thrust': share(5),
  'propeller.points.torque': share(5),
  'propeller.points.shaft_power': share(5),
  'propeller.points.battery_current': share(5),
  'propeller.points.voltage': share(1),
  'propeller.points.throttle': exact('a setting'),
  'propeller.points.vehicle_speed': exact('a condition'),
  'propeller.measured_at.air': exact('a condition'),
  'propeller.measured_at.altitude': exact('a condition'),

  'wheel.radius': share(2),
  'wheel.rolling_resistance': share(30, 'rolling resistance'),
  'wheel.drag_area': share(15),
  'wheel.grip': share(20, 'grip of the tyres'),
  'wheel.driven_share': exact('a layout'),
  'wheel.inertia': share(20),

  'vehicle.mass': share(3, 'vehicle mass'),
  'vehicle.added_mass': amount(0.04),
  'vehicle.drag_factor': share(10, 'factor on the vehicle’s drag'),
  'vehicle.drag_area': share(15),
  'vehicle.wing.area': share(2),
  'vehicle.wing.aspect_ratio': share(3),
  'vehicle.wing.span_efficiency': share(10),
  'vehicle.wing.zero_lift_drag': share(20),
  'vehicle.wing.most_lift': share(10),

  'cooling.water_jacket.conductance': share(30, 'conductance of the water jacket'),
  'cooling.water_jacket.at_speed': exact('a condition', 'speed the water jacket was rated at'),
  'cooling.water_jacket.rest_share': amount(0.06, 'share of the water jacket left at rest'),
  'cooling.water_jacket.thickness': exact('held by the space'),
  'cooling.water_coil.bore': share(3),
  'cooling.water_coil.length': share(5),
  'cooling.water_coil.share_of_boat_speed': amount(0.15),
  'cooling.water_coil.contact': share(50),
  'cooling.heat_sink.fin_height': share(3),
  'cooling.heat_sink.fin_thickness': share(8),
  'cooling.heat_sink.length': share(2),
  'cooling.heat_sink.breadth': share(2),
  'cooling.heat_sink.contact': share(50),
  'cooling.heat_sink.coverage': amount(0.1),
  'cooling.mount.conductance': share(50),
  'cooling.mount.plate': share(5, 'plate the motor stands on'),
  'cooling.fan.diameter': share(2),
  'cooling.fan.flow': share(15, 'flow of the fan'),
  'cooling.fan.power': share(15),
  'cooling.fan.mass': share(10),
  'cooling.strap.cross_section': share(5),
  'cooling.strap.length': share(5),
  'cooling.strap.contact': share(50),
  'cooling.compartment.speed': share(30),
  'cooling.compartment.share_of_vehicle_speed': amount(0.1),
  'cooling.air.cowl.inlet': share(5),
  'cooling.air.cowl.gap': share(10),
  'cooling.water_coil.pump': share(15, 'flow of the pump'),
  'cooling.air.speed': share(20, 'air speed at the motor'),
  'cooling.air.share_of_vehicle_speed': amount(0.15),
  'cooling.air.share_of_slipstream': amount(0.15),
  'cooling.air.openness': amount(0.15),

  'limits.winding': exact('a limit'),
  'limits.magnets': exact('a limit'),
  'limits.controller': exact('a limit'),
  'limits.cells': exact('a limit'),
  'limits.reserve': exact('a limit'),
  'limits.battery_power': exact('a limit'),
  'limits.energy': exact('a limit'),
  'limits.run_time': exact('a limit'),
  'space.diameter': exact('a limit'),
  'space.length': exact('a limit'),
  'space.mass': exact('a limit'),
  other_loads: share(20, 'other loads on the pack'),
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

/** Words for what stands at a path; one without words of its own is read out: "battery.polarisation.time" → "time of the battery’s polarisation". */
export function writtenWords(subject: string): string {
  const { words } = kindOf(subject);
  if (words !== undefined) return words;
  const keys = subject.split('.').map((key) => key.replaceAll('_', ' '));
  return keys.length === 1 ? keys[0] : `${keys.slice(1).join(' ')} of the ${keys[0]}`;
}
