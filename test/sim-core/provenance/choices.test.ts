/** What is taken where nothing was said: listed, true of the drive that is run, gone where it is given, and nothing forgotten. */
import { readdirSync, readFileSync } from 'node:fs';
import { checkScenario } from '@shaftwork/sim-core/other-questions';
import { CHOICES, type ChoiceId } from '@shaftwork/sim-core/provenance/rules/choices';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { drive } from '@shaftwork/sim-core/scenario/schema/drive';
import { keysOf, sectionsTaking } from '@shaftwork/sim-core/scenario/schema-walk';
import { describe, expect, it } from 'vitest';

const prepared = (text: string): PreparedScenario => {
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};

const MOTOR =
  'kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm }';
const AIR = '{ kind: blade-element, diameter: 9 in, pitch: 4.5 in }';
interface Texts {
  readonly pack?: string;
  readonly propeller?: string;
  readonly motor?: string;
  readonly more?: string;
  readonly hold?: string;
}
const scenario = ({
  pack = '{ cells: { series: 3 }, capacity: 2.2 Ah }',
  propeller = AIR,
  motor = `layout: outrunner, ${MOTOR}`,
  more = '',
  hold = 'throttle: 70 %',
}: Texts): string => `title: Nothing said
battery: ${pack}
propeller: ${propeller}
profile: [{ for: 10 s, ${hold} }]
${more}
candidates: [{ name: A, motor: { ${motor} } }]
`;
const takenIn = (texts: Texts): ReadonlyMap<ChoiceId, unknown> =>
  new Map(prepared(scenario(texts)).candidates[0].choices.map(({ choice, value }) => [choice, value]));

const POINTS =
  '[{ shaft_speed: 6000 rpm, battery_current: 8 A, voltage: 11 V, thrust: 5 N }, { shaft_speed: 8000 rpm, battery_current: 15 A, voltage: 11 V, thrust: 9 N }]';
/** One drive after another; together they leave everything unsaid. */
const DRIVES: readonly Texts[] = [
  {},
  {
    propeller: '{ kind: marine-series, diameter: 38 mm, pitch_ratio: 1.2 }',
    motor: `layout: inrunner, ${MOTOR}`,
    more: `ambient: { water: 14 °C }
vehicle: { mass: 1.5 kg, drag: [{ speed: 3 m/s, force: 9 N }] }
cooling: { water_coil: { bore: 3 mm, length: 60 cm }, strap: { cross_section: 20 mm2, length: 5 cm } }`,
  },
  {
    motor: `layout: inrunner, ${MOTOR}`,
    more: `ambient: { water: 14 °C }
cooling:
  water_jacket: { conductance: 2 W/K, at_speed: 2 m/s }
  heat_sink: { fins: 9, fin_height: 8 mm, fin_thickness: 1 mm, length: 30 mm, breadth: 60 mm }`,
  },
  { propeller: `{ kind: measured-points, diameter: 9 in, points: ${POINTS} }` },
];

describe('choices', () => {
  it('list what the drive is then run with', () => {
    const { candidates } = prepared(scenario({}));
    const { data, choices } = candidates[0];
    const taken = new Map(choices.map(({ choice, value }) => [choice, value]));
    expect(taken.get('chemistry')).toBe(data.battery.chemistry);
    expect(taken.get('parallel-strings')).toBe(data.battery.cellsInParallel);
    expect(taken.get('outrunner-poles')).toBe(2 * data.motor.polePairs);
    expect(taken.get('braking')).toBe(data.controller.braking);
    expect(taken.get('drive')).toBe(data.controller.drive);
    expect(taken.get('drives')).toBe(data.drives);
    expect(taken.has('vehicle') && data.vehicle.carriedBy).toBe('bench');
    const { load } = data;
    expect(load.kind === 'propeller' && load.folding).toBe(taken.get('folding'));
  });

  it('stand in the list of assumptions, once for all candidates, with the key that says otherwise', () => {
    const text = scenario({}).replace('candidates: [', `candidates: [{ name: B, motor: { layout: outrunner, poles: 12, ${MOTOR} } }, `);
    const { assumptions } = checkScenario(prepared(text));
    const listed = assumptions.filter(({ kind }) => kind === 'choice');
    expect(listed.find(({ origin }) => origin === 'chemistry')).toMatchObject({
      value: 'lithium-polymer',
      path: 'battery.chemistry',
      candidates: ['B', 'A'],
    });
    expect(listed.find(({ origin }) => origin === 'outrunner-poles')).toMatchObject({ value: '14', candidates: ['A'] });
    expect(new Set(listed.map(({ origin }) => origin)).size).toBe(listed.length);
    for (const { words, source } of listed) for (const told of [words, source]) expect(told.length).toBeGreaterThan(5);
  });

  it('are not made where something is said', () => {
    const said: Texts = {
      pack: '{ chemistry: lithium-polymer, cells: { series: 3, parallel: 1 }, capacity: 2.2 Ah }',
      propeller: '{ kind: blade-element, diameter: 9 in, pitch: 4.5 in, family: thin, blades: 2, folding: no, medium: air }',
      motor: `layout: outrunner, poles: 14, kv_measured: no-load, resistance_between: lines, resistance_at: 20 °C, ${MOTOR}`,
      more: `controller: { braking: none, drive: block }
drives: 1
solver: { shaft_speed: quasi-steady }
cooling: { air: { from: outside } }
vehicle: { mass: 1 kg, drag_area: 0.02 m2 }`,
    };
    expect([...takenIn(said).keys()]).toEqual([]);
    const [bare, full] = [{ more: 'vehicle: { mass: 1 kg, drag_area: 0.02 m2 }' }, said].map(
      (texts) => prepared(scenario(texts)).candidates[0].data,
    );
    // and what is said changes no number
    const numbers = (data: object): string =>
      JSON.stringify(data, (key, value) => (key === 'place' || key === 'unknown' ? undefined : value));
    expect(numbers(full.controller)).toBe(numbers(bare.controller));
    expect(full.motor.resistance.value).toBe(bare.motor.resistance.value);
    expect(full.motor.polePairs).toBe(bare.motor.polePairs);
  });

  it('are each made by some drive', () => {
    const made = new Set(DRIVES.flatMap((texts) => [...takenIn(texts).keys()]));
    expect(Object.keys(CHOICES).filter((id) => !made.has(id as ChoiceId))).toEqual([]);
  });

  it.each(Object.entries(CHOICES))('%s names a key of the schema', (_, { key }) => {
    const path = key.split('.');
    const [last] = path.slice(-1);
    if (path.length === 1) expect(keysOf(drive)).toContain(key);
    else expect(sectionsTaking(last)).toContain(path.slice(0, -1).join('.'));
  });

  /** Defaults of completion that are no choices: what stands in until a problem is told, and what a rule of its own lists. */
  const OTHER: Readonly<Record<string, string>> = {
    "sheet?.layout ?? 'inrunner'": 'a layout is asked for',
    'pack?.cells?.series ?? 1': 'cells are asked for',
    'given.battery?.cells?.series ?? 1': 'cells are asked for where that candidate is completed',
    'sink.fins ?? 2': 'fins are asked for',
    "sheet?.magnetGrade ?? 'M'": 'the rule usual-magnets lists it',
    'wiring?.connectors ?? 2': 'the rule connector-count lists it',
    "sink.covers ?? 'can'": 'sink-covers, asked before it is noted',
    'given.family ?? CHOICES': 'the same choice, of a propeller that is told of only',
    'propeller?.folding ?? false': 'a screw in water, which nobody folds',
  };
  it('hold every default of the completion: no bare one is left in the code', () => {
    const folder = new URL('../../../packages/sim-core/src/provenance/complete/', import.meta.url);
    const bare = readdirSync(folder).flatMap((file) =>
      [...readFileSync(new URL(file, folder), 'utf8').matchAll(/[\w.?]+ \?\? (?:'[\w-]+'|\d+|true|false|CHOICES)/g)].map(([text]) => text),
    );
    const left = bare.filter((text) => !(text in OTHER) && !/(?:Residual|share|throttle\?\.value) \?\? [01]$/.test(text));
    expect(left).toEqual([]);
  });
});
