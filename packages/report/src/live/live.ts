/**
 * What a reader with scripts gets beside the still page: the values of all time charts at one moment, a closer look at a stretch
 * of the run, and candidates hidden. It lays lines and letters over the drawings that are there; the page is whole without it.
 *
 * The function is written into the page as its own text, so it may use nothing outside itself, nor build code from text.
 */
import type { RunTable } from './run-table.js';

export function live(): void {
  const source = document.getElementById('run-table');
  if (source === null) return;
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
    const grid = times[candidate]!;
    const column = values.get(channel)![candidate]!;
    if (grid.length === 0 || time > grid.at(-1)! + 0.5) return Number.NaN;
    let [low, high] = [0, grid.length - 1];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (grid[middle]! <= time) low = middle;
      else high = middle;
    }
    const span = grid[high]! - grid[low]!;
    const share = span > 0 ? Math.min(1, Math.max(0, (time - grid[low]!) / span)) : 0;
    return column[low]! + (column[high]! - column[low]!) * share;
  };
  const shown = (channel: string, value: number): string =>
    Number.isFinite(value) ? value.toFixed(table.channels[channel]!.decimals).replace('-', '\u2212') : '\u2013';
  const colour = (candidate: number): string => `var(--c${(candidate % 8) + 1})`;

  // The panels, of the wide and of the narrow drawings.
  const panels = Array.from(document.querySelectorAll<SVGGElement>('g[data-channel]'), (group) => {
    const [width, height, from, to, low, high] = group.dataset['frame']!.split(' ').map(Number) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    const channel = group.dataset['channel']!;
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
      svg: group.ownerSVGElement!,
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
  if (panels.length === 0) return;
  const svgs = [...new Set(panels.map(({ svg }) => svg))];

  let view: readonly [number, number] = [0, duration];
  let moment: number | undefined;
  const bars: { readonly slider: HTMLInputElement; readonly told: HTMLOutputElement; readonly back: HTMLButtonElement }[] = [];

  function show(time: number | undefined): void {
    moment = time;
    for (const panel of panels) {
      const visible = time !== undefined && time >= view[0] && time <= view[1] && panel.svg.getBoundingClientRect().width > 0;
      panel.overlay.setAttribute('visibility', visible ? 'visible' : 'hidden');
      if (!visible || time === undefined) continue;
      const x = ((time - view[0]) / (view[1] - view[0])) * panel.width;
      panel.line.setAttribute('x1', String(x));
      panel.line.setAttribute('x2', String(x));
      const read = panel.marks.map((mark, candidate) => {
        const value = hidden.has(candidate) ? Number.NaN : at(panel.channel, candidate, time);
        const y = panel.height - ((value - panel.low) / (panel.high - panel.low)) * panel.height;
        const inside = Number.isFinite(y) && y >= -1 && y <= panel.height + 1;
        mark.setAttribute('visibility', inside ? 'inherit' : 'hidden');
        if (inside) {
          mark.setAttribute('cx', String(x));
          mark.setAttribute('cy', String(y));
        }
        return { candidate, text: shown(panel.channel, value) };
      });
      write(panel.readout, panel.width - 150, clock(time), read);
    }
    for (const { slider, told } of bars) {
      if (time === undefined) continue;
      slider.value = String(time);
      slider.setAttribute('aria-valuetext', clock(time));
      const first = panels.find(({ svg }) => svg.closest('figure') === slider.closest('figure'))!;
      const { words, unit } = table.channels[first.channel]!;
      const each = table.names.flatMap((name, candidate) =>
        hidden.has(candidate)
          ? []
          : [`${table.names.length > 1 ? `${name} ` : ''}${shown(first.channel, at(first.channel, candidate, time))}\u202f${unit}`],
      );
      told.textContent = `${clock(time)} \u2013 ${words}: ${each.join(', ')}`;
    }
  }

  /** The time and the values at the right end of the panel's title; with names where they have room. */
  function write(
    readout: SVGElement,
    room: number,
    time: string,
    read: readonly { readonly candidate: number; readonly text: string }[],
  ): void {
    for (const named of [true, false]) {
      readout.textContent = '';
      element('tspan', { fill: 'var(--soft)' }, readout).textContent = time;
      for (const { candidate, text } of read) {
        if (hidden.has(candidate)) continue;
        const piece = element('tspan', { fill: colour(candidate), 'font-weight': 600, dx: 9 }, readout);
        piece.textContent = named && table.names.length > 1 ? `${table.names[candidate]} ${text}` : text;
      }
      if ((readout as SVGTextElement).getComputedTextLength() <= room) return;
    }
  }

  function zoom(from: number, to: number): void {
    const least = Math.min(duration, 2);
    const span = Math.min(duration, Math.max(least, to - from));
    const start = Math.min(Math.max(0, from), duration - span);
    view = [start, start + span];
    const whole = span >= duration;
    document.documentElement.classList.toggle('zoomed', !whole);
    for (const panel of panels) {
      const { width, height, low, high } = panel;
      const scale = duration / span;
      for (const { path, still, candidate } of panel.curves) {
        path.setAttribute('d', whole ? still : curve(panel.channel, candidate, width, height, low, high));
      }
      const place = `translate(${-(view[0] / span) * width},0) scale(${scale},1)`;
      for (const { mark, still } of panel.stretched) mark.setAttribute('transform', whole ? still : `${place} ${still}`);
      panel.group.querySelector('.ticks')?.remove();
      if (!whole && labelled(panel.group)) ticks(panel.overlay.parentElement!, width, height);
      timed(panel.group, panel.width, !whole);
    }
    for (const { back } of bars) back.disabled = whole;
    show(moment);
  }
  function curve(channel: string, candidate: number, width: number, height: number, low: number, high: number): string {
    const grid = times[candidate]!;
    const column = values.get(channel)![candidate]!;
    let path = '';
    let pen = 'M';
    for (const [index, time] of grid.entries()) {
      const near = (grid[index + 1] ?? time) >= view[0] && (grid[index - 1] ?? time) <= view[1];
      const value = column[index]!;
      if (!near || !Number.isFinite(value)) {
        pen = 'M';
        continue;
      }
      const x = ((time - view[0]) / (view[1] - view[0])) * width;
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
  function ticks(group: Element, width: number, height: number): void {
    const row = element('g', { class: 'ticks' }, group);
    const span = view[1] - view[0];
    const step = table.timeSteps.find((one) => span / one <= width / 90) ?? span;
    for (let time = Math.ceil(view[0] / step) * step; time <= view[1]; time += step) {
      const x = ((time - view[0]) / span) * width;
      element('line', { x1: x, x2: x, y1: height, y2: height + 4, stroke: 'var(--soft)' }, row);
      element('text', { x, y: height + 18, 'text-anchor': 'middle', 'font-size': 12, fill: 'var(--soft)' }, row).textContent = clock(time);
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
      if (mark.tagName !== 'text' || over || beside) put(mark);
    }
  }

  // Pointer: where it is, which time; a stretch dragged out with mouse or pen is looked at closer.
  for (const svg of svgs) {
    const own = panels.filter((panel) => panel.svg === svg);
    const timeAt = (event: PointerEvent): number | undefined => {
      const [panel] = own;
      const matrix = panel!.group.getScreenCTM();
      if (matrix === null) return undefined;
      const x = (event.clientX - matrix.e) / matrix.a;
      if (x < -12 || x > panel!.width + 12) return undefined;
      return view[0] + (Math.min(panel!.width, Math.max(0, x)) / panel!.width) * (view[1] - view[0]);
    };
    let begun: number | undefined;
    /** A drag over less than this share of what is shown is a slip of the hand. */
    const leastStretch = 0.02;
    const veils = own.map((panel) =>
      element('rect', { y: 0, height: panel.height, fill: 'var(--step)', visibility: 'hidden', 'pointer-events': 'none' }, panel.group),
    );
    const veil = (from: number, to: number | undefined): void => {
      for (const [index, one] of veils.entries()) {
        const { width } = own[index]!;
        const x = (time: number): number => ((time - view[0]) / (view[1] - view[0])) * width;
        one.setAttribute('visibility', to === undefined ? 'hidden' : 'visible');
        if (to === undefined) continue;
        one.setAttribute('x', String(x(Math.min(from, to))));
        one.setAttribute('width', String(Math.abs(x(to) - x(from))));
      }
    };
    svg.classList.add('readable');
    svg.addEventListener('pointerdown', (event) => {
      begun = event.pointerType === 'touch' || event.button !== 0 ? undefined : timeAt(event);
      show(timeAt(event) ?? moment);
    });
    svg.addEventListener('pointermove', (event) => {
      const time = timeAt(event);
      if (time === undefined) return;
      show(time);
      if (begun !== undefined) veil(begun, time);
    });
    svg.addEventListener('pointerup', (event) => {
      const time = timeAt(event);
      if (begun !== undefined && time !== undefined && Math.abs(time - begun) > leastStretch * (view[1] - view[0]))
        zoom(Math.min(begun, time), Math.max(begun, time));
      begun = undefined;
      veil(0, undefined);
    });
    svg.addEventListener('pointerleave', (event) => {
      begun = undefined;
      veil(0, undefined);
      if (event.pointerType !== 'touch') show(undefined);
    });
    svg.addEventListener('dblclick', () => zoom(0, duration));
  }

  // On paper stands the whole run.
  window.addEventListener('beforeprint', () => zoom(0, duration));

  // The same by keyboard: a slider for the moment, buttons for the stretch, a box for each candidate.
  const toggles: HTMLInputElement[] = [];
  for (const figure of new Set(svgs.map((svg) => svg.closest('figure')!))) {
    const bar = document.createElement('div');
    bar.className = 'bar';
    bar.setAttribute('role', 'group');
    bar.setAttribute('aria-label', 'Read the charts over time');
    const label = document.createElement('label');
    label.textContent = 'moment ';
    const slider = document.createElement('input');
    slider.type = 'range';
    slider.min = '0';
    slider.max = String(Math.round(duration));
    slider.step = duration > 120 ? '1' : '0.1';
    slider.value = '0';
    slider.setAttribute('aria-valuetext', clock(0));
    label.append(slider);
    const told = document.createElement('output');
    told.textContent = 'move over a chart, or slide, to read all at one moment';
    slider.addEventListener('input', () => {
      const time = Number(slider.value);
      if (time < view[0] || time > view[1]) zoom(time - (view[1] - view[0]) / 2, time + (view[1] - view[0]) / 2);
      show(time);
    });
    const button = (text: string, act: () => void): HTMLButtonElement => {
      const made = document.createElement('button');
      made.type = 'button';
      made.textContent = text;
      made.addEventListener('click', act);
      return made;
    };
    const closer = button('closer', () => {
      const span = (view[1] - view[0]) / 2;
      const middle = moment ?? (view[0] + view[1]) / 2;
      zoom(middle - span / 2, middle + span / 2);
    });
    const back = button('whole run', () => zoom(0, duration));
    back.disabled = true;
    bar.append(label, closer, back);
    if (table.names.length > 1 && table.names.length <= 8) {
      for (const [candidate, name] of table.names.entries()) {
        const box = document.createElement('input');
        box.type = 'checkbox';
        box.checked = true;
        box.dataset['candidate'] = String(candidate);
        box.addEventListener('change', () => {
          if (box.checked) hidden.delete(candidate);
          else hidden.add(candidate);
          for (const other of toggles) if (other.dataset['candidate'] === box.dataset['candidate']) other.checked = box.checked;
          document.documentElement.classList.toggle(`without-${candidate + 1}`, !box.checked);
          show(moment);
        });
        toggles.push(box);
        const around = document.createElement('label');
        const text = document.createElement('span');
        text.className = `k${candidate + 1}`;
        text.textContent = name;
        around.append(box, ' ', text);
        bar.append(around);
      }
    }
    bar.append(told);
    figure.querySelector('figcaption')!.before(bar);
    bars.push({ slider, told, back });
  }
}
