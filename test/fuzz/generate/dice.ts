/** Numbers for generated scenarios, drawn by a seed: usual ones, ones a thousand times beyond, ones on a bound; how often is drawn for each scenario. */

export type Node = string | number | readonly Node[] | { readonly [key: string]: Node | undefined };
export type Section = { [key: string]: Node | undefined };

/** Mulberry32, a public-domain generator of 32 bits by T. Ettinger (from memory): [0, 1). */
export function randomOf(seed: number): () => number {
  let a = (seed ^ 0x9e3779b9) >>> 0;
  const next = (): number => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), a | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  for (let k = 0; k < 8; k++) next();
  return next;
}

export interface Bounds {
  readonly min?: number;
  readonly max?: number;
  readonly above?: number;
  /** Whether it may carry a tolerance; true where absent. */
  readonly tolerant?: boolean;
}

export type Dice = ReturnType<typeof diceOf>;

export function diceOf(seed: number) {
  const r = randomOf(seed);
  const chance = (share: number): boolean => r() < share;
  const pick = <T>(list: readonly T[]): T => list[Math.floor(r() * list.length)];
  const whole = (low: number, high: number): number => low + Math.floor(r() * (high - low + 1));
  /** Shares of numbers outside the usual, on a bound, with a tolerance, and of keys that may be left out and are written. */
  const wild = pick([0, 0, 0, 0.03, 0.1, 0.4]);
  const edge = pick([0, 0, 0.02, 0.1]);
  const tolerant = pick([0, 0, 0.2, 0.6]);
  const given = pick([0.1, 0.3, 0.5, 0.8]);
  const opt = (section: Section, key: string, make: () => Node, share = given): void => {
    if (chance(share)) section[key] = make();
  };
  const digits = (x: number): string => {
    const text = x.toPrecision(pick([2, 3, 4, 6, 12]));
    return /e/.test(text) ? Number(text).toExponential() : text;
  };
  const value = (low: number, high: number, { min, max }: Bounds = {}): number => {
    let x: number;
    if (chance(edge)) x = pick([min, max].filter((b) => b !== undefined && Number.isFinite(b)).concat([low, high])) ?? low;
    else if (low > 0) {
      const [a, b] = chance(wild) ? [Math.log(low / 1000), Math.log(high * 1000)] : [Math.log(low), Math.log(high)];
      x = Math.exp(a + r() * (b - a));
    } else x = (chance(wild) ? pick([-1, 3]) : 0) * (high - low) + low + r() * (high - low);
    return Math.min(max ?? Number.POSITIVE_INFINITY, Math.max(min ?? Number.NEGATIVE_INFINITY, x));
  };
  /** A number with its unit, now and then with a tolerance. */
  const q = (low: number, high: number, unit: string, bounds: Bounds = {}): string => {
    const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY, above = Number.NEGATIVE_INFINITY } = bounds;
    let x = value(low, high, bounds);
    if (!(x > above)) x = low;
    let text = digits(x);
    // a rounded number must not leave its bounds
    if (!(Number(text) <= max && Number(text) >= min && Number(text) > above)) text = String(x);
    if (unit !== '') text += ` ${unit}`;
    const spread = bounds.tolerant !== false && Number.parseFloat(text) !== 0 && chance(tolerant);
    return spread ? text + (unit === '°C' ? ` ± ${pick([1, 5, 20])} K` : ` ± ${pick([1, 4, 10, 30, 60, 90, 99, 99.9])} %`) : text;
  };
  const bare = (low: number, high: number, bounds: Bounds = {}): string => q(low, high, '', { tolerant: false, ...bounds });
  const rising = (n: number, low: number, high: number): number[] => {
    let at = low;
    const found = Array.from({ length: n }, () => {
      const here = at;
      at += ((high - low) / n) * (0.2 + 1.5 * r());
      return Number(Math.min(high, here).toPrecision(5));
    });
    return found.filter((x, k) => k === 0 || x > found[k - 1]);
  };

  const kind = pick(['bench-air', 'bench-water', 'boat', 'boat', 'boat-air', 'aircraft', 'aircraft', 'car', 'car'] as const);
  return {
    r,
    chance,
    pick,
    whole,
    wild,
    given,
    opt,
    value,
    q,
    bare,
    rising,
    kind,
    wet: kind === 'boat' || kind === 'boat-air' || kind === 'bench-water',
    moving: kind !== 'bench-air' && kind !== 'bench-water',
    /** Of the drive, against a motor of 200 g. */
    size: pick([0.02, 0.1, 0.3, 1, 1, 1, 3, 10, 50]),
    air: value(-20, 40, { min: -60, max: 80 }),
    /** Of the pack, set when it is drawn [V]. */
    volts: 11,
    /** Of the vehicle, set when it is drawn [m/s]. */
    speed: 5,
  };
}
