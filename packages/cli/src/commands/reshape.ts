/** `reshape`: long or wide at one mass and Kv, scaled from one candidate, on the scenario's own run. @module */

import type { ShapePoint, ShapeResult } from '@shaftwork/sim-core';
import { shapeJson } from '@shaftwork/sim-core/json';
import { shapesOfScenario } from '@shaftwork/sim-core/other-questions';
import { formatNumber, formatQuantity } from '@shaftwork/sim-core/quantities';
import { runScenario } from '@shaftwork/sim-core/run-scenario';
import { EXIT } from '../hands/exit.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { BARE, label, own, type Row } from '../render/labels.js';
import { table, wrap } from '../render/table.js';
import { candidateNamed, prepare, sayProblems } from './prepare.js';

export interface ShapeOptions extends GlobalOptions {
  readonly candidate?: string;
  readonly json?: boolean;
}

/** Of the family, this many rows are printed; the whole of it stands in the JSON document. */
const ROWS = 9;

export async function reshape(io: Terminal, path: string, options: ShapeOptions): Promise<number> {
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const named = candidateNamed(prepared.prepared, options.candidate);
  const result = shapesOfScenario(prepared.prepared, { reference: named ?? runScenario(prepared.prepared).ranking[0] });
  const code = result.best === undefined ? EXIT.notFeasible : EXIT.done;
  if (options.json) {
    io.out(`${JSON.stringify(shapeJson(result), null, 2)}\n`);
    return code;
  }
  io.out(
    [
      `${io.colours.strong(`Long or wide, from ${result.reference}`)}\n${wrap(result.sentences.join(' '))}\n`,
      table([label('can, mm'), ...HEAD, BARE], familyRows(result)),
      table(
        [label('as they are'), label('can, mm'), ...narrow(HEAD)],
        result.real.map((point): Row => [own(realName(point)), canOf(point), ...narrow(figuresOf(point))]),
      ),
      `${wrap('i0: no-load current; Km: motor constant in mN·m/√W; lasts: current that the motor alone holds for ever at the speed and cooling of full throttle, whatever the load, – where none; “rate” tells what this load takes, with controller and pack.')}\n`,
      `${result.laws.map((law) => wrap(`  ${law}`, 80, '    ')).join('\n')}\n`,
    ].join('\n'),
  );
  return code;
}

const HEAD = (['side cm²', 'ends', 'R mΩ', 'i0 A', 'Km', 'winding', 'lasts A'] as const).map((each) => label(each));

/** Without ends and no-load current, to leave room for names. */
const narrow = <T>([side, , resistance, , ...rest]: readonly T[]): T[] => [side, resistance, ...rest];

const against = ({ meetsLimits, fits }: ShapePoint): string => (meetsLimits ? (fits ? '' : 'no room') : 'over limit');
const realName = (point: ShapePoint): string => [point.name ?? '', against(point)].filter((word) => word !== '').join(', ');

function familyRows({ family, best }: ShapeResult): Row[] {
  const spacing = Math.max(1, Math.floor((family.length - 1) / (ROWS - 1)));
  const shown = family.filter((_, k) => k % spacing === 0);
  return [...shown.map((point) => [point, against(point)] as const), ...(best === undefined ? [] : [[best, 'best'] as const])]
    .sort(([a], [b]) => b.ratio - a.ratio)
    .map(([point, mark]): Row => [own(canOf(point)), ...figuresOf(point), mark]);
}

const bare = (text: string): string => text.split(/\s/)[0];
const canOf = ({ diameter, length }: ShapePoint): string =>
  [diameter, length].map((value) => bare(formatQuantity(value, 'length', { unit: 'mm', decimals: 1 }))).join(' × ');

function figuresOf(point: ShapePoint): string[] {
  const area = (value: number): string => bare(formatQuantity(value, 'area', { unit: 'cm²', decimals: 0 }));
  return [
    area(point.sideArea),
    area(point.endArea),
    bare(formatQuantity(point.resistance, 'resistance', { unit: 'mohm', decimals: 1 })),
    formatNumber(point.noLoadCurrent, { decimals: 2 }),
    bare(formatQuantity(point.motorConstant, 'torque', { unit: 'mN·m', decimals: 1 })),
    formatQuantity(point.peakWindingTemperature, 'temperature', { unit: '°C', decimals: 0 }),
    point.continuousCurrent === undefined ? '–' : formatNumber(point.continuousCurrent, { decimals: 1 }),
  ];
}
