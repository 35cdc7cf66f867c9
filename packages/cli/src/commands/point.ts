/** `point`: the steady operating point of every candidate, full pack, at starting temperatures. */

import { CHANNELS, type ChannelId, POWER_TERM_IDS, POWER_TERMS } from '@shaftwork/sim-core';
import { type Dimension, formatQuantity, readQuantity, toUnit } from '@shaftwork/sim-core/quantities';
import { type PointAsk, pointsOfScenario } from '@shaftwork/sim-core/run-scenario';
import { EXIT, InputFault } from '../exit.js';
import type { Io } from '../io.js';
import { problemJson, problemText } from '../render/problems.js';
import { table } from '../render/table.js';
import { prepare } from './prepare.js';

export interface PointOptions {
  readonly throttle?: string;
  readonly vehicleSpeed?: string;
  readonly shaftSpeed?: string;
  readonly motorCurrent?: string;
  readonly json?: boolean;
}

function ask(options: PointOptions): PointAsk {
  const read = (flag: string, text: string, dimension: Dimension): number => {
    const reading = readQuantity(text, dimension);
    if (reading.ok) return reading.value;
    throw new InputFault(
      `${flag}: expected ${reading.expected}; found ${reading.found}.${reading.hint === undefined ? '' : ` ${reading.hint}`}`,
    );
  };
  const speed = options.vehicleSpeed === undefined ? undefined : read('--vehicle-speed', options.vehicleSpeed, 'speed');
  const holds = [options.throttle, options.shaftSpeed, options.motorCurrent].filter((each) => each !== undefined);
  if (holds.length > 1)
    throw new InputFault('Give one of --throttle, --shaft-speed and --motor-current; --vehicle-speed may stand beside it.');
  if (options.shaftSpeed !== undefined)
    return { hold: 'shaftSpeed', value: read('--shaft-speed', options.shaftSpeed, 'angularSpeed'), vehicleSpeed: speed ?? 0 };
  if (options.motorCurrent !== undefined)
    return { hold: 'motorCurrent', value: read('--motor-current', options.motorCurrent, 'current'), vehicleSpeed: speed ?? 0 };
  if (options.throttle === undefined && speed !== undefined) return { hold: 'vehicleSpeed', value: speed, vehicleSpeed: speed };
  return {
    hold: 'throttle',
    value: options.throttle === undefined ? 1 : read('--throttle', options.throttle, 'fraction'),
    vehicleSpeed: speed,
  };
}

const SHOWN: readonly ChannelId[] = [
  'throttle',
  'vehicleSpeed',
  'shaftSpeed',
  'motorTorque',
  'thrust',
  'motorCurrent',
  'batteryCurrent',
  'busVoltage',
  'batteryPower',
  'inputPower',
  'shaftPower',
];

export async function point(io: Io, path: string, options: PointOptions): Promise<number> {
  const prepared = prepare(io, path);
  if (!prepared.ok) {
    if (options.json) io.out(problemJson(prepared.problems));
    else io.err(problemText(prepared.problems, path));
    return EXIT.wrongInput;
  }
  const points = pointsOfScenario(prepared.prepared, ask(options));
  if (options.json) {
    const candidates = points.map(({ name, channels, powers, reached }) => ({
      name,
      reached,
      ...Object.fromEntries(SHOWN.map((id) => [`${id}_${CHANNELS[id].suffix}`, toUnit(channels[id], CHANNELS[id].shown as never)])),
      powers: Object.fromEntries(POWER_TERM_IDS.map((id) => [`${id}_W`, powers[id]])),
    }));
    io.out(`${JSON.stringify({ schema: 'shaftwork.point/1', candidates }, null, 2)}\n`);
    return EXIT.done;
  }
  const show = (id: ChannelId, value: number): string =>
    formatQuantity(value, CHANNELS[id].dimension, { unit: CHANNELS[id].shown as never, decimals: CHANNELS[id].decimals });
  io.out(
    table([
      ['', ...points.map((each) => each.name)],
      ...SHOWN.map((id) => [CHANNELS[id].words, ...points.map((each) => show(id, each.channels[id]))]),
      ...POWER_TERM_IDS.filter((id) => points.some((each) => Math.abs(each.powers[id]) >= 0.05)).map((id) => [
        `  ${POWER_TERMS[id].words}`,
        ...points.map((each) => formatQuantity(each.powers[id], 'power', { unit: 'W', decimals: 1 })),
      ]),
    ]),
  );
  for (const each of points) if (!each.reached) io.err(`${each.name} does not reach this point; the figures are those at full throttle.\n`);
  return EXIT.done;
}
