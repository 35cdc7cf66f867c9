/** The part of docs/validation.md that is made of the checks, and what the README says of them. @module */
import { type Allowed, type Check, differenceOf, type Point, STANDINGS, type Standing, type Topic, worstOf } from './check.js';

export const TITLE = 'Laws against values from elsewhere';

/** Six digits, no exponent where it can be helped. */
function digits(value: number): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size < 1e-3 || size >= 1e6) {
    const [mantissa, exponent] = value.toExponential(5).split('e');
    return `${String(Number(mantissa))}·10${[...String(Number(exponent))].map((sign) => '⁻⁰¹²³⁴⁵⁶⁷⁸⁹'['-0123456789'.indexOf(sign)]).join('')}`.replace(
      '-',
      '−',
    );
  }
  return String(Number(value.toPrecision(6))).replace('-', '−');
}
const rounded = (value: number, figures: number): string => digits(Number(value.toPrecision(figures)));
const withUnit = (text: string, unit = ''): string => (unit === '' ? text : `${text} ${unit}`);

const bound = (value: number, { of }: Allowed, unit: string | undefined, figures = 3): string =>
  of === 'share' ? `${rounded(100 * value, figures)} %` : withUnit(rounded(value, figures), unit);

function allowedText(allowed: Allowed, unit: string | undefined): string {
  const { low, high } = allowed;
  if (low === -high) return `± ${bound(high, allowed, unit)}`;
  if (high === Number.POSITIVE_INFINITY) return `above ${bound(low, allowed, unit)}`;
  if (low === Number.NEGATIVE_INFINITY) return `below ${bound(high, allowed, unit)}`;
  return `${bound(low, allowed, unit)} to ${bound(high, allowed, unit)}`;
}

/** Under a thousandth of what is allowed a difference is rounding, which no page should print. */
function differenceText(point: Point, allowed: Allowed, unit: string | undefined): string {
  const difference = differenceOf(point, allowed);
  const bounds = [Math.abs(allowed.low), Math.abs(allowed.high)].filter((size) => size > 0 && Number.isFinite(size));
  if (bounds.some((size) => Math.abs(difference) < 1e-3 * size)) return '0';
  return `${difference > 0 ? '+' : ''}${bound(difference, allowed, unit, 2)}`;
}

/** A check with its points worked out. */
export interface Worked {
  readonly check: Check;
  readonly points: readonly Point[];
}
export interface WorkedTopic {
  readonly title: string;
  readonly checks: readonly Worked[];
}
export const worked = ({ title, checks }: Topic): WorkedTopic => ({
  title,
  checks: checks.map((check) => ({ check, points: check.points() })),
});

const MARKS: Readonly<Record<Standing, string>> = {
  printed: '',
  measured: '',
  theory: '',
  code: '',
  memory: ' (from memory)',
  practice: ' (common practice)',
};

function row({ check: { source, what, unit, allowed, standing }, points }: Worked): readonly string[] {
  const worst = worstOf(points, allowed);
  const at = worst.at.replaceAll(/(^|\s)-(?=\d)/g, '$1−');
  const place = points.length === 1 ? at : `${at}, of ${points.length}`;
  return [
    what,
    `${source}${MARKS[standing]}`,
    place,
    withUnit(digits(worst.theirs), unit),
    withUnit(digits(worst.ours), unit),
    differenceText(worst, allowed, unit),
    allowedText(allowed, unit),
  ];
}

const table = (rows: readonly (readonly string[])[]): string =>
  [['what', 'source', 'farthest at', 'theirs', 'ours', 'difference', 'allowed'], Array(7).fill('---'), ...rows]
    .map((cells) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`)
    .join('\n');

const countOf = (topics: readonly Topic[], standing: Standing): number =>
  topics.flatMap(({ checks }) => checks).filter((check) => check.standing === standing).length;

/** "117 checks: 60 against values printed in a published source, …". */
export function countedText(topics: readonly Topic[]): string {
  const all = topics.reduce((sum, { checks }) => sum + checks.length, 0);
  const parts = (Object.keys(STANDINGS) as Standing[]).map((standing) => `${countOf(topics, standing)} against ${STANDINGS[standing]}`);
  return `${all} checks: ${parts.slice(0, -1).join('; ')}; ${parts.at(-1)}`;
}

/** The section in Markdown, without its heading. */
export function checksText(topics: readonly Topic[], done: readonly WorkedTopic[], propellerTable: string): string {
  return [
    `${countedText(topics)}.`,
    '',
    'Each row shows the point that lies farthest off, measured by what is allowed, and of how many. A difference under a thousandth of what is allowed is shown as 0.',
    'The rows stand in `test/checks/outside/`, where the tests assert them.',
    ...done.flatMap(({ title, checks }) => ['', `### ${title}`, '', table(checks.map(row))]),
    '',
    '### Each propeller',
    '',
    'Model over measurement less one in %, mean ± scatter, from standstill to 0.8 of the advance ratio where the thrust vanishes, on three bases; in **all** every propeller',
    'counts alike (UIUC Propeller Database, vols. 1–3; two were kept out of the fit).',
    '',
    propellerTable,
  ].join('\n');
}
