import { readScenario } from '@shaftwork/sim-core/scenario';
import { partPath } from '@shaftwork/sim-core/scenario/part-paths';
import { describe, expect, it } from 'vitest';
import { changed, driveOf, problemsOf, SMALLEST, scenarioOf } from './smallest-scenario.js';

const second = (sections: string) => `${SMALLEST}  - name: other\n    motor: { poles: 14 }\n${sections}`;
const otherOf = (text: string, parts = {}) => driveOf(text, parts, 1);

describe('candidates override', () => {
  it('merges maps key by key, and leaves the other candidate alone', () => {
    const text = second('    battery: { cells: { parallel: 2 }, mass: 200 g }\n');
    expect(otherOf(text).battery).toMatchObject({ chemistry: 'lithium-polymer', cells: { series: 3, parallel: 2 }, mass: { value: 0.2 } });
    expect(driveOf(text).battery?.mass).toBeUndefined();
    expect(driveOf(text).battery?.cells?.parallel).toBeUndefined();
  });

  it('replaces lists', () => {
    const text = `vehicle: { drag: [{ speed: 1 m/s, force: 2 N }, { speed: 2 m/s, force: 8 N }] }\n${second('    vehicle: { drag: [{ speed: 3 m/s, force: 9 N }] }\n')}`;
    expect(driveOf(text).vehicle?.drag).toHaveLength(2);
    expect(otherOf(text).vehicle?.drag).toMatchObject([{ speed: 3, force: 9 }]);
  });

  it('replaces the whole where the kind is another', () => {
    const marine = '    propeller: { kind: marine-series, diameter: 50 mm, pitch_ratio: 1 }\n';
    expect(otherOf(second(marine)).propeller).not.toHaveProperty('pitch');
    const same = '    propeller: { kind: blade-element, diameter: 10 in }\n';
    expect(otherOf(second(same)).propeller).toMatchObject({ diameter: { value: 0.254 }, pitch: { value: 0.1143 } });
    expect(otherOf(second('    propeller: { diameter: 10 in }\n')).propeller).toMatchObject({
      kind: 'blade-element',
      pitch: { value: 0.1143 },
    });
  });

  it('removes by none, a section or one datum of it', () => {
    const wheel = '    propeller: none\n    wheel: { radius: 4 cm }\n    vehicle: { mass: 1 kg }\n    battery: { capacity: none }\n';
    const other = otherOf(second(wheel));
    expect(other).not.toHaveProperty('propeller');
    expect(other.wheel?.radius?.value).toBeCloseTo(0.04, 12);
    expect(other.battery).not.toHaveProperty('capacity');
    expect(other.battery).toHaveProperty('chemistry');
  });

  it.each([
    ['winding', 'limits: { winding: none }\n', 'limits.winding'],
    ['cells', 'limits: { cells: none }\n', 'limits.cells'],
    ['all limits', 'limits: none\n', 'limits'],
    ['the controller', 'controller: none\n', 'controller'],
  ])('says what none would bring back: %s, for all and for one', (_, line, path) => {
    for (const text of [`${line}${SMALLEST}`, second(`    ${line}`)]) {
      const problems = problemsOf(text);
      expect(problems).toHaveLength(1);
      expect(problems[0]).toMatchObject({ kind: 'wrong-type', found: 'none', hint: expect.stringContaining('without') });
      expect(problems[0].place.path.endsWith(path)).toBe(true);
    }
  });

  it('a limit that is never reached may be written, as the hint says', () => {
    expect(driveOf(`limits: { winding: 400 °C, cells: 400 °C }\n${SMALLEST}`).limits?.winding?.value).toBeCloseTo(673.15, 9);
  });

  it('gives what both share one unknown, and what differs its own', () => {
    const text = changed('2.2 Ah', '2.2 Ah ± 8 %', second('    battery: { mass: 200 g ± 5 % }\n'));
    expect(driveOf(text).battery?.capacity).toEqual(otherOf(text).battery?.capacity);
    expect(otherOf(text).battery?.mass?.unknown.key).toBe('boat.yaml:10:22');
  });

  it('says of each datum where it is from', () => {
    const text = changed('capacity: 2.2 Ah', 'capacity: 2.2 Ah, source: pack label', second('    battery: { mass: 200 g }\n'));
    expect(driveOf(text).battery?.capacity?.source).toBe('pack label');
    expect(otherOf(text).battery?.mass?.source).toBeUndefined();
    expect(driveOf(text).motor?.kv?.source).toBeUndefined();
  });
});

describe('part files', () => {
  const using = changed('layout: outrunner,', 'use: parts/m.yaml,');
  const PART = 'part: motor\nlayout: inrunner\npoles: 4\nkv: 100 rpm/V\nsource: data sheet\n';

  it('are asked for, then merged below what stands beside use', () => {
    expect(readScenario(new Map([['boat.yaml', using]]), 'boat.yaml')).toEqual({ kind: 'needs', needs: ['parts/m.yaml'] });
    const { motor } = driveOf(using, { 'parts/m.yaml': PART });
    expect(motor).toMatchObject({ layout: 'inrunner', poles: 4, kv: { origin: { place: { file: 'boat.yaml', line: 7 } } } });
    expect(motor?.kv?.source).toBeUndefined();
  });

  it('are found beside the scenario wherever it lies, and beside each other', () => {
    const main = '/models/boats/boat.yaml';
    const files = new Map<string, string | null>([[main, using]]);
    expect(readScenario(files, main)).toEqual({ kind: 'needs', needs: ['/models/boats/parts/m.yaml'] });
    files.set('/models/boats/parts/m.yaml', 'part: motor\nuse: frames/f.yaml\npoles: 4\n');
    expect(readScenario(files, main)).toEqual({ kind: 'needs', needs: ['/models/boats/parts/frames/f.yaml'] });
    files.set('/models/boats/parts/frames/f.yaml', 'part: motor\npoles: 14\ninsulation_class: H\n');
    const reading = readScenario(files, main);
    if (reading.kind !== 'read') throw new Error(JSON.stringify(reading));
    expect(reading.scenario.candidates[0]!.given.motor).toMatchObject({ poles: 4, insulationClass: 'H' });
    expect(reading.files).toHaveLength(3);
  });

  it('replace the whole where another is used, and merge where it is the same', () => {
    const parts = { 'a.yaml': 'part: battery\nmass: 100 g\ncell_cutoff: 3 V\n', 'b.yaml': 'part: battery\nmass: 300 g\n' };
    const common = (own: string) => changed('battery: { ', 'battery: { use: a.yaml, mass: 150 g, ', second(`    battery: ${own}\n`));
    expect(otherOf(common('{ use: b.yaml }'), parts).battery).not.toHaveProperty('chemistry');
    const same = otherOf(common('{ use: a.yaml, cell_cutoff: none }'), parts).battery;
    expect(same).toMatchObject({ chemistry: 'lithium-polymer', mass: { value: 0.15 } });
    expect(same).not.toHaveProperty('cellCutoff');
  });

  it.each([
    ['a missing file', using, { 'parts/m.yaml': null }, 'missing-file', 'boat.yaml:7:19'],
    ['a circle of one', using, { 'parts/m.yaml': 'part: motor\nuse: m.yaml\n' }, 'circular-use', 'parts/m.yaml:2:6'],
    [
      'a circle of two',
      using,
      { 'parts/m.yaml': 'part: motor\nuse: n.yaml\n', 'parts/n.yaml': 'part: motor\nuse: m.yaml\n' },
      'circular-use',
      'parts/n.yaml:2:6',
    ],
    ['a climb out of the folder', changed('parts/m.yaml', '../m.yaml', using), {}, 'use-outside', 'boat.yaml:7:19'],
    ['an absolute path', changed('parts/m.yaml', '/etc/m.yaml', using), {}, 'use-outside', 'boat.yaml:7:19'],
    ['an address', changed('parts/m.yaml', '"https://example.org/m.yaml"', using), {}, 'use-outside', 'boat.yaml:7:19'],
    ['a climb out from a part', using, { 'parts/m.yaml': 'part: motor\nuse: ../../m.yaml\n' }, 'use-outside', 'parts/m.yaml:2:6'],
    ['another part', using, { 'parts/m.yaml': 'part: battery\n' }, 'conflict', 'parts/m.yaml:1:7'],
    ['no part', using, { 'parts/m.yaml': 'poles: 4\n' }, 'missing-datum', 'parts/m.yaml:1:1'],
    ['a misspelt part', using, { 'parts/m.yaml': 'part: moter\n' }, 'unknown-choice', 'parts/m.yaml:1:7'],
    ['an empty part', using, { 'parts/m.yaml': '' }, 'nothing-to-do', 'parts/m.yaml:1:1'],
    ['a wrong line in a part', using, { 'parts/m.yaml': 'part: motor\nmagnet_grade: XX\n' }, 'unknown-choice', 'parts/m.yaml:2:15'],
    ['use where no part can be', `${SMALLEST}limits: { use: limits.yaml }\n`, {}, 'unknown-key', 'boat.yaml:8:11'],
  ])('%s is told', (_, text, parts, kind, at) => {
    const problems = problemsOf(text, parts);
    expect(problems.map((problem) => problem.kind)).toEqual([kind]);
    const { file, line, column } = problems[0]!.place;
    expect(`${file}:${line}:${column}`).toBe(at);
  });

  it('counts paths from the file that names them', () => {
    expect(partPath('a/main.yaml', 'a/parts/m.yaml', '../n.yaml')).toBe('a/n.yaml');
    expect(partPath('a/main.yaml', 'a/main.yaml', 'parts/./x/../m.yaml')).toBe('a/parts/m.yaml');
    expect(partPath('a/main.yaml', 'a/main.yaml', '../ab/m.yaml')).toBeUndefined();
    expect(partPath('../main.yaml', '../main.yaml', 'm.yaml')).toBe('../m.yaml');
    expect(partPath('../main.yaml', '../main.yaml', '../m.yaml')).toBeUndefined();
    expect(partPath('main.yaml', 'main.yaml', 'parts\\m.yaml')).toBeUndefined();
    expect(partPath('/main.yaml', '/main.yaml', '../../m.yaml')).toBeUndefined();
  });

  it('are given to candidates that share them as one unknown', () => {
    const text = `${using}  - name: other\n    motor: { use: parts/m.yaml }\n    gearbox: { ratio: 3 }\n`;
    const { candidates } = scenarioOf(text, { 'parts/m.yaml': 'part: motor\nmass: 66 g\nstack_length: 9 mm ± 10 %\n' });
    expect(candidates[0]!.given.motor?.stackLength).toEqual(candidates[1]!.given.motor?.stackLength);
  });
});
