import { writtenResistance } from '@shaftwork/sim-core/provenance/given';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { readScenario } from '@shaftwork/sim-core/scenario';
import { describe, expect, it } from 'vitest';
import { SMALLEST as GOOD } from './smallest-scenario.js';

const read = (text: string, parts: Record<string, string> = {}) =>
  readScenario(new Map([['s.yaml', text], ...Object.entries(parts)]), 's.yaml');
const problemsOf = (text: string, parts: Record<string, string> = {}) => {
  const reading = read(text, parts);
  return reading.kind === 'problems' ? reading.problems : [];
};

describe('a right scenario', () => {
  it('reads into given data with places', () => {
    const reading = read(GOOD);
    expect(reading.kind === 'read').toBe(true);
    if (reading.kind === 'read') {
      const { motor } = reading.scenario.candidates[0].given;
      const resistance = writtenResistance(motor);
      expect(resistance?.value).toBeCloseTo(0.096, 12);
      expect(resistance?.origin).toMatchObject({ kind: 'given', place: { file: 's.yaml', line: 7 } });
      expect(reading.scenario.profile[0]).toMatchObject({ duration: 180, hold: 'throttle', value: { from: 0.8, to: 0.8 } });
    }
  });

  it('unrolls repeats and ramps', () => {
    const reading = read(
      GOOD.replace(
        '[{ for: 3 min, throttle: 80 % }]',
        '[{ repeat: 3, steps: [{ for: 5 s, throttle: 20 to 60 % }, { for: 2 s, throttle: 0 % }] }]',
      ),
    );
    if (reading.kind !== 'read') throw new Error(JSON.stringify(reading));
    expect(reading.scenario.profile).toHaveLength(6);
    expect(reading.scenario.profile[4].value).toEqual({ from: 0.2, to: 0.6 });
  });

  it('asks for part files, merges them under the candidate, and tells circles and paths outside the folder', () => {
    const used = GOOD.replace('layout: outrunner,', 'use: parts/m.yaml,');
    expect(read(used)).toEqual({ kind: 'needs', needs: ['parts/m.yaml'] });
    const reading = read(used, { 'parts/m.yaml': 'part: motor\nlayout: inrunner\npoles: 4\n' });
    if (reading.kind !== 'read') throw new Error(JSON.stringify(reading));
    expect(reading.scenario.candidates[0].given.motor).toMatchObject({ layout: 'inrunner', poles: 4 });
    expect(problemsOf(used, { 'parts/m.yaml': 'part: motor\nuse: m.yaml\n' }).map((p) => p.kind)).toContain('circular-use');
    expect(problemsOf(used.replace('parts/m.yaml', '../m.yaml')).map((p) => p.kind)).toContain('use-outside');
  });

  it('takes a byte-order mark, a name with markup and a key named __proto__ for what they are', () => {
    const marked = read(`\ufeff${GOOD}`);
    expect(marked.kind).toBe('read');
    const named = read(GOOD.replace('"27-32"', '"<script>alert(1)</script>"'));
    expect(named.kind).toBe('read');
    expect(problemsOf(`${GOOD}__proto__: { polluted: yes }\n`).map((p) => p.kind)).toContain('unknown-key');
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});

describe('what people get wrong', () => {
  it.each([
    ['a bare number', GOOD.replace('96 mohm', '96'), 'bare-number', 7],
    ['a wrong dimension', GOOD.replace('66 g', '66 mm'), 'wrong-dimension', 7],
    ['a wrong unit', GOOD.replace('66 g', '66 grm'), 'wrong-unit', 7],
    ['an unknown key', GOOD.replace('pitch:', 'pich:'), 'unknown-key', 3],
    ['a negative mass', GOOD.replace('66 g', '-66 g'), 'out-of-range', 7],
    ['a tolerance over 100 %', GOOD.replace('66 g', '66 g ± 130 %'), 'bad-tolerance', 7],
    ['no candidates', GOOD.replace(/candidates:[\s\S]*/, 'candidates: []\n'), 'nothing-to-do', 5],
    ['two candidates of one name', `${GOOD}  - name: "27-32"\n    motor: none\n`, 'duplicate-name', 8],
    ['an unknown choice', GOOD.replace('lithium-polymer', 'lithium-foam'), 'unknown-choice', 2],
    ['a part file that is not there', GOOD.replace('layout: outrunner,', 'use: gone.yaml, layout: outrunner,'), 'missing-file', 7],
  ])('%s', (_, text, kind, line) => {
    const files = new Map<string, string | null>([
      ['s.yaml', text],
      ['gone.yaml', null],
    ]);
    const reading = readScenario(files, 's.yaml');
    expect(reading.kind === 'read').toBe(false);
    if (reading.kind === 'problems') {
      const found = reading.problems.find((problem) => problem.kind === kind);
      expect(found, JSON.stringify(reading.problems)).toBeDefined();
      expect(found?.place.line).toBe(line);
    }
  });

  it.each([
    ['an empty file', ''],
    ['a tab', GOOD.replace('  - name', '\t- name')],
    ['a decimal comma inside braces', GOOD.replace('0.9 A', '0,9 A')],
    ['a missing blank after a colon', GOOD.replace('capacity: 2.2', 'capacity:2.2')],
    ['duplicate keys', GOOD.replace('mass: 66 g', 'mass: 66 g, mass: 67 g')],
    ['a file over 1 MB', GOOD + '# '.repeat(600_000)],
    ['nesting of 5000', `a: ${'['.repeat(5000)}${']'.repeat(5000)}\n`],
    ['nesting of 40', `title: x\nnotes: ${'['.repeat(40)}${']'.repeat(40)}\n`],
  ])('%s is told, not thrown', (_, text) => {
    const problems = problemsOf(text);
    expect(problems.length).toBeGreaterThan(0);
    for (const problem of problems) expect(problem.expected.length + problem.found.length).toBeGreaterThan(0);
  });

  it('tells the problems of several sections at once', () => {
    const kinds = problemsOf(GOOD.replace('96 mohm', '96').replace('2.2 Ah', '2.2 V').replace('pitch:', 'pich:')).map((p) => p.kind);
    expect(kinds).toEqual(expect.arrayContaining(['bare-number', 'wrong-dimension', 'unknown-key']));
  });

  it('missing data say where one usually finds them', () => {
    const preparation = prepareScenario(new Map([['s.yaml', GOOD.replace('kv: 920 rpm/V, ', '')]]), 's.yaml');
    expect(preparation.kind === 'problems' && preparation.problems[0]).toMatchObject({ kind: 'missing-datum', expected: 'kv' });
  });
});
