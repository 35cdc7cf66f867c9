/** Every key of the scenario schema changes some number: a key that is read and then forgotten fails here. */
import type { ProfileStep } from '@shaftwork/sim-core/drive/profile';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import type { RunInput } from '@shaftwork/sim-core/questions/candidate';
import { spaceRoom } from '@shaftwork/sim-core/questions/judge/space';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { type JsonSchema, scenarioJsonSchema } from '@shaftwork/sim-core/scenario';
import { expect, it } from 'vitest';
import { DRIVES, type Drive, type Plain } from './key-drives.js';
import { at, placesOf, withValue } from './key-places.js';

/** Keys that carry words or name a file, and those of logs, which are read into a profile or laid beside a run; each with its reason. */
const NO_NUMBER: readonly (readonly [RegExp, string])[] = [
  [/^(title|notes)$/, 'words'],
  [/^objective$/, 'ranks and chooses the words of the verdict: test/sim-core/questions/judge'],
  [/(^|\.)source$/, 'words: where numbers are from'],
  [/\.use$/, 'names the file that brings the keys listed here'],
  [/^profile\[\]\.label$/, 'words'],
  [/^(motor\.)?readings|^motor\.label_/, 'what was read narrows other numbers: test/sim-core/questions/readings'],
  [/^measured\./, 'a log laid beside the run: test/sim-core/questions/measured, test/sim-core/scenario/log'],
];

/** Texts that stand for others of the scenario: what else may stand there. */
const NAMES: Readonly<Record<string, readonly string[]>> = { 'propeller.measured_with': ['B'] };

interface Key {
  readonly path: string;
  readonly choices: readonly Plain[] | undefined;
}

/** All keys that have no keys of their own, lists by `[]`. */
function keysOf(): readonly Key[] {
  const schema = scenarioJsonSchema();
  const { candidates: _, profile: __, ...sections } = schema['properties'] as Record<string, JsonSchema>;
  const step = (schema['definitions'] as Record<string, JsonSchema>)['profileStep'];
  const walk = (node: JsonSchema, path: string): Key[] => {
    const properties = node['properties'] as Record<string, JsonSchema> | undefined;
    if (properties !== undefined) return Object.entries(properties).flatMap(([key, inner]) => walk(inner, `${path}.${key}`));
    const items = node['items'] as JsonSchema | undefined;
    // steps of steps are steps
    if (items !== undefined) return '$ref' in items ? [] : walk(items, `${path}[]`);
    return [{ path, choices: node['enum'] as readonly Plain[] | undefined }];
  };
  return [...Object.entries(sections).flatMap(([key, inner]) => walk(inner, key)), ...walk(step, 'profile[]')];
}

const FACTORS = [1.1, 0.9, 1.4, 0.6];
/** Other values for a key: another choice, another count, a number moved by tens of per cent. */
function others({ path, choices }: Key, value: Plain): readonly Plain[] {
  if (choices !== undefined) return choices.filter((choice) => choice !== value);
  if (path in NAMES) return NAMES[path];
  if (typeof value === 'number' && Number.isInteger(value)) return [1, 2, -1].map((step) => value + step);
  const text = String(value);
  const [digits] = /-?[\d.]+(e-?\d+)?/.exec(text) ?? [];
  if (digits === undefined) throw new Error(`${path} has no number: is it words?`);
  if (Number(digits) === 0) return ['1', '2'].map((more) => text.replace(digits, more));
  return FACTORS.map((factor) => text.replace(digits, String(Number((Number(digits) * factor).toPrecision(6)))));
}

const prepared = (drive: Drive) =>
  prepareScenario(new Map([['a.yaml', JSON.stringify({ title: 'Keys', candidates: [{ name: 'A' }], ...drive })]]), 'a.yaml');
type Prepared = Extract<ReturnType<typeof prepared>, { kind: 'ready' }>['prepared'];

/** Figures of a short run, limits and room: cheap, and enough for most keys. */
function figures({ candidates, scenario }: Prepared): string {
  const one = ({ data, given }: RunInput, profile: readonly ProfileStep[]) => {
    const system = realise(data);
    const { time, end, state, highest, passed, lost } = simulate(system, profile, {
      method: 'dormand-prince',
      relative: 1e-4,
      record: false,
    });
    return [time, end, [...state], highest, [...passed], lost, Object.values(system.limits).map(String), spaceRoom(given, system)];
  };
  return JSON.stringify(candidates.map((candidate) => one(candidate, scenario.profile)));
}

/** All that is told of a run, without what repeats the input: texts, parts, assumptions. */
function told(ready: Prepared): string {
  const { scenario: _, assumptions: __, candidates, ...rest } = runScenario(ready);
  return JSON.stringify({ ...rest, candidates: candidates.map(({ parts: _parts, statistics: _statistics, ...candidate }) => candidate) });
}

const KEYS = keysOf().filter(({ path }) => !NO_NUMBER.some(([pattern]) => pattern.test(path)));
const once = <T>(make: (name: string) => T): ((name: string) => T) => {
  const known = new Map<string, T>();
  return (name) => {
    const found = known.get(name) ?? make(name);
    known.set(name, found);
    return found;
  };
};
const readyOf = once((name): Prepared => {
  const made = prepared(DRIVES[name]);
  if (made.kind !== 'ready') throw new Error(`${name}: ${JSON.stringify(made, null, 1)}`);
  return made.prepared;
});
const figuresOf = once((name) => figures(readyOf(name)));
const toldOf = once((name) => told(readyOf(name)));

it('walks the whole schema', () => {
  expect(KEYS.length).toBeGreaterThan(180);
  for (const path of [
    'battery.cells.series',
    'motor.no_load.current',
    'cooling.air.cowl.gap',
    'propeller.stations[].twist',
    'profile[].grade',
    'drives',
  ])
    expect(KEYS.map((key) => key.path)).toContain(path);
});

it.each(Object.keys(DRIVES))('%s is a drive that can be run', (name) => {
  expect(figuresOf(name)).toContain('finished');
});

it.each(KEYS.map((key) => [key.path, key] as const))('%s', (path, key) => {
  const keys = path.replaceAll('[]', '').split('.');
  const uses = Object.entries(DRIVES).flatMap(([name, drive]) => placesOf(drive, keys).map((place) => ({ name, drive, place })));
  expect(uses.length, 'a drive in key-drives.ts has the key').toBeGreaterThan(0);
  const changed = uses.flatMap(({ name, drive, place }) =>
    others(key, at(drive, place)).map((value) => ({ name, made: prepared(withValue(drive, place, value) as Drive) })),
  );
  const refuses =
    key.choices !== undefined && uses.some(({ name }) => changed.every((each) => each.name !== name || each.made.kind !== 'ready'));
  const accepted = changed.flatMap(({ name, made }) => (made.kind === 'ready' ? [{ name, ready: made.prepared }] : []));
  expect(accepted.length > 0 || refuses, 'another value may stand there').toBe(true);
  // a key that is forgotten cannot be the reason why a drive is refused
  const moves =
    refuses ||
    accepted.some(({ name, ready }) => figures(ready) !== figuresOf(name)) ||
    accepted.some(({ name, ready }) => told(ready) !== toldOf(name));
  expect(moves, 'another value moves some number').toBe(true);
});
