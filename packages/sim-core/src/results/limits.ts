/**
 * The one list of what must not be passed, in the order it is told: words, unit, what is watched, and how. `Limits` of drive/drive-system.ts brings the
 * bounds by the same names; a bound without a row here does not compile.
 *
 * @module
 */

import type { Limits } from '../drive/drive-system.js';
import type { Term } from '../problems/index.js';
import type { Dimension, UnitOf } from '../quantities/index.js';
import type { ChannelId } from './channels.js';

interface LimitOf<D extends Dimension> {
  readonly words: Term;
  /** What is limited, without who set the limit. */
  readonly quantity: string;
  readonly dimension: D;
  /** Unit people see. */
  readonly shown: UnitOf<D>;
  /** A ceiling is passed upwards, a floor downwards. */
  readonly sense: 'ceiling' | 'floor';
  /** What is held to the bound: a channel, the energy drawn from the pack, or the time that the profile lasts, driven again and again. */
  readonly watched: ChannelId | 'drawn' | 'lasting';
  /** A limit on a magnitude: braking counts as driving does. */
  readonly eitherWay?: true;
  /** Chosen with the parts and not run into: told only where it is too high. */
  readonly chosen?: true;
  /** A floor that a bound of 0 does not set. */
  readonly offAtZero?: true;
  /** Its lack is told even where no candidate has one. */
  readonly missed?: true;
}

const limit = <D extends Dimension>(facts: LimitOf<D>): LimitOf<D> => facts;
const heat = (quantity: Term, watched: ChannelId): LimitOf<'temperature'> => ({
  words: quantity,
  quantity,
  dimension: 'temperature',
  shown: '°C',
  sense: 'ceiling',
  watched,
});

/** All limits: words, unit, what is watched and how. */
export const LIMITS = {
  windingTemperature: heat('winding temperature', 'windingTemperature'),
  magnetTemperature: heat('magnet temperature', 'magnetTemperature'),
  controllerTemperature: heat('controller temperature', 'controllerTemperature'),
  cellTemperature: heat('cell temperature', 'cellTemperature'),
  motorCurrent: limit({
    words: 'motor current (maker)',
    quantity: 'motor current',
    dimension: 'current',
    shown: 'A',
    sense: 'ceiling',
    watched: 'motorCurrent',
    eitherWay: true,
    missed: true,
  }),
  inputPower: limit({
    words: 'input power (maker)',
    quantity: 'input power',
    dimension: 'power',
    shown: 'W',
    sense: 'ceiling',
    watched: 'inputPower',
    eitherWay: true,
  }),
  shaftSpeed: limit({
    words: 'motor speed (maker)',
    quantity: 'motor speed',
    dimension: 'angularSpeed',
    shown: 'rpm',
    sense: 'ceiling',
    watched: 'shaftSpeed',
  }),
  busVoltage: limit({
    words: 'voltage (maker)',
    quantity: 'voltage',
    dimension: 'voltage',
    shown: 'V',
    sense: 'ceiling',
    watched: 'busVoltage',
    chosen: true,
  }),
  batteryCurrent: limit({
    words: 'battery current (rating)',
    quantity: 'battery current',
    dimension: 'current',
    shown: 'A',
    sense: 'ceiling',
    watched: 'batteryCurrent',
    missed: true,
  }),
  batteryPower: limit({
    words: 'battery power (cap)',
    quantity: 'battery power',
    dimension: 'power',
    shown: 'W',
    sense: 'ceiling',
    watched: 'batteryPower',
  }),
  cellVoltage: limit({
    words: 'loaded cell voltage',
    quantity: 'loaded cell voltage',
    dimension: 'voltage',
    shown: 'V',
    sense: 'floor',
    watched: 'cellVoltage',
  }),
  reserve: limit({
    words: 'charge left',
    quantity: 'charge left',
    dimension: 'fraction',
    shown: '%',
    sense: 'floor',
    watched: 'charge',
    offAtZero: true,
  }),
  batteryEnergy: limit({
    words: 'energy from the pack (cap)',
    quantity: 'energy from the pack',
    dimension: 'energy',
    shown: 'W·h',
    sense: 'ceiling',
    watched: 'drawn',
  }),
  runTime: limit({
    words: 'time it lasts',
    quantity: 'time it lasts',
    dimension: 'time',
    shown: 'min',
    sense: 'floor',
    watched: 'lasting',
    offAtZero: true,
  }),
} as const satisfies { readonly [K in keyof Limits]-?: unknown };

/** One of `LIMITS`. */
export type LimitId = keyof typeof LIMITS;
/** Keys of `LIMITS`, in their order. */
export const LIMIT_IDS = Object.keys(LIMITS) as readonly LimitId[];
/** One value for each limit. */
export type ByLimit<T = number> = { readonly [K in LimitId]: T };
export const byLimit = <T>(value: (id: LimitId) => T): ByLimit<T> =>
  Object.fromEntries(LIMIT_IDS.map((id) => [id, value(id)])) as ByLimit<T>;
/** Whether a bound sets a limit. */
export const isSet = (id: LimitId, bound: number): boolean => Number.isFinite(bound) && !(bound === 0 && LIMITS[id].offAtZero === true);

/** Whether `value` lies past `bound`; what is NaN does not. */
export const isPast = (id: LimitId, value: number, bound: number): boolean =>
  LIMITS[id].sense === 'ceiling' ? value > bound : value < bound;
