import { looksOf } from '@shaftwork/report/drawing/palette';
import type { Panel } from '@shaftwork/report/drawing/panel';
import { torqueSpeedDrawing } from '@shaftwork/report/figures/torque-speed';
import type { CandidateResult, RunResult } from '@shaftwork/sim-core';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import { expect, test } from 'vitest';
import { demo } from '../demo.ts';
import { sampleResult } from './sample-result.ts';

const panelsOf = (result: RunResult): readonly Panel[] =>
  torqueSpeedDrawing(result, looksOf(result.candidates), 'wide').parts.map(({ spec }) => ('panel' in spec ? spec.panel : undefined)!);
const rowsOf = (panel: Panel, mark: string) => panel.layers.filter((layer) => layer.mark === mark).flatMap(({ rows }) => rows);
const withChart = (change: (chart: CandidateResult['torqueSpeed']) => Partial<CandidateResult['torqueSpeed']>): RunResult => {
  const result = sampleResult();
  return {
    ...result,
    candidates: result.candidates.map((candidate) => ({
      ...candidate,
      torqueSpeed: { ...candidate.torqueSpeed, ...change(candidate.torqueSpeed) },
    })),
  };
};

test('what the pack forbids reaches over a current limit to the axis: a region, no wedge', () => {
  const limited = withChart(({ lines }) => ({
    lines: lines.map((line) => ({ ...line, torque: line.torque.map((t) => Math.min(t, 0.3)) })),
  }));
  for (const panel of panelsOf(limited)) {
    const { x, y } = panel.frame;
    const region = rowsOf(panel, 'shapes');
    expect(region).toContainEqual({ x: x.domain[0], y: y.domain[1] });
    expect(region).toContainEqual({ x: x.domain[1], y: y.domain[1] });
  }
});

test('a dot outside the frame is not drawn, and braking torque has room', () => {
  const odd = withChart(({ crossings }) => ({
    crossings: [{ ...crossings[0]!, torque: -0.2 }, { ...crossings[1]!, speed: 1e5, torque: -0.05 }, crossings[3]!],
  }));
  for (const panel of panelsOf(odd)) {
    const { x, y } = panel.frame;
    expect(y.domain[0]).toBeLessThanOrEqual(-0.2);
    for (const dot of rowsOf(panel, 'dots')) {
      expect(Number(dot['x'])).toBeLessThanOrEqual(x.domain[1]);
      expect(Number(dot['y'])).toBeGreaterThanOrEqual(y.domain[0]);
    }
  }
});

test('a drive that nothing turns is drawn over the speeds that were looked at', () => {
  const still = withChart(({ lines, crossings, speed }) => ({
    lines: lines.map((line) => ({ ...line, torque: line.torque.map((_, k) => (speed[k]! > 0 ? -1e-3 : 2e-5)) })),
    crossings: crossings.map((crossing) => ({ ...crossing, speed: 0, torque: 0 })),
  }));
  const fastest = Math.max(...still.candidates.map(({ torqueSpeed }) => (torqueSpeed.speed.at(-1)! * 60) / (2 * Math.PI)));
  for (const { frame } of panelsOf(still)) expect(frame.x.domain[1] / fastest).toBeGreaterThan(1);
});

test('on wheels the one dot is what was driven, on the line of its throttle', () => {
  const result = runScenario(demo('grass-car'));
  for (const { torqueSpeed, moment } of result.candidates) {
    expect(torqueSpeed.crossings).toHaveLength(1);
    const [driven] = torqueSpeed.crossings;
    expect(driven!.throttle).toBeCloseTo(moment.channels.throttle, 2);
    expect(driven!.speed / moment.channels.shaftSpeed).toBeCloseTo(1, 6);
    const line = torqueSpeed.lines.find(({ throttle }) => throttle === driven!.throttle)!;
    const after = torqueSpeed.speed.findIndex((speed) => speed >= driven!.speed);
    const [low, high] = [torqueSpeed.speed[after - 1]!, torqueSpeed.speed[after]!];
    const share = (driven!.speed - low) / (high - low);
    const onLine = line.torque[after - 1]! * (1 - share) + line.torque[after]! * share;
    expect(driven!.torque).toBeCloseTo(onLine, 3);
  }
});

test('geared and ungeared motors stand at one shaft: the loads they meet there are alike', () => {
  const result = runScenario(demo('burst-glider'));
  const [most, least] = [Math.max, Math.min].map((of) =>
    of(...panelsOf(result).map((panel) => Math.max(...rowsOf(panel, 'dots').map((dot) => Number(dot['x']))))),
  );
  expect(new Set(result.candidates.map(({ facts }) => facts.gearRatio)).size).toBeGreaterThan(1);
  expect(most! / least!).toBeLessThan(1.2);
});
