/**
 * The heat network of one drive: six bodies and the paths between them and their surroundings.
 *
 *   winding – stator – can – air, water or mount; magnets behind the gap (inrunner) or in the turning bell (outrunner);
 *   controller – compartment air; cells – compartment air.
 *
 * An infinite conductance makes two bodies one; an infinite capacity holds a body's temperature.
 * *Sign* heat flow is positive into the body named.
 */
export interface HeatPaths<N = number> {
  /** Heat capacities [J/K]. */
  readonly capacity: {
    readonly winding: N;
    readonly stator: N;
    readonly can: N;
    readonly magnets: N;
    readonly controller: N;
    readonly cells: N;
  };
  /** Conductances between bodies [W/K]. */
  readonly windingToStator: N;
  readonly statorToCan: N;
  readonly statorToMagnets: N;
  readonly magnetsToCan: N;
  /** Conductance of stator and of can to the mount, which stays at air temperature [W/K]. */
  readonly statorToMount: N;
  readonly canToMount: N;
  readonly controllerToAir: N;
  readonly cellsToAir: N;
  /** Air that the turning bell drives through an open motor: conductance of winding and stator to air per shaft speed [W·s/(K·rad)]. */
  readonly throughFlow: N;
  /** The can's outside, side and both ends apart [m²]; diameter and length [m]. */
  readonly sideArea: N;
  readonly endArea: N;
  readonly canDiameter: N;
  readonly canLength: N;
  readonly emissivity: N;
  /** Factor on every convection coefficient of the can, nominally 1 [1]. */
  readonly convectionFactor: N;
  /** Factor on the spin's own share, 1 in free air, less in a closed bay [1]. */
  readonly openness: N;
  /** Air speed at the motor = own + share·vehicle speed + share·velocity in the propeller's slipstream [m/s, 1, 1]. */
  readonly airSpeed: N;
  readonly vehicleSpeedShare: N;
  readonly slipstreamShare: N;
  /** Water jacket: conductance [W/K] at a vehicle speed [m/s], share left at rest [1], and the body it covers. */
  readonly jacket: { readonly conductance: N; readonly speed: N; readonly restShare: N } | undefined;
  readonly jacketCovers: 'can' | 'mount';
  readonly layout: 'inrunner' | 'outrunner';
}

export const BODIES = ['winding', 'stator', 'can', 'magnets', 'controller', 'cells'] as const;
export type Body = (typeof BODIES)[number];
