/** What a key's value may be, in words, from the schema that reads it. @module */
import { formatQuantity, readQuantity } from '@shaftwork/sim-core/quantities';
import { boundsInWords } from '@shaftwork/sim-core/scenario/schema/bounds';
import { FIELD_FACTS, type FieldFacts } from '@shaftwork/sim-core/scenario/schema/fields';
import { plain } from './left-out.js';

type Field = Parameters<typeof FIELD_FACTS.get>[0];

function textOf({ bounds, dimension, example }: FieldFacts): string {
  if (bounds === undefined) return '';
  if (dimension === undefined) return boundsInWords(bounds, String);
  const read = readQuantity(example.split(' to ').at(-1) ?? example, dimension);
  if (!read.ok) throw new Error(`the example ${example} cannot be read`);
  const unit = read.shownUnit;
  return boundsInWords(bounds, (si) =>
    si === 0 && dimension !== 'temperature' ? '0' : plain(formatQuantity(si, dimension, { unit, space: ' ' })),
  );
}

/** Bounds in words of every field of a schema, by its path, lists by `[]`; those of kinds that differ stand side by side. */
export function boundsOf(root: object): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  const note = (path: string, text: string): void => {
    const known = found.get(path);
    if (text !== '' && known !== text) found.set(path, known === undefined ? text : `${known}, or ${text}`);
  };
  const walk = (schema: unknown, path: string, above: readonly object[]): void => {
    // steps of steps are steps
    if (typeof schema !== 'object' || schema === null || above.includes(schema)) return;
    const within = [...above, schema];
    if ('shape' in schema && typeof schema.shape === 'object' && schema.shape !== null)
      for (const [key, inner] of Object.entries(schema.shape)) walk(inner, path === '' ? key : `${path}.${key}`, within);
    else if ('unwrap' in schema && typeof schema.unwrap === 'function') walk(schema.unwrap(), path, within);
    else if ('element' in schema) walk(schema.element, `${path}[]`, within);
    else if ('options' in schema && Array.isArray(schema.options)) for (const option of schema.options) walk(option, path, within);
    const facts = FIELD_FACTS.get(schema as Field);
    if (facts !== undefined) note(path, textOf(facts));
  };
  walk(root, '', []);
  return found;
}
