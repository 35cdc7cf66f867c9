import { viewOf } from '@shaftwork/report/page/report-view';
import { findingsSection } from '@shaftwork/report/page/sections/closing';
import { marginsHeading } from '@shaftwork/report/page/sections/margins';
import { powerHeading } from '@shaftwork/report/page/sections/power';
import { profileHeading } from '@shaftwork/report/page/sections/profile';
import { sideBySideHeading } from '@shaftwork/report/page/sections/side-by-side';
import { temperatureHeading } from '@shaftwork/report/page/sections/temperature';
import { tippingSection } from '@shaftwork/report/page/sections/tipping';
import { torqueSpeedHeading } from '@shaftwork/report/page/sections/torque-speed';
import type { CostlyNumber, RunResult } from '@shaftwork/sim-core';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { printed } from '@shaftwork/sim-core/words/printing';
import { expect, test } from 'vitest';
import { sampleResult } from './sample-result.ts';

/** The sample with other peaks of the winding [°C] against a limit of 130 °C. */
function withPeaks(...peaks: readonly number[]): RunResult {
  const names = peaks.map((_, index) => String.fromCharCode(65 + index));
  const result = sampleResult({ names });
  const candidates = result.candidates.map((candidate, index) => {
    const peak = peaks[index]! + ZERO_CELSIUS;
    const bound = 130 + ZERO_CELSIUS;
    const past = peak > bound;
    const limits = candidate.limits.map((limit) => {
      if (limit.id !== 'windingTemperature') return limit;
      const { passed: _, ...rest } = limit;
      return { ...rest, worst: peak, margin: bound - peak, ...(past ? { passed: { at: 500 } } : {}) };
    });
    return {
      ...candidate,
      feasible: !past,
      limits,
      headline: { ...candidate.headline, peakWindingTemperature: { dimension: 'temperature' as const, nominal: peak } },
    };
  });
  const order = [...candidates].sort((a, b) => a.headline.peakWindingTemperature.nominal - b.headline.peakWindingTemperature.nominal);
  return { ...result, candidates, ranking: order.map(({ name }) => name) };
}

test.each([
  [[99], 'The winding peaks at 99\u202f°C, 31\u202fK below its limit'],
  [[131.2], 'The winding peaks at 131\u202f°C, 1\u202fK past its limit'],
  [[130.3], 'The winding peaks at 130.3\u202f°C, 0.3\u202fK past its limit'],
  [[119, 129.8], 'A peaks 11\u202fK below the limit and B 0.2\u202fK'],
  [[127, 99], 'B peaks 31\u202fK below the limit and A 3\u202fK'],
  [[127, 99, 204], 'B peaks 31\u202fK below the limit, A 3\u202fK, and C passes it by 74\u202fK'],
  [[140, 150], 'All pass the limit of the winding: A by 10\u202fK and B by 20\u202fK'],
  [[99, 100, 101, 204], 'A peaks 31\u202fK below its limit; 1 of the 4 passes its own'],
  [[99, 100, 101, 102], 'A peaks 31\u202fK below its limit; none of the 4 passes it'],
])('peaks of %j °C', (peaks, heading) => {
  expect(temperatureHeading(viewOf(withPeaks(...peaks)))).toBe(heading);
});

test('a margin is the difference of what is printed', () => {
  expect(temperatureHeading(viewOf(withPeaks(98.5)))).toContain(
    `${130 - printed(98.5 + ZERO_CELSIUS, { dimension: 'temperature', unit: '°C', decimals: 0 })}\u202fK below`,
  );
});

test('headings of the sample say its numbers', () => {
  const result = sampleResult();
  const view = viewOf(result);
  const long = result.candidates[1]!;
  expect(result.ranking[0]).toBe('Long');
  expect(sideBySideHeading(view)).toMatch(/^Against Wide, Long runs \d+\u202fK cooler and 0\.\d\d\u202fm\/s slower$/);
  const top = long.torqueSpeed.crossings.at(-1)!;
  expect(torqueSpeedHeading(view)).toBe(
    `At 100\u202f% throttle Long turns the load at ${Number(printed(top.speed, { dimension: 'angularSpeed', unit: 'rpm', decimals: 0 }).toPrecision(3))}\u202frpm with ${top.torque.toFixed(2)}\u202fN·m, ${(top.efficiency * 100).toFixed(0)}\u202f% efficient`,
  );
  const { power } = long.moment;
  expect(powerHeading(view)).toBe(
    `Of 100\u202fW from the cells, ${((power.useful / power.batteryChemical) * 100).toFixed(0)}\u202fW move the vehicle; the largest loss is ${((power.propellerLoss / power.batteryChemical) * 100).toFixed(0)}\u202fW (propeller)`,
  );
  expect(profileHeading(view)).toContain('“home before the squall” sets');
  expect(marginsHeading(view)).toMatch(/^For Long the .+ binds first, with .+ left; Small passes one$/);
  expect(findingsSection(view).heading).toBe('One limit is passed, and one more thing to know');
});

test('without a vehicle nothing is said of its speed', () => {
  const view = viewOf(sampleResult({ vehicle: false }));
  expect(sideBySideHeading(view)).not.toMatch(/fast|slow|m\/s/);
  expect(powerHeading(view)).toContain('nothing moves a vehicle');
});

test('the greatest current of the heading is that of the table, where no sample of the trace met it', () => {
  const result = sampleResult();
  const candidates = result.candidates.map((candidate) => ({
    ...candidate,
    limits: candidate.limits.map((limit) => (limit.id === 'motorCurrent' ? { ...limit, worst: 31.4, worstTime: 180 } : limit)),
    headline: { ...candidate.headline, peakMotorCurrent: { dimension: 'current' as const, nominal: 31.4 } },
  }));
  const heading = profileHeading(viewOf({ ...result, candidates }));
  expect(heading).toContain('31.4\u202fA');
  expect(heading).toContain('“sprint turn” sets the greatest motor current of Long, 31.4');
});

test('a current that leaps up between two steps belongs to the later one', () => {
  const result = sampleResult();
  const [first, second] = result.scenario.steps;
  const candidates = result.candidates.map((candidate) => {
    const { time, motorCurrent } = candidate.trace;
    const leap = time.findIndex((t) => t >= first!.to);
    const trace = { ...candidate.trace, time: [...time], motorCurrent: [...motorCurrent] };
    trace.time.splice(leap, 1, first!.to, first!.to);
    trace.motorCurrent.splice(leap, 1, 18, 99);
    const limits = candidate.limits.map((limit) => (limit.id === 'motorCurrent' ? { ...limit, worst: 99, worstTime: first!.to } : limit));
    return { ...candidate, trace, limits };
  });
  expect(profileHeading(viewOf({ ...result, candidates }))).toContain(`“${second!.label}” sets the greatest motor current`);
});

test('what one number alone would change is told, wherever in the list it stands', () => {
  const result = sampleResult();
  const number = { subject: 'motor.kv', words: 'Kv', candidates: ['Long'], standing: 'doubtful', dimension: 'speedConstant' } as const;
  const size = { value: 230, low: 211, high: 251, cost: 1, effects: [] };
  const lacking = { ...number, ...size, words: 'no-load current', lacksOnSheet: true as const, tips: [] };
  const tipping = { ...number, ...size, tips: [{ kind: 'leads' as const, candidate: 'Wide', at: 237 }] };
  const heading = (numbers: readonly CostlyNumber[]) =>
    tippingSection(viewOf({ ...result, costly: { numbers, all: [], ranking: result.ranking, leading: [], simulations: 0 } }))!.heading;
  expect(heading([lacking, tipping])).toMatch(/^The Kv of Long alone would change the answer: above .+ Wide leads$/);
  expect(heading([lacking])).toBe('No single number, within its interval, changes the choice');
});

test('where the vehicle holds the speed, what was driven is told and no crossing that nobody drove', () => {
  const result = sampleResult();
  const candidates = result.candidates.map((candidate) => ({
    ...candidate,
    torqueSpeed: { ...candidate.torqueSpeed, held: true, crossings: candidate.torqueSpeed.crossings.slice(1, 2) },
  }));
  expect(torqueSpeedHeading(viewOf({ ...result, candidates }))).toMatch(
    /^At its hardest moment \(home before the squall, 60\u202f% throttle\) the motor of Long turns at /,
  );
});
