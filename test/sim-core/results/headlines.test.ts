import { CHANNELS } from '@shaftwork/sim-core/results/channels';
import { HEADLINE_IDS, HEADLINES } from '@shaftwork/sim-core/results/headlines';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

describe('the list of headline figures', () => {
  const { candidates } = runScenario(demo('burst-glider'));

  it('a run fills every row, and knows no figure beside them', () => {
    const found = new Set(candidates.flatMap(({ headline }) => Object.keys(headline)));
    expect([...found].every((id) => id in HEADLINES)).toBe(true);
    for (const id of HEADLINE_IDS) if (!id.startsWith('timeTo')) expect(found.has(id), id).toBe(true);
    for (const { headline } of candidates)
      for (const id of HEADLINE_IDS) {
        const figure = headline[id];
        if (figure !== undefined) expect(figure.dimension, id).toBe(HEADLINES[id].dimension);
      }
  });

  it('peaks print as their channels do', () => {
    expect(HEADLINES.peakWindingTemperature).toMatchObject({ dimension: 'temperature', unit: '°C', decimals: 0 });
    expect(HEADLINES.topShaftSpeed).toMatchObject({ unit: CHANNELS.shaftSpeed.shown, decimals: CHANNELS.shaftSpeed.decimals });
    const words = HEADLINE_IDS.map((id) => HEADLINES[id].words);
    expect(new Set(words).size).toBe(words.length);
  });
});
