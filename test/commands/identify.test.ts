/** The command `identify`: what it says, writes and ends with. @module */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { dischargeText, sweepRows } from '../identify/make-logs.js';
import { call, ownFolder, scenarioPath } from './call.js';

const { folder, file } = ownFolder();
const log = (name: string) => fileURLToPath(new URL(`../../scenarios/logs/${name}.csv`, import.meta.url));

describe('identify', () => {
  it('tells a motor from its sweep, and writes page and part files', async () => {
    const html = join(folder, 'bench.html');
    const parts = join(folder, 'parts');
    const { code, out, err } = await call('identify', log('motor-sweep'), '--html', html, '--write', parts);
    expect(code).toBe(0);
    expect(out).toMatch(/Kv +90\d\.\d.rpm\/V/);
    expect(err).toMatch(/Written: .*motor\.yaml/);
    expect(readFileSync(join(parts, 'motor.yaml'), 'utf8')).toMatch(/^part: motor\nsource: .*\nkv: 90\d\.?\d? rpm\/V ± 0\.\d+ %/);
    const page = readFileSync(html, 'utf8');
    expect(page).toContain('figure-voltage');
    expect(page).toContain('name="generator" content="shaftwork ');
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('says which command to try again where a log lacks a column', async () => {
    const { code, err } = await call('identify', file('lacks.csv', 'time [s],throttle [%]\n0,50\n1,60\n'));
    expect(code).toBe(2);
    expect(err).toMatch(/npx shaftwork identify \S*lacks\.csv/);
    expect(err).not.toContain('shaftwork check');
  });

  it('speaks JSON, a unit beside each number', async () => {
    const { code, out } = await call('identify', log('discharge'), '--pack', scenarioPath('survey-boat'), '--json');
    expect(code).toBe(0);
    const { schema, numbers } = JSON.parse(out);
    expect(schema).toBe('shaftwork.identify/1');
    const capacity = numbers.find(({ key }: { key: string }) => key === 'capacity');
    expect(capacity.unit).toBe('A·h');
    expect(capacity.low).toBeLessThan(5.89);
    expect(capacity.high).toBeGreaterThan(5.89);
  });

  it('takes columns by other names, semicolons and decimal commas, and the electrical speed', async () => {
    const messy = sweepRows(4)
      .replace('voltage [V],battery current [A],shaft speed [rpm]', 'Ubat,Ibat,erpm')
      .split('\n')
      .map((line) => line.replaceAll(',', ';').replaceAll('.', ','))
      .map((line) => line.replace(/^((?:[^;]*;){4})(\d+)/, (_, before: string, rpm: string) => `${before}${7 * Number(rpm)}`))
      .join('\n');
    const path = file('messy.csv', messy);
    const { code, out, err } = await call(
      'identify',
      path,
      '--electrical-rpm',
      '--column',
      'voltage=Ubat [V]',
      'battery_current=Ibat [A]',
      'shaft_speed=erpm [rpm]',
    );
    expect(err).toMatch(/comma taken for the mark before decimals/i);
    expect(code, err).toBe(0);
    expect(out).toMatch(/Kv +(89|90)\d\.\d.rpm\/V/);
  });

  it('says what a log lacks, all at once, and writes nothing', async () => {
    const path = file('thin.csv', 'time [s],rpm [rpm]\n0,1\n1,2\n2,3\n');
    const { code, err } = await call('identify', path, '--write', join(folder, 'none'));
    expect(code).toBe(2);
    expect(err).toMatch(/voltage \[V\]/);
    expect(err).toMatch(/battery current \[A\]/);
    expect(err).toMatch(/--column/);
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });

  it('refuses options that do not go together or mean nothing', async () => {
    for (const [argv, said] of [
      [['--heat', 'a.yaml', '--pack', 'b.yaml'], /not both/],
      [['--poles', '7'], /even number/],
      [['--column', 'volts=U [V]'], /one of time/],
      [['--pulse', '1100 us = 0 %'], /two at least/],
      [['--json', '--html', '-'], /standard output/],
    ] as const) {
      const { code, err } = await call('identify', log('motor-sweep'), ...argv);
      expect(code).toBe(2);
      expect(err).toMatch(said);
    }
    expect((await call('identify', join(folder, 'nowhere.csv'))).code).toBe(4);
  });

  it('ends with 1 where the log tells nothing', async () => {
    const rows = Array.from({ length: 12 }, (_, k) => `${k},11.1,${(20 + 0.1 * (k % 3)).toFixed(2)},18000`);
    const path = file('still.csv', ['time [s],voltage [V],battery current [A],shaft speed [rpm]', ...rows, ''].join('\n'));
    const { code, out } = await call('identify', path);
    expect(out).toMatch(/The log does not tell the Kv/);
    expect(code).toBeLessThanOrEqual(1);
  });
});

describe('identify --before --after', () => {
  it('finds nothing changed between a log and itself, and an aged pack between two discharges', { timeout: 60_000 }, async () => {
    const same = await call('identify', '--before', log('motor-sweep'), '--after', log('motor-sweep'));
    expect(same.code, same.err).toBe(0);
    expect(same.out).toMatch(/^Nothing changed/);
    for (const line of same.out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    const old = file('old.csv', dischargeText(13, { capacity: 0.8, resistance: 2, slow: 1.4 }));
    const { code, out } = await call(
      'identify',
      '--before',
      log('discharge'),
      '--after',
      old,
      '--pack',
      scenarioPath('survey-boat'),
      '--json',
    );
    expect(code).toBe(0);
    expect(JSON.parse(out).findings).toEqual(['aged-pack']);
  });

  it('wants both, and no log beside', async () => {
    expect((await call('identify', '--before', log('motor-sweep'))).err).toMatch(/belong together/);
    expect((await call('identify', log('motor-sweep'), '--plan', scenarioPath('survey-boat'))).code).toBe(2);
    expect((await call('identify')).code).toBe(2);
  });
});

it('identify --plan names six runs, hot ones short of the limit', { timeout: 60_000 }, async () => {
  const { code, out } = await call('identify', '--plan', scenarioPath('burst-glider'), '--json');
  expect(code).toBe(0);
  const { schema, runs, limit_degC: limit } = JSON.parse(out);
  expect(schema).toBe('shaftwork.bench-plan/1');
  expect(runs).toHaveLength(6);
  for (const { winding_degC: winding } of runs) expect(winding).toBeLessThan(limit - 5);
});

it('a log of ten thousand rows is read and identified in three seconds', { timeout: 60_000 }, async () => {
  const [head, ...lines] = sweepRows(8).trim().split('\n');
  const span = lines.length / 5;
  const long = Array.from({ length: 10_000 }, (_, k) => {
    const [time, ...rest] = lines[k % lines.length].split(',');
    return [(Number(time) + span * Math.floor(k / lines.length)).toFixed(1), ...rest].join(',');
  });
  const path = file('long.csv', [head, ...long, ''].join('\n'));
  // seconds of the processor, whatever else runs beside
  const begun = process.cpuUsage();
  const { code, err } = await call('identify', path, '--quiet');
  expect(code, err).toBe(0);
  const { user, system } = process.cpuUsage(begun);
  expect((user + system) / 1e6).toBeLessThan(3);
});

it('the logs of the demos are those that their script makes', () => {
  expect(readFileSync(log('motor-sweep'), 'utf8')).toBe(sweepRows(11));
  expect(readFileSync(log('discharge'), 'utf8')).toBe(dischargeText(13));
});
