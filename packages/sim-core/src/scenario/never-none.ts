/** Where `none` would not mean what it says: left out, the usual value comes in, and the drive would be held to it in silence. @module */

import type { ScenarioProblem } from '../problems/index.js';
import { NONE } from './merge.js';
import { problem } from './wording.js';
import { childOf, type LocatedMap, textOf } from './yaml/located-tree.js';

const TEMPERATURE = {
  expected: 'a temperature',
  hint: 'without one the usual limit holds; write a temperature that is never reached, such as 400 °C, where this shall limit nothing',
};

interface NeverNone {
  readonly expected: string;
  readonly hint: string;
  readonly keys?: Readonly<Record<string, { readonly expected: string; readonly hint: string }>>;
}

export const NEVER_NONE: Readonly<Record<string, NeverNone>> = {
  controller: {
    expected: 'numbers of a controller',
    hint: 'a brushless motor does not turn without one; write what differs from the common one, or leave the section out: usual values are filled in, and told',
  },
  limits: {
    expected: 'limits',
    hint: 'without them the usual temperatures hold; write one that is never reached, such as winding: 400 °C, where it shall limit nothing',
    keys: { winding: TEMPERATURE, magnets: TEMPERATURE, controller: TEMPERATURE, cells: TEMPERATURE },
  },
};

/** What is wrong with a scenario's common part, or a candidate's own, in this respect. */
export function checkNone(written: LocatedMap): readonly ScenarioProblem[] {
  return Object.entries(NEVER_NONE).flatMap(([section, { expected, hint, keys = {} }]) => {
    const node = childOf(written, section);
    if (node === undefined) return [];
    if (textOf(node) === NONE) return [problem('wrong-type', node.place, expected, NONE, { hint })];
    return Object.entries(keys).flatMap(([key, each]) => {
      const inner = childOf(node, key);
      return inner !== undefined && textOf(inner) === NONE
        ? [problem('wrong-type', inner.place, each.expected, NONE, { hint: each.hint })]
        : [];
    });
  });
}
