/** Specification → SVG without a browser, cleaned for a page that styles it and holds many of them. */
import { parse, type Spec, View } from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';

export interface Part {
  readonly x: number;
  readonly y: number;
  /** Drawing from its own origin; it may reach beyond its frame. */
  readonly spec: { readonly lite: TopLevelSpec } | { readonly vega: Spec };
}

export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly parts: readonly Part[];
}

const toSvg = async (spec: Spec): Promise<string> => {
  const view = new View(parse(spec), { renderer: 'none' });
  try {
    return await view.toSVG();
  } finally {
    view.finalize();
  }
};

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
  const names = [...new Set(Array.from(svg.matchAll(new RegExp(`id="(${prefix}-clip\\d+)"`, 'g')), ([, name]) => name!))];
  return names.reduce((text, name, index) => text.replaceAll(new RegExp(`${name}(?!\\d)`, 'g'), `${prefix}-c${index + 1}`), svg);
}

/** All parts in one group each, as the inside of one `svg` element. */
export async function drawParts({ parts }: Drawing, prefix: string): Promise<string> {
  const drawn: string[] = [];
  for (const { x, y, spec } of parts) {
    const svg = await toSvg('vega' in spec ? spec.vega : (compile(spec.lite).spec as Spec));
    drawn.push(`<g transform="translate(${x},${y})">${cleaned(svg, prefix)}</g>`);
  }
  return renumbered(drawn.join(''), prefix);
}
