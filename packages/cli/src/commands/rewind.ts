/** `rewind`: which winding of a frame serves best, candidate by candidate. @module */

import type { WindingCandidate, WindingPoint } from '@shaftwork/sim-core';
import { windingJson } from '@shaftwork/sim-core/json';
import { windingsOfScenario } from '@shaftwork/sim-core/other-questions';
import { formatNumber, formatQuantity, toUnit } from '@shaftwork/sim-core/quantities';
import { EXIT } from '../hands/exit.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { BARE, label, own, type Row } from '../render/labels.js';
import { table, wrap } from '../render/table.js';
import { candidateNamed, prepare, sayProblems } from './prepare.js';

export interface WindingOptions extends GlobalOptions {
  readonly candidate?: string;
  readonly json?: boolean;
}

/** Every so many of the winds looked at are printed; all stand in the JSON document. */
const EVERY = 4;

export async function rewind(io: Terminal, path: string, options: WindingOptions): Promise<number> {
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const named = candidateNamed(prepared.prepared, options.candidate);
  const result = windingsOfScenario(prepared.prepared, named === undefined ? {} : { names: [named] });
  const code = result.candidates.some(({ best }) => best !== undefined) ? EXIT.done : EXIT.notFeasible;
  if (options.json) {
    io.out(`${JSON.stringify(windingJson(result), null, 2)}\n`);
    return code;
  }
  io.out(result.candidates.map((each) => [`${wrap(each.sentences.join(' '))}\n`, table(HEAD, rowsOf(each))].join('\n')).join('\n'));
  return code;
}

const HEAD = [...(['Kv', 'R mΩ', 'winding', 'motor A', 'top speed', 'left', 'steps'] as const).map((each) => label(each)), BARE];

function rowsOf({ points, reference, best }: WindingCandidate): Row[] {
  const marks = new Map<WindingPoint, string>([
    ...points.filter((_, k) => k % EVERY === 0).map((point) => [point, ''] as const),
    [reference, 'now'],
    ...(best === undefined ? [] : [[best, best === reference ? 'now, best' : 'best'] as const]),
  ]);
  return [...marks].sort(([a], [b]) => a.speedConstant - b.speedConstant).map(([point, mark]) => row(point, mark));
}

function row(point: WindingPoint, mark: string): Row {
  const against = point.meetsLimits ? (point.less === undefined ? '' : `less ${point.less}`) : 'over limit';
  return [
    own(formatQuantity(point.speedConstant, 'speedConstant', { unit: 'rpm/V', decimals: 0 })),
    formatNumber(toUnit(point.resistance, 'mohm'), { decimals: 1 }),
    formatQuantity(point.peakWindingTemperature, 'temperature', { unit: '°C', decimals: 0 }),
    formatNumber(point.peakMotorCurrent, { decimals: 1 }),
    formatQuantity(point.topSpeed, 'speed', { unit: 'm/s', decimals: 2 }),
    formatQuantity(point.chargeLeft, 'fraction', { unit: '%', decimals: 0 }),
    point.stepsNotHeld === 0 ? 'all' : `${point.stepsNotHeld} lost`,
    [mark, against].filter((word) => word !== '').join(', '),
  ];
}
