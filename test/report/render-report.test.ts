import { createHash } from 'node:crypto';
import { renderReport } from '@shaftwork/report';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type SampleOptions, sampleResult } from './sample-result.ts';

const EIGHT = [
  'Wide',
  'Long',
  'Small',
  'Outer 35-42',
  'A name with many words in it',
  '<script>alert(1)</script>',
  'Supercalifragilisticexpialidocious',
  'H8',
];
const VARIANTS: readonly [string, SampleOptions][] = [
  ['three candidates over eleven minutes', {}],
  ['one candidate, ten seconds, no vehicle', { names: ['Solo'], duration: 10, vehicle: false }],
  ['two with doubt', { names: ['A', 'B'], doubt: true }],
  ['four without step names', { names: EIGHT.slice(0, 4), unlabelled: true }],
  [
    'eight over two hours, some ending early',
    { names: EIGHT, duration: 7200, doubt: true, ends: ['finished', 'cut-off', 'empty', 'failed'] },
  ],
  ['all failed', { ends: ['failed', 'failed', 'failed'], verdict: [] }],
];

/** What of the page matches, so that a failure does not print the page. */
const found = (page: string, pattern: RegExp): string | undefined => pattern.exec(page)?.[0];

const warn = vi.spyOn(console, 'warn');
beforeEach(() => {
  warn.mockClear();
});
afterEach(() => {
  expect(warn).not.toHaveBeenCalled();
});

test.each(VARIANTS)('%s: whole, lean, well formed and without a word from the drawing', async (_, options) => {
  const page = await renderReport(sampleResult(options), { date: '2025-01-02' });
  expect(page.length).toBeLessThan(1_500_000);
  expect(found(page.replace(/<script>[\s\S]*?<\/script>/, ''), /.{0,60}(?:NaN|undefined|Infinity|\[object).{0,20}/)).toBeUndefined();
  const ids = Array.from(page.matchAll(/\sid="([^"]+)"/g), ([, id]) => id!);
  expect(new Set(ids).size).toBe(ids.length);
  for (const [, reference] of page.matchAll(/(?:url\(#|href="#|aria-describedby=")([\w-]+)/g)) expect(ids).toContain(reference);
  const figures = page.match(/<figure /g)!.length;
  expect(page.match(/<svg class="wide" [^>]*role="img" aria-label="[^"]+"/g)).toHaveLength(figures);
  expect(page.match(/<svg class="narrow" [^>]*role="img" aria-label="[^"]+"/g)).toHaveLength(figures);
  expect(page.match(/<details class="data">/g)).toHaveLength(figures);
  const numbers = Array.from(page.matchAll(/<b>Figure (\d+)\.<\/b>/g), ([, number]) => Number(number));
  expect(numbers).toEqual(numbers.map((_one, index) => index + 1));
});

test('nothing is fetched and nothing runs, whatever people wrote', async () => {
  const hostile = '</style><script>alert(1)</script><img src=x onerror=alert(2)>"\'&';
  const result = sampleResult({ names: [hostile, 'B'], title: hostile, verdict: [`Take ${hostile}.`] });
  const page = await renderReport({
    ...result,
    cautions: [hostile],
    scenario: {
      ...result.scenario,
      notes: hostile,
      hash: 'abc',
      steps: result.scenario.steps.map((step) => ({ ...step, label: hostile })),
      files: [{ path: hostile, text: hostile }],
    },
    assumptions: [{ ...result.assumptions[0]!, words: hostile, origin: hostile, source: hostile }],
    findings: [{ candidate: hostile, kind: 'no-operating-point', step: 0, label: hostile, why: hostile }],
  });
  expect(found(page, /<(?:img|link|iframe|object|embed|base|form)\b/)).toBeUndefined();
  // Two blocks of data and the reading aid, whatever people wrote.
  expect(page.match(/<script\b[^>]*>/g)).toEqual([
    '<script type="application/json" id="shaftwork-run">',
    '<script type="application/json" id="run-table">',
    '<script>',
  ]);
  expect(page.match(/<\/script>/g)).toHaveLength(3);
  const [, script] = /<script>([\s\S]*?)<\/script>/.exec(page)!;
  expect(found(script!, /\b(?:eval|Function|fetch|XMLHttpRequest|WebSocket|import)\s*\(|innerHTML|insertAdjacentHTML/)).toBeUndefined();
  expect(found(page, /@import|url\((?!#)/)).toBeUndefined();
  // Inside tags only: what people wrote may say anything between them.
  const tags = page.match(/<[a-z][^>]*>/g)!;
  expect(tags.filter((tag) => /\s(?:on\w+|src|srcset|style|xlink:href)\s*=/.test(tag.replace(/"[^"]*"/g, '""')))).toEqual([]);
  expect(page.match(/<\/style>/g)).toHaveLength(1);
  expect(page.match(/https?:[^"'\s<]*/g)!.every((address) => address === 'http://www.w3.org/2000/svg')).toBe(true);
  const [, style] = /<style>([\s\S]*?)<\/style>/.exec(page)!;
  const hash = createHash('sha256').update(style!).digest('base64');
  const scriptHash = createHash('sha256').update(script!).digest('base64');
  expect(
    page
      .replaceAll('&#39;', "'")
      .includes(
        `content="default-src 'none'; script-src 'sha256-${scriptHash}'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'"`,
      ),
  ).toBe(true);
});

test('the verdict comes first, then the deciding figure', async () => {
  const result = sampleResult();
  const page = await renderReport(result);
  const order = [
    '<h1>',
    'class="lead"',
    'id="temperature"',
    'id="side-by-side"',
    'id="torque"',
    'id="power"',
    'id="profile"',
    'id="margins"',
    'id="findings"',
    'id="assumptions"',
    'id="cautions"',
    'id="scenario"',
    '<footer>',
  ];
  const places = order.map((mark) => page.indexOf(mark));
  expect(places).toEqual([...places].sort((a, b) => a - b));
  expect(places[0]).toBeGreaterThan(0);
  for (const { text, path } of result.scenario.files) {
    expect(page.includes(path)).toBe(true);
    expect(page.includes(text.split('\n')[0]!)).toBe(true);
  }
});

test('one Result makes one page, to the letter, and no clock is read', async () => {
  const first = await renderReport(sampleResult());
  await renderReport(sampleResult({ names: ['Other'] }));
  expect((await renderReport(sampleResult())) === first).toBe(true);
  expect(await renderReport(sampleResult(), { date: '2031-05-06' })).toContain('2031-05-06');
});

test('the peaks that the figure labels are those of the table', async () => {
  const result = sampleResult();
  const page = await renderReport(result);
  for (const { headline } of result.candidates)
    expect(page.includes(`>${(headline.peakWindingTemperature.nominal - ZERO_CELSIUS).toFixed(0)}\u202f°C</text>`)).toBe(true);
});
