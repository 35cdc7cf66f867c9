/** The generator of scenarios draws every key that a scenario may have: a key that it leaves out would be driven by no campaign. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Node } from '../fuzz/generate/dice.js';
import { randomScenario } from '../fuzz/generate/scenario.js';

interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly $ref?: string;
}
const SCHEMA = JSON.parse(readFileSync(new URL('../../scenarios/scenario.schema.json', import.meta.url), 'utf8')) as Schema & {
  readonly definitions: Readonly<Record<string, Schema>>;
};

/** Sections stand beside the candidates and below them: both are one place. Steps hold steps. */
const place = (path: readonly string[]): string =>
  path
    .join('.')
    .replace(/^candidates\./, '')
    .replace(/(^|\.)steps(\.steps)*\./, '$1');

function* written({ properties = {}, items, anyOf = [], $ref }: Schema, path: readonly string[] = []): Generator<string> {
  if ($ref !== undefined) {
    const inner = SCHEMA.definitions[$ref.replace('#/definitions/', '')];
    if (inner !== undefined && path.at(-1) !== 'steps') yield* written(inner, path);
  }
  for (const [key, inner] of Object.entries(properties)) {
    yield place([...path, key]);
    yield* written(inner, [...path, key]);
  }
  if (items !== undefined) yield* written(items, path);
  for (const each of anyOf) yield* written(each, path);
}

function* drawn(node: Node | undefined, path: readonly string[] = []): Generator<string> {
  if (Array.isArray(node)) for (const each of node) yield* drawn(each, path);
  else if (typeof node === 'object')
    for (const [key, inner] of Object.entries(node)) {
      if (inner === undefined) continue;
      yield place([...path, key]);
      yield* drawn(inner, [...path, key]);
    }
}

/** Words that nothing is calculated from, and part files other than a motor's; columns and pulses of a log are those of `measured`. */
const LEFT_OUT = /(^|\.)source$|\.use$|^profile\.(columns\.|pulse|charge_put_back)/;

it('draws every key of the schema', () => {
  const had = new Set<string>();
  for (let seed = 1; seed <= 6000; seed++) for (const path of drawn(randomScenario(seed).scenario)) had.add(path);
  const asked = [...new Set(written(SCHEMA))].filter((path) => !LEFT_OUT.test(path));
  expect(asked.length).toBeGreaterThan(200);
  expect(asked.filter((path) => !had.has(path))).toEqual([]);
});
