/**
 * Cooling as it is bought or made: each remedy in a list of sizes that grow, each size as data of a scenario and as the line to write there.
 * A size that does not fit the space given is left out.
 *
 * @module
 */

import type { DriveSystem } from '../drive/drive-system.js';
import type { HeatLimitId } from '../drive/heat-limits.js';
import type { Datum } from '../provenance/datum.js';
import type { GivenCooling, GivenDrive } from '../provenance/given.js';
import { writtenDatum } from '../provenance/written.js';
import { type Dimension, fromUnit } from '../quantities/index.js';
import type { Fitting, Remedy } from '../results/cool-result.js';

export interface SizedFitting extends Fitting {
  readonly apply: (given: GivenDrive) => GivenDrive;
}

/** What each remedy can keep within its limits. */
export const REACHES: Readonly<Record<Remedy, readonly HeatLimitId[]>> = {
  'heat-sink': ['windingTemperature', 'magnetTemperature'],
  air: ['windingTemperature', 'magnetTemperature'],
  water: ['windingTemperature', 'magnetTemperature'],
  controller: ['controllerTemperature'],
  cells: ['cellTemperature'],
};

const FIN_HEIGHTS = [4, 6, 8, 10, 15, 20];
const AIR_SPEEDS = [1, 2, 3, 4, 6, 8, 10, 15, 20, 30];
const TUBE_BORES = [2, 3, 4, 5];
const TURNS = [3, 6, 10];
const JACKET_FACTORS = [1.25, 1.5, 2, 3, 4];
const TO_AIR = [0.1, 0.15, 0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 5, 8];
/** Fins 1 mm thick, 3 mm apart, as extruded and as milled. */
const FIN_PITCH = 4;

/** What is written is known by its place: each key of a remedy is in a file of its own. */
const place = (path: string) => ({ file: `a remedy’s ${path}`, line: 1, column: 1, path });
/** A datum as if written in the scenario, with the interval of its kind. */
const written = <D extends Dimension>(path: string, dimension: D, value: number, unit: Parameters<typeof fromUnit<D>>[1]): Datum<D> =>
  writtenDatum(path, dimension, fromUnit<D>(value, unit), undefined, place(path));

const cooled = (given: GivenDrive, more: Partial<GivenCooling>): GivenDrive => ({
  ...given,
  cooling: { ...(given.cooling ?? { place: place('cooling') }), ...more },
});

const millimetres = (metres: number): number => Math.round(metres * 1000);

/** Sizes of `remedy` for one candidate, smallest first; or why it is of no use. */
export function sizesOf(remedy: Remedy, given: GivenDrive, system: DriveSystem): readonly SizedFitting[] | string {
  const { heat, motor, vehicle } = system;
  const outrunner = heat.layout === 'outrunner';
  const covers = outrunner ? 'mount' : 'can';
  const on = outrunner ? ', covers: mount' : '';
  switch (remedy) {
    case 'heat-sink': {
      if (heat.sink !== undefined) return 'there is a heat sink already: enlarge that one in the scenario and run again';
      if (heat.sideArea === 0 && !outrunner) return 'the given way from can to air is the whole one; drop it to have fins calculated';
      const [length, breadth] = outrunner ? [40, 40] : [millimetres(motor.canLength), millimetres(Math.PI * motor.canDiameter)];
      const fins = Math.max(2, Math.floor(breadth / FIN_PITCH));
      return FIN_HEIGHTS.map((height) => ({
        remedy,
        words: `${outrunner ? 'a heat sink on the mount' : 'a ring of fins round the can'}, ${fins} fins ${height} mm high`,
        entry: `cooling: { heat_sink: { fins: ${fins}, fin_height: ${height} mm, fin_thickness: 1 mm, length: ${length} mm, breadth: ${breadth} mm${outrunner ? on : ', coverage: 90 %'} } }`,
        apply: (drive) =>
          cooled(drive, {
            heatSink: {
              place: place('cooling.heat_sink'),
              fins,
              finHeight: written('cooling.heat_sink.fin_height', 'length', height, 'mm'),
              finThickness: written('cooling.heat_sink.fin_thickness', 'length', 1, 'mm'),
              length: written('cooling.heat_sink.length', 'length', length, 'mm'),
              breadth: written('cooling.heat_sink.breadth', 'length', breadth, 'mm'),
              ...(outrunner ? {} : { coverage: written('cooling.heat_sink.coverage', 'fraction', 90, '%') }),
              covers,
            },
          }),
      }));
    }
    case 'air': {
      if (heat.sideArea === 0 && heat.throughFlow === 0 && heat.sink === undefined && heat.mount === undefined)
        return 'the given ways to the air do not change with it; drop them to have the air calculated';
      return AIR_SPEEDS.filter((speed) => speed > heat.airSpeed).map((speed) => ({
        remedy,
        words: `air past the motor at ${speed} m/s besides what it has from the vehicle`,
        entry: `cooling: { air: { speed: ${speed} m/s } }`,
        apply: (drive) => cooled(drive, { air: { ...drive.cooling?.air, speed: written('cooling.air.speed', 'speed', speed, 'm/s') } }),
      }));
    }
    case 'water': {
      const jacket = given.cooling?.waterJacket;
      if (jacket?.conductance !== undefined) {
        const now = jacket.conductance.value;
        return JACKET_FACTORS.map((factor) => {
          const conductance = Number((now * factor).toPrecision(2));
          return {
            remedy,
            words: `a water jacket of ${conductance} W/K in place of ${Number(now.toPrecision(3))} W/K`,
            entry: `cooling: { water_jacket: { conductance: ${conductance} W/K } }`,
            apply: (drive) =>
              cooled(drive, {
                waterJacket: { ...jacket, conductance: written('cooling.water_jacket.conductance', 'conductance', conductance, 'W/K') },
              }),
          };
        });
      }
      if (vehicle.carriedBy !== 'water') return 'there is no water to cool with';
      if (heat.coil !== undefined) return 'there is a water coil already: lengthen that one in the scenario and run again';
      if (given.ambient?.water === undefined) return 'the temperature of the water is not known: write ambient: { water: 15 °C }';
      return TUBE_BORES.flatMap((bore) =>
        TURNS.filter((turns) => turns * (bore + 2) <= millimetres(motor.canLength)).map((turns) => {
          const length = Math.round(turns * Math.PI * motor.canDiameter * 100);
          return {
            remedy,
            words: `${turns} turns of tube of ${bore} mm bore, fed by a scoop`,
            entry: `cooling: { water_coil: { bore: ${bore} mm, length: ${length} cm${on} } }`,
            apply: (drive: GivenDrive) =>
              cooled(drive, {
                waterCoil: {
                  place: place('cooling.water_coil'),
                  bore: written('cooling.water_coil.bore', 'length', bore, 'mm'),
                  length: written('cooling.water_coil.length', 'length', length, 'cm'),
                  covers,
                },
              }),
            size: bore * turns,
          };
        }),
      ).sort((a, b) => a.size - b.size);
    }
    case 'controller':
      return TO_AIR.filter((each) => each > 1.1 * heat.controllerToAir).map((conductance) => ({
        remedy,
        words: `a controller that gives ${conductance} W/K to the air, ${times(conductance / heat.controllerToAir)} as much as now`,
        entry: `controller: { thermal: { to_air: ${conductance} W/K } }`,
        apply: (drive) => ({
          ...drive,
          controller: {
            ...(drive.controller ?? { place: place('controller') }),
            thermal: {
              ...drive.controller?.thermal,
              toAir: written('controller.thermal.to_air', 'conductance', conductance, 'W/K'),
            },
          },
        }),
      }));
    case 'cells':
      return TO_AIR.filter((each) => each > 1.1 * heat.cellsToAir).map((conductance) => ({
        remedy,
        words: `a pack that gives ${conductance} W/K to the air, ${times(conductance / heat.cellsToAir)} as much as now`,
        entry: `battery: { thermal: { to_air: ${conductance} W/K } }`,
        apply: (drive) => ({
          ...drive,
          battery: {
            ...(drive.battery ?? { place: place('battery') }),
            thermal: { ...drive.battery?.thermal, toAir: written('battery.thermal.to_air', 'conductance', conductance, 'W/K') },
          },
        }),
      }));
  }
}

const times = (factor: number): string => `${Number(factor.toPrecision(2))} times`;
