import { listed } from '@shaftwork/sim-core/problems/listed';
import { expect, it } from 'vitest';

it('lists with a comma before all but the last', () => {
  expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map((items) => listed(items))).toEqual(['', 'a', 'a and b', 'a, b and c']);
  expect(listed(['a', 'b', 'c'], 'or')).toBe('a, b or c');
});
