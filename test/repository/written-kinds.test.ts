/** Every quantity of the schema that may carry a ± has a rule for how exact it is without one, and no rule speaks of a key that is none. */
import { DIMENSIONS } from '@shaftwork/sim-core/provenance/dimensions';
import { WRITTEN } from '@shaftwork/sim-core/provenance/written';
import { DIMENSION_FACTS } from '@shaftwork/sim-core/quantities/dimension-facts';
import { drive } from '@shaftwork/sim-core/scenario/schema/drive';
import { FIELD_FACTS } from '@shaftwork/sim-core/scenario/schema/fields';
import { expect, it } from 'vitest';

type Field = Parameters<typeof FIELD_FACTS.get>[0];
/** What a schema is made of, as far as a walk needs it. */
interface Node {
  readonly shape?: Readonly<Record<string, Node>>;
  readonly options?: readonly Node[];
  readonly element?: Node;
  unwrap?(): Node;
  parse(text: unknown): unknown;
}

/** Path and dimension of every field whose value is a datum. */
function* data(schema: Node, path: string): Generator<readonly [path: string, dimension: keyof typeof DIMENSION_FACTS]> {
  if (schema.shape !== undefined)
    for (const [key, inner] of Object.entries(schema.shape)) yield* data(inner, path === '' ? key : `${path}.${key}`);
  else if (Array.isArray(schema.options)) for (const option of schema.options) if (typeof option === 'object') yield* data(option, path);
  if (schema.element !== undefined) yield* data(schema.element, path);
  else if (schema.unwrap !== undefined) yield* data(schema.unwrap(), path);
  else {
    const facts = FIELD_FACTS.get(schema as unknown as Field);
    // an entry of a table takes no ± and comes as a plain number
    if (facts?.dimension !== undefined && typeof schema.parse(facts.example) === 'object') yield [path, facts.dimension];
  }
}

const fields = new Map(data(drive as unknown as Node, ''));

it('every key of the schema has its rule, and every rule its key', () => {
  expect(fields.size).toBeGreaterThan(100);
  expect(Object.keys(WRITTEN).sort()).toEqual([...fields.keys()].sort());
});

it.each(Object.entries(WRITTEN))('%s: the interval suits its dimension', (path, { off }) => {
  // an amount is that of a quantity that may pass through nothing
  if (off !== 'exact' && 'amount' in off) expect(DIMENSION_FACTS[fields.get(path)!].spread).toBe('normal');
  if (off !== 'exact' && 'share' in off) expect(off.share).toBeLessThan(100);
});

it('the dimension of each is the one that the schema reads', () => {
  expect(Object.entries(DIMENSIONS).sort()).toEqual([...fields].sort());
});
