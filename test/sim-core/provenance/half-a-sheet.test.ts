/** Lines that may be missing: the starters’ comments hold, and what stands in is told first among the numbers to measure. */
import { readFileSync } from 'node:fs';
import { checkScenario, shapesOfScenario, windingsOfScenario } from '@shaftwork/sim-core/other-questions';
import { halfWidth95 } from '@shaftwork/sim-core/quantities/spread';
import { type PreparedScenario, prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';

const starters = new URL('../../../packages/cli/starters/', import.meta.url);
const VEHICLES = ['aircraft', 'boat', 'car'] as const;

function prepared(vehicle: string, main: string, part: string): PreparedScenario {
  const files = new Map([
    [`${vehicle}.yaml`, main],
    ['parts/motor.yaml', part],
  ]);
  const made = prepareScenario(files, `${vehicle}.yaml`);
  if (!('prepared' in made)) throw new Error(JSON.stringify(made, null, 1));
  return made.prepared;
}
const textsOf = (vehicle: string): readonly [main: string, part: string] => [
  readFileSync(new URL(`${vehicle}/${vehicle}.yaml`, starters), 'utf8'),
  readFileSync(new URL(`${vehicle}/parts/motor.yaml`, starters), 'utf8'),
];
const without = (text: string, line: string): string => text.replace(`${line}\n`, '');

describe.each(VEHICLES)('the starter %s', (vehicle) => {
  const [main, part] = textsOf(vehicle);
  const MAY_GO = /leave the line out|delete this line/i;
  const lines = [main, part].flatMap((text) => text.split('\n').filter((line) => MAY_GO.test(line)));

  it.each(lines)('runs without %s', (line) => {
    const { candidates } = prepared(vehicle, without(main, line), without(part, line));
    expect(candidates).toHaveLength(2);
  });

  it('says so of resistance and of the no-load current', () => {
    for (const key of ['resistance', 'no_load']) expect(lines.filter((line) => line.startsWith(`${key}:`))).toHaveLength(1);
    expect(lines.length).toBeGreaterThan(4);
  });
});

describe('half a sheet', () => {
  const [main, part] = textsOf('aircraft');
  const drop = (text: string, ...keys: readonly string[]): string =>
    keys.reduce((left, key) => left.replace(new RegExp(`^ *${key}:.*\n`, 'm'), ''), text);
  const short = main.replace(/^profile:[\s\S]*?(?=^objective)/m, 'profile: [{ for: 20 s, throttle: 80 %, vehicle_speed: 14 m/s }]\n');
  const bare = prepared('aircraft', short, drop(part, 'resistance', 'no_load'));

  it('has a resistance from its mass, × or ÷ 2.7', () => {
    const { resistance } = bare.candidates[0].data.motor;
    // by hand: kt = 60/(2π·920) = 10.38 mN·m/A; K_m = 0.30·0.085^(5/6) = 0.0385 N·m/√W
    expect(resistance.value).toBeCloseTo((10.38e-3 / 0.0385) ** 2, 3);
    const halves = [resistance.unknown, resistance.own!].map(({ spread }) => Math.log1p(halfWidth95(spread)));
    expect(Math.exp(Math.hypot(...halves))).toBeCloseTo(2.7, 1);
  });

  it('is told first among the numbers to measure, and is left out of the audit', () => {
    const { costly, audit, assumptions } = checkScenario(bare);
    expect(costly.numbers[0]).toMatchObject({ subject: 'outrunner-resistance', standing: 'missing' });
    expect(assumptions.map(({ origin }) => origin)).toContain('outrunner-no-load-current');
    const ids = audit.candidates[0].figures.map(({ id }) => id);
    for (const id of ['motorConstant', 'stallCurrent', 'peakEfficiency', 'ratedCopperLoss'] as const) expect(ids).not.toContain(id);
    expect(audit.candidates[1].figures.map(({ id }) => id)).toContain('motorConstant');
  });

  it('keeps the law of its shape and of its winding', () => {
    const { points } = windingsOfScenario(bare, { names: ['First'] }).candidates[0];
    const products = points.map(({ resistance, speedConstant }) => resistance * speedConstant ** 2);
    for (const product of products) expect(product / products[0]).toBeCloseTo(1, 9);
    const family = shapesOfScenario(bare, { reference: 'First' }).family.map(({ resistance }) => resistance);
    expect(Math.max(...family) / Math.min(...family)).toBeGreaterThan(1.2);
  });

  it('asks for both numbers of each of several no-load points', () => {
    const files = new Map([
      ['aircraft.yaml', main],
      ['parts/motor.yaml', part.replace(/no_load: \{.*?\}/, 'no_load: [{ current: 0.9 A, voltage: 10 V }, { current: 1.1 A }]')],
    ]);
    const made = prepareScenario(files, 'aircraft.yaml');
    if (made.kind !== 'problems') throw new Error('it was taken');
    expect(made.problems.map(({ place }) => place.path)).toEqual(['candidates[0].motor.no_load.voltage']);
  });
});
