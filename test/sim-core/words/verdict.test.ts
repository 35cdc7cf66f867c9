/**
 * Every number and comparative of the verdict against the result it speaks of, on 5,000 random results: each phrase that carries one is
 * recognised, checked and taken out; what is left may hold no digit and no word that compares.
 */

import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { formatClock, formatQuantity } from '@shaftwork/sim-core/quantities';
import { asGoodAsFirst, rank } from '@shaftwork/sim-core/questions/judge/rank';
import type { AuditResult } from '@shaftwork/sim-core/results/audit-result';
import { type Chance, chanceOf } from '@shaftwork/sim-core/results/chance';
import type { DoubtResult } from '@shaftwork/sim-core/results/doubt-result';
import type { LimitResult } from '@shaftwork/sim-core/results/limit-result';
import type { CandidateResult } from '@shaftwork/sim-core/results/run-result';
import { verdictOf } from '@shaftwork/sim-core/words/verdict';
import { describe, expect, it } from 'vitest';

const NAMES = ['Wide', 'Long', 'Small', 'Tall'];
const OBJECTIVES = ['coolest', 'longest', 'fastest', 'lightest'] as const;
const ZERO = 273.15;
const DURATION = 1000;

function randomCase(seed: number) {
  const { fraction } = seededRandom(seed);
  const between = (a: number, b: number): number => a + (b - a) * fraction();
  const chance = (p: number): boolean => fraction() < p;
  const limit = (id: 'windingTemperature' | 'motorCurrent' | 'batteryCurrent' | 'reserve', worst: number, bound: number): LimitResult => {
    const floor = id === 'reserve';
    const margin = floor ? worst - bound : bound - worst;
    const [words, dimension, shown] = (
      {
        windingTemperature: ['winding temperature', 'temperature', '°C'],
        motorCurrent: ['motor current (maker)', 'current', 'A'],
        batteryCurrent: ['battery current (rating)', 'current', 'A'],
        reserve: ['charge left', 'fraction', '%'],
      } as const
    )[id];
    const passed = margin < 0 ? { passed: { at: between(0, 600) } } : {};
    return {
      id,
      words,
      dimension,
      shown,
      bound,
      origin: '',
      sense: floor ? 'floor' : 'ceiling',
      start: 0,
      worst,
      worstTime: 0,
      margin,
      marginShare: margin / bound,
      ...(chance(0.3) ? { assumed: true as const } : {}),
      ...passed,
    };
  };
  const figure = (dimension: string, nominal: number) => ({ dimension, nominal });
  const candidate = (name: string): CandidateResult => {
    const winding = between(320, 430);
    const limits = [limit('windingTemperature', winding, between(380, 440))];
    if (chance(0.6)) limits.push(limit('motorCurrent', between(10, 40), between(20, 60)));
    if (chance(0.6)) limits.push(limit('batteryCurrent', between(10, 40), between(20, 90)));
    if (chance(0.3)) limits.push(limit('reserve', between(0, 0.6), 0.2));
    limits.sort((a, b) => a.marginShare - b.marginShare);
    const end = chance(0.8) ? 'finished' : (['cut-off', 'empty', 'failed'] as const)[Math.floor(3 * fraction())];
    const headline = {
      peakWindingTemperature: figure('temperature', winding),
      topSpeed: figure('speed', between(2, 20)),
      runTime: figure('time', end === 'finished' ? DURATION : chance(0.3) ? 0 : between(60, 900)),
      ...(chance(0.5) ? { timeToCutoff: figure('time', between(900, 5000)) } : {}),
    };
    const facts = { fits: chance(0.85), mass: between(0.05, 0.4), canLength: between(0.02, 0.08), canDiameter: between(0.02, 0.05) };
    const feasible = end === 'finished' && limits.every(({ margin }) => margin >= 0);
    const findings = chance(0.2)
      ? [
          {
            candidate: name,
            kind: 'step-not-held',
            step: 0,
            ...(chance(0.5) ? { label: 'steep climb' } : {}),
            wanted: 4,
            reached: between(-1, 4),
          },
        ]
      : [];
    return { name, limits, end, headline, facts, feasible, findings } as unknown as CandidateResult;
  };
  const objective = OBJECTIVES[Math.floor(4 * fraction())];
  const ranked = rank(NAMES.slice(0, 1 + Math.floor(4 * fraction())).map(candidate), objective, DURATION);
  const samples = 64;
  const counted = () => chanceOf(Math.min(samples, Math.max(0, Math.round(between(-15, 79)))), samples);
  const doubt = chance(0.7)
    ? ({
        samples,
        candidates: ranked.map(({ name, limits }) => ({
          name,
          feasible: counted(),
          limits: limits.map(({ id, words }) => ({ id, words, passed: counted() })),
        })),
        comparisons: ranked.slice(1).map(({ name }) => {
          const wins = counted();
          return { better: ranked[0].name, worse: name, wins, distinguishable: wins.low >= 0.8 };
        }),
      } as unknown as DoubtResult)
    : undefined;
  const odd = chance(0.15)
    ? {
        kind: ['motor-constant-out-of-line', 'loaded-speed-out-of-band'][Math.floor(2 * fraction())],
        candidates: [ranked[Math.floor(ranked.length * fraction())].name],
        weight: ['contradiction', 'unusual', 'note'][Math.floor(3 * fraction())],
        says: 'its can and mass disagree.',
      }
    : undefined;
  const audit = { oddities: odd === undefined ? [] : [odd] } as unknown as AuditResult;
  return { ranked, objective, doubt, audit };
}

const COMPARING =
  /\d|cooler|hotter|longer|shorter|faster|slower|lighter|heavier|coolest|longest|fastest|lightest|as warm|as long|as fast|as heavy|every|none|only|nearest|runner|matters|short\b|falls|surely|as written|likely|told apart|doubtful|cannot be right|prefer/i;

function check(seed: number): void {
  const { ranked, objective, doubt, audit } = randomCase(seed);
  const [first, second] = ranked;
  const nearest = asGoodAsFirst(ranked, objective, DURATION);
  const sentences = verdictOf(ranked, objective, nearest, { ...(doubt === undefined ? {} : { doubt }), audit });
  expect(sentences.length).toBeLessThanOrEqual(5);
  let text = sentences.join(' ').replaceAll('\u202f', ' ');
  const number = (word: string): number => Number(word.replace('−', '-'));
  const take = (pattern: RegExp, test: (...found: string[]) => void): void => {
    text = text.replace(pattern, (...found) => {
      test(...(found.slice(1, -2) as string[]));
      return '';
    });
  };
  const holds = ({ findings }: CandidateResult): boolean =>
    findings.every(
      (finding) => finding.kind !== 'step-not-held' || Math.abs(finding.wanted - finding.reached) <= 0.01 * Math.abs(finding.wanted),
    );
  const does: Record<string, (candidate: CandidateResult) => boolean> = {
    'meets every limit': ({ feasible }) => feasible,
    'fits the space given': ({ facts }) => facts.fits,
    'holds every step': holds,
    'meet every limit': ({ feasible }) => feasible,
    'fit the space given': ({ facts }) => facts.fits,
    'hold every step': holds,
  };
  const parts = (list: string): string[] => list.split(/, | and | or /);
  const good = ranked.filter((each) => each.feasible && each.facts.fits && holds(each));
  const bestOf = (among: readonly CandidateResult[]): CandidateResult => rank(among, objective, DURATION)[0];
  const chances = (candidate: CandidateResult) => doubt?.candidates.find(({ name }) => name === candidate.name);
  const odd = audit.oddities.find(
    ({ weight, kind, candidates }) =>
      (weight === 'contradiction' || (weight === 'unusual' && kind !== 'loaded-speed-out-of-band')) && candidates.includes(first.name),
  );
  // a choice that fails in more than a tenth of the draws, or whose sheet cannot be right, is no plain choice
  const plainChoice = (chances(first)?.feasible.probability ?? 1) >= 0.9 && odd === undefined;
  take(
    /(Choose )?(\w+)(?:,| is) the (coolest|one that lasts longest|fastest|lightest) of the (\d+) that meet every limit( and hold every step)?(, with the numbers as written)?\./g,
    (choose, name, best, count, held, written) => {
      expect([choose !== undefined, written === undefined]).toEqual([plainChoice, plainChoice]);
      expect(held !== undefined).toBe(!ranked.every(holds));
      expect(name).toBe(bestOf(good).name);
      expect(best).toContain(objective);
      expect(number(count)).toBe(good.length);
    },
  );
  take(
    /(Choose )?(\w+)(?:,| is) the only one of (\d+) that meets every limit( and holds every step)?(, with the numbers as written)?\./g,
    (choose, name, count, held, written) => {
      expect([choose !== undefined, written === undefined]).toEqual([plainChoice, plainChoice]);
      expect(held !== undefined).toBe(!ranked.every(holds));
      expect([name]).toEqual(good.map((each) => each.name));
      expect(number(count)).toBe(ranked.length);
    },
  );
  take(/^(\w+) meets every limit(, with the numbers as written)?\./g, (name, written) => {
    expect([good.length, ranked.length, name, written === undefined]).toEqual([1, 1, first.name, plainChoice]);
  });
  const lacking = (each: CandidateResult): number => {
    const [lost] = each.findings as unknown as { wanted: number; reached: number }[];
    return holds(each) ? 0 : Math.round(100 * Math.min(1, 1 - lost!.reached / lost!.wanted));
  };
  /** What ranks failures: driven to the per cent, then limits passed and steps lost, then what is lacking. */
  const failing = (each: CandidateResult): string =>
    `${each.facts.fits} ${each.feasible && holds(each)} ${Math.round((100 * each.headline.runTime.nominal) / DURATION)} ${each.limits.filter(({ margin }) => margin < 0).length + Number(!holds(each))} ${lacking(each)}`;
  take(
    /None of the (\d+) ([a-z, ]+); (\w+) (?:comes nearest|is the (coolest|one that lasts longest|fastest|lightest) of the (\d+) that come nearest)\./g,
    (count, demands, name, best, alike) => {
      expect(ranked.some((each) => parts(demands).every((demand) => does[demand](each)))).toBe(false);
      for (const demand of parts(demands)) expect(ranked.every(does[demand]), demand).toBe(false);
      expect([number(count), good.length, name]).toEqual([ranked.length, 0, first.name]);
      expect(Number(alike ?? 1)).toBe(
        first.feasible && holds(first)
          ? ranked.filter((each) => each.facts.fits === first.facts.fits && each.feasible && holds(each)).length
          : ranked.filter((each) => failing(each) === failing(first)).length,
      );
      if (best !== undefined) expect(best).toContain(objective);
    },
  );
  take(/^(\w+) does not ((?:meet every limit|fit the space given|hold every step)[a-z, ]*)\./g, (name, what) => {
    expect([name, ranked.length, good.length]).toEqual([first.name, 1, 0]);
    for (const demand of parts(what)) expect(does[demand](first), demand).toBe(false);
  });
  take(/(It|it|\w+) does not hold (?:the step “(steep climb)”|a step of the profile)/g, (who, label) => {
    const those = who.toLowerCase() === 'it' ? [first, second] : [ranked.find(({ name }) => name === who)];
    expect(
      those.some(
        (each) => each !== undefined && !holds(each) && (label === undefined) === !each.findings.some((finding) => 'label' in finding),
      ),
    ).toBe(true);
  });
  const inUnit = (limit: LimitResult, value: number): number =>
    limit.dimension === 'temperature' ? value - ZERO : limit.dimension === 'fraction' ? 100 * value : value;
  const near = (told: string, value: number): void => {
    const decimals = told.split('.')[1]?.length ?? 0;
    expect(Math.abs(number(told) - value)).toBeLessThanOrEqual(0.5000001 * 10 ** -decimals);
  };
  const passes =
    (candidate: CandidateResult) => (words: string, bound: string, time: string, worst: string, others: string | undefined) => {
      const passed = candidate.limits.filter((limit) => limit.margin < 0).sort((a, b) => a.passed!.at - b.passed!.at);
      expect(words).toBe(passed[0].words);
      near(bound, inUnit(passed[0], passed[0].bound));
      near(worst, inUnit(passed[0], passed[0].worst));
      expect(time).toBe(formatClock(passed[0].passed!.at));
      expect(Number(others ?? 0)).toBe(passed.length - 1);
    };
  const passing =
    'passes its limit of ([^,]+), (−?[\\d.]+) (?:°C|A|%), at ([\\d:]+) and reaches (−?[\\d.]+) (?:°C|A|%)(?:, and passes (\\d+) other limits?)?';
  take(new RegExp(`It ${passing}`, 'g'), passes(first) as (...found: string[]) => void);
  if (second !== undefined) take(new RegExp(`${second.name} ${passing}`, 'g'), passes(second) as (...found: string[]) => void);
  take(
    /(It|it|\w+) (stops at ([\d:]+)|cannot start): (the cells are at their cut-off|the cells are empty|there is no operating point)/g,
    (who, _, time, why) => {
      const those = who.toLowerCase() === 'it' ? [first, second] : [ranked.find(({ name }) => name === who)];
      const reasons = {
        'the cells are at their cut-off': 'cut-off',
        'the cells are empty': 'empty',
        'there is no operating point': 'failed',
      } as const;
      expect(
        those.some(
          (each) =>
            each !== undefined &&
            each.end === reasons[why as keyof typeof reasons] &&
            (time === undefined ? each.headline.runTime.nominal < 0.5 : time === formatClock(each.headline.runTime.nominal)),
        ),
      ).toBe(true);
    },
  );
  const draws =
    'in (?:(all|none of the) (\\d+) draws, so at (?:least|most) (\\d+) %|(\\d+) of (\\d+) draws, ([\\d.]+) % \\(([\\d.]+) to ([\\d.]+) %\\))';
  const isChance = (of: Chance, ...found: readonly string[]): void => {
    const [all, whole, edge, count, among, p, low, high] = found;
    if (all !== undefined) {
      expect([number(whole), of.count]).toEqual([64, all === 'all' ? 64 : 0]);
      const bound = 100 * (all === 'all' ? of.low : of.high);
      expect(Math.abs(number(edge) - bound)).toBeLessThan(1);
      expect(all === 'all' ? number(edge) <= bound : number(edge) >= bound).toBe(true);
    } else {
      expect([number(count), number(among)]).toEqual([of.count, 64]);
      near(p, 100 * of.probability);
      near(low, 100 * of.low);
      near(high, 100 * of.high);
    }
  };
  const toldOf = (limit: LimitResult, worst: string, assumed: string | undefined, bound: string): void => {
    near(worst, inUnit(limit, limit.worst));
    near(bound, inUnit(limit, limit.bound));
    expect(assumed !== undefined).toBe(limit.assumed === true);
    expect(first.feasible).toBe(true);
  };
  const value = '(−?[\\d.]+) (?:°C|A|%)';
  take(
    new RegExp(`Its nearest limit is the ([^:]+): ${value} as written, (assumed )?limit ${value}\\.`, 'g'),
    (words, worst, assumed, bound) => {
      expect(words).toBe(first.limits[0].words);
      expect((chances(first)?.limits ?? []).every(({ passed }) => passed.count === 0)).toBe(true);
      toldOf(first.limits[0], worst, assumed, bound);
    },
  );
  take(
    new RegExp(
      `Most likely to be passed is the ([^,]+), in (\\d+) of (\\d+) draws: ${value} as written, (assumed )?limit ${value}\\.`,
      'g',
    ),
    (words, count, of, worst, assumed, bound) => {
      const all = chances(first)!.limits;
      const likely = all.find((each) => each.words === words)!;
      expect(likely.passed.count).toBe(Math.max(...all.map(({ passed }) => passed.count)));
      expect([number(count), number(of)]).toEqual([likely.passed.count, 64]);
      toldOf(first.limits.find(({ id }) => id === likely.id)!, worst, assumed, bound);
    },
  );
  take(/The largest part of its spread, (\d+) %, comes from the ([^.]+)\./g, (share, words) => {
    const told = chances(first)!.limits.flatMap(({ spreadBy }) => spreadBy ?? []);
    expect(told.some((each) => each.words.startsWith(words) && Math.abs(100 * each.share - number(share)) <= 0.5)).toBe(true);
  });
  take(new RegExp(`It meets every limit ${draws}`, 'g'), (...found) => isChance(chances(first)!.feasible, ...found));
  take(new RegExp(`(\\w+) meets every limit more surely, ${draws}`, 'g'), (name, ...found) => {
    const own = chances(ranked.find((each) => each.name === name)!)!.feasible;
    expect(own.low).toBeGreaterThan(chances(first)!.feasible.high);
    isChance(own, ...found);
  });
  take(new RegExp(`(\\w+) comes before it ${draws}(: the two are not told apart)?`, 'g'), (name, ...found) => {
    const [comparison] = doubt!.comparisons;
    expect(name).toBe(first.name);
    expect(found[8] === undefined).toBe(comparison.distinguishable);
    isChance(comparison.wins, ...found);
  });
  take(/Its sheet (cannot be right|is doubtful)\. its can and mass disagree\. This comes before all else\./g, (how) => {
    expect(how === 'cannot be right').toBe(odd!.weight === 'contradiction');
  });
  const lasting = ({ headline }: CandidateResult): number => (headline.timeToReserve ?? headline.timeToCutoff ?? headline.runTime).nominal;
  const winding = ({ headline }: CandidateResult): number => headline.peakWindingTemperature.nominal;
  const speed = ({ headline }: CandidateResult): number => headline.topSpeed.nominal;
  /** A reader who subtracts what is printed of the two finds the same. */
  const gapOf = (a: number, b: number, decimals = 0): number =>
    Number((Number(a.toFixed(decimals)) - Number(b.toFixed(decimals))).toFixed(decimals));
  const signed = (size: string, gap: number, word: string, positive: string): void => {
    near(size, Math.abs(gap));
    expect(word === positive).toBe(gap > 0);
  };
  take(/Its winding peaks (\d+) K (cooler|hotter) than that of the runner-up, (\w+)/g, (size, word, name) => {
    expect([objective, name]).toEqual(['coolest', second.name]);
    // as the report and the reasons tell it: the difference of the values, not of the rounded ones
    signed(size, Number((winding(second) - winding(first)).toFixed(0)), word, 'cooler');
  });
  take(/It lasts ([\d:]+) (longer|shorter) than the runner-up, (\w+)/g, (size, word, name) => {
    const gap = lasting(first) - lasting(second);
    expect([objective, name, size, word]).toEqual(['longest', second.name, formatClock(Math.abs(gap)), gap > 0 ? 'longer' : 'shorter']);
  });
  take(/It is ([\d.]+) m\/s (faster|slower) than the runner-up, (\w+)/g, (size, word, name) => {
    expect([objective, name]).toEqual(['fastest', second.name]);
    signed(size, gapOf(speed(first), speed(second), 2), word, 'faster');
  });
  take(/It is (\d+) g (lighter|heavier) than the runner-up, (\w+)/g, (size, word, name) => {
    expect([objective, name]).toEqual(['lightest', second.name]);
    signed(size, gapOf(1000 * second.facts.mass, 1000 * first.facts.mass), word, 'lighter');
  });
  take(/(?:Its winding peaks as warm as that of|It lasts as long as|It is as fast as|It is as heavy as) the runner-up, (\w+)/g, (name) => {
    expect(name).toBe(second.name);
    const gap = {
      coolest: Number((winding(first) - winding(second)).toFixed(0)),
      longest: lasting(first) - lasting(second),
      fastest: 100 * gapOf(speed(first), speed(second), 2),
      lightest: gapOf(1000 * first.facts.mass, 1000 * second.facts.mass),
    }[objective]!;
    expect(Math.abs(gap)).toBeLessThanOrEqual(0.5);
  });
  take(
    /Prefer (\w+) where (weight|top speed|lasting|length|width) (?:matters more|is short) \(([\d.:]+)(?: g| m\/s| mm)? against ([\d.:]+)(?: g| m\/s| mm)?\)/g,
    (name, what, hers, his) => {
      expect(name).toBe(second.name);
      if (what === 'lasting') {
        expect([hers, his]).toEqual([formatClock(lasting(second)), formatClock(lasting(first))]);
        expect(lasting(second)).toBeGreaterThan(lasting(first));
        return;
      }
      const value = (c: CandidateResult): number =>
        what === 'weight'
          ? 1000 * c.facts.mass
          : what === 'top speed'
            ? speed(c)
            : 1000 * (what === 'length' ? c.facts.canLength : c.facts.canDiameter);
      near(hers, value(second));
      near(his, value(first));
      expect(value(second) > value(first)).toBe(what === 'top speed');
    },
  );
  take(/The tolerances were not sampled, so how sure this is was not asked/g, () => {});
  expect(COMPARING.exec(text)?.[0], `seed ${seed}: ${sentences.join(' ')}\nleft: ${text}`).toBeUndefined();
}

describe('the verdict', () => {
  it('says of 5,000 random results nothing that is not so', () => {
    for (let seed = 0; seed < 5000; seed++) check(seed);
  });

  it('names choice, margin, doubt and runner-up once each', () => {
    const { ranked, objective, doubt, audit } = Array.from({ length: 200 }, (_, seed) => randomCase(seed)).find(
      (each) =>
        each.doubt?.candidates[0].feasible.probability === 1 &&
        each.audit.oddities.length === 0 &&
        each.ranked.filter(({ feasible, facts }) => feasible && facts.fits).length > 1,
    )!;
    const text = verdictOf(ranked, objective, 1, { ...(doubt === undefined ? {} : { doubt }), audit }).join(' ');
    expect(text.match(/Choose/g)).toHaveLength(1);
    expect(text.match(/runner-up/g)).toHaveLength(1);
    expect(formatQuantity(1, 'current', { decimals: 0 })).toContain('A');
  });
});
