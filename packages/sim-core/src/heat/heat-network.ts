/**
 * The heat network of one drive at one moment: heat into each body from its losses, its neighbours and its surroundings.
 *
 *   (1) net heat of a body = its loss − Σ conductance·(its temperature − the other's)
 *   (2) air through an open motor: G = G₁₀·openness·(ω·D/2 + air speed)/(10 m/s), half of it from the winding, half from the stator;
 *       a given one, all of it from the stator: G = G_ref·(ω·D/2 + air speed)/(ω_ref·D/2), or G_ref at every speed
 *   (3) sink: 1/G = 1/G_contact + 1/G_fins, fins by their efficiency, between fins natural convection and stream blended
 *   (4) coil: 1/G = 1/G_contact + 1/G_water, water by internal flow, its warming counted
 *
 * Everything that moves air collapses with the speeds: at the stop an outrunner loses (2) and the bell's share of turning.
 * *Holds for* what convection.ts, fins.ts, mount.ts and water-jacket.ts hold for. G₁₀ of (2) may be off by a factor of 2.5.
 * *Leaves out* heat along shaft and leads, a hot neighbour, warming of the air on its way through motor and bay.
 * *Sign* heat is positive into the body; what leaves is positive in `HeatOutlets`.
 *
 * @module
 */

import { canEndHeat, canSideHeat } from './can-surface.js';
import { compartmentConvection, compartmentFactor } from './compartment.js';
import { blendCoefficients, finChannelCoefficient, plateCoefficient } from './convection.js';
import { finSpacing, heatSinkConductance } from './fins.js';
import type { FittedSink, HeatPaths, WaterCoil } from './heat-paths.js';
import type { HeatOutlets } from './heat-ways.js';
import { mountHeat } from './mount.js';
import { coilConductance, jacketConductance } from './water-jacket.js';

/** What surrounds the network at this moment. All [SI]. */
export interface HeatSurroundings {
  readonly motorAirTemperature: number;
  readonly airPressure: number;
  readonly compartmentTemperature: number;
  readonly waterTemperature: number;
}

/** Motion that the conductances follow; reused record. */
export interface HeatMotion {
  /** Motor shaft [rad/s]. */
  shaftSpeed: number;
  /** [m/s] */
  vehicleSpeed: number;
  /** Speed of the air at the motor, own fan not counted [m/s]. */
  airSpeed: number;
}

/** Speed of air at which a through-flow conductance is stated [m/s]. */
export const THROUGH_FLOW_SPEED = 10;

const inSeries = (a: number, b: number): number => (b === 0 ? 0 : 1 / (1 / a + 1 / b));

/** An infinite conductance joins two bodies into one: no heat is calculated between them. */
const between = (conductance: number, difference: number): number =>
  conductance === Number.POSITIVE_INFINITY ? 0 : conductance * difference;

/** (3) Conductance [W/K] of a fitted sink whose base is at `base` in `air` [K] at `pressure` [Pa] with `airSpeed` along its fins [m/s]. Throws RangeError on fins that do not fit. */
export function sinkConductance({ fins, contact }: FittedSink, base: number, air: number, pressure: number, airSpeed: number): number {
  const still = finChannelCoefficient(base, air, pressure, finSpacing(fins), fins.length);
  const stream = airSpeed === 0 ? 0 : plateCoefficient(air, air, pressure, fins.length, airSpeed);
  return inSeries(contact, heatSinkConductance(fins, blendCoefficients(still, stream)));
}

/** (4) Conductance [W/K] from the motor to the water that enters a coil at `temperature` [K], boat at `speed` [m/s]; none where neither it nor a pump moves water. Throws RangeError outside 0–60 °C. */
export const fittedCoilConductance = (coil: WaterCoil, temperature: number, speed: number): number =>
  inSeries(coil.contact, coilConductance(coil.water, temperature, coil.pumpSpeed + coil.speedShare * speed, coil.bore, coil.length));

/** Speed of the air in the compartment [m/s]. */
export const compartmentAir = (
  { compartmentAirSpeed, compartmentSpeedShare }: Pick<HeatPaths, 'compartmentAirSpeed' | 'compartmentSpeedShare'>,
  vehicleSpeed: number,
): number => compartmentAirSpeed + compartmentSpeedShare * vehicleSpeed;

/** (2) Conductance [W/K] of winding and stator together to the air that passes through. */
export const throughFlowConductance = (
  paths: Pick<HeatPaths, 'throughFlow' | 'openness' | 'canDiameter'>,
  shaftSpeed: number,
  airSpeed: number,
): number =>
  paths.openness > 0 ? (paths.throughFlow * paths.openness * (0.5 * paths.canDiameter * shaftSpeed + airSpeed)) / THROUGH_FLOW_SPEED : 0;

/** Conductance [W/K] of the stator alone to the air, where it was given. */
export const givenFlowConductance = (
  { statorToAir, canDiameter }: Pick<HeatPaths, 'statorToAir' | 'canDiameter'>,
  shaftSpeed: number,
  airSpeed: number,
): number => {
  if (statorToAir === undefined) return 0;
  const { conductance, shaftSpeed: stated } = statorToAir;
  return stated === 0 ? conductance : (conductance * (0.5 * canDiameter * shaftSpeed + airSpeed)) / (0.5 * canDiameter * stated);
};

/** Fills what the surfaces of can and mount give off [W] by the plain laws of can-surface.ts and mount.ts; the kernel fills it by their fit. */
export function surfaceOutlets(
  paths: HeatPaths,
  { motorAirTemperature: air, airPressure }: HeatSurroundings,
  { shaftSpeed, airSpeed }: Readonly<HeatMotion>,
  temperature: ArrayLike<number>,
  outlets: HeatOutlets,
): void {
  const outrunner = paths.layout === 'outrunner';
  const spin = outrunner ? shaftSpeed : 0;
  const can = temperature[2];
  outlets.mount = mountHeat(paths, outrunner ? temperature[1] : can, air, airPressure, airSpeed);
  outlets.canSide = paths.canToAir * (can - air) + canSideHeat(paths, can, air, airPressure, airSpeed, spin);
  outlets.canEnds = canEndHeat(paths, can, air, airPressure, airSpeed, spin);
}

/**
 * (1) Writes the net heat of each body [W], in the order of BODIES, into `net` from `temperature` [K] and `loss` [W]. `outlets` brings what leaves by
 * the surfaces of can and mount and takes what leaves the other ways. NaN where a temperature leaves the laws. Cells and controller count whole.
 */
export function heatNetwork(
  paths: HeatPaths,
  surroundings: HeatSurroundings,
  motion: Readonly<HeatMotion>,
  temperature: ArrayLike<number>,
  loss: ArrayLike<number>,
  net: Float64Array,
  outlets: HeatOutlets,
): void {
  const { motorAirTemperature: air, airPressure, compartmentTemperature, waterTemperature } = surroundings;
  const { shaftSpeed, vehicleSpeed, airSpeed } = motion;
  const winding = temperature[0];
  const stator = temperature[1];
  const can = temperature[2];
  const magnets = temperature[3];
  const outrunner = paths.layout === 'outrunner';
  const { jacket, coil } = paths;
  const onCan = !(outrunner && (jacket ?? coil)?.covers === 'mount');
  const water =
    jacket !== undefined
      ? jacketConductance(jacket.conductance, jacket.speed, vehicleSpeed, jacket.restShare)
      : coil !== undefined
        ? fittedCoilConductance(coil, waterTemperature, vehicleSpeed)
        : 0;
  outlets.water = water * ((onCan ? can : stator) - waterTemperature);
  const half = 0.5 * throughFlowConductance(paths, shaftSpeed, airSpeed);
  const windingAir = half * (winding - air);
  const statorAir = (half + givenFlowConductance(paths, shaftSpeed, airSpeed)) * (stator - air);
  outlets.throughFlow = windingAir + statorAir;
  const statorMount = outrunner ? outlets.mount : 0;
  const canMount = outlets.mount - statorMount;
  let sinkCan = 0;
  let sinkStator = 0;
  let sinkController = 0;
  const { sink } = paths;
  if (sink !== undefined) {
    const onController = sink.covers === 'controller';
    const onStator = sink.covers === 'mount' && outrunner;
    const base = onController ? temperature[4] : onStator ? stator : can;
    const around = onController ? compartmentTemperature : air;
    const heat = base > 181 && base < 1000 ? sinkConductance(sink, base, around, airPressure, airSpeed) * (base - around) : Number.NaN;
    if (onController) sinkController = heat;
    else if (onStator) sinkStator = heat;
    else sinkCan = heat;
  }
  outlets.sink = sinkCan + sinkStator + sinkController;
  const strapOnCan = !(paths.strap?.covers === 'mount' && outrunner);
  const strapped = strapOnCan ? can : stator;
  outlets.strap = paths.strap === undefined ? 0 : paths.strap.conductance * (strapped - waterTemperature);
  const convection = compartmentConvection(airPressure, compartmentAir(paths, vehicleSpeed));
  outlets.controller =
    paths.controllerToAir * compartmentFactor(paths.controllerConvection, convection) * (temperature[4] - compartmentTemperature);
  outlets.cells = paths.cellsToAir * compartmentFactor(paths.cellsConvection, convection) * (temperature[5] - compartmentTemperature);
  const windingStator = between(paths.windingToStator, winding - stator);
  const statorCan = between(paths.statorToCan, stator - can);
  const statorMagnets = between(paths.statorToMagnets, stator - magnets);
  const magnetsCan = between(paths.magnetsToCan, magnets - can);
  net[0] = loss[0] - windingStator - windingAir;
  net[1] =
    loss[1] +
    windingStator -
    statorCan -
    statorMagnets -
    statorMount -
    statorAir -
    sinkStator -
    (onCan ? 0 : outlets.water) -
    (strapOnCan ? 0 : outlets.strap);
  net[2] =
    loss[2] +
    statorCan +
    magnetsCan -
    outlets.canSide -
    outlets.canEnds -
    canMount -
    sinkCan -
    (onCan ? outlets.water : 0) -
    (strapOnCan ? outlets.strap : 0);
  net[3] = loss[3] + statorMagnets - magnetsCan;
  net[4] = loss[4] - outlets.controller - sinkController;
  net[5] = loss[5] - outlets.cells;
}
