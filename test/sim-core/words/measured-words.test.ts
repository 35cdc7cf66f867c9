/** What is said of a log beside a prediction: exact sentences of hand-made comparisons. */
import type { MeasuredChannel, MeasuredMove, MeasuredResult } from '@shaftwork/sim-core/results/measured-result';
import { differenceOf, measurablePrinting, measuredSentences, moveText, signedText } from '@shaftwork/sim-core/words/measured-words';
import { describe, expect, it } from 'vitest';

const plain = (text: string): string => text.replaceAll('\u202f', ' ');
const channel = (
  id: MeasuredChannel['id'],
  meanMeasured: number,
  meanPredicted: number,
  more: Partial<MeasuredChannel> = {},
): MeasuredChannel => ({
  id,
  time: [],
  measured: [],
  predicted: [],
  counts: [],
  bias: 0,
  rms: 0,
  meanMeasured,
  meanPredicted,
  meanBand: { p05: 0.9 * meanPredicted, p50: meanPredicted, p95: 1.1 * meanPredicted },
  deviation: 0.1,
  ...more,
});
const move = (more: Partial<MeasuredMove> = {}): MeasuredMove => ({
  subject: 'drag-error',
  words: 'factor on the vehicle’s drag',
  dimension: 'ratio',
  value: 1,
  moved: 1.1,
  deviations: 1.94,
  explains: 0.823,
  ...more,
});
const said = (more: Partial<MeasuredResult> = {}): readonly string[] =>
  measuredSentences(
    {
      schema: 'shaftwork.measured/1',
      file: 'run.csv',
      rows: 90,
      candidate: 'A',
      named: true,
      driven: false,
      clock: { by: 'profile', begins: 0 },
      from: 0,
      to: 60,
      taken: [],
      channels: [],
      squares: 1,
      moved: 12,
      explanation: { kind: 'nothing-to-explain' },
      ...more,
    },
    'the motor or the propeller',
  ).map(plain);
const NOTHING = 'The residuals are no larger than what such instruments err by: there is nothing to explain.';

describe('a clock', () => {
  it('that is the profile’s needs no word', () => expect(said()).toEqual([NOTHING]));
  it('was said, found by a column, or taken', () => {
    const of = (clock: MeasuredResult['clock']) => said({ clock })[1];
    expect(of({ by: 'given', begins: 12.34 })).toBe('The run begins at 12.3 s of the clock of run.csv, as was said.');
    expect(of({ by: 'column', begins: 5, column: 'battery_current', correlation: 0.987 })).toBe(
      'By its battery current the run begins at 5.0 s of the clock of run.csv; the two follow one another to 0.99 of 1.',
    );
    expect(of({ by: 'column', begins: 5, column: 'battery_current', correlation: 0.987, alike: 65 })).toMatch(
      / 65\.0 s would fit nearly as well: look whether the laps are the same\.$/,
    );
    expect(of({ by: 'first-row', begins: 3 })).toBe('The first row of run.csv, 3.0 s by its clock, is taken for the beginning of the run.');
    const better = { begins: 42, column: 'shaft_speed', correlation: 0.95, now: 0.41 } as const;
    expect(of({ by: 'first-row', begins: 3, better })).toMatch(
      /run\. Its motor speed would follow the prediction far better, to 0\.95 of 1 in place of 0\.41, if the run began at 42\.0 s: write align: shaft_speed under measured:/,
    );
    // a column without its correlation is no finding
    expect(of({ by: 'column', begins: 3, column: 'shaft_speed' })).toMatch(/^The first row of/);
    expect(of({ by: 'column', begins: 3, correlation: 0.9 })).toMatch(/^The first row of/);
  });
});

describe('a mean', () => {
  const means = (...channels: MeasuredChannel[]) => said({ channels }).filter((text) => text !== NOTHING);
  it('outside the draws and the instrument’s error is told, with what follows', () => {
    expect(means(channel('battery_current', 23.44, 8.2))).toEqual([
      'The log’s mean battery current is 23.4 A, the prediction 8.2 A (7.4 to 9.0 A in 9 of 10 draws): the motor or the propeller is not what is written, or a sensor is off.',
    ]);
    // 9.02 A and 1.96 · 0.1 A: from 9.216 on; from 7.184 down
    expect([9.21, 9.22, 7.19, 7.18].map((x) => means(channel('battery_current', x, 8.2)).length)).toEqual([0, 1, 0, 1]);
  });
  it('inside them, or where nothing was drawn, is not', () => {
    const { meanBand: _, ...without } = channel('battery_current', 23.44, 8.2);
    expect(means(without)).toEqual([]);
    expect(means(channel('battery_current', 8.5, 8.2))).toEqual([]);
  });
  it('of a temperature is left to its own section', () => {
    expect(means(channel('can_temperature', 360, 320))).toEqual([]);
  });
  it('that is the worst leads, three others follow', () => {
    const [sentence] = means(
      channel('thrust', 12, 10),
      channel('battery_current', 30, 10),
      channel('battery_power', 250, 100),
      channel('voltage', 14, 10),
      channel('shaft_speed', 1100, 950),
    );
    expect(sentence).toMatch(/^The log’s mean battery current is 30\.0 A/);
    expect(sentence).toContain(
      ', and so battery power 250 W against 100 W, voltage 14.00 V against 10.00 V and thrust 12.00 N against 10.00 N:',
    );
    expect(sentence).not.toContain('motor speed');
  });
  it('that one number explains is not blamed on the parts', () => {
    const [sentence] = said({ channels: [channel('battery_current', 23.44, 8.2)], explanation: { kind: 'one', best: move(), alike: [] } });
    expect(sentence).toMatch(/in 9 of 10 draws\)\.$/);
  });
});

describe('an explanation', () => {
  it('by one number says how far it moves, and what else would do', () => {
    expect(said({ explanation: { kind: 'one', best: move(), alike: [] } })).toEqual([
      'Of 12 uncertain numbers one alone explains it best: factor on the vehicle’s drag, 1.10 in place of 1.00 (+1.9 of its own deviations), takes away 82 % of the squared residuals.',
    ]);
    const other = move({ words: 'gear: its loss', deviations: -2.1, moved: 0.9, explains: 0.79 });
    expect(said({ explanation: { kind: 'one', best: move(), alike: [other] } })[0]).toMatch(
      / Gear, 0\.900 in place of 1\.00 \(−2\.1 of its own deviations\), 79 % would do nearly as well: this log cannot tell them apart\.$/,
    );
  });
  it('by none says which helps most, or that none does', () => {
    expect(said({ explanation: { kind: 'none', best: move() } })).toEqual([
      'No single one of 12 uncertain numbers explains it within three of its deviations: the one that helps most, factor on the vehicle’s drag, 1.10 in place of 1.00 (+1.9 of its own deviations), takes away 82 % of the squared residuals.',
    ]);
    expect(said({ explanation: { kind: 'none' } })[0]).toMatch(/within three of its deviations: moving none of them helps\.$/);
  });
  it('by a sensor’s scale is told beside it, with what tells of a current sensor', () => {
    const sensor = (id: 'battery_current' | 'thrust') => said({ sensor: { id, factor: 1.084, explains: 0.6 } })[1];
    expect(sensor('thrust')).toBe(
      'A sensor of the thrust that shows 108 % of what it should would take away 60 % of the squared residuals.',
    );
    const far = (factor: number) => said({ sensor: { id: 'voltage', factor, explains: 1 } })[1];
    expect(far(0.001)).toMatch(/ shows 0\.10 % of what .* the unit in the head of its column, or a setting of the logger\.$/);
    expect([0.67, 1.49, 0.66, 1.51].map((factor) => /the unit/.test(far(factor)))).toEqual([false, false, true, true]);
    expect(sensor('battery_current')).toMatch(
      /residuals\. The charge that the charger put back tells: write charge_put_back: beside the log\.$/,
    );
    expect(said({ sensor: { id: 'thrust', factor: 1.1, explains: 0.6 }, explanation: { kind: 'none' } })).toHaveLength(2);
    expect(
      said({ sensor: { id: 'thrust', factor: 1.1, explains: 0.6 }, explanation: { kind: 'one', best: move(), alike: [] } }),
    ).toHaveLength(2);
  });
  it('leaves a rule’s formula out of its name', () => {
    expect(moveText(move({ words: 'stack length, 0.47 of the can' }))).toMatch(/^stack length, 1\.10/);
    expect(moveText(move({ words: 'cold cells (activation, 46 kJ/mol)' }))).toMatch(/^cold cells, 1\.10/);
  });
});

it('another candidate that comes nearer is named', () => {
  expect(said({ nearer: { name: 'B', share: 0.31 } })[0]).toBe(
    'Nobody said whose run it was: B comes much nearer to the log than A, with 31 % of its squared residuals. Name it by --measured-on, or candidate: under measured:.',
  );
});

it('differences are shown in the unit of the column, temperatures in kelvins, with their sign', () => {
  expect(plain(differenceOf(-12.34, measurablePrinting('can_temperature')))).toBe('12.3 K');
  expect(plain(differenceOf(100 * Math.PI, measurablePrinting('shaft_speed')))).toBe('3000 rpm');
  expect([1.2, -1.2, 0].map((x) => plain(signedText(x, measurablePrinting('battery_current'))))).toEqual(['+1.2 A', '−1.2 A', '+0.0 A']);
});
