/** A bench log must hold what a motor is identified by. */
import { readBench } from '@shaftwork/sim-core/scenario/log/bench-log';
import { expect, it } from 'vitest';

it.each([
  ['time [s],shaft_speed [rpm]', 'the columns voltage [V] and battery current [A]', /voltage=Head \[unit\].*battery_current=Head \[unit\]/],
  ['time [s],shaft_speed [rpm],voltage [V]', 'a column battery current [A]', /battery_current=Head \[unit\]/],
  ['time [s],shaft_speed [rpm],battery_current [A]', 'a column voltage [V]', /voltage=Head \[unit\]/],
])('without some of it, %s, all that is missing is named', (head, expected, hint) => {
  const row = (k: number): string => [k, ...Array.from({ length: head.split(',').length - 1 }, () => 10)].join(',');
  const read = readBench({}, 'bench.csv', `${head}\n${row(0)}\n${row(1)}\n${row(2)}\n`);
  expect(read).toMatchObject({ ok: false, problems: [{ kind: 'missing-datum', expected }] });
  if (!read.ok) expect(read.problems[0].hint).toMatch(hint);
});
