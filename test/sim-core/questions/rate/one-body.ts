/** A motor that is one body with one way out, and no loss but copper's: what it comes to has a closed form. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';

/** Everything of `base` joined, `conductance` [W/K] to air of `air` [K], no surface. */
export const oneBodyOf = (base: DriveSystem, conductance: number, air: number): DriveSystem => ({
  ...base,
  surroundings: { ...base.surroundings, motorAirTemperature: air },
  motor: { ...base.motor, fluxCoefficient: 0, hysteresisTorque: 0, eddyTorque: 0, frictionTorque: 0, windageTorque: 0 },
  heat: {
    ...base.heat,
    windingToStator: Number.POSITIVE_INFINITY,
    statorToCan: Number.POSITIVE_INFINITY,
    statorToMagnets: Number.POSITIVE_INFINITY,
    magnetsToCan: Number.POSITIVE_INFINITY,
    sideArea: 0,
    endArea: 0,
    toMount: conductance,
    mount: undefined,
    jacket: undefined,
    coil: undefined,
    throughFlow: 0,
    statorToAir: undefined,
  },
});
