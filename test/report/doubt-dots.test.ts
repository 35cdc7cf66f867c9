import { looksOf } from '@shaftwork/report/drawing/palette';
import { dotValues, doubtDrawing } from '@shaftwork/report/figures/doubt';
import type { PeakDraws } from '@shaftwork/sim-core';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';

const NAMES = ['A', 'B', 'C', 'D', 'E', 'F', 'G'];
const looks = looksOf(sampleResult({ names: NAMES }).candidates);
/** A seeded scatter about a mean, with one draw far out. */
const draws = (mean: number, count: number): number[] =>
  Array.from({ length: count }, (_, index) => mean + 30 * Math.sin(index * 12.9898) + (index === 0 ? 400 : 0) + ZERO_CELSIUS).sort(
    (a, b) => a - b,
  );
const peaks = (count: number, candidates: number): PeakDraws => ({
  channel: 'windingTemperature',
  words: 'peak winding temperature',
  candidates: NAMES.slice(0, candidates).map((name, index) => ({ name, draws: draws(70 + 15 * index, count), bound: 130 + ZERO_CELSIUS })),
});
const dotsOf = (drawn: PeakDraws) => {
  const [part] = doubtDrawing(drawn, looks, 'wide').parts;
  if (part === undefined || !('panel' in part.spec)) throw new Error('no panel');
  const { frame, layers } = part.spec.panel;
  return { frame, dots: layers.filter(({ mark }) => mark === 'dots').flatMap(({ rows }) => rows) };
};

test.each([1, 3, 7])('every draw of %d candidates is a dot, and as many are filled as pass the limit', (candidates) => {
  const drawn = peaks(64, candidates);
  const { dots, frame } = dotsOf(drawn);
  expect(dots).toHaveLength(64 * candidates);
  for (const [index, { name, draws: own }] of drawn.candidates.entries()) {
    const colour = looks[index]!.colour;
    const filled = dots.filter(({ fill }) => fill === colour);
    const past = own.filter((value) => value > 130 + ZERO_CELSIUS).length;
    expect(filled.length, name).toBe(past);
    // A filled dot stands right of the rule, a hollow one left of it.
    for (const dot of filled) expect(Number(dot['x'])).toBeGreaterThan(130);
    for (const dot of dots.filter(({ stroke, fill }) => stroke === colour && fill !== colour)) expect(Number(dot['x'])).toBeLessThan(130);
  }
  for (const { y } of dots) expect(Number(y)).toBeLessThan(frame.height);
  // No two dots at one place.
  expect(new Set(dots.map(({ x, y }) => `${Number(x).toFixed(3)} ${Number(y).toFixed(3)}`)).size).toBe(dots.length);
});

test('nothing is drawn below the coldest draw', () => {
  const drawn = peaks(64, 3);
  const coldest = Math.min(...drawn.candidates.flatMap(({ draws: own }) => own)) - ZERO_CELSIUS;
  const { dots, frame } = dotsOf(drawn);
  // Within the width of a dot.
  expect(Math.min(...dots.map(({ x }) => Number(x)))).toBeGreaterThan(
    coldest - ((frame.x.domain[1] - frame.x.domain[0]) / frame.width) * 10,
  );
});

test('of many draws each dot stands for a fiftieth (Kay et al. 2016)', () => {
  const many = draws(80, 512);
  const values = dotValues(many);
  expect(values).toHaveLength(50);
  expect(values[24]! + values[25]!).toBeCloseTo(many[250]! + many[260]!, -1);
});
