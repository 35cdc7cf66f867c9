/** Drives that between them use every key of the schema, each where it has something to say. Invented parts. */

export type Plain = string | number | boolean | readonly Plain[] | { readonly [key: string]: Plain };
export type Drive = { readonly [key: string]: Plain };

const PACK = { cells: { series: 4 }, capacity: '4 Ah' };
const INRUNNER = {
  layout: 'inrunner',
  kv: '900 rpm/V',
  resistance: '40 mohm',
  no_load: { current: '1.2 A', voltage: '10 V' },
  mass: '180 g',
  can: { diameter: '36 mm', length: '50 mm' },
};
const OUTRUNNER = {
  layout: 'outrunner',
  kv: '900 rpm/V',
  resistance: '70 mohm',
  no_load: { current: '0.9 A', voltage: '10 V' },
  mass: '90 g',
  can: { diameter: '32 mm', length: '34 mm' },
};
const SCREW = { kind: 'marine-series', diameter: '45 mm', pitch_ratio: 1.1 };
const AIR_SCREW = { kind: 'blade-element', diameter: '9 in', pitch: '5 in' };
const HULL = { mass: '3 kg', drag: [{ speed: '3 m/s', force: '12 N' }] };
const WATER = { water: '14 °C' };
const RUN = [{ for: '3 s', throttle: '70 %' }];
const drive = (more: Drive): Drive => ({ battery: PACK, profile: RUN, ...more });
const boat = (more: Drive): Drive => drive({ ambient: WATER, motor: INRUNNER, propeller: SCREW, vehicle: HULL, ...more });
const aircraft = (more: Drive): Drive => drive({ motor: OUTRUNNER, propeller: AIR_SCREW, ...more });
const WING = { area: '0.4 m2', aspect_ratio: 8, span_efficiency: '0.8', zero_lift_drag: '0.03', most_lift: '1.2' };
const SINK = { fins: 9, fin_height: '8 mm', fin_thickness: '1 mm', length: '40 mm', breadth: '60 mm' };
/** Points read on a bench, torque by the current. */
const READ = [{ shaft_speed: '6000 rpm', battery_current: '7 A', voltage: '11 V', throttle: '80 %', thrust: '4 N' }];

export const DRIVES: Readonly<Record<string, Drive>> = {
  boat: boat({
    ambient: { air: '24 °C', altitude: '310 m', water: '14 °C', water_kind: 'fresh', compartment: '36 °C' },
    battery: {
      chemistry: 'lithium-polymer',
      cells: { series: 4, parallel: 2 },
      capacity: '6.2 Ah',
      cell_resistance: '2.6 mohm',
      polarisation: { resistance: '2 mohm', time: '5 s' },
      cell_cutoff: '3.3 V',
      discharge_rating: '45 C',
      mass: '590 g',
      thermal: { to_air: '0.4 W/K', capacity: '590 J/K' },
    },
    start: { charge: '90 %', temperature: '25 °C', battery_temperature: '30 °C' },
    wiring: { gauge: '3.3 mm2', length: '30 cm', connectors: 2 },
    controller: {
      path_resistance: '3 mohm',
      pwm_frequency: '16 kHz',
      switching_time: '120 ns',
      voltage_loss: '0.5 W',
      dead_time: '1 us',
      idle_current: '70 mA',
      freewheeling: 'synchronous',
      drive: 'block',
      mass: '65 g',
      thermal: { to_air: '0.4 W/K', capacity: '50 J/K' },
    },
    motor: { ...INRUNNER, resistance_at: '25 °C', resistance_between: 'lines', inductance: '24 uH', poles: 4, kv_measured: 'no-load' },
    gearbox: { ratio: '1.5', efficiency: '95 %', mass: '34 g' },
    propeller: {
      ...SCREW,
      blades: 3,
      area_ratio: '0.6',
      immersion: '5 mm',
      wake_fraction: '0.08',
      thrust_deduction: '0.06',
      shaft_efficiency: '92 %',
    },
    vehicle: { ...HULL, added_mass: '8 %', drag_factor: '1' },
    cooling: { water_jacket: { conductance: '1.8 W/K', at_speed: '3 m/s', rest_share: '12 %', thickness: '3 mm', covers: 'can' } },
    limits: {
      winding: '130 °C',
      magnets: '100 °C',
      controller: '95 °C',
      cells: '60 °C',
      reserve: '20 %',
      battery_power: '500 W',
      energy: '50 Wh',
      run_time: '10 min',
    },
    space: { diameter: '48 mm', length: '80 mm', mass: '320 g' },
    other_loads: '10 W',
    drives: 2,
  }),
  'hot controller': boat({
    start: { temperature: '95 °C', battery_temperature: '25 °C' },
    limits: { controller: '119 °C' },
    controller: { motor_current_limit: '15 A', derating: { from: '90 °C', to: '120 °C' } },
    wiring: { resistance: '4 mohm' },
  }),
  'little current': boat({ controller: { battery_current_limit: '5 A', mass: '40 g' } }),
  'a screw too small': boat({
    battery: { cells: { series: 6 }, capacity: '4 Ah' },
    propeller: { ...SCREW, diameter: '36 mm', area_ratio: '0.3', immersion: '30 mm' },
    vehicle: { mass: '40 kg', drag: [{ speed: '3 m/s', force: '60 N' }] },
    profile: [{ for: '20 s', throttle: '100 %' }],
  }),
  'a lake in the hills': aircraft({ ambient: { pressure: '900 hPa', air: '20 °C' } }),
  coil: boat({
    cooling: {
      water_coil: { bore: '3 mm', length: '60 cm', share_of_boat_speed: '25 %', pump: '0.8 L/min', contact: '2 W/K', covers: 'can' },
    },
  }),
  'coil of an outrunner': boat({ motor: OUTRUNNER, cooling: { water_coil: { bore: '3 mm', length: '40 cm', covers: 'mount' } } }),
  strap: boat({ cooling: { strap: { material: 'copper', cross_section: '30 mm2', length: '80 mm', contact: '0.6 W/K', covers: 'can' } } }),
  'strap of an outrunner': boat({ motor: OUTRUNNER, cooling: { strap: { cross_section: '30 mm2', length: '80 mm', covers: 'mount' } } }),
  sink: aircraft({
    motor: INRUNNER,
    cooling: { heat_sink: { ...SINK, material: 'aluminium', joint: 'tape', coverage: '60 %', covers: 'can' }, air: { speed: '4 m/s' } },
  }),
  'sink with a known joint': aircraft({ motor: INRUNNER, cooling: { heat_sink: { ...SINK, contact: '5 W/K' } } }),
  fan: aircraft({
    motor: INRUNNER,
    space: { diameter: '60 mm', length: '80 mm', mass: '400 g' },
    cooling: { fan: { diameter: '40 mm', flow: '180 L/min', power: '1 W', mass: '16 g' } },
  }),
  bay: aircraft({
    ambient: { air: '20 °C', compartment: '36 °C' },
    cooling: {
      compartment: { speed: '1 m/s', share_of_vehicle_speed: '10 %' },
      mount: { plate: '120 cm2' },
      air: { from: 'outside', openness: '70 %' },
    },
    profile: [{ for: '3 s', throttle: '70 %', vehicle_speed: '10 m/s' }],
  }),
  mount: aircraft({ cooling: { mount: { conductance: '0.3 W/K' } } }),
  shares: aircraft({
    cooling: { air: { share_of_vehicle_speed: '60 %', share_of_slipstream: '40 %' } },
    profile: [{ for: '3 s', throttle: '70 %', vehicle_speed: '10 to 14 m/s' }],
  }),
  cowl: aircraft({
    cooling: { air: { cowl: { inlet: '5 cm2', gap: '4 mm' } } },
    profile: [{ for: '3 s', throttle: '70 %', vehicle_speed: '10 m/s' }],
  }),
  wing: aircraft({ vehicle: { mass: '1.5 kg', wing: WING }, profile: [{ for: '20 s', throttle: '90 %', vehicle_speed: '14 m/s' }] }),
  climber: aircraft({
    vehicle: { mass: '1.5 kg', wing: WING },
    profile: [{ for: '20 s', vehicle_speed: '14 m/s', climb: '1 to 1.5 m/s' }],
  }),
  slow: aircraft({ vehicle: { mass: '1.5 kg', wing: WING }, profile: [{ for: '5 s', vehicle_speed: '7.5 m/s' }] }),
  'drag area': aircraft({ vehicle: { mass: '1.5 kg', drag_area: '0.02 m2' } }),
  hill: drive({
    motor: INRUNNER,
    gearbox: { ratio: '8' },
    wheel: { radius: '45 mm', rolling_resistance: '0.05', drag_area: '0.04 m2', grip: '0.5', driven_share: '55 %', inertia: '2e-4 kg*m2' },
    vehicle: { mass: '3 kg' },
    profile: [
      { for: '2 s', throttle: '60 to 100 %' },
      { for: '2 s', vehicle_speed: '3 m/s', grade: '5 %' },
    ],
  }),
  brake: drive({
    motor: INRUNNER,
    gearbox: { ratio: '8' },
    wheel: { radius: '45 mm' },
    vehicle: { mass: '3 kg' },
    controller: { braking: 'regenerative', freewheeling: 'diode' },
    profile: [
      { for: '3 s', throttle: '60 %' },
      { for: '2 s', throttle: '10 %' },
    ],
  }),
  inertia: aircraft({
    solver: { shaft_speed: 'with-inertia' },
    motor: { ...OUTRUNNER, rotor_inertia: '6e-6 kg*m2' },
    propeller: { ...AIR_SCREW, inertia: '2e-5 kg*m2', blades: 2, family: 'thin' },
    profile: [{ for: '1 s', throttle: '40 to 100 %' }],
  }),
  folding: aircraft({
    propeller: { ...AIR_SCREW, folding: true },
    vehicle: { mass: '1.5 kg', wing: WING },
    profile: [
      { for: '10 s', throttle: '90 %' },
      { for: '5 s', throttle: '0 %' },
    ],
  }),
  'measured blade': aircraft({
    propeller: {
      ...AIR_SCREW,
      stations: [
        { radius: 0.3, chord: 0.17, twist: '34°' },
        { radius: 0.6, chord: 0.2, twist: '20°' },
        { radius: 0.95, chord: 0.1, twist: '11°' },
      ],
    },
  }),
  table: aircraft({
    propeller: {
      kind: 'coefficients',
      diameter: '9 in',
      medium: 'air',
      thrust_factor: '1',
      power_factor: '1',
      table: [
        { advance_ratio: 0.1, thrust: 0.1, power: 0.05 },
        { advance_ratio: 0.7, thrust: 0.01, power: 0.02 },
      ],
    },
    profile: [{ for: '3 s', throttle: '70 %', vehicle_speed: '5 m/s' }],
  }),
  points: aircraft({
    propeller: {
      kind: 'measured-points',
      diameter: '9 in',
      measured_at: { air: '5 °C', altitude: '900 m' },
      points: [
        { shaft_speed: '6000 rpm', thrust: '4 N', torque: '60 mN·m', vehicle_speed: '0 m/s' },
        { shaft_speed: '6000 rpm', thrust: '2 N', torque: '50 mN·m', vehicle_speed: '9 m/s' },
      ],
    },
    profile: [{ for: '3 s', throttle: '70 %', vehicle_speed: '5 m/s' }],
  }),
  'points by power': aircraft({
    propeller: { kind: 'measured-points', diameter: '9 in', points: [{ shaft_speed: '6000 rpm', shaft_power: '40 W', thrust: '4 N' }] },
  }),
  'read with another motor': {
    ...aircraft({ propeller: { kind: 'measured-points', diameter: '9 in', measured_with: 'A', points: READ } }),
    candidates: [
      { name: 'A', motor: OUTRUNNER },
      { name: 'B', motor: { ...OUTRUNNER, kv: '950 rpm/V', resistance: '90 mohm' } },
    ],
  },
  'read with its own motor': aircraft({ propeller: { kind: 'measured-points', diameter: '9 in', measured_with: 'A', points: READ } }),
  magnets: aircraft({
    motor: {
      ...OUTRUNNER,
      magnet_thickness: '2.5 mm',
      air_gap: '0.5 mm',
      stack_length: '16 mm',
      stator_diameter: '26 mm',
      poles: 14,
      magnet_grade: 'M',
      insulation_class: 'F',
    },
    start: { temperature: '60 °C', battery_temperature: '25 °C' },
    profile: [{ for: '3 s', throttle: '100 %' }],
  }),
  'weak magnets': aircraft({
    motor: { ...OUTRUNNER, magnet_thickness: '0.7 mm', air_gap: '0.8 mm', magnet_grade: 'N' },
    limits: { magnets: '170 °C', winding: '180 °C', controller: '130 °C' },
    start: { temperature: '100 °C', battery_temperature: '25 °C' },
    profile: [{ for: '3 s', throttle: '100 %' }],
  }),
  'jacket of an outrunner': boat({
    motor: OUTRUNNER,
    cooling: { water_jacket: { conductance: '1 W/K', at_speed: '3 m/s', covers: 'mount' } },
  }),
  'heat known': aircraft({
    motor: {
      ...OUTRUNNER,
      thermal: {
        winding_to_stator: '0.8 W/K',
        stator_to_can: '0.2 W/K',
        can_to_air: '0.3 W/K',
        stator_to_air: { conductance: '0.8 W/K', at_speed: '9000 rpm' },
        winding_capacity: '15 J/K',
        stator_capacity: '30 J/K',
        can_capacity: '30 J/K',
      },
      maker_limits: { current: '40 A', voltage: '17 V', input_power: '620 W', shaft_speed: '20000 rpm' },
    },
  }),
  catalogue: aircraft({ motor: { ...INRUNNER, thermal: { winding_to_housing: '2.9 K/W', housing_to_ambient: '5 K/W' } } }),
  'no Kv': aircraft({
    motor: {
      layout: 'inrunner',
      resistance: '40 mohm',
      no_load: { current: '1.2 A', voltage: '10 V', speed: '8800 rpm' },
      mass: '180 g',
      can: { diameter: '36 mm', length: '50 mm' },
    },
  }),
  supply: aircraft({ battery: { supply: '12 V', current_limit: '20 A' } }),
  'supply alone': aircraft({ battery: { supply: '12 V' } }),
  'cells measured': aircraft({
    battery: {
      ...PACK,
      open_circuit: [
        { charge: '0 %', voltage: '3.3 V' },
        { charge: '50 %', voltage: '3.8 V' },
        { charge: '100 %', voltage: '4.2 V' },
      ],
    },
    start: { charge: '70 %' },
  }),
  holds: aircraft({
    profile: [
      { for: '2 s', shaft_speed: '5000 rpm' },
      { for: '2 s', battery_power: '60 W' },
      { for: '2 s', battery_current: '5 A' },
      { for: '2 s', motor_current: '6 A' },
      { for: '2 s', thrust: '3 N' },
      { repeat: 2, steps: [{ for: '2 s', throttle: '50 %' }] },
    ],
  }),
};
