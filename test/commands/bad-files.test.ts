/** What people and disks do to files: a clear message, the right exit code, and nothing half-written. */
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, closeSync, existsSync, ftruncateSync, openSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { call, ownFolder, SMALLEST } from './call.js';

const { folder, file } = ownFolder();
const smallest = file('smallest.yaml', SMALLEST);
const bin = fileURLToPath(new URL('../../packages/cli/bin/shaftwork.js', import.meta.url));
const quick = ['--samples', '0'];
/** Names of system calls and their codes are nobody's words. */
const SYSTEM = /E[A-Z]{4,}|\bstat\b|\bopen\b|syscall|errno/;

describe('reading', () => {
  it('a missing file: what is missing, what lies beside it, code 4', async () => {
    const { code, err, out } = await call('run', join(folder, 'smalest.yaml'));
    expect(code).toBe(4);
    expect(out).toBe('');
    expect(err).toContain('no such file');
    expect(err).toContain('smallest.yaml');
    expect(err).not.toMatch(SYSTEM);
  });

  it('a folder, code 4', async () => {
    const { code, err } = await call('check', folder);
    expect(code).toBe(4);
    expect(err).toContain('it is a folder');
    expect(err).not.toMatch(SYSTEM);
  });

  it.runIf(existsSync('/dev/zero'))('a device that never ends, code 4', async () => {
    const { code, err } = await call('check', '/dev/zero');
    expect(code).toBe(4);
    expect(err).toContain('it is a device');
  });

  it('50 MB and 1.1 MB, refused by size without being read', async () => {
    const large = join(folder, 'large.yaml');
    const handle = openSync(large, 'w');
    ftruncateSync(handle, 50_000_000);
    closeSync(handle);
    const before = process.memoryUsage().rss;
    const { code, err } = await call('run', large);
    expect(code).toBe(2);
    expect(err).toContain('50.0 MB');
    expect(err).toContain('too-large');
    expect(process.memoryUsage().rss - before).toBeLessThan(40e6);
    const part = file('with-part.yaml', SMALLEST.replace(/motor: .*/, 'motor: { use: parts/large.yaml }'));
    file('parts/large.yaml', 'x'.repeat(1_100_000));
    const json = await call('check', part, '--json');
    expect(json.code).toBe(2);
    expect(JSON.parse(json.out).problems[0]).toMatchObject({ kind: 'too-large', place: { file: 'parts/large.yaml' } });
  });

  it('Latin-1, with the place of the first sign', async () => {
    const { code, err } = await call('check', file('latin.yaml', Buffer.from(SMALLEST.replace('Will', 'ambient 24 °C'), 'latin1')));
    expect(code).toBe(2);
    expect(err).toContain('latin.yaml:1:');
    expect(err).toContain('UTF-8');
  });

  it('a missing part, a part in a circle, a part outside', async () => {
    const using = (path: string): string => SMALLEST.replace(/motor: .*/, `motor: { use: ${path} }`);
    file('a.yaml', 'part: motor\nuse: b.yaml\n');
    file('b.yaml', 'part: motor\nuse: a.yaml\n');
    for (const [path, kind] of [
      ['parts/none.yaml', 'missing-file'],
      ['a.yaml', 'circular-use'],
      ['../outside.yaml', 'use-outside'],
      ['/etc/passwd', 'use-outside'],
    ]) {
      const { code, err } = await call('check', file('using.yaml', using(path)));
      expect(code).toBe(2);
      expect(err).toContain(`[${kind}]`);
      expect(err).toContain(`explain ${kind}`);
    }
  });

  it('a path with backslashes, where the same with slashes exists', async () => {
    const { code } = await call('check', smallest.replace(/\/([^/]+)$/, '\\$1'));
    expect(code).toBe(0);
  });

  it('a long list of problems is shortened, and told whole by --verbose and --json', async () => {
    const keys = Array.from({ length: 150 }, (_, k) => `wrong_${k}: 1`).join('\n');
    const many = file('many-problems.yaml', `${SMALLEST}${keys}\n`);
    const { err, code } = await call('check', many);
    expect(code).toBe(2);
    expect(err).toContain('and 130 more');
    expect(err).toContain('150 problems');
    expect((await call('check', many, '--verbose')).err).toContain('wrong_149');
    expect(JSON.parse((await call('check', many, '--json')).out).problems).toHaveLength(150);
  });

  it('nesting of 5,000 and __proto__ end with 2, in JSON too', async () => {
    const deep = file('deep.yaml', `${SMALLEST}notes: ${'['.repeat(5000)}${']'.repeat(5000)}`);
    expect(JSON.parse((await call('run', deep, '--json')).out).problems[0].kind).toBe('too-deep');
    const polluted = await call('run', file('proto.yaml', `${SMALLEST}__proto__: { polluted: yes }\n`));
    expect(polluted.code).toBe(2);
    expect(({} as { polluted?: string }).polluted).toBeUndefined();
  });

  it('a name with <script> is text in table, JSON and report', async () => {
    const named = file('script.yaml', SMALLEST.replace('27-32', '<script>alert(1)</script>'));
    const html = join(folder, 'script.html');
    const { code, out } = await call('run', named, '--html', html, ...quick);
    expect(code).toBe(0);
    expect(out).toContain('<script>');
    expect(readFileSync(html, 'utf8')).not.toContain('<script>alert(1)');
  });
});

describe('a run that cannot be as asked', () => {
  it('a battery empty at the start is a result, not a fault: code 1 and a sentence', async () => {
    const empty = file('empty-pack.yaml', `${SMALLEST}start: { charge: 0 % }\n`);
    const { code, out } = await call('run', empty, ...quick);
    expect(code).toBe(1);
    expect(out).toMatch(/empty|cut-off|no operating point/);
    expect((await call('point', empty)).code).not.toBe(3);
  });

  it('a propeller table left at run time is a finding', async () => {
    const table = '[{ advance_ratio: 0.1, thrust: 0.1, power: 0.045 }, { advance_ratio: 0.2, thrust: 0.08, power: 0.04 }]';
    const left = file(
      'left.yaml',
      SMALLEST.replace(/propeller:.*/, `propeller: { kind: coefficients, diameter: 9 in, table: ${table} }`).replace(
        'throttle: 80 %',
        'throttle: 80 %, vehicle_speed: 14 m/s',
      ),
    );
    const { out, code } = await call('run', left, ...quick);
    expect([0, 1]).toContain(code);
    expect(out).toContain('[outside-propeller-table]');
  });
});

describe('writing', () => {
  it('somebody else’s file in the way, code 2; replaced with --force', async () => {
    const other = file('other.html', 'mine');
    const { code, err } = await call('run', smallest, '--html', other, ...quick);
    expect(code).toBe(2);
    expect(err).toContain('--force');
    expect(readFileSync(other, 'utf8')).toBe('mine');
    expect((await call('run', smallest, '--html', other, '--force', '--quiet', ...quick)).code).toBe(0);
    expect(readFileSync(other, 'utf8')).toContain('<!doctype html>');
  });

  it('a folder where the file should be, and a file where a folder should be, code 4', async () => {
    file('taken/inside', '');
    for (const path of [join(folder, 'taken'), join(folder, 'smallest.yaml', 'report.html')]) {
      const { code, err } = await call('run', smallest, '--html', path, '--force', ...quick);
      expect(code).toBe(4);
      expect(err).toContain('Nothing was written');
      expect(err).not.toMatch(SYSTEM);
    }
    expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
  });

  it('a folder that may not be written to, code 4', async () => {
    const locked = join(folder, 'locked');
    file('locked/inside', '');
    chmodSync(locked, 0o500);
    const { code } = await call('run', smallest, '--html', join(locked, 'report.html'), ...quick);
    chmodSync(locked, 0o700);
    // the superuser may write everywhere
    expect(code).toBe(process.getuid?.() === 0 ? 0 : 4);
  });

  it.runIf(existsSync('/dev/full'))('a full disk, for a file and for standard output, code 4 and nothing left', async () => {
    const { code, err } = await call('run', smallest, '--html', '/dev/full', '--force', ...quick);
    expect(code).toBe(4);
    expect(err).toContain('the disk is full');
    symlinkSync('/dev/full', join(folder, 'full.html'));
    expect((await call('run', smallest, '--html', join(folder, 'full.html'), '--force', ...quick)).code).toBe(4);
    const shell = spawnSync('sh', ['-c', `"${process.execPath}" "${bin}" run "${smallest}" --json --samples 0 > /dev/full`], {
      encoding: 'utf8',
    });
    expect(shell.status).toBe(4);
    expect(shell.stderr).toContain('the disk is full');
  });

  it('a closed pipe is no fault', () => {
    const script = `"${process.execPath}" "${bin}" run "${smallest}" --json --samples 0 | head -c 10; exit 0`;
    const { stderr, stdout } = spawnSync('bash', ['-c', `set -o pipefail; ${script}`], { encoding: 'utf8' });
    expect(stdout).toHaveLength(10);
    expect(stderr).toBe('');
  });

  it('- reads standard input and writes standard output', () => {
    const out = execFileSync(process.execPath, [bin, 'run', '-', '--html', '-', '--samples', '0'], {
      input: SMALLEST,
      encoding: 'utf8',
      stdio: ['pipe', 'pipe', 'ignore'],
    });
    expect(out).toMatch(/^<!doctype html>/i);
    const bad = spawnSync(process.execPath, [bin, 'check', '-'], { input: SMALLEST.replace('96 mohm', '96'), encoding: 'utf8' });
    expect(bad.status).toBe(2);
    expect(bad.stderr).toContain('standard-input.yaml:7:');
  });
});
