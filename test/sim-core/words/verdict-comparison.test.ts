/** Two candidates compared: which way round, from which difference on, and what the second does better by the greatest share. */
import type { Finding } from '@shaftwork/sim-core/results/finding';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { advantageOf, comparedWith } from '@shaftwork/sim-core/words/verdict-comparison';
import { describe, expect, it } from 'vitest';

interface Figures {
  readonly winding?: number;
  readonly speed?: number;
  readonly time?: number;
  readonly mass?: number;
  readonly length?: number;
  readonly diameter?: number;
  readonly outlasts?: number;
}
const candidate = ({ winding = 350, speed = 5, time = 600, mass = 0.2, length = 0.05, diameter = 0.04, outlasts }: Figures = {}) =>
  ({
    ...(outlasts === undefined ? {} : { outlasts }),
    headline: {
      peakWindingTemperature: { dimension: 'temperature', nominal: winding },
      topSpeed: { dimension: 'speed', nominal: speed },
      runTime: { dimension: 'time', nominal: time },
    },
    facts: { mass, canLength: length, canDiameter: diameter },
    findings: [] as readonly Finding[],
  }) as CandidateResult;
const plain = (text: string | undefined): string | undefined => text?.replaceAll('\u202f', ' ');

describe('a comparison by the objective', () => {
  it.each([
    ['coolest', { winding: 340 }, 'Its winding peaks 10 K cooler than that of'],
    ['coolest', { winding: 360 }, 'Its winding peaks 10 K hotter than that of'],
    ['coolest', { winding: 350.4 }, 'Its winding peaks as warm as that of'],
    ['coolest', { winding: 349.4 }, 'Its winding peaks 1 K cooler than that of'],
    ['longest', { time: 690 }, 'It lasts 1:30 longer than'],
    ['longest', { time: 510 }, 'It lasts 1:30 shorter than'],
    ['longest', { time: 600.3 }, 'It lasts as long as'],
    ['longest', { outlasts: 86_400 }, 'It lasts at least 23:50:00 longer than'],
    ['fastest', { speed: 5.08 }, 'It is 0.08 m/s faster than'],
    ['fastest', { speed: 4.92 }, 'It is 0.08 m/s slower than'],
    ['fastest', { speed: 5.004 }, 'It is as fast as'],
    ['lightest', { mass: 0.19 }, 'It is 10 g lighter than'],
    ['lightest', { mass: 0.21 }, 'It is 10 g heavier than'],
    ['lightest', { mass: 0.2002 }, 'It is as heavy as'],
  ] as const)('%s: %o', (objective, figures, words) => {
    expect(plain(comparedWith(candidate(figures), candidate(), objective))).toBe(words);
  });
});

describe('what the second does better', () => {
  const better = (figures: Figures, objective: Parameters<typeof advantageOf>[2] = 'coolest'): string | undefined =>
    plain(advantageOf(candidate(), candidate(figures), objective));

  it.each([
    [{ mass: 0.15 }, 'weight matters more (150 g against 200 g)'],
    [{ speed: 5.5 }, 'top speed matters more (5.50 m/s against 5.00 m/s)'],
    [{ time: 900 }, 'lasting matters more (15:00 against 10:00)'],
    [{ outlasts: 86_400 }, 'lasting matters more (over 24:00:00 against 10:00)'],
    [{ length: 0.04 }, 'length is short (40 mm against 50 mm)'],
    [{ diameter: 0.03 }, 'width is short (30 mm against 40 mm)'],
  ])('%o', (figures, words) => expect(better(figures)).toBe(words));

  it('is nothing where the second is worse or as good', () => {
    for (const figures of [{}, { mass: 0.25 }, { speed: 4 }, { time: 300 }, { length: 0.06 }, { diameter: 0.05 }])
      expect(better(figures), JSON.stringify(figures)).toBeUndefined();
  });

  it('is told from a hundredth on, and where it can be read', () => {
    // of the larger: 0.0503 of 5.0503
    expect(better({ speed: 5.0503 })).toBeUndefined();
    expect(better({ speed: 5.06 })).toBe('top speed matters more (5.06 m/s against 5.00 m/s)');
    // 2 % of a very light motor is no gram that is read
    expect(plain(advantageOf(candidate({ mass: 0.0204 }), candidate({ mass: 0.02 }), 'coolest'))).toBeUndefined();
  });

  it('is the greatest by its share of the larger value, not of the smaller', () => {
    // a quarter of the mass; a fifth of the longer time, though a quarter of the shorter one
    expect(better({ mass: 0.155, time: 750 })).toContain('weight');
    expect(better({ mass: 0.165, time: 750 })).toContain('lasting');
    expect(better({ mass: 0.1, time: 750, speed: 5.5, length: 0.04, diameter: 0.03 })).toContain('weight');
    expect(better({ mass: 0.19, time: 750, speed: 20, length: 0.04, diameter: 0.03 })).toContain('top speed');
    expect(better({ mass: 0.19, time: 620, speed: 5.5, length: 0.04, diameter: 0.01 })).toContain('width');
  });

  it('does not repeat the objective', () => {
    expect(better({ mass: 0.1, speed: 5.5 }, 'lightest')).toContain('top speed');
    expect(better({ time: 900, mass: 0.19 }, 'longest')).toContain('weight');
    expect(better({ speed: 9 }, 'fastest')).toBeUndefined();
  });
});
