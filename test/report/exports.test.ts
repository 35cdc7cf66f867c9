import { renderReport } from '@shaftwork/report';
import { csvOf, drawingFiles, markdownList, poster, textList } from '@shaftwork/report/export';
import { CHANNEL_IDS, CHANNELS } from '@shaftwork/sim-core';
import { toUnit } from '@shaftwork/sim-core/quantities';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';

test('the CSV holds every channel of every candidate, units in the heads, and the numbers of the trace', () => {
  const result = sampleResult({ names: ['A', 'B, the second', '=SUM(1)'] });
  const lines = csvOf(result).split('\r\n');
  const heads = lines[0]!.split(',');
  expect(heads.slice(0, 2)).toEqual(['candidate', 'time_s']);
  expect(heads).toHaveLength(2 + CHANNEL_IDS.length);
  for (const id of CHANNEL_IDS) expect(heads).toContain(CHANNELS[id].suffix === '' ? id : `${id}_${CHANNELS[id].suffix}`);
  expect(lines).toHaveLength(2 + result.candidates.reduce((sum, { trace }) => sum + trace.time.length, 0));
  const { trace } = result.candidates[0]!;
  const row = lines[1 + 17]!.split(',');
  expect(Number(row[1])).toBeCloseTo(trace.time[17]!, 5);
  expect(Number(row[heads.indexOf('windingTemperature_degC')])).toBeCloseTo(toUnit(trace.windingTemperature[17]!, '°C'), 4);
  expect(lines.some((line) => line.startsWith('"B, the second",'))).toBe(true);
  // A spreadsheet must not calculate a name.
  expect(lines.some((line) => line.startsWith('='))).toBe(false);
});

test('the lists give each candidate, the best first, and let nothing in a name become markup', () => {
  const hostile = '# <b>x</b> | y\n# z';
  const result = sampleResult({ names: ['A', hostile] });
  const named = { ...result, ranking: [hostile, 'A'] };
  const markdown = markdownList(named, { date: '2025-01-02' });
  expect(markdown).not.toContain('<b>');
  expect(markdown.split('\n').filter((line) => line.startsWith('# '))).toEqual([]);
  // The choice is open, the others folded behind their names.
  expect(markdown.indexOf('### \\# &lt;b&gt;x')).toBeLessThan(markdown.indexOf('<summary>A</summary>'));
  for (const line of markdown.split('\n').filter((one) => one.startsWith('|')))
    expect([3, 4]).toContain(line.replaceAll('\\|', '').match(/\|/g)!.length);
  expect(markdown.match(/<details>/g)).toHaveLength(1);
  expect(markdown.match(/<\/details>/g)).toHaveLength(1);
  const text = textList(named, { date: '2025-01-02' });
  expect(text.split('\n')[0]).toBe(result.scenario.title);
  expect(text.trimEnd().split('\n').at(-1)).toContain('2025-01-02');
  expect(text).toContain('peak of the winding');
  expect(text).not.toMatch(/NaN|undefined|Infinity/);
});

test('a list begins with all candidates in one table, and shows the picture where there is one', () => {
  const result = sampleResult();
  const markdown = markdownList(result, { picture: 'long boat.png' });
  const rows = markdown.split('\n').filter((line) => line.startsWith('|'));
  expect(rows[0]).toBe(`|  | ${result.ranking.join(' | ')} |`);
  expect(rows.find((line) => line.startsWith('| meets every limit'))).toBe('| meets every limit | yes | yes | no |');
  const winding = result.ranking.map((name) => {
    const { nominal } = result.candidates.find((one) => one.name === name)!.headline.peakWindingTemperature;
    return `${toUnit(nominal, '°C').toFixed(0)} °C`;
  });
  expect(rows.find((line) => line.startsWith('| peak of the winding'))).toBe(`| peak of the winding | ${winding.join(' | ')} |`);
  expect(markdown).toContain('](<long boat.png>)');
  expect(markdownList(result)).not.toContain('![');
  const lines = textList(result).split('\n');
  const heads = lines.find((line) => line.trimStart().startsWith(result.ranking[0]!))!;
  const peaks = lines.find((line) => line.startsWith('peak of the winding'))!;
  for (const [index, name] of result.ranking.entries()) expect(peaks.slice(heads.indexOf(name)).startsWith(winding[index]!)).toBe(true);
});

test('a list says how sure once the tolerances were drawn, and that they were not where they were not', () => {
  expect(textList(sampleResult())).toContain('the tolerances were not drawn');
  expect(textList(sampleResult({ doubt: true }))).toMatch(/peak of the winding +\d+ °C \(\d+ °C to \d+ °C, 5 to 95 %\)/);
});

test('drawings stand alone: no colour by name of the page, one file a figure', async () => {
  const result = sampleResult();
  const page = await renderReport(result);
  const files = drawingFiles(page);
  expect(files.map(({ name }) => name)).toEqual(Array.from(page.matchAll(/<figure id="figure-([\w-]+)">/g), ([, id]) => `${id}.svg`));
  for (const { text } of [...files, { text: poster(page, result) }]) {
    expect(text).not.toContain('var(');
    expect(text.match(/<svg /g)).toHaveLength(1);
    expect(text.match(/<\/svg>/g)).toHaveLength(1);
    expect(text.match(/<g(?:\s[^>]*[^/])?>/g)!.length).toBe(text.match(/<\/g>/g)!.length);
  }
});
