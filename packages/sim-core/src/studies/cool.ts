/** The smallest cooling that makes a failing candidate pass on its profile: each remedy alone, by halving on the real run; or none, and why. */
import type { DriveSystem } from '../drive/drive-system.js';
import type { ProfileStep } from '../drive/profile.js';
import type { FittedSink, HeatPaths } from '../heat/heat-paths.js';
import type { CoolingAnswer, CoolResult, Remedy } from '../results/cool-result.js';
import type { HeatLimitId } from '../results/rating-result.js';
import { HEAT_LIMITS } from './held-drive.js';
import { type Simulation, simulate } from './simulate.js';

/** Most that is tried: a gale through the nose, a sink as large as the model, a jacket no pump feeds [m/s, m², W/K]. */
const MOST: Readonly<Record<Remedy, number>> = {
  'air-speed': 40,
  'sink-area': 0.1,
  'jacket-conductance': 50,
  'controller-conductance': 20,
  'cell-conductance': 50,
};
/** The answer is found to this share of itself. */
const CLOSE = 0.01;
/** Fins of the sink that is sized: their surface on one side each, and the space beside [m]. */
const FIN = { height: 0.01, thickness: 0.001, spacing: 0.003, length: 0.04 };
/** Conductivity of aluminium alloys [W/(m·K)]; handbook value. */
const ALUMINIUM = 200;

/** A sink with `area` [m²] of fins on a joint with paste, 3000 W/(m²·K) under its base (common practice, no published source). */
export function sizedSink(area: number, covers: FittedSink['covers']): FittedSink {
  const { height, thickness, spacing, length } = FIN;
  // at least two fins: below that area their length shrinks
  const wanted = area / (2 * length * height);
  const fins = Math.max(2, Math.ceil(wanted));
  const fitted = (length * wanted) / fins;
  const breadth = fins * thickness + (fins - 1) * spacing;
  return {
    fins: { fins, finHeight: height, finThickness: thickness, length: fitted, breadth, conductivity: ALUMINIUM },
    contact: 3000 * fitted * breadth,
    covers,
  };
}

/** The system with `amount` of a remedy added to what it has. */
export function withRemedy(system: DriveSystem, remedy: Remedy, amount: number): DriveSystem {
  const { heat } = system;
  const cooled = (change: Partial<HeatPaths>): DriveSystem => ({ ...system, heat: { ...heat, ...change } });
  const outrunner = heat.layout === 'outrunner';
  switch (remedy) {
    case 'air-speed':
      return cooled({ airSpeed: heat.airSpeed + amount });
    case 'sink-area':
      return cooled({ sink: sizedSink(amount, outrunner ? 'mount' : 'can') });
    case 'jacket-conductance':
      // the conductance wanted at every speed: how a pump or a scoop brings it about is another question
      return heat.jacket === undefined
        ? cooled({ jacket: { conductance: amount, speed: 1, restShare: 1 }, jacketCovers: outrunner ? 'mount' : 'can' })
        : cooled({ jacket: { ...heat.jacket, conductance: heat.jacket.conductance + amount } });
    case 'controller-conductance':
      return cooled({ controllerToAir: heat.controllerToAir + amount });
    case 'cell-conductance':
      return cooled({ cellsToAir: heat.cellsToAir + amount });
  }
}

const CHANNEL = {
  windingTemperature: 'windingTemperature',
  magnetTemperature: 'magnetTemperature',
  controllerTemperature: 'controllerTemperature',
  cellTemperature: 'cellTemperature',
} as const;

const boundOf = (system: DriveSystem, limit: HeatLimitId): number => system.limits[limit];
const peaksOf = (run: Simulation): Record<HeatLimitId, number> =>
  Object.fromEntries(HEAT_LIMITS.map((id) => [id, run.highest[CHANNEL[id]].value])) as Record<HeatLimitId, number>;

/** What a remedy could change among the limits. */
function touches(system: DriveSystem, remedy: Remedy, failing: readonly HeatLimitId[]): string | undefined {
  const motor = failing.some((id) => id === 'windingTemperature' || id === 'magnetTemperature');
  const has = (id: HeatLimitId): boolean => failing.includes(id);
  const { heat, vehicle } = system;
  if (remedy === 'controller-conductance') return has('controllerTemperature') ? undefined : 'the controller stays within its limit';
  if (remedy === 'cell-conductance') return has('cellTemperature') ? undefined : 'the cells stay within their limit';
  if (!motor) return 'the motor stays within its limits';
  if (remedy === 'jacket-conductance' && vehicle.carriedBy !== 'water' && heat.jacket === undefined)
    return 'there is no water to cool with';
  if (remedy === 'sink-area' && heat.sink !== undefined)
    return 'there is a heat sink already: enlarge that one in the scenario and run again';
  if (remedy === 'air-speed' && heat.sideArea + heat.endArea === 0 && heat.throughFlow === 0)
    return 'the given can_to_air does not change with the air; drop it to have it reckoned';
  return undefined;
}

/** All remedies for one candidate on its profile. */
export function cool(name: string, system: DriveSystem, profile: readonly ProfileStep[]): CoolResult {
  const run = (changed: DriveSystem): Simulation => simulate(changed, profile, { method: 'dormand-prince', relative: 1e-5, record: false });
  const plain = run(system);
  const peaks = peaksOf(plain);
  const failing = HEAT_LIMITS.filter((id) => peaks[id] > boundOf(system, id));
  const others: string[] = [];
  if (plain.end === 'cut-off') others.push('the cells reach their cut-off');
  if (plain.end === 'empty') others.push('the pack is empty before the end');
  if (plain.end === 'failed') others.push('there is no operating point');
  const made = {
    motorCurrent: 'motor current',
    inputPower: 'input power',
    shaftSpeed: 'motor speed',
    batteryCurrent: 'battery current',
  } as const;
  for (const [event, words] of Object.entries(made))
    if (plain.passed.has(event as keyof typeof made)) others.push(`${words} passes its limit`);
  const answer = (remedy: Remedy): CoolingAnswer => {
    if (failing.length === 0) return { kind: 'not-needed' };
    const useless = touches(system, remedy, failing);
    if (useless !== undefined) return { kind: 'useless', why: useless };
    // a remedy is asked only for what it can touch: the motor's limits, or the one body's
    const own: readonly HeatLimitId[] =
      remedy === 'controller-conductance'
        ? ['controllerTemperature']
        : remedy === 'cell-conductance'
          ? ['cellTemperature']
          : ['windingTemperature', 'magnetTemperature'];
    const worstOf = (found: Record<HeatLimitId, number>): HeatLimitId =>
      own.reduce((a, b) => (found[b] - boundOf(system, b) > found[a] - boundOf(system, a) ? b : a));
    const tried = (amount: number) => {
      const found = peaksOf(run(withRemedy(system, remedy, amount)));
      const worst = worstOf(found);
      return { found, worst, over: found[worst] - boundOf(system, worst) };
    };
    let high = MOST[remedy];
    let best = tried(high);
    if (best.over > 0)
      return { kind: 'not-enough', tried: high, limit: best.worst, worst: best.found[best.worst], bound: boundOf(system, best.worst) };
    let low = 0;
    // downwards by factors first, since what is needed spans decades
    while (high > MOST[remedy] * 1e-4) {
      const next = high / 4;
      const at = tried(next);
      if (at.over > 0) {
        low = next;
        break;
      }
      high = next;
      best = at;
    }
    while (high - low > CLOSE * high) {
      const middle = 0.5 * (low + high);
      const at = tried(middle);
      if (at.over > 0) low = middle;
      else {
        high = middle;
        best = at;
      }
    }
    return { kind: 'enough', value: high, peaks: best.found };
  };
  const remedies = (Object.keys(MOST) as Remedy[]).map((remedy) => ({ remedy, answer: answer(remedy) }));
  return { name, failing, others, remedies };
}
