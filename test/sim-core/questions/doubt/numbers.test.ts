/** Numbers out of unknowns that are made up: what is common and what is each one's own, worked out by hand. */
import { groupOf, numbersOf } from '@shaftwork/sim-core/questions/doubt/numbers';
import { expect, it } from 'vitest';
import { madeUnknown } from './made-unknown.js';

const wide = (sd: number, ...of: Parameters<typeof madeUnknown>) => ({ ...madeUnknown(...of), spread: { shape: 'normal', sd } as const });
const near = (x: number) => expect.closeTo(x, 12);

it('a rule’s common error and each one’s own are one number, along their steepest direction', () => {
  const common = wide(0.4, 'rule:fit', ['A', 'B'], 'rule:fit');
  const own = ['A', 'B'].map((name) => wide(0.3, `rule:fit@${name}`, [name], 'rule:fit@own'));
  for (const entries of [
    [common, ...own],
    [own[0], common, own[1]],
  ]) {
    const [number, ...more] = numbersOf(entries);
    expect(more).toEqual([]);
    // 3, 4 and 5: of one candidate's whole error
    expect(number).toMatchObject({ subject: 'rule:fit', first: common, spread: { shape: 'normal', sd: near(0.5) } });
    expect(groupOf(number)).toBe('rule:fit');
    expect(new Map([...number.direction].sort())).toEqual(
      new Map([
        ['rule:fit', near(0.8)],
        ['rule:fit@A', near(0.6)],
        ['rule:fit@B', near(0.6)],
      ]),
    );
    expect([...number.candidates].sort()).toEqual(['A', 'B']);
  }
});

it('what has an own part alone is as wide as that, and what stands alone is itself', () => {
  const [own, air] = numbersOf([wide(0.3, 'rule:own@B', ['B'], 'rule:own@own'), wide(0.2, 'air', ['A', 'B'])]);
  expect(own).toMatchObject({ subject: 'rule:own@B', spread: { shape: 'normal', sd: near(0.3) }, candidates: ['B'] });
  expect([groupOf(own), [...own.direction]]).toEqual(['rule:own', [['rule:own@B', near(1)]]]);
  expect(air).toMatchObject({ subject: 'air', spread: { shape: 'normal', sd: near(0.2) }, candidates: ['A', 'B'] });
  expect([...air.direction]).toEqual([['air', near(1)]]);
});
