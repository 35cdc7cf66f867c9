/**
 * The dimensions a number can have, each with the units people may be shown, the SI unit first.
 * This table is for showing; `read-quantity.ts` reads every unit that can be built from the symbols in `unit-symbols.ts`.
 *
 * - `wireGauge` is a dimension of its own although its SI unit is that of an area: wire is sold by gauge or by mm², and no wing is.
 * - A thermal resistance is no dimension: a conductance may be written in K/W and is inverted.
 * - `ratio` is any plain number with a tolerance (gear ratio, pitch ratio); `fraction` is a share of a whole, written in % or as 0 to 1.
 *
 * @module
 */

/** Units of each dimension, the SI unit first. */
export const UNITS = {
  temperature: ['K', '°C', '°F'],
  temperatureDifference: ['K'],
  temperatureCoefficient: ['1/K', '%/K'],
  conductance: ['W/K', 'K/W'],
  heatCapacity: ['J/K'],
  specificHeat: ['J/(kg·K)'],
  thermalConductivity: ['W/(m·K)'],
  heatTransferCoefficient: ['W/(m²·K)'],

  current: ['A', 'mA'],
  voltage: ['V', 'mV'],
  resistance: ['ohm', 'mohm'],
  inductance: ['H', 'mH', 'µH'],
  capacitance: ['F', 'µF'],
  charge: ['A·s', 'mA·h', 'A·h'],
  power: ['W', 'kW', 'mW'],
  energy: ['J', 'kJ', 'W·h'],

  angle: ['rad', '°'],
  angularSpeed: ['rad/s', 'rpm'],
  speedConstant: ['rad/(s·V)', 'rpm/V'],
  torque: ['N·m', 'mN·m', 'N·cm', 'kgf·cm', 'ozf·in'],
  torqueConstant: ['N·m/A', 'mN·m/A', 'mV/rpm'],
  torquePerSpeed: ['N·m·s/rad', 'mN·m/krpm'],
  torquePerSpeedSquared: ['N·m·s²/rad²', 'mN·m/krpm²'],
  inertia: ['kg·m²', 'g·cm²'],
  frequency: ['Hz', 'kHz'],
  dischargeRate: ['1/s', 'C'],

  time: ['s', 'min', 'h', 'ms', 'µs', 'ns'],
  length: ['m', 'mm', 'cm', 'km', 'µm', 'in', 'ft'],
  area: ['m²', 'cm²', 'mm²'],
  volume: ['m³', 'L', 'cm³'],
  wireGauge: ['m²', 'mm²', 'AWG'],
  mass: ['kg', 'g', 'oz', 'lb'],
  speed: ['m/s', 'km/h', 'kn', 'mph'],
  acceleration: ['m/s²'],
  force: ['N', 'gf', 'kgf', 'ozf', 'lbf'],
  pressure: ['Pa', 'hPa', 'kPa', 'bar'],
  density: ['kg/m³', 'g/cm³'],
  viscosity: ['Pa·s', 'mPa·s'],
  kinematicViscosity: ['m²/s', 'mm²/s'],
  massFlow: ['kg/s', 'g/s'],
  volumeFlow: ['m³/s', 'L/min'],

  fraction: ['1', '%'],
  ratio: ['1'],
} as const satisfies Record<string, readonly [si: string, ...others: string[]]>;

type Listed = keyof typeof UNITS;
/** One of the dimensions that `UNITS` lists. */
// `keyof` alone would be written out by the compiler wherever it speaks of a dimension, all forty of them
export type Dimension = { readonly [D in Listed]: D }[Listed];

/** The units in which a quantity of dimension D may be shown; without D, every listed unit. */
export type UnitOf<D extends Dimension = Dimension> = (typeof UNITS)[D][number];
