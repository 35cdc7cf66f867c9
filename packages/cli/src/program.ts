/** The words of the command line and what they call. Only commands that do something are registered. */
import { Command } from 'commander';
import type { Io } from './io.js';

const EXAMPLES = `
Examples
  shaftwork run scenarios/survey-boat.yaml
  shaftwork run my-boat.yaml --html report.html
  shaftwork check my-boat.yaml
  shaftwork point my-boat.yaml --throttle '70 %' --vehicle-speed '3 m/s'
  shaftwork schema > scenario.schema.json
`;

export function createProgram(io: Io, exit: (code: number) => void): Command {
  const program = new Command('shaftwork');
  program
    .description('Simulates the electric drive of a model boat, aircraft or car before the parts are bought.')
    .version('0.1.0', '--version', 'print the version')
    .helpOption('--help', 'print this help')
    .configureOutput({ writeOut: (text) => io.out(text), writeErr: (text) => io.err(text) })
    .exitOverride()
    .addHelpText('after', EXAMPLES)
    .action(() => {
      io.out('shaftwork simulates the electric drive of a model boat, aircraft or car before the parts are bought:\n');
      io.out('what the motor meets, how hot it gets and when, and which of several motors serves best.\n');
      io.out(EXAMPLES);
      io.out('\nAll commands: shaftwork --help\n');
    });
  const add = (name: string, description: string): Command =>
    program
      .command(name)
      .description(description)
      .helpOption('--help', 'print this help')
      .configureOutput({ writeOut: (text) => io.out(text), writeErr: (text) => io.err(text) })
      .exitOverride();

  add('run <scenario>', 'all candidates over the profile: verdict, ranking, temperatures, margins, energy, run time')
    .option('--html <file>', 'write the report as one HTML file')
    .option('--json', 'print the result as one JSON document')
    .option('--date <date>', 'date to print in the report')
    .option('--force', 'replace a file that is not ours')
    .option('--quiet', 'print nothing but what was asked for')
    .option('--strict', 'end with code 1 on any finding')
    .option('--samples <n>', 'how often to draw the tolerances for bands and chances; 0 for none, 64 unless said')
    .option('--seed <n>', 'seed of the draws, 1 unless said')
    .action(async (scenario: string, options) => exit(await (await import('./commands/run.js')).run(io, scenario, options)));
  add('check <scenario>', 'is the file right, and what is assumed')
    .option('--json', 'print problems or assumptions as one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/check.js')).check(io, scenario, options)));
  add('point <scenario>', 'the steady operating point of every candidate')
    .option('--throttle <q>', "throttle, '70 %'")
    .option('--vehicle-speed <q>', "speed of the vehicle, '3 m/s'; beside a throttle it is a condition")
    .option('--shaft-speed <q>', "motor speed, '9000 rpm'")
    .option('--motor-current <q>', "motor current, '20 A'")
    .option('--json', 'print one JSON document')
    .action(async (scenario: string, options) => exit(await (await import('./commands/point.js')).point(io, scenario, options)));
  add('schema', 'the JSON Schema of a scenario, for editors')
    .option('--part', 'that of a part file instead')
    .action(async (options) => exit(await (await import('./commands/schema.js')).schema(io, options)));
  return program;
}
