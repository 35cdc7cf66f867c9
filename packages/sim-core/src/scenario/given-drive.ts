/** A validated drive as the completion takes it: a key of the schema that provenance/given.ts does not know stops the compiler. @module */
import type { z } from 'zod';
import type { Datum, Place } from '../provenance/datum.js';
import type { GivenDrive } from '../provenance/given.js';
import { type Given, given } from './given.js';
import type { drive } from './schema/drive.js';
import type { LocatedNode } from './yaml/located-tree.js';

type Leaf = Datum | Place | string | number | boolean | undefined;
/** Paths of all keys ("motor.can.diameter"), of all kinds of a union; words, places and the drive of the bench aside. */
type Keys<T> = T extends Leaf
  ? never
  : T extends readonly (infer Item)[]
    ? Keys<Item>
    : { [K in Exclude<keyof T & string, 'place' | 'source' | 'bench'>]: K | `${K}.${Keys<NonNullable<T[K]>>}` }[Exclude<
        keyof T & string,
        'place' | 'source' | 'bench'
      >];

type Whole = z.output<typeof drive>;
/** Keys that may be written and that nobody would read. */
type Forgotten = Exclude<Keys<Given<Whole>>, Keys<GivenDrive>>;

/** Walks a validated drive and the tree it came from. Where this does not compile, the message names the key that GivenDrive lacks. */
export const givenDrive = (value: Whole, node: LocatedNode): [Forgotten] extends [never] ? GivenDrive : { readonly forgotten: Forgotten } =>
  given(value, node);
