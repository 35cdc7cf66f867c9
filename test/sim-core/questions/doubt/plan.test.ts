/** What is drawn and in which order; what a row of a draw says against the run itself; numbers and their measurements. */
import { inverseNormal } from '@shaftwork/sim-core/numerics/inverse-normal';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { realise, realiser } from '@shaftwork/sim-core/provenance/realise';
import { RULES, type RuleId } from '@shaftwork/sim-core/provenance/rules/rules';
import { unknownsOf } from '@shaftwork/sim-core/provenance/unknowns';
import { WRITTEN } from '@shaftwork/sim-core/provenance/written';
import { STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { measurementOf, onUsualSheets } from '@shaftwork/sim-core/questions/doubt/measurements';
import { groupOf, numbersOf } from '@shaftwork/sim-core/questions/doubt/numbers';
import { deviatesOf, modelFactor, modelKeys, planDoubt, sampleOf } from '@shaftwork/sim-core/questions/doubt/plan';
import {
  jobsOf,
  limitBits,
  ROW_FIGURES,
  type RowFigure,
  rowIndex,
  rowLength,
  sampleStart,
  watchedIn,
  watchedSamples,
  workDoubt,
} from '@shaftwork/sim-core/questions/doubt/sample';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { watchSystem } from '@shaftwork/sim-core/questions/simulate/watch';
import { describe, expect, it } from 'vitest';
import { OUTRUNNER, preparedOf, type Section } from '../../provenance/drives.js';

const two = (more: Section = {}) =>
  preparedOf({
    candidates: ['A', 'B'].map((name) => ({
      name,
      motor: { ...OUTRUNNER, resistance: name === 'A' ? '96 mohm ± 10 %' : '99 mohm ± 3 %' },
    })),
    ...more,
  });
const planned = (more: Section = {}, ask = {}) => {
  const { candidates, scenario } = two(more);
  return { candidates, plan: planDoubt(candidates, scenario.profile, scenario.objective, { samples: 16, seed: 4, ...ask }) };
};

describe('a plan', () => {
  it('draws every unknown of all, and the model’s error, common and each one’s own', () => {
    const { candidates, plan } = planned();
    expect(plan.names).toEqual(['A', 'B']);
    expect(plan.unknowns).toHaveLength(unknownsOf(candidates).length + 3);
    expect(modelKeys('A')).toEqual(['model', 'model@A']);
    const of = (key: string) => plan.unknowns.find((each) => each.key === key);
    expect(of('model')).toMatchObject({ candidates: ['A', 'B'], group: 'model', value: 1 });
    expect(of('model@B')).toMatchObject({ candidates: ['B'], group: 'model@own' });
    expect(of('model@B')?.words).toBe(`${of('model')?.words} (each one’s own part)`);
    expect(of('model')?.spread).toEqual({ shape: 'normal', sd: 0.1 / STANDARD_DEVIATIONS_95 });
  });

  it('has what matters most first: of two of one kind the more doubtful', () => {
    const { plan } = planned();
    const resistances = plan.unknowns.filter(({ subject }) => subject === 'motor.resistance');
    expect(resistances.map(({ candidates }) => candidates)).toEqual([['A'], ['B']]);
    // a label's Kv, ± 9 %, before a weight of ± a few per cent
    const place = (subject: string): number => plan.unknowns.findIndex((each) => each.subject === subject);
    expect(place('motor.kv')).toBeLessThan(place('motor.mass') < 0 ? plan.unknowns.length : place('motor.mass'));
    expect(place('motor.kv')).toBeLessThan(place('motor.resistance'));
  });

  it('is quasi-random in its first 48 at most, seeded random in the rest, and the same for the same seed', () => {
    const { plan } = planned();
    expect(plan.quasiRandom).toBe(Math.min(48, plan.unknowns.length));
    const plain = planned({}, { quasiRandom: false }).plan;
    expect([plain.quasiRandom, plain.sequence]).toEqual([0, undefined]);
    for (const each of [plan, plain]) {
      const u = sampleOf(each, 3);
      expect(u).toHaveLength(each.unknowns.length);
      expect([...u].every((x) => x > 0 && x < 1)).toBe(true);
      expect(sampleOf(each, 3)).toEqual(u);
      expect(sampleOf(each, 4)).not.toEqual(u);
      const z = deviatesOf(each, 3);
      each.unknowns.forEach(({ key }, j) => {
        expect(z.get(key)).toBe(inverseNormal(u[j]));
      });
    }
    expect(sampleOf(planned({}, { seed: 5 }).plan, 3)).not.toEqual(sampleOf(plan, 3));
    // quasi-random points fill each axis evenly: of sixteen one in each sixteenth
    const first = Array.from({ length: 16 }, (_, i) => Math.floor(16 * sampleOf(plan, i)[0]));
    expect(new Set(first).size).toBe(16);
  });

  it('looks at the ends of the steps, filled up evenly', () => {
    const times = planned({
      profile: [
        { for: '7 s', throttle: '50 %' },
        { for: '57 s', throttle: '60 %' },
      ],
    }).plan.times;
    expect(times).toEqual(Array.from({ length: 65 }, (_, k) => k));
    const many = planned({ profile: [{ repeat: 150, steps: [{ for: '2 s', throttle: '50 %' }] }] }).plan.times;
    expect(many).toHaveLength(200);
    expect([many[0], many[1], many.at(-1)]).toEqual([0, expect.closeTo(300 / 199, 9), 300]);
  });

  it('looks at the ends of as many as 136 steps, of more evenly', () => {
    const { candidates } = two();
    const times = (n: number) => {
      const profile = Array.from({ length: n }, () => ({ duration: 1, hold: 'throttle' as const, value: { from: 0.5, to: 0.5 } }));
      return planDoubt(candidates, profile, 'coolest', { samples: 16, seed: 1 }).times;
    };
    // every second, and 63 places between of which seven are whole seconds
    expect(times(136)).toHaveLength(137 + 63 - 7);
    expect(times(137)).toEqual(Array.from({ length: 200 }, (_, k) => expect.closeTo((137 * k) / 199, 9)));
  });

  it('counts a temperature by its share of the whole, and draws plainly what the seed and the number of the draw give', () => {
    const { plan } = planned({ ambient: { air: '15 °C ± 4 K' } });
    const place = (subject: string): number => plan.unknowns.findIndex((each) => each.subject === subject);
    // 4 K of 288 are little beside a resistance ± 10 %
    expect(place('ambient.air')).toBeGreaterThan(place('motor.resistance'));
    const plain = planned({}, { quasiRandom: false }).plan;
    const random = seededRandom(4, 4);
    expect([...sampleOf(plain, 3)]).toEqual(plain.unknowns.map(() => random.fraction()));
  });

  it('needs sixteen samples, whole ones', () => {
    expect(() => planned({}, { samples: 15 })).toThrow(/16 times or more, not 15/);
    expect(() => planned({}, { samples: 16.5 })).toThrow(RangeError);
  });

  it('the model’s factor is one and a tenth at the end of its interval, four fifths of the variance common', () => {
    const [all, own] = modelKeys('A');
    const at = (z: Readonly<Record<string, number>>): number => modelFactor((key) => z[key] ?? 0, 'A');
    expect(at({})).toBe(1);
    expect(at({ [all]: STANDARD_DEVIATIONS_95 }) - 1).toBeCloseTo(0.1 * Math.sqrt(0.8), 12);
    expect(at({ [own]: STANDARD_DEVIATIONS_95 }) - 1).toBeCloseTo(0.1 * Math.sqrt(0.2), 12);
  });
});

describe('a row', () => {
  const LIMITED = {
    limits: { winding: '15.5 °C', reserve: '99.9 %' },
    objective: 'longest',
    profile: [{ for: '4 s', throttle: '70 %', label: 'x' }],
  };
  it('has the figures of the run with that draw, temperatures with the model’s error of it', () => {
    const { candidates, plan } = planned(LIMITED);
    const rows = workDoubt(plan, candidates, { from: 2, to: 3 });
    const length = rowLength(plan);
    expect(rows).toHaveLength(2 * length);
    candidates.forEach(({ name, data }, c) => {
      const deviates = deviatesOf(plan, 2);
      const draw = (key: string): number => deviates.get(key) ?? 0;
      const system = realiser(data)(draw);
      const factor = modelFactor(draw, name);
      const run = simulate(system, plan.profile, { method: 'dormand-prince', relative: 1e-6, record: false });
      const value = (figure: RowFigure): number => rows[c * length + rowIndex(figure)];
      const start = system.start.motorTemperature;
      expect(value('windingTemperature')).toBeCloseTo(start + factor * (run.highest.windingTemperature.value - start), 1);
      expect(value('canTemperature')).toBeCloseTo(start + factor * (run.highest.canTemperature.value - start), 1);
      expect(value('motorCurrent') / run.highest.motorCurrent.value).toBeCloseTo(1, 3);
      expect(value('batteryCurrent') / run.highest.batteryCurrent.value).toBeCloseTo(1, 3);
      expect(value('thrust') / run.highest.thrust.value).toBeCloseTo(1, 3);
      expect(value('shaftSpeed') / run.highest.shaftSpeed.value).toBeCloseTo(1, 3);
      expect(value('chargeLeft')).toBeCloseTo(run.state[run.kernel.at.charge], 4);
      expect([value('topSpeed'), value('runTime'), value('end'), value('stepsLost'), value('lack')]).toEqual([0, 4, 0, 0, 0]);
      expect(value('mass')).toBe(system.motor.mass);
      const passes = (id: 'windingTemperature' | 'reserve'): boolean => (value('passed') & limitBits([id])) !== 0;
      expect(passes('windingTemperature')).toBe(value('windingTemperature') > system.limits.windingTemperature);
      expect([passes('reserve'), value('chargeLeft') < 0.999]).toEqual([true, true]);
      expect(value('passed') & limitBits(['motorCurrent'])).toBe(0);
      expect(value('timeToReserve')).toBeGreaterThan(0);
      expect(value('timeToCutoff')).toBeGreaterThan(value('timeToReserve'));
      expect(value('canAfterStop')).toBeGreaterThan(start);
      // the first and the last of the plan's times, the winding first
      const at = (k: number): number => rows[c * length + ROW_FIGURES.length + k];
      expect(at(0)).toBeCloseTo(start, 6);
      expect(at(plan.times.length - 1)).toBeCloseTo(value('windingTemperature'), 1);
    });
  });

  it('does not drive on to the cut-off where nobody asks how long', () => {
    const { candidates, plan } = planned();
    const rows = workDoubt(plan, candidates.slice(0, 1), { from: 0, to: 1 });
    expect([rows[rowIndex('timeToCutoff')], rows[rowIndex('timeToReserve')]]).toEqual([Number.NaN, Number.NaN]);
  });

  it('has behind it what a log has measured', () => {
    const watch = { candidate: 'B', ids: ['shaft_speed', 'battery_current'] as const, times: Float64Array.of(1, 3) };
    const { candidates, plan } = planned({ profile: [{ for: '4 s', throttle: '70 %' }] }, { watch });
    expect(watchedSamples(plan)).toBe(16);
    expect(sampleStart(plan, 2) - sampleStart(plan, 1)).toBe(2 * rowLength(plan) + 4);
    const rows = workDoubt(plan, candidates, { from: 0, to: 2 });
    expect(rows).toHaveLength(sampleStart(plan, 2));
    const deviates = deviatesOf(plan, 1);
    const system = realiser(candidates[1].data)((key) => deviates.get(key) ?? 0);
    const seen = watchSystem(system, watch);
    simulate(system, plan.profile, { method: 'dormand-prince', relative: 1e-6, record: false, watch: seen.watch });
    watchedIn(plan, rows, 1).forEach((each, k) => {
      expect(each / seen.series()[k]).toBeCloseTo(1, 3);
    });
    expect(watchedSamples(planned().plan)).toBe(0);
  });

  it('jobs share the samples out, the last what is left', () => {
    expect(jobsOf({ ...planned().plan, samples: 40 }, 16)).toEqual([
      { from: 0, to: 16 },
      { from: 16, to: 32 },
      { from: 32, to: 40 },
    ]);
  });
});

describe('numbers as people speak of them', () => {
  it('are rules with common and own error together, along the steepest way', () => {
    const { candidates } = two();
    const numbers = numbersOf(unknownsOf(candidates));
    const rule = numbers.find(({ direction }) => direction.size === 3);
    if (rule === undefined) throw new Error('no rule with an own part of each');
    expect(groupOf(rule)).toMatch(/^rule:/);
    expect(groupOf(rule)).not.toContain('@own');
    const entries = unknownsOf(candidates).filter(({ group }) => group.replace(/@own$/, '') === groupOf(rule));
    const sd = (key: string): number => {
      const spread = entries.find((each) => each.key === key)?.spread;
      return spread?.shape === 'log-normal' ? spread.sigma : spread?.shape === 'normal' ? spread.sd : 0;
    };
    const [common, own] = [entries[0].key, entries[1].key].map(sd);
    const size = Math.hypot(common, own);
    expect(rule.direction.get(entries[0].key)).toBeCloseTo(common / size, 9);
    expect(rule.direction.get(entries[1].key)).toBeCloseTo(own / size, 9);
    expect(rule.spread.shape === 'log-normal' ? rule.spread.sigma : 0).toBeCloseTo(size, 9);
    expect([...rule.candidates].sort()).toEqual(['A', 'B']);
    const given = numbers.filter(({ subject }) => subject === 'motor.resistance');
    expect(given.map((each) => each.candidates)).toEqual([['A'], ['B']]);
    for (const { direction } of given) expect([...direction.values()]).toEqual([1]);
  });

  it('are measured by a way that says how, how well, and where it is written', () => {
    expect(measurementOf('motor.resistance')).toMatchObject({
      key: 'motor.resistance',
      effort: 'minutes',
      accuracy: 0.03,
      needsTheMotor: true,
    });
    expect(measurementOf('motor.kv')).toMatchObject({ accuracy: 0.01 });
    expect(measurementOf('battery.capacity')).toMatchObject({ effort: 'an hour', accuracy: 0.02, needsTheMotor: false });
    expect(measurementOf('battery.cell_resistance')?.how).toContain('two currents');
    expect(measurementOf('outrunner-resistance')?.key).toBe('motor.resistance');
    // what is done, the trouble, and whether the motor must be at hand
    const ways: readonly (readonly [RegExp, string, boolean])[] = [
      [/^read a thermometer/, 'minutes', false],
      [/^load the pack/, 'minutes', false],
      [/^discharge the pack/, 'an hour', false],
      [/^weigh it$/, 'minutes', false],
      [/millivolts across it/, 'minutes', false],
      [/^run the controller at half throttle/, 'an hour', false],
      [/the ripple’s$/, 'minutes', true],
      [/millivolts between them$/, 'minutes', true],
      [/divide its speed by the voltage/, 'minutes', true],
      [/inductance meter/, 'minutes', true],
      [/note voltage, current and speed$/, 'minutes', true],
      [/splits its losses$/, 'minutes', true],
      [/^open the motor/, 'an hour', true],
      [/0.39 % a kelvin$/, 'an hour', true],
      [/how fast the can falls$/, 'an hour', true],
      [/first seconds of warming/, 'an hour', true],
      [/known power for some minutes$/, 'an hour', true],
      [/between can and water$/, 'an hour', true],
      [/^pull the vehicle/, 'an hour', false],
      [/luggage scale$/, 'an hour', false],
      [/^drive this propeller with any known motor/, 'an afternoon', false],
    ];
    const subjects = Object.keys(RULES) as RuleId[];
    const told = [...subjects, ...Object.keys(WRITTEN)].flatMap((subject) => measurementOf(subject) ?? []);
    for (const [how, effort, needsTheMotor] of ways) {
      const found = told.filter((each) => how.test(each.how));
      expect(found.length, String(how)).toBeGreaterThan(0);
      for (const each of found) expect([each.effort, each.needsTheMotor], each.how).toEqual([effort, needsTheMotor]);
    }
    for (const { key, how, accuracy } of told) {
      expect(
        ways.filter(([way]) => way.test(how)),
        how,
      ).toHaveLength(1);
      expect(key).not.toBe('');
      expect(accuracy).toBeGreaterThan(0);
    }
    // what has no key can be written nowhere
    for (const subject of subjects) if (RULES[subject].key === null) expect(measurementOf(subject)).toBeUndefined();
  });

  it('that sheets usually have are those of resistance and no-load current, by rule', () => {
    expect(onUsualSheets('outrunner-resistance')).toBe(true);
    expect(onUsualSheets('motor.resistance')).toBe(false);
    const usual = (Object.keys(RULES) as RuleId[]).filter(onUsualSheets);
    for (const subject of usual) expect(['resistance', 'no-load']).toContain(RULES[subject].group);
    expect(onUsualSheets('convection-error')).toBe(false);
  });
});

it('realised without a draw is the nominal drive', () => {
  const { candidates } = two();
  expect(realise(candidates[0].data).motor.resistance).toBeCloseTo(0.096, 12);
});
