/** Limits that nobody gave are told as assumed, and those that were not checked. */
import { limitNotes } from '@shaftwork/sim-core';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { expect, it } from 'vitest';

const MOTOR =
  'layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm }';
const notes = (motor: string, more = '', others = ''): string => {
  const text = `title: Bench
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: coefficients, diameter: 9 in, table: [{ advance_ratio: 0, thrust: 0.1, power: 0.04 }, { advance_ratio: 1, thrust: 0.01, power: 0.01 }] }
profile: [{ for: 20 s, throttle: 50 % }]
${more}
candidates:
  - { name: One, motor: { ${MOTOR}${motor} } }
${others}`;
  const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (!('prepared' in made)) throw new Error(JSON.stringify(made));
  return limitNotes(runScenario(made.prepared)).join(' ').replaceAll('\u202f', ' ');
};

it('tells each limit that is assumed, and each current without one', () => {
  const said = notes('');
  for (const each of ['winding temperature 130 °C', 'magnet temperature 100 °C', 'controller temperature 95 °C', 'cell temperature 60 °C'])
    expect(said).toContain(each);
  expect(said).toContain('No limit of motor current (maker) or battery current (rating)');
});

it('tells a limit that one must keep and another was not given', () => {
  const said = notes(', maker_limits: { current: 20 A, input_power: 300 W }', '', `  - { name: Two, motor: { ${MOTOR} } }\n`);
  expect(said).toContain('No limit of motor current (maker) of Two, battery current (rating) or input power (maker) of Two was given');
});

it('does not call assumed what was given, or follows from a class, a grade or a label that was', () => {
  const said = notes(', insulation_class: F, magnet_grade: H, maker_limits: { current: 20 A }', 'limits: { controller: 90 °C }');
  for (const each of ['winding', 'magnet', 'controller', 'motor current']) expect(said).not.toContain(each);
  expect(said).toContain('cell temperature 60 °C');
});
