/** `run --measured`: a log laid over the run, as a person with a messy one meets it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { call, ownFolder, SMALLEST, scenarioPath } from './call.js';

const { folder, file } = ownFolder();
const boat = scenarioPath('survey-boat');
const LOG = fileURLToPath(new URL('../../scenarios/logs/survey-boat-long.csv', import.meta.url));
const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ').replace(/\s+/g, ' ');

describe('the demo log', () => {
  test('is laid over the run in terminal, JSON and report, and explained by the hull that drags more', async () => {
    const page = join(folder, 'boat.html');
    const { code, out } = await call('run', boat, '--measured', LOG, '--measured-on', 'Long', '--samples', '16', '--html', page);
    expect(code).toBe(0);
    const said = plain(out);
    expect(said).toMatch(/survey-boat-long\.csv, 393 rows, measured on Long, against the prediction: log predicted bias RMS in 5–95 %/);
    expect(said).toMatch(/battery current, A [\d.]+ [\d.]+ \+[\d.]+ A [\d.]+ A \d+ %/);
    expect(said).toMatch(/factor on the vehicle’s drag, 1\.\d+ in place of 1\.00 \(\+[12]\.\d of its own deviations\)/i);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    const html = readFileSync(page, 'utf8');
    expect(html).toContain('id="figure-measured"');
    expect(html).toMatch(/<h3>Residuals<\/h3>/);
  });
  test('is one part of the JSON, every number with its unit', async () => {
    const { out } = await call('run', boat, '--measured', LOG, '--measured-on', 'Long', '--samples', '0', '--json');
    const { measured } = JSON.parse(out) as { measured: Record<string, unknown> };
    expect(measured).toMatchObject({ schema: 'shaftwork.measured/1', candidate: 'Long', named: true, driven: false, rows: 393 });
    const channels = measured['channels'] as Record<string, unknown>[];
    expect(channels.map(({ id }) => id)).toEqual([
      'voltage',
      'battery_current',
      'shaft_speed',
      'vehicle_speed',
      'can_temperature',
      'controller_temperature',
    ]);
    const can = channels.find(({ id }) => id === 'can_temperature') ?? {};
    expect(Object.keys(can)).toEqual(
      expect.arrayContaining(['bias_K', 'rms_K', 'meanMeasured_degC', 'measured_degC', 'predicted_degC', 'time_s']),
    );
    expect(can).not.toHaveProperty('inside');
    expect(can['meanMeasured_degC']).toBeGreaterThan(14);
    expect(can['meanMeasured_degC']).toBeLessThan(60);
  });
});

describe('what cannot be', () => {
  test('is told with what to do', async () => {
    expect(await call('run', boat, '--measured', LOG, '--measured-on', 'Nobody')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--measured-on: expected one of Wide, Long, Small; found Nobody/),
    });
    expect(await call('run', boat, '--measured-on', 'Long')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/no log to compare with/),
    });
    expect((await call('run', boat, '--measured', join(folder, 'none.csv'))).code).toBe(4);
    const late = file('late.csv', 'time [s],voltage [V]\n0,11\n60,11\n');
    const scenario = file('late.yaml', `${SMALLEST}measured: { begins: 900 s }\n`);
    expect(await call('run', scenario, '--measured', late, '--samples', '0')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/no time in common/),
    });
  });
});

describe('a racer’s log: Latin-1, semicolons, decimal commas, ---, lines above the head, a brake below zero', () => {
  const rows = Array.from({ length: 1200 }, (_, k) => {
    const t = k / 10;
    const lap = t % 15;
    const gas = lap < 4 ? 100 : lap < 5 ? -40 : lap < 11 ? 60 : 80;
    const amps = gas > 0 ? 0.3 * gas * (1 + 0.2 * Math.sin(t)) : 0;
    const comma = (value: number, digits: number) => value.toFixed(digits).replace('.', ',');
    const clock = `00:0${Math.floor(t / 60)}:${comma(t % 60, 1).padStart(4, '0')}`;
    return [clock, gas, comma(11.6 - 0.02 * amps, 2), comma(amps, 1), k % 5 === 0 ? comma(35 + t / 10, 1) : '---', '0'].join(';');
  });
  const head = ['Telemetrie;Gerät 12', 'Strecke;Wiese Süd', '', 'Zeit;Gas;Spannung (V);Strom (A);Temperatur (°C);Drehzahl (U/min)'];
  const log = Buffer.from(`${[...head, ...rows].join('\r\n')}\r\n`, 'latin1');
  const columns =
    'columns: { time: Zeit, throttle: "Gas [%]", voltage: Spannung, battery_current: Strom, can_temperature: Temperatur, shaft_speed: "Drehzahl [rpm]" }';

  test('first tells the heads that it found', async () => {
    await call('init', join(folder, 'cart'), '--for', 'car');
    file('cart/lauf.csv', log);
    const car = readFileSync(join(folder, 'cart/car.yaml'), 'utf8');
    const driven = (profile: string): string =>
      car.replace(/^profile:[\s\S]*?(?=^objective:)/m, `profile: { log: lauf.csv${profile} }\n\n`);
    file('cart/first.yaml', driven(''));
    file('cart/second.yaml', driven(`, hold: throttle, ${columns}`));
    const first = await call('run', join(folder, 'cart/first.yaml'), '--samples', '0');
    expect(first.code).toBe(2);
    expect(plain(first.err)).toMatch(/a column “time”; found “Zeit”, “Gas”, “Spannung \(V\)”/);
  });
  test('is then driven and compared with its own other columns without being asked', async () => {
    const { code, out } = await call('run', join(folder, 'cart/second.yaml'), '--samples', '16');
    expect(code).toBe(0);
    const said = plain(out);
    expect(said).toMatch(
      /What lauf\.csv has besides what is driven, measured on 5\.4 to 1, the leader \(another: --measured-on\), against the prediction/,
    );
    expect(said).toMatch(
      /The log’s mean battery current is \d+\.\d A, the prediction \d+\.\d A \(.* in 9 of 10 draws\).*the car, its gear or its motor is not what is written, or a sensor is off/,
    );
    expect(said).toMatch(/“Drehzahl \(U\/min\)” left out: it is 0 throughout, as without a sensor/);
    expect(said).toMatch(/a brake, taken for off/);
    expect(said).toMatch(/A comma taken for the mark before decimals/);
  });
});
