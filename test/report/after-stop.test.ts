import { stopReading } from '@shaftwork/report/figures/after-stop';
import { viewOf } from '@shaftwork/report/page/report-view';
import { afterStopHeading, afterStopSection } from '@shaftwork/report/page/sections/after-stop';
import { jobsOf, planDoubtOf, withDoubt, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import { expect, test } from 'vitest';
import { demo } from '../demo.ts';
import { sampleResult } from './sample-result.ts';
import { withStudies } from './sample-studies.ts';

test('two moments are told each with its own figures: the reading after the stop, the winding when it was hottest', () => {
  const result = withStudies(sampleResult());
  const view = viewOf(result);
  const lead = result.candidates[1]!;
  const stop = { ...lead.afterStop!, hiddenPeak: { value: 348, time: 180 } };
  const reading = stopReading(lead, result)!;
  expect(reading.value).toBe(lead.afterStop!.readings.find(({ after }) => after === 60)!.can);
  expect(afterStopHeading(view, lead, stop, reading)).toMatch(
    /^One minute after the stop the can of Long reads \d+\u202f°C; its winding had been at 75\u202f°C, in “sprint turn”$/,
  );
});

test('the page says the band to be checked with a thermometer, and it holds the nominal reading', async () => {
  const prepared = demo('survey-boat');
  const plan = planDoubtOf(prepared, { samples: 16, seed: 1 });
  const rows = Float64Array.from(jobsOf(plan, 16).flatMap((job) => [...workDoubtOf(prepared, plan, job)]));
  const result = withDoubt(runScenario(prepared), plan, rows);
  for (const candidate of result.candidates) {
    const { value, band } = stopReading(candidate, result)!;
    const { p05, p95 } = band!;
    expect(p05).toBeLessThan(value);
    expect(p95).toBeGreaterThan(value);
    // The can is between the water and the hottest winding of any draw.
    expect(p05).toBeGreaterThan(273.15 + 10);
    expect(p95).toBeLessThan(candidate.headline.peakWindingTemperature.band!.p95);
  }
  const section = await afterStopSection(viewOf(result));
  const { p05, p95 } = stopReading(result.candidates.find(({ name }) => name === result.ranking[0])!, result)!.band!;
  expect(section!.body.html).toContain(`outside ${(p05 - 273.15).toFixed(0)} to ${(p95 - 273.15).toFixed(0)}\u202f°C means`);
});

test('which of the two, thermometer or winding, is held to the can is plain', async () => {
  const section = await afterStopSection(viewOf(withStudies(sampleResult())));
  expect(section!.body.html).toMatch(/the winding has \d+\u202f°C if the thermometer is held to the can/);
});
