import type { PropellerLoad } from '@shaftwork/sim-core/drive/drive-system';
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import type { Data } from '@shaftwork/sim-core/provenance/datum';
import { realiser } from '@shaftwork/sim-core/provenance/realise';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { halfWidth95, STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities/spread';
import { assumedNumbers } from '@shaftwork/sim-core/questions/run/assumptions';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { normalDistribution } from '../../normal-distribution.ts';

const motor = (resistance: string): string =>
  `layout: inrunner, kv: 1400 rpm/V, resistance: ${resistance}, no_load: { current: 2.1 A, voltage: 10 V }, mass: 230 g, can: { diameter: 36 mm, length: 60 mm }`;
const scenario = (candidates: string): string => `title: two sheets
battery: { cells: { series: 4 }, capacity: 5 Ah ± 0 % }
propeller: { kind: marine-series, diameter: 38 mm, pitch_ratio: 1.2, wake_fraction: -0.1 }
vehicle: { mass: 3 kg, drag: [{ speed: 5 m/s, force: 12 N }] }
limits: { winding: 130 °C }
profile: [{ for: 10 s, throttle: 80 % }]
candidates:
${candidates}`;

function prepared(candidates: string, parts: Readonly<Record<string, string>> = {}): PreparedScenario {
  const preparation = prepareScenario(new Map(Object.entries({ 's.yaml': scenario(candidates), ...parts })), 's.yaml');
  if (!('prepared' in preparation)) throw new Error(JSON.stringify(preparation));
  return preparation.prepared;
}
const two = prepared(`  - { name: Slim, motor: { ${motor('17 mohm')} } }\n  - { name: Stout, motor: { ${motor('12 mohm')} } }`);

describe('a number written without ±', () => {
  const [slim, stout] = two.candidates;

  it('has the interval of its kind, and stands among the assumptions', () => {
    // labels of thirteen small outrunners against fitted constants: Kv ± 9 %, resistance ± 25 %, no-load current ± 30 %
    const told = new Map(assumedNumbers(two.candidates).map((each) => [`${each.origin} ${each.candidates.join(' ')}`, each]));
    const resistance = told.get('motor.resistance Slim')!;
    expect(resistance.low).toBeCloseTo(17e-3 / 1.25, 9);
    expect(resistance.high).toBeCloseTo(17e-3 * 1.25, 9);
    expect(resistance).toMatchObject({ kind: 'given', words: 'winding resistance' });
    expect(told.get('motor.kv Slim Stout')!.high / told.get('motor.kv Slim Stout')!.value).toBeCloseTo(1.09, 9);
    expect(told.get('motor.no_load.current Slim Stout')!.high).toBeCloseTo(2.1 * 1.3, 9);
  });

  it('is exact where ± 0 % says so, and where it was chosen', () => {
    expect(slim.data.battery.capacity.unknown.spread).toEqual({ shape: 'none' });
    expect(slim.data.limits.windingTemperature.unknown.spread).toEqual({ shape: 'none' });
    const subjects = unknownsOf(two.candidates).map(({ subject }) => subject);
    expect(subjects).not.toContain('battery.capacity');
    expect(subjects.filter((subject) => subject.startsWith('limits') || subject.startsWith('motor.no_load.voltage'))).toEqual([]);
  });

  it('tells of two sheets what two independent intervals tell: the chance that the larger resistance is the smaller', () => {
    const deviation = Math.log(1.25) / STANDARD_DEVIATIONS_95;
    const chance = normalDistribution(-Math.log(17 / 12) / (Math.SQRT2 * deviation));
    const [a, b] = [realiser(slim.data), realiser(stout.data)];
    // midpoint rule over the unit square of both quantiles; it errs by the cells that the border cuts
    const steps = 64;
    const deviates = Array.from({ length: steps }, (_, k) => inverseNormal((k + 0.5) / steps));
    const drawnAt = (system: typeof a, key: string) => deviates.map((z) => system((each) => (each === key ? z : 0)).motor.resistance);
    const [slims, stouts] = [drawnAt(a, slim.data.motor.resistance.unknown.key), drawnAt(b, stout.data.motor.resistance.unknown.key)];
    const less = slims.flatMap((own) => stouts.filter((other) => own < other)).length;
    expect(Math.abs(less / steps ** 2 - chance)).toBeLessThan(2e-3);
    expect(chance).toBeGreaterThan(0.01);
  });

  it('keeps a wake of less than none in its draws', () => {
    const { wakeFraction } = slim.data.load as PropellerLoad<Data>;
    const { load } = realiser(slim.data)((key) => (key === wakeFraction.unknown.key ? -STANDARD_DEVIATIONS_95 : 0));
    expect((load as { wakeFraction: number }).wakeFraction).toBeCloseTo(-0.14, 9);
  });
});

it('a part file is one sheet for all who use it, and its numbers have the names they have elsewhere', () => {
  const { candidates } = prepared('  - { name: A, motor: { use: m.yaml } }\n  - { name: B, motor: { use: m.yaml, kv: 1300 rpm/V } }', {
    'm.yaml': `part: motor\n${motor('15 mohm').replaceAll(', ', '\n').replace('{ current: 2.1 A\nvoltage: 10 V }', '{ current: 2.1 A, voltage: 10 V }').replace('{ diameter: 36 mm\nlength: 60 mm }', '{ diameter: 36 mm, length: 60 mm }')}\n`,
  });
  const [a, b] = candidates.map(({ data }) => data.motor);
  expect(a.resistance.unknown.key).toBe(b.resistance.unknown.key);
  const resistance = unknownsOf(candidates).filter(({ subject }) => subject === 'motor.resistance');
  expect(resistance).toHaveLength(1);
  expect(resistance[0]).toMatchObject({ words: 'winding resistance', candidates: ['A', 'B'] });
  expect(halfWidth95(resistance[0].spread)).toBeCloseTo(0.25, 9);
  expect(unknownsOf(candidates).filter(({ subject }) => subject === 'motor.kv')).toHaveLength(2);
});
