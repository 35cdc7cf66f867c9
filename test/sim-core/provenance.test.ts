import { complete } from '@shaftwork/sim-core/provenance/complete/complete';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { assumedNumbers } from '@shaftwork/sim-core/questions/run/assumptions';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';
import { SMALLEST } from './scenario/smallest-scenario.js';

const prepared = demo('survey-boat');
const [wide, long] = prepared.candidates;

describe('provenance', () => {
  it('realises every nominal value as it stands', () => {
    const system = realise(wide.data);
    expect(system.motor.torqueConstant).toBe(wide.data.motor.torqueConstant.value);
    expect(system.battery.cellResistance).toBeCloseTo(2.6e-3, 12);
  });

  it('gives data of one line one unknown, and private data their own', () => {
    expect(wide.data.battery.capacity.unknown.key).toBe(long.data.battery.capacity.unknown.key);
    expect(wide.data.motor.resistance.unknown.key).not.toBe(long.data.motor.resistance.unknown.key);
    expect(wide.data.heat.convectionFactor.unknown.key).toBe(long.data.heat.convectionFactor.unknown.key);
    expect(wide.data.heat.convectionFactor.own?.key).not.toBe(long.data.heat.convectionFactor.own?.key);
  });

  it('doubling a tolerance changes the assumption list and a one-at-a-time run', () => {
    const factor = wide.data.heat.emissivity;
    const doubled = {
      ...factor,
      unknown: { ...factor.unknown, spread: { shape: 'normal' as const, sd: 2 * (factor.unknown.spread as { sd: number }).sd } },
    };
    const changed = { ...wide.data, heat: { ...wide.data.heat, emissivity: doubled } };
    const line = (data: object) => assumedNumbers([{ name: 'Wide', data }]).find((each) => each.origin === 'can-emissivity')!;
    expect(line(changed).high - line(changed).low).toBeCloseTo(2 * (line(wide.data).high - line(wide.data).low), 9);
    const peak = (data: typeof wide.data) => {
      const system = realise(data, (key) => (key === factor.unknown.key ? 1 : 0));
      return simulate(system, prepared.scenario.profile.slice(0, 4), { method: 'dormand-prince' }).highest.windingTemperature.value;
    };
    expect(Math.abs(peak(changed) - peak(wide.data))).toBeGreaterThan(1e-5);
  });

  it('a resistance tolerance of the pack moves the run', () => {
    const run = (z: number) => {
      const system = realise(wide.data, (key) => (key === wide.data.battery.cellResistance.unknown.key ? z : 0));
      return simulate(system, prepared.scenario.profile.slice(0, 4), { method: 'dormand-prince', record: false }).state[5];
    };
    // the cells' own loss
    expect(run(2)).toBeGreaterThan(run(0));
  });

  it('asks what slows a vehicle with a propeller, for without it nothing ever would', () => {
    const text = (vehicle: string) => new Map([['a.yaml', `${SMALLEST}vehicle: ${vehicle}\n`]]);
    const bare = prepareScenario(text('{ mass: 1.75 kg }'), 'a.yaml');
    expect(bare).toMatchObject({ kind: 'problems', problems: [{ kind: 'missing-datum', place: { path: 'vehicle.drag', line: 8 } }] });
    expect(JSON.stringify(bare)).toMatch(/a hover has no vehicle/);
    expect(prepareScenario(text('{ mass: 1.75 kg, drag_area: 0.02 m2 }'), 'a.yaml')).toMatchObject({ kind: 'ready' });
  });

  it('tells everything that is missing at once', () => {
    const completion = complete('bare', { place: { file: 'x.yaml', line: 1, column: 1, path: 'candidates[0]' } });
    expect(completion.ok).toBe(false);
    if (!completion.ok) {
      const expected = completion.problems.map((problem) => problem.expected);
      for (const key of ['kv', 'mass', 'can.diameter', 'capacity', 'layout', 'a propeller or a wheel']) expect(expected).toContain(key);
    }
  });
});
