/**
 * What is held against something outside the program, as rows: `outside.test.ts` asserts them, docs/validation.md prints them. One check is one statement,
 * at one point or at many.
 * @module
 */

/** How a check's own value stands, in the words of the page. */
export const STANDINGS = {
  printed: 'values printed in a published source',
  measured: 'measurements that others published',
  theory: 'closed forms and published laws, worked out apart',
  code: 'code written apart',
  memory: 'values of a published source, from memory',
  practice: 'common practice, no published source',
} as const;
export type Standing = keyof typeof STANDINGS;

export interface Point {
  /** Where it is compared, in words; nothing where there is one point only. */
  readonly at: string;
  readonly theirs: number;
  readonly ours: number;
}

/** Bounds of the difference: of ours over theirs less one, or of ours less theirs. Neither bound itself is allowed. */
export interface Allowed {
  readonly of: 'share' | 'amount';
  readonly low: number;
  readonly high: number;
}
export const share = (most: number): Allowed => ({ of: 'share', low: -most, high: most });
export const shareBetween = (low: number, high: number): Allowed => ({ of: 'share', low, high });
export const amount = (most: number): Allowed => ({ of: 'amount', low: -most, high: most });
export const amountBetween = (low: number, high: number): Allowed => ({ of: 'amount', low, high });

export interface Check {
  readonly standing: Standing;
  readonly source: string;
  /** What is compared. */
  readonly what: string;
  /** Of both values; nothing where they are pure numbers. */
  readonly unit?: string;
  readonly allowed: Allowed;
  /** Fewer points than this are a fault; else one. */
  readonly least?: number;
  readonly points: () => readonly Point[];
}

/** Checks of one room, under one heading. */
export interface Topic {
  readonly title: string;
  readonly checks: readonly Check[];
}

export const differenceOf = ({ theirs, ours }: Point, { of }: Allowed): number => (of === 'share' ? ours / theirs - 1 : ours - theirs);

/** Whether a point is inside; a difference that is not a number is not. */
export const holds = (point: Point, allowed: Allowed): boolean => {
  const difference = differenceOf(point, allowed);
  return difference > allowed.low && difference < allowed.high;
};

/** How near a difference is to what is allowed: 0 in the middle, 1 at a bound; one bound that is infinite does not count. */
export function nearness(point: Point, allowed: Allowed): number {
  const difference = differenceOf(point, allowed);
  const { low, high } = allowed;
  if (low === Number.NEGATIVE_INFINITY) return difference - high;
  if (high === Number.POSITIVE_INFINITY) return low - difference;
  return Math.abs(difference - (low + high) / 2) / ((high - low) / 2);
}

/** The point nearest to a bound. Throws RangeError where there is none. */
export function worstOf(points: readonly Point[], allowed: Allowed): Point {
  const [first, ...others] = points;
  if (first === undefined) throw new RangeError('nothing is compared');
  return others.reduce((worst, point) => (nearness(point, allowed) > nearness(worst, allowed) ? point : worst), first);
}

/** One point, with nothing to say of its place. */
export const once = (theirs: number, ours: () => number) => (): readonly Point[] => [{ at: '', theirs, ours: ours() }];

/** Works out once what several checks ask. */
export function shared<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
