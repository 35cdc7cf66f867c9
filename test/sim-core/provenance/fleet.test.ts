/** A fleet of identified motors: partial pooling against direct quadrature, and what it makes of a scenario's assumptions. */
import { readdirSync, readFileSync } from 'node:fs';
import { type FleetRatio, pooled } from '@shaftwork/sim-core/provenance/fleet';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { assumptionsOf } from '@shaftwork/sim-core/questions/run/assumptions';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { narrowedWords } from '@shaftwork/sim-core/words';
import { describe, expect, it } from 'vitest';
import { SMALLEST } from '../scenario/smallest-scenario.js';

const PRIOR = { common: 0.3, own: 0.15 };
const RATIOS: readonly FleetRatio[] = [
  { log: -0.31, error: 0.05 },
  { log: -0.12, error: 0.1 },
  { log: -0.4, error: 0.2 },
  { log: -0.2, error: 0.02 },
];

describe('partial pooling', () => {
  it('has the moments of the hierarchical normal model (Gelman et al., Bayesian Data Analysis, 3rd ed., section 5.4), by brute quadrature over mean and scatter', () => {
    let [mass, first, second, scatter] = [0, 0, 0, 0];
    for (let g = -4; g <= 4; g += 0.05) {
      const tau = PRIOR.own * Math.exp(0.5 * g);
      for (let mu = -1.5; mu <= 1.5; mu += 0.002) {
        const log = RATIOS.reduce(
          (sum, { log: x, error }) => sum - 0.5 * Math.log(tau * tau + error * error) - (0.5 * (x - mu) ** 2) / (tau * tau + error * error),
          -0.5 * g * g - 0.5 * (mu / PRIOR.common) ** 2,
        );
        const p = Math.exp(log);
        mass += p;
        first += p * mu;
        second += p * mu * mu;
        scatter += p * tau * tau;
      }
    }
    const mean = first / mass;
    const found = pooled(RATIOS, PRIOR);
    expect(found.shift).toBeCloseTo(mean, 4);
    expect(found.common).toBeCloseTo(Math.sqrt(second / mass - mean * mean), 4);
    expect(found.own).toBeCloseTo(Math.sqrt(scatter / mass), 4);
  });

  it('of no motors is what it was; one that is badly known says next to nothing; many that are well known say all', () => {
    expect(pooled([], PRIOR)).toEqual({ shift: 0, ...PRIOR });
    const vague = pooled([{ log: -0.3, error: 30 }], PRIOR);
    expect(Math.abs(vague.shift)).toBeLessThan(1e-4);
    expect(vague.common).toBeCloseTo(PRIOR.common, 4);
    const many = pooled(
      Array.from({ length: 400 }, (_, k) => ({ log: -0.3 + (k % 2 === 0 ? 0.05 : -0.05), error: 0.001 })),
      PRIOR,
    );
    expect(many.shift).toBeCloseTo(-0.3, 2);
    expect(many.own).toBeCloseTo(0.05, 2);
    expect(many.common).toBeLessThan(0.005);
  });
});

const FOLDER = new URL('../../../scenarios/known-motors/', import.meta.url);
const known = {
  folder: 'known-motors',
  files: readdirSync(FOLDER)
    .sort()
    .map((name) => ({ path: `known-motors/${name}`, text: readFileSync(new URL(name, FOLDER), 'utf8') })),
};
const prepared = (text: string, folder?: typeof known): PreparedScenario => {
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml', undefined, folder);
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};

describe('a folder of identified motors', () => {
  const [plain, learnt] = [prepared(SMALLEST), prepared(SMALLEST, known)];
  const motorOf = ({ candidates }: PreparedScenario) => realise(candidates[0].data).motor;

  it('moves label Kv, sheet resistance and the path from the winding towards what those motors had, and says from how many', () => {
    // they turn 3 to 6 % slower than their labels say and have 10 to 23 % more resistance
    expect(motorOf(learnt).torqueConstant / motorOf(plain).torqueConstant).toBeGreaterThan(1.02);
    expect(motorOf(learnt).torqueConstant / motorOf(plain).torqueConstant).toBeLessThan(1.06);
    expect(motorOf(learnt).resistance / motorOf(plain).resistance).toBeGreaterThan(1.05);
    expect(motorOf(learnt).resistance / motorOf(plain).resistance).toBeLessThan(1.2);
    const told = assumptionsOf(learnt.candidates).flatMap((each) =>
      each.kind === 'choice' ? [] : [[each.origin, narrowedWords(each)] as const],
    );
    for (const origin of ['motor.kv', 'motor.resistance', 'outrunner-slot-contact'])
      expect(told.find(([key]) => key === origin)?.[1]).toMatch(/3 identified motors of known-motors \([0-9a-f]{8}\)/);
  });

  it('leaves what was written with a ± as it was written, and with no folder every number', () => {
    const sure = SMALLEST.replace('kv: 920 rpm/V', 'kv: 920 rpm/V ± 1 %');
    expect(motorOf(prepared(sure, known)).torqueConstant).toBe(motorOf(prepared(sure)).torqueConstant);
    expect(plain.hash).not.toBe(learnt.hash);
    expect(assumptionsOf(plain.candidates).some((each) => each.kind !== 'choice' && each.narrowed !== undefined)).toBe(false);
  });

  it('tells what is wrong with a part', () => {
    const wrong = { ...known, files: [{ path: 'known-motors/x.yaml', text: 'part: motor\nkv: 900\n' }] };
    expect(prepareScenario(new Map([['a.yaml', SMALLEST]]), 'a.yaml', undefined, wrong)).toMatchObject({
      kind: 'problems',
      problems: [{ kind: 'bare-number', place: { file: 'known-motors/x.yaml', line: 2 } }],
    });
  });
});
