/** A closer look at a stretch of the run: curves drawn anew, what stands at times put away, ticks of its own. @module */

import type { LivePage, LivePanel } from './live-page.js';

/** Returns what shows the stretch between two times. Written into the page as its own text: it uses nothing outside itself. */
export function liveStretch(page: LivePage, show: (time: number | undefined) => void): (from: number, to: number) => void {
  const { table, times, values, duration, panels, hidden, bars, element, clock, at, colour } = page;

  function zoom(from: number, to: number): void {
    const least = Math.min(duration, 2);
    const span = Math.min(duration, Math.max(least, to - from));
    const start = Math.min(Math.max(0, from), duration - span);
    page.view = [start, start + span];
    const whole = span >= duration;
    document.documentElement.classList.toggle('zoomed', !whole);
    for (const panel of panels) {
      const { width, height, low, high } = panel;
      const scale = duration / span;
      for (const { path, still, candidate } of panel.curves) {
        path.setAttribute('d', whole ? still : curve(panel.channel, candidate, width, height, low, high));
      }
      const place = `translate(${-(page.view[0] / span) * width},0) scale(${scale},1)`;
      for (const { mark, still } of panel.stretched) mark.setAttribute('transform', whole ? still : `${place} ${still}`);
      panel.group.querySelector('.ticks')?.remove();
      timed(panel.group, panel.width, !whole);
      if (whole) continue;
      const row = element('g', { class: 'ticks' }, panel.group);
      if (labelled(panel.group)) ticks(row, width, height);
      ends(row, panel);
      if (panel.group.querySelector('line[stroke="var(--hair)"]') !== null) steps(row, width);
    }
    for (const { back } of bars) back.disabled = whole;
    show(page.moment);
  }
  function curve(channel: string, candidate: number, width: number, height: number, low: number, high: number): string {
    const grid = times[candidate];
    const column = values.get(channel)?.[candidate] ?? [];
    let path = '';
    let pen = 'M';
    for (const [index, time] of grid.entries()) {
      const near = (grid[index + 1] ?? time) >= page.view[0] && (grid[index - 1] ?? time) <= page.view[1];
      const value = column[index];
      if (!near || !Number.isFinite(value)) {
        pen = 'M';
        continue;
      }
      const x = ((time - page.view[0]) / (page.view[1] - page.view[0])) * width;
      const y = height - ((value - low) / (high - low)) * height;
      path += `${pen}${x.toFixed(2)},${y.toFixed(2)}`;
      pen = 'L';
    }
    return path;
  }
  const placeOf = (mark: Element): readonly [number, number] => {
    const [, x = '0', y = '0'] = /translate\(([-\d.]+)[, ]([-\d.]+)\)/.exec(mark.getAttribute('transform') ?? '') ?? [];
    return [Number(x), Number(y)];
  };
  /** Tick texts of the time axis: those that stand under the frame, in a row. */
  const axisTexts = (group: Element): Element[] =>
    Array.from(group.querySelectorAll('text[text-anchor="middle"]')).filter((text) => placeOf(text)[1] === 18);
  const labelled = (group: Element): boolean => axisTexts(group).length > 0;
  function ticks(row: Element, width: number, height: number): void {
    const span = page.view[1] - page.view[0];
    const step = table.timeSteps.find((one) => span / one <= width / 90) ?? span;
    for (let time = Math.ceil(page.view[0] / step) * step; time <= page.view[1]; time += step) {
      const x = ((time - page.view[0]) / span) * width;
      element('line', { x1: x, x2: x, y1: height, y2: height + 4, stroke: 'var(--soft)' }, row);
      element('text', { x, y: height + 18, 'text-anchor': 'middle', 'font-size': 12, fill: 'var(--soft)' }, row).textContent = clock(time);
    }
  }
  /** The names at the ends of what is shown, apart from one another, cut where they have no room. */
  function ends(row: Element, { channel, width, height, low, high, svg, group }: LivePanel): void {
    const line = 14;
    const origin = Number(/translate\(([-\d.]+)/.exec(group.getAttribute('transform') ?? '')?.[1] ?? 0);
    const room = svg.viewBox.baseVal.width - origin - width - 10;
    const placed = table.names
      .map((name, candidate) => ({ name, candidate, y: height - ((at(channel, candidate, page.view[1]) - low) / (high - low)) * height }))
      .filter(({ y, candidate }) => Number.isFinite(y) && !hidden.has(candidate))
      .sort((a, b) => a.y - b.y);
    let last = Number.NEGATIVE_INFINITY;
    for (const { name, candidate, y } of placed) {
      last = Math.max(y, last + line);
      const text = element('text', { x: width + 9, y: last + 4, 'font-size': 12, 'font-weight': 600, fill: colour(candidate) }, row);
      text.textContent = name;
      let kept = name.length;
      while (kept > 1 && (text as SVGTextElement).getComputedTextLength() > room) text.textContent = `${name.slice(0, --kept)}\u2026`;
    }
  }
  /** Names of steps that have room in what is shown. */
  function steps(row: Element, width: number): void {
    const place = (time: number): number => ((time - page.view[0]) / (page.view[1] - page.view[0])) * width;
    for (const [from, to, name] of table.steps) {
      const [left, right] = [Math.max(0, place(from)), Math.min(width, place(to))];
      if (right - left < 12) continue;
      const text = element('text', { x: (left + right) / 2, y: -12, 'text-anchor': 'middle', 'font-size': 12, fill: 'var(--soft)' }, row);
      text.textContent = name;
      if ((text as SVGTextElement).getComputedTextLength() > right - left - 6) text.remove();
      else if (left > 0) element('line', { x1: left, x2: left, y1: -15, y2: -3, stroke: 'var(--soft)' }, row);
    }
  }
  /** What stands at a time of the whole run is put away while a stretch is shown: ticks, names of steps, peaks, passings. */
  function timed(group: Element, width: number, away: boolean): void {
    const put = (mark: Element): void => {
      if (away) mark.setAttribute('visibility', 'hidden');
      else mark.removeAttribute('visibility');
    };
    for (const text of axisTexts(group)) put(text);
    for (const line of group.querySelectorAll('line[y2="4"]')) put(line);
    for (const mark of group.querySelectorAll('text, path[stroke="var(--paper)"], path[fill="var(--paper)"], line[stroke="var(--hair)"]')) {
      if (mark.closest('.live, .ticks, [clip-path]') !== null) continue;
      const [x, y] = placeOf(mark);
      const over = mark.tagName === 'text' && x >= 0 && x <= width && y < 0 && mark.getAttribute('text-anchor') === 'middle';
      const beside = mark.tagName === 'text' && x >= 0 && x <= width && y >= 0 && (mark.getAttribute('fill') ?? '').startsWith('var(--c');
      const ending = mark.tagName === 'text' && x > width && mark.getAttribute('text-anchor') !== 'end';
      if (mark.tagName !== 'text' || over || beside || ending) put(mark);
    }
  }

  return zoom;
}
