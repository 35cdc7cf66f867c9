/** Heat data and packs from runs that were made: found again, and other runs foretold by them. @module */
import { fitRobustly } from '@shaftwork/sim-core/numerics/least-squares';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { heatModel } from '@shaftwork/sim-core/questions/identify/heat-model';
import { heatFound } from '@shaftwork/sim-core/questions/identify/identify-heat';
import { identifyPack } from '@shaftwork/sim-core/questions/identify/identify-pack';
import { INSTRUMENTS } from '@shaftwork/sim-core/questions/identify/instruments';
import { describe, expect, it } from 'vitest';
import { candidateOf, dischargeText, heatRows, WARMER } from '../../../identify/make-logs.js';

describe('a run that warms a motor and lets it cool', () => {
  const rows = heatRows(5, WARMER);
  const { name, given, data } = candidateOf('hot-day-mapper.yaml');
  const model = heatModel(name, given, data, rows);
  const fit = fitRobustly(model);

  it('gives its heat data, running and standing apart, with intervals that hold the truth', { timeout: 60_000 }, () => {
    const result = heatFound({ name, given, data, rows, sources: ['heat.csv'], taken: [] }, model, fit);
    const truth = WARMER(model.ways.length);
    expect(result.settled).toBe(true);
    let inside = 0;
    model.ways.forEach(({ way, start, deviation }, j) => {
      const found = result.numbers.find(({ key }) => key === way.key);
      const value = start * Math.exp(deviation * truth[j]);
      if (found !== undefined && found.low < value && value < found.high) inside++;
    });
    expect(inside).toBeGreaterThanOrEqual(model.ways.length - 1);
    expect(result.numbers.find(({ key }) => key === 'winding_to_stator')?.told).toBe(true);
    expect(result.parts.map(({ file }) => file)).toEqual(['motor-heat.yaml', 'cooling.yaml']);
  });

  it('foretells a repeat at another power within 3 K', { timeout: 60_000 }, () => {
    const { deviates } = fit;
    const other = { ...rows, current: rows.current.map((i) => (i > 1 ? 1.3 * i : i)) };
    const repeat = heatModel(name, given, data, other);
    const truth = repeat.predict([...WARMER(repeat.ways.length), 0, 0, 0, 0, 0]);
    const foretold = repeat.predict(deviates);
    const rms = Math.sqrt(truth.reduce((sum, each, k) => sum + (each - foretold[k]) ** 2, 0) / truth.length);
    expect(rms).toBeLessThan(3);
    const before = repeat.predict(deviates.map(() => 0));
    const unlearnt = Math.sqrt(truth.reduce((sum, each, k) => sum + (each - before[k]) ** 2, 0) / truth.length);
    expect(rms).toBeLessThan(0.5 * unlearnt);
  });
});

describe('a discharge', () => {
  const { data } = candidateOf('survey-boat.yaml');
  const { battery, start } = realise(data);
  const setup = { battery, charge: start.charge, temperature: start.cellTemperature, instruments: INSTRUMENTS };
  const rowsOf = (text: string) => {
    const lines = text
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => line.split(',').map(Number));
    const column = (k: number) => Float64Array.from(lines, (line) => line[k]);
    return { time: column(0), voltage: column(1), current: column(2), temperature: column(0).fill(Number.NaN) };
  };

  it('with pauses gives capacity and resistances', { timeout: 60_000 }, () => {
    let inside = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const result = identifyPack({ rows: rowsOf(dischargeText(seed)), setup, sources: ['d.csv'], taken: [] });
      for (const [key, truth] of [
        ['capacity', 0.95 * battery.capacity],
        ['resistance', 1.3 * battery.cellResistance],
        ['slow', 0.9 * battery.polarisationResistance],
      ] as const) {
        const found = result.numbers.find((each) => each.key === key);
        if (found !== undefined && found.low < truth && truth < found.high) inside++;
      }
    }
    expect(inside / 24).toBeGreaterThan(0.86);
  });

  it('at one current does not part the ohmic drop from the voltage at rest as one with pauses does', () => {
    const rows = rowsOf(dischargeText(3));
    const kept = Array.from(rows.time.keys())
      .filter((k) => rows.current[k] > 20)
      .slice(0, 118);
    const part = (values: Float64Array) => Float64Array.from(kept, (k) => values[k]);
    const plain = { time: part(rows.time), voltage: part(rows.voltage), current: part(rows.current), temperature: part(rows.temperature) };
    const widthOf = (given: typeof rows): number => {
      const found = identifyPack({ rows: given, setup: { ...setup, charge: 1 }, sources: ['d.csv'], taken: [] }).numbers.find(
        ({ key }) => key === 'resistance',
      );
      return (found?.high ?? 0) / (found?.low ?? 1);
    };
    expect(widthOf(plain)).toBeGreaterThan(1.3);
    expect(widthOf(rows)).toBeLessThan(1.1);
    const refused = identifyPack({ rows: plain, setup, sources: ['d.csv'], taken: [] }).numbers.find(({ key }) => key === 'slow');
    expect(refused?.told).toBe(false);
    expect(refused?.instead?.run?.words).toMatch(/pause/);
  });
});
