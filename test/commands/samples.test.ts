/** Sampling from the command line: options read strictly, the same rows with and without workers, a bar only on terminals. */
import { doubtAsk } from '@shaftwork/cli/commands/run';
import { sampleDoubt } from '@shaftwork/cli/pool/sample-doubt';
import { createProgress } from '@shaftwork/cli/render/progress';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';
import { call, scenarioPath } from './call.js';

const boat = scenarioPath('survey-boat');

describe('run --samples --seed', () => {
  it('reads both strictly', () => {
    expect(doubtAsk({})).toEqual({ samples: 64, seed: 1 });
    expect(doubtAsk({ samples: '0', seed: '7' })).toEqual({ samples: 0, seed: 7 });
    for (const bad of ['-1', '1.5', 'many', '8', '1e3', '']) expect(() => doubtAsk({ samples: bad }), bad).toThrow(/--samples/);
    expect(() => doubtAsk({ seed: '4294967296' })).toThrow(/--seed/);
  });

  it('ends with 2 and says what was expected', async () => {
    const { code, err } = await call('run', boat, '--samples', 'lots');
    expect(code).toBe(2);
    expect(err).toContain('--samples');
    expect(err).toContain('lots');
  });

  it('gives bands and chances in JSON, the same twice for a seed; --samples 0 gives none', async () => {
    const ask = ['run', boat, '--json', '--samples', '16', '--seed', '5'];
    const [once, again] = [await call(...ask), await call(...ask)];
    expect(once.out).toBe(again.out);
    const { doubt, candidates } = JSON.parse(once.out);
    expect(doubt.samples).toBe(16);
    expect(doubt.seed).toBe(5);
    const { headline } = candidates[0];
    expect(headline.peakWindingTemperature_p05_degC).toBeLessThan(headline.peakWindingTemperature_degC);
    expect(headline.peakWindingTemperature_p95_degC).toBeGreaterThan(headline.peakWindingTemperature_degC);
    const none = await call('run', boat, '--json', '--samples', '0');
    expect(JSON.parse(none.out)).not.toHaveProperty('doubt');
  });
});

describe('the pool', () => {
  it('finds the same rows with two workers as without', async () => {
    const prepared = demo('survey-boat');
    const quiet = createProgress('', { write: () => {} });
    const alone = await sampleDoubt(prepared, { samples: 64, seed: 3 }, quiet, 1);
    const shared = await sampleDoubt(prepared, { samples: 64, seed: 3 }, quiet, 2, 0);
    expect(alone.workers).toBe(0);
    expect(shared.workers).toBe(2);
    expect([...shared.rows]).toEqual([...alone.rows]);
  });

  it('shows a bar on a terminal and takes it away, and nothing elsewhere', () => {
    let text = '';
    const terminal = { isTTY: true, columns: 80, write: (more: string) => (text += more) };
    const bar = createProgress('how sure', terminal);
    bar.show(8, 16);
    expect(text).toContain('8/16');
    bar.end();
    expect(text.endsWith('\r')).toBe(true);
    text = '';
    createProgress('how sure', { write: (more: string) => (text += more) }).show(1, 2);
    expect(text).toBe('');
  });
});
