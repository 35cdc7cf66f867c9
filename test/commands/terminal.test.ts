/** How the command speaks: eighty columns, the answer first, colours and remarks only where they are wanted, and the codes of the contract. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { showsColours } from '@shaftwork/cli/hands/io';
import { typed } from '@shaftwork/cli/hands/shell-words';
import { BARE, own } from '@shaftwork/cli/render/labels';
import { table, wrap } from '@shaftwork/cli/render/table';
import { textWidth } from '@shaftwork/cli/render/text-width';
import { describe, expect, it } from 'vitest';
import { call, callWith, ownFolder, SMALLEST, scenarioPath } from './call.js';

const { folder, file } = ownFolder();
const smallest = file('smallest.yaml', SMALLEST);
const widest = (text: string): number => Math.max(...text.split('\n').map(textWidth));
const ESCAPE = '\u001b';
/** A line that is one path or command to copy may be longer. */
const prose = (text: string): string =>
  text
    .split('\n')
    .filter((line) => !/npx|\//.test(line))
    .join('\n');
const quick = ['--samples', '0'];

describe('what others wrote', () => {
  it('does not steer the terminal, wherever it stands', async () => {
    const steering = String.raw`"\x1b]0;owned\x07\x1b[2J\x1b[31m"`;
    const titled = file('titled.yaml', `title: ${steering}\n${SMALLEST.replace(/^title:.*\n/m, '')}`);
    const keyed = file('keyed.yaml', `${SMALLEST}${steering}: 1\nbattery: { capacity: ${steering} }\n`);
    for (const argv of [
      ['run', titled, ...quick],
      ['point', titled],
      ['check', keyed],
      ['check', keyed, '--json'],
      ['run', `no\u001b[2J\u0007such.yaml`],
    ]) {
      const { out, err } = await call(...argv);
      // neither colours nor anything else that begins with an escape
      expect(
        [...`${out}${err}`].filter((each) => /[^\P{Cc}\n\t]/u.test(each)),
        argv.join(' '),
      ).toEqual([]);
    }
  });
});

describe('80 columns', () => {
  it('hold for help and for the command alone', async () => {
    for (const argv of [[], ['--help'], ['run', '--help'], ['point', '--help'], ['init', '--help'], ['explain']])
      expect(widest((await call(...argv)).out), argv.join(' ')).toBeLessThanOrEqual(80);
  });

  it('hold for twelve candidates with long names', async () => {
    const motors = Array.from({ length: 12 }, (_, k) =>
      SMALLEST.slice(SMALLEST.indexOf('  - name')).replace(
        '27-32',
        `The motor number ${k}, a-very-long-name-that-nobody-would-give-to-one`,
      ),
    );
    const many = file('many.yaml', SMALLEST.slice(0, SMALLEST.indexOf('  - name')) + motors.join(''));
    const run = await call('run', many, ...quick);
    expect(run.code).toBe(0);
    expect(widest(run.out)).toBeLessThanOrEqual(80);
    expect(widest((await call('point', many)).out)).toBeLessThanOrEqual(80);
    expect(widest((await call('check', many)).out)).toBeLessThanOrEqual(80);
  });

  it('hold for any table, and every cell is in it', () => {
    const columns = Array.from({ length: 9 }, (_, k) => own(`column ${k}`));
    const text = table([BARE, ...columns], [[own('x'.repeat(100)), ...columns.map((_, k) => `cell ${k}`)]]);
    expect(widest(text)).toBeLessThanOrEqual(80);
    for (let k = 0; k < 9; k++) expect(text).toContain(`cell ${k}`);
    expect(text.replace(/[^x]/g, '').length % 100).toBe(0);
    expect(widest(table([own('名前'.repeat(40)), own('12 °C')], []))).toBeLessThanOrEqual(80);
    expect(widest(wrap('word '.repeat(60)))).toBeLessThanOrEqual(80);
    // what stands below another row stands in from it, however long
    expect(table([BARE, own('A')], [[own('  of it by the can'), '1 W']])).toContain('\n  of it by the can  1 W\n');
    expect(wrap(`  ${'word '.repeat(60)}`).split('\n')[0]).toMatch(/^ {2}word.* word$/);
  });
});

describe('what is said first, and where', () => {
  it('is the answer, in at most six short sentences before the table', async () => {
    const { out, err, code } = await call('run', scenarioPath('survey-boat'), ...quick);
    expect(code).toBe(0);
    const answer = out.slice(out.indexOf('Choose'), out.indexOf('meets every limit  ')).split('\n\n')[0];
    const sentences = answer.split(/\.(?=\s|$)/).filter((sentence) => sentence.trim() !== '');
    expect(sentences.length).toBeLessThanOrEqual(6);
    for (const sentence of sentences) expect(sentence.trim().split(/\s+/).length, sentence).toBeLessThanOrEqual(22);
    expect(widest(prose(out))).toBeLessThanOrEqual(80);
    expect(err).toContain('npx shaftwork');
  });

  it('says with its path what was written, and nothing under --quiet', async () => {
    const html = join(folder, 'said.html');
    const loud = await call('run', smallest, '--html', html, ...quick);
    expect(loud.err).toContain(html);
    expect(readFileSync(html, 'utf8')).toContain('<title>');
    const quiet = await call('run', smallest, '--html', html, '--quiet', ...quick);
    expect(quiet).toMatchObject({ code: 0, out: '', err: '' });
  });

  it('is more under --verbose, which excludes --quiet', async () => {
    const { out } = await call('run', smallest, '--verbose', ...quick);
    expect(out).toContain('evaluations');
    expect((await call('run', smallest, '--verbose', '--quiet')).code).toBe(2);
  });

  it('tells findings with their kind, which explain knows', async () => {
    const { out } = await call('run', scenarioPath('burst-glider'), ...quick);
    expect(out).toContain('Feather');
    const kind = /\[([a-z-]+)\]/.exec(out)![1];
    expect((await call('explain', kind)).code).toBe(0);
  });

  it('shows no speed and no useful share on a bench, but the thrust', async () => {
    const { out } = await call('run', smallest, ...quick);
    expect(out).not.toMatch(/top speed|useful/);
    expect(out).toMatch(/peak thrust +[\d.]+ *\u202f?N/);
    expect((await call('point', smallest)).out).toMatch(/^speed +–$/m);
  });

  it('tells the limit of what lies beyond it, held for ever', async () => {
    const cooler = file('cooler.yaml', readFileSync(scenarioPath('survey-boat'), 'utf8').replace(/winding: \d+ °C/, 'winding: 41 °C'));
    const { out } = await call('point', cooler);
    const [, limits = ''] = /^ *winding +(.*)$/m.exec(out) ?? [];
    expect(limits).toMatch(/\d+ °C, past 41 °C/);
    expect(out).toMatch(/^ *cells +\d+ °C[^,]*$/m);
    const [each] = JSON.parse((await call('point', cooler, '--json')).out).candidates;
    expect(each.settled.limitsPassed).toEqual({ windingTemperature_degC: expect.closeTo(41, 9) });
  });

  it('says at which charge and temperature a point is taken', async () => {
    const { out } = await call('point', scenarioPath('hot-day-mapper'));
    expect(out).toContain('pack at 100 %');
    expect(out).toContain('34 °C');
    expect(out).toContain('cells at 30 °C');
  });
});

describe('a point over a range', () => {
  it('has a line for each throttle, rising in speed', async () => {
    const { code, out } = await call('point', scenarioPath('survey-boat'), '--throttle', '50 to 100 %', '--json');
    expect(code).toBe(0);
    const { points } = JSON.parse(out);
    expect(points).toHaveLength(11);
    const speeds = points.map((each: { candidates: { shaftSpeed_rpm: number }[] }) => each.candidates[0].shaftSpeed_rpm);
    expect([...speeds].sort((a, b) => a - b)).toEqual(speeds);
  });

  it('refuses two holds and values out of range, with the next command', async () => {
    const two = await call('point', smallest, '--throttle', '50 %', '--thrust', '3 N');
    expect(two.code).toBe(2);
    expect(two.err).toContain('npx shaftwork');
    expect((await call('point', smallest, '--throttle', '150 %')).code).toBe(2);
    expect((await call('point', smallest, '--thrust', '3 V')).err).toContain("--thrust '12 N'");
  });
});

describe('colours', () => {
  const shown = async (auto: boolean, ...argv: string[]): Promise<boolean> =>
    (await callWith({ colourful: { out: auto, err: auto } }, 'run', smallest, ...quick, ...argv)).out.includes(ESCAPE);

  it('follow --color, and the terminal where it is auto', async () => {
    expect(await shown(false)).toBe(false);
    expect(await shown(true)).toBe(true);
    expect(await shown(true, '--color', 'never')).toBe(false);
    expect(await shown(false, '--color', 'always')).toBe(true);
    expect((await call('run', smallest, '--color', 'blue')).code).toBe(2);
  });

  it('are for terminals without NO_COLOR only', () => {
    expect(showsColours(true, {})).toBe(true);
    expect(showsColours(undefined, {})).toBe(false);
    expect(showsColours(true, { NO_COLOR: '1' })).toBe(false);
    expect(showsColours(true, { NO_COLOR: '' })).toBe(true);
    expect(showsColours(true, { TERM: 'dumb' })).toBe(false);
  });

  it('stay out of JSON and of the width of a table', async () => {
    expect((await call('run', smallest, '--json', '--color', 'always', ...quick)).out).not.toContain(ESCAPE);
    const plain = await call('run', smallest, ...quick);
    const painted = await call('run', smallest, '--color', 'always', ...quick);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the escapes that colours are made of
    expect(painted.out.replace(/\u001b\[\d+m/g, '')).toBe(plain.out);
  });
});

describe('exit codes', () => {
  it('0 done, 1 not feasible or any finding under --strict, 2 wrong input, 4 cannot read', async () => {
    expect((await call('run', smallest, ...quick)).code).toBe(0);
    const hot = file('hot.yaml', SMALLEST.replace('profile:', 'limits: { winding: 31 °C }\nprofile:'));
    expect((await call('run', hot, ...quick)).code).toBe(1);
    // Feather passes its limit, which is a finding, while others meet all of theirs
    expect((await call('run', scenarioPath('burst-glider'), ...quick)).code).toBe(0);
    expect((await call('run', scenarioPath('burst-glider'), '--strict', ...quick)).code).toBe(1);
    expect((await call('run', file('empty.yaml', ''))).code).toBe(2);
    expect((await call('run', join(folder, 'none.yaml'))).code).toBe(4);
    expect(
      (
        await callWith(
          {
            size: () => {
              throw new TypeError('a bug');
            },
          },
          'run',
          smallest,
        )
      ).code,
    ).toBe(3);
  });

  it.each([['runn'], ['run'], ['run', 'x', 'y'], ['run', 'x', '--htlm', 'y'], ['init'], ['init', '--for', 'train'], ['explain', 'wrong']])(
    '2 and a next command for %s',
    async (...argv) => {
      const { code, err, out } = await call(...argv);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err.trimEnd().split('\n').at(-1)).toContain('npx shaftwork');
    },
  );

  it('names the command that was meant', async () => {
    expect((await call('chekc', 'x')).err).toContain('did you mean check');
  });
});

it('quotes a path that a shell would take apart', () => {
  expect(typed('my boat.yaml')).toBe('"my boat.yaml"');
  expect(typed('my-boat/boat.yaml')).toBe('my-boat/boat.yaml');
  expect(typed('a"$b')).toBe('"a\\"\\$b"');
});
