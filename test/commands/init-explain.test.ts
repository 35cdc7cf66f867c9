/** Starters that run untouched and never overwrite, and a text for every kind of problem and finding. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { STARTERS } from '@shaftwork/cli/commands/init';
import { EXPLAINED_KINDS, explanationOf } from '@shaftwork/sim-core/problems';
import { describe, expect, it } from 'vitest';
import { call, ownFolder } from './call.js';

const { folder, file } = ownFolder();

describe.each(STARTERS)('init --for %s', (vehicle) => {
  const into = join(folder, vehicle);
  const scenario = join(into, `${vehicle}.yaml`);

  it('writes a scenario, a part and the schemas, and prints the next commands', async () => {
    const { code, err } = await call('init', into, '--for', vehicle);
    expect(code).toBe(0);
    expect(readdirSync(into).sort()).toEqual(['part.schema.json', 'parts', 'scenario.schema.json', `${vehicle}.yaml`].sort());
    expect(err).toContain(`npx shaftwork run ${scenario}`);
    for (const path of [scenario, join(into, 'parts', 'motor.yaml')]) {
      const [first] = readFileSync(path, 'utf8').split('\n');
      const schema = /\$schema=(\S+)/.exec(first)![1];
      expect(existsSync(join(path, '..', schema))).toBe(true);
    }
  });

  it('runs untouched: believable figures, a choice, no finding', async () => {
    const { code, out } = await call('run', scenario, '--json', '--samples', '0');
    expect(code).toBe(0);
    const { candidates, verdict, findings } = JSON.parse(out);
    expect(verdict[0]).toMatch(/^Choose /);
    expect(findings).toEqual([]);
    for (const { headline } of candidates) {
      // common practice, no published source: warm and not burnt, some minutes of a pack
      expect(headline.peakWindingTemperature_degC).toBeGreaterThan(35);
      expect(headline.peakWindingTemperature_degC).toBeLessThan(130);
      expect(headline.chargeLeft_percent).toBeGreaterThan(20);
      expect(headline.timeToCutoff_s).toBeGreaterThan(5 * 60);
      expect(headline.driveEfficiency_percent).toBeGreaterThan(25);
      expect(headline.driveEfficiency_percent).toBeLessThan(75);
    }
    const [a, b] = candidates.map((each: { headline: Record<string, number> }) => each.headline['peakWindingTemperature_degC']);
    expect(Math.abs(a - b)).toBeGreaterThan(4);
    expect((await call('check', scenario)).code).toBe(0);
  });

  it('says beside the numbers of the motor where they stand and what to do where they are missing', () => {
    const part = readFileSync(join(into, 'parts', 'motor.yaml'), 'utf8');
    for (const key of ['kv', 'resistance', 'no_load', 'mass', 'can']) expect(part).toMatch(new RegExp(`^${key}: .* # .{10}`, 'm'));
    expect(part).toContain('missing: leave the line out');
  });

  it('never overwrites, with or without --force, and writes nothing then', async () => {
    const before = readFileSync(scenario, 'utf8');
    const { code, err } = await call('init', into, '--for', vehicle, '--force');
    expect(code).toBe(2);
    expect(err).toContain(scenario);
    expect(readFileSync(scenario, 'utf8')).toBe(before);
  });
});

it('init leaves nothing behind where one file stands in the way, or a folder cannot be made', async () => {
  file('half/scenario.schema.json', 'mine');
  expect((await call('init', join(folder, 'half'), '--for', 'car')).code).toBe(2);
  expect(readdirSync(join(folder, 'half'))).toEqual(['scenario.schema.json']);
  file('plain', 'a file');
  const { code, err } = await call('init', join(folder, 'plain', 'boat'), '--for', 'boat');
  expect(code).toBe(4);
  expect(err).toContain('Nothing was written');
  expect(err).not.toMatch(/ENOTDIR|mkdir/);
  expect(statSync(join(folder, 'plain')).isFile()).toBe(true);
});

describe('explain', () => {
  it('lists every kind, and prints a text of each within 80 columns', async () => {
    const { out } = await call('explain');
    for (const kind of EXPLAINED_KINDS) {
      expect(out).toContain(kind);
      const one = await call('explain', kind);
      expect(one.code).toBe(0);
      expect(one.out).toContain('Usual causes');
      expect(one.out).toContain('What to try');
      expect(Math.max(...one.out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    }
  });

  it('knows the words of the report, however they are spelt', async () => {
    for (const [words, says] of [
      [['winding'], 'copper of the motor'],
      [['S3'], 'IEC 60034-1'],
      [['draw'], 'tolerance'],
      [['motor', 'constant'], 'root of the copper loss'],
      [['Motor-Constant'], 'root of the copper loss'],
      [['bench reading'], 'from-reading'],
      [['for ever'], 'a burst'],
      [['gear ratio'], 'A higher ratio unloads the motor'],
    ] as const) {
      const { code, out } = await call('explain', ...words);
      expect(code).toBe(0);
      expect(out.replace(/\s+/g, ' ')).toContain(says);
      expect(out).not.toContain('Usual causes');
    }
    expect((await call('explain')).out).toContain('Words of the report');
  });

  it('never asks to hold a rated current for longer than a third of the time to the limit, or to feel a motor', () => {
    for (const kind of EXPLAINED_KINDS) {
      const { meaning, causes, tries } = explanationOf(kind)!;
      const text = [meaning, ...causes, ...tries].join(' ');
      expect(text, kind).not.toMatch(/(rated current for|hold[^.]*for) (ten|five) seconds|feel the can|taller gear|shorter gear/i);
    }
    expect(explanationOf('rated-current-overheats')!.tries[0]).toContain('a third of the time told');
    expect(explanationOf('below-stall-speed')!.tries[0]).toContain('Write vehicle_speed beside the throttle');
  });

  it('names the nearest kind of a misspelt one', async () => {
    const { code, err } = await call('explain', 'wrong-unti');
    expect(code).toBe(2);
    expect(err).toContain('npx shaftwork explain wrong-unit');
    expect((await call('explain', 'wrong')).err).toContain('these begin so: wrong-type, wrong-unit and wrong-dimension');
  });
});
