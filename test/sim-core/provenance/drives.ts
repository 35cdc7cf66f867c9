/** Drives with all that must be there, as small as can be, for tests to add to; a scenario is written as its data. Invented parts. */
import type { ScenarioProblem } from '@shaftwork/sim-core/problems';
import type { Datum } from '@shaftwork/sim-core/provenance/datum';
import { type Preparation, type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';

export type Plain = string | number | boolean | readonly Plain[] | { readonly [key: string]: Plain };
export type Section = { readonly [key: string]: Plain };

export const OUTRUNNER = {
  layout: 'outrunner',
  kv: '920 rpm/V',
  resistance: '96 mohm',
  no_load: { current: '0.9 A', voltage: '10 V' },
  mass: '66 g',
  can: { diameter: '27 mm', length: '32 mm' },
} as const satisfies Section;
export const INRUNNER = { ...OUTRUNNER, layout: 'inrunner' } as const satisfies Section;
/** Torque constant of both, 60/(2π·920) [N·m/A]. */
export const KT = 60 / (2 * Math.PI * 920);
export const PACK = { cells: { series: 3 }, capacity: '2.2 Ah' } as const satisfies Section;
export const AIR_SCREW = { kind: 'blade-element', diameter: '9 in', pitch: '4.5 in' } as const satisfies Section;
/** A propeller by its table: made in no time, where a calculated one takes some. */
export const TABLE_SCREW = {
  kind: 'coefficients',
  diameter: '9 in',
  table: [
    { advance_ratio: 0, thrust: 0.1, power: 0.05 },
    { advance_ratio: 0.7, thrust: 0.01, power: 0.02 },
  ],
} as const satisfies Section;
export const SCREW = { kind: 'marine-series', diameter: '40 mm', pitch_ratio: 1.1 } as const satisfies Section;
export const HULL = { mass: '3 kg', drag: [{ speed: '3 m/s', force: '12 N' }] } as const satisfies Section;
export const WING = { area: '0.4 m2', aspect_ratio: 8 } as const satisfies Section;
export const SINK = { fins: 9, fin_height: '8 mm', fin_thickness: '1 mm', length: '30 mm', breadth: '60 mm' } as const satisfies Section;
/** What a boat has; `more` of it counts. */
export const boat = (more: Section = {}): Section => ({
  ambient: { water: '15 °C' },
  motor: INRUNNER,
  propeller: SCREW,
  vehicle: HULL,
  ...more,
});

/** An aircraft's drive on a bench unless `more` says otherwise; a section that is 'none' is left out. */
export function preparationOf({ motor = OUTRUNNER, ...more }: Section): Preparation {
  const scenario = {
    title: 'a drive',
    battery: PACK,
    propeller: TABLE_SCREW,
    profile: [{ for: '10 s', throttle: '70 %' }],
    candidates: [{ name: 'A', motor }],
    ...more,
  };
  const kept = Object.fromEntries(Object.entries(scenario).filter(([, value]) => value !== 'none'));
  return prepareScenario(new Map([['a.yaml', JSON.stringify(kept)]]), 'a.yaml');
}

export function preparedOf(drive: Section): PreparedScenario {
  const preparation = preparationOf(drive);
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
}
/** The data of its one candidate. */
export const dataOf = (drive: Section = {}) => preparedOf(drive).candidates[0].data;

/** What is wrong with it; throws where nothing is, or where a problem lacks its place, what is expected, what was found or what to do. */
export function problemsOf(drive: Section): readonly ScenarioProblem[] {
  const preparation = preparationOf(drive);
  if (preparation.kind !== 'problems') throw new Error(`it was taken: ${JSON.stringify(drive)}`);
  for (const { place, expected, found, hint } of preparation.problems)
    for (const words of [place.path, expected, found, hint ?? ''])
      if (!/\S{2}/.test(words)) throw new Error(`nothing is said at ${place.path}: ${JSON.stringify([expected, found, hint])}`);
  return preparation.problems;
}
/** Whether nothing is wrong with it. */
export const isTaken = (drive: Section): boolean => preparationOf(drive).kind === 'ready';
/** Paths of what is wrong, without the number of the candidate. */
export const wrongIn = (drive: Section): readonly string[] =>
  problemsOf(drive).map(({ place }) => place.path.replace('candidates[0].', ''));

/** The rule that a datum is from, or `given`. */
export const from = ({ origin }: Datum): string => (origin.kind === 'given' ? 'given' : origin.rule);
