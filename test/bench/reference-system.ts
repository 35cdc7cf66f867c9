/** The reference case in this model, and the survey boat it borrows what it does not say from. */
import { readFileSync } from 'node:fs';
import type { DriveSystem } from '../../packages/sim-core/src/drive/drive-system.js';
import type { ProfileStep } from '../../packages/sim-core/src/drive/profile.js';
import { tableFromPolynomial } from '../../packages/sim-core/src/parts/propeller/polynomial-table.js';
import { realise } from '../../packages/sim-core/src/provenance/realise.js';
import { RPM, SECONDS_PER_HOUR, ZERO_CELSIUS } from '../../packages/sim-core/src/quantities/index.js';
import { prepareScenario } from '../../packages/sim-core/src/run-scenario.js';

const text = readFileSync(new URL('../../scenarios/survey-boat.yaml', import.meta.url), 'utf8');
const preparation = prepareScenario(new Map([['boat.yaml', text]]), 'boat.yaml');
if (preparation.kind !== 'ready') throw new Error('the demo is not ready');
export const { candidates, scenario } = preparation.prepared;
export const boat = realise(candidates[0].data);

/** The reference case in this model: stator, can and magnets one body, cells held at 25 °C; iron loss here follows the flux, there it does not. */
export function referenceSystem(): {
  system: DriveSystem;
  profile: ProfileStep[];
  coefficients: { thrust: number[]; power: number[] };
} {
  const { parameters: p, profile } = JSON.parse(readFileSync(new URL('./reference/reference-case.json', import.meta.url), 'utf8'));
  const kt = RPM ** -1 / p.Kv;
  const noLoad = (p.V0 - p.I0 * p.R20) / kt;
  const degrees = ZERO_CELSIUS + p.Ta;
  const load = boat.load as Extract<DriveSystem['load'], { kind: 'propeller' }>;
  const infinite = Number.POSITIVE_INFINITY;
  const coefficients = { thrust: [p.ct0, p.ct1, p.ct2], power: [p.cp0, p.cp1, p.cp2] };
  const system: DriveSystem = {
    ...boat,
    surroundings: {
      ...boat.surroundings,
      airTemperature: degrees,
      motorAirTemperature: degrees,
      compartmentTemperature: degrees,
      airPressure: 101325,
    },
    battery: {
      ...boat.battery,
      cellsInSeries: p.Ns,
      cellsInParallel: p.Np,
      capacity: p.Qah * SECONDS_PER_HOUR,
      cellResistance: p.R0,
      polarisationResistance: p.R1,
      polarisationTime: p.R1 * p.C1,
      activation: 0,
      activatedShare: 0,
      emptyRise: 0,
      surfaceLag: 0,
    },
    wiring: { resistance: 0 },
    controller: {
      ...boat.controller,
      pathResistance: p.Ron,
      resistanceCoefficient: 0,
      switchingTime: p.tsw,
      pwmFrequency: p.fpwm,
      rippleConstant: 0,
      deadTime: 0,
      idleCurrent: p.Iidle,
      motorCurrentLimit: infinite,
    },
    motor: {
      ...boat.motor,
      torqueConstant: kt,
      resistance: p.R20,
      inductance: 0,
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
      table: tableFromPolynomial(coefficients),
    },
    vehicle: { ...boat.vehicle, mass: p.m, addedMass: 0, dragArea: p.CdA, density: p.rho, dragTable: undefined },
    heat: {
      ...boat.heat,
      capacity: { winding: p.Cw, stator: 0, can: p.Cc, magnets: 0, controller: p.Cctl, cells: infinite },
      windingToStator: 1 / p.Rwc,
      statorToCan: infinite,
      statorToMagnets: infinite,
      magnetsToCan: infinite,
      toMount: 0,
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
  return { system, profile: steps, coefficients };
}
