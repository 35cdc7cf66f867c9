/** Specification → SVG without a browser, cleaned for a page that styles it and holds many of them. @module */

import { parse, type Runtime, type Spec, View } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { compile } from 'vega-lite';
import { MARKS, type Panel, type Row } from './panel.js';
import { panelSpecification } from './panel-specification.js';

export interface Part {
  readonly x: number;
  readonly y: number;
  /** Drawing from its own origin; it may reach beyond its frame. */
  readonly spec: { readonly panel: Panel } | { readonly vega: Spec };
  /** Set where the panel shows this over the time of the run: a reader's pointer finds the values there. */
  readonly channel?: string;
  /** Base line of the panel's title [px from its origin]; what is read there stands at its right end. */
  readonly title?: number;
}

export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly parts: readonly Part[];
}

/** Expressions of a specification are walked as trees: nothing that stands in a text is ever made into code. */
const runtimeFrom = (spec: Spec): Runtime => parse(spec, undefined, { ast: true });
const viewOf = (runtime: Runtime): View => new View(runtime, { renderer: 'none', expr: expressionInterpreter });

async function toSvg(view: View): Promise<string> {
  try {
    return await view.toSVG();
  } finally {
    view.finalize();
  }
}

const compiled = new Map<string, Runtime>();
/** Compiled when first asked for: compiling costs more than drawing. */
function runtimeOf({ xLabels, axes }: Panel): Runtime {
  const key = `${xLabels} ${axes}`;
  const made = compiled.get(key) ?? runtimeFrom(compile(panelSpecification({ xLabels, axes })).spec as Spec);
  compiled.set(key, made);
  return made;
}

function panelView(panel: Panel): View {
  const { frame, layers } = panel;
  const view = viewOf(runtimeOf(panel)).width(frame.width).height(frame.height);
  for (const axis of ['x', 'y'] as const) {
    const { domain, ticks, label } = frame[axis];
    view.signal(`${axis}0`, domain[0]).signal(`${axis}1`, domain[1]);
    view.signal(`${axis}Ticks`, [...ticks]).signal(`${axis}Labels`, ticks.map(label));
  }
  for (const mark of MARKS) {
    // Rows are copied: Vega marks them as its own.
    view.data(
      mark,
      layers.flatMap((layer, of): Row[] => (layer.mark === mark ? layer.rows.map((row) => ({ ...row, of })) : [])),
    );
  }
  return view;
}

/** What Vega writes on every mark and the page either sets by style or has no use for. */
const IDLE =
  / (?:font-family|aria-hidden|aria-roledescription|aria-label|role|pointer-events|class)="[^"]*"| (?:opacity|stroke-opacity|fill-opacity|stroke-width)="1"/g;

/** The drawing inside Vega's outer element: no idle attributes, two decimals, clip paths that no other drawing uses. */
function cleaned(svg: string, prefix: string): string {
  const inner = svg.replace(/^<svg[^>]*>/, '').replace(/<\/svg>$/, '');
  return inner
    .replace(/<path[^>]*class="(?:background|foreground)"[^>]*d="(?:M0,0h0v0h0Z|)"[^>]*\/>/g, '')
    .replace(/<[^>]+>/g, (tag) =>
      tag
        .replace(IDLE, '')
        .replace(/clip(\d+)/g, `${prefix}-clip$1`)
        .replace(/-?\d+\.\d{3,}(?:e-?\d+)?/g, (number) => String(Number(Number(number).toFixed(2)))),
    )
    .replace(/<g><\/g>/g, '');
}

/** Numbers of clip paths run on for as long as the process lives; a report must not depend on what was drawn before it. */
function renumbered(svg: string, prefix: string): string {
  const names = [...new Set(Array.from(svg.matchAll(new RegExp(`id="(${prefix}-clip\\d+)"`, 'g')), ([, name]) => name))];
  return names.reduce((text, name, index) => text.replaceAll(new RegExp(`${name}(?!\\d)`, 'g'), `${prefix}-c${index + 1}`), svg);
}

/** All parts in one group each, as the inside of one `svg` element. */
export async function drawParts({ parts }: Drawing, prefix: string): Promise<string> {
  const drawn: string[] = [];
  for (const { x, y, spec, channel, title } of parts) {
    const svg = await toSvg('vega' in spec ? viewOf(runtimeFrom(spec.vega)) : panelView(spec.panel));
    const live =
      channel !== undefined && 'panel' in spec
        ? ` data-channel="${channel}"${title === undefined ? '' : ` data-title="${title}"`} ${frameOf(spec.panel)}`
        : '';
    drawn.push(`<g transform="translate(${x},${y})"${live}>${cleaned(svg, prefix)}</g>`);
  }
  return renumbered(drawn.join(''), prefix);
}

/** Size of the frame and its domains, for what is laid over the drawing in the page. */
const frameOf = ({ frame: { width, height, x, y } }: Panel): string =>
  `data-frame="${[width, height, ...x.domain, ...y.domain].map((number) => Number(number.toPrecision(7))).join(' ')}"`;
