/** Times a steady point, the reference case beside its straightforward version, and the demo; `--json` prints rows. Timings never fail a test. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { DriveSystem } from '../../packages/sim-core/src/drive/drive-system.js';
import type { ProfileStep } from '../../packages/sim-core/src/drive/profile.js';
import { createKernel } from '../../packages/sim-core/src/kernel/kernel.js';
import { tableFromPolynomial } from '../../packages/sim-core/src/parts/propeller/polynomial-table.js';
import { realise } from '../../packages/sim-core/src/provenance/realise.js';
import { RPM, SECONDS_PER_HOUR, ZERO_CELSIUS } from '../../packages/sim-core/src/quantities/index.js';
import { prepareScenario } from '../../packages/sim-core/src/run-scenario.js';
import { simulate } from '../../packages/sim-core/src/studies/simulate.js';
// @ts-expect-error plain JavaScript, kept as it was given
import { simulate as straightforward } from './reference/straightforward.mjs';

const { Solver } = createRequire(import.meta.url)('odex');

interface Row {
  name: string;
  median: number;
  unit: string;
  ratioToStraightforward?: number;
  evaluations?: number;
  /** Largest error of a temperature [K] and of charge [1] at the end, against a run at 1e-11. */
  error?: number;
  chargeError?: number;
}

const median = (work: () => unknown, repeats: number): number => {
  for (let k = 0; k < Math.min(repeats, 10); k++) work();
  const times: number[] = [];
  for (let k = 0; k < repeats; k++) {
    const from = performance.now();
    work();
    times.push(performance.now() - from);
  }
  return times.sort((a, b) => a - b)[repeats >> 1];
};

const text = readFileSync(new URL('../../scenarios/survey-boat.yaml', import.meta.url), 'utf8');
const preparation = prepareScenario(new Map([['boat.yaml', text]]), 'boat.yaml');
if (!('ok' in preparation) || !preparation.ok) throw new Error('the demo is not ready');
const { candidates, scenario } = preparation.prepared;
const boat = realise(candidates[0].data);

/** The reference case in this model: stator, can and magnets one body, cells held at 25 °C; iron loss here follows the flux, there it does not. */
function reference(): { system: DriveSystem; profile: ProfileStep[] } {
  const { parameters: p, profile } = JSON.parse(readFileSync(new URL('./reference/reference-case.json', import.meta.url), 'utf8'));
  const kt = RPM ** -1 / p.Kv;
  const noLoad = (p.V0 - p.I0 * p.R20) / kt;
  const degrees = ZERO_CELSIUS + p.Ta;
  const load = boat.load as Extract<DriveSystem['load'], { kind: 'propeller' }>;
  const infinite = Number.POSITIVE_INFINITY;
  const system: DriveSystem = {
    ...boat,
    surroundings: { ...boat.surroundings, airTemperature: degrees, compartmentTemperature: degrees, airPressure: 101325 },
    battery: {
      ...boat.battery,
      cellsInSeries: p.Ns,
      cellsInParallel: p.Np,
      capacity: p.Qah * SECONDS_PER_HOUR,
      cellResistance: p.R0,
      polarisationResistance: p.R1,
      polarisationTime: p.R1 * p.C1,
      activation: 0,
    },
    wiring: { resistance: 0 },
    controller: {
      ...boat.controller,
      pathResistance: p.Ron,
      resistanceCoefficient: 0,
      switchingTime: p.tsw,
      pwmFrequency: p.fpwm,
      voltageLoss: 0,
      idleCurrent: p.Iidle,
      motorCurrentLimit: infinite,
    },
    motor: {
      ...boat.motor,
      torqueConstant: kt,
      resistance: p.R20,
      fluxCoefficient: -0.0011,
      hysteresisTorque: 0,
      frictionTorque: (kt * p.I0) / 2,
      eddyTorque: (kt * p.I0) / 2 / noLoad,
      magnetLossShare: 0,
    },
    load: {
      ...load,
      diameter: p.D,
      density: p.rho,
      kinematicViscosity: 1.5e-5,
      wakeFraction: 0,
      thrustDeduction: 0,
      shaftEfficiency: 1,
      table: tableFromPolynomial({ thrust: [p.ct0, p.ct1, p.ct2], power: [p.cp0, p.cp1, p.cp2] }),
    },
    vehicle: { ...boat.vehicle, mass: p.m, addedMass: 0, dragArea: p.CdA, density: p.rho, dragTable: undefined },
    heat: {
      ...boat.heat,
      capacity: { winding: p.Cw, stator: 0, can: p.Cc, magnets: 0, controller: p.Cctl, cells: infinite },
      windingToStator: 1 / p.Rwc,
      statorToCan: infinite,
      statorToMagnets: infinite,
      magnetsToCan: infinite,
      canToMount: 0,
      controllerToAir: 1 / p.Rctl,
      sideArea: p.A,
      endArea: 0,
      canDiameter: p.Dc,
      canLength: p.Dc,
      emissivity: p.eps,
      jacket: undefined,
      vehicleSpeedShare: 1,
      slipstreamShare: p.fwash,
    },
    start: { charge: p.soc0, motorTemperature: degrees, controllerTemperature: degrees, cellTemperature: degrees },
    limits: { ...boat.limits, windingTemperature: ZERO_CELSIUS + p.Twmax, cellVoltage: 0 },
  };
  const steps = profile.map((s: { for_s: number; throttle_from: number; throttle_to: number }) => ({
    duration: s.for_s,
    hold: 'throttle',
    value: { from: s.throttle_from, to: s.throttle_to },
  }));
  return { system, profile: steps };
}

const rows: Row[] = [];
const slow = median(() => straightforward(Solver), 21);
rows.push({
  name: 'reference case, straightforward version',
  median: slow,
  unit: 'ms',
  ratioToStraightforward: 1,
  evaluations: straightforward(Solver).evaluations,
});
const ref = reference();
const tight = simulate(ref.system, ref.profile, { method: 'dormand-prince', relative: 1e-11, record: false });
for (const [method, relative] of [
  ['odex', 1e-4],
  ['dormand-prince', 1e-4],
] as const) {
  const options = { method, relative, record: false } as const;
  const run = simulate(ref.system, ref.profile, options);
  const time = median(() => simulate(ref.system, ref.profile, options), 21);
  rows.push({
    name: `reference case, ${method}`,
    median: time,
    unit: 'ms',
    ratioToStraightforward: slow / time,
    evaluations: run.evaluations,
    error: Math.max(...[0, 1, 2].map((k) => Math.abs(run.state[k] - tight.state[k]))),
    chargeError: Math.abs(run.state[run.state.length - 3] - tight.state[tight.state.length - 3]),
  });
}
const kernel = createKernel();
kernel.load(boat);
const y = new Float64Array(kernel.dimension);
kernel.initial(y);
y[kernel.dimension - 1] = 3;
let turn = 0;
const points = median(() => {
  for (let k = 0; k < 20_000; k++) {
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.7 + 0.001 * (turn++ % 10), to: 0.7 } }, 0, false);
    kernel.solve(0, y);
  }
}, 15);
rows.push({ name: 'steady point, warm, tabulated screw', median: (points / 20_000) * 1000, unit: 'µs' });
for (const [method, record] of [
  ['odex', true],
  ['dormand-prince', false],
] as const) {
  const options = { method, relative: record ? 1e-6 : 1e-4, record };
  const time = median(() => simulate(boat, scenario.profile, options), 9);
  rows.push({
    name: `survey boat, 784 s, ${method}${record ? ', recorded' : ''}`,
    median: time,
    unit: 'ms',
    evaluations: simulate(boat, scenario.profile, options).evaluations,
  });
}
if (process.argv.includes('--json')) process.stdout.write(`${JSON.stringify(rows, null, 2)}\n`);
else
  for (const row of rows)
    process.stdout.write(
      `${row.name.padEnd(45)} ${row.median.toFixed(3).padStart(9)} ${row.unit}${row.ratioToStraightforward ? `  ${row.ratioToStraightforward.toFixed(1)} ×` : ''}${row.error === undefined ? '' : `  error ${row.error.toExponential(1)} K`}\n`,
    );
const published = readFileSync(new URL('./reference/reference-solution.txt', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .at(-1)!
  .split(' ')
  .map(Number);
process.stderr.write(
  `reference case at its end, this model less the reference solution: winding ${(tight.state[0] - ZERO_CELSIUS - published[1]).toFixed(3)} K, can ${(tight.state[1] - ZERO_CELSIUS - published[2]).toFixed(3)} K, charge ${(tight.state[tight.state.length - 3] - published[4]).toExponential(1)}\n`,
);
