/** Readings in a scenario: what they narrow and move, for whom, what they contradict, and that the draws keep what they tie together. */
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { planDoubtOf, withDoubt, workDoubtOf } from '@shaftwork/sim-core/other-questions';
import { type Draw, realise } from '@shaftwork/sim-core/provenance/realise';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { answersOf } from '@shaftwork/sim-core/questions/readings/answers';
import { numbersRead } from '@shaftwork/sim-core/questions/readings/numbers-read';
import { assumedNumbers } from '@shaftwork/sim-core/questions/run/assumptions';
import { type PreparedScenario, prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { contradictionSentence, narrowedWords } from '@shaftwork/sim-core/words';
import { describe, expect, it } from 'vitest';
import { SMALLEST } from '../../scenario/smallest-scenario.js';

/** A hover without resistance on its sheet, so that a reading has something to tell. */
const BENCH = SMALLEST.replace('resistance: 96 mohm, ', '');
const prepared = (text: string): PreparedScenario => {
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};
const problems = (text: string) => {
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (preparation.kind !== 'problems') throw new Error('read without a problem');
  return preparation.problems;
};
const withRows = (...rows: readonly string[]): string => `${BENCH}readings:\n${rows.map((row) => `  - { ${row} }\n`).join('')}`;

/** What the model itself reads at full throttle and 11.1 V under a draw of its numbers. */
const AMPERES_AND_SPEED = 'throttle: 100 %, voltage: 11.1 V ± 0.1 %, battery_current: 14 A ± 2 %, shaft_speed: 7800 rpm ± 0.5 %';
const plain = prepared(BENCH);
const [bare] = plain.written;
const read = (text: string): PreparedScenario => prepared(withRows(text));
function modelReads(draw: Draw): { current: number; speed: number } {
  const { taken } = read(AMPERES_AND_SPEED);
  const [current, speed] = answersOf(bare, taken.flatMap(numbersRead), plain.scenario.profile)(draw);
  return { current, speed };
}
const rowOf = ({ current, speed }: { current: number; speed: number }): string =>
  `throttle: 100 %, voltage: 11.1 V ± 0.1 %, battery_current: ${current} A ± 2 %, shaft_speed: ${(speed * 30) / Math.PI} rpm ± 0.5 %`;

const resistanceIn = ({ candidates }: PreparedScenario) => {
  const found = assumedNumbers(candidates).find(({ origin }) => origin === 'outrunner-resistance');
  if (found === undefined) throw new Error('the resistance is not in the list');
  return found;
};
const ratio = ({ low, high }: { low: number; high: number }): number => high / low;

describe('a reading of volts, amperes and turns', () => {
  const truth = realise(bare.data, (key) => (key.startsWith('rule:outrunner-resistance') ? 0.8 : 0));
  const found = read(rowOf(modelReads((key) => (key.startsWith('rule:outrunner-resistance') ? 0.8 : 0))));
  const [before, after] = [resistanceIn(plain), resistanceIn(found)];

  it('moves the resistance towards what it was, narrows it, and says so', () => {
    expect(Math.abs(Math.log(after.value / truth.motor.resistance))).toBeLessThan(
      0.5 * Math.abs(Math.log(before.value / truth.motor.resistance)),
    );
    expect(after.low).toBeLessThan(truth.motor.resistance);
    expect(after.high).toBeGreaterThan(truth.motor.resistance);
    expect(Math.log(ratio(after))).toBeLessThan(0.6 * Math.log(ratio(before)));
    expect(after.narrowed).toMatchObject({ value: before.value, low: before.low, high: before.high });
    expect(narrowedWords(after)).toMatch(/^narrowed by your readings? of .*rpm.*, from /);
    expect(realise(found.candidates[0].data).motor.resistance).toBeCloseTo(after.value, 12);
  });

  it('leaves the list, the hash of the physics and every number as they were where nothing is read', () => {
    expect(assumedNumbers(plain.candidates).some(({ narrowed }) => narrowed !== undefined)).toBe(false);
    expect(plain.candidates).toBe(plain.written);
    expect(runScenario(plain).readings).toBeUndefined();
  });

  it('is in the draws as it is in the list: the scatter of drawn resistances is that of the interval, and ties stay', () => {
    const entries = unknownsOf(found.candidates);
    const random = seededRandom(5);
    const draws = Array.from({ length: 2000 }, () => {
      const z = new Map(entries.map(({ key }) => [key, inverseNormal(random.fraction())]));
      const system = realise(found.candidates[0].data, (key) => z.get(key) ?? Number.NaN);
      return [Math.log(system.motor.resistance), Math.log(system.motor.torqueConstant)];
    });
    const mean = (k: number): number => draws.reduce((sum, each) => sum + each[k], 0) / draws.length;
    const covariance = (a: number, b: number): number =>
      draws.reduce((sum, each) => sum + (each[a] - mean(a)) * (each[b] - mean(b)), 0) / (draws.length - 1);
    // the drawn resistance follows the drawn Kv and mass too: its rule's own interval is the smaller part
    const sd = Math.sqrt(covariance(0, 0));
    expect(draws.every((each) => each.every(Number.isFinite))).toBe(true);
    expect(sd).toBeLessThan(0.25);
    // volts less current times resistance turn it: more resistance asks for a smaller torque constant
    expect(covariance(0, 1) / (sd * Math.sqrt(covariance(1, 1)))).toBeLessThan(-0.3);
  });

  it('narrows the bands that are drawn', () => {
    const band = (scenario: PreparedScenario): number => {
      const plan = planDoubtOf(scenario, { samples: 64, seed: 1 });
      const { headline } = withDoubt(runScenario(scenario), plan, workDoubtOf(scenario, plan, { from: 0, to: 64 })).candidates[0];
      const { p05, p95 } = headline.peakMotorCurrent.band ?? { p05: Number.NaN, p95: Number.NaN };
      return p95 - p05;
    };
    expect(band(found)).toBeLessThan(0.6 * band(plain));
  });

  it('taken twice is the same as once with its error over √2', () => {
    const once = resistanceIn(
      read(`throttle: 100 %, voltage: 11.1 V ± 0 %, shaft_speed: 7900 rpm ± ${100 * Math.expm1(Math.log1p(0.01) / Math.SQRT2)} %`),
    );
    const row = 'throttle: 100 %, voltage: 11.1 V ± 0 %, shaft_speed: 7900 rpm ± 1 %';
    const twice = resistanceIn(prepared(withRows(row, row)));
    for (const key of ['value', 'low', 'high'] as const) expect(Math.log(twice[key] / once[key])).toBeCloseTo(0, 3);
  });

  it('does not depend on the order, and a wide one changes nothing', () => {
    const [a, b] = ['throttle: 100 %, voltage: 11.1 V, battery_current: 15 A', 'resistance: 110 mohm ± 4 %'];
    const [ab, ba] = [prepared(withRows(a, b)), prepared(withRows(b, a))].map(resistanceIn);
    for (const key of ['value', 'low', 'high'] as const) expect(Math.log(ab[key] / ba[key])).toBeCloseTo(0, 5);
    const wide = read('after: 30 s, can: 60 °C ± 10000 K');
    expect(realise(wide.candidates[0].data)).toEqual(realise(plain.candidates[0].data));
    expect(resistanceIn(wide).narrowed).toBeUndefined();
  });
});

describe('who learns', () => {
  const other = '  - name: Other\n    motor: { layout: outrunner, kv: 920 rpm/V, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }\n';
  const row = 'throttle: 100 %, voltage: 11.1 V, battery_current: 13 A, shaft_speed: 7500 rpm';

  it('a drive that was not read learns through what it shares', () => {
    const two = prepared(`${BENCH}${other}readings: [{ ${row}, measured_with: 27-32 }]\n`);
    const alone = prepared(`${BENCH}${other}`);
    const factor = (scenario: PreparedScenario, k: number): number => {
      const { load } = realise(scenario.candidates[k].data);
      return load.kind === 'propeller' ? load.powerFactor : Number.NaN;
    };
    // both turn the one propeller of the scenario
    expect(factor(two, 1)).toBeCloseTo(factor(two, 0), 12);
    expect(Math.abs(factor(two, 1) / factor(alone, 1) - 1)).toBeGreaterThan(0.005);
  });

  it('asks whose drive it was where several could be meant, and takes a name that is none for a mistake', () => {
    expect(problems(`${BENCH}${other}readings: [{ ${row} }]\n`)).toMatchObject([
      { kind: 'missing-datum', place: { path: 'readings[0].measured_with' }, hint: expect.stringContaining('27-32') },
    ]);
    expect(problems(`${BENCH}${other}readings: [{ ${row}, measured_with: Third }]\n`)).toMatchObject([{ kind: 'unknown-choice' }]);
    // below a candidate it is that one's
    expect(prepared(`${BENCH}${other}    readings: [{ ${row} }]\n`).taken).toMatchObject([{ candidate: 'Other' }]);
  });

  it('a motor’s cold resistance is every drive’s that has it', () => {
    const part =
      'part: motor\nlayout: outrunner\nkv: 920 rpm/V\nmass: 66 g\ncan: { diameter: 27 mm, length: 32 mm }\nreadings: [{ resistance: 140 mohm ± 2 %, resistance_at: 25 °C ± 1 K }]\n';
    const text = `${BENCH.slice(0, BENCH.indexOf('candidates:'))}motor: { use: m.yaml }\ncandidates:\n  - name: A\n  - name: B\n    gearbox: { ratio: 2 }\n`;
    const preparation = prepareScenario(
      new Map([
        ['a.yaml', text],
        ['m.yaml', part],
      ]),
      'a.yaml',
    );
    if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation));
    const [a, b] = preparation.prepared.candidates.map(({ data }) => realise(data).motor.resistance);
    // 140 mΩ at 25 °C are 137.3 mΩ at 20 °C: IEC 60028, 0.393 % a kelvin
    expect(a * 1e3).toBeGreaterThan(135);
    expect(a * 1e3).toBeLessThan(139);
    // the second learns what is common to such motors, and its own resistance is that of the same rule
    expect(Math.abs(Math.log(b / a))).toBeLessThan(0.5);
  });
});

describe('heat', () => {
  const peak = (scenario: PreparedScenario) => runScenario(scenario).candidates[0].headline.peakWindingTemperature.nominal;

  it('a can that reads hotter makes the winding hotter, and narrows its ways', () => {
    const base = peak(plain);
    const line = (scenario: PreparedScenario) => scenario.lesson?.result.lines[0];
    const expected = line(read('after: 30 s, can: 40 °C'))?.expected.value ?? Number.NaN;
    const at = (kelvin: number) => read(`after: 30 s, can: ${expected - 273.15 + kelvin} °C`);
    const [same, hotter] = [at(0), at(12)];
    expect(Math.abs(peak(same) - base)).toBeLessThan(1);
    expect(peak(hotter)).toBeGreaterThan(base + 5);
    expect(line(hotter)?.since ?? 0).toBeGreaterThan((line(hotter)?.expected.value ?? 0) + 3);
  });

  it('a winding resistance read after the stop is a thermometer in the copper', () => {
    const cold = 'resistance: 100 mohm ± 1 %';
    const hot = (mohm: number) => peak(prepared(withRows(cold, `after: 10 s, resistance: ${mohm} mohm ± 1 %`)));
    // 0.393 % a kelvin: 10 mΩ more of 100 are 25 K
    expect(hot(135) - hot(125)).toBeGreaterThan(5);
  });
});

describe('what a reading contradicts', () => {
  it('is told with the number that would have to move farthest, and the line', () => {
    const { lesson, candidates, ...rest } = read('throttle: 100 %, voltage: 11.1 V, shaft_speed: 3900 rpm ± 0.5 %');
    const [finding] = lesson?.findings ?? [];
    expect(finding).toMatchObject({ kind: 'reading-contradicts', candidate: '27-32', line: 9 });
    expect(finding.deviations).toBeGreaterThan(3);
    expect(contradictionSentence(finding)).toMatch(
      /^Line 9: .*3900\srpm were read as motor speed at 100\s% throttle.*To agree, the .* would have to be/,
    );
    const result = runScenario({ ...rest, candidates, ...(lesson === undefined ? {} : { lesson }) });
    expect(result.findings.map(({ kind }) => kind)).toContain('reading-contradicts');
  });

  it('says nothing of what lies within', () => {
    expect(read(rowOf(modelReads(() => 0))).lesson?.findings).toEqual([]);
  });
});

describe('readings that cannot be', () => {
  const refused = (row: string) => problems(withRows(row));

  it.each([
    ['throttle: 100 %, can: 58 °C', 'conflict', /what is read at a throttle/],
    ['at: 30 s, after: 20 s, can: 58 °C', 'conflict', /throttle, at or after/],
    ['battery_current: 31 A', 'conflict', /say when it was read/],
    ['after: 60 s', 'missing-datum', /what was read/],
    ['after: 60 s, in_slot: 80 °C, emissivity: 0.9', 'conflict', /surface/],
    ['throttle: 100 %, battery_current: 31 W', 'wrong-dimension', /current/],
    ['throttle: 100 %, battery_current: -3 A', 'out-of-range', /above 0/],
    ['after: 60 s, can: 580 °C', 'out-of-range', /320/],
    ['throttle: 100 %, shaft_speed: 9000', 'bare-number', /rpm/],
    ['throttle: 100 %, battery_current: 31 A ± 0 %', 'bad-tolerance', /how far it may be off/],
    ['at: 20 min, battery_current: 8 A', 'out-of-range', /a moment that the run as written reaches/],
    ['throttle: 100 %, battery_curent: 31 A', 'unknown-key', /battery_current/],
  ])('%s', (row, kind, words) => {
    const found = refused(row);
    expect(found.map((each) => each.kind)).toContain(kind);
    expect(JSON.stringify(found)).toMatch(words);
  });

  it('and all are told at once', () => {
    expect(problems(withRows('battery_current: 31 A', 'throttle: 100 %, can: 58 °C')).length).toBe(2);
  });

  it('a reading that the propeller was measured by is not told twice', () => {
    const text = `${BENCH.replace('{ kind: blade-element, diameter: 9 in, pitch: 4.5 in }', '{ kind: measured-points, diameter: 9 in, points: [{ shaft_speed: 7800 rpm, battery_current: 14 A, voltage: 11.1 V, thrust: 7 N }] }')}readings: [{ throttle: 100 %, voltage: 11.1 V, battery_current: 14 A }]\n`;
    expect(problems(text)).toMatchObject([{ kind: 'conflict', found: expect.stringContaining('the propeller’s points') }]);
  });
});
