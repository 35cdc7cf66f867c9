/** The reference of a scenario's keys as Markdown, made from the JSON Schema that editors read. @module */

import { type JsonSchema, scenarioJsonSchema } from '@shaftwork/sim-core/scenario';

type Properties = Readonly<Record<string, JsonSchema>>;

const propertiesOf = (schema: JsonSchema): Properties | undefined =>
  (schema['properties'] as Properties | undefined) ??
  ((schema['items'] as JsonSchema | undefined)?.['properties'] as Properties | undefined);

const cell = (text: string): string => text.replaceAll('|', '\\|');

/** What may be written: the words of a choice, or an example. */
function writing(schema: JsonSchema): string {
  const choices = schema['enum'] as readonly unknown[] | undefined;
  if (choices !== undefined) return choices.map((choice) => `\`${choice}\``).join(' ');
  const [example] = (schema['examples'] as readonly unknown[] | undefined) ?? [];
  return example === undefined ? '' : `\`${example}\``;
}

function rows(schema: JsonSchema, above: string): string[] {
  return Object.entries(propertiesOf(schema) ?? {}).flatMap(([key, field]) => {
    const path = above === '' ? key : `${above}.${key}`;
    const list = field['items'] !== undefined && propertiesOf(field) !== undefined ? '[ ]' : '';
    const own = `| \`${path}${list}\` | ${cell(String(field['description'] ?? ''))} | ${cell(writing(field))} |`;
    return field['properties'] !== undefined || list !== '' ? [own, ...rows(field, `${path}${list}`)] : [own];
  });
}

const HEAD = ['| key | meaning | for example |', '| --- | --- | --- |'];

/** Markdown, one section for each key of the scenario. */
export function scenarioReference(): string {
  const schema = scenarioJsonSchema();
  const { candidates, profile, readings, ...sections } = schema['properties'] as Properties;
  const { profileStep: step, reading } = schema['definitions'] as Properties;
  const single = Object.entries(sections).filter(([, section]) => propertiesOf(section) === undefined);
  const many = Object.entries(sections).filter(([, section]) => propertiesOf(section) !== undefined);
  const lines = [
    '# Scenario reference',
    '',
    'Made from the JSON Schema by `npm run reference`; change the schema, not this page.',
    '',
    'Every quantity has its unit and may have its 95 % interval after ±. Without one it has that of its kind (a Kv 9 %, a resistance 25 %, a no-load current 30 %), listed by `check`; what you choose is exact, and `± 0 %` says so of the rest. What is left out is estimated and listed by `check`, or asked for.',
    'A candidate may override every section; `none` removes what the scenario says for all. A part may stand in a file of its own: `use:`.',
    '',
    '## The scenario',
    '',
    ...HEAD,
    ...single.map(([key, field]) => `| \`${key}\` | ${cell(String(field['description'] ?? ''))} | ${cell(writing(field))} |`),
    `| \`profile\` | ${cell(String(profile['description']))} | \`[{ for: 3 min, throttle: 80 % }]\` |`,
    `| \`candidates\` | ${cell(String(candidates['description']))} | \`[{ name: A, motor: { … } }]\` |`,
    '',
    '## profile',
    '',
    'A step holds one thing; `vehicle_speed` may stand beside another as a condition. `<q> to <q>` is a ramp. What full throttle cannot hold is a finding.',
    '',
    ...HEAD,
    ...rows(step, ''),
    '',
    'Instead of steps, `profile: { log: … }` takes a file that was logged on a run.',
    '',
    ...HEAD,
    ...rows({ properties: profile['properties'] }, ''),
    '',
    '## readings',
    '',
    `${String(readings['description'] ?? '')}. Each row is what was read at one moment: \`throttle\`, \`at\` or \`after\` says which; a winding resistance alone was read cold.`,
    '',
    ...HEAD,
    ...rows(reading, ''),
    ...many.flatMap(([key, section]) => [
      '',
      `## ${key}`,
      '',
      `${String(section['description'] ?? '')}.`,
      '',
      ...HEAD,
      ...rows(section, ''),
    ]),
    '',
  ];
  return lines.join('\n');
}
