import { readFileSync } from 'node:fs';
import { shapesOfScenario, windingsOfScenario } from '@shaftwork/sim-core/other-questions';
import { outcomeOf } from '@shaftwork/sim-core/questions/judge/outcome';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const made = prepareScenario(
  new Map([
    ['b.yaml', readFileSync(new URL('../../../../scenarios/survey-boat.yaml', import.meta.url), 'utf8').replace('repeat: 8', 'repeat: 1')],
  ]),
  'b.yaml',
);
if (!('prepared' in made)) throw new Error(JSON.stringify(made));
const { prepared } = made;
const { candidates, scenario } = prepared;

describe('reshape', () => {
  const result = shapesOfScenario(prepared, { reference: 'Wide' });

  it('has the reference itself in the family, at its own run’s peak', () => {
    const own = result.family.find(({ ratio }) => Math.abs(ratio - 39 / 47) < 1e-9)!;
    const run = outcomeOf(candidates[0], scenario.profile, scenario.objective);
    expect(own.peakWindingTemperature).toBeCloseTo(run.simulation.highest.windingTemperature.value, 1);
    expect(own.resistance).toBeCloseTo(0.065, 9);
  });

  it('stays in the space, and no member of the family that meets limits and space is cooler than the best', () => {
    const { best, family } = result;
    expect(best!.diameter).toBeLessThanOrEqual(0.042 + 1e-12);
    expect(best!.length).toBeLessThanOrEqual(0.08 + 1e-12);
    for (const point of family.filter(({ fits, meetsLimits }) => fits && meetsLimits))
      expect(point.peakWindingTemperature).toBeGreaterThanOrEqual(best!.peakWindingTemperature - 1e-9);
    expect(family.some(({ fits }) => !fits)).toBe(true);
    expect(result.real.map(({ name }) => name)).toEqual(['Wide', 'Long', 'Small']);
  });

  it('a current that lasts does so: copper loss at the limit is what the motor gives off', () => {
    for (const { continuousCurrent, resistance } of result.real) {
      expect(continuousCurrent).toBeGreaterThan(5);
      expect(continuousCurrent! ** 2 * resistance).toBeLessThan(200);
    }
    // more side under the jacket and a longer stack carry more current
    const [wide, long] = result.real;
    expect(long.continuousCurrent).toBeGreaterThan(wide.continuousCurrent!);
  });

  it('says between which diameters the shape hardly matters, where it hardly does', () => {
    const said = /From ([\d.]+).mm to ([\d.]+).mm across it changes by less than 2 K/.exec(result.sentences.join(' '));
    const good = [result.best!, ...result.family.filter(({ fits, meetsLimits }) => fits && meetsLimits)]
      .filter(({ peakWindingTemperature }) => peakWindingTemperature < result.best!.peakWindingTemperature + 2)
      .map(({ diameter }) => 1000 * diameter);
    const [thin, thick] = [Math.min(...good), Math.max(...good)];
    expect(said !== null).toBe(thick > 1.1 * thin);
    if (said !== null) expect(said.slice(1)).toEqual([thin.toFixed(1), thick.toFixed(1)]);
  });

  it('refuses a name that is no candidate', () => {
    expect(() => shapesOfScenario(prepared, { reference: 'Nobody' })).toThrow(RangeError);
  });
});

describe('rewind', () => {
  it('keeps to winds that meet the limits and do the same job, and says what stands beyond', () => {
    const [wide] = windingsOfScenario(prepared, { names: ['Wide'] }).candidates;
    expect(wide.points.map(({ speedConstant }) => speedConstant)).toEqual(
      [...wide.points.map(({ speedConstant }) => speedConstant)].sort((a, b) => a - b),
    );
    expect(wide.best).toMatchObject({ meetsLimits: true, stepsNotHeld: 0 });
    expect(wide.best!.speedConstant).toBeGreaterThanOrEqual(wide.range!.from * (1 - 1e-9));
    expect(wide.best!.speedConstant).toBeLessThanOrEqual(wide.range!.to * (1 + 1e-9));
    expect(wide.range!.below).toContain('thrust');
    expect(wide.range!.above).toMatch(/binds|cells|operating/);
    for (const point of wide.points.filter((each) => each.meetsLimits && each.stepsNotHeld === 0 && each.less === undefined))
      expect(point.objective).toBeGreaterThanOrEqual(wide.best!.objective - 1e-9);
  });
});
