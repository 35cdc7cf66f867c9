import { planDoubtOf, withDoubt, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { SMALLEST } from '../../scenario/smallest-scenario.js';

const WATT_HOUR = 3600;

function prepared(limits: string, seconds = 180) {
  const text = SMALLEST.replace('profile:', `limits: { ${limits} }\nprofile:`).replace('for: 3 min', `for: ${seconds} s`);
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
  return preparation.prepared;
}
const limitOf = (scenario: ReturnType<typeof prepared>, id: string) => {
  const [candidate] = runScenario(scenario).candidates;
  return { candidate, limit: candidate.limits.find((each) => each.id === id) };
};

describe('caps on energy and least running time', () => {
  it('holds the energy from the pack to its cap, passed when that much is out', () => {
    const { candidate, limit } = limitOf(prepared('energy: 2 Wh'), 'batteryEnergy');
    expect(limit!.bound).toBeCloseTo(2 * WATT_HOUR, 6);
    // two ways to the same energy: the pack's terminals, and the cells' chemistry less what they lose and hold
    expect(Math.abs(limit!.worst / candidate.headline.energy.nominal - 1)).toBeLessThan(1e-6);
    expect(limit!.margin).toBeLessThan(0);
    expect(candidate.feasible).toBe(false);
    const until = limitOf(prepared('energy: 2 Wh', limit!.passed?.at), 'batteryEnergy');
    expect(Math.abs(until.limit!.worst / limit!.bound - 1)).toBeLessThan(1e-3);
    expect(limitOf(prepared('energy: 20 Wh'), 'batteryEnergy').candidate.feasible).toBe(true);
  });

  it('asks the profile, driven again and again, to last', () => {
    const { candidate, limit } = limitOf(prepared('run_time: 5 min'), 'runTime');
    expect(limit!.worst).toBe(candidate.headline.timeToCutoff!.nominal);
    expect(candidate.feasible).toBe(limit!.worst >= 300);
    const short = limitOf(prepared('run_time: 5 h'), 'runTime');
    expect(short.candidate.feasible).toBe(false);
    expect(short.limit!.margin).toBeCloseTo(short.limit!.worst - 5 * WATT_HOUR, 6);
  });

  it('samples both', () => {
    const scenario = prepared('energy: 1 Wh, run_time: 5 h');
    const plan = planDoubtOf(scenario, { samples: 16, seed: 1 });
    const { doubt } = withDoubt(runScenario(scenario), plan, workDoubtOf(scenario, plan, { from: 0, to: 16 }));
    const chances = new Map(doubt!.candidates[0].limits.map(({ id, passed }) => [id, passed.probability]));
    expect(chances.get('batteryEnergy')).toBe(1);
    expect(chances.get('runTime')).toBe(1);
  });
});
