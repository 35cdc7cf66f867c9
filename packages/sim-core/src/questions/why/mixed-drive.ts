/**
 * Drives mixed from two candidates, part by part, in coordinates that do not change when a motor is only rewound.
 *
 *   (1) R = (k_t/K_m)²: Kv at constant K_m is the choice of wire; K_m at constant Kv is the motor's size and copper
 *   (2) behind a gear of ratio G all are taken at the driven shaft: k_t·G, K_m·G, L/R·G, M_h·G, M_f·G, k_1·G², k_2·G³, J·G². A winding and its
 *       gear are chosen together, and a mixture that had one without the other would be a drive that nobody builds
 *
 * Parts: Kv · K_m · loss torque · heat paths of the motor · heat capacity and mass · overrides: whatever else differs between the two, found by
 * comparing all their data, so that no part can be forgotten.
 * *Source* of (1): D. Hanselman, Brushless Permanent Magnet Motor Design, 2nd ed., 2003, ch. 4 (motor constant).
 *
 * @module
 */

import type { DriveSystem } from '../../drive/drive-system.js';
import { motorConstant } from '../../parts/motor.js';
import type { WayPartId, WhyPartId } from '../../results/why-result.js';

/** What of the heat network differs besides the motor, in words: a place of `HeatPaths` that no motor brings with it and that is not here does not compile. */
const HEAT_WORDS: Readonly<Record<Exclude<keyof DriveSystem['heat'], keyof ReturnType<typeof ownPaths> | 'layout' | 'capacity'>, string>> =
  {
    jacket: 'the water jacket',
    coil: 'the water coil',
    sink: 'the heat sink',
    sideCovered: 'the heat sink',
    strap: 'the strap to the hull',
    controllerToAir: 'the controller',
    controllerConvection: 'the controller',
    cellsToAir: 'the battery',
    cellsConvection: 'the battery',
    compartmentAirSpeed: 'the air in the compartment',
    compartmentSpeedShare: 'the air in the compartment',
    airSpeed: 'the cooling air',
    vehicleSpeedShare: 'the cooling air',
    slipstreamShare: 'the cooling air',
    openness: 'the cooling air',
    convectionFactor: 'the cooling air',
    emissivity: 'the can’s surface',
    addedThickness: 'the cooling',
    addedMass: 'the cooling',
    endPlace: 'the place of a thermometer',
  };

/** The same of all else that a drive is made of. */
const WORDS: Readonly<Record<Exclude<keyof DriveSystem, 'heat'>, string>> = {
  motor: 'the rest of the motor’s sheet',
  magnet: 'the magnets’ grade and thickness',
  controller: 'the controller',
  battery: 'the battery',
  wiring: 'the wiring',
  gearbox: 'the gear’s loss and mass',
  load: 'the propeller or wheel',
  vehicle: 'the vehicle',
  drives: 'the number of drives',
  surroundings: 'the surroundings',
  start: 'the start',
  limits: 'the battery',
  otherLoads: 'other loads',
  shaftSpeed: 'how the shaft’s speed follows',
};

/** Limits judge a run and do not change it, but for the cut-off; nor does what the cooling takes of the space. */
const changesRun = (path: string): boolean => path === 'limits.cellVoltage' || !/^limits\.|^heat\.added/.test(path);

/** Equal but for rounding: what adding and taking a motor's mass leaves in the last digits. */
const near = (a: number, b: number): boolean => Object.is(a, b) || Math.abs(a - b) <= 1e-9 * Math.min(Math.abs(a), Math.abs(b));

/** Paths of all fields in which two pieces of plain data differ. */
function differences(a: unknown, b: unknown, path = ''): string[] {
  if (typeof a === 'number' && typeof b === 'number') return near(a, b) ? [] : [path];
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b ? [] : [path];
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].flatMap((key) =>
    differences((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], path === '' ? key : `${path}.${key}`),
  );
}

/** Paths in which `a` changes once it takes all from `b` that is not the motor. */
const overridden = (a: DriveSystem, b: DriveSystem): string[] =>
  differences(
    a,
    mixedDrive(a, b, (part) => part === 'overrides'),
  ).filter(changesRun);

const wordsFor = (path: string): string => {
  const [section, key, body] = path.split('.');
  // of the capacities the motor has its own
  if (section === 'heat' && key === 'capacity') return WORDS[body === 'cells' ? 'battery' : 'controller'];
  return section === 'heat' ? HEAT_WORDS[key as keyof typeof HEAT_WORDS] : WORDS[section as keyof typeof WORDS];
};

/** What each part is made of, as plain numbers, for telling whether two drives differ in it. */
const CONTENT: Readonly<Record<Exclude<WhyPartId, 'overrides'>, (system: DriveSystem) => unknown>> = {
  speedConstant: ({ motor, gearbox }) => digits(motor.torqueConstant * gearbox.ratio),
  motorConstant: ({ motor, gearbox }) => [
    digits(motorConstant(motor) * gearbox.ratio),
    digits((motor.inductance / motor.resistance) * gearbox.ratio),
    motor.polePairs,
    motor.resistanceCoefficient,
    motor.fluxCoefficient,
  ],
  lossTorque: ({ motor, gearbox: { ratio } }) => [
    digits(motor.hysteresisTorque * ratio),
    digits(motor.eddyTorque * ratio ** 2),
    digits(motor.frictionTorque * ratio),
    digits(motor.windageTorque * ratio ** 3),
    motor.magnetLossShare,
  ],
  // behind another gear the motor turns at another speed, and its air with it
  heatPaths: ({ heat, motor, gearbox }) => [ownPaths(heat), motor.layout, motor.canDiameter, motor.canLength, gearbox.ratio],
  heatCapacity: ({ heat, motor, gearbox }) => [ownCapacity(heat), motor.mass, digits(motor.rotorInertia * gearbox.ratio ** 2)],
};

/** Twelve digits: what is equal but for rounding is equal. */
const digits = (value: number): number => Number(value.toPrecision(12));

const ownCapacity = ({ capacity }: DriveSystem['heat']) => ({
  winding: capacity.winding,
  stator: capacity.stator,
  can: capacity.can,
  magnets: capacity.magnets,
});

/** Paths that the motor brings with it, by where they lead. */
const WAYS = {
  inside: (heat: DriveSystem['heat']) => ({
    windingToStator: heat.windingToStator,
    statorToCan: heat.statorToCan,
    statorToMagnets: heat.statorToMagnets,
    magnetsToCan: heat.magnetsToCan,
  }),
  side: (heat: DriveSystem['heat']) => ({ sideArea: heat.sideArea, canLength: heat.canLength }),
  ends: (heat: DriveSystem['heat']) => ({ endArea: heat.endArea, canDiameter: heat.canDiameter }),
  elsewhere: (heat: DriveSystem['heat']) => ({
    throughFlow: heat.throughFlow,
    toMount: heat.toMount,
    mount: heat.mount,
    canToAir: heat.canToAir,
    statorToAir: heat.statorToAir,
  }),
} as const satisfies Record<WayPartId, (heat: DriveSystem['heat']) => Partial<DriveSystem['heat']>>;

const ownPaths = (heat: DriveSystem['heat']) => ({
  ...WAYS.inside(heat),
  ...WAYS.side(heat),
  ...WAYS.ends(heat),
  ...WAYS.elsewhere(heat),
});

/** Ways in which two motors differ; none where one turns its can and the other does not, whose ways cannot be exchanged one by one. */
export const waysThatDiffer = (a: DriveSystem, b: DriveSystem): WayPartId[] =>
  a.heat.layout === b.heat.layout
    ? (Object.keys(WAYS) as WayPartId[]).filter((way) => text(WAYS[way](a.heat)) !== text(WAYS[way](b.heat)))
    : [];

/** `drive` with the ways of `from` where `taken` says so. */
export function withWays(drive: DriveSystem, from: DriveSystem, taken: (way: WayPartId) => boolean): DriveSystem {
  const ways = (Object.keys(WAYS) as WayPartId[]).filter(taken).map((way) => WAYS[way](from.heat));
  const heat: DriveSystem['heat'] = Object.assign({}, drive.heat, ...ways);
  return { ...drive, motor: { ...drive.motor, canDiameter: heat.canDiameter, canLength: heat.canLength }, heat };
}

/** Plain data in one comparable text. */
const text = (x: unknown): string => JSON.stringify(x);

export const differsIn = (part: WhyPartId, a: DriveSystem, b: DriveSystem): boolean =>
  part === 'overrides' ? overridden(a, b).length > 0 : text(CONTENT[part](a)) !== text(CONTENT[part](b));

/**
 * Throws Error where `parts` of `b` put into `a` do not make `b`, or none of them does not leave `a`: a part that is in no list, a fault of the program.
 * What is then told of the ends would not be what their runs tell.
 */
export function assertEnds(a: DriveSystem, b: DriveSystem, parts: readonly WhyPartId[]): void {
  const missed = [
    ...differences(
      b,
      mixedDrive(a, b, (part) => parts.includes(part)),
    ),
    ...differences(
      a,
      mixedDrive(a, b, () => false),
    ),
  ].filter(changesRun);
  if (missed.length > 0) throw new Error(`No part of a drive has ${missed.join(', ')}.`);
}

/** What differs besides the motor, in words. */
export const overridesThatDiffer = (a: DriveSystem, b: DriveSystem): string[] => [...new Set(overridden(a, b).map(wordsFor))];

/** A drive whose parts come from `b` where `from(part)` says so, else from `a`. */
export function mixedDrive(a: DriveSystem, b: DriveSystem, from: (part: WhyPartId) => boolean): DriveSystem {
  const of = (part: WhyPartId): DriveSystem => (from(part) ? b : a);
  const rest = of('overrides');
  const paths = of('heatPaths');
  const bulk = of('heatCapacity');
  const size = of('motorConstant').motor;
  const loss = of('lossTorque').motor;
  // the motor turns as the one whose heat paths it has, since a turning can cools itself
  const { ratio } = paths.gearbox;
  const gear = (part: WhyPartId): number => of(part).gearbox.ratio / ratio;
  const torqueConstant = of('speedConstant').motor.torqueConstant * gear('speedConstant');
  const resistance = (torqueConstant / (motorConstant(size) * gear('motorConstant'))) ** 2;
  return {
    ...rest,
    motor: {
      ...rest.motor,
      torqueConstant,
      resistance,
      inductance: (size.inductance / size.resistance) * gear('motorConstant') * resistance,
      polePairs: size.polePairs,
      resistanceCoefficient: size.resistanceCoefficient,
      fluxCoefficient: size.fluxCoefficient,
      hysteresisTorque: loss.hysteresisTorque * gear('lossTorque'),
      eddyTorque: loss.eddyTorque * gear('lossTorque') ** 2,
      frictionTorque: loss.frictionTorque * gear('lossTorque'),
      windageTorque: loss.windageTorque * gear('lossTorque') ** 3,
      magnetLossShare: loss.magnetLossShare,
      rotorInertia: bulk.motor.rotorInertia * gear('heatCapacity') ** 2,
      mass: bulk.motor.mass,
      canDiameter: paths.motor.canDiameter,
      canLength: paths.motor.canLength,
      layout: paths.motor.layout,
    },
    gearbox: { ...rest.gearbox, ratio },
    vehicle:
      rest.vehicle.carriedBy === 'bench'
        ? rest.vehicle
        : { ...rest.vehicle, mass: rest.vehicle.mass + rest.drives * (bulk.motor.mass - rest.motor.mass) },
    heat: {
      ...rest.heat,
      ...ownPaths(paths.heat),
      layout: paths.heat.layout,
      capacity: { ...rest.heat.capacity, ...ownCapacity(bulk.heat) },
    },
  };
}
