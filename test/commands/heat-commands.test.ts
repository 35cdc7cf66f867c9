/** rate, cool and reading in process: what they print, their JSON, their exit codes, and what they refuse. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { call, scenarioPath } from './call.js';

const boat = scenarioPath('survey-boat');

/** Every number finite, and every numeric key ending in its unit; ratios and counts are the ones named. */
const PLAIN = /^(?:samples|surprise)$/;
function units(document: unknown): void {
  JSON.parse(JSON.stringify(document), (key, value) => {
    if (typeof value === 'number') {
      expect(Number.isFinite(value), key).toBe(true);
      if (Number.isNaN(Number(key)) && !PLAIN.test(key)) expect(key).toMatch(/_(?:A|W|Nm|rpm|s|percent|degC|m_per_s|W_per_K|m2)$/);
    }
    expect(value === null, `${key} is null`).toBe(false);
    return value;
  });
}

describe('rate', () => {
  it('tells what may last, with the maker’s share and the limit', async () => {
    const { code, out } = await call('rate', boat);
    expect(code).toBe(0);
    expect(out).toContain('for ever (S1)');
    expect(out).toMatch(/Small, pack held at 50\s%/);
    expect(out).toMatch(/for ever \(S1\) .*winding/);
    // a share of what: the maker's amperes; and whether it is the motor or the load that stops there
    expect(out).toMatch(/of maker’s A/);
    expect(out).not.toMatch(/% W/);
    for (const line of out.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it('prints JSON whose numbers carry their units, for the cycle asked for', async () => {
    const { code, out } = await call('rate', boat, '--cycle', '2 min', '--charge', '80 %', '--json');
    expect(code).toBe(0);
    const document = JSON.parse(out);
    units(document);
    expect(document.schema).toBe('shaftwork.rating/1');
    expect(document.candidates[2].rating.intermittent.cycle_s).toBe(120);
    expect(document.candidates[0].rating.charge_percent).toBeCloseTo(80, 9);
    expect(document.candidates[2].rating.continuous.kind).toBe('limited');
  });

  it('refuses a charge or cycle that is none', async () => {
    expect((await call('rate', boat, '--charge', '120 %')).code).toBe(2);
    expect((await call('rate', boat, '--cycle', '10')).err).toContain('--cycle');
  });
});

describe('cool', () => {
  /** The boat on its way out and home, without the survey between. */
  const folder = mkdtempSync(join(tmpdir(), 'cool-'));
  const home = join(folder, 'home.yaml');
  const whole = readFileSync(boat, 'utf8');
  writeFileSync(
    home,
    `${whole.slice(0, whole.indexOf('profile:'))}profile: [{ for: 2 min, vehicle_speed: 2 m/s }, { for: 4 min, throttle: 100 % }]\n${whole.slice(whole.indexOf('objective:'))}`,
  );

  it('says what would do for the one that fails, and leaves the others alone', async () => {
    const { code, out } = await call('cool', home);
    expect([0, 1]).toContain(code);
    expect(out).toContain('Long stays within its temperature limits');
    expect(out).toContain('Small keeps too seldom within its limit of winding');
  });

  it('tells of what cools one part alone how often all limits are kept with it', async () => {
    const text = readFileSync(home, 'utf8').replace('controller: 95 °C', 'controller: 47 °C');
    const path = join(folder, 'one-part.yaml');
    // the two that keep their winding cool are left out
    writeFileSync(path, `${text.slice(0, text.indexOf('  - name: Wide'))}${text.slice(text.indexOf('  - name: Small'))}`);
    const { code, out } = await call('cool', path);
    const json = await call('cool', path, '--json');
    units(JSON.parse(json.out));
    expect(json.code).toBe(code);
    expect(out).toMatch(/Small keeps too seldom within its limit of winding .* and\sof\scontroller/s);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /a controller that gives .*: chance 9\d %, of all its temperature limits [0-8]?\d %; nominal winding 1[3-9]\d °C/,
    );
  });
});

describe('reading', () => {
  it('goes from the can back to the winding’s peak, hotter than what was read', async () => {
    const { code, out } = await call(
      'reading',
      boat,
      '--can',
      '70 °C',
      '--after',
      '30 s',
      '--candidate',
      'Small',
      '--samples',
      '16',
      '--json',
    );
    expect(code).toBe(0);
    const document = JSON.parse(out);
    units(document);
    expect(document.candidates).toHaveLength(1);
    expect(document.candidates[0].hiddenPeak.nominal_degC).toBeGreaterThan(100);
    const text = await call('reading', boat, '--can', '70 °C', '--after', '30 s', '--candidate', 'Small', '--samples', '16');
    expect(text.out.replace(/\s+/g, ' ')).toMatch(/Small: 70 °C on the can 0:30 after the stop means that the winding had peaked at/);
  });

  it('refuses no reading, two readings, no time, and one that tells nothing', async () => {
    expect((await call('reading', boat, '--after', '60 s')).code).toBe(2);
    expect((await call('reading', boat, '--can', '58 °C', '--end', '50 °C', '--after', '60 s')).code).toBe(2);
    expect((await call('reading', boat, '--can', '58 °C')).err).toContain('--after');
    const cold = await call('reading', boat, '--can', '20 °C', '--after', '60 s');
    expect(cold.code).toBe(2);
    expect(cold.err).toContain('not above the air');
  });
});
