/** Part files that name the logs they came from are read again, however many logs there were and whatever they are called. */
import { partText } from '@shaftwork/sim-core/questions/identify/part-text';
import { describe, expect, it } from 'vitest';
import { problemsOf, SMALLEST, scenarioOf } from '../../scenario/smallest-scenario.js';

const LINES = ['kv: 900 rpm/V', 'layout: outrunner', 'mass: 66 g', 'can: { diameter: 27 mm, length: 32 mm }'];
const USING = SMALLEST.replace(/motor: .*/, 'motor: { use: motor.yaml }');
const sourceOf = (sources: readonly string[]): string => /^source: (.*)$/m.exec(partText('motor', sources, LINES))?.[1] ?? '';

describe('the source of a part file', () => {
  it.each([
    ['one log', ['sweep.csv'], '"identified from sweep.csv"'],
    ['folders, which are nobody else’s', ['/home/me/bench/sweep.csv', 'C:\\me\\cool.csv'], '"identified from sweep.csv, cool.csv"'],
    ['what steers a terminal', ['a\u001b[2J\u202eb.csv'], '"identified from a_[2J_b.csv"'],
    ['a name as long as systems allow', ['x'.repeat(255)], '"identified from a log"'],
    ['two such names', ['x'.repeat(255), 'y'.repeat(255)], '"identified from 2 logs"'],
  ])('%s', (_, sources, words) => {
    expect(sourceOf(sources)).toBe(words);
    expect(scenarioOf(USING, { 'motor.yaml': partText('motor', sources, LINES) }).candidates).toHaveLength(1);
  });

  it('counts the logs for which a line has no room', () => {
    const many = Array.from({ length: 40 }, (_, k) => `bench/run number ${k}.csv`);
    const words = sourceOf(many);
    const shown = words.match(/run number/g)?.length ?? 0;
    expect(words).toMatch(new RegExp(` and ${40 - shown} more"$`));
    // one name more would not fit
    expect(words.length - 2 + ', run number 10.csv'.length).toBeGreaterThan(200);
    expect(scenarioOf(USING, { 'motor.yaml': partText('motor', many, LINES) }).candidates).toHaveLength(1);
    // all of them written out would have been refused
    const whole = partText('motor', [], LINES).replace(/source: .*/, `source: ${JSON.stringify(many.join())}`);
    expect(problemsOf(USING, { 'motor.yaml': whole }).map(({ kind }) => kind)).toEqual(['too-large']);
  });
});
