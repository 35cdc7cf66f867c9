import { STANDARD_DEVIATIONS_95 } from '@shaftwork/sim-core/quantities';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { costlyNumbers } from '@shaftwork/sim-core/studies/costly-numbers';
import { outcomeOf } from '@shaftwork/sim-core/studies/outcome';
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
    expect(numbers).toHaveLength(3);
    const resistance = numbers.find(({ subject }) => subject === 'motor.resistance')!;
    expect(resistance.standing).toBe('doubtful');
    expect(resistance.tolerance.halfWidth).toBeCloseTo(0.9, 9);
    const { key } = candidates[0].data.motor.resistance.unknown;
    const peak = (z: number) =>
      outcomeOf(candidates[0], given.profile, given.objective, (each) => (each === key ? z : 0)).simulation.highest.windingTemperature
        .value;
    const [effect] = resistance.effects;
    expect(effect.low).toBe(peak(-STANDARD_DEVIATIONS_95));
    expect(effect.high).toBe(peak(STANDARD_DEVIATIONS_95));
    expect(resistance.before).toBeCloseTo(0.5 * (effect.high - effect.low), 12);
    // ±3 % by millivoltmeter leaves ln 1.03/ln 1.9 of the interval, and about that share of the effect
    expect(resistance.after / resistance.before).toBeGreaterThan(0.8 * (Math.log(1.03) / Math.log(1.9)));
    expect(resistance.after / resistance.before).toBeLessThan(1.2 * (Math.log(1.03) / Math.log(1.9)));
    expect(resistance.advice.how).toContain('millivolts');
    expect(all.map(({ before }) => before)).toEqual([...all.map(({ before }) => before)].sort((a, b) => b - a));
    expect(simulations).toBeLessThan(100);
  });

  it('does not ask for what is already measured', () => {
    const { candidates, scenario: given } = scenario(motor('One', '96 mohm ± 2 %'));
    const { numbers } = costlyNumbers(candidates, given.profile, given.objective);
    expect(numbers.map(({ subject }) => subject)).not.toContain('motor.resistance');
  });

  it('says who would lead where a number in doubt changes the choice', () => {
    const { candidates, scenario: given } = scenario(motor('One', '96 mohm ± 60 %'), motor('Two', '97 mohm ± 1 %'));
    const { numbers, ranking } = costlyNumbers(candidates, given.profile, given.objective);
    expect(ranking).toEqual(['One', 'Two']);
    expect(numbers.find(({ subject }) => subject === 'motor.resistance')?.changesChoiceTo).toBe('Two');
    // what both share moves both and changes nothing
    expect(numbers.find(({ subject }) => subject === 'outrunner-slot-contact')?.changesChoiceTo).toBeUndefined();
  });
});
