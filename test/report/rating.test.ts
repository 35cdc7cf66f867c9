import { looksOf } from '@shaftwork/report/drawing/palette';
import { allowedTimeDrawing, rated } from '@shaftwork/report/figures/allowed-time';
import { viewOf } from '@shaftwork/report/page/report-view';
import { ratingSection } from '@shaftwork/report/page/sections/rating';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';
import { withStudies } from './sample-studies.ts';

test('what may be driven for ever is told with the speed at which it may', async () => {
  const result = withStudies(sampleResult());
  const candidates = result.candidates.map((candidate) => {
    const rating = candidate.rating!;
    return {
      ...candidate,
      rating: { ...rating, hardest: { ...rating.hardest, vehicleSpeed: 12, label: 'climb', continuous: rating.continuous } as never },
    };
  });
  const section = await ratingSection(viewOf({ ...result, candidates }));
  expect(section!.heading).toMatch(/for ever at the 12\.00\u202fm\/s of “climb” \(\d+\.\d\u202fA once hot\)/);
});

test('a throttle stands at one current, that taken cold: a warm motor never seems to last longer', () => {
  const result = withStudies(sampleResult());
  // Warm copper takes less current at the same throttle.
  const candidates = result.candidates.map((candidate) => {
    const { rating } = candidate;
    const fromWarm = rating!.shortTime.fromWarm.map((one) => ({ ...one, motorCurrent: one.motorCurrent * 0.9 }));
    return { ...candidate, rating: { ...rating!, shortTime: { ...rating!.shortTime, fromWarm } } };
  });
  const [part] = allowedTimeDrawing(rated(candidates, looksOf(candidates)), 'wide').parts;
  if (part === undefined || !('panel' in part.spec)) throw new Error('no panel');
  const told = part.spec.panel.layers.flatMap(({ rows }) => rows).map((row) => String((row as { text?: unknown }).text ?? ''));
  expect(told).toContain('from cold');
  expect(told).toContain('from warm');
  const curves = part.spec.panel.layers.filter(({ mark }) => mark === 'curves').map(({ rows }) => rows);
  expect(curves).toHaveLength(2 * candidates.length);
  for (let index = 0; index < curves.length; index += 2) {
    const cold = new Map(curves[index]!.map(({ x, y }) => [x, Number(y)]));
    for (const { x, y } of curves[index + 1]!) if (cold.has(x)) expect(Number(y)).toBeLessThanOrEqual(cold.get(x)!);
    expect(curves[index + 1]!.some(({ x }) => cold.has(x))).toBe(true);
  }
});
