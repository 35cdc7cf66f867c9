/**
 * Text that people write stays text in everything that comes out: hostile text stands in every field of the schema that takes words, the scenario
 * is run, and each output is read as its reader would read it: HTML by parse5 (WHATWG HTML, 13.2), pictures by their XML reader, Markdown by
 * markdown-it with raw HTML and bare addresses allowed, tables by the grammar of RFC 4180, JSON, and what a terminal is sent.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { pngOf } from '@shaftwork/cli/render/png';
import { renderReport } from '@shaftwork/report';
import { csvOf, drawingFiles, markdownList, poster, textList } from '@shaftwork/report/export';
import { embeddedRun } from '@shaftwork/report/history';
import { resultJson } from '@shaftwork/sim-core/json/result-json';
import { withRatings, withWhy } from '@shaftwork/sim-core/other-questions';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { drive, head } from '@shaftwork/sim-core/scenario/schema/drive';
import { FIELD_FACTS } from '@shaftwork/sim-core/scenario/schema/fields';
import fc from 'fast-check';
import markdownIt from 'markdown-it';
import { type DefaultTreeAdapterTypes, parse } from 'parse5';
import { beforeAll, describe, expect, it } from 'vitest';
import { call, callWith, ownFolder } from '../commands/call.js';
import { sampleResult } from '../report/sample-result.js';

const { folder, file } = ownFolder();

/** Each breaks out of what it may, in one of the languages or several; short enough for a name. */
const BREAKS = [
  '</script></style></title></svg>"\'><script>alert(1)</script><img src=x onerror=alert(2)><!-- ]]> -->',
  'var(--ink) var(--constructor) &lt;b&gt; {{7*7}} `code` **bold** _it_ # head | cell \\22 } body { display: none } \\',
  '[x](javascript:alert(3)) ![x](http://evil.example/x.png) <http://evil.example> http://evil.example www.evil.example @all me@evil.example',
];
/** What begins a formula in a spreadsheet, and in wide letters. */
const FORMULAS = ['=', '@', '\uff1d'];
/** The place's own, so that all come into fields of all kinds. */
const breaksOf = (place: string): string =>
  BREAKS[[...place].reduce((sum, sign) => sum + (sign.codePointAt(0) ?? 0), 0) % BREAKS.length] ?? '';
const plainOf = (text: string): string => text.replace(/[^ ]/g, 'n');

type Json = string | readonly Json[] | { readonly [key: string]: Json };
interface Schema {
  readonly shape?: Readonly<Record<string, Schema>>;
  readonly options?: readonly (Schema | string)[];
  readonly element?: Schema;
  unwrap?(): Schema;
}

/** Paths of all fields that take words, `[]` for the rows of a list. */
function* textPaths(schema: Schema, path: readonly string[] = []): Generator<readonly string[]> {
  if (schema.shape !== undefined) for (const [key, inner] of Object.entries(schema.shape)) yield* textPaths(inner, [...path, key]);
  else if (Array.isArray(schema.options)) {
    for (const option of schema.options) if (typeof option === 'object') yield* textPaths(option, path);
  } else if (schema.element !== undefined) {
    // a profile's steps hold steps
    if (path.filter((key) => key === 'steps').length < 2 && path.at(-1) !== 'steps') yield* textPaths(schema.element, [...path, '[]']);
  } else if (schema.unwrap !== undefined) yield* textPaths(schema.unwrap(), path);
  else if (FIELD_FACTS.get(schema as Parameters<typeof FIELD_FACTS.get>[0])?.form === 'text') yield path;
}

/** The value with a text at a path; lists take it in every row they have. Undefined where there is no such place. */
function put(value: Json | undefined, [key, ...rest]: readonly string[], text: string): Json | undefined {
  if (key === undefined) return text;
  if (key === '[]') {
    if (!Array.isArray(value)) return undefined;
    const rows = (value as readonly Json[]).map((row) => put(row, rest, text));
    return rows.some((row) => row === undefined) ? undefined : (rows as readonly Json[]);
  }
  if (value !== undefined && (typeof value === 'string' || Array.isArray(value))) return undefined;
  const map = (value ?? {}) as { readonly [key: string]: Json };
  const inner = put(map[key], rest, text);
  return inner === undefined ? undefined : { ...map, [key]: inner };
}

const MOTOR = {
  layout: 'outrunner',
  kv: '920 rpm/V',
  resistance: '96 mohm',
  no_load: [{ current: '0.9 A', voltage: '10 V' }],
  mass: '66 g',
  can: { diameter: '27 mm', length: '32 mm' },
};
const COMMON = {
  ambient: { air: '24 °C', water: '16 °C' },
  battery: { chemistry: 'lithium-polymer', cells: { series: '3' }, capacity: '2.2 Ah' },
  wiring: { resistance: '4 mohm' },
  controller: { path_resistance: '5 mohm' },
  start: { charge: '90 %' },
  limits: { winding: '45 °C' },
  motor: { readings: [{ resistance: '97 mohm ± 3 %' }] },
  profile: [
    { for: '20 s', throttle: '80 %' },
    { repeat: '2', steps: [{ for: '5 s', throttle: '50 %' }] },
  ],
};
const BASES: Readonly<Record<string, { readonly [key: string]: Json }>> = {
  boat: {
    ...COMMON,
    cooling: { water_jacket: { conductance: '2 W/K', at_speed: '3 m/s', covers: 'mount' } },
    propeller: { kind: 'marine-series', diameter: '40 mm', pitch_ratio: '1.1', blades: '2' },
    vehicle: { mass: '2 kg', drag: [1, 3, 6].map((speed) => ({ speed: `${speed} m/s`, force: `${0.6 * speed ** 2} N` })) },
  },
  car: {
    ...COMMON,
    cooling: { fan: { diameter: '40 mm', flow: '180 L/min', power: '1 W' } },
    wheel: { radius: '35 mm' },
    gearbox: { ratio: '8' },
    vehicle: { mass: '1.5 kg' },
  },
};
/** Read of a drive, below its candidate. */
const DRIVE_READING = { resistance: '97 mohm ± 3 %' };
const READ_WITH = 'readings.[].source';
const PATHS = [...textPaths(head as unknown as Schema), ...textPaths(drive as unknown as Schema)];

/** The base with words at every place that takes them, and the places that it has. */
function everywhere(base: { readonly [key: string]: Json }, words: (place: string) => string) {
  let scenario: Json = base;
  const places: string[] = [];
  for (const path of PATHS) {
    const filled = put(scenario, path, words(path.join('.')));
    if (filled === undefined) continue;
    const read = prepareScenario(
      new Map([['s.yaml', JSON.stringify({ ...(filled as object), title: 't', candidates: [{ name: 'n', motor: MOTOR }] })]]),
      's.yaml',
    );
    // a section that this vehicle has no use for, or a name that must be known elsewhere
    if (read.kind !== 'ready') continue;
    scenario = filled;
    places.push(path.join('.'));
  }
  // a reading for several candidates would have to name one: those of a drive stand below it
  const reading = { ...DRIVE_READING, source: words(READ_WITH) };
  const candidates = FORMULAS.map((sign) => ({
    name: words(sign),
    motor: { ...MOTOR, source: words(`${sign} motor`) },
    readings: [reading],
  }));
  places.push(READ_WITH);
  return { text: JSON.stringify({ ...(scenario as object), candidates }), places, names: candidates.map(({ name }) => name) };
}
const hostile = (place: string): string =>
  FORMULAS.includes(place) ? `${place}HYPERLINK("http://evil.example"; 1) ${breaksOf(place)}` : `${place} ${breaksOf(place)}`;

interface Made {
  readonly page: string;
  readonly list: string;
  readonly rows: string;
  readonly plain: string;
  readonly drawings: ReadonlyMap<string, string>;
  readonly picture: string;
  readonly json: string;
  readonly said: string;
  readonly names: readonly string[];
  readonly scenario: string;
}
async function made(name: string, words: (place: string) => string): Promise<Made> {
  const { text, names } = everywhere(BASES[name] ?? {}, words);
  const read = prepareScenario(new Map([['s.yaml', text]]), 's.yaml');
  if (read.kind !== 'ready') throw new Error(JSON.stringify(read));
  const result = withWhy(read.prepared, withRatings(read.prepared, runScenario(read.prepared)));
  const page = await renderReport(result, { date: words('date') });
  const said = await callWith({}, 'run', file(`${name}.yaml`, text), '--samples', '0', '--color', 'never');
  return {
    page,
    list: markdownList(result, { date: words('date') }),
    rows: csvOf(result),
    plain: textList(result, { date: words('date') }),
    drawings: new Map(drawingFiles(page).map((drawing) => [drawing.name, drawing.text])),
    picture: poster(page, result, { date: words('date') }),
    json: resultJson(result),
    said: said.out + said.err,
    names,
    scenario: text,
  };
}

type Element = DefaultTreeAdapterTypes.Element;
function* elements(node: DefaultTreeAdapterTypes.Node): Generator<Element> {
  if ('tagName' in node) yield node;
  for (const child of 'childNodes' in node ? node.childNodes : []) yield* elements(child);
}
const textIn = (node: DefaultTreeAdapterTypes.Node): string =>
  'value' in node ? node.value : 'childNodes' in node ? node.childNodes.map(textIn).join('') : '';
/** Rows of cells by the grammar of RFC 4180, 2; throws where the text does not follow it. */
function tableOf(text: string): string[][] {
  const rows: string[][] = [[]];
  let at = 0;
  for (const [whole, cell = '', end] of text.matchAll(/("(?:[^"]|"")*"|[^",\r\n]*)(,|\r\n|$)/g)) {
    if (whole === '' && at === text.length) break;
    at += whole.length;
    rows.at(-1)?.push(cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell);
    if (end === '\r\n') rows.push([]);
  }
  if (at !== text.length) throw new Error(`not a table from ${text.slice(at, at + 80)}`);
  return rows.filter((row) => row.length > 0);
}
/** Which elements there are, with which attributes. */
const kindsIn = (page: string): ReadonlySet<string> =>
  new Set(Array.from(elements(parse(page)), ({ tagName, attrs }) => [tagName, ...attrs.map(({ name }) => name).sort()].join(' ')));
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const STEERS = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

it('the two vehicles have every place of the schema that takes words', () => {
  const had = new Set(Object.values(BASES).flatMap((base) => everywhere(base, (place) => place).places));
  // names of files, columns and candidates, which must be known elsewhere, and fittings whose source is read as that of others
  const elsewhere = PATHS.map((path) => path.join('.')).filter((path) => !had.has(path));
  expect(
    elsewhere.filter((path) => !/measured_with$|^measured\.|^cooling\.(water_coil|heat_sink|strap|air\.cowl)\.source$/.test(path)),
  ).toEqual([]);
  expect(PATHS.map((path) => path.join('.'))).toContain(READ_WITH);
  expect(had.size).toBeGreaterThan(12);
});

describe.each(Object.keys(BASES))('hostile text in every field of a %s', (vehicle) => {
  let bad: Made;
  let good: Made;
  beforeAll(async () => {
    good = await made(vehicle, (place) => plainOf(hostile(place)).replace(/^n/, String.fromCharCode(97 + FORMULAS.indexOf(place) + 1)));
    bad = await made(vehicle, hostile);
  }, 300_000);

  it('is text in the report: no element, no attribute and no rule of style that plain text has not', () => {
    const plain = kindsIn(good.page);
    expect([...kindsIn(bad.page)].filter((kind) => !plain.has(kind))).toEqual([]);
    const all = [...elements(parse(bad.page))];
    const named = (tag: string): Element[] => all.filter(({ tagName }) => tagName === tag);
    expect(named('title').map(textIn)).toEqual([hostile('title')]);
    expect(named('h1').map(textIn)).toEqual([hostile('title')]);
    for (const name of bad.names) expect(textIn(parse(bad.page))).toContain(name);
    for (const { attrs } of all)
      for (const { name, value } of attrs) {
        expect(name).not.toMatch(/^on|^src|^action|^formaction|^style$/);
        if (name.endsWith('href')) expect(value).toMatch(/^#[\w-]+$/);
      }
    const policy = named('meta')
      .flatMap(({ attrs }) => (attrs.some(({ value }) => value === 'Content-Security-Policy') ? attrs : []))
      .find(({ name }) => name === 'content')?.value;
    const digest = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
    for (const style of named('style')) expect(policy).toContain(digest(textIn(style)));
    const scripts = named('script').filter(({ attrs }) => attrs.length === 0);
    expect(scripts).toHaveLength(1);
    for (const script of scripts) expect(policy).toContain(digest(textIn(script)));
    const rules = (page: string): string =>
      textIn([...elements(parse(page))].find(({ tagName }) => tagName === 'style') ?? parse('')).replace(/"(?:[^"\\]|\\.)*"/g, '""');
    expect(rules(bad.page)).toBe(rules(good.page));
  });

  it('comes out of the report as it went in', () => {
    expect(embeddedRun(bad.page)?.files[0]?.text).toBe(bad.scenario);
    for (const script of elements(parse(bad.page)))
      if (script.tagName === 'script' && script.attrs.length > 0) expect(() => JSON.parse(textIn(script))).not.toThrow();
  });

  it('is text in drawings, and its colours are its own', () => {
    expect(bad.drawings.size).toBeGreaterThan(4);
    const plain = new Set([...good.drawings.values(), good.picture].flatMap((svg) => [...kindsIn(svg)]));
    for (const svg of [...bad.drawings.values(), bad.picture]) {
      expect([...kindsIn(svg)].filter((kind) => !plain.has(kind))).toEqual([]);
      expect(svg).not.toContain('native code');
    }
    // an XML reader refuses what is not well-formed
    expect(pngOf(bad.picture, '0').length).toBeGreaterThan(1000);
  });

  it('is text in Markdown: no link, no picture, no emphasis, no element but ours', () => {
    const reader = markdownIt({ html: true, linkify: true });
    reader.linkify.set({ fuzzyLink: false });
    const kinds = kindsIn(reader.render(bad.list));
    expect([...kinds].filter((kind) => !kindsIn(reader.render(good.list)).has(kind))).toEqual([]);
    expect([...kinds].filter((kind) => /^(a|img|script|code|strong|em)\b/.test(kind))).toEqual([]);
    expect(textIn(parse(reader.render(bad.list)))).toContain(bad.names[0]);
  });

  it('is no formula in a table', () => {
    const data = tableOf(bad.rows);
    const cells = data.slice(1).map(([first = '']) => first);
    expect(new Set(cells)).toEqual(new Set(bad.names.map((name) => `'${name}`)));
    for (const row of data.slice(1)) for (const cell of row.slice(1)) expect(cell).toMatch(/^(-?\d[\d.e+-]*)?$/);
  });

  it('is itself in JSON, and steers no terminal', () => {
    expect(JSON.parse(bad.json).candidates.map(({ name }: { name: string }) => name)).toEqual(bad.names);
    for (const text of [bad.json, bad.said, bad.plain, bad.list]) expect(text).not.toMatch(STEERS);
  });
});

it.each(['\u001b[2J', '\u009b31m', '\u0007', 'a\u202eb', '\u2066x', '\ud800', '\ufffe', '\uffff'])(
  '%j is refused in every field, and not repeated',
  (steering) => {
    for (const base of Object.values(BASES))
      for (const path of PATHS) {
        const filled = put({ title: 't', candidates: [{ name: 'n', motor: MOTOR }], ...base }, path, `x${steering}y`);
        if (filled === undefined) continue;
        const read = prepareScenario(new Map([['s.yaml', JSON.stringify(filled)]]), 's.yaml');
        expect(read.kind, path.join('.')).toBe('problems');
        if (read.kind === 'problems') expect(JSON.stringify(read.problems)).not.toMatch(STEERS);
      }
  },
);

it('any name at all is told from markup, formula and row by the lists and the table', () => {
  const reader = markdownIt({ html: true, linkify: true });
  reader.linkify.set({ fuzzyLink: false });
  const sample = sampleResult({ names: ['Plain', 'Other'], duration: 10 });
  const plain = kindsIn(reader.render(markdownList(sample)));
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }), (written) => {
      const name = written.replace(/\p{Cc}|\s+/gu, ' ').trim() || 'x';
      const candidates = sample.candidates.map((each, index) => (index === 0 ? { ...each, name } : each));
      const result = { ...sample, candidates, ranking: candidates.map((each) => each.name) };
      expect([...kindsIn(reader.render(markdownList(result)))].filter((kind) => !plain.has(kind))).toEqual([]);
      expect(textList(result)).not.toMatch(STEERS);
      expect(csvOf(result).match(/^[=+\-@\uff1d\uff0b\uff0d\uff20].*/m)).toBe(null);
    }),
    { numRuns: 100 },
  );
});

describe('logs of a bench and of a run', () => {
  const NAME = `${BREAKS[0].replaceAll('/', '')} \u001b[2J \u202e =1+1`;
  const at = (path: string): string => fileURLToPath(new URL(`../../scenarios/${path}`, import.meta.url));
  const using = (part: string, path: string): string =>
    JSON.stringify({
      title: 't',
      ...BASES['boat'],
      candidates: [{ name: 'n', motor: MOTOR, [part]: { use: path } }],
    });
  /** The log with a further column of words, and words in place of the names of its propellers. */
  const written = (path: string, word: string): string =>
    readFileSync(at(path), 'utf8')
      .trim()
      .split('\n')
      .map((line, k) => `${line.replace(/,9x5$/, `,"${word.replaceAll('"', '""')}"`)},"${k === 0 ? 'h' : ''}${word.replaceAll('"', '""')}"`)
      .join('\n');

  it('their names, heads and cells are text in the page, the part files and on the terminal', async () => {
    const of = async (name: string, word: string) => {
      const [page, parts] = [join(folder, `${word.length}.html`), join(folder, `parts-${word.length}`)];
      const said = await call('identify', file(name, written('logs/motor-sweep.csv', word)), '--html', page, '--write', parts);
      expect(said.code, said.err).toBe(0);
      return { page: readFileSync(page, 'utf8'), parts, said: said.out + said.err };
    };
    const good = await of('plain.csv', 'plain');
    const bad = await of(`${NAME}.csv`, NAME);
    expect([...kindsIn(bad.page)].filter((kind) => !kindsIn(good.page).has(kind))).toEqual([]);
    expect(textIn(parse(bad.page))).toContain('alert(1)');
    expect(bad.said).not.toMatch(STEERS);
    const names = readdirSync(bad.parts);
    expect(names).toHaveLength(readdirSync(good.parts).length);
    for (const name of names) {
      expect(name).toMatch(/^[\p{L}\p{N}.-]+\.yaml$/u);
      const text = readFileSync(join(bad.parts, name), 'utf8');
      expect(text).not.toMatch(STEERS);
      // the reader of scenarios takes what was written: no fault but what a motor or a pack further wants
      const read = prepareScenario(
        new Map([
          ['s.yaml', using(text.slice(6, text.indexOf('\n')), name)],
          [name, text],
        ]),
        's.yaml',
      );
      const kinds = read.kind === 'problems' ? read.problems.map(({ kind }) => kind) : [];
      expect(kinds.filter((kind) => kind !== 'missing-datum')).toEqual([]);
    }
  });

  it('a run laid over a log of such a name and such cells is plain in every output', async () => {
    const log = file(`${NAME}-run.csv`, written('logs/survey-boat-long.csv', NAME));
    const [page, list, table, lines] = ['m.html', 'm.md', 'm.csv', 'm.txt'].map((name) => join(folder, name)) as [
      string,
      string,
      string,
      string,
    ];
    const words = [
      '--measured',
      log,
      '--measured-on',
      'Long',
      '--samples',
      '0',
      '--html',
      page,
      '--markdown',
      list,
      '--csv',
      table,
      '--text',
      lines,
    ];
    const { code, out, err } = await call('run', at('survey-boat.yaml'), ...words);
    expect(code, err).toBe(0);
    for (const text of [out, err, ...[list, table, lines].map((path) => readFileSync(path, 'utf8').replaceAll('\r\n', '\n'))])
      expect(text).not.toMatch(STEERS);
    const html = readFileSync(page, 'utf8');
    const scripts = [...elements(parse(html))].filter(({ tagName, attrs }) => tagName === 'script' && attrs.length === 0);
    expect(scripts).toHaveLength(1);
    expect([...elements(parse(html))].filter(({ tagName }) => tagName === 'img')).toEqual([]);
  });
});
