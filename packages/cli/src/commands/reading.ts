/** `reading`: from a thermometer after the stop back to the hidden peak. @module */

import { type ReadingResult, THERMOMETER_PLACES, type ThermometerPlaceId } from '@shaftwork/sim-core';
import { readingJson } from '@shaftwork/sim-core/json';
import { readingsOfScenario } from '@shaftwork/sim-core/other-questions';
import { formatClock, formatQuantity } from '@shaftwork/sim-core/quantities';
import { EXIT, InputFault } from '../hands/exit.js';
import type { GlobalOptions, Terminal } from '../hands/terminal.js';
import { createProgress } from '../render/progress.js';
import { wrap } from '../render/table.js';
import { candidateNamed, prepare, sayProblems } from './prepare.js';
import { quantityFlag } from './quantity-flag.js';

export interface ReadingOptions extends GlobalOptions {
  readonly can?: string;
  readonly end?: string;
  readonly controller?: string;
  readonly cells?: string;
  readonly besideCoils?: string;
  readonly inSlot?: string;
  readonly emissivity?: string;
  readonly after?: string;
  readonly candidate?: string;
  readonly samples?: string;
  readonly json?: boolean;
}

/** The option that tells what a thermometer at each place showed. */
const FLAGS = {
  'on-can': 'can',
  'on-end': 'end',
  'on-controller': 'controller',
  'on-cells': 'cells',
  'beside-coils': 'besideCoils',
  'in-slot': 'inSlot',
} as const satisfies Record<ThermometerPlaceId, keyof ReadingOptions>;

const SAMPLES = 64;

export async function reading(io: Terminal, path: string, options: ReadingOptions): Promise<number> {
  const [given, ...others] = (Object.keys(FLAGS) as ThermometerPlaceId[]).flatMap((place) => {
    const text = options[FLAGS[place]];
    return text === undefined ? [] : [{ place, text }];
  });
  if (given === undefined || others.length > 0)
    throw new InputFault("Give one reading: --can '58 °C', or --end, --controller, --cells, --beside-coils or --in-slot.");
  const { place, text } = given;
  if (options.after === undefined) throw new InputFault("Say when it was read: --after '60 s' from the stop.");
  const samples = options.samples === undefined ? SAMPLES : Number(options.samples);
  if (!(Number.isInteger(samples) && samples >= 16 && samples <= 4096))
    throw new InputFault('--samples: expected a whole number from 16 to 4096.');
  const ask = {
    place,
    ...(options.emissivity === undefined ? {} : { emissivity: quantityFlag('--emissivity', options.emissivity, 'fraction') }),
    reading: quantityFlag(`--${place.replace('on-', '')}`, text, 'temperature'),
    after: quantityFlag('--after', options.after, 'time'),
    samples,
    seed: 1,
  };
  const prepared = prepare(io, path, options);
  if (prepared.kind === 'problems') {
    sayProblems(io, prepared.problems, path, options.json);
    return EXIT.wrongInput;
  }
  const named = candidateNamed(prepared.prepared, options.candidate);
  const chosen = {
    ...prepared.prepared,
    candidates: prepared.prepared.candidates.filter(({ name }) => named === undefined || name === named),
  };
  const progress = createProgress('draws', io.screen, io.quiet);
  const all = samples * chosen.candidates.length;
  let drawn = 0;
  progress.show(drawn, all);
  let results: ReadingResult[];
  try {
    results = readingsOfScenario(chosen, { ...ask, onDraw: () => progress.show(++drawn, all) });
  } catch (error) {
    if (error instanceof RangeError) throw new InputFault(error.message);
    throw error;
  } finally {
    progress.end();
  }
  // a reading that no candidate can have given is no question that has an answer
  const code = results.every(({ contradicts }) => contradicts) ? EXIT.wrongInput : EXIT.done;
  if (options.json) {
    io.out(`${JSON.stringify({ schema: 'shaftwork.reading/1', candidates: results.map(readingJson) }, null, 2)}\n`);
    return code;
  }
  io.out(results.map((each) => `${wrap(sentence(each))}\n`).join('\n'));
  io.note(
    `${wrap('Ranges are 95 %, from the tolerances of the data, the thermometer’s place and 2 K of its own; a profile that was not driven as written is not in them.')}\n`,
  );
  return code;
}

function sentence({
  name,
  place,
  emissivity,
  reading: read,
  after,
  expected,
  hiddenPeak,
  windingThen,
  copperAt60,
  surprise,
  contradicts,
}: ReadingResult): string {
  const degrees = (x: number): string => formatQuantity(x, 'temperature', { unit: '°C', decimals: 0 });
  const range = ({ nominal, low, high }: ReadingResult['hiddenPeak']): string =>
    `${degrees(nominal)} (${degrees(low)} to ${degrees(high)})`;
  const thing = FLAGS[place];
  const where =
    emissivity !== undefined
      ? `by infrared off the ${thing}`
      : place.startsWith('on-')
        ? `on the ${thing}`
        : `on a thermometer ${THERMOMETER_PLACES[place].words}`;
  const when = `${formatClock(after)} after the stop`;
  if (contradicts)
    return `${name}: no motor of this description, driven as written, reads ${degrees(read)} ${where} ${when}: ${range(expected)} was to be expected, and that is ${surprise.toFixed(1)} standard deviations off. Nothing is told of the winding from it. Look at the thermometer, its unit and where it sat, then whether the run was driven and timed as written, then at the numbers of the motor and its cooling.`;
  return `${name}: ${degrees(read)} ${where} ${when} means that the winding had peaked at ${range(hiddenPeak)} in the run and was still at ${range(windingThen)} when it was read. Before the reading ${range(expected)} was to be expected there. When this thermometer reads 60 °C so long after the stop, the copper is at ${range(copperAt60)} at that moment, and was hotter in the run.`;
}
