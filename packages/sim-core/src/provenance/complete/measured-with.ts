/** Whose motor turned a propeller whose torque was read as a current. @module */

import type { ScenarioProblem } from '../../problems/index.js';
import type { GivenDrive, GivenReading, GivenReadings } from '../given.js';

interface Named {
  readonly name: string;
  readonly given: GivenDrive;
}

/** Whether torque is to be read off a current. */
export const readsCurrent = (point: GivenReadings['points'][number]): boolean =>
  point.batteryCurrent !== undefined && point.torque === undefined && point.shaftPower === undefined;

type Points = GivenReadings['points'];

/** From here on a throttle counts as full [1]. */
const FULL = 0.99;

/** The reading that says most of the motor: of those at full throttle the one with the greatest current. */
function readingIn(points: Points): GivenReading | undefined {
  const full = points.flatMap(({ voltage, batteryCurrent, shaftSpeed, throttle }): GivenReading[] =>
    voltage === undefined || batteryCurrent === undefined || (throttle?.value ?? 1) < FULL
      ? []
      : [{ voltage, current: batteryCurrent, shaftSpeed }],
  );
  return full.length === 0 ? undefined : full.reduce((a, b) => (b.current.value > a.current.value ? b : a));
}

function withReading(given: GivenDrive, points: Points): GivenDrive {
  const reading = readingIn(points);
  return reading === undefined || given.motor === undefined ? given : { ...given, motor: { ...given.motor, reading } };
}

/**
 * Every candidate with the drive that its propeller was measured with, and its motor with the reading that was taken of it. One motor alone,
 * or the same for all, needs no name.
 */
export function withBenches(candidates: readonly Named[]): {
  readonly candidates: readonly Named[];
  readonly problems: readonly ScenarioProblem[];
} {
  const problems: ScenarioProblem[] = [];
  const turnedBy = ({ motor, gearbox }: GivenDrive): string => [motor?.place, gearbox?.place].map((place) => JSON.stringify(place)).join();
  const oneMotor = new Set(candidates.map(({ given }) => turnedBy(given))).size < 2;
  const found = candidates.map((candidate) => {
    const { propeller } = candidate.given;
    if (propeller === undefined || !('points' in propeller) || propeller.points === undefined) return candidate;
    const { measuredWith: name, points } = propeller;
    const bench = name === undefined && oneMotor ? candidate.given : candidates.find((each) => each.name === name)?.given;
    const reads = points.some(readsCurrent);
    if (bench !== undefined) {
      const own = turnedBy(bench) === turnedBy(candidate.given) ? withReading(candidate.given, points) : candidate.given;
      return { ...candidate, given: reads ? { ...own, propeller: { ...propeller, bench: withReading(bench, points) } } : own };
    }
    if (reads)
      problems.push({
        kind: name === undefined ? 'missing-datum' : 'unknown-choice',
        place: { ...propeller.place, path: `${propeller.place.path}.measured_with` },
        expected: 'the name of the candidate whose motor turned it when the current was read',
        found: name === undefined ? 'nothing, where the candidates have different motors' : `"${name}"`,
        hint: `one of ${candidates.map((each) => each.name).join(', ')}; with any other motor give torque or shaft_power`,
      });
    return candidate;
  });
  return { candidates: found, problems };
}
