/**
 * Whole drives against a drive written a second time (test/twin; other code, other solvers, an integrator of even steps): every demo, every starter,
 * and drives that between them have every key of the schema. @module
 */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import type { ProfileStep } from '@shaftwork/sim-core/drive/profile';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { tableFromPolynomial } from '@shaftwork/sim-core/parts/propeller/polynomial-table';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { DEMOS, demoOrStarter, STARTERS } from '../demo.js';
import { DRIVES, type Drive } from '../properties/key-drives.js';
import { plainDrive } from '../twin/plain-drive.js';
import type { Point } from './outside/check.js';

/** Bodies [K] and charge [1] at every step's end. */
export interface ByTwin {
  readonly bodies: readonly Point[];
  readonly charge: readonly Point[];
}

/** The twin's steps [s]: what gathers speed asks for shorter ones. */
const STEP = { 'survey-boat': 1, 'burst-glider': 1, 'hot-day-mapper': 4, 'grass-car': 0.1, boat: 0.3, aircraft: 1, car: 0.1 } as const;

function beside(
  what: string,
  system: DriveSystem,
  profile: readonly ProfileStep[],
  longest: number,
  polynomial?: Parameters<typeof plainDrive>[3],
): ByTwin {
  let time = 0;
  const ends = profile.map((step) => (time += step.duration));
  const { kept, kernel, end } = simulate(system, profile, { relative: 1e-8, record: false, keepAt: Float64Array.from(ends) });
  if (end !== 'finished') throw new Error(`${what} ended as ${end}`);
  const rows = plainDrive(system, profile, longest, polynomial).slice(1);
  const at = (k: number): string => `${what}, ${ends[k].toFixed(0)} s`;
  return {
    bodies: rows.flatMap((row, k) =>
      BODIES.map((body, place) => ({ at: `${body} of ${at(k)}`, theirs: row[place], ours: kept[k][kernel.at[body]] })),
    ),
    charge: rows.map((row, k) => ({ at: at(k), theirs: row[6], ours: kept[k][kernel.at.charge] })),
  };
}
const together = (all: readonly ByTwin[]): ByTwin => ({
  bodies: all.flatMap(({ bodies }) => bodies),
  charge: all.flatMap(({ charge }) => charge),
});

export const demosByTwin = (): ByTwin =>
  together(
    [...DEMOS, ...STARTERS].flatMap((name) => {
      const { candidates, scenario } = demoOrStarter(name);
      return candidates.map((each) => beside(`${name}, ${each.name}`, realise(each.data), scenario.profile, STEP[name]));
    }),
  );

/** So much longer is each step of a drive, that every way for heat has its time. */
const LONGER = 5;
function driven(name: string, drive: Drive) {
  // the twin's shaft follows at once
  const whole: Drive = { candidates: [{ name: 'A' }], ...drive };
  const { solver: _, ...quasi } = whole;
  const read = prepareScenario(new Map([['s.yaml', JSON.stringify({ title: name, ...quasi })]]), 's.yaml');
  if (read.kind !== 'ready') throw new Error(JSON.stringify(read));
  const { candidates, scenario } = read.prepared;
  const profile = scenario.profile.map((step) => ({ ...step, duration: LONGER * step.duration }));
  return { candidates: candidates.map((each) => ({ name: `${name}, ${each.name}`, system: realise(each.data) })), profile };
}

export const everyKeyByTwin = (): ByTwin =>
  together(
    Object.entries(DRIVES).flatMap(([name, drive]) => {
      const { candidates, profile } = driven(name, drive);
      const longest = 'wheel' in drive ? 0.02 : 'vehicle' in drive ? 0.3 : 1;
      return candidates.map((each) => beside(each.name, each.system, profile, longest));
    }),
  );

/** A screw whose coefficients are polynomials, which the twin works out as such. */
export function screwFromPolynomials(): ByTwin {
  const fit = { thrust: [0.5, -0.25, -0.15], power: [0.45, -0.2, -0.11] };
  const { candidates, profile } = driven('boat', DRIVES.boat);
  return together(
    candidates.map(({ name, system: { load, ...rest } }) => {
      if (load.kind === 'wheel') throw new Error('a boat has a screw');
      return beside(name, { ...rest, load: { ...load, table: tableFromPolynomial(fit) } }, profile, 0.3, fit);
    }),
  );
}
