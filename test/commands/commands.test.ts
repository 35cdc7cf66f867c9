/** The command in process: what goes to standard output, what to standard error, the exit code, and that nothing is half-written. */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { assumptionText } from '@shaftwork/cli/render/assumption-text';
import type { AssumedNumber } from '@shaftwork/sim-core';
import { describe, expect, it } from 'vitest';
import { call, ownFolder, SMALLEST, scenarioPath } from './call.js';

const boat = scenarioPath('survey-boat');
const { folder, file } = ownFolder();

describe('run', () => {
  it('prints one JSON document with three candidates and every number finite', async () => {
    const { code, out } = await call('run', boat, '--json');
    expect(code).toBe(0);
    const document = JSON.parse(out, (key, value) => {
      if (typeof value === 'number') expect(Number.isFinite(value), key).toBe(true);
      expect(value === null, `${key} is null`).toBe(false);
      return value;
    });
    expect(document.schema).toBe('shaftwork.run/1');
    expect(document.candidates).toHaveLength(3);
    expect(document.candidates[0].headline.peakWindingTemperature_degC).toBeCloseTo(109, 0);
  });

  it('leaves a report without outside references, under a content policy, and refuses somebody else’s file', async () => {
    const html = join(folder, 'boat.html');
    const first = await call('run', boat, '--html', html);
    expect(first.code).toBe(0);
    expect(first.err).toContain(html);
    const text = readFileSync(html, 'utf8');
    expect(text).toContain('Content-Security-Policy');
    expect(text.replaceAll('http://www.w3.org/', '')).not.toMatch(/(?:src|href)="(?!#|data:)|url\((?!#|'#|&quot;#)|https?:\/\//);
    expect((await call('run', boat, '--html', html, '--quiet')).code).toBe(0);
    const other = file('other.html', 'mine');
    const refused = await call('run', boat, '--html', other);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('--force');
    expect(readFileSync(other, 'utf8')).toBe('mine');
  });

  it.each(['latin1', 'utf16le'] as const)('reads a log in %s as its logger wrote it, and says what it took for what', async (encoding) => {
    const scenario = file(
      'old.yaml',
      SMALLEST.replace(/profile: .*/, 'profile: { log: old.csv, columns: { throttle: "Gas (°/100) [%]" } }'),
    );
    const text = 'Messung 3\r\nTime [s];Gas (°/100) [%];Temp °C\r\n0,0;80;21\r\n2,5;80;22\r\n';
    const marked = encoding === 'utf16le' ? `\ufeff${text}` : text;
    file('old.csv', Buffer.from(marked, encoding));
    const { code, out } = await call('run', scenario, '--samples', '0');
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('The line above the head in line 2 left out. A comma taken for the mark before decimals.');
  });

  it('runs a report again with its log, and asks for a log that is too long to be carried', async () => {
    const rows = (count: number) => Array.from({ length: count }, (_, k) => `${k / 10},${(60 + 20 * Math.sin(k / 90)).toFixed(2)}`);
    const scenario = file('logged.yaml', SMALLEST.replace(/profile: .*/, 'profile: { log: field.csv }'));
    const html = join(folder, 'logged.html');
    for (const [count, carried] of [
      [1000, true],
      [60_000, false],
    ] as const) {
      const log = file('field.csv', `time [s],throttle [%]\n${rows(count).join('\n')}\n`);
      expect((await call('run', scenario, '--html', html, '--samples', '0', '--force')).code).toBeLessThan(2);
      expect((await call('run', html, '--samples', '0')).err).toContain('no headline number moved');
      rmSync(log);
      const alone = await call('run', html, '--samples', '0');
      if (carried) expect(alone.err).toContain('no headline number moved');
      else {
        expect(alone.code).toBe(2);
        expect(alone.err).toContain('only the beginning of field.csv');
      }
    }
  });

  it('runs the smallest scenario, everything else estimated', async () => {
    const path = file('smallest.yaml', SMALLEST);
    const { code, out } = await call('run', path, '--json');
    expect([0, 1]).toContain(code);
    const { candidates, assumptions } = JSON.parse(out);
    const { headline } = candidates[0];
    // a 66 g outrunner on a 9 × 4.5 at 80 % of three cells draws some amperes and turns: believable, common practice
    expect(headline.peakMotorCurrent_A).toBeGreaterThan(4);
    expect(headline.peakMotorCurrent_A).toBeLessThan(25);
    expect(assumptions.length).toBeGreaterThan(20);
  });

  it('ends with 1 where no candidate meets every limit', async () => {
    const hot = file('hot.yaml', SMALLEST.replace('profile:', 'limits: { winding: 31 °C }\nprofile:'));
    expect((await call('run', hot)).code).toBe(1);
  });

  it('tells all problems at once with their places, and writes nothing', async () => {
    const bad = file('bad.yaml', SMALLEST.replace('96 mohm', '96').replace('2.2 Ah', '2.2 V').replace('mass: 66 g', 'mas: 66 g'));
    const html = join(folder, 'never.html');
    const { code, err, out } = await call('run', bad, '--html', html);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('bad.yaml:2:');
    expect(err).toContain('bad.yaml:7:');
    expect(err).toContain('mass');
    expect(existsSync(html)).toBe(false);
    expect(readdirSync(folder).some((name) => name.includes('.part'))).toBe(false);
  });

  it('ends with 1 where nobody holds every step, or nobody fits, though no limit is passed', async () => {
    const asks = file('asks.yaml', SMALLEST.replace(/profile: .*/, 'profile: [{ for: 20 s, thrust: 60 N }]'));
    const tight = file('tight.yaml', `${SMALLEST}space: { diameter: 20 mm }\n`);
    for (const [path, words] of [
      [asks, /hold/],
      [tight, /fit/],
    ] as const) {
      const { code, out } = await call('run', path, '--samples', '0');
      expect([code, words.test(out.split('\n\n')[1] ?? '')], out).toEqual([1, true]);
    }
    expect((await call('run', file('plain.yaml', SMALLEST), '--samples', '0')).code).toBe(0);
  });

  it('a missing file ends with 4, an unknown option with 2', async () => {
    expect((await call('run', join(folder, 'none.yaml'))).code).toBe(4);
    expect((await call('run', boat, '--htlm', 'x')).code).toBe(2);
    expect((await call('runn', boat)).code).toBe(2);
  });
});

describe('check, point, schema, help', () => {
  it('check tells what is odd, which numbers cost most, and what is assumed as far as it matters, in 80 columns', async () => {
    const { code, out } = await call('check', boat);
    expect(code).toBe(0);
    expect(out).toContain('the file can be run. ');
    expect(out).toContain('burst figure');
    expect(out.replace(/\s+/g, ' ')).toMatch(/[123] heat path from winding to stator of \w+: [\d.]+ W\/K \(/);
    expect(out).toContain('once measured');
    expect(out).not.toContain('emissivity');
    for (const line of out.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(80);
    const all = await call('check', boat, '--verbose');
    expect(all.out).toContain('emissivity');
    for (const line of all.out.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(80);
  });

  it('says of a number that several motors have what the worst of them moves', () => {
    const number: AssumedNumber = {
      candidates: ['First', 'Second'],
      path: 'motor.kv',
      words: 'Kv',
      dimension: 'speedConstant',
      value: 100,
      low: 90,
      high: 110,
      kind: 'given',
      origin: 'motor.kv',
      source: 'label',
    };
    const all = [19, 3].map((before, k) => ({ subject: 'motor.kv', words: 'Kv', candidate: ['First', 'Second'][k], before }));
    const costly = { numbers: [], all, ranking: [], simulations: 0 };
    const text = assumptionText([number], { ...costly, leading: ['First'] }, false);
    expect(text).toMatch(/winding\s+of First;[\s\S]*±19 K$/m);
    // with two that lead it says whose winding
    const named = assumptionText([number], { ...costly, leading: ['First', 'Second'] }, false);
    expect(named).toMatch(/of First or Second, the one named[\s\S]*±19 K \(First\)$/m);
    // motors of different Kv have each the range of its own
    const two = [
      { ...number, candidates: ['First'] },
      { ...number, candidates: ['Second'], value: 1000, low: 900, high: 1100 },
    ];
    const each = assumptionText(two, { ...costly, leading: ['First', 'Second'] }, false);
    expect(each.match(/\(\d+/g)).toHaveLength(2);
  });

  it('check prints one JSON document with every number finite', async () => {
    const { code, out } = await call('check', boat, '--json');
    expect(code).toBe(0);
    const document = JSON.parse(out, (key, value) => {
      if (typeof value === 'number') expect(Number.isFinite(value), key).toBe(true);
      expect(value === null, `${key} is null`).toBe(false);
      return value;
    });
    expect(document.schema).toBe('shaftwork.check/1');
    expect(document.costly.numbers.length).toBeGreaterThanOrEqual(5);
    expect(document.costly.numbers.length).toBeLessThanOrEqual(8);
    expect(document.audit.candidates).toHaveLength(3);
    expect(document.assumptions.length).toBeGreaterThan(20);
  });

  it('says of a thrust out of reach that the figures are the most the drive gives, which a limit may make less than full throttle', async () => {
    const limited = file('limited.yaml', SMALLEST.replace(/^battery:/m, 'controller: { motor_current_limit: 4 A }\nbattery:'));
    const { out, err } = await call('point', limited, '--thrust', '60 N');
    expect(err.replace(/\s+/g, ' ')).toContain(
      'out of reach; the figures are the most that the drive gives, at full throttle or at a limit',
    );
    expect(Number(/throttle +(\d+)/.exec(out)![1])).toBeLessThan(95);
    expect(out).toMatch(/motor current +4\.0/);
  });

  it('point closes its powers and holds a given throttle', async () => {
    const { code, out } = await call('point', boat, '--throttle', '70 %', '--json');
    expect(code).toBe(0);
    for (const candidate of JSON.parse(out).candidates) {
      expect(candidate.throttle_percent).toBeCloseTo(70, 9);
      const { batteryChemical_W, ...rest } = candidate.powers;
      const spent = Object.values(rest as Record<string, number>).reduce((sum, watts) => sum + watts, 0);
      expect(Math.abs(spent / batteryChemical_W - 1)).toBeLessThan(1e-9);
    }
    expect((await call('point', boat, '--throttle', '70')).code).toBe(2);
  });

  it('schema is a JSON Schema', async () => {
    const { code, out } = await call('schema');
    expect(code).toBe(0);
    expect(JSON.parse(out).properties).toHaveProperty('candidates');
  });

  it('alone says what it is and where to go on; help ends with 0', async () => {
    const { code, out } = await call();
    expect(code).toBe(0);
    expect(out).toContain('shaftwork run');
    expect((await call('--help')).code).toBe(0);
  });

  it('--help loads neither schema nor simulation nor report: a tenth of what check loads', () => {
    const bin = fileURLToPath(new URL('../../packages/cli/bin/shaftwork.js', import.meta.url));
    // Node lists every module that was loaded, in each thread; times would tell more of the machine than of the program
    const loaded = (name: string, ...words: string[]): number => {
      const NODE_V8_COVERAGE = join(folder, name);
      expect(spawnSync(process.execPath, [bin, ...words], { env: { ...process.env, NODE_V8_COVERAGE } }).status).toBe(0);
      const urls = readdirSync(NODE_V8_COVERAGE).flatMap((file) =>
        JSON.parse(readFileSync(join(NODE_V8_COVERAGE, file), 'utf8')).result.map(({ url }: { url: string }) => url),
      );
      return urls.filter((url) => url.startsWith('file:')).reduce((sum, url) => sum + statSync(new URL(url)).size, 0);
    };
    const [help, check] = [loaded('help', '--help'), loaded('check', 'check', file('loads.yaml', SMALLEST))];
    expect(help).toBeGreaterThan(1000);
    expect(help).toBeLessThan(0.1 * check);
  });
});
