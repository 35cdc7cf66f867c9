/**
 * The standard atmosphere from below the sea to 20 km: what the pressure and the temperature are at an altitude.
 *
 *   (1) H = r·h/(r + h)                          geopotential from geometric altitude
 *   (2) T = T₀ + L·H up to 11 km, then constant
 *   (3) p = p₀·(T/T₀)^(−g/(R·L)) up to 11 km,  p = p₁₁·exp(−g·(H − 11 km)/(R·T₁₁)) above
 *
 * T₀ — 288.15 K; p₀ — 101 325 Pa; L — −6.5 K/km; g — standard gravity; R — gas constant of dry air; r — 6 356 766 m.
 *
 * *Holds for* geopotential altitudes of −5 to 20 km; outside, a RangeError.
 * *Leaves out* weather: the pressure of a real day differs by up to 3 %, the temperature by tens of kelvin: the density of a real
 * day follows from the pressure of the altitude and the temperature that was measured.
 * *Sign* altitude is positive upwards, above mean sea level.
 * *Source* ISO 2533:1975, sections 2.3–2.8; downwards to −5 km ICAO Doc 7488/3.
 *
 * @module
 */

import { DRY_AIR_GAS_CONSTANT, STANDARD_GRAVITY } from '../quantities/constants.js';

const SEA_LEVEL_TEMPERATURE = 288.15;
/** Standard pressure at sea level [Pa]. */
export const SEA_LEVEL_PRESSURE = 101325;
const LAPSE_RATE = -6.5e-3;
const TROPOPAUSE = 11000;
const LOWEST = -5000;
const HIGHEST = 20000;
const EARTH_RADIUS = 6356766;
const TROPOPAUSE_TEMPERATURE = SEA_LEVEL_TEMPERATURE + LAPSE_RATE * TROPOPAUSE;
const PRESSURE_EXPONENT = -STANDARD_GRAVITY / (DRY_AIR_GAS_CONSTANT * LAPSE_RATE);
const TROPOPAUSE_PRESSURE = SEA_LEVEL_PRESSURE * (TROPOPAUSE_TEMPERATURE / SEA_LEVEL_TEMPERATURE) ** PRESSURE_EXPONENT;

/** (1) Geopotential altitude H [m] of a geometric `altitude` h [m]. */
export const geopotentialAltitude = (altitude: number): number => (EARTH_RADIUS * altitude) / (EARTH_RADIUS + altitude);

/** (2) Standard temperature T [K] at `geopotential` altitude [m]; throws RangeError outside −5 to 20 km. */
export const standardTemperature = (geopotential: number): number => {
  if (!(geopotential >= LOWEST && geopotential <= HIGHEST))
    throw new RangeError(`The standard atmosphere is laid out from ${LOWEST} to ${HIGHEST} m; asked for ${geopotential} m.`);
  return geopotential < TROPOPAUSE ? SEA_LEVEL_TEMPERATURE + LAPSE_RATE * geopotential : TROPOPAUSE_TEMPERATURE;
};

/** (3) Standard pressure p [Pa] at `geopotential` altitude [m]; throws RangeError outside −5 to 20 km. */
export const standardPressure = (geopotential: number): number => {
  const temperature = standardTemperature(geopotential);
  return geopotential < TROPOPAUSE
    ? SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** PRESSURE_EXPONENT
    : TROPOPAUSE_PRESSURE * Math.exp((-STANDARD_GRAVITY * (geopotential - TROPOPAUSE)) / (DRY_AIR_GAS_CONSTANT * temperature));
};

/** (1), (3) Pressure [Pa] at a geometric `altitude` [m], what a map or a scenario says; throws RangeError outside −5 to 20 km. */
export const pressureAtAltitude = (altitude: number): number => standardPressure(geopotentialAltitude(altitude));
