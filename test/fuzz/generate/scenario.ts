/** Scenarios that the schema allows, usual and absurd: a seed gives always the same. */
import { type Dice, diceOf, type Node, type Section } from './dice.js';
import { ambient, battery, controller, start, wiring } from './electrics.js';
import { measured, reading, words } from './instruments.js';
import { propeller, vehicle, wheel } from './load.js';
import { cooling, gearbox, motor } from './machine.js';
import { limits, profile, space } from './task.js';

export const MAIN = 's.yaml';

export interface RandomScenario {
  /** Of the main file, which is its text as JSON, a part of YAML. */
  readonly scenario: Section & { readonly candidates: readonly Section[] };
  /** The other files by path: parts and a log. */
  readonly others: ReadonlyMap<string, string>;
}

export function randomScenario(seed: number): RandomScenario {
  const d = diceOf(seed);
  const { kind, given } = d;
  const s: Section = { title: `Fuzz ${seed}` };
  const others = new Map<string, string>();
  d.opt(s, 'ambient', () => ambient(d), 0.85);
  if (d.wet && s['ambient'] === undefined) s['ambient'] = { water: '15 °C' };
  s['battery'] = battery(d);
  d.opt(s, 'start', () => start(d), 0.6);
  d.opt(s, 'wiring', () => wiring(d));
  d.opt(s, 'controller', () => controller(d), 0.8);
  d.opt(s, 'other_loads', () => d.q(0.5, 15 * d.size, 'W', { min: 0 }), 0.2);
  d.opt(s, 'drives', () => String(d.chance(d.wild) ? d.whole(1, 64) : d.whole(1, 4)), 0.2);
  d.opt(s, 'solver', () => ({ shaft_speed: d.pick(['quasi-steady', 'with-inertia', 'with-inertia']) }), 0.25);
  if (kind === 'car') {
    s['wheel'] = wheel(d);
    s['gearbox'] = gearbox(d);
  } else {
    s['propeller'] = propeller(d);
    d.opt(s, 'gearbox', () => gearbox(d), 0.15);
  }
  if (d.moving) s['vehicle'] = vehicle(d);
  d.opt(s, 'limits', () => limits(d), 0.7);
  d.opt(s, 'space', () => space(d), 0.2);
  const driven = profile(d);
  s['profile'] = driven.profile;
  if (driven.log !== undefined) others.set('run.csv', driven.log);
  if (d.chance(0.04)) {
    const compared = measured(d);
    s['measured'] = compared.measured;
    others.set('measured.csv', compared.log);
  }
  words(d, s);
  d.opt(s, 'objective', () => d.pick(['coolest', 'longest', 'fastest', 'lightest']), 0.6);
  const candidates = Array.from({ length: d.pick([1, 1, 1, 1, 1, 1, 1, 2, 2, d.chance(0.3) ? 3 : 1]) }, (_, k) =>
    candidate(d, s, k, given, others),
  );
  return { scenario: { ...s, candidates }, others };
}

function candidate(d: Dice, common: Section, k: number, given: number, others: Map<string, string>): Section {
  const sheet = motor(d);
  const c: Section = { name: 'ABC'[k], motor: sheet };
  if (d.chance(0.05)) sheet['source'] = 'sheet of the motor';
  d.opt(c, 'cooling', () => ({ ...cooling(d, String(sheet['layout'])), ...(d.chance(0.05) ? { source: 'own drawing' } : {}) }), 0.5);
  if (d.chance(0.005)) c['readings'] = Array.from({ length: d.whole(1, 3) }, () => reading(d));
  if (k > 0) {
    if (common['gearbox'] !== undefined && d.chance(0.2)) c['gearbox'] = 'none';
    else d.opt(c, 'gearbox', () => gearbox(d), 0.15);
    if (common['wiring'] !== undefined && d.chance(0.1)) c['wiring'] = 'none';
    if (common['start'] !== undefined && d.chance(0.1)) c['start'] = 'none';
    d.opt(c, 'battery', () => ({ capacity: d.q(0.5 * d.size, 6 * d.size, 'Ah') }), 0.1);
    d.opt(c, 'controller', () => controller(d), 0.05);
    if (d.kind !== 'car') d.opt(c, 'propeller', () => propeller(d), given * 0.2);
    d.opt(c, 'solver', () => ({ shaft_speed: 'with-inertia' }), 0.05);
  }
  if (d.chance(0.06)) {
    others.set(`parts/m${k}.yaml`, JSON.stringify({ part: 'motor', ...sheet }));
    c['motor'] = { use: `parts/m${k}.yaml` };
  }
  return c;
}

/** Texts by path, as they are read; `scenario` in place of the one drawn, where it is a variant of it. */
export function textsOf({ scenario, others }: RandomScenario, variant: Node = scenario): Map<string, string> {
  return new Map([[MAIN, JSON.stringify(variant, null, 1)], ...others]);
}
