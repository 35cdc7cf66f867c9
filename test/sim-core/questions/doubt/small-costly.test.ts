/** Costly numbers of drives of which one or two numbers are unsure: each cost, effect and tip against runs that are made here. */

import type { Objective } from '@shaftwork/sim-core/provenance/given';
import type { Draw } from '@shaftwork/sim-core/provenance/realise';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { costlyNumbers } from '@shaftwork/sim-core/questions/doubt/costly-numbers';
import { measurementOf } from '@shaftwork/sim-core/questions/doubt/measurements';
import { numbersOf } from '@shaftwork/sim-core/questions/doubt/numbers';
import { outcomeOf } from '@shaftwork/sim-core/questions/judge/outcome';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { sureBut } from '../sure-but.js';

const motor = (name: string, resistance: string, more = ''): string =>
  `  - name: ${name}
    motor: { layout: outrunner, kv: 920 rpm/V, ${resistance === '' ? '' : `resistance: ${resistance}, `}no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }${more}
`;
/** Of which nothing is unsure but what is said of by `subjects`: keys of what was written, or rules. */
function made(motors: readonly string[], subjects: readonly string[] = ['motor.resistance'], air = '15 °C') {
  const text = `title: Bench
ambient: { air: ${air} }
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: coefficients, diameter: 9 in, table: [{ advance_ratio: 0, thrust: 0.1, power: 0.04 }, { advance_ratio: 1, thrust: 0.01, power: 0.01 }] }
profile: [{ for: 20 s, throttle: 80 % }]
candidates:
${motors.join('')}`;
  const found = prepareScenario(text);
  if (found.kind !== 'ready') throw new Error(JSON.stringify(found));
  const { candidates, scenario } = found.prepared;
  const few = candidates.map((each) => ({
    ...each,
    data: sureBut(each.data, ({ origin }) => subjects.includes(origin.kind === 'given' ? origin.subject : origin.rule)),
  }));
  return { candidates: few, profile: scenario.profile };
}
type Made = ReturnType<typeof made>;
const costly = ({ candidates, profile }: Made, objective: Objective = 'coolest') => costlyNumbers(candidates, profile, objective);
/** The run of a candidate with its resistance `z` of its deviations off. */
const runAt = ({ candidates, profile }: Made, z: number, k = 0, objective: Objective = 'coolest') => {
  const { key } = candidates[k].data.motor.resistance.unknown;
  return outcomeOf(candidates[k], profile, objective, (each) => (each === key ? z : 0));
};
const END = STANDARD_DEVIATIONS_95;

describe('one number of one drive', () => {
  const one = made([motor('One', '96 mohm ± 90 %')]);

  it('costs the most that it takes of what is left of a limit, and is told with its effect before and after a measurement', () => {
    const { numbers, all, ranking, simulations } = costly(one);
    const [nominal, low, high] = [0, -END, END].map((z) => runAt(one, z));
    const share = ({ limits }: typeof nominal, id: string) => limits.find((each) => each.id === id)?.marginShare ?? Number.NaN;
    const taken = nominal.limits.flatMap(({ id, marginShare }) =>
      [low, high].map((end) => Math.abs(share(end, id) - marginShare) / Math.max(0.05, Math.abs(marginShare))),
    );
    const objective = [low, high].map((end) => Math.abs(end.standing.objective - nominal.standing.objective) / 100);
    const left = Math.log(1.03) / Math.log(1.9);
    const [near, far] = [-left * END, left * END].map((z) => runAt(one, z).simulation.highest.windingTemperature.value);
    const [a, b, c] = [low, nominal, high].map(({ simulation }) => simulation.highest.windingTemperature.value);
    const { words, dimension, shown } = nominal.limits.find(({ id }) => id === 'windingTemperature') ?? expect.fail();
    expect(numbers).toEqual([
      {
        subject: 'motor.resistance',
        words: 'winding resistance',
        candidates: [],
        standing: 'doubtful',
        dimension: 'resistance',
        value: expect.closeTo(0.096, 12),
        low: expect.closeTo(0.096 / 1.9, 9),
        high: expect.closeTo(0.096 * 1.9, 9),
        cost: expect.closeTo(Math.max(...taken, ...objective), 9),
        effects: [
          {
            candidate: 'One',
            limit: 'windingTemperature',
            words,
            dimension,
            shown,
            nominal: b,
            low: a,
            high: c,
            before: 0.5 * (c - a),
            after: expect.closeTo(0.5 * (far - near), 3),
          },
        ],
        tips: [],
        advice: measurementOf('motor.resistance'),
      },
    ]);
    expect(all).toEqual([
      { subject: 'motor.resistance', words: 'winding resistance', candidate: 'One', before: expect.closeTo(0.5 * (c - a), 9) },
    ]);
    expect(ranking).toEqual(['One']);
    // as it is, at both ends, and at both ends of what a measurement leaves
    expect(simulations).toBe(5);
  });

  it('is not to be measured where it is as sure as a measurement, by a third', () => {
    const advised = (half: string) => costly(made([motor('One', `96 mohm ± ${half}`)])).numbers[0];
    expect(advised('3.8 %').advice).toBeUndefined();
    expect(advised('3.8 %').effects[0]).not.toHaveProperty('after');
    expect(advised('4 %').advice?.key).toBe('motor.resistance');
  });

  it('that the sheet lacks comes first; one that follows by a rule is missing', () => {
    const { numbers } = costly(made([motor('One', '')], ['outrunner-resistance', 'motor.no_load.current', 'motor.kv']));
    const [first, ...others] = numbers;
    expect([first.subject, first.standing, first.lacksOnSheet]).toEqual(['outrunner-resistance', 'missing', true]);
    expect(others.map(({ subject, standing, lacksOnSheet }) => [subject, standing, lacksOnSheet])).toEqual([
      [others[0].subject, 'doubtful', undefined],
      [others[1].subject, 'doubtful', undefined],
    ]);
    expect(others[0].cost).toBeGreaterThanOrEqual(others[1].cost);
  });

  it('costs by its share of what is asked for where that is no temperature', () => {
    const lasting = (z: number) => runAt(one, z, 0, 'longest').standing.objective;
    const changes = [-END, END].map((z) => Math.abs(lasting(z) - lasting(0)) / Math.abs(lasting(0)));
    expect(costly(one, 'longest').numbers[0].cost).toBeGreaterThanOrEqual(Math.max(...changes) - 1e-9);
    expect(Math.max(...changes)).toBeGreaterThan(0);
  });

  it('costs against a twentieth of the way where a limit is nearly reached', () => {
    const peak = runAt(made([motor('One', '96 mohm')]), 0).simulation.highest.windingTemperature.value - 273.15;
    const near = made([motor('One', '96 mohm ± 40 %', `\n    limits: { winding: ${peak + 0.05} °C }`)]);
    const [nominal, low, high] = [0, -END, END].map((z) => {
      const { limits } = runAt(near, z);
      return limits.find(({ id }) => id === 'windingTemperature')?.marginShare ?? Number.NaN;
    });
    expect(nominal).toBeLessThan(0.05);
    expect(costly(near).numbers[0].cost).toBeCloseTo(Math.max(Math.abs(low - nominal), Math.abs(high - nominal)) / 0.05, 9);
  });

  it('that is normal leaves of its interval what a measurement errs by, as a share of its value', () => {
    // a thermometer to 1 % of 288 K, of ± 20 K
    const warm = (half: number) => costly(made([motor('One', '96 mohm')], ['ambient.air'], `15 °C ± ${half} K`)).numbers[0];
    const { effects, advice } = warm(20);
    expect(advice?.key).toBe('ambient.air');
    const [{ before, after = 0 }] = effects;
    expect(after / before).toBeCloseTo((0.01 * 288.15) / 20, 1);
    expect([warm(3.7).advice, warm(3.8).advice?.key]).toEqual([undefined, 'ambient.air']);
  });

  it('is watched by the way', () => {
    const { candidates, profile } = one;
    const watch = { candidate: 'One', ids: ['battery_current' as const], times: Float64Array.of(1, 5, 10) };
    const series = new Map<string, Float64Array>();
    costlyNumbers(candidates, profile, 'coolest', undefined, { watch, series });
    const { key } = candidates[0].data.motor.resistance.unknown;
    expect([...series.keys()]).toEqual([key]);
    const seen = outcomeOf(candidates[0], profile, 'coolest', (each) => (each === key ? END : 0), undefined, watch).series;
    expect(series.get(key)).toEqual(seen);
    const other = new Map<string, Float64Array>();
    costlyNumbers(candidates, profile, 'coolest', undefined, { watch: { ...watch, candidate: 'Two' }, series: other });
    expect(other.size).toBe(0);
  });
});

it('of many numbers the eight that cost most are looked at from both ends; what moves a winding by less than 0.3 K is left at that', () => {
  const subjects = [
    'motor.kv',
    'motor.resistance',
    'motor.no_load.current',
    'battery.capacity',
    'ambient.air',
    'constant-loss-share',
    'winding-capacity',
    'stator-capacity',
    'can-capacity',
    'open-circuit-error',
  ];
  const many = made([motor('One', '96 mohm')], subjects);
  const { numbers, all, simulations } = costly(many);
  const [input] = many.candidates;
  const every = numbersOf(unknownsOf(many.candidates));
  expect([every.length, numbers.length, all.length]).toEqual([9, 8, 9]);
  const hottest = (draw: Draw): number => outcomeOf(input, many.profile, 'coolest', draw).simulation.highest.windingTemperature.value;
  const nominal = hottest(() => 0);
  const left = every.filter(({ subject }) => numbers.every((each) => each.subject !== subject));
  for (const { subject, direction } of left) {
    const upper = hottest((key) => END * (direction.get(key) ?? 0));
    expect(all.find((each) => each.subject === subject)?.before, subject).toBeCloseTo(0.5 * Math.abs(upper - nominal), 9);
    expect(Math.abs(upper - nominal)).toBeLessThan(0.3);
  }
  expect(left).toHaveLength(1);
  expect(all.map(({ before }) => before)).toEqual(all.map(({ before }) => before).sort((a, b) => b - a));
  // as it is, nine upper ends, eight lower ones, and two for each measurement that is advised
  expect(simulations).toBe(18 + 2 * numbers.filter(({ advice }) => advice !== undefined).length);
});

describe('a number tips', () => {
  it('where a limit is passed: the runs on either side keep it and pass it', () => {
    const peak = runAt(made([motor('One', '96 mohm')]), 0).simulation.highest.windingTemperature.value - 273.15;
    const limited = (over: number) => made([motor('One', '96 mohm ± 40 %', `\n    limits: { winding: ${peak + over} °C }`)]);
    const fails = limited(0.6);
    const [{ tips }] = costly(fails).numbers;
    expect(tips).toEqual([
      { at: expect.any(Number), kind: 'fails', candidate: 'One', limit: 'windingTemperature', words: 'winding temperature' },
    ]);
    const z = (at: number) => (END * Math.log(at / 0.096)) / Math.log(1.4);
    expect([0.99, 1.01].map((by) => runAt(fails, z(by * tips[0].at)).standing.feasible)).toEqual([true, false]);
    // and where one that is passed is passed no longer, below
    const meets = limited(-0.6);
    const [{ tips: back }] = costly(meets).numbers;
    expect(back).toEqual([{ at: expect.any(Number), kind: 'meets', candidate: 'One' }]);
    expect([0.99, 1.01].map((by) => runAt(meets, z(by * back[0].at)).standing.feasible)).toEqual([true, false]);
    expect(costly(limited(50)).numbers[0].tips).toEqual([]);
  });

  it('where another leads, above or below what is written', () => {
    const two = made([motor('One', '96 mohm ± 60 %'), motor('Two', '97 mohm ± 1 %')]);
    const { numbers, ranking, all } = costly(two);
    expect(ranking).toEqual(['One', 'Two']);
    expect(numbers.map(({ candidates }) => candidates)).toEqual([['One'], ['Two']]);
    expect(numbers[0].tips).toEqual([{ at: expect.closeTo(0.097, 3), kind: 'leads', candidate: 'Two' }]);
    // Two need only be as good as One: its own interval ends within a hundredth of the 1 % that parts them
    expect(numbers[1].tips.map(({ kind }) => kind)).toEqual(numbers[1].tips.length === 0 ? [] : ['leads']);
    expect(all[0].before).toBeGreaterThan(all[1].before);
    expect(numbers[0].effects.map(({ candidate }) => candidate)).toEqual(['One']);
    const below = costly(made([motor('One', '97 mohm ± 60 %'), motor('Two', '96 mohm ± 1 %')]));
    expect(below.ranking).toEqual(['Two', 'One']);
    expect(below.numbers.find(({ candidates }) => candidates[0] === 'One')?.tips).toEqual([
      { at: expect.closeTo(0.096, 3), kind: 'leads', candidate: 'One' },
    ]);
  });

  it('but moves a winding by what it does, whichever else stands in the file', () => {
    const subjects = [
      'slot-contact',
      'press-fit',
      'winding-capacity',
      'stator-capacity',
      'can-capacity',
      'rotor-capacity',
      'motor.mass',
      'motor.kv',
    ];
    const more = [
      'motor.no_load.current',
      'motor.can.diameter',
      'motor.can.length',
      'battery.capacity',
      'motor.resistance',
      'wiring-gauge',
    ];
    const of = (...motors: string[]) => costly(made(motors, [...subjects, ...more]));
    const [alone, beside] = [of(motor('One', '96 mohm')), of(motor('One', '96 mohm'), motor('Two', '40 mohm'))];
    expect([alone.leading, beside.leading]).toEqual([['One'], ['Two', 'One']]);
    const told = beside.all.filter(({ candidate, before }) => candidate === 'One' && before > 0.3);
    expect(told.length).toBeGreaterThan(3);
    for (const { subject, before } of told)
      expect(before, subject).toBeCloseTo(alone.all.find((each) => each.subject === subject)?.before ?? Number.NaN, 9);
  });

  it('is told of one that fails its limits by little as well, and only of the first two', () => {
    const peak = runAt(made([motor('One', '99 mohm')]), 0).simulation.highest.windingTemperature.value - 273.15;
    const three = made([
      motor('One', '96 mohm ± 5 %'),
      motor('Two', '99 mohm ± 60 %', `\n    limits: { winding: ${peak - 0.1} °C }`),
      motor('Three', '120 mohm ± 60 %', '\n    limits: { winding: 15.2 °C }'),
    ]);
    const { numbers, ranking } = costly(three);
    expect(ranking).toEqual(['One', 'Two', 'Three']);
    expect(numbers.map(({ candidates }) => candidates).sort()).toEqual([['One'], ['Two']]);
  });

  it('by the cooler winding where all are alike by what is asked for', () => {
    const two = made([motor('One', '96 mohm ± 60 %'), motor('Two', '97 mohm ± 1 %')]);
    // nothing moves on a bench
    const { numbers, ranking } = costly(two, 'fastest');
    expect(ranking).toEqual(['One', 'Two']);
    expect(numbers.find(({ candidates }) => candidates[0] === 'One')?.tips).toEqual([
      { at: expect.closeTo(0.097, 3), kind: 'leads', candidate: 'Two' },
    ]);
  });

  it('never for one that fails its limits by far', () => {
    const far = made([motor('One', '96 mohm ± 5 %'), motor('Two', '97 mohm ± 60 %', '\n    limits: { winding: 15.2 °C }')]);
    const { numbers, ranking } = costly(far);
    expect(ranking).toEqual(['One', 'Two']);
    // what only Two holds is not even looked at
    expect(numbers.map(({ candidates }) => candidates)).toEqual([['One']]);
  });
});
