import { describe, expect, it } from 'vitest';
import { call, scenarioPath } from './call.js';

const boat = scenarioPath('survey-boat');

describe('why', () => {
  it('compares leader and runner-up in words and a table that adds up', async () => {
    const { code, out } = await call('why', boat);
    expect(code).toBe(0);
    expect(out).toContain('Long against Wide');
    const rows = out.split('\n').slice(out.split('\n').indexOf('peak winding temperature') + 1);
    const numbers = rows
      .slice(
        0,
        rows.findIndex((line) => line.trim() === ''),
      )
      // what a part is made of stands beneath it
      .filter((line) => !line.trim().startsWith('of it by'))
      .flatMap((line) => {
        const found = /(−?\d+\.\d)\s*(?:K|°C)\s*$/.exec(line);
        return found === null ? [] : [Number(found[1].replace('−', '-'))];
      });
    // from, parts, sum, to, joint effect; rounded to a tenth each
    const [from, sum, to] = [numbers[0], numbers[numbers.length - 3], numbers[numbers.length - 2]];
    const parts = numbers.slice(1, -3);
    expect(parts.length).toBeGreaterThan(2);
    expect(Math.abs(parts.reduce((total, part) => total + part, 0) - sum)).toBeLessThan(0.05 * (parts.length + 1));
    expect(Math.abs(from + sum - to)).toBeLessThan(0.11);
    expect(out).toMatch(/\(\d+\s+simulations\)/);
  });

  it('prints JSON with units in its keys, for two named candidates', async () => {
    const { code, out } = await call('why', boat, '--json', '--between', 'Small', 'Wide');
    expect(code).toBe(0);
    const found = JSON.parse(out);
    expect([found.from, found.to]).toEqual(['Small', 'Wide']);
    const [{ from_degC, to_degC, difference_K, parts }] = found.splits;
    expect(to_degC - from_degC).toBeCloseTo(difference_K, 9);
    expect(parts.reduce((sum: number, part: { value_K: number }) => sum + part.value_K, 0)).toBeCloseTo(difference_K, 6);
  });

  it('refuses names that are not there', async () => {
    const { code, err } = await call('why', boat, '--between', 'Wide', 'Nobody');
    expect(code).toBe(2);
    expect(err).toContain('Wide, Long, Small');
    expect((await call('why', boat, '--between', 'Wide')).code).toBe(2);
  });
});
