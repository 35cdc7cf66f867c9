import type { ThermometerPlaceId } from '@shaftwork/sim-core/heat/thermometer';
import { planMeasuredOf, withMeasured } from '@shaftwork/sim-core/measured-questions';
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { planDoubtOf, withCostly, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import type { MeasurableId } from '@shaftwork/sim-core/provenance/measurables';
import type { Draw } from '@shaftwork/sim-core/provenance/realise';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { numbersOf } from '@shaftwork/sim-core/questions/doubt/numbers';
import { MODEL_ERROR } from '@shaftwork/sim-core/questions/doubt/plan';
import { rowLength, sampleStart } from '@shaftwork/sim-core/questions/doubt/sample';
import { alignClocks } from '@shaftwork/sim-core/questions/measured/align';
import { channelOf, channelsOf, compareMeasured, planMeasured } from '@shaftwork/sim-core/questions/measured/measured';
import { seriesLength, shareFactor } from '@shaftwork/sim-core/questions/simulate/watch';
import type { MeasuredResult } from '@shaftwork/sim-core/results/measured-result';
import { type PreparedScenario, prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { measuredSentences } from '@shaftwork/sim-core/words/measured-words';
import { describe, expect, it } from 'vitest';
import { asCsv, type LogAsk, loggedRun } from '../../../logged-run.js';
import { SMALLEST } from '../../scenario/smallest-scenario.js';

/** A bench of five minutes that warms, rests and warms again. */
const BENCH = SMALLEST.replace(
  'profile: [{ for: 3 min, throttle: 80 % }]',
  'profile: [{ for: 20 s, throttle: 40 % }, { for: 100 s, throttle: 85 % }, { for: 60 s, throttle: 20 % }, { for: 120 s, throttle: 60 to 95 % }]',
);
const NAME = '27-32';
const IDS: readonly MeasurableId[] = ['voltage', 'battery_current', 'shaft_speed', 'thrust', 'can_temperature'];

function prepared(text = BENCH, log?: string): PreparedScenario {
  const preparation = prepareScenario(
    new Map([['bench.yaml', text], ...(log === undefined ? [] : [['log.csv', log] as const])]),
    'bench.yaml',
    log === undefined ? undefined : 'log.csv',
  );
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
  return preparation.prepared;
}
const bench = prepared();
const logOf = (ask: Partial<LogAsk> = {}): string => asCsv(loggedRun(bench, { candidate: NAME, ids: IDS, every: 1, ...ask }));

const planOf = (log: string, text = BENCH) => {
  const { scenario, candidates } = prepared(text, log);
  if (scenario.measured === undefined) throw new Error('nothing measured');
  const plan = planMeasured(candidates[0], scenario.profile, scenario.measured);
  if (plan === undefined) throw new Error('nothing to compare');
  return plan;
};
/** The comparison as `run` makes it, without bands. */
function compared(log: string, text = BENCH): MeasuredResult {
  const result = compareMeasured(planOf(log, text));
  return { ...result, sentences: measuredSentences(result, 'the motor or the propeller') };
}
const said = (result: MeasuredResult): string => result.sentences.join(' ');
const numbers = numbersOf(unknownsOf(bench.candidates));
/** One number moved by `z` of its deviations. */
const moved = (subject: string, z: number): Draw => {
  const number = numbers.find((each) => each.subject === subject);
  if (number === undefined) throw new Error(`no number ${subject} among ${numbers.map((each) => each.subject).join(', ')}`);
  return (key) => z * (number.direction.get(key) ?? 0);
};

describe('residuals', () => {
  it('are what one counts by hand', () => {
    const column = {
      id: 'battery_current' as const,
      at: Int32Array.of(0, 1, 2),
      measured: Float64Array.of(1, 2, 3),
      counts: [true, true, true],
    };
    const times = Float64Array.of(0, 1, 2);
    // 1 − 0, 2 − 2, 3 − 5: mean −1/3, mean of squares 5/3; of nine draws 0 … 8 the edges lie at 0.4 and 7.6
    const draws = Array.from({ length: 9 }, (_, k) => Float64Array.of(k, k - 10, k));
    const channel = channelOf(column, times, Float64Array.of(0, 2, 5), draws);
    expect(channel.bias).toBeCloseTo(-1 / 3, 12);
    expect(channel.rms).toBeCloseTo(Math.sqrt(5 / 3), 12);
    expect([channel.id, channel.time, channel.measured, channel.predicted]).toEqual(['battery_current', [0, 1, 2], [1, 2, 3], [0, 2, 5]]);
    expect(channel.meanMeasured).toBe(2);
    expect(channel.meanPredicted).toBeCloseTo(7 / 3, 12);
    expect(channel.bands?.p05[0]).toBeCloseTo(0.4, 12);
    expect(channel.bands?.p95[0]).toBeCloseTo(7.6, 12);
    expect(channel.inside).toBeCloseTo(2 / 3, 12);
    // a half of 5 % of the largest reading, over 1.96
    expect(channel.deviation).toBeCloseTo(0.15 / STANDARD_DEVIATIONS_95, 12);
  });
});

describe('clocks', () => {
  const pulse = (t: number): number => (t > 3 && t < 5 ? 1 : t > 7 && t < 7.5 ? 2 : 0);
  const curve = (from: number, to: number, begins: number, scale = 1) => {
    const time = Array.from({ length: Math.round((to - from) / 0.05) + 1 }, (_, k) => from + 0.05 * k);
    return { time, values: time.map((t) => scale * pulse(t - begins)) };
  };
  it.each([
    ['a log that begins earlier', 90, 120, 100],
    ['a log that begins later', 102, 112, 100],
    ['a log that ends earlier', 99, 106, 100],
  ])('find %s', (_, from, to, begins) => {
    const found = alignClocks(curve(from, to, begins, 0.7), curve(0, 12, 0));
    expect(found?.begins).toBeCloseTo(begins, 1);
    expect(found?.correlation).toBeGreaterThan(0.98);
    expect(found).not.toHaveProperty('alike');
  });
  it('tell where laps are the same', () => {
    const laps = (begins: number) => {
      const time = Array.from({ length: 2401 }, (_, k) => 0.05 * k);
      return { time, values: time.map((t) => pulse((((t - begins) % 12) + 12) % 12)) };
    };
    const found = alignClocks(laps(0), laps(0));
    expect(Math.abs((found?.alike ?? 0) - (found?.begins ?? 0)) % 12).toBeLessThan(0.5);
    expect(found).toHaveProperty('alike');
  });
  it('are not guessed where nothing changes', () => {
    const flat = { time: [0, 1, 2, 3], values: [5, 5, 5, 5] };
    expect(alignClocks(flat, curve(0, 12, 0))).toBeUndefined();
    expect(alignClocks(curve(0, 12, 0), flat)).toBeUndefined();
  });
  it('are found by the column that is asked for, and told', () => {
    const result = compared(logOf({ begins: 1000, idle: 30 }), `${BENCH}measured: { align: battery_current }\n`);
    expect(result.clock).toMatchObject({ by: 'column', column: 'battery_current' });
    expect(result.clock.begins).toBeCloseTo(1000, 0);
    expect(said(result)).toMatch(/By its battery current the run begins at \d+\.\d\ss of the clock of log\.csv/);
    expect(result.squares).toBeLessThan(2);
  });
  it('are doubted where the first row is taken and another beginning fits far better', () => {
    const result = compared(logOf({ begins: 1000, idle: 30 }));
    expect(result.clock).toMatchObject({ by: 'first-row', begins: 970, better: { column: 'battery_current' } });
    expect(result.clock.better?.begins).toBeCloseTo(1000, 0);
    expect(said(result)).toMatch(/write align: battery_current/);
  });
  it('refuse a log with no time in common, and a column that tells nothing', () => {
    const late = `${BENCH}measured: { begins: 5000 s }\n`;
    expect(() => compared(logOf(), late)).toThrow(/no time in common.*begins: 12 s/s);
    const flat = 'time [s],voltage [V]\n0,11\n100,11\n200,11\n';
    expect(() => compared(flat, `${BENCH}measured: { align: voltage }\n`)).toThrow(/cannot be set by its column voltage/);
  });
});

describe('what explains a misfit', () => {
  // the truth is the model with one number two of its deviations off, seen by instruments that err as their kind does
  const groups = [
    'motor.kv',
    'motor.resistance',
    'blade-power-error',
    'blade-thrust-error',
    'cell-resistance-lithium',
    'can-emissivity',
    'can-capacity',
    'inductance-time',
  ] as const;
  it.each(
    groups.flatMap(
      (subject) =>
        [
          [subject, 2],
          [subject, -2],
        ] as const,
    ),
  )('is found: %s, %d deviations off', (subject, z) => {
    const log = logOf({ draw: moved(subject, z), seed: 3 });
    const { explanation, squares } = compared(log);
    // too little to be seen is said to be nothing
    if (explanation.kind === 'nothing-to-explain') return expect(squares).toBeLessThan(2);
    expect(explanation.kind).toBe('one');
    if (explanation.kind !== 'one') return;
    expect([explanation.best, ...explanation.alike].map((move) => move.subject)).toContain(subject);
    const own = [explanation.best, ...explanation.alike].find((move) => move.subject === subject);
    expect(own?.deviations).toBeCloseTo(z, 0);
  });
});

describe('what one number does not explain', () => {
  it('is said to be so, with the one that helps most', () => {
    // far outside its tolerance: no number is believed to be eight of its deviations off
    const result = compared(logOf({ draw: moved('motor.kv', 8) }));
    expect(result.explanation.kind).toBe('none');
    expect(said(result)).toMatch(
      /No single one of \d+ uncertain numbers explains it within three of its deviations: the one that helps most, /,
    );
  });
  it('is told where a sensor’s scale would explain it', () => {
    const low = logOf().replace(
      /^(\d[^,]*,[^,]*,)([^,]*)/gm,
      (_, head: string, amps: string) => `${head}${(0.8 * Number(amps)).toFixed(2)}`,
    );
    const result = compared(low);
    expect(result.sensor?.id).toBe('battery_current');
    expect(result.sensor?.factor).toBeCloseTo(0.8, 2);
    expect(said(result)).toMatch(/shows 80.% of what it should.*charge_put_back/);
    const put = compared(low, `${BENCH}measured: { charge_put_back: ${(chargeOf(low) / 0.8).toFixed(0)} mAh }\n`);
    expect(put.taken.join()).toMatch(/times 1\.25\d/);
    expect(put.squares).toBeLessThan(2);
  });
  it('is found as well from runs that the costly numbers made', () => {
    const scenario = prepared(BENCH, logOf({ draw: moved('blade-power-error', 2) }));
    const result = runScenario(scenario);
    const [own, seen] = [planMeasuredOf(scenario, result), planMeasuredOf(scenario, result)];
    if (own === undefined || seen === undefined) throw new Error('nothing to compare');
    withCostly(scenario, result, seen.looks);
    expect(seen.looks.series.size).toBe(numbers.length);
    const [a, b] = [own, seen].map((plan) => withMeasured(result, plan).measured?.explanation);
    expect(b).toEqual(a);
  });
  it('is nothing where log and prediction agree', () => {
    const result = compared(logOf());
    expect(result.explanation).toEqual({ kind: 'nothing-to-explain' });
    expect(result.squares).toBeLessThan(1.3);
    for (const { bias, deviation } of result.channels) expect(Math.abs(bias)).toBeLessThan(deviation);
  });
});

/** Charge under the second column of such a log [mA·h]. */
function chargeOf(log: string): number {
  const rows = log
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number));
  return rows.slice(1).reduce((sum, [t, , amps], k) => sum + 0.5 * (amps + rows[k][2]) * (t - rows[k][0]), 0) / 3.6;
}

describe('bands', () => {
  it('hold nine samples of ten of logs whose truth is drawn from the tolerances', () => {
    const plan = planOf(logOf());
    const doubt = planDoubtOf(bench, { samples: 128, seed: 5, watch: plan.moments.watch });
    const rows = workDoubtOf(bench, doubt, { from: 0, to: doubt.samples });
    const TRUTHS = 40;
    const { times } = plan.moments.watch;
    const inside = new Map<string, number>();
    for (let truth = 0; truth < TRUTHS; truth++) {
      const random = seededRandom(99, truth);
      const deviates = new Map<string, number>();
      const z = (key: string): number => {
        const known = deviates.get(key) ?? inverseNormal(random.fraction());
        deviates.set(key, known);
        return known;
      };
      const heat = 1 + (MODEL_ERROR.halfWidth / STANDARD_DEVIATIONS_95) * z('model');
      const shares = (place: ThermometerPlaceId): number => shareFactor(place, z(place));
      const log = loggedRun(bench, { candidate: NAME, ids: IDS, every: 1, draw: z, heat, shares, noise: 0 });
      const columns = plan.moments.columns.map((column) => {
        const values = log.columns.get(column.id) ?? [];
        return { ...column, measured: Float64Array.from(column.at, (place) => values[times[place]]) };
      });
      for (const channel of channelsOf({ ...plan, moments: { ...plan.moments, columns } }, { plan: doubt, rows }))
        inside.set(channel.id, (inside.get(channel.id) ?? 0) + (channel.inside ?? 0) / TRUTHS);
    }
    expect([...inside.keys()].sort()).toEqual([...IDS].sort());
    const mean = [...inside.values()].reduce((sum, each) => sum + each, 0) / inside.size;
    expect(mean).toBeGreaterThan(0.85);
    expect(mean).toBeLessThan(0.95);
  }, 60_000);
  it('draw what they drew without a log, and no more than 256 samples of it', () => {
    const plan = planOf(logOf());
    const bare = planDoubtOf(bench, { samples: 300, seed: 5 });
    const watched = planDoubtOf(bench, { samples: 300, seed: 5, watch: plan.moments.watch });
    const job = { from: 250, to: 262 };
    const [a, b] = [bare, watched].map((each) => workDoubtOf(bench, each, job));
    const length = rowLength(bare);
    expect(b.length - a.length).toBe(6 * seriesLength(plan.moments.watch));
    for (let k = 250; k < 262; k++) {
      const [own, other] = [
        a.subarray((k - 250) * length, (k - 249) * length),
        b.subarray(sampleStart(watched, k) - sampleStart(watched, 250)).subarray(0, length),
      ];
      // looking at a run moves the root finder's first guess, and with it the last bits
      own.forEach((value, at) => {
        if (!Number.isNaN(value)) expect(Math.abs(other[at] - value)).toBeLessThanOrEqual(1e-9 * Math.abs(value));
      });
    }
  });
});

describe('whose run it was', () => {
  const TWO = `${BENCH}  - name: other\n    motor: { layout: outrunner, kv: 1150 rpm/V, resistance: 70 mohm, no_load: { current: 1.3 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }\n`;
  it('is told where nobody said and another candidate comes much nearer to the log', () => {
    const log = asCsv(loggedRun(prepared(TWO), { candidate: 'other', ids: IDS, every: 1 }));
    const { scenario, candidates } = prepared(TWO, log);
    if (scenario.measured === undefined) throw new Error('nothing measured');
    const compare = (k: number, others?: (typeof candidates)[number][]) => {
      const plan = planMeasured(candidates[k], scenario.profile, scenario.measured ?? expect.fail(), others);
      return compareMeasured(plan ?? expect.fail());
    };
    const unsaid = compare(0, [candidates[1]]);
    expect(unsaid).toMatchObject({ named: false, nearer: { name: 'other' } });
    expect(unsaid.nearer?.share).toBeLessThan(0.1);
    expect(measuredSentences(unsaid, 'the motor').join(' ')).toMatch(
      /Nobody said whose run it was: other comes much nearer to the log than 27-32/,
    );
    expect(compare(0)).not.toHaveProperty('nearer');
    expect(compare(1, [candidates[0]])).not.toHaveProperty('nearer');
  });
});

describe('a log that is driven', () => {
  const DRIVEN = BENCH.replace(/profile: .*/, 'profile: { log: log.csv, hold: throttle }');
  it('is compared with its own other columns', () => {
    const log = logOf({ ids: ['throttle', ...IDS] });
    const files = new Map([
      ['bench.yaml', DRIVEN],
      ['log.csv', log],
    ]);
    const preparation = prepareScenario(files, 'bench.yaml');
    if (preparation.kind !== 'ready') throw new Error('not read');
    const { scenario, candidates } = preparation.prepared;
    if (scenario.measured === undefined) throw new Error('not kept');
    const plan = planMeasured(candidates[0], scenario.profile, scenario.measured);
    if (plan === undefined) throw new Error('nothing to compare');
    const result = compareMeasured(plan);
    expect(result.driven).toBe(true);
    expect(result.channels.map(({ id }) => id).sort()).toEqual([...IDS].sort());
    expect(result.clock).toEqual({ by: 'profile', begins: 0 });
  });
});
