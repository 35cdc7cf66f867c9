/** `identify --before … --after …`: what changed between two benches or discharges. @module */
import type { ChangeResult } from '@shaftwork/sim-core';
import { changeJson } from '@shaftwork/sim-core/json';
import { formatQuantity, handyUnit } from '@shaftwork/sim-core/quantities';
import { changeParts, changeSentence, numberName } from '@shaftwork/sim-core/words';
import { EXIT } from '../hands/exit.js';
import type { Terminal } from '../hands/terminal.js';
import { BARE, label, own, type Row } from '../render/labels.js';
import { table, wrap } from '../render/table.js';

/** Ends with 0 where both fits settled, whatever changed. */
export function sayChange(io: Terminal, result: ChangeResult, json: boolean): number {
  const code = result.settled ? EXIT.done : EXIT.notFeasible;
  if (json) {
    io.out(`${JSON.stringify(changeJson(result), null, 2)}\n`);
    return code;
  }
  io.out(`${wrap(changeSentence(result))}\n\n`);
  io.out(
    table(
      [BARE, label('before'), label('after'), label('change'), label('95 % interval')],
      [
        ...result.numbers.map((number): Row => {
          const { change, interval } = changeParts(number);
          const shown = (value: number): string =>
            formatQuantity(value, number.dimension, { unit: handyUnit(number.before, number.dimension), significant: 4 });
          return [
            own(numberName({ ...number, value: number.before, low: 0, high: 0, told: true })),
            shown(number.before),
            shown(number.after),
            `${change}${number.outside ? ' *' : ''}`,
            interval,
          ];
        }),
      ],
      { paint: (cell, row) => (row > 0 && result.numbers[row - 1].outside ? io.colours.strong(cell) : cell) },
    ),
  );
  io.note(`\n${wrap('* outside its interval.')}\n`);
  for (const each of result.taken) io.note(`${wrap(`${each[0].toUpperCase()}${each.slice(1)}.`)}\n`);
  return code;
}
