/** Every cooling of the schema has its words in the build list and in what `why` tells. */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { partsList } from '@shaftwork/sim-core/questions/run/parts-list';
import { differsIn, overridesThatDiffer } from '@shaftwork/sim-core/questions/why/mixed-drive';
import { WHY_PARTS } from '@shaftwork/sim-core/results/why-result';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { type JsonSchema, scenarioJsonSchema } from '@shaftwork/sim-core/scenario';
import { expect, it } from 'vitest';
import { DRIVES, type Drive } from '../../../properties/key-drives.js';

const propertiesOf = (schema: JsonSchema) => schema['properties'] as Readonly<Record<string, JsonSchema>>;
const KEYS = Object.keys(propertiesOf(propertiesOf(scenarioJsonSchema())['cooling'])).filter((key) => key !== 'source' && key !== 'use');

const coolingOf = (drive: Drive): Drive => (drive['cooling'] ?? {}) as Drive;
function made(drive: Drive) {
  const preparation = prepareScenario(JSON.stringify({ title: 'Cooling', candidates: [{ name: 'A' }], ...drive }));
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  const [{ given, data }] = preparation.prepared.candidates;
  return { words: partsList(given).find(({ id }) => id === 'cooling')?.text ?? '', system: realise(data) };
}

it('finds the coolings of the schema', () => {
  expect(KEYS.length).toBeGreaterThanOrEqual(8);
  expect(KEYS).toContain('water_jacket');
});

it.each(KEYS)('%s', (key) => {
  const drive = Object.values(DRIVES).find((each) => key in coolingOf(each));
  if (drive === undefined) throw new Error(`no drive of key-drives.ts has cooling.${key}`);
  const { [key]: _, ...others } = coolingOf(drive);
  const [cooled, bare] = [made(drive), made({ ...drive, cooling: others })];
  expect(cooled.words, 'the build list has a line for it').not.toBe(bare.words);
  expect(cooled.words.length).toBeGreaterThan(bare.words.length);
  expect(
    WHY_PARTS.some((part) => differsIn(part, bare.system, cooled.system)),
    'why finds what differs',
  ).toBe(true);
  const words = overridesThatDiffer(bare.system, cooled.system);
  for (const each of words) expect(each, 'why has words for it').toMatch(/^\S.* /);
});
