/** What is known of each dimension beyond its units. @module */

import type { Dimension, UnitOf } from './units.js';

/** What the readers and the formatter know of a dimension beyond its units. */
export interface DimensionFacts<D extends Dimension = Dimension> {
  /** Noun, to stand in a sentence. */
  readonly words: string;
  /** The unit in which people are shown it when nobody says otherwise. */
  readonly shown: UnitOf<D>;
  /** What `±` means: log-normal for positive scales, normal for what may pass through zero or counts from an arbitrary zero. */
  readonly spread: 'normal' | 'log-normal';
  /** Powers of the radian that a written unit may have instead of that of the SI unit: N·m·s for N·m·s/rad. */
  readonly radians?: readonly number[];
  /** Symbols that have the powers of this dimension and another meaning: joule is no torque. */
  readonly refuses?: readonly string[];
  /** What to say of a unit that people write here and that cannot be read. */
  readonly hints?: readonly (readonly [unit: RegExp, hint: string])[];
}

const CELSIUS = [/^[CF]$|^°$|^deg$/, 'write °C or degC, °F or degF'] as const;
const WEIGHT = [/^k?g$|^oz$|^lbs?$/, 'a force in grams or ounces is written gf, kgf, ozf or lbf'] as const;
const TURNING_WEIGHT = [/\bk?g\b|\boz\b|\blbs?\b/, 'a torque in kilograms or ounces is written kgf·cm, ozf·in or lbf·in'] as const;
const NANOMETRE = [/^nm$/, 'write N·m or Nm'] as const;
const CAPACITY = [/W|J/, 'a charge is in A·h; divide W·h by the nominal voltage'] as const;
const KV = [/^kv$/i, 'Kv is the name of the quantity; its unit is rpm/V'] as const;
// A double prime arrives as two primes (NFKC).
const MINUTES = [/^['\u2032\u2019]$/, 'write min'] as const;
const INCHES = [/^["\u201d]$|^['\u2032\u2019]{2}$/, 'write in'] as const;

export const DIMENSION_FACTS: { readonly [D in Dimension]: DimensionFacts<D> } = {
  temperature: { words: 'temperature', shown: '°C', spread: 'normal', hints: [CELSIUS] },
  temperatureDifference: { words: 'temperature difference', shown: 'K', spread: 'normal', hints: [CELSIUS] },
  temperatureCoefficient: { words: 'temperature coefficient', shown: '%/K', spread: 'normal' },
  conductance: { words: 'thermal conductance', shown: 'W/K', spread: 'log-normal' },
  heatCapacity: { words: 'heat capacity', shown: 'J/K', spread: 'log-normal' },
  specificHeat: { words: 'specific heat', shown: 'J/(kg·K)', spread: 'log-normal' },
  thermalConductivity: { words: 'thermal conductivity', shown: 'W/(m·K)', spread: 'log-normal' },
  heatTransferCoefficient: { words: 'heat transfer coefficient', shown: 'W/(m²·K)', spread: 'log-normal' },

  current: { words: 'current', shown: 'A', spread: 'log-normal' },
  voltage: { words: 'voltage', shown: 'V', spread: 'log-normal' },
  resistance: { words: 'resistance', shown: 'mohm', spread: 'log-normal' },
  inductance: { words: 'inductance', shown: 'µH', spread: 'log-normal' },
  capacitance: { words: 'capacitance', shown: 'µF', spread: 'log-normal' },
  charge: { words: 'charge', shown: 'A·h', spread: 'log-normal', hints: [CAPACITY] },
  power: { words: 'power', shown: 'W', spread: 'log-normal' },
  energy: { words: 'energy', shown: 'W·h', spread: 'log-normal', refuses: ['N', 'Nm', 'Ncm', 'Nmm', 'kgf', 'gf', 'ozf', 'lbf'] },

  angle: { words: 'angle', shown: '°', spread: 'normal' },
  angularSpeed: { words: 'angular speed', shown: 'rpm', spread: 'log-normal', refuses: ['C'] },
  speedConstant: { words: 'speed constant', shown: 'rpm/V', spread: 'log-normal', refuses: ['C'], hints: [KV] },
  torque: { words: 'torque', shown: 'mN·m', spread: 'log-normal', refuses: ['J', 'W', 'Wh', 'Ws'], hints: [TURNING_WEIGHT, NANOMETRE] },
  torqueConstant: { words: 'torque constant', shown: 'mN·m/A', spread: 'log-normal', radians: [-1] },
  torquePerSpeed: { words: 'torque per angular speed', shown: 'mN·m/krpm', spread: 'log-normal', radians: [0] },
  torquePerSpeedSquared: {
    words: 'torque per square of angular speed',
    shown: 'mN·m/krpm²',
    spread: 'log-normal',
    radians: [0],
    refuses: ['g'],
  },
  inertia: { words: 'moment of inertia', shown: 'g·cm²', spread: 'log-normal' },
  frequency: { words: 'frequency', shown: 'kHz', spread: 'log-normal', refuses: ['C'] },
  dischargeRate: { words: 'discharge rate', shown: 'C', spread: 'log-normal', refuses: ['Hz'] },

  time: { words: 'time', shown: 's', spread: 'log-normal', hints: [MINUTES] },
  length: { words: 'length', shown: 'mm', spread: 'log-normal', hints: [INCHES] },
  area: { words: 'area', shown: 'm²', spread: 'log-normal' },
  volume: { words: 'volume', shown: 'L', spread: 'log-normal' },
  wireGauge: { words: 'wire gauge or cross-section', shown: 'AWG', spread: 'log-normal' },
  mass: { words: 'mass', shown: 'g', spread: 'log-normal' },
  speed: { words: 'speed', shown: 'm/s', spread: 'normal' },
  acceleration: { words: 'acceleration', shown: 'm/s²', spread: 'normal' },
  force: { words: 'force', shown: 'N', spread: 'log-normal', hints: [WEIGHT] },
  pressure: { words: 'pressure', shown: 'hPa', spread: 'log-normal' },
  density: { words: 'density', shown: 'kg/m³', spread: 'log-normal' },
  viscosity: { words: 'dynamic viscosity', shown: 'mPa·s', spread: 'log-normal' },
  kinematicViscosity: { words: 'kinematic viscosity', shown: 'mm²/s', spread: 'log-normal' },
  massFlow: { words: 'mass flow', shown: 'g/s', spread: 'log-normal' },
  volumeFlow: { words: 'volume flow', shown: 'L/min', spread: 'log-normal' },

  fraction: { words: 'fraction', shown: '%', spread: 'normal' },
  ratio: { words: 'ratio', shown: '1', spread: 'log-normal', refuses: ['%'] },
};

/** "a resistance", "an angular speed". */
export function named(dimension: Dimension): string {
  const { words } = DIMENSION_FACTS[dimension];
  return `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;
}
