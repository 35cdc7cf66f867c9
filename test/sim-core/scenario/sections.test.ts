import { readdirSync, readFileSync } from 'node:fs';
import { STANDARD_GRAVITY } from '@shaftwork/sim-core/quantities';
import { readScenario } from '@shaftwork/sim-core/scenario';
import { describe, expect, it } from 'vitest';
import { changed, driveOf, SMALLEST } from './smallest-scenario.js';

const FOLDER = new URL('../../../scenarios/', import.meta.url);
const demos = readdirSync(FOLDER).filter((name) => name.endsWith('.yaml'));

describe('every demo', () => {
  it('is there', () => expect(demos).toContain('survey-boat.yaml'));

  it.each(demos)('%s reads', (name) => {
    const text = (path: string) => readFileSync(new URL(path, FOLDER), 'utf8');
    const files = new Map([[name, text(name)]]);
    let reading = readScenario(files, name);
    while (reading.kind === 'needs') {
      for (const path of reading.needs) files.set(path, text(path));
      reading = readScenario(files, name);
    }
    expect(reading).toMatchObject({ kind: 'read' });
  });
});

const value = (si: number) => ({ value: expect.closeTo(si, 9) });
const of = (sections: string) => driveOf(SMALLEST + sections);
const propeller = (written: string) => driveOf(SMALLEST.replace(/propeller:.*/, `propeller: { ${written} }`)).propeller;
const motor = (written: string) => driveOf(SMALLEST.replace(/motor:.*/, `motor: { ${written} }`)).motor;

/** Each key of each section once, in SI on the other side. */
describe('sections', () => {
  it('ambient, start, space', () => {
    const drive = of(`ambient: { air: 0 °C, altitude: 310 m, pressure: 977 hPa, water: 14 °C, water_kind: sea, compartment: 300 K }
start: { charge: 95 %, temperature: 300 K, battery_temperature: 310 K }
space: { diameter: 42 mm, length: 8 cm, mass: 320 g }
`);
    expect(drive.ambient).toMatchObject({
      air: value(273.15),
      altitude: value(310),
      pressure: value(97700),
      waterKind: 'sea',
      compartment: value(300),
    });
    expect(drive.start).toMatchObject({ charge: value(0.95), temperature: value(300), batteryTemperature: value(310) });
    expect(drive.space).toMatchObject({ diameter: value(0.042), length: value(0.08), mass: value(0.32) });
  });

  it('battery', () => {
    const text = changed(
      'capacity: 2.2 Ah',
      'capacity: 2.2 Ah, cell_resistance: 3 mohm, polarisation: { resistance: 2 mohm, time: 30 s }, cell_cutoff: 3.3 V, discharge_rating: 36 C, mass: 1 kg, thermal: { to_air: 2 K/W, capacity: 590 J/K }, open_circuit: [{ charge: 0 %, voltage: 3.3 V }, { charge: 100 %, voltage: 4.2 V }]',
    );
    expect(driveOf(text).battery).toMatchObject({
      cells: { series: 3 },
      capacity: value(2.2 * 3600),
      cellResistance: value(0.003),
      polarisation: { resistance: value(0.002), time: value(30) },
      cellCutoff: value(3.3),
      dischargeRating: value(0.01),
      mass: value(1),
      thermal: { toAir: value(0.5), capacity: value(590) },
      openCircuit: [
        { charge: 0, voltage: 3.3 },
        { charge: 1, voltage: 4.2 },
      ],
    });
  });

  it('wiring, controller, gearbox, other loads, drives', () => {
    const drive = of(`wiring: { gauge: 2.5 mm2, length: 30 cm, connectors: 2, resistance: 3 mohm }
controller: { path_resistance: 3 mohm, motor_current_limit: 60 A, battery_current_limit: 50 A, pwm_frequency: 16 kHz, switching_time: 120 ns, voltage_loss: 0.5 W, idle_current: 70 mA, freewheeling: diode, braking: regenerative, mass: 65 g, thermal: { to_air: 0.4 W/K, capacity: 50 J/K } }
gearbox: { ratio: 5.2 ± 1 %, efficiency: 95 %, mass: 34 g }
other_loads: 10 W
drives: 2
`);
    expect(drive.wiring).toMatchObject({ gauge: value(2.5e-6), length: value(0.3), connectors: 2, resistance: value(0.003) });
    expect(drive.controller).toMatchObject({
      pathResistance: value(0.003),
      motorCurrentLimit: value(60),
      batteryCurrentLimit: value(50),
      pwmFrequency: value(16000),
      switchingTime: { value: expect.closeTo(120e-9, 15) },
      voltageLoss: value(0.5),
      idleCurrent: value(0.07),
      freewheeling: 'diode',
      braking: 'regenerative',
      thermal: { toAir: value(0.4), capacity: value(50) },
    });
    expect(drive.gearbox).toMatchObject({ ratio: { value: 5.2, unknown: { spread: { shape: 'log-normal' } } }, efficiency: value(0.95) });
    expect(drive).toMatchObject({ otherLoads: value(10), drives: 2 });
  });

  it('propellers of every kind', () => {
    expect(
      propeller(
        'kind: coefficients, diameter: 10 in, blades: 2, table: [{ advance_ratio: 0, thrust: 0.1, power: 0.04 }, { advance_ratio: 0.6, thrust: -0.01, power: 0.01 }], thrust_factor: 1 ± 5 %, power_factor: 1 ± 5 %, medium: air',
      ),
    ).toMatchObject({
      kind: 'coefficients',
      diameter: value(0.254),
      table: [{ advanceRatio: 0, thrust: 0.1, power: 0.04 }, { thrust: -0.01 }],
      thrustFactor: value(1),
      medium: 'air',
    });
    expect(
      propeller(
        'kind: measured-points, diameter: 10 in, points: [{ shaft_speed: 3000 rpm, thrust: 1 kgf, battery_current: 15 A, voltage: 11 V }], measured_at: { air: 300 K, altitude: 100 m }',
      ),
    ).toMatchObject({
      kind: 'measured-points',
      points: [{ shaftSpeed: value(100 * Math.PI), thrust: value(STANDARD_GRAVITY), batteryCurrent: value(15), voltage: value(11) }],
      measuredAt: { air: value(300), altitude: value(100) },
    });
    const stations = [0.3, 0.6, 0.95].map((radius) => `{ radius: ${radius}, chord: 0.2, twist: 18° }`).join(', ');
    expect(
      propeller(
        `kind: blade-element, family: folding, diameter: 1 m, pitch: 2 in, inertia: 1 kg*m2, folding: yes, stations: [${stations}]`,
      ),
    ).toMatchObject({
      family: 'folding',
      pitch: value(0.0508),
      inertia: value(1),
      folding: true,
      stations: [{ radius: 0.3, chord: 0.2, twist: expect.closeTo(Math.PI / 10, 12) }, {}, {}],
    });
    expect(
      propeller(
        'kind: marine-series, diameter: 52 mm, pitch_ratio: 1.15, area_ratio: 0.6, blades: 3, wake_fraction: 0.08, thrust_deduction: 0.06, shaft_efficiency: 92 %',
      ),
    ).toMatchObject({
      pitchRatio: value(1.15),
      areaRatio: value(0.6),
      blades: 3,
      wakeFraction: value(0.08),
      thrustDeduction: value(0.06),
      shaftEfficiency: value(0.92),
    });
  });

  it('wheel, vehicle, cooling, limits', () => {
    const text = SMALLEST.replace(
      /propeller:.*/,
      'wheel: { radius: 43 mm, rolling_resistance: 0.085, drag_area: 0.042 m2, grip: 0.9, inertia: 2.4e-4 kg*m2 }\nvehicle: { mass: 1 kg }',
    );
    expect(driveOf(text).wheel).toMatchObject({
      radius: value(0.043),
      rollingResistance: value(0.085),
      dragArea: value(0.042),
      grip: value(0.9),
      inertia: value(2.4e-4),
    });
    const drive =
      of(`vehicle: { mass: 10.2 kg, added_mass: 8 %, drag: [{ speed: 1 m/s, force: 2.6 N }], drag_factor: 1 ± 10 %, drag_area: 0.02 m2, wing: { area: 0.6 m2, aspect_ratio: 17, span_efficiency: 0.85, zero_lift_drag: 0.019, most_lift: 1.2 } }
cooling: { water_jacket: { conductance: 1.8 W/K, at_speed: 3 m/s, rest_share: 12 %, covers: can, source: scoop }, mount: { conductance: 0.3 W/K }, air: { speed: 5 m/s, share_of_vehicle_speed: 30 %, share_of_slipstream: 50 %, openness: 70 % } }
limits: { winding: 400 K, magnets: 373 K, controller: 368 K, cells: 333 K, reserve: 20 %, battery_power: 500 W, energy: 50 Wh, run_time: 10 min }
`);
    expect(drive.vehicle).toMatchObject({
      mass: value(10.2),
      addedMass: value(0.08),
      drag: [{ speed: 1, force: 2.6 }],
      dragFactor: value(1),
      dragArea: value(0.02),
      wing: { area: value(0.6), aspectRatio: value(17), spanEfficiency: value(0.85), zeroLiftDrag: value(0.019), mostLift: value(1.2) },
    });
    expect(drive.cooling).toMatchObject({
      waterJacket: {
        conductance: { ...value(1.8), source: 'scoop' },
        atSpeed: value(3),
        restShare: value(0.12),
        covers: 'can',
        source: 'scoop',
      },
      mount: { conductance: value(0.3) },
      air: { speed: value(5), shareOfVehicleSpeed: value(0.3), shareOfSlipstream: value(0.5), openness: value(0.7) },
    });
    expect(drive.limits).toMatchObject({
      winding: value(400),
      reserve: value(0.2),
      batteryPower: value(500),
      energy: value(180_000),
      runTime: value(600),
    });
  });

  it('motor, with one row of no-load data as a map or a list', () => {
    const row = '{ current: 0.7 A ± 20 %, voltage: 12 V }';
    const given = motor(
      `layout: inrunner, kv: 600 rpm/V, kv_measured: back-emf, resistance: 65 mohm, resistance_between: lines, no_load: ${row}, poles: 4, mass: 236 g, can: { diameter: 39 mm, length: 47 mm }, stack_length: 30 mm, stator_diameter: 25 mm, rotor_inertia: 6e-6 kg*m2, magnet_grade: SH, insulation_class: B, thermal: { winding_to_stator: 0.78 W/K, stator_to_can: 2 W/K, can_to_air: 0.3 W/K, winding_capacity: 15 J/K, stator_capacity: 40 J/K, can_capacity: 50 J/K }, maker_limits: { current: 40 A, voltage: 17 V, input_power: 620 W, shaft_speed: 30000 rpm }`,
    );
    expect(given).toMatchObject({
      layout: 'inrunner',
      kv: value(20 * Math.PI),
      kvMeasured: 'back-emf',
      resistanceBetween: 'lines',
      noLoad: [{ current: value(0.7), voltage: value(12) }],
      poles: 4,
      can: { diameter: value(0.039), length: value(0.047) },
      stackLength: value(0.03),
      statorDiameter: value(0.025),
      rotorInertia: value(6e-6),
      magnetGrade: 'SH',
      insulationClass: 'B',
      thermal: {
        windingToStator: value(0.78),
        statorToCan: value(2),
        canToAir: value(0.3),
        windingCapacity: value(15),
        statorCapacity: value(40),
        canCapacity: value(50),
      },
      makerLimits: { current: value(40), voltage: value(17), inputPower: value(620), shaftSpeed: value(1000 * Math.PI) },
    });
    expect(motor(`no_load: [${row}, { current: 0.9 A, voltage: 16 V }]`)?.noLoad).toHaveLength(2);
  });

  it('points to sections by the line of their key', () => {
    expect(driveOf(SMALLEST).battery?.place).toEqual({ file: 'boat.yaml', line: 2, column: 1, path: 'battery' });
    expect(driveOf(SMALLEST).place).toEqual({ file: 'boat.yaml', line: 6, column: 5, path: 'candidates[0]' });
  });
});
