/**
 * `point`: the steady operating point of every candidate, pack and parts as the scenario starts them, and how sure each figure is.
 *
 * @module
 */

import {
  BODIES,
  CHANNELS,
  type ChannelId,
  type Equilibrium,
  HEAT_WAY_IDS,
  HEAT_WAYS,
  POINT_FIGURE_IDS,
  POINT_FIGURES,
  POWER_TERM_IDS,
  POWER_TERMS,
  type PointBand,
  type PointFigureId,
} from '@shaftwork/sim-core';
import { type PointResult, pointsOfScenario } from '@shaftwork/sim-core/other-questions';
import { formatNumber, formatQuantity, toUnit } from '@shaftwork/sim-core/quantities';
import type { PreparedScenario } from '@shaftwork/sim-core/run-scenario';
import { EXIT } from '../hands/exit.js';
import { typed } from '../hands/shell-words.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { drivesWords } from '../render/drives-words.js';
import { BARE, label, own, type Row, under } from '../render/labels.js';
import { NO_FIGURE } from '../render/run-summary.js';
import { table, wrap } from '../render/table.js';
import { asksOf, type PointFlags } from './point-ask.js';
import { prepare, sayProblems } from './prepare.js';

export interface PointOptions extends GlobalOptions, PointFlags {
  readonly json?: boolean;
}

const SHOWN: readonly ChannelId[] = [
  'throttle',
  'vehicleSpeed',
  'shaftSpeed',
  'motorTorque',
  'thrust',
  'motorCurrent',
  'batteryCurrent',
  'busVoltage',
  'batteryPower',
  'inputPower',
  'shaftPower',
];
/** What stands in one line of a range; motor speed without its ±, for which there is no room. */
const IN_RANGE: readonly ChannelId[] = ['throttle', 'vehicleSpeed', 'shaftSpeed', 'thrust', 'motorCurrent', 'batteryPower'];

export async function point(io: Terminal, path: string, options: PointOptions): Promise<number> {
  const { asks, words } = asksOf(options);
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const points = asks.map((ask) => pointsOfScenario(prepared.prepared, ask));
  if (options.json) {
    const json = points.map((each) => each.map(pointJson));
    const body = json.length === 1 ? { candidates: json[0] } : { points: json.map((candidates, k) => ({ asked: words[k], candidates })) };
    io.out(`${JSON.stringify({ schema: 'shaftwork.point/1', ...body }, null, 2)}\n`);
    return EXIT.done;
  }
  const show = shownOf(prepared.prepared);
  io.out(`${wrap(stateWords(points[0][0]))}\n\n`);
  if (points.length === 1) io.out(one(points[0], show, io));
  else io.out(several(points, words, asks[0].hold, show, io));
  const whose = drivesWords(prepared.prepared);
  if (whose !== undefined) io.out(`\n${wrap(whose)}\n`);
  io.note(`${wrap(`${BATTERY_POWER} ${PLUS_MINUS}`)}\n`);
  const short = points[points.length - 1].filter((each) => !each.reached).map(({ name }) => name);
  if (short.length > 0)
    io.err(
      `${wrap(`${short.join(', ')}: out of reach; the figures are the most that the drive gives, at full throttle or at a limit of its controller.`)}\n`,
    );
  io.note(`Next: npx shaftwork run ${typed(path)} drives the profile and finds the temperatures.\n`);
  return EXIT.done;
}

const BATTERY_POWER =
  'Battery power is what arrives at the controller and the other loads: battery current times the voltage there. What the pack and the wires lose comes before it.';

const PLUS_MINUS = '± is the 95 % interval that the doubt of the data makes; what candidates share cancels between them.';

function stateWords({ channels }: PointResult): string {
  const charge = formatQuantity(channels.charge, 'fraction', { unit: '%', decimals: 0, space: ' ' });
  const [winding, cells] = [degrees(channels.windingTemperature), degrees(channels.cellTemperature)];
  return `Steady, with the pack at ${charge} and ${winding === cells ? `all parts at ${winding}` : `the parts at ${winding}, the cells at ${cells}`}, as the scenario starts: before anything warms up.`;
}

const degrees = (value: number): string => formatQuantity(value, 'temperature', { unit: '°C', decimals: 0, space: ' ' });

type Show = (id: ChannelId, each: PointResult) => string;

/** A figure of a point; a motor on a bench has no speed. */
function shownOf({ candidates }: PreparedScenario): Show {
  const bench = new Set(candidates.filter(({ data }) => data.vehicle.carriedBy === 'bench').map(({ name }) => name));
  return (id, { name, channels, bands }) => {
    if (id === 'vehicleSpeed' && bench.has(name) && channels.vehicleSpeed === 0) return NO_FIGURE;
    const { dimension, shown, decimals } = CHANNELS[id];
    const text = formatQuantity(channels[id], dimension, { unit: shown, decimals });
    return text + plusMinus(bands?.channels[id], decimals, (value) => toUnit(value, shown));
  };
}

/** " ±7.1", in the unit of the figure before it and with no more digits than it has; nothing where the figure is exact to its last digit. */
function plusMinus(band: PointBand | undefined, decimals: number, shown: (value: number) => number): string {
  const half = Math.abs(shown(band?.halfWidth ?? 0));
  if (!(half >= 0.5 * 10 ** -decimals)) return '';
  return ` ±${formatNumber(Number(half.toPrecision(2)), { decimals: Math.min(decimals, Math.max(0, 1 - Math.floor(Math.log10(half)))) })}`;
}

/** A figure made of the point, as a number or in percent; NO_FIGURE where it has no meaning. */
function figureText(id: PointFigureId, { figures, bands }: PointResult): string {
  if (!Number.isFinite(figures[id])) return NO_FIGURE;
  const { decimals, share } = POINT_FIGURES[id];
  const text = share ? formatQuantity(figures[id], 'fraction', { unit: '%', decimals }) : formatNumber(figures[id], { decimals });
  return text + plusMinus(bands?.figures[id], decimals, (value) => figureShown(id, value));
}

function one(points: readonly PointResult[], show: Show, { colours }: Terminal): string {
  const losses = POWER_TERM_IDS.filter((id) => points.some((each) => Math.abs(each.powers[id]) >= 0.05));
  return table(
    [BARE, ...points.map((each) => own(each.name))],
    [
      ...SHOWN.map((id): Row => [label(CHANNELS[id].words), ...points.map((each) => show(id, each))]),
      ...POINT_FIGURE_IDS.filter((id) => points.some((each) => Number.isFinite(each.figures[id]))).map(
        (id): Row => [label(POINT_FIGURES[id].words), ...points.map((each) => figureText(id, each))],
      ),
      ...losses.map(
        (id): Row => [
          under(POWER_TERMS[id].words),
          ...points.map(
            (each) =>
              formatQuantity(each.powers[id], 'power', { unit: 'W', decimals: 1 }) +
              plusMinus(each.bands?.powers[id], 1, (value) => toUnit(value, 'W')),
          ),
        ],
      ),
      ...settledRows(points),
    ],
    { paint: (cell, row) => (row === 0 ? colours.strong(cell) : cell) },
  );
}

/** Held like this for ever: what each part settles at, and which way the heat leaves. */
function settledRows(points: readonly PointResult[]): Row[] {
  const found = points.map(({ settled }) => (typeof settled === 'object' ? settled : undefined));
  if (points.every(({ settled }) => settled === undefined)) return [];
  const cell = (k: number, text: (of: Equilibrium) => string): string =>
    found[k] !== undefined ? text(found[k]) : points[k].settled === 'none' ? 'runs away' : NO_FIGURE;
  const ways = HEAT_WAY_IDS.filter((way) => found.some((each) => each !== undefined && Math.abs(each.leaves[way]) >= 0.05));
  return [
    [label('held for ever'), ...points.map(() => '')],
    ...BODIES.map(
      (body): Row => [
        under(body),
        ...points.map((_, k) =>
          cell(
            k,
            ({ temperatures, beyond: { [body]: bound } }) =>
              degrees(temperatures[body]) + (bound === undefined ? '' : `, past ${degrees(bound)}`),
          ),
        ),
      ],
    ),
    ...ways.map(
      (way): Row => [
        under(HEAT_WAYS[way].words),
        ...points.map((_, k) => cell(k, ({ leaves }) => formatQuantity(leaves[way], 'power', { unit: 'W', decimals: 1 }))),
      ],
    ),
  ];
}

/** A table for each candidate, a line for each value. */
function several(
  points: readonly (readonly PointResult[])[],
  words: readonly string[],
  asked: string,
  show: Show,
  { colours }: Terminal,
): string {
  // what is asked for stands first in its own words
  const told = IN_RANGE.filter((id) => id !== asked);
  return points[0]
    .map(({ name }, c) => {
      const heads = [own(name), ...told.map((id) => label(CHANNELS[id].words))];
      const rows = points.map(
        (each, k): Row => [
          own(words[k] + (each[c].reached ? '' : ' *')),
          ...told.map((id) => show(id, id === 'shaftSpeed' ? { ...each[c], bands: undefined } : each[c])),
        ],
      );
      const star = points.some((each) => !each[c].reached) ? '* out of reach: full throttle instead\n' : '';
      return table(heads, rows, { paint: (cell, row) => (row === 0 ? colours.strong(cell) : cell) }) + star;
    })
    .join('\n');
}

const figureShown = (id: PointFigureId, value: number): number => (POINT_FIGURES[id].share ? toUnit(value, '%') : value);
const ends = ({ p05, p95 }: PointBand, shown: (value: number) => number): object => ({ p05: shown(p05), p95: shown(p95) });

const pointJson = ({ name, channels, powers, figures, bands, reached, settled }: PointResult): object => ({
  name,
  reached,
  charge_percent: toUnit(channels.charge, '%'),
  windingTemperature_degC: toUnit(channels.windingTemperature, '°C'),
  ...Object.fromEntries(SHOWN.map((id) => [`${id}_${CHANNELS[id].suffix}`, toUnit(channels[id], CHANNELS[id].shown)])),
  ...Object.fromEntries(
    POINT_FIGURE_IDS.filter((id) => Number.isFinite(figures[id])).map((id) => [
      id + POINT_FIGURES[id].suffix,
      figureShown(id, figures[id]),
    ]),
  ),
  powers: Object.fromEntries(POWER_TERM_IDS.map((id) => [`${id}_W`, powers[id]])),
  ...(bands && {
    inNineOfTenDraws: {
      ...Object.fromEntries(
        SHOWN.map((id) => [`${id}_${CHANNELS[id].suffix}`, ends(bands.channels[id], (value) => toUnit(value, CHANNELS[id].shown))]),
      ),
      ...Object.fromEntries(
        POINT_FIGURE_IDS.filter((id) => Number.isFinite(bands.figures[id].p05)).map((id) => [
          id + POINT_FIGURES[id].suffix,
          ends(bands.figures[id], (value) => figureShown(id, value)),
        ]),
      ),
      powers: Object.fromEntries(POWER_TERM_IDS.map((id) => [`${id}_W`, ends(bands.powers[id], (value) => value)])),
    },
  }),
  ...(settled === undefined
    ? {}
    : settled === 'none'
      ? { settled }
      : {
          settled: {
            ...Object.fromEntries(BODIES.map((body) => [`${body}Temperature_degC`, toUnit(settled.temperatures[body], '°C')])),
            limitsPassed: Object.fromEntries(
              BODIES.flatMap((body) => {
                const bound = settled.beyond[body];
                return bound === undefined ? [] : [[`${body}Temperature_degC`, toUnit(bound, '°C')]];
              }),
            ),
            leaves: Object.fromEntries(HEAT_WAY_IDS.map((way) => [`${way}_W`, settled.leaves[way]])),
          },
        }),
});
