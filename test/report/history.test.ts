import { renderReport } from '@shaftwork/report';
import { embeddedRun, headlineOf, movedBetween, remembered } from '@shaftwork/report/history';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';

const hostile = '</script><script>alert(1)</script>\u2028&';

test('a report gives back its files to the letter, whatever is written in them', async () => {
  const result = sampleResult();
  const files = [
    { path: 'boat.yaml', text: `title: ${hostile}\n` },
    { path: 'parts/motor.yaml', text: 'x: "<!--"\r\n\ty' },
  ];
  const page = await renderReport({ ...result, scenario: { ...result.scenario, files } });
  expect(embeddedRun(page)?.files).toEqual(files);
});

test('a page that is none of ours, or one that was damaged, gives nothing', async () => {
  const page = await renderReport(sampleResult());
  expect(embeddedRun(page)).toBeDefined();
  expect(embeddedRun(page.replace('content="shaftwork ', 'content="other '))).toBeUndefined();
  expect(embeddedRun(page.replace('"schema":"shaftwork.report/1"', '"schema":"x"'))).toBeUndefined();
  expect(embeddedRun(page.replace('id="shaftwork-run">{', 'id="shaftwork-run">'))).toBeUndefined();
  expect(embeddedRun('')).toBeUndefined();
});

test('what moved is told where it prints differently, and only there', () => {
  const before = headlineOf(sampleResult());
  const same = {
    ...before,
    candidates: before.candidates.map((one) => ({ ...one, figures: { ...one.figures, chargeLeft: one.figures.chargeLeft! + 1e-6 } })),
  };
  expect(movedBetween(before, same)).toEqual({ sentences: [], moves: [] });
  const [first] = before.candidates;
  const after = {
    ...before,
    choice: 'Other',
    candidates: [
      { ...first!, figures: { ...first!.figures, peakWindingTemperature: first!.figures.peakWindingTemperature! - 4 } },
      { name: 'Other', feasible: true, figures: {} },
    ],
  };
  const { sentences, moves } = movedBetween(before, after);
  expect(moves).toHaveLength(1);
  expect(moves[0]).toMatchObject({ candidate: first!.name, words: 'peak of the winding' });
  expect(sentences.join(' ')).toContain('is now Other');
  expect(sentences.join(' ')).toContain('New: Other.');
});

test('a report over a report keeps the earlier numbers, once for each plan', async () => {
  const one = sampleResult();
  const two = sampleResult({ doubt: true, duration: 500 });
  const first = embeddedRun(await renderReport(one, { date: '2025-01-01' }))!;
  expect(await renderReport(one)).not.toContain('id="history"');
  const again = await renderReport(one, { before: first });
  expect(again).not.toContain('id="history"');
  const changed = await renderReport(two, { before: first, date: '2025-02-02' });
  expect(changed).toContain('id="history"');
  expect(changed).toContain('2025-01-01');
  const third = remembered(embeddedRun(changed)!, headlineOf(one));
  expect(third).toHaveLength(2);
  expect(third[0]!.date).toBe('2025-01-01');
});
