/**
 * Every quantity that a scenario may hold moves something: a drive that has it, and the same with a value a little off, differ in a short run,
 * or at least in the numbers that the run is judged by. A key that is read and then forgotten on its way fails here.
 */
import { type DriveNumbers, driveFromNumbers, simulate } from '@shaftwork/sim-core/drive';
import { DIMENSIONS } from '@shaftwork/sim-core/provenance/dimensions';
import { drive } from '@shaftwork/sim-core/scenario/schema/drive';
import { FIELD_FACTS } from '@shaftwork/sim-core/scenario/schema/fields';
import { expect, it } from 'vitest';

type Tree = { readonly [key: string]: unknown };
const motor = {
  layout: 'outrunner',
  kv: 96,
  resistance: 0.06,
  noLoad: [{ current: 1, voltage: 10 }],
  mass: 0.15,
  can: { diameter: 0.042, length: 0.04 },
};
const common = { battery: { cells: { series: 3 }, capacity: 7920 }, motor };
const blades = { kind: 'blade-element', family: 'thin', diameter: 0.25, pitch: 0.13 };
const bench = { ...common, propeller: blades };
const wing = { ...bench, vehicle: { mass: 1.2, wing: { area: 0.3, aspectRatio: 7, zeroLiftDrag: 0.03 } } };
const boat = {
  ...common,
  propeller: { kind: 'marine-series', diameter: 0.04, pitchRatio: 1.1, areaRatio: 0.6, blades: 3 },
  vehicle: {
    mass: 2,
    drag: [
      { speed: 2, force: 3 },
      { speed: 5, force: 12 },
    ],
  },
};
const wet = { ambient: { water: 288 }, motor: { ...motor, layout: 'inrunner', poles: 4 } };
const coil = { bore: 0.004, length: 0.4 };
const sink = { fins: 9, finHeight: 0.01, finThickness: 0.001, length: 0.04, breadth: 0.06 };
const strap = { crossSection: 3e-5, length: 0.08 };
const reading = { shaftSpeed: 900, thrust: 12, torque: 0.15 };
const powered = { shaftSpeed: 900, thrust: 12, shaftPower: 130 };
const drawn = { shaftSpeed: 900, thrust: 12, batteryCurrent: 16, voltage: 11 };
/** Drives of all kinds; a key counts if it does in one of them. */
const BASES: readonly Tree[] = [
  bench,
  wing,
  boat,
  { ...common, gearbox: { ratio: 5 }, wheel: { radius: 0.03, dragArea: 0.02 }, vehicle: { mass: 2 } },
  { ...bench, battery: { supply: 11, currentLimit: 12 } },
  { ...common, propeller: { kind: 'measured-points', diameter: 0.25, points: [reading] } },
  { ...common, propeller: { kind: 'measured-points', diameter: 0.25, points: [powered] } },
  { ...common, propeller: { kind: 'measured-points', diameter: 0.25, points: [drawn] } },
  { ...common, propeller: { kind: 'measured-points', diameter: 0.25, points: [{ ...drawn, throttle: 0.8 }] } },
  {
    ...wing,
    propeller: { kind: 'measured-points', diameter: 0.25, points: [{ ...reading, thrust: 6, torque: 0.12, vehicleSpeed: 8 }, reading] },
  },
  {
    ...common,
    propeller: {
      kind: 'coefficients',
      diameter: 0.25,
      table: [
        { advanceRatio: 0, thrust: 0.1, power: 0.05 },
        { advanceRatio: 0.7, thrust: 0, power: 0.02 },
      ],
    },
  },
  { ...common, propeller: { kind: 'marine-series', diameter: 0.04, pitch: 0.044, blades: 3 }, vehicle: boat.vehicle },
  { ...boat, ...wet, cooling: { waterJacket: { conductance: 2, atSpeed: 4 } } },
  { ...boat, ...wet, cooling: { waterCoil: coil } },
  { ...boat, ...wet, cooling: { waterCoil: { ...coil, shareOfBoatSpeed: 0.3, pump: 1e-5 } } },
  { ...boat, ...wet, cooling: { heatSink: sink } },
  { ...boat, ...wet, cooling: { strap } },
  { ...bench, cooling: { mount: {} } },
  { ...bench, cooling: { fan: { diameter: 0.04, flow: 0.003, power: 1, mass: 0.02 } } },
  { ...wing, cooling: { air: { cowl: { inlet: 0.0003, gap: 0.005 } } } },
  {
    ...bench,
    start: { temperature: 370, batteryTemperature: 300 },
    limits: { controller: 400, winding: 420, magnets: 420 },
    controller: { motorCurrentLimit: 4, derating: { from: 330, to: 420 }, mass: 0.03 },
  },
  { ...bench, controller: { freewheeling: 'diode', drive: 'sinusoidal' } },
  { ...bench, wiring: { gauge: 2e-6, length: 0.3 } },
  { ...common, motor: { ...motor, kv: undefined, noLoad: [{ current: 1, voltage: 10, speed: 950 }] }, propeller: blades },
  { ...bench, motor: { ...motor, magnetGrade: 'SH', magnetThickness: 0.002, airGap: 0.0005, statorDiameter: 0.034, stackLength: 0.014 } },
  { ...bench, motor: { ...motor, thermal: { statorToAir: { conductance: 0.5, atSpeed: 800 } } } },
  { ...bench, motor: { ...motor, thermal: { windingToHousing: 0.5, housingToAmbient: 0.4 } } },
  { ...bench, battery: { ...common.battery, polarisation: { resistance: 0.002, time: 20 } } },
  { ...wing, solver: { shaftSpeed: 'with-inertia' } },
];
/** What people may write and no drive of its own has: the room, which is held against sizes by the judge. */
const JUDGED = /^space\./;

const camel = (key: string): string => key.replace(/_(.)/g, (_, letter: string) => letter.toUpperCase());
/** `tree` with a number at a path; in a list, in its first entry. */
function put(tree: unknown, [key, ...rest]: readonly string[], value: number): unknown {
  if (key === undefined) return value;
  if (Array.isArray(tree)) return tree.map((item, k) => (k === 0 ? put(item, [key, ...rest], value) : item));
  const at = (tree ?? {}) as Tree;
  return { ...at, [key]: put(at[key], rest, value) };
}
interface Field {
  readonly shape?: Readonly<Record<string, Field>>;
  readonly options?: readonly Field[];
  readonly element?: Field;
  unwrap?(): Field;
  parse(text: unknown): { readonly value: number };
}
/** The example of each quantity [SI], by its path. */
function* examples(schema: Field, path: string): Generator<readonly [string, number]> {
  if (schema.shape !== undefined)
    for (const [key, inner] of Object.entries(schema.shape)) yield* examples(inner, path === '' ? key : `${path}.${key}`);
  else if (Array.isArray(schema.options))
    for (const option of schema.options) if (typeof option === 'object') yield* examples(option, path);
  if (schema.element !== undefined) yield* examples(schema.element, path);
  else if (schema.unwrap !== undefined) yield* examples(schema.unwrap(), path);
  else {
    const facts = FIELD_FACTS.get(schema as never);
    if (facts?.dimension !== undefined && typeof schema.parse(facts.example) === 'object') yield [path, schema.parse(facts.example).value];
  }
}
const EXAMPLES = new Map(examples(drive as unknown as Field, ''));

const STEP = [{ duration: 20, hold: 'throttle', value: { from: 0.7, to: 0.9 } }] as const;

/** Numbers of the drive, and of twenty seconds of it. */
function outcome(
  numbers: unknown,
): { readonly system: string; readonly run: () => string; readonly heatResidual: () => number } | undefined {
  const made = driveFromNumbers(numbers as DriveNumbers);
  if (made.kind === 'problems') return undefined;
  const { system } = made;
  return {
    system: JSON.stringify(system, (_, value) => (ArrayBuffer.isView(value) ? Array.from(value as Float64Array) : value)),
    run: () => Array.from(simulate(system, STEP, { record: false }).state).join(' '),
    heatResidual: () => simulate(system, STEP).recorded?.energy.heatResidual ?? Number.NaN,
  };
}
/** How far a change of the key is felt: in the run, in the drive's numbers only, or nowhere. */
function felt(key: string): 'run' | 'drive' | 'nowhere' {
  const path = key.split('.').map(camel);
  const value = EXAMPLES.get(key) || 8;
  const other = DIMENSIONS[key as keyof typeof DIMENSIONS] === 'temperature' ? value - 2 : value * 0.95;
  let best: 'drive' | 'nowhere' = 'nowhere';
  for (const base of BASES) {
    // a list's entry is changed where there is one
    if (path.includes('points') && !('points' in ((base['propeller'] as Tree) ?? {}))) continue;
    const [a, b] = [outcome(put(base, path, value)), outcome(put(base, path, other))];
    if (a === undefined || b === undefined || a.system === b.system) continue;
    best = 'drive';
    if (/^limits\.|maker_limits/.test(key) || a.run() === b.run()) continue;
    // heat that a cooling takes leaves by one of the ways that are told
    if (key.startsWith('cooling.')) expect(Math.abs(b.heatResidual()), key).toBeLessThan(1e-6);
    return 'run';
  }
  return best;
}

const KEYS = Object.keys(DIMENSIONS).filter((key) => !JUDGED.test(key));
/** Numbers that the drive has and no run of twenty seconds feels, since what they decide is the end of a run, a finding or what fits. */
const NOT_IN_THE_RUN: readonly string[] = [
  'battery.cell_cutoff',
  'battery.current_limit',
  'motor.magnet_thickness',
  'motor.air_gap',
  'propeller.immersion',
  'cooling.water_jacket.thickness',
  'cooling.fan.mass',
];

it('every key is felt', () => {
  expect(KEYS.length).toBeGreaterThan(120);

  const far = KEYS.map((key) => [key, felt(key)] as const);
  expect(far.filter(([, where]) => where === 'nowhere').map(([key]) => key)).toEqual([]);
  expect(far.filter(([key, where]) => where === 'drive' && !/^limits\.|maker_limits/.test(key)).map(([key]) => key)).toEqual(
    NOT_IN_THE_RUN,
  );
}, 120_000);
