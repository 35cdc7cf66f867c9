import type { ScenarioProblem } from '@shaftwork/sim-core/problems';
import type { GivenDrive, GivenScenario } from '@shaftwork/sim-core/provenance/given';
import { readScenario } from '@shaftwork/sim-core/scenario';

/** A right scenario, for tests to change in one place. */
export const SMALLEST = `title: Will this motor stay cool?
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 3 min, throttle: 80 % }]
candidates:
  - name: "27-32"
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`;

/** The text with one piece replaced; a piece that is not there would test nothing. */
export function changed(piece: string, by: string, text = SMALLEST): string {
  if (!text.includes(piece)) throw new Error(`${piece} is not in the text`);
  return text.replace(piece, by);
}

type Parts = Readonly<Record<string, string | null>>;
const MAIN = 'boat.yaml';

export function scenarioOf(text: string, parts: Parts = {}): GivenScenario {
  const reading = readScenario(new Map([[MAIN, text], ...Object.entries(parts)]), MAIN);
  if (reading.kind !== 'read') throw new Error(JSON.stringify(reading, null, 1));
  return reading.scenario;
}

export const driveOf = (text: string, parts: Parts = {}, index = 0): GivenDrive => scenarioOf(text, parts).candidates[index]!.given;

export function problemsOf(text: string, parts: Parts = {}): readonly ScenarioProblem[] {
  const reading = readScenario(new Map([[MAIN, text], ...Object.entries(parts)]), MAIN);
  if (reading.kind !== 'problems') throw new Error(`read without a problem: ${JSON.stringify(reading)}`);
  return reading.problems;
}
