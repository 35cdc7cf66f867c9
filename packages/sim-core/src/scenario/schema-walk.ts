/** What a schema says at one place of a document. @module */

import { z } from 'zod';
import { drive } from './schema/drive.js';
import { FIELD_FACTS } from './schema/fields.js';
import { childOf, type LocatedNode, textOf } from './yaml/located-tree.js';

type Path = readonly PropertyKey[];

function unwrapped(schema: z.ZodType): z.ZodType {
  return schema instanceof z.ZodOptional ? unwrapped(schema.unwrap() as z.ZodType) : schema;
}

/** The member of a union that the tree's `kind` chooses. */
function chosen(schema: z.ZodType, node: LocatedNode | undefined): z.ZodType | undefined {
  const bare = unwrapped(schema);
  if (!(bare instanceof z.ZodDiscriminatedUnion)) return bare;
  const kind = textOf(childOf(node, 'kind'));
  return (bare.options as readonly z.ZodObject[]).find(
    ({ shape }) => shape['kind'] instanceof z.ZodLiteral && shape['kind'].value === kind,
  );
}

/** The part of a schema that speaks of a path. */
export function schemaAt(schema: z.ZodType, path: Path, root: LocatedNode): z.ZodType | undefined {
  let node: LocatedNode | undefined = root;
  let here = chosen(schema, node);
  for (const step of path) {
    if (here instanceof z.ZodObject) {
      here = here.shape[String(step)] as z.ZodType | undefined;
      node = childOf(node, String(step));
    } else if (here instanceof z.ZodArray) {
      here = here.element as z.ZodType;
      node = node?.kind === 'list' ? node.items[Number(step)] : undefined;
    } else return undefined;
    if (here === undefined) return undefined;
    here = chosen(here, node) ?? unwrapped(here);
  }
  return here;
}

export function keysOf(schema: z.ZodType | undefined): readonly string[] {
  return schema instanceof z.ZodObject ? Object.keys(schema.shape) : [];
}

/** What is due at a path, in words: the field's description and an example, or the keys of a section. */
export function describedAt(schema: z.ZodType, path: Path, root: LocatedNode): string {
  const here = schemaAt(schema, path, root);
  const description = here && z.globalRegistry.get(here)?.description;
  const example = here && FIELD_FACTS.get(here)?.example;
  if (example !== undefined) return `${description}, such as ${example}`;
  const named = description === undefined ? '' : `${description}: `;
  if (here instanceof z.ZodArray) return `${named}a list`;
  if (here instanceof z.ZodObject || here instanceof z.ZodDiscriminatedUnion) {
    const keys = here instanceof z.ZodObject ? keysOf(here) : ['kind'];
    return `${named}keys with values, such as ${keys.slice(0, 3).join(', ')}`;
  }
  return description ?? 'a value';
}

/** Paths of the sections that have a key of this name, for somebody who put it in the wrong one. */
export function sectionsTaking(key: string): readonly string[] {
  const found = new Set<string>();
  const search = (schema: z.ZodType, path: string): void => {
    const here = unwrapped(schema);
    if (here instanceof z.ZodDiscriminatedUnion) for (const option of here.options) search(option as z.ZodType, path);
    else if (here instanceof z.ZodArray) search(here.element as z.ZodType, path);
    else if (here instanceof z.ZodObject) {
      if (Object.hasOwn(here.shape, key) && path !== '') found.add(path);
      for (const [name, inner] of Object.entries(here.shape)) search(inner as z.ZodType, path === '' ? name : `${path}.${name}`);
    }
  };
  if (key !== 'source' && key !== 'kind') search(drive, '');
  return [...found];
}
