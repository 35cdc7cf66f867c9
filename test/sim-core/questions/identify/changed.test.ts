/** What changed between two benches that were made: told where it is outside the intervals, and nothing where nothing did. @module */
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { changedMotor, changedPack } from '@shaftwork/sim-core/questions/identify/changed';
import { INSTRUMENTS } from '@shaftwork/sim-core/questions/identify/instruments';
import { USUAL_PATH } from '@shaftwork/sim-core/questions/identify/motor-model';
import { describe, expect, it } from 'vitest';
import { FULL_THROTTLE, MADE, SETUP } from '../../../identify/coverage.js';
import { madeBench, type TrueMotor } from '../../../identify/made-bench.js';
import { candidateOf, dischargeText } from '../../../identify/make-logs.js';

const bench = (motor: TrueMotor, seed: number) => ({
  // the same instruments both times: gains of one seed
  rows: madeBench(motor, FULL_THROTTLE, seed, { gainsOf: 7 }),
  setup: SETUP,
  sources: ['bench.csv'],
  taken: [],
  path: USUAL_PATH,
});
const benched = (motor: Partial<TrueMotor>, seed = 2) => changedMotor(bench(MADE, 1), bench({ ...MADE, ...motor }, seed));

describe('a motor', () => {
  it.each([
    ['flux-lost', { kt: 0.94 * MADE.kt }],
    ['bad-joint', { resistance: 1.3 * MADE.resistance }],
    [
      'shorted-turn',
      { resistance: 0.75 * MADE.resistance, kt: 0.96 * MADE.kt, constantLoss: 1.8 * MADE.constantLoss, inductance: 0.75 * MADE.inductance },
    ],
    ['more-friction', { constantLoss: 1.6 * MADE.constantLoss }],
  ] as const)('with %s', (finding, motor) => {
    const { findings, settled } = benched(motor);
    expect(settled).toBe(true);
    expect(findings).toContain(finding);
  });

  it('that is the same shows nothing in most benches', { timeout: 60_000 }, () => {
    let outside = 0;
    let all = 0;
    for (let seed = 2; seed < 10; seed++) {
      const { numbers } = benched({}, seed);
      outside += numbers.filter((each) => each.outside).length;
      all += numbers.length;
    }
    expect(outside / all).toBeLessThan(0.12);
  });
});

it('a pack that has aged', () => {
  const { data } = candidateOf('survey-boat.yaml');
  const { battery, start } = realise(data);
  const discharge = (seed: number, factors: Parameters<typeof dischargeText>[1]) => {
    const lines = dischargeText(seed, factors)
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => line.split(',').map(Number));
    const column = (k: number) => Float64Array.from(lines, (line) => line[k]);
    return {
      rows: { time: column(0), voltage: column(1), current: column(2), temperature: column(0).fill(Number.NaN) },
      setup: { battery, charge: start.charge, temperature: start.cellTemperature, instruments: INSTRUMENTS },
      sources: ['d.csv'],
      taken: [],
    };
  };
  const before = discharge(1, { capacity: 1, resistance: 1, slow: 1 });
  expect(changedPack(before, discharge(2, { capacity: 0.85, resistance: 1.6, slow: 1.3 })).findings).toEqual(['aged-pack']);
  expect(changedPack(before, discharge(1, { capacity: 1, resistance: 1, slow: 1 })).findings).toEqual(['nothing']);
});
