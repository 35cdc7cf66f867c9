/** The reference of a scenario's keys as Markdown: words and choices from the JSON Schema that editors read, bounds from the schema, what happens without a key from the program. @module */
import { type JsonSchema, scenarioJsonSchema } from '@shaftwork/sim-core/scenario';
import { drive, head } from '@shaftwork/sim-core/scenario/schema/drive';
import { logProfile } from '@shaftwork/sim-core/scenario/schema/log';
import { profileEntry } from '@shaftwork/sim-core/scenario/schema/profile';
import { readingRow } from '@shaftwork/sim-core/scenario/schema/readings';
import { boundsOf } from './bounds-of.js';
import { leftOut, leftOutText, usualObjective } from './left-out.js';

export const REFERENCE = new URL('../../packages/cli/docs/scenario-reference.md', import.meta.url);

type Properties = Readonly<Record<string, JsonSchema>>;
const itemsOf = (schema: JsonSchema): JsonSchema | undefined => schema['items'] as JsonSchema | undefined;
const propertiesOf = (schema: JsonSchema): Properties | undefined =>
  (schema['properties'] as Properties | undefined) ?? (itemsOf(schema)?.['properties'] as Properties | undefined);

const cell = (text: string): string => text.replaceAll('|', '\\|');

/** What may be written: the words of a choice, or an example. */
function writing(schema: JsonSchema): string {
  const choices = schema['enum'] as readonly unknown[] | undefined;
  if (choices !== undefined) return choices.map((choice) => `\`${choice}\``).join(' ');
  const [example] = (schema['examples'] as readonly unknown[] | undefined) ?? [];
  return example === undefined ? '' : `\`${example}\``;
}

/** One key: its path as it is shown, and the one by which schema and drives know it. */
interface Key {
  readonly shown: string;
  readonly path: string;
  readonly field: JsonSchema;
}
function keysOf(schema: JsonSchema, shown: string, path: string): readonly Key[] {
  return Object.entries(propertiesOf(schema) ?? {}).flatMap(([key, field]) => {
    const list = itemsOf(field) !== undefined && propertiesOf(field) !== undefined;
    const join = (before: string): string => (before === '' ? key : `${before}.${key}`);
    const own: Key = { shown: `${join(shown)}${list ? '[ ]' : ''}`, path: `${join(path)}${list ? '[]' : ''}`, field };
    return propertiesOf(field) === undefined ? [own] : [own, ...keysOf(field, own.shown, own.path)];
  });
}

/** Keys that carry words or name a file: without them nothing is missing. */
const WORDS = /(^|\.)(source|use)$/;
const without = (path: string): string => {
  if (WORDS.test(path)) return '';
  if (path === 'objective') return usualObjective();
  const found = leftOut(path);
  return found === undefined ? '' : leftOutText(found);
};

const HEAD = ['| key | meaning | for example | allowed |', '| --- | --- | --- | --- |'];
const row = ({ shown, path, field }: Key, bounds: ReadonlyMap<string, string>, more: readonly string[] = []): string =>
  `| ${[`\`${shown}\``, cell(String(field['description'] ?? '')), cell(writing(field)), bounds.get(path) ?? '', ...more].join(' | ')} |`;

const DRIVE_HEAD = ['| key | meaning | for example | allowed | if left out |', '| --- | --- | --- | --- | --- |'];
const driveRow = (key: Key, bounds: ReadonlyMap<string, string>): string => row(key, bounds, [cell(without(key.path))]);

const table = (schema: JsonSchema, bounds: ReadonlyMap<string, string>): readonly string[] => [
  ...HEAD,
  ...keysOf(schema, '', '').map((key) => row(key, bounds)),
];

/** Markdown, one section for each key of the scenario. */
export function scenarioReference(): string {
  const schema = scenarioJsonSchema();
  const { candidates, profile, readings, measured, ...sections } = schema['properties'] as Properties;
  const { profileStep: step, reading } = schema['definitions'] as Properties;
  const single = Object.entries(sections).filter(([, section]) => propertiesOf(section) === undefined);
  const many = Object.entries(sections).filter(([, section]) => propertiesOf(section) !== undefined);
  const ofDrive = boundsOf(drive);
  const ofHead = new Map([...ofDrive, ...boundsOf(head)]);
  const words = (section: JsonSchema): string => `${String(section['description'] ?? '')}.`;
  const lines = [
    '# Scenario reference',
    '',
    'Made by `npm run reference` from the schema, the rules and the choices of the program; change those, not this page.',
    '',
    'Every quantity has its unit and may have its 95 % interval after ±. Without one it has that of its kind (a Kv 9 %, a resistance 25 %, a no-load current 30 %), listed by `check`; what you choose is exact, and `± 0 %` says so of the rest.',
    'A candidate may override every section; `none` removes what the scenario says for all. A part may stand in a file of its own: `use:`.',
    '',
    '*If left out* says what the program then does, tried on drives that have the key: what is **taken**; the rule that stands in, with its value where it is a default, and how far that may be off (95 %); what is asked for, where some or all drives need the key. An empty cell: nothing stands in its place; the meaning of the key says what then holds.',
    '',
    '## The scenario',
    '',
    ...DRIVE_HEAD,
    ...single.map(([key, field]) => driveRow({ shown: key, path: key, field }, ofHead)),
    `| \`profile\` | ${cell(String(profile['description']))} | \`[{ for: 3 min, throttle: 80 % }]\` | | asked for |`,
    `| \`candidates\` | ${cell(String(candidates['description']))} | \`[{ name: A, motor: { … } }]\` | | asked for |`,
    '',
    '## profile',
    '',
    'A step holds one thing; `vehicle_speed` may stand beside another as a condition. `<q> to <q>` is a ramp. What full throttle cannot hold is a finding.',
    '',
    ...table(step, boundsOf(profileEntry)),
    '',
    'Instead of steps, `profile: { log: … }` takes a file that was logged on a run.',
    '',
    ...table({ properties: profile['properties'] }, boundsOf(logProfile)),
    '',
    '## readings',
    '',
    `${String(readings['description'] ?? '')}. Each row is what was read at one moment: \`throttle\`, \`at\` or \`after\` says which; a winding resistance alone was read cold.`,
    '',
    ...table(reading, boundsOf(readingRow)),
    '',
    '## measured',
    '',
    words(measured),
    '',
    ...table(measured, new Map([...ofHead].map(([path, text]) => [path.replace(/^measured\./, ''), text]))),
    ...many.flatMap(([key, section]) => [
      '',
      `## ${key}`,
      '',
      words(section),
      '',
      ...DRIVE_HEAD,
      ...keysOf(section, '', key).map((each) => driveRow({ ...each, shown: each.shown }, ofDrive)),
    ]),
    '',
  ];
  return lines.join('\n');
}
