import { renderReport } from '@shaftwork/report';
import { measuredDrawing } from '@shaftwork/report/figures/measured';
import { viewOf } from '@shaftwork/report/page/report-view';
import { measuredHeading, measuredSection } from '@shaftwork/report/page/sections/measured';
import type { MeasuredChannel, MeasuredResult } from '@shaftwork/sim-core';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.js';

const TIMES = Array.from({ length: 120 }, (_, k) => 10 + k);
const channel = (id: MeasuredChannel['id'], at: (t: number) => number, off: number): MeasuredChannel => ({
  id,
  time: TIMES,
  measured: TIMES.map((t) => at(t) + off),
  predicted: TIMES.map(at),
  counts: TIMES.map(() => true),
  bands: { p05: TIMES.map((t) => at(t) - 1), p50: TIMES.map(at), p95: TIMES.map((t) => at(t) + 1) },
  bias: off,
  rms: Math.abs(off),
  meanMeasured: at(70) + off,
  meanPredicted: at(70),
  inside: Math.abs(off) < 1 ? 1 : 0,
  deviation: 0.5,
});
const MEASURED: MeasuredResult = {
  schema: 'shaftwork.measured/1',
  file: 'logs/<lake>.csv',
  rows: 1200,
  candidate: 'Long',
  named: false,
  driven: false,
  clock: { by: 'first-row', begins: 10 },
  from: 10,
  to: 129,
  taken: ['a comma taken for the mark before decimals'],
  channels: [channel('battery_current', (t) => 20 + 5 * Math.sin(t / 9), 11), channel('can_temperature', (t) => 300 + t / 20, 0.4)],
  squares: 240,
  moved: 72,
  explanation: { kind: 'none' },
  sentences: ['The log’s mean battery current is 31.0 A, the prediction 20.0 A.'],
};
const result = { ...sampleResult(), measured: MEASURED };

test('the section says what was found, draws log and prediction, and escapes what people wrote', async () => {
  const section = await measuredSection(viewOf(result));
  expect(section?.heading).toMatch(
    /^No single number explains the log: mean battery current 3\d\.\d\u202fA measured, 2\d\.\d\u202fA predicted$/,
  );
  const page = section?.body.html ?? '';
  expect(page).toContain('logs/&lt;lake&gt;.csv, 1200 rows, measured on Long, which leads: nobody said whose run it was');
  expect(page).toContain('+11.0\u202fA');
  // a bias of temperatures is in kelvins, never in degrees less 273
  expect(page).toContain('+0.4\u202fK');
  expect(page).toContain('A comma taken for the mark before decimals.');
  expect(page).toContain('a thermometer at that place');
});

test('a log of less than the run is drawn over its own part, a log of most of it over all', () => {
  const looks = viewOf(result).looks;
  const look = looks.find(({ name }) => name === 'Long');
  if (look === undefined) throw new Error('no Long');
  const domainOf = (measured: MeasuredResult): readonly number[] => {
    const [part] = measuredDrawing(result, measured, look, 'wide').parts;
    return 'panel' in part.spec ? part.spec.panel.frame.x.domain : [];
  };
  const { duration } = result.scenario;
  expect(duration).toBeGreaterThan(200);
  expect(domainOf(MEASURED)).toEqual([10, 129]);
  expect(domainOf({ ...MEASURED, from: 0.05 * duration, to: duration })).toEqual([0, duration]);
});

test('headings tell what explains the log', () => {
  expect(measuredHeading({ ...MEASURED, explanation: { kind: 'nothing-to-explain' } })).toMatch(
    /is what was predicted, as far as instruments tell/,
  );
  const best = {
    subject: 'motor.kv',
    words: 'Kv',
    dimension: 'speedConstant' as const,
    value: 100,
    moved: 90,
    deviations: -2,
    explains: 0.83,
  };
  expect(measuredHeading({ ...MEASURED, explanation: { kind: 'one', best, alike: [] } })).toMatch(
    /^One number would explain 83\u202f% of what parts the log/,
  );
});

test('the page has the section only where something was measured', async () => {
  const [withLog, without] = await Promise.all([renderReport(result), renderReport(sampleResult())]);
  expect(withLog).toContain('id="figure-measured"');
  expect(without).not.toContain('id="figure-measured"');
});
