/**
 * The one list of what is observed: words, symbol, part, dimension and shown unit. JSON keys, CSV heads, axis titles and table heads come from it.
 *
 * @module
 */

import { BODIES, type Body } from '../heat/heat-paths.js';
import type { Term } from '../problems/index.js';
import type { Dimension, UnitOf } from '../quantities/index.js';

/** What is said of one channel. */
export interface Channel<D extends Dimension = Dimension> {
  readonly words: Term;
  readonly symbol: string;
  readonly part: 'time' | 'battery' | 'controller' | 'motor' | 'load' | 'vehicle' | 'heat';
  readonly dimension: D;
  readonly shown: UnitOf<D>;
  /** Unit part of a JSON key or CSV head; empty for what has no unit. */
  readonly suffix: string;
  /** Number of digits after the point when shown [1]. */
  readonly decimals: number;
}

const channel = <D extends Dimension>(c: Channel<D>): Channel<D> => c;
const temperature = (words: Term, symbol: string): Channel<'temperature'> => ({
  words,
  symbol,
  part: 'heat',
  dimension: 'temperature',
  shown: '°C',
  suffix: 'degC',
  decimals: 0,
});
const power = (words: Term, symbol: string, part: Channel['part']): Channel<'power'> => ({
  words,
  symbol,
  part,
  dimension: 'power',
  shown: 'W',
  suffix: 'W',
  decimals: 0,
});

/** What a run knows at every moment, with words, symbol and unit. */
export const CHANNELS = {
  throttle: channel({
    words: 'throttle',
    symbol: 'd',
    part: 'controller',
    dimension: 'fraction',
    shown: '%',
    suffix: 'percent',
    decimals: 0,
  }),
  vehicleSpeed: channel({ words: 'speed', symbol: 'v', part: 'vehicle', dimension: 'speed', shown: 'm/s', suffix: 'm_per_s', decimals: 2 }),
  climbRate: channel({
    words: 'climb rate',
    symbol: 'w',
    part: 'vehicle',
    dimension: 'speed',
    shown: 'm/s',
    suffix: 'm_per_s',
    decimals: 1,
  }),
  shaftSpeed: channel({
    words: 'motor speed',
    symbol: 'ω',
    part: 'motor',
    dimension: 'angularSpeed',
    shown: 'rpm',
    suffix: 'rpm',
    decimals: 0,
  }),
  motorTorque: channel({ words: 'motor torque', symbol: 'M', part: 'motor', dimension: 'torque', shown: 'N·m', suffix: 'Nm', decimals: 3 }),
  thrust: channel({ words: 'thrust', symbol: 'F', part: 'load', dimension: 'force', shown: 'N', suffix: 'N', decimals: 1 }),
  motorCurrent: channel({ words: 'motor current', symbol: 'i', part: 'motor', dimension: 'current', shown: 'A', suffix: 'A', decimals: 1 }),
  batteryCurrent: channel({
    words: 'battery current',
    symbol: 'i_b',
    part: 'battery',
    dimension: 'current',
    shown: 'A',
    suffix: 'A',
    decimals: 1,
  }),
  busVoltage: channel({
    words: 'voltage at the controller',
    symbol: 'v_bus',
    part: 'controller',
    dimension: 'voltage',
    shown: 'V',
    suffix: 'V',
    decimals: 2,
  }),
  cellVoltage: channel({
    words: 'loaded cell voltage',
    symbol: 'v_c',
    part: 'battery',
    dimension: 'voltage',
    shown: 'V',
    suffix: 'V',
    decimals: 2,
  }),
  charge: channel({
    words: 'charge left',
    symbol: 's',
    part: 'battery',
    dimension: 'fraction',
    shown: '%',
    suffix: 'percent',
    decimals: 0,
  }),
  batteryPower: power('battery power', 'P_b', 'battery'),
  inputPower: power('motor input power', 'P_in', 'motor'),
  shaftPower: power('motor shaft power', 'P_s', 'motor'),
  copperLoss: power('copper loss', 'P_cu', 'motor'),
  noLoadLoss: power('iron, friction and windage loss', 'P_0', 'motor'),
  controllerLoss: power('controller loss', 'P_c', 'controller'),
  windingTemperature: temperature('winding', 'T_w'),
  statorTemperature: temperature('stator iron', 'T_s'),
  canTemperature: temperature('can', 'T_c'),
  magnetTemperature: temperature('magnets', 'T_m'),
  controllerTemperature: temperature('controller', 'T_k'),
  cellTemperature: temperature('cells', 'T_b'),
} as const;

/** One of `CHANNELS`. */
export type ChannelId = keyof typeof CHANNELS;
/** Keys of `CHANNELS`, in their order. */
export const CHANNEL_IDS = Object.keys(CHANNELS) as readonly ChannelId[];

/** The channel of each body's temperature. */
export const BODY_CHANNEL = {
  winding: 'windingTemperature',
  stator: 'statorTemperature',
  can: 'canTemperature',
  magnets: 'magnetTemperature',
  controller: 'controllerTemperature',
  cells: 'cellTemperature',
} as const satisfies Record<Body, ChannelId>;
/** A channel that is a temperature. */
export type TemperatureChannel = (typeof BODY_CHANNEL)[Body];
/** One value for each of them. */
export const byTemperatureChannel = <T>(value: (body: Body, id: TemperatureChannel) => T): { readonly [K in TemperatureChannel]: T } =>
  Object.fromEntries(BODIES.map((body) => [BODY_CHANNEL[body], value(body, BODY_CHANNEL[body])])) as {
    readonly [K in TemperatureChannel]: T;
  };
/** In the order of BODIES. */
export const TEMPERATURE_CHANNELS: readonly TemperatureChannel[] = BODIES.map((body) => BODY_CHANNEL[body]);
