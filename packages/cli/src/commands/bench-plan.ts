/** `identify --plan`: the runs of a bench day that tell most of what is to be decided. @module */
import { THERMOMETER_PLACES, type ThermometerPlaceId } from '@shaftwork/sim-core';
import { benchPlanOfScenario } from '@shaftwork/sim-core/bench-questions';
import { benchPlanJson } from '@shaftwork/sim-core/json';
import { formatClock, formatNumber, formatQuantity } from '@shaftwork/sim-core/quantities';
import { EXIT, InputFault } from '../hands/exit.js';
import type { Terminal } from '../hands/terminal.js';
import { BARE, label, own, type Row } from '../render/labels.js';
import { table, wrap } from '../render/table.js';
import type { IdentifyOptions } from './identify.js';
import { candidateNamed, prepare, sayProblems } from './prepare.js';

const PLACES = Object.keys(THERMOMETER_PLACES) as readonly ThermometerPlaceId[];

/** What a run must leave at most of the interval that the runs before it left, to be made [1]. */
const TELLS = 0.99;
/** From here on the plan is said to beat an even sweep [1]. */
const NARROWER = 1.05;
const COUNTS = ['One', 'Two', 'Three', 'Four', 'Five', 'Six'] as const;

export function plan(io: Terminal, scenario: string, options: IdentifyOptions): number {
  const { thermometer = 'in-slot' } = options;
  const place = PLACES.find((each) => each === thermometer);
  if (place === undefined) throw new InputFault(`--thermometer: expected one of ${PLACES.join(', ')}; found ${thermometer}.`);
  const prepared = prepare(io, scenario);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, scenario, options.json);
    return EXIT.wrongInput;
  }
  const candidate = candidateNamed(prepared.prepared, options.candidate) ?? prepared.prepared.candidates[0].name;
  const day = benchPlanOfScenario(prepared.prepared, candidate, { thermometer: place });
  if (options.json) {
    io.out(`${JSON.stringify(benchPlanJson(day), null, 2)}\n`);
    return EXIT.done;
  }
  const percent = (share: number): string => `${formatNumber(100 * share, { significant: 2 })} %`;
  const celsius = (kelvin: number): string => formatQuantity(kelvin, 'temperature', { unit: '°C', decimals: 0 });
  // a run that comes again and tells next to nothing more is none to make
  const runs = day.runs.filter(({ left }, k) => k === 0 || left < TELLS * day.runs[k - 1].left);
  const counted =
    runs.length === 1 ? 'One run tells most of that' : `${COUNTS[runs.length - 1] ?? runs.length} runs tell most of that, in this order`;
  const better =
    day.better > NARROWER
      ? `after that the interval is ${formatNumber(day.better, { significant: 2 })} times narrower than after an even sweep of the throttle`
      : 'after that the interval is about what an even sweep of the throttle leaves';
  const wheels = prepared.prepared.candidates[0].data.vehicle.carriedBy === 'wheels';
  io.out(
    `${wrap(`${day.candidate}: least sure is the limit of ${day.decides}. ${percent(day.margin)} of the way to it is left, ± ${percent(1.96 * day.deviation)}. ${counted}; ${better}.`)}\n\n`,
  );
  io.out(
    `${table(
      [BARE, label('at most'), label('winding'), label('interval left')],
      runs.map(
        ({ words, duration, winding, left }, k): Row => [own(`${k + 1} ${words}`), formatClock(duration), celsius(winding), percent(left)],
      ),
    )}\n`,
  );
  runs.forEach(({ narrows }, k) => {
    if (narrows.length > 0)
      io.out(
        `${wrap(`${k + 1} narrows ${narrows.map(({ words, left }) => `${words} (to ${percent(left)} of its interval)`).join(', ')}.`)}\n`,
      );
  });
  io.note(
    `${wrap(`Stop a run when its time is over, or when a thermometer between the wires reads ${celsius(day.limit - 10)}: the limit of the winding is ${celsius(day.limit)}. Let it cool before the next. ${wheels ? 'Secure the car with its wheels off the ground and keep clear of them.' : 'Secure the motor and stand behind the propeller’s plane.'} What the log tells: npx shaftwork identify log.csv`)}\n`,
  );
  return EXIT.done;
}
