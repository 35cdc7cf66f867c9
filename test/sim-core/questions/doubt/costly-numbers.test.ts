import { measureFirst } from '@shaftwork/sim-core';
import { checkScenario, withCostly } from '@shaftwork/sim-core/other-questions';
import { RULES } from '@shaftwork/sim-core/provenance/rules/rules';
import { WRITTEN } from '@shaftwork/sim-core/provenance/written';
import { STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { costlyNumbers } from '@shaftwork/sim-core/questions/doubt/costly-numbers';
import { measurementOf } from '@shaftwork/sim-core/questions/doubt/measurements';
import { outcomeOf } from '@shaftwork/sim-core/questions/judge/outcome';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const motor = (name: string, resistance: string, more = ''): string => `  - name: ${name}
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: ${resistance}, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm }${more} }
`;
const scenario = (...motors: string[]) => {
  const text = `title: Bench
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: coefficients, diameter: 9 in, table: [{ advance_ratio: 0, thrust: 0.1, power: 0.04 }, { advance_ratio: 1, thrust: 0.01, power: 0.01 }] }
profile: [{ for: 2 min, throttle: 80 % }]
candidates:
${motors.join('')}`;
  const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (!('prepared' in made)) throw new Error(JSON.stringify(made));
  return made.prepared;
};

describe('costly numbers', () => {
  it('finds a very doubtful resistance, and its effect is that of the real run at both ends', () => {
    const { candidates, scenario: given } = scenario(motor('One', '96 mohm ± 90 %'));
    const { numbers, all, simulations } = costlyNumbers(candidates, given.profile, given.objective);
    expect(numbers.length).toBeGreaterThanOrEqual(5);
    expect(numbers.length).toBeLessThanOrEqual(8);
    const resistance = numbers.find(({ subject }) => subject === 'motor.resistance')!;
    expect(resistance.standing).toBe('doubtful');
    expect([resistance.value, resistance.low, resistance.high]).toEqual([
      expect.closeTo(0.096, 9),
      expect.closeTo(0.096 / 1.9, 9),
      expect.closeTo(0.096 * 1.9, 9),
    ]);
    const { key } = candidates[0].data.motor.resistance.unknown;
    const peak = (z: number) =>
      outcomeOf(candidates[0], given.profile, given.objective, (each) => (each === key ? z : 0)).simulation.highest.windingTemperature
        .value;
    const [effect] = resistance.effects;
    expect(effect.limit).toBe('windingTemperature');
    expect(effect.low).toBe(peak(-STANDARD_DEVIATIONS_95));
    expect(effect.high).toBe(peak(STANDARD_DEVIATIONS_95));
    expect(effect.before).toBeCloseTo(0.5 * (effect.high - effect.low), 12);
    // ±3 % by millivoltmeter leaves ln 1.03/ln 1.9 of the interval, and about that share of the effect
    expect(effect.after! / effect.before).toBeGreaterThan(0.8 * (Math.log(1.03) / Math.log(1.9)));
    expect(effect.after! / effect.before).toBeLessThan(1.2 * (Math.log(1.03) / Math.log(1.9)));
    expect(resistance.advice!.how).toContain('millivolts');
    expect(resistance.advice!.key).toBe('motor.resistance');
    expect(all.map(({ before }) => before)).toEqual([...all.map(({ before }) => before)].sort((a, b) => b - a));
    expect(simulations).toBeLessThan(160);
  });

  it('and the list of assumptions give one number one interval and one effect', () => {
    const bare = scenario(
      motor('One', '96 mohm').replace(' resistance: 96 mohm,', '').replace(' no_load: { current: 0.9 A, voltage: 10 V },', ''),
    );
    const { costly, assumptions } = checkScenario(bare);
    const numbers = costly.numbers.filter(({ standing }) => standing === 'missing');
    expect(numbers.length).toBeGreaterThan(2);
    for (const { subject, words, low, high, effects } of numbers) {
      const numbersListed = assumptions.filter((each) => each.kind !== 'choice');
      const listed = numbersListed.find(({ origin, words: same }) => origin === subject && same === words)!;
      expect([listed.low, listed.high]).toEqual([expect.closeTo(low, 9), expect.closeTo(high, 9)]);
      const [effect] = effects;
      if (effect?.limit === 'windingTemperature') expect(costly.all.find((each) => each.subject === subject)!.before).toBe(effect.before);
    }
    // × or ÷ 2 of what is estimated from a motor's mass
    const resistance = numbers.find(({ subject }) => subject === 'outrunner-resistance')!;
    expect(resistance.high / resistance.value).toBeCloseTo(2.7, 1);
  });

  it('tells of a leader that changes by the cooler winding, where all are alike by what is asked for', () => {
    const { candidates, scenario: given } = scenario(motor('One', '96 mohm ± 60 %'), motor('Two', '97 mohm ± 1 %'));
    // nothing moves on a bench
    const { numbers, ranking } = costlyNumbers(candidates, given.profile, 'fastest');
    expect(ranking).toEqual(['One', 'Two']);
    const number = numbers.find(({ subject, candidates: whose }) => subject === 'motor.resistance' && whose[0] === 'One');
    expect(number?.tips).toContainEqual({ kind: 'leads', candidate: 'Two', at: expect.any(Number) });
  });

  it('tells of a leader that changes below what is written as well', () => {
    const { candidates, scenario: given } = scenario(motor('One', '97 mohm ± 60 %'), motor('Two', '96 mohm ± 1 %'));
    const { numbers, ranking } = costlyNumbers(candidates, given.profile, given.objective);
    expect(ranking).toEqual(['Two', 'One']);
    const number = numbers.find(({ subject, candidates: whose }) => subject === 'motor.resistance' && whose[0] === 'One');
    const [tip] = number?.tips ?? [];
    expect([tip.kind, tip.candidate]).toEqual(['leads', 'One']);
    expect(tip.at).toBeLessThan(0.097);
    expect(tip.at).toBeGreaterThan(0.09);
  });

  it('does not propose to measure what is already measured', () => {
    const { candidates, scenario: given } = scenario(motor('One', '96 mohm ± 2 %'));
    const { numbers } = costlyNumbers(candidates, given.profile, given.objective);
    expect(numbers.find(({ subject }) => subject === 'motor.resistance')?.advice).toBeUndefined();
  });

  it('tells where the leader changes, and the run driven on either side of that place has another leader', () => {
    const { candidates, scenario: given } = scenario(motor('One', '96 mohm ± 60 %'), motor('Two', '97 mohm ± 1 %'));
    const { numbers, ranking } = costlyNumbers(candidates, given.profile, given.objective);
    expect(ranking).toEqual(['One', 'Two']);
    const number = numbers.find(({ subject, candidates: whose }) => subject === 'motor.resistance' && whose[0] === 'One')!;
    const tip = number.tips.find(({ kind }) => kind === 'leads')!;
    expect(tip.candidate).toBe('Two');
    expect(tip.at).toBeGreaterThan(0.096);
    const first = (resistance: number): string => {
      const { prepared } = {
        prepared: scenario(motor('One', `${(1000 * resistance).toFixed(4)} mohm ± 60 %`), motor('Two', '97 mohm ± 1 %')),
      };
      return runScenario(prepared).ranking[0];
    };
    expect([first(0.995 * tip.at), first(1.01 * tip.at)]).toEqual(['One', 'Two']);
    // what both share moves both and changes nothing between them
    expect(
      numbers.flatMap(({ candidates: whose, tips }) => (whose.length === 0 ? tips.filter(({ kind }) => kind === 'leads') : [])),
    ).toEqual([]);
  });

  it('tells where a limit is passed, and the run driven on either side of that place keeps it and passes it', () => {
    const plain = scenario(motor('One', '96 mohm'));
    const [run] = runScenario(plain).candidates;
    const nominal = run.headline.peakWindingTemperature.nominal;
    const bound = nominal - 273.15 + 3;
    const limited = (resistance: string) => scenario(`${motor('One', resistance)}    limits: { winding: ${bound.toFixed(2)} °C }\n`);
    const made = limited('96 mohm ± 40 %');
    const { numbers } = costlyNumbers(made.candidates, made.scenario.profile, made.scenario.objective);
    const tip = numbers.find(({ subject }) => subject === 'motor.resistance')!.tips.find(({ limit }) => limit === 'windingTemperature')!;
    expect(tip.kind).toBe('fails');
    const meets = (resistance: number): boolean =>
      runScenario(limited(`${(1000 * resistance).toFixed(4)} mohm ± 40 %`)).candidates[0].feasible;
    expect([meets(0.99 * tip.at), meets(1.01 * tip.at)]).toEqual([true, false]);
  });

  it('tells no change that is none where ranking jumps: steps held or not decide between two crawlers', () => {
    const text = `title: Hill
ambient: { air: -10 °C }
battery: { chemistry: lithium-polymer, cells: { series: 2 }, capacity: 4 Ah }
vehicle: { mass: 2.9 kg }
wheel: { radius: 55 mm, rolling_resistance: 0.06 }
profile: [{ repeat: 2, steps: [{ for: 90 s, vehicle_speed: 1.2 m/s, grade: 35 % }, { for: 30 s, vehicle_speed: 1.5 m/s, grade: -35 % }, { for: 60 s, vehicle_speed: 1.2 to 4 m/s }] }]
candidates:
  - { name: Low, gearbox: { ratio: 13 }, motor: { layout: outrunner, kv: 1100 rpm/V, resistance: 55 mohm, mass: 110 g, can: { diameter: 35 mm, length: 36 mm } } }
  - { name: High, gearbox: { ratio: 32 }, motor: { layout: inrunner, kv: 2700 rpm/V, resistance: 13 mohm, mass: 180 g, can: { diameter: 36 mm, length: 50 mm } } }
`;
    const made = prepareScenario(new Map([['h.yaml', text]]), 'h.yaml');
    if (!('prepared' in made)) throw new Error(JSON.stringify(made));
    const { candidates, scenario: given } = made.prepared;
    const { numbers, ranking } = costlyNumbers(candidates, given.profile, given.objective);
    const { feasible } = outcomeOf(candidates.find(({ name }) => name === ranking[0])!, given.profile, given.objective).standing;
    const tips = numbers.flatMap((number) => number.tips);
    expect(tips.length).toBeGreaterThan(0);
    // what is known better moves no more, also where both ends of an interval lie on one side of its middle
    for (const { before, after = 0 } of numbers.flatMap(({ effects }) => effects)) expect(after).toBeLessThanOrEqual(before);
    for (const { kind, candidate } of tips) {
      if (kind === 'leads') expect(candidate).not.toBe(ranking[0]);
      else expect([candidate, kind]).toEqual([ranking[0], feasible ? 'fails' : 'meets']);
    }
  });

  it('of what lasts no time at all cost all of it, not more than any number', () => {
    const text = `title: Empty
objective: longest
battery: { chemistry: lithium-polymer, cells: { series: 2 }, capacity: 4 Ah, cell_cutoff: 4.12 V }
vehicle: { mass: 2.9 kg }
wheel: { radius: 55 mm, rolling_resistance: 0.06 }
profile: [{ for: 9 s, vehicle_speed: 1.2 m/s }]
candidates: [{ name: A, gearbox: { ratio: 13 }, motor: { layout: outrunner, kv: 1100 rpm/V, resistance: 55 mohm, mass: 110 g, can: { diameter: 35 mm, length: 36 mm } } }]
`;
    const made = prepareScenario(text);
    if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
    const { candidates, scenario: given } = made.prepared;
    const nominal = outcomeOf(candidates[0]!, given.profile, given.objective);
    expect(nominal.figures.time).toBe(0);
    const { numbers } = costlyNumbers(candidates, given.profile, given.objective);
    expect(numbers.length).toBeGreaterThan(0);
    for (const { cost } of numbers) expect(cost).toBeLessThan(100);
  });

  it('proposes one measurement, the same in the verdict of a run and first in a check', () => {
    const prepared = scenario(motor('One', '96 mohm ± 60 %'), motor('Two', '97 mohm ± 1 %'));
    const { verdict, costly } = withCostly(prepared, runScenario(prepared));
    const advised = checkScenario(prepared).costly.numbers.find(({ advice }) => advice !== undefined)!;
    expect(measureFirst(costly!)!.subject).toBe(advised.subject);
    expect(verdict.at(-1)).toContain(`Write it as ${advised.advice!.key}.`);
    expect(verdict.join(' ')).not.toContain('No single measurement');
  });
});

describe('measurements', () => {
  it('name a key that a scenario takes, or are not proposed', () => {
    for (const rule of Object.keys(RULES)) {
      const key = measurementOf(rule)?.key;
      if (key !== undefined) expect(Object.keys(WRITTEN), rule).toContain(key);
    }
    expect(measurementOf('inrunner-slot-contact')!.key).toBe('motor.thermal.winding_to_stator');
    expect(measurementOf('inductance-time')?.key).toBe('motor.inductance');
    expect(measurementOf('ripple-constant')?.key).toBe('controller.voltage_loss');
    expect(measurementOf('gear-efficiency')).toBeUndefined();
  });
});
