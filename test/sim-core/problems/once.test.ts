/** What several candidates have wrong in one place, or lack together, is told once. */

import type { ProblemKind } from '@shaftwork/sim-core/problems';
import { once } from '@shaftwork/sim-core/problems/once';
import { expect, it } from 'vitest';

const at = (kind: ProblemKind, line: number, path: string) => ({
  kind,
  place: { file: 'a.yaml', line, column: 5, path },
  expected: 'the temperature of the water',
  found: 'nothing',
});

it('tells once what stands on one line, and what all candidates lack', () => {
  const lacks = [at('missing-datum', 10, 'ambient.water'), at('missing-datum', 12, 'ambient.water')];
  expect(once(lacks)).toEqual([lacks[0]]);
  const wrong = at('out-of-range', 3, 'propeller.pitch');
  expect(once([wrong, wrong])).toEqual([wrong]);
  // what each has on a line of its own, or lacks itself, is told of each
  const own = [at('out-of-range', 3, 'motor.kv'), at('out-of-range', 4, 'motor.kv')];
  expect(once(own)).toEqual(own);
  const each = [at('missing-datum', 3, 'candidates[0].motor'), at('missing-datum', 4, 'candidates[1].motor')];
  expect(once(each)).toEqual(each);
});
