/** The same scenario written otherwise: in other units, its candidates the other way round, one of them twice. */
import type { Node, Section } from './generate/dice.js';

/** To another unit, and how many of it one of the first is. */
const OTHER: Readonly<Record<string, readonly [string, number]>> = {
  mm: ['m', 1e-3],
  cm: ['mm', 10],
  m: ['mm', 1e3],
  mm2: ['cm2', 1e-2],
  m2: ['cm2', 1e4],
  g: ['kg', 1e-3],
  kg: ['g', 1e3],
  s: ['ms', 1e3],
  min: ['s', 60],
  us: ['ns', 1e3],
  A: ['mA', 1e3],
  mA: ['A', 1e-3],
  V: ['mV', 1e3],
  mohm: ['ohm', 1e-3],
  W: ['mW', 1e3],
  Wh: ['J', 3600],
  Ah: ['mAh', 1e3],
  A·h: ['mAh', 1e3],
  kHz: ['Hz', 1e3],
  N: ['mN', 1e3],
  'm/s': ['km/h', 3.6],
  Pa: ['hPa', 1e-2],
};
const NUMBER = '-?\\d+(?:\\.\\d+)?(?:e[+-]?\\d+)?';
const QUANTITY = new RegExp(`^(${NUMBER})(?: to (${NUMBER}))? ([^\\s±]+)( ±.*)?$`);
const show = (x: number): string => String(Number(x.toPrecision(15)));

function quantity(text: string): string {
  const found = QUANTITY.exec(text);
  if (found === null) return text;
  const [, first, second, unit, spread = ''] = found;
  const all = (change: (x: number) => number, into: string): string =>
    `${[first, second]
      .filter((x) => x !== undefined)
      .map((x) => show(change(Number(x))))
      .join(' to ')} ${into}${spread}`;
  if (unit === '°C') return all((x) => x + 273.15, 'K');
  const other = OTHER[unit];
  return other === undefined ? text : all((x) => x * other[1], other[0]);
}

/** `node` with every quantity in another unit; words stay. */
export function inOtherUnits(node: Node): Node {
  if (typeof node === 'string') return quantity(node);
  if (typeof node === 'number') return node;
  if (Array.isArray(node)) return node.map(inOtherUnits);
  return Object.fromEntries(
    Object.entries(node as Section).map(([key, inner]) => [key, inner === undefined ? inner : inOtherUnits(inner)]),
  );
}

type Scenario = Section & { readonly candidates: readonly Section[] };

export const otherWayRound = (scenario: Scenario): Scenario => ({ ...scenario, candidates: [...scenario.candidates].reverse() });

export const TWIN = 'Twin';
/** With the first candidate a second time, at the other end; what was read on the first by name was read on the second by its own. */
export function withTwin(scenario: Scenario): Scenario {
  const [first] = scenario.candidates;
  const { readings, name } = first;
  const own = (each: Node): Node =>
    typeof each === 'object' && 'measured_with' in each && each['measured_with'] === name ? { ...each, measured_with: TWIN } : each;
  const twin = { ...first, ...(Array.isArray(readings) ? { readings: readings.map(own) } : {}), name: TWIN };
  return { ...scenario, candidates: [...scenario.candidates, twin].reverse() };
}

/** Paths at which two results of one candidate differ by more than `share`; names and the places that data stand at are apart. */
export function differences(a: unknown, b: unknown, share: number, path = ''): string[] {
  if (Object.is(a, b) || (typeof a === 'function' && typeof b === 'function')) return [];
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= share * Math.max(Math.abs(a), Math.abs(b), 1e-3) ? [] : [`${path}: ${a} / ${b}`];
  if (typeof a === 'object' && typeof b === 'object' && a !== null && b !== null) {
    const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
    const keys = [...new Set([...Object.keys(one), ...Object.keys(other)])];
    return keys
      .filter((key) => !['name', 'candidate', 'origin', 'source', 'line'].includes(key))
      .flatMap((key) => differences(one[key], other[key], share, `${path}.${key}`))
      .slice(0, 4);
  }
  return [`${path}: ${String(a).slice(0, 40)} / ${String(b).slice(0, 40)}`];
}
