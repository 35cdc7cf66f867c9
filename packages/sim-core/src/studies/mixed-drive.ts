/**
 * Drives mixed from two candidates, part by part, in coordinates that do not change when a motor is only rewound.
 *
 *   (1) R = (k_t/K_m)²: Kv at constant K_m is the choice of wire; K_m at constant Kv is the motor's size and copper
 *   (2) behind a gear of ratio G all are taken at the driven shaft: k_t·G, K_m·G, L/R·G, M_h·G, M_f·G, k_1·G², k_2·G³, J·G². A winding and its
 *       gear are chosen together, and a mixture that had one without the other would be a drive that nobody builds
 *
 * Parts: Kv · K_m · loss torque · heat paths of the motor · heat capacity and mass · overrides (all else that the candidates' files change:
 * water jacket, mount and air, controller, battery, gearbox, propeller, vehicle …).
 * *Source* of (1): D. Hanselman, Brushless Permanent Magnet Motor Design, 2nd ed., 2003, ch. 4 (motor constant).
 */
import type { DriveSystem } from '../drive/drive-system.js';
import { motorConstant } from '../parts/motor.js';
import type { WhyPartId } from '../results/why-result.js';

/** What may differ besides the motor, by the words it is told in. Limits are left out: they judge a run and do not change it, but for the cut-off. */
const OVERRIDES: Readonly<Record<string, (system: DriveSystem) => unknown>> = {
  'the water jacket': ({ heat }) => [heat.jacket, heat.jacketCovers],
  'the cooling air': ({ heat }) => [
    heat.airSpeed,
    heat.vehicleSpeedShare,
    heat.slipstreamShare,
    heat.openness,
    heat.convectionFactor,
    heat.emissivity,
  ],
  'the controller': ({ controller, heat }) => [controller, heat.controllerToAir, heat.capacity.controller],
  'the battery': ({ battery, heat, limits }) => [battery, heat.cellsToAir, heat.capacity.cells, limits.cellVoltage],
  'the wiring': ({ wiring }) => wiring,
  'the gear’s loss and mass': ({ gearbox }) => [gearbox.efficiency, gearbox.mass],
  'the propeller or wheel': ({ load }) => load,
  'the vehicle': ({ vehicle, motor, drives }) => [
    { ...vehicle, mass: vehicle.carriedBy === 'bench' ? 0 : round(vehicle.mass - drives * motor.mass) },
    drives,
  ],
  'the surroundings': ({ surroundings, start }) => [surroundings, start],
  'other loads': ({ otherLoads }) => otherLoads,
};

/** What each part is made of, as plain numbers, for telling whether two drives differ in it. */
const CONTENT: Readonly<Record<WhyPartId, (system: DriveSystem) => unknown>> = {
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
  heatPaths: ({ heat, motor }) => [ownPaths(heat), motor.layout, motor.canDiameter, motor.canLength],
  heatCapacity: ({ heat, motor, gearbox }) => [ownCapacity(heat), motor.mass, digits(motor.rotorInertia * gearbox.ratio ** 2)],
  overrides: (system) => Object.values(OVERRIDES).map((content) => content(system)),
};

/** Twelve digits: what is equal but for rounding is equal. */
const digits = (value: number): number => Number(value.toPrecision(12));

/** Rounded past what adding and taking a motor's mass leaves in the last digits. */
const round = (kilograms: number): number => Math.round(kilograms * 1e9) / 1e9;

const ownCapacity = ({ capacity }: DriveSystem['heat']) => ({
  winding: capacity.winding,
  stator: capacity.stator,
  can: capacity.can,
  magnets: capacity.magnets,
});

/** Paths that the motor brings with it. */
const ownPaths = (heat: DriveSystem['heat']) => ({
  windingToStator: heat.windingToStator,
  statorToCan: heat.statorToCan,
  statorToMagnets: heat.statorToMagnets,
  magnetsToCan: heat.magnetsToCan,
  throughFlow: heat.throughFlow,
  sideArea: heat.sideArea,
  endArea: heat.endArea,
  canDiameter: heat.canDiameter,
  canLength: heat.canLength,
  toMount: heat.toMount,
  mount: heat.mount,
  canToAir: heat.canToAir,
  statorToAir: heat.statorToAir,
});

/** Plain data, typed arrays by their numbers, in one comparable text. */
const text = (x: unknown): string =>
  JSON.stringify(x, (_, value) =>
    ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value === Number.POSITIVE_INFINITY ? 'infinite' : value,
  );

export const differsIn = (part: WhyPartId, a: DriveSystem, b: DriveSystem): boolean => text(CONTENT[part](a)) !== text(CONTENT[part](b));

/** What differs besides the motor, in words. */
export const overridesThatDiffer = (a: DriveSystem, b: DriveSystem): string[] =>
  Object.entries(OVERRIDES).flatMap(([words, content]) => (text(content(a)) === text(content(b)) ? [] : [words]));

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
