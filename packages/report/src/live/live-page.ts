/** What the reading aids share: the run's values, the drawings that are there, which stretch and which moment are looked at. @module */

import type { RunTable } from './run-table.js';

/** One panel of a drawing, with the marks laid over it. */
export interface LivePanel {
  readonly group: SVGGElement;
  readonly svg: SVGSVGElement;
  readonly channel: string;
  readonly width: number;
  readonly height: number;
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
  readonly overlay: SVGElement;
  readonly line: SVGElement;
  readonly marks: readonly SVGElement[];
  readonly readout: SVGElement;
  readonly curves: readonly { readonly path: SVGPathElement; readonly still: string; readonly candidate: number }[];
  readonly stretched: readonly { readonly mark: SVGElement; readonly still: string }[];
}

export interface LivePage {
  readonly table: RunTable;
  /** Times of each candidate [s]; values by channel, candidate by candidate, as they are shown. */
  readonly times: readonly (readonly number[])[];
  readonly values: ReadonlyMap<string, readonly (readonly number[])[]>;
  readonly duration: number;
  readonly panels: readonly LivePanel[];
  readonly hidden: Set<number>;
  /** Stretch that is shown, and the moment that is read [s]. */
  view: readonly [number, number];
  moment: number | undefined;
  readonly bars: { readonly slider: HTMLInputElement; readonly told: HTMLOutputElement; readonly back: HTMLButtonElement }[];
  element(name: string, attributes: Record<string, string | number>, parent?: Element): SVGElement;
  clock(seconds: number): string;
  /** Value of a channel at a time, as shown; a dash where there is none. */
  at(channel: string, candidate: number, time: number): number;
  shown(channel: string, value: number): string;
  colour(candidate: number): string;
}

/** Reads the page; nothing where it has no charts over time. Written into the page as its own text: it uses nothing outside itself. */
export function livePage(): LivePage | undefined {
  const source = document.getElementById('run-table');
  if (source === null) return undefined;
  const table = JSON.parse(source.textContent ?? '') as RunTable;
  const SVG = 'http://www.w3.org/2000/svg';
  const summed = (differences: readonly (number | null)[], unit: number): number[] => {
    let sum = 0;
    return differences.map((difference) => {
      if (difference === null) return Number.NaN;
      sum += difference;
      return sum / unit;
    });
  };
  const times = table.time.map((differences) => summed(differences, 10));
  const values = new Map(
    Object.entries(table.channels).map(([id, channel]) => [id, channel.values.map((one) => summed(one, 10 ** (channel.decimals + 1)))]),
  );
  const duration = Math.max(0, ...times.map((time) => time.at(-1) ?? 0));
  const hidden = new Set<number>();

  const element = (name: string, attributes: Record<string, string | number>, parent?: Element): SVGElement => {
    const made = document.createElementNS(SVG, name) as SVGElement;
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
    parent?.append(made);
    return made;
  };
  const clock = (seconds: number): string => {
    const whole = Math.round(seconds);
    const two = (value: number): string => String(value).padStart(2, '0');
    const minute = table.secondsPerMinute;
    const [hours, minutes] = [Math.floor(whole / minute / minute), Math.floor(whole / minute) % minute];
    return hours > 0 ? `${hours}:${two(minutes)}:${two(whole % minute)}` : `${minutes}:${two(whole % minute)}`;
  };
  const at = (channel: string, candidate: number, time: number): number => {
    const grid = times[candidate];
    const column = values.get(channel)?.[candidate];
    if (column === undefined || grid.length === 0 || time > grid[grid.length - 1] + 0.5) return Number.NaN;
    let [low, high] = [0, grid.length - 1];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (grid[middle] <= time) low = middle;
      else high = middle;
    }
    const span = grid[high] - grid[low];
    const share = span > 0 ? Math.min(1, Math.max(0, (time - grid[low]) / span)) : 0;
    return column[low] + (column[high] - column[low]) * share;
  };
  const shown = (channel: string, value: number): string =>
    Number.isFinite(value) ? value.toFixed(table.channels[channel].decimals).replace('-', '\u2212') : '\u2013';
  const colour = (candidate: number): string => `var(--c${(candidate % 8) + 1})`;

  // The panels, of the wide and of the narrow drawings.
  const panels = Array.from(document.querySelectorAll<SVGGElement>('g[data-channel]'), (group) => {
    const [width, height, from, to, low, high] = (group.dataset['frame'] ?? '').split(' ').map(Number) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    const channel = group.dataset['channel'] ?? '';
    const svg = group.ownerSVGElement;
    if (svg === null) throw new Error('a panel outside a drawing');
    const overlay = element('g', { class: 'live', 'pointer-events': 'none', visibility: 'hidden' }, group);
    const line = element('line', { y1: 0, y2: height, stroke: 'var(--ink)', 'stroke-width': 1 }, overlay);
    const marks = table.names.map((_, candidate) =>
      element('circle', { r: 3.5, fill: colour(candidate), stroke: 'var(--paper)', 'stroke-width': 1.2 }, overlay),
    );
    const title = group.dataset['title'] === undefined ? -8 : Number(group.dataset['title']);
    const readout = element('text', { x: width, y: title, 'text-anchor': 'end', 'font-size': 12, class: 'readout' }, overlay);
    // Curves stand in clipped groups, stroked in a candidate's colour and not filled.
    const curves = Array.from(group.querySelectorAll<SVGPathElement>('g[clip-path] path[stroke^="var(--c"]'), (path) => ({
      path,
      still: path.getAttribute('d') ?? '',
      candidate: Number(/\d+/.exec(path.getAttribute('stroke') ?? '')?.[0] ?? 1) - 1,
    }));
    const drawn = new Set<Element>(curves.map(({ path }) => path));
    const stretched = Array.from(group.querySelectorAll<SVGElement>('g[clip-path] > *'), (mark) => ({
      mark,
      still: mark.getAttribute('transform') ?? '',
    })).filter(({ mark }) => !drawn.has(mark) && mark.querySelector('path[stroke^="var(--c"]') === null);
    return {
      group,
      svg,
      channel,
      width,
      height,
      from,
      to,
      low,
      high,
      overlay,
      line,
      marks,
      readout,
      curves,
      stretched,
    };
  });
  if (panels.length === 0) return undefined;
  return {
    table,
    times,
    values,
    duration,
    panels,
    hidden,
    view: [0, duration],
    moment: undefined,
    bars: [],
    element,
    clock,
    at,
    shown,
    colour,
  };
}
