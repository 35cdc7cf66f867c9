/** What stands in a JSON Schema again and again stands once, among its definitions: an editor reads a schema anew with every file. @module */

import type { JsonSchema } from './json-schema.js';

/** What a reference takes [characters], and what naming something must save in all to be worth one. */
const REFERENCE = 40;
const WORTH = 500;

const isRecord = (value: unknown): value is JsonSchema => typeof value === 'object' && value !== null && !Array.isArray(value);

/** Schemas right within a schema, each with the key it stands under: of a map's properties their own, of a list's rows that of the list. */
function inner(schema: JsonSchema, key: string): (readonly [key: string, schema: JsonSchema])[] {
  const { properties, items } = schema;
  const fields = isRecord(properties)
    ? Object.entries(properties).flatMap(([name, each]) => (isRecord(each) ? [[name, each] as const] : []))
    : [];
  return isRecord(items) ? [...fields, [key, items]] : fields;
}

/** The schema with each schema within that is found again put among the definitions, under the key where it stands first. */
export function sharedSchema({ definitions, ...schema }: JsonSchema): JsonSchema {
  const given = isRecord(definitions) ? definitions : {};
  const times = new Map<string, number>();
  const count = (each: JsonSchema, key: string): void => {
    const text = JSON.stringify(each);
    times.set(text, (times.get(text) ?? 0) + 1);
    for (const [name, within] of inner(each, key)) count(within, name);
  };
  count(schema, '');
  for (const [name, each] of Object.entries(given)) if (isRecord(each)) count(each, name);
  const names = new Map<string, string>();
  const shared: Record<string, JsonSchema> = {};
  const named = (text: string, key: string): string => {
    let name = key;
    for (let k = 2; name in shared || name in given; k++) name = `${key}_${k}`;
    names.set(text, name);
    return name;
  };
  /** The schema with what is within it replaced. */
  const opened = (each: JsonSchema, key: string): JsonSchema => {
    const { properties, items } = each;
    return {
      ...each,
      ...(isRecord(properties)
        ? {
            properties: Object.fromEntries(
              Object.entries(properties).map(([name, within]) => [name, isRecord(within) ? replaced(within, name) : within]),
            ),
          }
        : {}),
      ...(isRecord(items) ? { items: replaced(items, key) } : {}),
    };
  };
  const replaced = (each: JsonSchema, key: string): JsonSchema => {
    const text = JSON.stringify(each);
    if ((text.length - REFERENCE) * ((times.get(text) ?? 1) - 1) < WORTH) return opened(each, key);
    const known = names.get(text);
    if (known !== undefined) return { $ref: `#/definitions/${known}` };
    const name = named(text, key);
    shared[name] = {};
    shared[name] = opened(each, key);
    return { $ref: `#/definitions/${name}` };
  };
  const whole = opened(schema, '');
  const own = Object.fromEntries(Object.entries(given).map(([name, each]) => [name, isRecord(each) ? opened(each, name) : each]));
  return { ...whole, definitions: { ...own, ...shared } };
}
