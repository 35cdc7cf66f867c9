/** The flags of `point` → what is held, at one or several values. @module */

import type { PointAsk } from '@shaftwork/sim-core/other-questions';
import { type Dimension, formatQuantity, readQuantity, readRange } from '@shaftwork/sim-core/quantities';
import { InputFault } from '../hands/exit.js';

export interface PointFlags {
  readonly throttle?: string;
  readonly vehicleSpeed?: string;
  readonly shaftSpeed?: string;
  readonly motorCurrent?: string;
  readonly batteryPower?: string;
  readonly batteryCurrent?: string;
  readonly thrust?: string;
}

const HOLDS = {
  throttle: ['--throttle', 'fraction', "'70 %'"],
  shaftSpeed: ['--shaft-speed', 'angularSpeed', "'9000 rpm'"],
  motorCurrent: ['--motor-current', 'current', "'20 A'"],
  batteryPower: ['--battery-power', 'power', "'150 W'"],
  batteryCurrent: ['--battery-current', 'current', "'15 A'"],
  thrust: ['--thrust', 'force', "'12 N'"],
  vehicleSpeed: ['--vehicle-speed', 'speed', "'3 m/s'"],
} as const satisfies Record<PointAsk['hold'], readonly [flag: string, dimension: Dimension, example: string]>;

/** Values over a range, ends included. */
const OVER_RANGE = 11;

/** One question, or several over a range, each with its value in words. Throws InputFault where flags exclude each other or cannot be read. */
export function asksOf(flags: PointFlags): { readonly asks: readonly PointAsk[]; readonly words: readonly string[] } {
  const given = (Object.keys(HOLDS) as PointAsk['hold'][]).filter((hold) => flags[hold] !== undefined);
  const held = given.filter((hold) => hold !== 'vehicleSpeed');
  if (held.length > 1)
    throw new InputFault(
      `Give one of ${held.map((hold) => HOLDS[hold][0]).join(' and ')}; --vehicle-speed may stand beside it. For help: npx shaftwork point --help`,
    );
  const hold = chosen(held[0], given);
  const [flag, dimension] = HOLDS[hold];
  const text = flags[hold];
  const range = text === undefined ? { from: 1, to: 1 } : rangeOf(hold, text);
  const speed = hold === 'vehicleSpeed' || flags.vehicleSpeed === undefined ? undefined : single(flags.vehicleSpeed);
  const count = range.from === range.to ? 1 : OVER_RANGE;
  const values = Array.from({ length: count }, (_, k) => range.from + ((range.to - range.from) * k) / Math.max(1, count - 1));
  if (hold === 'throttle' && values.some((value) => value < 0 || value > 1))
    throw new InputFault(`${flag}: a throttle lies between 0 and 100 %.`);
  if (values.some((value) => value < 0)) throw new InputFault(`${flag}: what is held is not negative.`);
  if (speed !== undefined && speed < 0) throw new InputFault('--vehicle-speed: the vehicle does not drive backwards.');
  return {
    asks: values.map((value) => {
      const vehicleSpeed = hold === 'vehicleSpeed' ? value : speed;
      return vehicleSpeed === undefined ? { hold, value } : { hold, value, vehicleSpeed };
    }),
    words: values.map((value) => formatQuantity(value, dimension, { space: ' ' })),
  };
}

const chosen = (held: PointAsk['hold'] | undefined, given: readonly PointAsk['hold'][]): PointAsk['hold'] =>
  held ?? (given.includes('vehicleSpeed') ? 'vehicleSpeed' : 'throttle');

function rangeOf(hold: PointAsk['hold'], text: string): { readonly from: number; readonly to: number } {
  const [flag, dimension, example] = HOLDS[hold];
  const read = readRange(text, dimension);
  if (read.ok) return read;
  throw refused(flag, read, example);
}

/** A condition is one value. */
function single(text: string): number {
  const [flag, dimension, example] = HOLDS.vehicleSpeed;
  const read = readQuantity(text, dimension);
  if (read.ok) return read.value;
  throw refused(flag, read, example);
}

const refused = (
  flag: string,
  { expected, found, hint }: { readonly expected: string; readonly found: string; readonly hint?: string | undefined },
  example: string,
): InputFault =>
  new InputFault(`${flag}: expected ${expected}; found ${found}.${hint === undefined ? '' : ` ${hint}.`} Such as: ${flag} ${example}`);
