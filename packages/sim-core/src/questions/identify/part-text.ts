/** Part files from what was found: only what the log told, each with its ±, to be brought in by `use:`. @module */
import { ROOM_TEMPERATURE, toUnit, type UnitOf } from '../../quantities/index.js';
import { LONGEST_LINE, visible } from '../../quantities/line-of-words.js';
import type { FoundNumber, IdentifyResult } from '../../results/identify-result.js';
import type { BenchRows } from './bench-rows.js';
import type { BenchSetup } from './motor-model.js';

/** "2412 rpm/V ± 1.2 %", as the reader of scenarios takes it. */
export function written({ value, low, high }: Pick<FoundNumber, 'value' | 'low' | 'high'>, unit: UnitOf): string {
  const share = 100 * (Math.max(high / value, value / low) - 1);
  return `${plain(toUnit(value, unit), 4)} ${unit} ± ${plain(Math.max(share, LEAST_SHARE), 2)} %`;
}
/** No bench is better than this [%]. */
const LEAST_SHARE = 0.1;
const plain = (value: number, digits: number): string => String(Number(value.toPrecision(digits)));

/** A part file: what it is, where its numbers are from, its lines. */
export const partText = (part: string, sources: readonly string[], lines: readonly string[]): string =>
  [`part: ${part}`, `source: ${JSON.stringify(sourceWords(sources))}`, ...lines, ''].join('\n');

/** As many names of the files as a line of words holds, the rest counted; where they lay is nobody else's. */
function sourceWords(paths: readonly string[]): string {
  // a file that holds the sign of what cannot be read is taken for one in another encoding
  const names = paths.map((path) => visible(path.replace(/^.*[/\\]/s, '')).replaceAll('\ufffd', '_'));
  const said = (shown: number): string =>
    `identified from ${names.slice(0, shown).join(', ')}${shown < names.length ? ` and ${names.length - shown} more` : ''}`;
  const shown = names.findLastIndex((_, k) => said(k + 1).length <= LONGEST_LINE) + 1;
  return shown > 0 ? said(shown) : `identified from ${names.length === 1 ? 'a log' : `${names.length} logs`}`;
}

export interface MotorFound {
  readonly numbers: readonly FoundNumber[];
  readonly rows: BenchRows;
  readonly setup: BenchSetup;
  readonly sources: readonly string[];
}

/** 95 % of the temperature at which a winding is that nobody measured [K]; common practice, no published source. */
export const WINDING_UNSURE = 20;

export function motorParts({ numbers, rows, setup, sources }: MotorFound): IdentifyResult['parts'] {
  const told = (key: string): FoundNumber | undefined => numbers.find((each) => each.key === key && each.told);
  const line = (key: string, number: FoundNumber | undefined, unit: UnitOf): string[] =>
    number === undefined ? [] : [`${key}: ${written(number, unit)}`];
  const resistance = told('resistance');
  const at = toUnit(setup.windingTemperature, '°C');
  const read = Array.from(rows.winding).every((each) => !Number.isNaN(each));
  const reference =
    setup.windingTemperature === ROOM_TEMPERATURE && read
      ? []
      : [`resistance_at: ${plain(at, 4)} °C${read ? '' : ` ± ${WINDING_UNSURE} K`}`];
  const currents = numbers.filter(({ key, told }) => told && key === 'noLoad');
  const [first, second] = currents;
  // two rows say a slope, which must not turn over within their intervals
  const noLoad = second !== undefined && second.low > first.high ? currents : currents.slice(-1);
  const motor = [
    ...line('kv', told('kv'), 'rpm/V'),
    ...line('resistance', resistance, 'mohm'),
    ...(resistance === undefined ? [] : reference),
    ...line('inductance', told('inductance'), 'µH'),
    ...(noLoad.length === 0 ? [] : ['no_load:']),
    ...noLoad.map((number) => `  - { current: ${written(number, 'A')}, voltage: ${plain(number.at?.value ?? Number.NaN, 4)} V }`),
  ];
  const ripple = told('ripple');
  const controller = [
    ...line('idle_current', told('idle'), 'mA'),
    ...(ripple === undefined
      ? []
      : [`# at ${plain(ripple.at?.value ?? Number.NaN, 3)} V; it grows with the square of the pack's nominal voltage`]),
    ...line('voltage_loss', ripple, 'W'),
  ];
  const parts = [
    ...(motor.length === 0 ? [] : [{ file: 'motor.yaml', text: partText('motor', sources, motor) }]),
    ...(controller.length === 0 ? [] : [{ file: 'controller.yaml', text: partText('controller', sources, controller) }]),
  ];
  return [...parts, ...rows.propellers.flatMap((name) => propellerPart(name, numbers, sources))];
}

/** A measured point at the highest speed seen; diameter and medium are written beside `use:`. */
function propellerPart(
  name: string,
  numbers: readonly FoundNumber[],
  sources: readonly string[],
): { readonly file: string; readonly text: string }[] {
  const torque = numbers.find(({ key, of, told }) => told && key === 'torque' && of === name);
  const thrust = numbers.find(({ key, of, told }) => told && key === 'thrust' && of === name);
  if (torque === undefined && thrust === undefined) return [];
  const speed = (torque ?? thrust)?.at?.value ?? Number.NaN;
  const fields = [
    `shaft_speed: ${plain(toUnit(speed, 'rpm'), 5)} rpm`,
    ...(thrust === undefined ? [] : [`thrust: ${written(thrust, 'N')}`]),
    ...(torque === undefined ? [] : [`torque: ${written(torque, 'mN·m')}`]),
  ];
  const file = `propeller-${name
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}.]+/gu, '-')
    .replaceAll(/^-|-$/g, '')}.yaml`;
  return [{ file, text: partText('propeller', sources, ['kind: measured-points', `points: [{ ${fields.join(', ')} }]`]) }];
}
