import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { planDoubtOf, withDoubt, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import { deviatesOf, MODEL_ERROR, modelFactor, sampleOf } from '@shaftwork/sim-core/questions/doubt/plan';
import { ENDS, ROW_FIGURES, rowIndex, rowLength } from '@shaftwork/sim-core/questions/doubt/sample';
import { type PreparedScenario, prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { quantile } from '../../../quantile.js';

function prepared(text: string): PreparedScenario {
  const preparation = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
}

/** A pack that idles for an hour: charge used = current · time / capacity, in closed form. */
const IDLING = `title: idle
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah ± 20 %, cell_resistance: 5 mohm, cell_cutoff: 3.0 V }
controller: { idle_current: 0.8 A ± 30 % }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 1 h, throttle: 0 % }]
candidates:
  - name: One
    motor: &m { layout: outrunner, kv: 920 rpm/V ± 5 %, resistance: 96 mohm ± 10 %, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`;

/** Two motors that differ in one line only, in a short burst. */
const BURST = `title: burst
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 40 s, throttle: 80 % }, { for: 20 s, throttle: 0 % }]
candidates:
  - name: One
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm ± 15 %, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
  - name: Two
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: 99 mohm ± 15 %, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`;

/** A boat whose draws pass limits of motor and controller in ramps, at places that rounding decides; its sheets are exact; what heat paths are estimated from is not, and a few draws burn, which is an end as told as any. None fails. */
const RAMPS = `title: ramps
battery: { chemistry: lithium-polymer, cells: { series: 4 }, capacity: 5000 mAh, discharge_rating: 45 C }
controller: { motor_current_limit: 80 A }
propeller: { kind: marine-series, diameter: 42 mm, pitch_ratio: 1.3, blades: 3, area_ratio: 0.55, shaft_efficiency: 90 % }
vehicle: { mass: 3.2 kg, drag: [{ speed: 2 m/s, force: 4.2 N }, { speed: 5 m/s, force: 16 N }, { speed: 10 m/s, force: 40 N }] }
profile: [{ repeat: 6, steps: [{ for: 4 s, throttle: 20 to 100 % }, { for: 14 s, throttle: 100 % }, { for: 37 s, throttle: 55 % }, { for: 15 s, throttle: 20 % }] }]
candidates:
  - name: One
    motor: { layout: inrunner, kv: 1100 rpm/V ± 0 %, resistance: 22 mohm ± 0 %, no_load: { current: 2.1 A ± 0 %, voltage: 12 V }, mass: 225 g, poles: 4, can: { diameter: 36 mm, length: 60 mm }, maker_limits: { current: 65 A, input_power: 1000 W } }
  - name: Two
    motor: { layout: inrunner, kv: 1300 rpm/V ± 0 %, resistance: 48 mohm ± 0 %, no_load: { current: 1.5 A ± 0 %, voltage: 11.1 V }, mass: 120 g, poles: 4, can: { diameter: 28 mm, length: 50 mm }, maker_limits: { current: 40 A, input_power: 500 W } }
`;

describe('doubt', () => {
  it('comes to the end of every draw, wherever its limits are passed', () => {
    const scenario = prepared(RAMPS);
    for (const seed of [1, 2, 3]) {
      const plan = planDoubtOf(scenario, { samples: 64, seed });
      const rows = workDoubtOf(scenario, plan, { from: 0, to: 64 });
      for (let row = 0; row < 128; row++) expect(['finished', 'burnt']).toContain(ENDS[rows[row * rowLength(plan) + rowIndex('end')]]);
    }
  });

  it('propagates in closed form where one exists: log-normal current over log-normal capacity', () => {
    const scenario = prepared(IDLING);
    const plan = planDoubtOf(scenario, { samples: 4096, seed: 4 });
    const rows = workDoubtOf(scenario, plan, { from: 0, to: 4096 });
    const { doubt, candidates } = withDoubt(runScenario(scenario), plan, rows);
    const sigma = Math.hypot(Math.log(1.2), Math.log(1.3)) / 1.959963984540054;
    const used = 0.8 / 2.2;
    const { band, nominal } = candidates[0].headline.chargeLeft;
    expect(nominal).toBeCloseTo(1 - used, 6);
    // a quantile of 4096 points, of which high axes are as good as random: standard error about 0.001 here
    expect(band!.p95).toBeCloseTo(1 - used * Math.exp(-inverseNormal(0.95) * sigma), 2);
    expect(band!.p05).toBeCloseTo(1 - used * Math.exp(inverseNormal(0.95) * sigma), 2);
    // and its variance falls to the two in proportion of their squared sigmas: first order, nearly linear
    const [first, second] = doubt!.candidates[0].sensitivities.find(({ words }) => words === 'charge left')!.shares;
    expect(first.words).toBe('controller idle current');
    expect(first.share).toBeCloseTo(Math.log(1.3) ** 2 / (Math.log(1.2) ** 2 + Math.log(1.3) ** 2), 1);
    expect(first.share + second.share).toBeGreaterThan(0.95);
  });

  it('gives the same rows however the samples are shared out, and others for another seed', () => {
    const scenario = prepared(BURST);
    const plan = planDoubtOf(scenario, { samples: 32, seed: 9 });
    const whole = workDoubtOf(scenario, plan, { from: 0, to: 32 });
    const again = planDoubtOf(prepared(BURST), { samples: 32, seed: 9 });
    const parts = [
      [20, 32],
      [0, 7],
      [7, 20],
    ].map(([from, to]) => [from, workDoubtOf(scenario, again, { from, to })] as const);
    parts.sort(([a], [b]) => a - b);
    expect(parts.flatMap(([, rows]) => [...rows])).toEqual([...whole]);
    const other = planDoubtOf(scenario, { samples: 32, seed: 10 });
    expect(workDoubtOf(scenario, other, { from: 0, to: 1 })).not.toEqual(whole.slice(0, 2 * rowLength(plan)));
  });

  it('draws what stands on one line together and what stands on two apart', () => {
    const scenario = prepared(BURST);
    const plan = planDoubtOf(scenario, { samples: 512, seed: 2 });
    const resistances = plan.unknowns.filter(({ subject }) => subject === 'motor.resistance');
    expect(resistances.map(({ candidates }) => candidates)).toEqual([['One'], ['Two']]);
    expect(plan.unknowns.find(({ key }) => key === 'rule:convection-error')!.candidates).toEqual(['One', 'Two']);
    expect(plan.unknowns.find(({ key }) => key === 'rule:convection-error@Two')!.candidates).toEqual(['Two']);
    // independent unknowns: correlation of 512 points within three standard errors
    const z = Array.from({ length: 512 }, (_, i) => deviatesOf(plan, i));
    const [a, b] = resistances.map(({ key }) => z.map((each) => each.get(key)!));
    const product = a.reduce((sum, value, i) => sum + value * b[i], 0) / 512;
    expect(Math.abs(product)).toBeLessThan(3 / Math.sqrt(512));
  });

  it('says that near twins cannot be told apart, and why: their own data, not what they share', () => {
    const scenario = prepared(BURST);
    const plan = planDoubtOf(scenario, { samples: 128, seed: 1 });
    const { doubt, candidates } = withDoubt(runScenario(scenario), plan, workDoubtOf(scenario, plan, { from: 0, to: 128 }));
    for (const figure of ['peakThrust', 'topShaftSpeed', 'peakBatteryPower'] as const) {
      const { band, nominal } = candidates[0].headline[figure];
      expect(band!.p05).toBeLessThan(nominal);
      expect(band!.p95).toBeGreaterThan(nominal);
    }
    // at a held throttle the speed moves with Kv, ± 9 %, less what the load gives way
    const { p05, p95 } = candidates[0].headline.topShaftSpeed.band!;
    expect(p95 / p05).toBeLessThan(1.09 ** 2);
    expect(p95 / p05).toBeGreaterThan(1.05);
    const [comparison] = doubt!.comparisons;
    expect(comparison.distinguishable).toBe(false);
    expect(comparison.wins.probability).toBeGreaterThan(0.5);
    const figure = doubt!.candidates[0].sensitivities[0];
    const difference = doubt!.leaders!.sensitivity;
    const common = (shares: typeof difference.shares): number =>
      shares.filter(({ candidates }) => candidates.length === 0).reduce((sum, { share }) => sum + share, 0);
    // the slot contact's common error dominates each figure and nearly cancels in the difference
    expect(common(figure.shares)).toBeGreaterThan(0.6);
    expect(common(difference.shares)).toBeLessThan(0.3);
    // a label's Kv, ± 9 %, counts for more than a resistance, which at a held throttle lowers the current that it heats with
    expect(difference.shares.map(({ words }) => words)).toContain('Kv');
    expect(difference.standardDeviation).toBeLessThan(figure.standardDeviation);
  });

  it('spreads bands less and less with the number of samples: convergence on doubling', () => {
    const scenario = prepared(BURST.slice(0, BURST.indexOf('  - name: Two')));
    const SEEDS = 10;
    const spread = (samples: number): number => {
      // scatter of the upper edge of the band over seeds
      const edges = Array.from({ length: SEEDS }, (_, seed) => {
        const plan = planDoubtOf(scenario, { samples, seed });
        const rows = workDoubtOf(scenario, plan, { from: 0, to: samples });
        const peaks = Array.from({ length: samples }, (_, i) => rows[i * rowLength(plan) + rowIndex('windingTemperature')]);
        return quantile(peaks, 0.95);
      });
      const mean = edges.reduce((sum, edge) => sum + edge / SEEDS, 0);
      return Math.sqrt(edges.reduce((sum, edge) => sum + (edge - mean) ** 2 / (SEEDS - 1), 0));
    };
    // 32-fold samples: plain sampling gives 1/√32 = 0.18. Sixteen points scatter less than they should, since their upper edge is nearly their highest one,
    // and ten seeds tell a scatter to a quarter
    expect(spread(512)).toBeLessThan(0.5 * spread(16));
  });

  it('states the model error: 95 % within 10 % of the rise, four fifths of the variance common', () => {
    const scenario = prepared(BURST);
    const plan = planDoubtOf(scenario, { samples: 256, seed: 3 });
    const drawn = (name: string): number[] =>
      Array.from({ length: 256 }, (_, i) => {
        const deviates = deviatesOf(plan, i);
        return modelFactor((key) => deviates.get(key) ?? Number.NaN, name);
      });
    const [rises, others] = [drawn('One'), drawn('Two')];
    expect(quantile(rises, 0.975) - quantile(rises, 0.025)).toBeCloseTo(2 * MODEL_ERROR.halfWidth, 1);
    // most of it is common: correlation 0.8 between candidates, give or take (1 − 0.8²)/√256
    const [mean, other] = [rises, others].map((each) => each.reduce((sum, x) => sum + x / 256, 0));
    const moment = (a: number[], ma: number, b: number[], mb: number): number => a.reduce((sum, x, i) => sum + (x - ma) * (b[i] - mb), 0);
    const correlation =
      moment(rises, mean, others, other) / Math.sqrt(moment(rises, mean, rises, mean) * moment(others, other, others, other));
    expect(Math.abs(correlation - 0.8)).toBeLessThan(0.07);
  });

  it('refuses too few samples, and rows that are not the plan’s', () => {
    const scenario = prepared(BURST);
    expect(() => planDoubtOf(scenario, { samples: 8, seed: 1 })).toThrow(/16 times/);
    expect(() => planDoubtOf(scenario, { samples: 32, seed: -1 })).toThrow(RangeError);
    const plan = planDoubtOf(scenario, { samples: 32, seed: 1 });
    expect(() => withDoubt(runScenario(scenario), plan, new Float64Array(3))).toThrow(RangeError);
    expect(sampleOf(plan, 5).every((u) => u > 0 && u < 1)).toBe(true);
    expect(ROW_FIGURES.length).toBeLessThan(rowLength(plan));
  });
});
