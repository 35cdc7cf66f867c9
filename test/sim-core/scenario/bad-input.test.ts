import { writtenResistance } from '@shaftwork/sim-core/provenance/given';
import { describe, expect, it } from 'vitest';
import { changed, driveOf, problemsOf, SMALLEST, scenarioOf } from './smallest-scenario.js';

const NO_BREAK = '\u00a0';
const TABLE = (rows: string) => SMALLEST.replace(/propeller:.*/, `propeller: { kind: coefficients, diameter: 9 in, table: [${rows}] }`);
const ROW = (advanceRatio: number) => `{ advance_ratio: ${advanceRatio}, thrust: 0.1, power: 0.04 }`;
const CANDIDATES = SMALLEST.slice(SMALLEST.indexOf('candidates:'));
const ALIAS_BOMB = `notes: &a [x,x,x,x,x,x,x,x,x,x]
title: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a,*a]
limits: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b,*b]
profile: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c,*c]
space: [*d,*d,*d,*d,*d,*d,*d,*d,*d,*d]
`;

/** One thing wrong, and the one problem it makes: kind, line:column, path, and what the message must say. */
describe.each([
  ['a wrong unit', changed('96 mohm', '96 mohn'), 'wrong-unit', '7:60', 'candidates[0].motor.resistance', /near.*"mohm"/],
  ['a wrong dimension', changed('96 mohm', '96 V'), 'wrong-dimension', '7:60', 'candidates[0].motor.resistance', /a voltage/],
  ['a bare number', changed('66 g', '66'), 'bare-number', '7:119', 'candidates[0].motor.mass', /write 66 g/],
  ['M for m', changed('96 mohm', '96 Mohm'), 'out-of-range', '7:60', 'candidates[0].motor.resistance', /m is milli/],
  ['an unknown key', changed('mass: 66 g', 'colour: red'), 'unknown-key', '7:113', 'candidates[0].motor.colour', /known here: .*poles/],
  [
    'a misspelt key',
    changed('resistance', 'resistence'),
    'unknown-key',
    '7:48',
    'candidates[0].motor.resistence',
    /"nearest":"resistance"/,
  ],
  ['a misspelt key of what is due', changed('title', 'titel'), 'unknown-key', '1:1', 'titel', /"nearest":"title"/],
  [
    'a key in the wrong section',
    changed('mass: 66 g', 'chemistry: x'),
    'unknown-key',
    '7:113',
    'candidates[0].motor.chemistry',
    /in battery/,
  ],
  ['a camel-case key', changed('no_load', 'noLoad'), 'unknown-key', '7:69', 'candidates[0].motor.noLoad', /"nearest":"no_load"/],
  ['an empty file', '', 'nothing-to-do', '1:1', '', /init/],
  ['a file of comments', '# nothing\n', 'nothing-to-do', '1:1', '', /init/],
  ['a list at the top', '- title: x\n', 'wrong-type', '1:1', '', /a list/],
  ['a tab', changed('    motor:', '\tmotor:'), 'broken-yaml', '7:1', '', /a tab/],
  ['a decimal comma', `${SMALLEST}vehicle:\n  mass: 1,5 kg\n`, 'bad-number', '9:9', 'vehicle.mass', /write 1\.5 kg/],
  ['a decimal comma inside braces', changed('9 in', '9,5 in'), 'bad-number', '3:45', 'propeller.diameter', /"nearest":"9\.5 in"/],
  [
    'a comma inside braces',
    changed('80 %', '80 %, label: out, then back'),
    'broken-yaml',
    '4:48',
    'profile[0].label',
    /label: \\"out, then back\\"/,
  ],
  ['no blank after a colon', changed('title: W', 'title:W'), 'broken-yaml', '1:6', '', /"nearest":"title: Will/],
  [
    'no blank after a colon inside braces',
    changed('mass: 66', 'mass:66'),
    'broken-yaml',
    '7:113',
    'candidates[0].motor.mass',
    /"nearest":"mass: 66 g"/,
  ],
  ['no blank after a colon in the only line', `${SMALLEST}vehicle:\n  mass:3 kg\n`, 'wrong-type', '9:3', 'vehicle', /a blank is missing/],
  ['a text cut by #', changed('"27-32"', 'Motor #3'), 'broken-yaml', '6:11', 'candidates[0].name', /"nearest":"\\"Motor #3\\""/],
  ['Latin-1', changed('title: W', 'title: 24 \ufffdC W'), 'unreadable-text', '1:11', '', /UTF-8/],
  ['UTF-8 converted twice', `${SMALLEST}ambient: { air: 24 \u00c2\u00b0C }\n`, 'unreadable-text', '8:20', '', /Latin-1/],
  ['UTF-16 with its mark', `\ufffd\ufffd${Array.from(SMALLEST).join('\0')}`, 'unreadable-text', '1:1', '', /UTF-16/],
  ['UTF-16', Array.from(SMALLEST).join('\0'), 'unreadable-text', '1:2', '', /U\+0000/],
  [
    'a no-break space in the indentation',
    `${SMALLEST}vehicle:\n${NO_BREAK}${NO_BREAK}mass: 3 kg\n`,
    'broken-yaml',
    '9:1',
    'mass',
    /type the blank again/,
  ],
  ['a no-break space after a colon', `${SMALLEST}vehicle:\n  mass:${NO_BREAK}3 kg\n`, 'wrong-type', '9:3', 'vehicle', /no-break space/],
  [
    'the same inside braces',
    changed('mass: 66', `mass:${NO_BREAK}66`),
    'broken-yaml',
    '7:113',
    'candidates[0].motor.mass',
    /no-break space/,
  ],
  ['an aliases bomb', ALIAS_BOMB + CANDIDATES, 'too-large', undefined, undefined, /aliases/],
  ['an alias without an anchor', changed('80 %', '*most'), 'broken-yaml', '4:35', 'profile[0].throttle', /quotation marks/],
  ['1.1 MB', SMALLEST + '#'.repeat(1_090_000), 'too-large', '1:1', '', /1\.1 MB/],
  ['50 MB', '['.repeat(50_000_000), 'too-large', '1:1', '', /50\.0 MB/],
  ['nesting of 40', `${SMALLEST}notes: ${'['.repeat(40)}${']'.repeat(40)}`, 'too-deep', '1:1', '', /32/],
  ['nesting of 5000', `${SMALLEST}notes: ${'['.repeat(5000)}${']'.repeat(5000)}`, 'too-deep', '1:1', '', /32/],
  ['nesting by dashes', '- '.repeat(400_000), 'too-deep', '1:1', '', /32/],
  ['nesting by indentation', Array.from({ length: 1000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'), 'too-deep', '33:33', '', /indented/],
  ['duplicate keys', `${SMALLEST}title: again\n`, 'broken-yaml', '8:1', '', /each key once.*title: again/],
  ['a merge key', `${SMALLEST}vehicle: { <<: { mass: 3 kg } }\n`, 'unknown-key', '8:12', 'vehicle.<<', /use:/],
  ['a negative mass', changed('66 g', '-66 g'), 'out-of-range', '7:119', 'candidates[0].motor.mass', /above 0/],
  ['a motor of 66 kg', changed('66 g', '66 kg'), 'out-of-range', '7:119', 'candidates[0].motor.mass', /at most 50\.0 kg/],
  ['NaN', changed('66 g', 'NaN g'), 'bad-number', '7:119', 'candidates[0].motor.mass', /NaN/],
  ['.nan', changed('66 g', '.nan'), 'bad-number', '7:119', 'candidates[0].motor.mass', /nan/],
  ['infinity', changed('66 g', 'infinity'), 'bad-number', '7:119', 'candidates[0].motor.mass', /infinity/],
  ['more than a number holds', changed('66 g', '1e999 g'), 'out-of-range', '7:119', 'candidates[0].motor.mass', /too large/],
  ['a tolerance over 100 %', changed('66 g', '66 g ± 120 %'), 'bad-tolerance', '7:119', 'candidates[0].motor.mass', /100 %/],
  ['a % of a temperature', `${SMALLEST}ambient: { air: 24 °C ± 5 % }\n`, 'bad-tolerance', '8:17', 'ambient.air', /in K/],
  ['more than a full charge', `${SMALLEST}start: { charge: 120 % }\n`, 'out-of-range', '8:18', 'start.charge', /at most 100 %/],
  [
    'a propeller table out of order',
    TABLE(`${ROW(0.4)}, ${ROW(0.2)}`),
    'out-of-range',
    '3:125',
    'propeller.table[1].advance_ratio',
    /sort/,
  ],
  [
    'a propeller table with a row twice',
    TABLE(`${ROW(0.2)}, ${ROW(0.2)}`),
    'out-of-range',
    '3:125',
    'propeller.table[1].advance_ratio',
    /same/,
  ],
  ['an empty propeller table', TABLE(''), 'missing-datum', '3:50', 'propeller.table', /at least 1 row/],
  ['zero candidates', SMALLEST.replace(CANDIDATES, 'candidates: []\n'), 'nothing-to-do', '5:1', 'candidates', /name/],
  ['no candidates', SMALLEST.replace(CANDIDATES, ''), 'nothing-to-do', '1:1', 'candidates', /name/],
  ['an empty profile', changed('[{ for: 3 min, throttle: 80 % }]', '[]'), 'nothing-to-do', '4:1', 'profile', /for: 3 min/],
  [
    'two candidates of one name',
    SMALLEST + CANDIDATES.replace('candidates:\n', ''),
    'duplicate-name',
    '8:11',
    'candidates[1].name',
    /line 6/,
  ],
  ['__proto__ as a key', `${SMALLEST}__proto__: { polluted: yes }\n`, 'unknown-key', '8:1', '__proto__', /__proto__/],
  [
    '__proto__ inside',
    changed('mass: 66 g', '__proto__: { polluted: yes }'),
    'unknown-key',
    '7:113',
    'candidates[0].motor.__proto__',
    /__proto__/,
  ],
  ['propeller and wheel', `${SMALLEST}wheel: { radius: 3 cm }\n`, 'conflict', '8:1', 'wheel', /none/],
  [
    'wheels that carry nothing',
    SMALLEST.replace(/propeller:.*\n/, 'wheel: { radius: 3 cm }\n'),
    'missing-datum',
    '6:5',
    'candidates[0].vehicle',
    /mass/,
  ],
  [
    'wheels and a wing',
    SMALLEST.replace(/propeller:.*\n/, 'wheel: { radius: 3 cm }\nvehicle: { mass: 1 kg, wing: { area: 0.2 m2, aspect_ratio: 6 } }\n'),
    'conflict',
    '4:24',
    'vehicle.wing',
    /rolls by wheels/,
  ],
  [
    'a drag area twice',
    SMALLEST.replace(/propeller:.*\n/, 'wheel: { radius: 3 cm, drag_area: 0.04 m2 }\nvehicle: { mass: 1 kg, drag_area: 0.05 m2 }\n'),
    'conflict',
    '3:35',
    'wheel.drag_area',
    /keep one/,
  ],
  ['neither propeller nor wheel', SMALLEST.replace(/propeller:.*\n/, ''), 'missing-datum', '5:5', 'candidates[0].propeller', /wheel/],
  ['a propeller without a kind', changed('kind: blade-element, ', ''), 'missing-datum', '3:1', 'propeller.kind', /coefficients/],
  [
    'an underscore in a value',
    changed('blade-element', 'blade_element'),
    'unknown-choice',
    '3:20',
    'propeller.kind',
    /"nearest":"blade-element"/,
  ],
  [
    'a key of another kind of propeller',
    changed('pitch: 4.5 in', 'area_ratio: 0.6'),
    'unknown-key',
    '3:51',
    'propeller.area_ratio',
    /known here/,
  ],
  [
    'pitch and pitch ratio',
    changed('blade-element', 'marine-series, pitch_ratio: 1.1'),
    'conflict',
    '3:48',
    'propeller.pitch_ratio',
    /keep/,
  ],
  ['an odd number of poles', changed('mass: 66 g', 'poles: 7'), 'out-of-range', '7:120', 'candidates[0].motor.poles', /even/],
  ['half a pole', changed('mass: 66 g', 'poles: 7.5'), 'bad-number', '7:120', 'candidates[0].motor.poles', /whole/],
  ['a unit where none is due', changed('mass: 66 g', 'poles: 14 mm'), 'wrong-unit', '7:120', 'candidates[0].motor.poles', /write 14/],
  [
    'a word that is no choice',
    changed('outrunner', 'outruner'),
    'unknown-choice',
    '7:22',
    'candidates[0].motor.layout',
    /"nearest":"outrunner"/,
  ],
  ['a second document', `${SMALLEST}---\na: 1\n`, 'broken-yaml', '8:1', '', /---/],
  ['a colon in a text', changed('title: W', 'title: Boat: w'), 'broken-yaml', '1:8', '', /quotation marks/],
  ['an apostrophe in a text', SMALLEST.replace(/title:.*/, "title: 'Bob's boat'"), 'broken-yaml', '1:13', '', /quotation marks/],
  ['a text that begins with a sign', SMALLEST.replace(/title:.*/, 'title: @boat'), 'broken-yaml', '1:8', '', /quotation marks/],
  ['a tag', SMALLEST.replace(/title:.*/, 'title: !boat x'), 'broken-yaml', '1:8', '', /quotation marks/],
  ['a bracket left open', changed('32 mm } }', '32 mm }'), 'broken-yaml', '7:12', '', /closing \} for the bracket/],
  ['a square bracket left open', changed('80 % }]', '80 % }'), 'broken-yaml', '4:10', '', /closing \] for the bracket/],
  ['a name that steers the terminal', changed('"27-32"', '"27\\x1b[2J"'), 'unreadable-text', '6:11', 'candidates[0].name', /control char/],
  ['a battery empty at the start', `${SMALLEST}start: { charge: -1 % }\n`, 'out-of-range', '8:18', 'start.charge', /0 or more|0 % or more/],
  ['a step that holds nothing', changed(', throttle: 80 %', ''), 'missing-datum', '4:11', 'profile[0]', /throttle: 0 % is off/],
  ['a step without a duration', changed('for: 3 min, ', ''), 'missing-datum', '4:11', 'profile[0].for', /45 s/],
  ['two holds', changed('80 %', '80 %, thrust: 3 N'), 'conflict', '4:11', 'profile[0]', /throttle and thrust/],
  ['a tolerance of what is held', changed('80 %', '80 ± 2 %'), 'bad-tolerance', '4:35', 'profile[0].throttle', /no tolerance/],
  ['a misspelt profile', changed('profile:', 'profil:'), 'unknown-key', '4:1', 'profil', /"nearest":"profile"/],
  ['misspelt candidates', changed('candidates:', 'candidate:'), 'unknown-key', '5:1', 'candidate', /"nearest":"candidates"/],
])('%s', (_, text, kind, at, path, says) => {
  it('is one problem, with its place and what to do', () => {
    const problems = problemsOf(text);
    expect(problems.map((problem) => problem.kind)).toEqual([kind]);
    const [{ place }] = problems;
    expect(place.file).toBe('boat.yaml');
    if (at !== undefined) expect(`${place.line}:${place.column}`).toBe(at);
    if (path !== undefined) expect(place.path).toBe(path);
    expect(JSON.stringify(problems[0])).toMatch(says);
  });
});

describe('all at once', () => {
  it('tells problems of every section in reading order, each once', () => {
    const text = changed('title', 'titel', changed('9 in', '9', changed('80 %', '180 %', changed('96 mohm', '96'))));
    const twice = `${text}  - name: b\n    motor: { kv: 900 V }\n`;
    expect(problemsOf(twice).map(({ place, kind }) => `${place.line} ${kind}`)).toEqual([
      '1 unknown-key',
      '3 bare-number',
      '4 out-of-range',
      '7 bare-number',
      '9 wrong-dimension',
    ]);
  });

  it('tells what is wrong with a section that every candidate replaces', () => {
    const text = `${changed('9 in', '9')}    propeller: { kind: marine-series, diameter: 50 mm, pitch_ratio: 1, area_ratio: 0.5, blades: 3 }\n`;
    expect(problemsOf(text).map(({ place, kind }) => `${place.path} ${kind}`)).toEqual(['propeller.diameter bare-number']);
  });

  it('tells what an empty section leaves at the wrong depth', () => {
    const kinds = problemsOf(SMALLEST.replace(/motor: .*/, 'motor:\n    kv: 920 rpm/V')).map(({ kind, hint }) => `${kind}: ${hint}`);
    expect(kinds).toEqual(['wrong-type: indent the lines that belong to it by two blanks', 'unknown-key: “kv” stands in motor']);
  });
});

describe('what looks wrong and is right', () => {
  it('reads a byte-order mark and still counts columns', () => {
    expect(scenarioOf(`\ufeff${SMALLEST}`).title).toBe('Will this motor stay cool?');
    expect(problemsOf(`\ufeff${changed('title', 'titel')}`)[0]!.place).toMatchObject({ line: 1, column: 1 });
  });

  it('reads no-break spaces inside a quantity, and Windows line ends', () => {
    const text = changed('96 mohm', `96${NO_BREAK}mohm`).replaceAll('\n', '\r\n');
    expect(writtenResistance(driveOf(text).motor)?.value).toBeCloseTo(0.096, 12);
  });

  it.each(['<script>alert(1)</script>', '__proto__', 'constructor', '30e4', 'no', '27: 32', '名前'])(
    'keeps the name %s as it is',
    (name) => {
      expect(scenarioOf(changed('"27-32"', JSON.stringify(name))).candidates[0]!.name).toBe(name);
    },
  );

  it('pollutes nothing', () => {
    problemsOf(`${SMALLEST}__proto__: { polluted: yes }\nconstructor: { prototype: { polluted: yes } }\n`);
    expect(({} as { polluted?: string }).polluted).toBeUndefined();
  });

  it('keeps an unquoted 30e4 as text', () => expect(scenarioOf(changed('"27-32"', '30e4')).candidates[0]!.name).toBe('30e4'));
  it('takes what follows a # and a blank for a comment', () =>
    expect(scenarioOf(changed('"27-32"', 'Motor # 3')).candidates[0]!.name).toBe('Motor'));
  it('reads brackets in quoted texts and comments without counting them', () => {
    expect(scenarioOf(`# ${'['.repeat(50)}\nnotes: "${'['.repeat(50)}"\n${SMALLEST}`).notes).toBe('['.repeat(50));
  });

  it('reads aliases of honest size, and gives both uses one place', () => {
    const text = `${changed('96 mohm', '&winding 96 mohm')}  - name: b\n    motor: { resistance: *winding }\n`;
    const { candidates } = scenarioOf(text);
    const [one, two] = candidates.map(({ given }) => writtenResistance(given.motor)!);
    expect(two!.unknown).toEqual(one!.unknown);
  });

  it('reads JSON, with numbers, truth values and tabs', () => {
    const json = JSON.stringify(
      {
        title: 'T',
        battery: { chemistry: 'lithium-ion', cells: { series: 3 } },
        propeller: { kind: 'blade-element', folding: true },
        profile: [{ for: '3 min', throttle: 0.8 }],
        candidates: [{ name: '\u{1f600} "x"', motor: { poles: 14 } }],
      },
      undefined,
      '\t',
    );
    const { candidates } = scenarioOf(json.replace('\u{1f600}', '\\ud83d\\ude00'));
    expect(candidates[0]).toMatchObject({ name: '\u{1f600} "x"', given: { motor: { poles: 14 }, propeller: { folding: true } } });
  });
});
