/**
 * Pointer and keyboard: where one points, what one drags out, a slider for the moment, buttons for the stretch, a box for each candidate.
 *
 * @module
 */

import type { LivePage } from './live-page.js';

/** Written into the page as its own text: it uses nothing outside itself. */
export function liveHands(page: LivePage, show: (time: number | undefined) => void, zoom: (from: number, to: number) => void): void {
  const { table, duration, panels, hidden, bars, element, clock } = page;
  const svgs = [...new Set(panels.map(({ svg }) => svg))];

  // Pointer: where it is, which time; a stretch dragged out with mouse or pen is looked at closer.
  for (const svg of svgs) {
    const own = panels.filter((panel) => panel.svg === svg);
    const timeAt = (event: PointerEvent): number | undefined => {
      const [panel] = own;
      const matrix = panel.group.getScreenCTM();
      if (matrix === null) return undefined;
      const x = (event.clientX - matrix.e) / matrix.a;
      if (x < -12 || x > panel.width + 12) return undefined;
      return page.view[0] + (Math.min(panel.width, Math.max(0, x)) / panel.width) * (page.view[1] - page.view[0]);
    };
    let begun: number | undefined;
    /** A drag over less than this share of what is shown is a slip of the hand. */
    const leastStretch = 0.02;
    const veils = own.map((panel) =>
      element('rect', { y: 0, height: panel.height, fill: 'var(--step)', visibility: 'hidden', 'pointer-events': 'none' }, panel.group),
    );
    const veil = (from: number, to: number | undefined): void => {
      for (const [index, one] of veils.entries()) {
        const { width } = own[index];
        const x = (time: number): number => ((time - page.view[0]) / (page.view[1] - page.view[0])) * width;
        one.setAttribute('visibility', to === undefined ? 'hidden' : 'visible');
        if (to === undefined) continue;
        one.setAttribute('x', String(x(Math.min(from, to))));
        one.setAttribute('width', String(Math.abs(x(to) - x(from))));
      }
    };
    svg.classList.add('readable');
    svg.addEventListener('pointerdown', (event) => {
      begun = event.pointerType === 'touch' || event.button !== 0 ? undefined : timeAt(event);
      show(timeAt(event) ?? page.moment);
    });
    svg.addEventListener('pointermove', (event) => {
      const time = timeAt(event);
      if (time === undefined) return;
      show(time);
      if (begun !== undefined) veil(begun, time);
    });
    svg.addEventListener('pointerup', (event) => {
      const time = timeAt(event);
      if (begun !== undefined && time !== undefined && Math.abs(time - begun) > leastStretch * (page.view[1] - page.view[0]))
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
  for (const figure of new Set(svgs.flatMap((svg) => svg.closest('figure') ?? []))) {
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
    told.textContent = `${clock(0)} \u2013 move over a chart, or slide, to read all at one moment`;
    slider.addEventListener('input', () => {
      const time = Number(slider.value);
      if (time < page.view[0] || time > page.view[1])
        zoom(time - (page.view[1] - page.view[0]) / 2, time + (page.view[1] - page.view[0]) / 2);
      show(time);
    });
    const button = (text: string, act: () => void): HTMLButtonElement => {
      const made = document.createElement('button');
      made.type = 'button';
      made.textContent = text;
      made.addEventListener('click', act);
      return made;
    };
    const closer = button('look closer', () => {
      const span = (page.view[1] - page.view[0]) / 2;
      const middle = page.moment ?? (page.view[0] + page.view[1]) / 2;
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
          zoom(page.view[0], page.view[1]);
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
    figure.querySelector('figcaption')?.before(bar);
    bars.push({ slider, told, back });
  }
}
