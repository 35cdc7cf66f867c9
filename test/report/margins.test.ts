import { looksOf } from '@shaftwork/report/drawing/palette';
import { marginDrawing, marginGroups } from '@shaftwork/report/figures/margins';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';

test('all values stand in one column behind the longest bar, so that only what is past the limit reaches past its rule', () => {
  const result = sampleResult();
  const looks = looksOf(result.candidates);
  const [part] = marginDrawing(result, looks, 'wide').parts;
  if (part === undefined || !('panel' in part.spec)) throw new Error('no panel');
  const { frame, layers } = part.spec.panel;
  const bars = marginGroups(result, looks).flatMap((group) => group.bars);
  const values = layers
    .filter(({ mark }) => mark === 'words')
    .flatMap(({ rows }) => rows)
    .filter(({ fill }) => String(fill).startsWith('var(--c'));
  expect(values).toHaveLength(bars.length);
  expect(new Set(values.map(({ x }) => x)).size).toBe(1);
  expect(Number(values[0]!['x'])).toBeGreaterThan(frame.width);
  const ends = layers.filter(({ mark }) => mark === 'dots').flatMap(({ rows }) => rows.map(({ x }) => Number(x)));
  expect(ends.filter((end) => end > 1)).toHaveLength(bars.filter(({ limit }) => limit.passed !== undefined).length);
});
