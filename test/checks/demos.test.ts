/**
 * Believable bands and lessons of the demos (common practice, no published source), and locked headline figures. A locked figure that
 * moves is named in the commit under "Numbers move".
 */
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { RPM, ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import { simulate } from '@shaftwork/sim-core/studies/simulate';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';

const prepared = demo('survey-boat');
const result = runScenario(prepared);
const [wide, long, small] = result.candidates;

describe('survey boat: believable', () => {
  it.each(result.candidates.map((candidate) => [candidate.name, candidate] as const))('%s', (_, candidate) => {
    const { channels } = candidate.moment;
    // loaded speed 0.75–0.9 of Kv·V at full throttle: common practice
    const share = channels.shaftSpeed / (channels.busVoltage / candidate.facts.torqueConstant);
    expect(share).toBeGreaterThan(0.75);
    expect(share).toBeLessThan(0.93);
    // motor efficiency of small brushless machines near their best: common practice
    expect(channels.shaftPower / channels.inputPower).toBeGreaterThan(0.7);
    expect(channels.shaftPower / channels.inputPower).toBeLessThan(0.92);
    // input power per gram of motor below about 3 W/g continuous: common practice
    expect(channels.inputPower / (candidate.facts.mass * 1000)).toBeLessThan(3);
    expect(candidate.headline.peakWindingTemperature.nominal).toBeGreaterThan(candidate.headline.peakCanTemperature.nominal);
    // the survey line is cruised well below full throttle
    const cruise = candidate.trace.throttle[candidate.trace.time.findIndex((t) => t > 140)];
    expect(cruise).toBeGreaterThan(0.3);
    expect(cruise).toBeLessThan(0.65);
    // neither the screw's range nor the drag table is left
    expect(candidate.findings.filter((finding) => finding.kind.startsWith('outside'))).toEqual([]);
    expect(Math.abs(candidate.energy.residual)).toBeLessThan(1e-9);
    // losses that become heat = heat stored + heat given off (windage and gear heat go elsewhere; here there is none)
    const { terms, heatStored, heatShed } = candidate.energy;
    const heating =
      terms.batteryLoss +
      terms.controllerIdle +
      terms.controllerConduction +
      terms.controllerSwitching +
      terms.copperLoss +
      terms.ironLoss +
      terms.frictionLoss;
    expect(Math.abs(heating - heatStored - heatShed)).toBeLessThan(1e-4 * heating);
  });

  it('teaches that the lowest resistance does not win', () => {
    expect(result.ranking).toEqual(['Long', 'Wide', 'Small']);
    expect(wide.facts.resistance).toBeLessThan(long.facts.resistance);
    expect(small.feasible).toBe(false);
    expect(small.limits[0].id).toBe('windingTemperature');
  });

  it('keeps its locked figures', () => {
    const peak = (candidate: typeof wide): number => candidate.headline.peakWindingTemperature.nominal - ZERO_CELSIUS;
    expect(peak(wide)).toBeCloseTo(112.97, 1);
    expect(peak(long)).toBeCloseTo(88.17, 1);
    expect(peak(small)).toBeCloseTo(181.12, 1);
    expect(small.limits[0].passedAt).toBeCloseTo(578.72, 1);
    expect(wide.headline.chargeLeft.nominal).toBeCloseTo(0.594, 3);
    expect(wide.moment.channels.shaftSpeed / RPM).toBeCloseTo(8384, -1);
  });

  it('gives the same run by both integrators: 1e-3 K and 1e-6 of charge', () => {
    for (const { data } of prepared.candidates) {
      const system = realise(data);
      const a = simulate(system, prepared.scenario.profile, { method: 'odex', relative: 1e-9, record: false });
      const b = simulate(system, prepared.scenario.profile, { method: 'dormand-prince', relative: 1e-8, record: false });
      for (let k = 0; k < 6; k++) expect(Math.abs(a.state[k] - b.state[k])).toBeLessThan(1e-3);
      expect(Math.abs(a.state[6] - b.state[6])).toBeLessThan(1e-6);
    }
  });

  it('draws torque lines that meet the load where the solved crossings lie', () => {
    for (const { torqueSpeed } of result.candidates) {
      const { speed, lines, load, crossings } = torqueSpeed;
      for (const [k, crossing] of crossings.entries()) {
        const after = speed.findIndex((w) => w > crossing.speed);
        const share = (crossing.speed - speed[after - 1]) / (speed[after] - speed[after - 1]);
        const between = (y: readonly number[]): number => y[after - 1] + share * (y[after] - y[after - 1]);
        // the motor's line is nearly straight between points; the load bends by less than 1 % of the torque
        expect(Math.abs(between(lines[k].torque) - crossing.torque)).toBeLessThan(2e-3 * (1 + crossing.torque));
        expect(Math.abs(between(load) - crossing.torque)).toBeLessThan(1e-2 * crossing.torque + 1e-3);
      }
    }
  });

  it('every sentence of the verdict names figures of the result', () => {
    const text = result.verdict.join(' ').replace(/\s/g, ' ');
    expect(text).toContain(
      `${(wide.headline.peakWindingTemperature.nominal - long.headline.peakWindingTemperature.nominal).toFixed(0)} K cooler`,
    );
    expect(result.verdict[0]).toContain(result.ranking[0]);
    const kernel = createKernel();
    kernel.load(realise(prepared.candidates[0].data));
    expect(kernel.dimension).toBe(9);
  });
});
