/** What one reading teaches a drive of which one number is unsure, against the closed form: two normal errors on one scale. */
import { givenDatum } from '@shaftwork/sim-core/provenance/datum';
import type { GivenReadingRow } from '@shaftwork/sim-core/provenance/given';
import { takenReadings } from '@shaftwork/sim-core/provenance/taken-readings';
import { type Dimension, deviationOf, normal95, STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { answersOf } from '@shaftwork/sim-core/questions/readings/answers';
import { learn, withReadings } from '@shaftwork/sim-core/questions/readings/learn';
import { numbersRead } from '@shaftwork/sim-core/questions/readings/numbers-read';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { SMALLEST, scenarioOf } from '../../scenario/smallest-scenario.js';
import { sureBut } from '../sure-but.js';

const made = prepareScenario(SMALLEST);
if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
const { written: plain, scenario } = made.prepared;
const ROW = (more: string) => `${SMALLEST}readings:\n  - { throttle: 100 %, voltage: 11.1 V ± 0.001 %, ${more} }\n`;
/** The drive with nothing unsure but `subjects`, and what was read of it. */
function read(more: string, subjects: readonly string[] = ['motor.kv']) {
  const few = plain.map((each) => ({
    ...each,
    data: sureBut(each.data, ({ origin }) => origin.kind === 'given' && subjects.includes(origin.subject)),
  }));
  const { taken } = takenReadings(few, scenarioOf(more.includes('readings:') ? more : ROW(more)).readings ?? []);
  return { few, taken, learning: learn(few, taken, scenario.profile) };
}
const lessonOf = (more: string, subjects?: readonly string[]) => {
  const { learning } = read(more, subjects);
  if (!learning.ok) throw new Error(JSON.stringify(learning.problems));
  return learning.lesson;
};
/** Turns a minute that the model itself has, and by how much more for one deviation of Kv. */
const { few, taken } = read('shaft_speed: 8000 rpm ± 1 %');
const answers = answersOf(few[0], taken.flatMap(numbersRead), scenario.profile);
const KV = plain[0].data.motor.torqueConstant.origin;
if (KV.kind === 'given') throw new Error('the torque constant follows from Kv');
const { key: kvKey, spread } = KV.inputs['kv'].unknown;
const [nominal] = answers(() => 0);
const slope = Math.log(answers((key) => (key === kvKey ? 0.5 : 0))[0] / answers((key) => (key === kvKey ? -0.5 : 0))[0]);
const RPM = (2 * Math.PI) / 60;
/** One deviation of a reading ± 1 %, as a logarithm. */
const own = Math.log(1.01) / STANDARD_DEVIATIONS_95;
/** How far two are apart, as a share; the slope is a little less over the whole of the interval. */
const near = (a: number, b: number): number => Math.abs(a / b - 1);
const reading = (factor: number) => `shaft_speed: ${(nominal / RPM) * factor} rpm ± 1 %`;

describe('one reading of one number', () => {
  it('narrows it as two normal errors do, and moves it by its share of what is off', () => {
    const { learnt, keys, findings, result } = lessonOf(reading(1.02));
    const known = (slope / own) ** 2;
    const found = learnt.get(kvKey) ?? expect.fail();
    expect([...learnt.keys()]).toEqual([kvKey]);
    expect(keys[0]).toBe(kvKey);
    expect(near(found.deviation, 1 / Math.sqrt(1 + known))).toBeLessThan(0.07);
    expect(near(found.mean, ((Math.log(1.02) / slope) * known) / (1 + known))).toBeLessThan(0.07);
    expect(found.mix).toHaveLength(1);
    expect(found.mix[0].weight).toBeCloseTo(1, 9);
    expect(found.by).toEqual(['your reading of 8692\u202frpm']);
    expect([findings, result.settled]).toEqual([[], true]);
  });

  it('has a line: what was read, what the data foretold with its interval, what they say since', () => {
    const { result } = lessonOf(reading(1.02));
    const [line] = result.lines;
    const wide = STANDARD_DEVIATIONS_95 * Math.hypot(own, slope);
    expect(line).toMatchObject({
      candidate: '27-32',
      dimension: 'angularSpeed',
      value: expect.closeTo(1.02 * nominal, 6),
      low: expect.closeTo((1.02 * nominal) / 1.01, 3),
      high: expect.closeTo(1.02 * nominal * 1.01, 3),
    });
    expect(line.origin).toMatch(/^boat\.yaml line \d+$/);
    expect(line.expected.value / nominal).toBeCloseTo(1, 9);
    expect(near(Math.log(line.expected.high / nominal), wide)).toBeLessThan(0.07);
    expect(near(Math.log(line.expected.low / nominal), -wide)).toBeLessThan(0.07);
    // the same drive, now nearer to what was read
    expect(line.since / nominal).toBeGreaterThan(1.015);
    expect(line.since / nominal).toBeLessThan(1.02);
    expect(near(line.off.alone, Math.log(1.02) / Math.hypot(own, slope))).toBeLessThan(0.07);
    expect(line).not.toHaveProperty('source');
  });

  it('that is more than three deviations off contradicts the number that it would move farthest', () => {
    const far = Math.exp(3.4 * Math.hypot(own, slope));
    expect(lessonOf(reading(Math.exp(2.6 * Math.hypot(own, slope)))).findings).toEqual([]);
    const { findings } = lessonOf(reading(far));
    expect(findings).toEqual([
      {
        candidate: '27-32',
        kind: 'reading-contradicts',
        reading: 'motor speed at 100\u202f% throttle and 11.1\u202fV',
        line: expect.any(Number),
        dimension: 'angularSpeed',
        value: expect.closeTo(far * nominal, 6),
        bound: expect.closeTo(nominal, 6),
        deviations: expect.closeTo(3.6, 0),
        against: 'Kv',
        written: expect.any(Number),
        asked: expect.any(Number),
        askedDimension: 'speedConstant',
      },
    ]);
    // more turns ask for more Kv
    const [{ asked = 0, written = 1 }] = findings;
    expect(Math.log(asked / written) / deviationOf(spread)).toBeGreaterThan(2.5);
  });

  it('without an error is refused, and so is one that the drive has no answer to', () => {
    const { learning } = read(`shaft_speed: ${nominal / RPM} rpm ± 0 %`);
    expect(learning).toEqual({
      ok: false,
      problems: [
        {
          kind: 'bad-tolerance',
          place: expect.objectContaining({ file: 'boat.yaml', path: 'readings[0].shaft_speed' }),
          expected: 'a reading with its error',
          found: '± 0',
          hint: 'no instrument is exact: write how far it may be off, such as ± 3 %',
        },
      ],
    });
  });
});

describe('what has no answer is told with its place and what to do', () => {
  const [{ row, candidate }] = taken;
  const at = (key: string) => ({ file: 'a.yaml', line: 4, column: 9, path: `readings[0].${key}` });
  const datum = <D extends Dimension>(key: string, dimension: D, value: number) =>
    givenDatum(`readings.${key}`, dimension, value, normal95(1), at(key));
  const problems = (more: Partial<GivenReadingRow>) => {
    const { throttle: _, voltage: __, shaftSpeed: ___, ...bare } = row;
    const learning = learn(few, [{ candidate, row: { ...bare, ...more } }], scenario.profile);
    return learning.ok ? expect.fail() : learning.problems.map((each) => JSON.parse(JSON.stringify(each).replace(/[\u00a0\u202f]/g, ' ')));
  };
  it('at a throttle', () => {
    const [throttle, can] = [row.throttle ?? expect.fail(), datum('can', 'temperature', 320)];
    expect(problems({ throttle, can })).toEqual([
      {
        kind: 'out-of-range',
        place: at('can'),
        expected: 'something the drive as written has',
        found: 'temperature on the can at 100 % throttle, of which 27-32 has none',
        hint: 'look at throttle, voltage and vehicle_speed beside it',
      },
    ]);
  });
  it('at a time', () => {
    expect(problems({ at: datum('at', 'time', 1200), batteryCurrent: datum('battery_current', 'current', 8) })).toEqual([
      {
        kind: 'out-of-range',
        place: at('battery_current'),
        expected: 'a moment that the run as written reaches, with something to read',
        found: 'battery current at 20:00, of which 27-32 has none',
        hint: 'nothing is to be read at 20:00: is the profile the one that was driven, and is the motor on then?',
      },
    ]);
  });
});

it('a reading with a source is told with it', () => {
  const [{ row, candidate }] = taken;
  const shaftSpeed = row.shaftSpeed ?? expect.fail();
  const learning = learn(few, [{ candidate, row: { ...row, shaftSpeed: { ...shaftSpeed, source: 'a log' } } }], scenario.profile);
  expect(learning.ok ? learning.lesson.result.lines[0].source : '').toBe('a log');
});

it('a reading far off contradicts the number that it would move farthest, wherever that stands', () => {
  const against = (more: string) => {
    const { findings } = lessonOf(more, ['motor.kv', 'motor.resistance']);
    return findings.map((each) => each.against);
  };
  expect(against(reading(1.3))).toEqual(['Kv']);
  expect(against('shaft_speed: 8000 rpm ± 50 % }\n  - { resistance: 300 mohm ± 1 %')).toEqual(['winding resistance']);
});

it('drives that nobody read bring no unknowns of their own', () => {
  const both = prepareScenario(
    `${SMALLEST}  - name: other\n    motor: { layout: outrunner, kv: 1150 rpm/V, resistance: 70 mohm, no_load: { current: 1.3 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }\n`,
  );
  const [, other] = both.kind === 'ready' ? both.prepared.written : expect.fail();
  const learning = learn([...few, other], taken, scenario.profile);
  expect(learning.ok ? learning.lesson.keys : []).toEqual(lessonOf('shaft_speed: 8000 rpm ± 1 %').keys);
  expect(lessonOf('shaft_speed: 8000 rpm ± 1 %').result).not.toHaveProperty('effectiveDraws');
});

it('a number that no reading touches is not learnt, nor is a reading named that tells little of one', () => {
  const two = lessonOf(reading(1.02), ['motor.kv', 'battery.capacity']);
  expect([...two.learnt.keys()]).toEqual([kvKey]);
  expect(two.learnt.get(kvKey)?.mix.map(({ of }) => of.key)).toEqual([kvKey]);
  // the volts beside it are in doubt as well
  expect(two.keys).toHaveLength(3);
  const weak = `  - { throttle: 100 %, voltage: 11.1 V ± 0.001 %, shaft_speed: ${nominal / RPM} rpm ± 5 % }\n`;
  expect(lessonOf(`${ROW(reading(1.02))}${weak}`).learnt.get(kvKey)?.by).toEqual(['your reading of 8692\u202frpm']);
});

it('two readings of one thing that disagree are told by the worst, against the other', () => {
  const { learning } = read(`${ROW(reading(1.03))}  - { throttle: 100 %, voltage: 11.1 V ± 0.001 %, ${reading(0.985)} }\n`);
  if (!learning.ok) throw new Error(JSON.stringify(learning.problems));
  const { lines } = learning.lesson.result;
  expect(lines.every(({ off }) => Math.abs(off.alone) < 3)).toBe(true);
  const { findings } = learning.lesson;
  expect(findings).toHaveLength(1);
  const sizes = lines.map(({ off }) => Math.abs(off.amongAll));
  expect(Math.max(...sizes)).toBeGreaterThan(3);
  expect(findings[0].deviations).toBe(Math.max(...sizes));
  expect(findings[0]).not.toHaveProperty('against');
  // both tell as much of Kv, and both are named
  expect(learning.lesson.learnt.get(kvKey)?.by).toHaveLength(2);
});

it('a run gets what contradicts the readings of its own drive', () => {
  const lesson = lessonOf(reading(Math.exp(4 * Math.hypot(own, slope))));
  const run = (name: string) => ({ name, findings: [] }) as Partial<CandidateResult> as CandidateResult;
  expect(withReadings(lesson, run('27-32')).findings).toEqual(lesson.findings);
  expect(withReadings(lesson, run('other')).findings).toEqual([]);
  // a reading of a motor that several have is each one's
  const [finding] = lesson.findings;
  const shared = { ...lesson, alsoOf: new Map([[finding, ['other']]]) };
  expect(withReadings(shared, run('other')).findings).toEqual([{ ...finding, candidate: 'other' }]);
  expect(withReadings(shared, run('27-32')).findings).toEqual([finding]);
  const same = run('27-32');
  expect(withReadings(undefined, same)).toBe(same);
});
