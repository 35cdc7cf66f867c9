/** A located tree held against a schema. @module */

import type { z } from 'zod';
import type { ScenarioProblem } from '../problems/index.js';
import type { Place } from '../provenance/datum.js';
import { nearestWord } from './nearest-key.js';
import { FIELD_FACTS, refusalIn } from './schema/fields.js';
import { describedAt, keysOf, schemaAt, sectionsTaking } from './schema-walk.js';
import { alternatives, inPath, problem, quoted } from './wording.js';
import { type LocatedNode, textOf, toPlain } from './yaml/located-tree.js';

export type Validated<S extends z.ZodType> =
  | { readonly ok: true; readonly value: z.output<S> }
  | { readonly ok: false; readonly problems: readonly ScenarioProblem[] };

type Path = readonly PropertyKey[];

/** Holds a located tree against a schema; what does not fit comes back with the place where it stands. `alsoKnown` are keys that others read. */
export function validate<S extends z.ZodType>(schema: S, node: LocatedNode, alsoKnown: readonly string[] = []): Validated<S> {
  const result = schema.safeParse(toPlain(node));
  if (result.success) return { ok: true, value: result.data };
  return { ok: false, problems: result.error.issues.flatMap((issue) => problemsOf(issue, schema, node, alsoKnown)) };
}

function problemsOf(
  issue: z.core.$ZodIssue,
  schema: z.ZodType,
  root: LocatedNode,
  alsoKnown: readonly string[],
): readonly ScenarioProblem[] {
  const { node, place } = locate(root, issue.path);
  const refusal = refusalIn(issue);
  if (refusal) return [problem(refusal.kind, place, refusal.expected, refusal.found, refusal)];

  if (issue.code === 'unrecognized_keys') {
    const known = [...keysOf(schemaAt(schema, issue.path, root)), ...(issue.path.length === 0 ? alsoKnown : [])];
    return issue.keys.map((key) => unknownKey(key, locate(root, [...issue.path, key], true).place, known));
  }
  const described = describedAt(schema, issue.path, root);
  if (issue.code === 'invalid_union' && 'options' in issue && node === undefined) {
    const kinds = (issue.options as readonly string[]).map(String);
    return [
      problem('missing-datum', place, alternatives(kinds), 'nothing', {
        hint: `write ${String(issue.path.at(-1))}: ${kinds[0]}, or another of them`,
      }),
    ];
  }
  if (node === undefined) return [problem('missing-datum', place, described, 'nothing', { hint: whatToWrite(issue.path, schema, root) })];
  if (issue.code === 'invalid_value') return [unknownChoice(issue.values.map(String), node, place)];
  if (issue.code === 'invalid_union' && 'options' in issue)
    return [unknownChoice((issue.options as readonly string[]).map(String), node, place)];
  if (issue.code === 'too_small') return [problem('missing-datum', place, 'at least one row', 'an empty list')];
  return [problem('wrong-type', place, described, found(node), { hint: typeHint(node) })];
}

function unknownChoice(values: readonly string[], node: LocatedNode, place: Place): ScenarioProblem {
  const text = textOf(node);
  if (text === '') return problem('missing-datum', place, alternatives(values), 'nothing');
  return problem('unknown-choice', place, alternatives(values), found(node), {
    nearest: text === undefined ? undefined : nearestWord(text, values),
  });
}

function unknownKey(key: string, place: Place, known: readonly string[]): ScenarioProblem {
  const nearest = nearestWord(key, known);
  const elsewhere = nearest === undefined ? sectionsTaking(key) : [];
  const hint =
    key === '<<'
      ? 'merge keys are not read: put the shared part into a file and bring it in by use:'
      : elsewhere.length > 0
        ? `${quoted(key)} stands in ${alternatives(elsewhere.slice(0, 3))}`
        : nearest === undefined
          ? `known here: ${[...known].sort().join(', ')}`
          : undefined;
  return problem('unknown-key', place, 'a key that is known here', quoted(key), { nearest, hint });
}

function found(node: LocatedNode): string {
  if (node.kind === 'list') return 'a list';
  if (node.kind === 'map') return `keys with values (${[...node.entries.keys()].slice(0, 3).join(', ')})`;
  return node.text === '' ? 'nothing' : quoted(node.text);
}

function typeHint(node: LocatedNode): string | undefined {
  if (node.kind !== 'text') return undefined;
  if (node.text === '') return 'indent the lines that belong to it by two blanks';
  if (/^\w+:[\u00a0\u2007\u202f]/.test(node.text)) return 'a no-break space stands after the colon: type the blank again';
  const joined = /^([a-z][a-z_]*):([^\s/].*)$/s.exec(node.text);
  return joined ? `a blank is missing after the colon: write ${joined[1]}: ${joined[2]}` : undefined;
}

function whatToWrite(path: Path, schema: z.ZodType, root: LocatedNode): string | undefined {
  const field = schemaAt(schema, path, root);
  const example = field && FIELD_FACTS.get(field)?.example;
  return example === undefined ? undefined : `write ${String(path.at(-1))}: ${example}`;
}

/** The node at a path, or the place nearest above it with the path of what is missing there. */
function locate(root: LocatedNode, path: Path, key = false): { readonly node?: LocatedNode; readonly place: Place } {
  let node = root;
  for (const [index, step] of path.entries()) {
    const entry = node.kind === 'map' ? node.entries.get(String(step)) : undefined;
    const next = entry?.value ?? (node.kind === 'list' ? node.items[Number(step)] : undefined);
    if (next === undefined) {
      const missing = path
        .slice(index)
        .reduce<string>((so, more) => inPath(so, typeof more === 'number' ? more : String(more)), node.place.path);
      return { place: { ...node.place, path: missing } };
    }
    if (key && index === path.length - 1 && entry) return { node: next, place: entry.keyPlace };
    node = next;
  }
  return { node, place: node.place };
}
