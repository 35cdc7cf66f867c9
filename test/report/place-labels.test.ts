import { clearBox, spreadApart, touches } from '@shaftwork/report/drawing/place-labels';
import fc from 'fast-check';
import { expect, test } from 'vitest';

test('labels with room sit centred where they want to be', () => {
  expect(
    spreadApart(
      [
        { wanted: 50, height: 14 },
        { wanted: 100, height: 14 },
      ],
      0,
      200,
    ),
  ).toEqual([43, 93]);
});

test('two that want the same place part evenly around it', () => {
  expect(
    spreadApart(
      [
        { wanted: 50, height: 14 },
        { wanted: 50, height: 14 },
      ],
      0,
      200,
    ),
  ).toEqual([36, 50]);
});

test('none overlaps, all lie inside, and the order of the wishes holds', () => {
  const label = fc.record({ wanted: fc.double({ min: -50, max: 350, noNaN: true }), height: fc.integer({ min: 10, max: 32 }) });
  fc.assert(
    fc.property(fc.array(label, { minLength: 1, maxLength: 8 }), (labels) => {
      const tops = spreadApart(labels, 0, 300);
      const placed = labels.map((one, index) => ({ ...one, top: tops[index]! })).sort((a, b) => a.top - b.top);
      placed.forEach(({ top, height, wanted }, index) => {
        expect(top).toBeGreaterThanOrEqual(-1e-9);
        expect(top + height).toBeLessThanOrEqual(300 + 1e-9);
        const next = placed[index + 1];
        if (next === undefined) return;
        expect(top + height).toBeLessThanOrEqual(next.top + 1e-9);
        expect(wanted).toBeLessThanOrEqual(next.wanted);
      });
    }),
    { seed: 6, numRuns: 300 },
  );
});

test('a segment through, beside and inside a box', () => {
  const box = { x: 10, y: 10, width: 20, height: 10 };
  expect(touches(box, { x: 0, y: 0 }, { x: 40, y: 30 })).toBe(true);
  expect(touches(box, { x: 0, y: 15 }, { x: 9, y: 15 })).toBe(false);
  expect(touches(box, { x: 12, y: 12 }, { x: 14, y: 13 })).toBe(true);
  expect(touches(box, { x: 5, y: 0 }, { x: 5, y: 40 })).toBe(false);
});

test('the first clear place is taken, and none when all are covered', () => {
  const line = [
    { x: 0, y: 5 },
    { x: 100, y: 5 },
  ];
  const high = { x: 0, y: 0, width: 30, height: 10 };
  const low = { x: 0, y: 20, width: 30, height: 10 };
  expect(clearBox([high, low], [line], [])).toBe(low);
  expect(clearBox([high, low], [line], [{ x: 10, y: 25, width: 5, height: 5 }])).toBeUndefined();
});
