/** What is large is worked within stated time and memory, and what is larger is refused with what to do. */
import { spawnSync } from 'node:child_process';
import { closeSync, ftruncateSync, openSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { call, ownFolder, SMALLEST } from './call.js';

const { folder, file } = ownFolder();
const bin = fileURLToPath(new URL('../../packages/cli/bin/shaftwork.js', import.meta.url));
const driven = SMALLEST.replace(/profile: .*/, 'profile: { log: run.csv }').replace('2.2 Ah', '2200 Ah');
const profile = (text: string): string => SMALLEST.replace(/profile: .*/, `profile: ${text}`).replace('2.2 Ah', '2200 Ah');

function many(count: number, text = SMALLEST): string {
  const [head = '', motor = ''] = text.split('  - name: "27-32"\n');
  return head + Array.from({ length: count }, (_, k) => `  - name: motor ${k}\n${motor.replace('920', String(700 + k))}`).join('');
}
/** A log of that many rows, ten a second. */
const rows = (count: number, cell: (text: string) => string = (text) => text): string =>
  `time [s],throttle [%]\n${Array.from({ length: count }, (_, k) => `${cell((k / 10).toFixed(1))},${cell((50 + 30 * Math.sin(k / 300)).toFixed(2))}`).join('\n')}\n`;

describe('within the bounds', () => {
  it('a log of 10⁶ rows is read within 10 s of one core and 600 MB', () => {
    file('run.csv', rows(1_000_000));
    // the log is read with half the memory that is stated, or the process dies
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['--max-old-space-size=300', bin, 'point', file('million.yaml', driven), '--json'],
      { encoding: 'utf8' },
    );
    expect([status, stderr]).toEqual([0, '']);
    expect(JSON.parse(stdout).schema).toMatch(/^shaftwork\.point/);
    const began = process.cpuUsage();
    const read = prepareScenario(
      new Map([
        ['s.yaml', driven],
        ['run.csv', rows(1_000_000)],
      ]),
      's.yaml',
    );
    expect(process.cpuUsage(began).user / 1e6).toBeLessThan(10);
    expect(read.kind === 'ready' && read.prepared.scenario.log?.rows).toBe(1_000_000);
    expect(read.kind === 'ready' && read.prepared.scenario.profile.length).toBeLessThanOrEqual(2000);
  });

  it('a log of quoted cells is read block by block to the same rows', () => {
    const read = (text: string) =>
      prepareScenario(
        new Map([
          ['s.yaml', driven],
          ['run.csv', text],
        ]),
        's.yaml',
      );
    const [plain, quoted] = [
      read(rows(50_000)),
      read(rows(50_000, (text) => `"${text}"`).replace(/^"?time.*\n/, 'time [s],throttle [%]\n')),
    ];
    if (plain.kind !== 'ready' || quoted.kind !== 'ready') throw new Error('a log was refused');
    expect(quoted.prepared.scenario.profile).toEqual(plain.prepared.scenario.profile);
  });

  it('a step takes a few milliseconds, however many there are, and no call is given more numbers than it takes', () => {
    const text = profile('[{ repeat: 2000, steps: [{ for: 10 s, throttle: 60 % }, { for: 10 s, throttle: 30 % }] }]');
    const read = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
    if (read.kind !== 'ready') throw new Error('refused');
    const began = process.cpuUsage();
    const result = runScenario(read.prepared);
    expect(process.cpuUsage(began).user / 1e6 / 4000).toBeLessThan(0.01);
    expect(result.scenario.steps).toHaveLength(4000);
    expect(result.candidates[0]?.end).toBe('finished');
  });

  it('fifty candidates take their fiftieth of the time of 500', () => {
    const read = prepareScenario(new Map([['s.yaml', many(50)]]), 's.yaml');
    if (read.kind !== 'ready') throw new Error('refused');
    const began = process.cpuUsage();
    expect(runScenario(read.prepared).ranking).toHaveLength(50);
    expect(process.cpuUsage(began).user / 1e6).toBeLessThan(20);
  });
});

describe('beyond them', () => {
  it.each([
    ['501 candidates', many(501), /at most 500 candidates/, /second scenario/],
    [
      '400 candidates over 2000 steps',
      many(400, profile('[{ repeat: 2000, steps: [{ for: 10 s, throttle: 60 % }] }]')),
      /at most 250 candidates for a profile of 2000 steps/,
      /shorter profile/,
    ],
    [
      '100,001 steps',
      profile('[{ repeat: 100000, steps: [{ for: 1 s, throttle: 60 % }] }, { for: 1 s, throttle: 5 % }]'),
      /at most 100000 steps/,
      /repeat less often/,
    ],
    [
      'repeats of repeats',
      profile('[{ repeat: 99999, steps: [{ repeat: 99999, steps: [{ for: 1 s, throttle: 60 % }] }] }]'),
      /at most 100000 steps/,
      /repeat less often/,
    ],
    ['a name of 5000 letters', SMALLEST.replace('27-32', 'x'.repeat(5000)), /at most 200 characters/, /notes/],
  ])('%s are refused with what to do, at once', async (_, text, expected, hint) => {
    const began = process.cpuUsage();
    const { code, err } = await call('run', file('large.yaml', text));
    expect(process.cpuUsage(began).user / 1e6).toBeLessThan(5);
    expect(code).toBe(2);
    expect(err).toContain('[too-large]');
    expect(err.replace(/\s+/g, ' ')).toMatch(expected);
    expect(err.replace(/\s+/g, ' ')).toMatch(hint);
  });

  it('a log of 65 MB is refused by its size, without being read', async () => {
    for (const name of ['run.csv', 'run.dat']) {
      const handle = openSync(`${folder}/${name}`, 'w');
      ftruncateSync(handle, 65_000_000);
      closeSync(handle);
      const before = process.memoryUsage().rss;
      const { code, err } = await call('check', file('long.yaml', driven.replace('run.csv', name)));
      expect(code).toBe(2);
      expect(err.replace(/\s+/g, ' ')).toMatch(/at most 64.0 MB; found 65.0 MB cut it into runs/);
      expect(process.memoryUsage().rss - before).toBeLessThan(40e6);
    }
  });
});
