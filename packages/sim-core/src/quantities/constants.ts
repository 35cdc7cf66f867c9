/** Constants of nature and of the calendar; the only place where they are written as digits. @module */

/** 0 °C on the kelvin scale [K]. */
export const ZERO_CELSIUS = 273.15;
/** Reference temperature of winding resistance and no-load data, 20 °C [K]. */
export const ROOM_TEMPERATURE = ZERO_CELSIUS + 20;
/** Standard acceleration of free fall [m/s²], ISO 80000-3. */
export const STANDARD_GRAVITY = 9.80665;
/** Stefan–Boltzmann constant [W/(m²·K⁴)], CODATA 2018. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;
/** Specific gas constant of dry air [J/(kg·K)], ISO 2533:1975. */
export const DRY_AIR_GAS_CONSTANT = 287.05287;
/** Seconds in a minute [s]. */
export const SECONDS_PER_MINUTE = 60;
/** Seconds in an hour [s]. */
export const SECONDS_PER_HOUR = 3600;
/** One revolution per minute [rad/s]. */
export const RPM = (2 * Math.PI) / SECONDS_PER_MINUTE;
