/**
 * Heat transfer coefficients h [W/(m²·K)] between a motor, controller or pack and the air, from temperatures, sizes and speeds.
 *
 *   (1) T_film = (T_s + T_air)/2: all properties there and at the pressure p
 *   (2) Ra = g·|T_s − T_air|·D³·Pr/(T_film·ν²)
 *   (3) h  = (Σ h_i³)^⅓ over natural convection, stream across, stream along and rotation, each h_i = Nu_i·k/size
 *
 * *Holds for* dry air, film 180–1050 K (RangeError outside), and the ranges of the laws blended; default tolerance ±35 % (common practice).
 * Every coefficient is defined at equal temperatures and zero speed, continuous in all of its arguments, and never negative.
 * *Leaves out* whether buoyancy helps or opposes a stream; yaw other than across and along, which blend; walls and neighbours near by.
 * In (3) the conduction limit of the law across the stream (Nu = 0.3) is taken off, since the natural law already holds one.
 * *Sign* speeds count by magnitude; heat flow is h·A·(T_s − T_air), from the surface.
 * *Source* (2), (3) Incropera et al., 6th ed., eqs. 9.25 and 9.64 with n = 3, after S.W. Churchill, AIChE Journal 23, 1977; that rotation is blended the same way is
 * common practice, no published source. The laws: nusselt-natural, nusselt-forced, nusselt-rotation.
 *
 * @module
 */

import { airConductivity, airKinematicViscosity, airPrandtl } from '../media/air.js';
import { STANDARD_GRAVITY } from '../quantities/constants.js';
import { CROSS_FLOW_CONDUCTION, crossFlowNusselt, plateNusselt } from './nusselt-forced.js';
import { channelNaturalNusselt, cylinderNaturalNusselt, plateNaturalNusselt } from './nusselt-natural.js';
import { turningCylinderNusselt, turningDiscNusselt } from './nusselt-rotation.js';

/** (3) Third-power blend of up to four coefficients [W/(m²·K)]. */
export const blendCoefficients = (a: number, b: number, c = 0, d = 0): number => Math.cbrt(a * a * a + b * b * b + c * c * c + d * d * d);

const requireSize = (size: number): void => {
  if (!(size > 0)) throw new RangeError(`A surface needs a positive size; got ${size} m.`);
};

/** (2) Rayleigh number [1] on `size` [m]. */
const rayleigh = (difference: number, film: number, viscosity: number, prandtl: number, size: number): number =>
  (STANDARD_GRAVITY * Math.abs(difference) * size ** 3 * prandtl) / (film * viscosity * viscosity);

/** h of a flat surface of `length` [m], upright, with `speed` [m/s] along it: temperatures [K], `pressure` [Pa]. Throws RangeError as above. */
export const plateCoefficient = (
  surfaceTemperature: number,
  airTemperature: number,
  pressure: number,
  length: number,
  speed: number,
): number => {
  requireSize(length);
  const film = (surfaceTemperature + airTemperature) / 2;
  const viscosity = airKinematicViscosity(film, pressure);
  const prandtl = airPrandtl(film);
  const natural = plateNaturalNusselt(rayleigh(surfaceTemperature - airTemperature, film, viscosity, prandtl, length), prandtl);
  const forced = speed === 0 ? 0 : plateNusselt((Math.abs(speed) * length) / viscosity, prandtl);
  return (airConductivity(film) / length) * blendCoefficients(natural, forced);
};

/**
 * h over the side of a can or bell: temperatures [K], `pressure` [Pa], `diameter` and `length` [m], `crossSpeed` and `alongSpeed` of the air
 * [m/s], `spin` of the surface [rad/s]. Throws RangeError as above.
 */
export const cylinderSideCoefficient = (
  surfaceTemperature: number,
  airTemperature: number,
  pressure: number,
  diameter: number,
  length: number,
  crossSpeed: number,
  alongSpeed: number,
  spin: number,
): number => {
  requireSize(diameter);
  requireSize(length);
  const film = (surfaceTemperature + airTemperature) / 2;
  const viscosity = airKinematicViscosity(film, pressure);
  const prandtl = airPrandtl(film);
  const natural = cylinderNaturalNusselt(rayleigh(surfaceTemperature - airTemperature, film, viscosity, prandtl, diameter), prandtl);
  const across = crossSpeed === 0 ? 0 : crossFlowNusselt((Math.abs(crossSpeed) * diameter) / viscosity, prandtl) - CROSS_FLOW_CONDUCTION;
  const along = alongSpeed === 0 ? 0 : (plateNusselt((Math.abs(alongSpeed) * length) / viscosity, prandtl) * diameter) / length;
  const turning = spin === 0 ? 0 : turningCylinderNusselt((Math.abs(spin) * diameter * diameter) / viscosity, prandtl);
  return (airConductivity(film) / diameter) * blendCoefficients(natural, across, along, turning);
};

/**
 * h over the flat end of a can or bell, upright: temperatures [K], `pressure` [Pa], `diameter` [m], `airSpeed` along the end [m/s], `spin` of the
 * surface [rad/s]. Throws RangeError as above.
 */
export const cylinderEndCoefficient = (
  surfaceTemperature: number,
  airTemperature: number,
  pressure: number,
  diameter: number,
  airSpeed: number,
  spin: number,
): number => {
  requireSize(diameter);
  const film = (surfaceTemperature + airTemperature) / 2;
  const viscosity = airKinematicViscosity(film, pressure);
  const prandtl = airPrandtl(film);
  const radius = diameter / 2;
  const natural = plateNaturalNusselt(rayleigh(surfaceTemperature - airTemperature, film, viscosity, prandtl, diameter), prandtl);
  const forced = airSpeed === 0 ? 0 : plateNusselt((Math.abs(airSpeed) * diameter) / viscosity, prandtl);
  // The disc's Nu is on the radius, the others' on the diameter.
  const turning = spin === 0 ? 0 : 2 * turningDiscNusselt((Math.abs(spin) * radius * radius) / viscosity, prandtl);
  return (airConductivity(film) / diameter) * blendCoefficients(natural, forced, turning);
};

/**
 * h between upright fins in still air, on their own area: temperatures [K], `pressure` [Pa], `spacing` between fins and `height` along the rising
 * air [m]. Throws RangeError as above. *Leaves out* draught; blend it in with (3).
 */
export const finChannelCoefficient = (
  surfaceTemperature: number,
  airTemperature: number,
  pressure: number,
  spacing: number,
  height: number,
): number => {
  requireSize(spacing);
  requireSize(height);
  const film = (surfaceTemperature + airTemperature) / 2;
  const viscosity = airKinematicViscosity(film, pressure);
  const number = rayleigh(surfaceTemperature - airTemperature, film, viscosity, airPrandtl(film), spacing);
  return (airConductivity(film) / spacing) * channelNaturalNusselt((number * spacing) / height);
};
