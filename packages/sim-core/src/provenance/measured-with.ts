/** Whose motor turned a propeller whose torque was read as a current. */
import type { ScenarioProblem } from '../problems/index.js';
import type { GivenDrive, GivenMeasuredPoints } from './given.js';

interface Named {
  readonly name: string;
  readonly given: GivenDrive;
}

/** Whether torque is to be read off a current. */
export const readsCurrent = (point: GivenMeasuredPoints['points'][number]): boolean =>
  point.batteryCurrent !== undefined && point.torque === undefined && point.shaftPower === undefined;

/** Every candidate with the drive that its propeller was measured with. One motor alone, or the same for all, needs no name. */
export function withBenches(candidates: readonly Named[]): {
  readonly candidates: readonly Named[];
  readonly problems: readonly ScenarioProblem[];
} {
  const problems: ScenarioProblem[] = [];
  const turnedBy = ({ given }: Named): string => [given.motor?.place, given.gearbox?.place].map((place) => JSON.stringify(place)).join();
  const oneMotor = new Set(candidates.map(turnedBy)).size < 2;
  const found = candidates.map((candidate) => {
    const { propeller } = candidate.given;
    if (propeller?.kind !== 'measured-points' || !propeller.points.some(readsCurrent)) return candidate;
    const { measuredWith: name } = propeller;
    const bench = name === undefined && oneMotor ? candidate.given : candidates.find((each) => each.name === name)?.given;
    if (bench === undefined) {
      problems.push({
        kind: name === undefined ? 'missing-datum' : 'unknown-choice',
        place: { ...propeller.place, path: `${propeller.place.path}.measured_with` },
        expected: 'the name of the candidate whose motor turned it when the current was read',
        found: name === undefined ? 'nothing, where the candidates have different motors' : `"${name}"`,
        hint: `one of ${candidates.map((each) => each.name).join(', ')}; with any other motor give torque or shaft_power`,
      });
      return candidate;
    }
    return { ...candidate, given: { ...candidate.given, propeller: { ...propeller, bench } } };
  });
  return { candidates: found, problems };
}
