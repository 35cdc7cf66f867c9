/**
 * Drives without scenarios, for programs that have numbers of their own: `driveFromNumbers` makes a drive, `simulate` drives it over a profile,
 * `createKernel` gives its right-hand side, and every law of the parts, of heat, of air and water stands by itself. All SI. Needs neither the
 * reader of scenarios nor its libraries.
 *
 * @module
 */

export * from './drive/air-at-motor.js';
export * from './drive/battery-limit.js';
export * from './drive/damage.js';
export * from './drive/drive-system.js';
export * from './drive/duty-law.js';
export * from './drive/effective-mass.js';
export * from './drive/electrical-chain.js';
export * from './drive/heat-limits.js';
export * from './drive/motor-heat.js';
export * from './drive/power-terms.js';
export * from './drive/profile.js';
export * from './drive/start-temperature.js';
export { type DriveMade, type DriveNumbers, driveFromNumbers, type Numbers } from './drive-from-numbers.js';
export * from './heat/can-surface.js';
export * from './heat/compartment.js';
export * from './heat/convection.js';
export * from './heat/fins.js';
export * from './heat/heat-network.js';
export * from './heat/heat-paths.js';
export * from './heat/heat-ways.js';
export * from './heat/mount.js';
export * from './heat/nusselt-forced.js';
export * from './heat/nusselt-natural.js';
export * from './heat/nusselt-rotation.js';
export * from './heat/radiation.js';
export * from './heat/thermometer.js';
export * from './heat/tube-flow.js';
export * from './heat/water-jacket.js';
export { createKernel, type Kernel } from './kernel/kernel.js';
export * from './media/air.js';
export * from './media/standard-atmosphere.js';
export * from './media/water.js';
export * from './parts/battery/battery.js';
export * from './parts/battery/open-circuit.js';
export * from './parts/controller.js';
export * from './parts/gearbox.js';
export * from './parts/magnets.js';
export * from './parts/motor.js';
export * from './parts/propeller/blade-element.js';
export * from './parts/propeller/blade-families.js';
export * from './parts/propeller/blade-geometry.js';
export * from './parts/propeller/blade-table.js';
export * from './parts/propeller/cavitation.js';
export * from './parts/propeller/coefficient-lookup.js';
export * from './parts/propeller/coefficient-table.js';
export * from './parts/propeller/fall-with-speed.js';
export * from './parts/propeller/marine-coasting.js';
export * from './parts/propeller/marine-series.js';
export * from './parts/propeller/marine-series-terms.js';
export * from './parts/propeller/measured-points.js';
export * from './parts/propeller/polynomial-table.js';
export * from './parts/propeller/propeller-laws.js';
export * from './parts/propeller/section-polar.js';
export * from './parts/propeller/set-by-rest.js';
export * from './parts/propeller/shape-preserving-slopes.js';
export * from './parts/propeller/table-fan.js';
export * from './parts/vehicle.js';
export * from './parts/wheel.js';
export * from './parts/wiring.js';
export { type SimulateOptions, type Simulation, simulate } from './questions/simulate/simulate.js';
