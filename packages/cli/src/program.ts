/** The words of the command line and what they call. Only commands that do something are registered. @module */

import { Command, Option } from 'commander';
import { InputFault } from './hands/exit.js';
import type { Io } from './hands/io.js';
import { type Terminal, terminalOf } from './hands/terminal.js';

const EXAMPLES = `Examples
  npx shaftwork init my-boat --for boat          a scenario to start from
  npx shaftwork run my-boat/boat.yaml            which motor, how hot, how long
  npx shaftwork check my-boat/boat.yaml          what is wrong, what is assumed
`;

const ALONE = `shaftwork simulates the electric drive of a model boat, aircraft or car before
the parts are bought: what the motor meets, how hot it gets and when, and which
of several motors serves best on the run that will really be driven.

${EXAMPLES}
All commands: npx shaftwork --help
What a message or a word means: npx shaftwork explain
`;

/** Options that every command takes, told once in the help of the whole. */
const EVERYWHERE: readonly (readonly [flags: string, description: string])[] = [
  ['--quiet', 'no summary and no remarks: only what was asked for'],
  ['--verbose', 'everything there is to say'],
  ['--color <when>', 'colours: auto, never or always'],
  ['--force', 'replace files that are not ours'],
  ['--strict', 'end with code 1 on any finding'],
];

const AFTER = `
Every command takes
${EVERYWHERE.map(([flags, description]) => `  ${flags.padEnd(18)} ${description}`).join('\n')}

Ends with 0 done, 1 done but no candidate meets every limit, fits and holds
every step, 2 what you wrote is wrong, 3 a fault of the program, 4 a file cannot
be read or written, 5 memory ran out, 130 interrupted.
`;

export function createProgram(hands: Io, exit: (code: number) => void): Command {
  let io: Terminal = terminalOf(hands, {});
  const program = new Command('shaftwork');
  const prepared = (command: Command): Command => {
    command
      .helpOption('--help', 'print this help')
      .configureOutput({
        writeOut: (text) => hands.out(text),
        writeErr: (text) => hands.err(text.replace(/^error: (.)/, (_, first: string) => first.toUpperCase())),
        getOutHelpWidth: () => 80,
        getErrHelpWidth: () => 80,
      })
      .showHelpAfterError(`For help: npx shaftwork ${command.name() === 'shaftwork' ? '' : `${command.name()} `}--help`)
      .exitOverride();
    for (const [flags, description] of EVERYWHERE) command.addOption(new Option(flags, description).hideHelp());
    return command;
  };
  prepared(program)
    .description('Simulates the electric drive of a model boat, aircraft or car before the parts are bought.')
    .version('0.1.0', '--version', 'print the version')
    .addHelpText('before', EXAMPLES)
    .addHelpText('after', AFTER)
    .enablePositionalOptions()
    .hook('preAction', (_, command) => {
      // what every command takes may also stand before its name
      for (const [key, value] of Object.entries(program.opts()))
        if (command.getOptionValue(key) === undefined) command.setOptionValue(key, value);
      io = terminalOf(hands, command.opts());
    })
    .allowExcessArguments()
    .action(async () => {
      const [word] = program.args;
      if (word !== undefined) throw await unknownCommand(word, program);
      io.out(ALONE);
    });
  const add = (name: string, description: string, example?: string): Command => {
    const command = prepared(program.command(name).description(description)).allowExcessArguments(false);
    if (name.includes('<scenario>'))
      command.option('--known <folder>', 'part files of identified motors: labels and rules are off as theirs are');
    return example === undefined ? command : command.addHelpText('before', `Example\n  npx shaftwork ${example}\n`);
  };

  add('init [folder]', 'a commented scenario to start from, with a part file and the schema', 'init my-boat --for boat')
    .option('--for <vehicle>', 'boat, aircraft or car')
    .action(async (folder: string | undefined, options) => exit(await (await import('./commands/init.js')).init(io, folder, options)));
  add(
    'check <scenario>',
    'is the file right, what is odd about the sheets, which numbers cost most, what is assumed',
    'check my-boat/boat.yaml --verbose',
  )
    .option('--json', 'print problems, or audit, costly numbers and assumptions, as one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/check.js')).check(io, scenario, options)));
  add('point <scenario>', 'the steady operating point of every candidate', "point my-boat/boat.yaml --throttle '70 %'")
    .option('--throttle <q>', "throttle, '70 %'; '0 to 100 %' for a range")
    .option('--vehicle-speed <q>', "speed of the vehicle, '3 m/s'; beside another it is a condition")
    .option('--shaft-speed <q>', "speed of the motor’s shaft, '9000 rpm'")
    .option('--motor-current <q>', "motor current, '20 A'")
    .option('--battery-power <q>', "power from the pack, '150 W'")
    .option('--battery-current <q>', "current from the pack, '15 A'")
    .option('--thrust <q>', "thrust, '12 N'")
    .option('--json', 'print one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/point.js')).point(io, scenario, options)));
  add(
    'run <scenario>',
    'all candidates over the profile: verdict, ranking, temperatures, margins, energy, run time',
    'run my-boat/boat.yaml --html report.html',
  )
    .option('--html <file>', 'write the report as one HTML file')
    .option('--json', 'print the result as one JSON document')
    .option('--csv <file>', 'write every channel over time, units in the heads')
    .option('--markdown <file>', 'write the list for a build log, as Markdown')
    .option('--text <file>', 'the same as plain text')
    .option('--png <file>', 'write one picture: the verdict and the figure that decides')
    .option('--svg <folder>', 'write each figure as an SVG file')
    .option('--date <date>', 'date to print in the report')
    .option('--samples <n>', 'how often to draw the tolerances for bands and chances; 0 for none, 64 unless said')
    .option('--seed <n>', 'seed of the draws, 1 unless said')
    .option('--measured <log>', 'a log of the run, to be laid over what is predicted')
    .option('--measured-on <name>', 'the candidate that was measured; the leader unless said')
    .action(async (scenario: string, options) => exit(await (await import('./commands/run.js')).run(io, scenario, options)));
  add('rate <scenario>', 'what each candidate may do for ever, for seconds, and in bursts', 'rate my-boat/boat.yaml')
    .option('--charge <q>', 'charge at which the pack is held, 50 % unless said')
    .option('--cycle <q>', 'time of one cycle of the intermittent ratings, 10 min unless said')
    .option('--json', 'print one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/rate.js')).rate(io, scenario, options)));
  add('cool <scenario>', 'the smallest cooling that makes a failing candidate pass', 'cool my-boat/boat.yaml')
    .option('--chance <q>', 'chance to keep every temperature limit, 90 % unless said')
    .option('--json', 'print one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/cool.js')).cool(io, scenario, options)));
  add(
    'reading <scenario>',
    'from a thermometer after the stop back to the hidden peak',
    "reading my-boat/boat.yaml --can '28 °C' --after '60 s'",
  )
    .option('--can <q>', 'what the can read')
    .option('--end <q>', 'what the fixed end read')
    .option('--controller <q>', 'what the controller read')
    .option('--cells <q>', 'what the pack read')
    .option('--beside-coils <q>', 'what a probe beside the coils read')
    .option('--in-slot <q>', 'what a bead between the wires of a slot read')
    .option('--emissivity <q>', 'of the surface, where an infrared thermometer set to 95 % was aimed at it')
    .option('--after <q>', 'time from the stop to the reading')
    .option('--candidate <name>', 'one candidate; all unless said')
    .option('--samples <n>', 'how often to draw the tolerances, 64 unless said')
    .option('--json', 'print one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/reading.js')).reading(io, scenario, options)));
  add(
    'identify [logs...]',
    'constants of a motor, its heat or a pack from bench logs, with intervals, as part files',
    'identify scenarios/logs/motor-sweep.csv --html report.html',
  )
    .option('--heat <scenario>', 'a warming and cooling run of a motor that this scenario describes')
    .option('--pack <scenario>', 'a discharge of the pack that this scenario describes')
    .option('--before <logs...>', 'logs of an earlier bench, to tell what has changed since')
    .option('--after <logs...>', 'logs of the later one')
    .option('--plan <scenario>', 'the six runs of a bench day that tell most of what this scenario must decide')
    .option('--thermometer <place>', 'of the plan: in-slot unless said; on-can, on-end or beside-coils')
    .option('--candidate <name>', 'whose motor or pack it was; the first unless said')
    .option('--poles <n>', 'magnet poles of the motor, 14 unless said')
    .option('--electrical-rpm', 'the speed in the file is the electrical one')
    .option('--sinusoidal', 'the controller drives all three phases with sinusoidal current')
    .option('--full-throttle', 'every row is at full throttle')
    .option('--bare <logs...>', 'further logs, of the bare shaft without a propeller')
    .option('--winding <q>', 'temperature of the winding on the bench, 40 °C unless said or read')
    .option('--column <key=head...>', "which column is what, 'voltage=Vbat [V]'")
    .option('--pulse <pulse=duty...>', "what a pulse stands for, '1100 us = 0 %' '1900 us = 100 %'")
    .option('--part <n>', 'which part of a file whose clock began again')
    .option('--from <q>', 'time in the file to begin at')
    .option('--to <q>', 'time in the file to end at')
    .option('--write <folder>', 'write the part files into a folder')
    .option('--html <file>', 'write data, fit and residuals as one HTML page')
    .option('--svg <folder>', 'write each figure as an SVG file')
    .option('--date <date>', 'date to print in the page')
    .option('--json', 'print one JSON document')
    .action(async (logs: string[], options) => exit(await (await import('./commands/identify.js')).identify(io, logs, options)));
  add('explain [words...]', 'what a problem, a finding or a word of the report means, and what to do', 'explain motor constant')
    .option('--json', 'print one JSON document')
    .action(async (words: string[], options) => exit(await (await import('./commands/explain.js')).explain(io, words, options)));
  add(
    'why <scenario>',
    'why one candidate runs hotter or lasts longer: the difference split over what differs',
    'why my-boat/boat.yaml --between Second First',
  )
    .option('--between <names...>', 'the two to compare; the runner-up and the leader unless said')
    .option('--json', 'print one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/why.js')).why(io, scenario, options)));
  add(
    'reshape <scenario>',
    'long or wide: motors of one mass and Kv along diameter : length, scaled from one candidate',
    'reshape my-boat/boat.yaml --candidate First',
  )
    .option('--candidate <name>', 'the motor to scale from; the leader of the ranking unless said')
    .option('--json', 'print one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/reshape.js')).reshape(io, scenario, options)));
  add('rewind <scenario>', 'which winding of a frame: the Kv that best serves the objective under the limits', 'rewind my-boat/boat.yaml')
    .option('--candidate <name>', 'one candidate; all unless said')
    .option('--json', 'print one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/rewind.js')).rewind(io, scenario, options)));
  add('schema', 'the JSON Schema of a scenario, for editors', 'schema > scenario.schema.json')
    .option('--part', 'that of a part file instead')
    .action(async (options) => exit(await (await import('./commands/schema.js')).schema(io, options)));
  return program;
}

async function unknownCommand(word: string, program: Command): Promise<InputFault> {
  const { nearestWord } = await import('@shaftwork/sim-core/scenario');
  const nearest = nearestWord(
    word,
    program.commands.map((command) => command.name()),
  );
  const meant = nearest === undefined ? '' : `; did you mean ${nearest}?`;
  return new InputFault(`There is no command ${word}${meant}\nAll commands: npx shaftwork --help`);
}
