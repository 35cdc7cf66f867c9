/** The values of all time charts at one moment: a line, marks on the curves, readouts and the sliders' words. @module */

import type { LivePage } from './live-page.js';

/** Returns what shows a moment, or none. Written into the page as its own text: it uses nothing outside itself. */
export function liveMoment(page: LivePage): (time: number | undefined) => void {
  const { table, panels, hidden, bars, element, clock, at, shown, colour } = page;

  function show(time: number | undefined): void {
    page.moment = time;
    for (const panel of panels) {
      const visible = time !== undefined && time >= page.view[0] && time <= page.view[1] && panel.svg.getBoundingClientRect().width > 0;
      panel.overlay.setAttribute('visibility', visible ? 'visible' : 'hidden');
      if (!visible || time === undefined) continue;
      const x = ((time - page.view[0]) / (page.view[1] - page.view[0])) * panel.width;
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
      const first = panels.find(({ svg }) => svg.closest('figure') === slider.closest('figure'));
      if (first === undefined) continue;
      const { words, unit } = table.channels[first.channel];
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

  return show;
}
