/** Given data → a complete system: what was given wins, every gap is filled by a named rule, what cannot be estimated is a problem. */
import type { DriveSystem, Limits, Load } from '../drive/drive-system.js';
import { monotoneCubic } from '../numerics/interpolation.js';
import type { Battery } from '../parts/battery.js';
import type { Controller } from '../parts/controller.js';
import type { Motor } from '../parts/motor.js';
import { curveFromTable, openCircuitCurve } from '../parts/open-circuit.js';
import type { DragTable, Vehicle } from '../parts/vehicle.js';
import type { ScenarioProblem } from '../problems/index.js';
import { ZERO_CELSIUS } from '../quantities/constants.js';
import type { Dimension } from '../quantities/index.js';
import { checkHeat } from './check-heat.js';
import { completeHeat, completeMagnet } from './complete-heat.js';
import { completeLoad } from './complete-load.js';
import type { Datum, Place } from './datum.js';
import type { GivenDrive } from './given.js';
import { RULES, type RuleId } from './rules.js';

export type Completion =
  | { readonly ok: true; readonly data: DriveSystem<Datum> }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

/** Makes data by rule for one candidate, and collects what is missing. */
export interface Filler {
  readonly problems: ScenarioProblem[];
  /** Derived or estimated by the rule's law. */
  by(rule: RuleId, ...inputs: readonly Datum[]): Datum;
  /** A default whose value stands here [SI]. */
  fixed(rule: RuleId, value: number): Datum;
  /** The given datum, or a problem that says where to find it. */
  need<D extends Dimension>(given: Datum<D> | undefined, place: Place, key: string, whereToFind: string): Datum;
  missing(place: Place, key: string, expected: string, hint: string): void;
}

/** Stands in for a missing datum until all problems are known; never reaches a result. */
const absent = (dimension: Dimension): Datum => ({
  dimension,
  value: Number.NaN,
  unknown: { key: 'absent', spread: { shape: 'none' } },
  origin: { kind: 'default', rule: 'no-limit', inputs: [] },
});

export function createFiller(candidate: string): Filler {
  const problems: ScenarioProblem[] = [];
  const made = (id: RuleId, value: number, kind: 'derived' | 'estimated' | 'default', inputs: readonly Datum[]): Datum => {
    const rule = RULES[id];
    const own = rule.own.shape === 'none' ? {} : { own: { key: `rule:${id}@${candidate}`, spread: rule.own } };
    return {
      dimension: rule.dimension,
      value,
      unknown: { key: `rule:${id}`, spread: rule.common },
      ...own,
      origin: { kind, rule: id, inputs },
    };
  };
  return {
    problems,
    by: (id, ...inputs) =>
      made(id, RULES[id].law(inputs.map((input) => input.value)), RULES[id].common.shape === 'none' ? 'derived' : 'estimated', inputs),
    fixed: (id, value) => made(id, value, 'default', []),
    need: (given, place, key, whereToFind) => {
      if (given !== undefined) return given;
      problems.push({
        kind: 'missing-datum',
        place: { ...place, path: `${place.path}.${key}` },
        expected: key,
        found: 'nothing',
        hint: whereToFind,
      });
      return absent('ratio');
    },
    missing: (place, key, expected, hint) => {
      problems.push({ kind: 'missing-datum', place: { ...place, path: `${place.path}.${key}` }, expected, found: 'nothing', hint });
    },
  };
}

const CUTOFF = { 'lithium-polymer': 3.3, 'lithium-ion': 2.8, 'lithium-iron-phosphate': 2.5, 'nickel-metal-hydride': 0.9 } as const;
const NOMINAL_VOLTAGE = { 'lithium-polymer': 3.7, 'lithium-ion': 3.6, 'lithium-iron-phosphate': 3.2, 'nickel-metal-hydride': 1.2 } as const;
/** IEC 60085 thermal classes [°C]. */
const CLASS_LIMIT = { A: 105, E: 120, B: 130, F: 155, H: 180, N: 200 } as const;
/** Working temperature by grade [°C], magnet makers' tables; UH, EH, AH from memory. */
const GRADE_LIMIT = { N: 80, M: 100, H: 120, SH: 150, UH: 180, EH: 200, AH: 230 } as const;
const celsius = (value: number): number => ZERO_CELSIUS + value;

export function complete(candidate: string, given: GivenDrive): Completion {
  const fill = createFiller(candidate);
  const ambient = given.ambient;
  const airTemperature = ambient?.air ?? fill.fixed('standard-day', celsius(15));
  const altitude = ambient?.altitude ?? fill.fixed('sea-level', 0);
  const airPressure = ambient?.pressure ?? fill.by('pressure-at-altitude', altitude);
  const surroundings = {
    airTemperature,
    airPressure,
    compartmentTemperature: ambient?.compartment ?? fill.by('as-the-air', airTemperature),
    waterTemperature: ambient?.water ?? fill.fixed('mild-water', celsius(15)),
  };
  const battery = completeBattery(fill, given);
  const controller = completeController(fill, given, battery.cellsInSeries);
  const motor = completeMotor(fill, given);
  const gearbox = {
    ratio: given.gearbox?.ratio ?? fill.fixed('direct-drive', 1),
    efficiency:
      given.gearbox === undefined ? fill.fixed('direct-drive', 1) : (given.gearbox.efficiency ?? fill.fixed('gear-efficiency', 0.95)),
    mass: given.gearbox?.mass ?? fill.fixed('gear-mass', 0),
  };
  const medium = { airTemperature, airPressure, waterTemperature: surroundings.waterTemperature, waterKind: ambient?.waterKind };
  const load: Load<Datum> = completeLoad(fill, given, medium);
  const vehicle = completeVehicle(fill, given, battery.mass, motor.mass, gearbox.mass, medium);
  const start = {
    charge: given.start?.charge ?? fill.fixed('full-charge', 1),
    motorTemperature: given.start?.temperature ?? fill.by('as-the-air', airTemperature),
    controllerTemperature: given.start?.temperature ?? fill.by('as-the-air', airTemperature),
    cellTemperature: given.start?.batteryTemperature ?? given.start?.temperature ?? fill.by('as-the-air', airTemperature),
  };
  const wiring = { resistance: completeWiring(fill, given) };
  const heat = completeHeat(fill, given, motor, battery, controller);
  const magnet = completeMagnet(fill, given, motor);
  const limits = completeLimits(fill, given, battery);
  checkHeat(fill, given, heat, motor.mass, limits, surroundings);
  if (fill.problems.length > 0) return { ok: false, problems: fill.problems };
  return {
    ok: true,
    data: {
      surroundings,
      battery,
      wiring,
      controller,
      motor,
      magnet,
      gearbox,
      load,
      vehicle,
      heat,
      start,
      limits,
      otherLoads: given.otherLoads ?? fill.fixed('no-other-loads', 0),
      drives: given.drives ?? 1,
    },
  };
}

function completeBattery(fill: Filler, given: GivenDrive): Battery<Datum> {
  const pack = given.battery;
  const place = pack?.place ?? { ...given.place, path: 'battery' };
  const chemistry = pack?.chemistry ?? 'lithium-polymer';
  const series = pack?.cells?.series ?? 1;
  const parallel = pack?.cells?.parallel ?? 1;
  if (pack?.cells === undefined) fill.missing(place, 'cells', 'cells in series', 'printed on the pack as 4S, or its voltage over 3.7 V');
  const capacity = fill.need(pack?.capacity, place, 'capacity', 'printed on the pack in mAh');
  const cellCapacity: Datum = { ...capacity, value: capacity.value / parallel };
  const cellResistance = pack?.cellResistance ?? fill.by(`cell-resistance-${chemistry}`, parallel === 1 ? capacity : cellCapacity);
  const voltage = fill.fixed('nominal-voltage', NOMINAL_VOLTAGE[chemistry] * series);
  return {
    chemistry,
    cellsInSeries: series,
    cellsInParallel: parallel,
    capacity,
    cellResistance,
    polarisationResistance: pack?.polarisation?.resistance ?? fill.by('slow-resistance', cellResistance),
    polarisationTime: pack?.polarisation?.time ?? fill.fixed('slow-time', 30),
    activation: fill.fixed('resistance-activation', 2500),
    voltageOffset: fill.fixed('open-circuit-error', 0),
    mass: pack?.mass ?? fill.by('pack-mass', capacity, voltage),
    openCircuit:
      pack?.openCircuit === undefined
        ? openCircuitCurve(chemistry)
        : curveFromTable(
            'given',
            pack.openCircuit.map((row) => [row.charge, row.voltage] as const),
          ),
  };
}

function completeController(fill: Filler, given: GivenDrive, cells: number): Controller<Datum> {
  const esc = given.controller;
  const voltage = fill.fixed('nominal-voltage', NOMINAL_VOLTAGE[given.battery?.chemistry ?? 'lithium-polymer'] * cells);
  const { derating } = esc ?? {};
  if (derating !== undefined) {
    const conflict = (found: string, hint: string): void => {
      fill.problems.push({
        kind: 'conflict',
        place: { ...esc!.place, path: `${esc!.place.path}.derating` },
        expected: 'a derating from one temperature to a higher one',
        found,
        hint,
      });
    };
    if (derating.from === undefined || derating.to === undefined) conflict('only one of them', 'give both from and to');
    else if (!(derating.to.value > derating.from.value))
      conflict('an end below its beginning', 'the current is full below from and nothing above to');
    if (esc?.motorCurrentLimit === undefined) conflict('no motor current limit', 'what falls is motor_current_limit: give it too');
  }
  return {
    pathResistance: esc?.pathResistance ?? fill.fixed('path-resistance', 4e-3),
    resistanceCoefficient: fill.fixed('device-temperature-coefficient', 0.005),
    switchingTime: esc?.switchingTime ?? fill.fixed('switching-time', 200e-9),
    pwmFrequency: esc?.pwmFrequency ?? fill.fixed('pwm-frequency', 16e3),
    voltageLoss:
      esc?.voltageLoss === undefined ? fill.fixed('voltage-loss', 2e-3) : fill.by('voltage-loss-from-power', esc.voltageLoss, voltage),
    deadTime: esc?.deadTime ?? fill.fixed('dead-time', 1e-6),
    deadTimeDrop: fill.fixed('dead-time-drop', 0.8),
    deratingFrom: esc?.derating?.from ?? fill.fixed('no-derating', Number.POSITIVE_INFINITY),
    deratingTo: esc?.derating?.to ?? fill.fixed('no-derating', Number.POSITIVE_INFINITY),
    diodeDrop: esc?.freewheeling === 'diode' ? fill.fixed('diode-drop', 0.8) : fill.fixed('no-diode', 0),
    idleCurrent: esc?.idleCurrent ?? fill.fixed('idle-current', 0.06),
    motorCurrentLimit: esc?.motorCurrentLimit ?? fill.fixed('no-limit', Number.POSITIVE_INFINITY),
    batteryCurrentLimit: esc?.batteryCurrentLimit ?? fill.fixed('no-limit', Number.POSITIVE_INFINITY),
    mass: esc?.mass ?? fill.fixed('controller-mass', 0.05),
    braking: esc?.braking ?? 'none',
  };
}

function completeWiring(fill: Filler, given: GivenDrive): Datum {
  const wiring = given.wiring;
  if (wiring?.resistance !== undefined) return wiring.resistance;
  return fill.by(
    'wiring-from-gauge',
    wiring?.gauge ?? fill.fixed('wire-area', 3.3e-6),
    wiring?.length ?? fill.fixed('wire-length', 0.2),
    fill.fixed('connector-count', wiring?.connectors ?? 2),
    fill.fixed('connector-contact', 0.3e-3),
  );
}

function completeMotor(fill: Filler, given: GivenDrive): Motor<Datum> {
  const sheet = given.motor;
  const place = sheet?.place ?? { ...given.place, path: 'motor' };
  if (sheet?.layout === undefined) fill.missing(place, 'layout', 'layout', 'outrunner if the can turns with the shaft, else inrunner');
  const layout = sheet?.layout ?? 'inrunner';
  const kv = fill.need(sheet?.kv, place, 'kv', 'on every spec sheet, in rpm/V; or spin it and divide rpm by volts');
  const torqueConstant = fill.by(sheet?.kvMeasured === 'back-emf' ? 'kt-from-back-emf' : 'kt-from-kv', kv);
  const written = fill.need(
    sheet?.resistance,
    place,
    'resistance',
    'spec sheet, Ri or Rm; or pass a known current through two leads and read the millivolts',
  );
  const resistance = sheet?.resistanceBetween === 'phase-and-star' ? fill.by('line-from-phase', written) : written;
  const mass = fill.need(sheet?.mass, place, 'mass', 'spec sheet, or a kitchen scale');
  const diameter = fill.need(sheet?.can?.diameter, place, 'can.diameter', 'the outside of the can, by caliper; often in the motor’s name');
  const length = fill.need(sheet?.can?.length, place, 'can.length', 'the can without the shaft, by caliper');
  const points = sheet?.noLoad ?? [];
  const first = points[0];
  const current = fill.need(
    first?.current,
    place,
    'no_load.current',
    'spec sheet, Io or no-load current; or the ammeter with nothing on the shaft',
  );
  const voltage = fill.need(first?.voltage, place, 'no_load.voltage', 'the voltage that stands beside the no-load current');
  const last = points[points.length - 1];
  let constant: Datum;
  let eddyTorque: Datum;
  if (points.length > 1) {
    const inputs = [torqueConstant, resistance, current, voltage, last.current, last.voltage];
    constant = fill.by('constant-loss-from-two', ...inputs);
    eddyTorque = fill.by('speed-loss-from-two', ...inputs);
    if (!(constant.value >= 0 && eddyTorque.value >= 0)) {
      fill.problems.push({
        kind: 'conflict',
        place: { ...place, path: `${place.path}.no_load` },
        expected: 'a no-load current that rises gently with voltage',
        found: 'points whose loss torque falls with speed, or vanishes at rest',
        hint: 'measure both points with the same wiring, or give one point only',
      });
    }
  } else {
    const share = fill.fixed('constant-loss-share', 0.5);
    constant = fill.by('constant-loss-torque', torqueConstant, resistance, current, voltage, share);
    eddyTorque = fill.by('speed-loss-torque', torqueConstant, resistance, current, voltage, share);
  }
  const friction = fill.fixed('friction-share', 0.3);
  if (sheet?.poles === undefined || sheet.poles % 2 !== 0) {
    if (sheet?.poles !== undefined) fill.missing(place, 'poles', 'an even number of poles', 'count the magnets');
  }
  return {
    torqueConstant,
    resistance,
    resistanceCoefficient: fill.fixed('copper-coefficient', 0.00393),
    fluxCoefficient: fill.fixed('flux-coefficient', ['SH', 'UH', 'EH', 'AH'].includes(sheet?.magnetGrade ?? 'M') ? -0.0011 : -0.0012),
    hysteresisTorque: fill.by('hysteresis-torque', constant, friction),
    eddyTorque,
    frictionTorque: fill.by('friction-torque', constant, friction),
    windageTorque: fill.fixed('no-windage', 0),
    magnetLossShare: fill.fixed('magnet-loss-share', 0.07),
    rotorInertia: sheet?.rotorInertia ?? fill.by(`${layout}-inertia`, mass, diameter),
    mass,
    canDiameter: diameter,
    canLength: length,
    polePairs: (sheet?.poles ?? (layout === 'inrunner' ? 4 : 14)) / 2,
    layout,
  };
}

function completeVehicle(
  fill: Filler,
  given: GivenDrive,
  packMass: Datum,
  motorMass: Datum,
  gearMass: Datum,
  medium: { airTemperature: Datum; airPressure: Datum; waterTemperature: Datum; waterKind: 'fresh' | 'sea' | undefined },
): Vehicle<Datum> {
  const vehicle = given.vehicle;
  const wheel = given.wheel;
  const none = fill.fixed('no-drag-area', 0);
  const wing = vehicle?.wing;
  const marine = given.propeller?.kind === 'marine-series' || given.propeller?.medium === 'water';
  const density = fill.by('air-density', medium.airTemperature, medium.airPressure);
  if (vehicle === undefined) {
    return {
      mass: fill.fixed('on-the-bench', 1),
      addedMass: fill.fixed('no-added-mass', 0),
      dragFactor: fill.fixed('no-wing', 1),
      dragArea: none,
      inducedFactor: fill.fixed('no-wing', 0),
      liftArea: fill.fixed('no-limit', Number.POSITIVE_INFINITY),
      density,
      rollingResistance: fill.fixed('no-rolling', 0),
      dragTable: undefined,
      carriedBy: 'bench',
    };
  }
  const own = fill.need(vehicle.mass, vehicle.place, 'mass', 'weigh it ready to run, less motor and pack');
  const wingArea = wing === undefined ? undefined : fill.need(wing.area, vehicle.place, 'wing.area', 'span times mean chord');
  const aspect =
    wing === undefined ? undefined : fill.need(wing.aspectRatio, vehicle.place, 'wing.aspect_ratio', 'span squared over wing area');
  return {
    mass: fill.by('all-up-mass', own, packMass, motorMass, gearMass, fill.fixed('drive-count', given.drives ?? 1)),
    addedMass: vehicle.addedMass ?? (marine ? fill.fixed('added-mass', 0.08) : fill.fixed('no-added-mass', 0)),
    dragFactor: vehicle.dragFactor ?? fill.fixed('drag-error', 1),
    dragArea:
      wingArea !== undefined
        ? fill.by('wing-drag-area', wingArea, wing?.zeroLiftDrag ?? fill.fixed('zero-lift-drag', 0.03))
        : (vehicle.dragArea ?? wheel?.dragArea ?? none),
    inducedFactor:
      wingArea !== undefined && aspect !== undefined
        ? fill.by('induced-factor', wingArea, aspect, wing?.spanEfficiency ?? fill.fixed('span-efficiency', 0.8))
        : fill.fixed('no-wing', 0),
    liftArea:
      wingArea !== undefined
        ? fill.by('lift-area', wingArea, wing?.mostLift ?? fill.fixed('most-lift', 1.2))
        : fill.fixed('no-limit', Number.POSITIVE_INFINITY),
    density,
    rollingResistance: wheel?.rollingResistance ?? fill.fixed('no-rolling', 0),
    dragTable: vehicle.drag === undefined ? undefined : dragTable(vehicle.drag),
    carriedBy: wing !== undefined ? 'wing' : wheel !== undefined ? 'wheels' : 'water',
  };
}

function dragTable(rows: readonly { readonly speed: number | Datum; readonly force: number | Datum }[]): DragTable {
  const plain = (x: number | Datum): number => (typeof x === 'number' ? x : x.value);
  const speeds = rows.map((row) => plain(row.speed));
  const forces = rows.map((row) => plain(row.force));
  if (speeds[0] > 0) {
    speeds.unshift(0);
    forces.unshift(0);
  }
  const { slope } = monotoneCubic(speeds, forces);
  const slopes = Float64Array.from(slope);
  slopes[0] = 0; // drag starts with the square of the speed
  return { speed: Float64Array.from(speeds), force: Float64Array.from(forces), slope: slopes };
}

function completeLimits(fill: Filler, given: GivenDrive, battery: Battery<Datum>): Limits<Datum> {
  const { limits, motor } = given;
  const maker = motor?.makerLimits;
  const none = fill.fixed('no-limit', Number.POSITIVE_INFINITY);
  const chemistry = given.battery?.chemistry ?? 'lithium-polymer';
  const rating = given.battery?.dischargeRating;
  return {
    windingTemperature:
      limits?.winding ??
      (motor?.insulationClass === undefined
        ? fill.fixed('usual-insulation', celsius(CLASS_LIMIT.B))
        : fill.fixed('insulation-class', celsius(CLASS_LIMIT[motor.insulationClass]))),
    magnetTemperature:
      limits?.magnets ??
      (motor?.magnetGrade === undefined
        ? fill.fixed('usual-magnets', celsius(GRADE_LIMIT.M))
        : fill.fixed('magnet-grade', celsius(GRADE_LIMIT[motor.magnetGrade]))),
    controllerTemperature: limits?.controller ?? fill.fixed('usual-controller', celsius(95)),
    cellTemperature: limits?.cells ?? fill.fixed('usual-cells', celsius(60)),
    motorCurrent: maker?.current ?? none,
    inputPower: maker?.inputPower ?? none,
    shaftSpeed: maker?.shaftSpeed ?? none,
    busVoltage: maker?.voltage ?? none,
    batteryCurrent: rating === undefined ? none : fill.by('rated-current', battery.capacity, rating),
    batteryPower: limits?.batteryPower ?? none,
    batteryEnergy: limits?.energy ?? none,
    cellVoltage: given.battery?.cellCutoff ?? fill.fixed('chemistry-cutoff', CUTOFF[chemistry]),
    reserve: limits?.reserve ?? fill.fixed('no-reserve', 0),
    runTime: limits?.runTime ?? fill.fixed('no-limit', 0),
  };
}
