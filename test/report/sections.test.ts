import { viewOf } from '@shaftwork/report/page/report-view';
import { doubtHeading } from '@shaftwork/report/page/sections/doubt';
import { ratingHeading } from '@shaftwork/report/page/sections/rating';
import { sideBySideHeading } from '@shaftwork/report/page/sections/side-by-side';
import { tippingSection } from '@shaftwork/report/page/sections/tipping';
import { whyHeading } from '@shaftwork/report/page/sections/why';
import { sideBySide } from '@shaftwork/report/tables/side-by-side';
import type { CostlyNumber, RunResult } from '@shaftwork/sim-core';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';
import { withStudies } from './sample-studies.ts';

const number = (words: string, tips: CostlyNumber['tips']): CostlyNumber =>
  ({ words, candidates: [], standing: 'default', dimension: 'ratio', value: 1, low: 0.9, high: 1.1, tips, lacksOnSheet: false }) as never;
const withCostly = (...numbers: CostlyNumber[]): RunResult => ({ ...sampleResult(), costly: { numbers } as never });

test('where no number alone changes the answer there is a sentence and no table', () => {
  const section = tippingSection(viewOf(withCostly(number('drag factor', []), number('thrust factor', []))))!;
  expect(section.heading).toBe('No single number, within its interval, changes the choice');
  expect(section.body.html).not.toContain('<table');
  expect(section.body.html).toContain('drag factor (0.900 to 1.10); thrust factor (0.900 to 1.10)');
});

test('the table has only what changes the answer, and its long words wrap', () => {
  const tip = { at: 1.05, kind: 'leads', candidate: 'Wide' } as CostlyNumber['tips'][number];
  const { body, heading } = tippingSection(viewOf(withCostly(number('drag factor', [tip]), number('thrust factor', []))))!;
  expect(heading).toBe('The drag factor alone would change the answer: above 1.05 Wide leads');
  expect(body.html.match(/<th scope="row">/g)).toHaveLength(1);
  expect(body.html).toContain('<td><span class="long">Above 1.05 Wide leads</span></td>');
  expect(body.html).toContain('this leaves the choice as it is: thrust factor (0.900 to 1.10)');
});

test('how sure: the leader first, then each of the others by its count', () => {
  const view = viewOf(sampleResult());
  const chance = (name: string, count: number) => ({
    name,
    feasible: { count, of: 64, probability: count / 64, low: 0.89, high: 0.99 },
  });
  const doubt = { candidates: [chance('Wide', 0), chance('Long', 62), chance('Small', 64)] } as never;
  expect(doubtHeading(view, doubt)).toBe(
    'Long meets every limit in 62 of 64 draws, 97\u202f% (89 to 99\u202f%); Wide in none and Small in all',
  );
});

test('for how long: the one chosen comes first, also where every current of it lasts and the figure has no line of it', () => {
  const result = withStudies(sampleResult());
  const candidates = result.candidates.map((candidate) => {
    const { rating } = candidate;
    const { point } = rating!.continuous as unknown as { point: never };
    return candidate.name === 'Small'
      ? { ...candidate, rating: { ...rating!, continuous: { kind: 'none' as const } } }
      : { ...candidate, rating: { ...rating!, continuous: { kind: 'full-throttle' as const, point } } };
  });
  expect(ratingHeading(viewOf({ ...result, candidates: candidates as never }))).toMatch(
    /^Long may run at full throttle for ever \([\d.]+\u202fA\), Wide at full throttle and Small at none$/,
  );
});

test('a way that takes next to none of the heat has no row, and is told', () => {
  const result = sampleResult();
  const candidates = result.candidates.map((candidate) => ({
    ...candidate,
    moment: { ...candidate.moment, leaves: { ...candidate.moment.leaves, canSide: 0.1, canEnds: 9, water: 11 } },
    energy: { ...candidate.energy, heatLeaves: { ...candidate.energy.heatLeaves, canSide: 10, canEnds: 900, water: 1100, mount: 0 } },
  }));
  const words = sideBySide({ ...result, candidates }, viewOf(result).looks).html;
  expect(words).not.toContain('can’s side at the hardest moment');
  expect(words).toContain('of the motor’s heat leaves by the can’s side.');
});

test('side by side and the reasons tell one difference, where the printed peaks would give another', () => {
  const result = sampleResult();
  const peaks: { readonly [name: string]: number } = { Wide: 357.75, Long: 352.62, Small: 400 };
  const candidates = result.candidates.map((candidate) => ({
    ...candidate,
    headline: { ...candidate.headline, peakWindingTemperature: { dimension: 'temperature' as const, nominal: peaks[candidate.name]! } },
  }));
  const split = { words: 'peak', dimension: 'temperature', from: 357.75, to: 352.62, difference: -5.13, parts: [] } as never;
  expect(sideBySideHeading(viewOf({ ...result, candidates }))).toContain('runs 5\u202fK cooler');
  expect(whyHeading('Wide', 'Long', [split])).toContain('5\u202fK cooler');
});
