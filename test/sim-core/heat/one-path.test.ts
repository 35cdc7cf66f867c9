/** The heat network with one path at a time: its heat leaves the body that it should, by the way that it should, as large as conductance times difference. */

import { compartmentConvection, compartmentFactor } from '@shaftwork/sim-core/heat/compartment';
import { blendCoefficients, finChannelCoefficient, plateCoefficient } from '@shaftwork/sim-core/heat/convection';
import { heatSinkConductance } from '@shaftwork/sim-core/heat/fins';
import {
  compartmentAir,
  fittedCoilConductance,
  givenFlowConductance,
  heatNetwork,
  sinkConductance,
  surfaceOutlets,
  throughFlowConductance,
} from '@shaftwork/sim-core/heat/heat-network';
import type { FittedSink, HeatPaths, WaterCoil } from '@shaftwork/sim-core/heat/heat-paths';
import { emptyHeatOutlets, type HeatWay } from '@shaftwork/sim-core/heat/heat-ways';
import { coilConductance, jacketConductance } from '@shaftwork/sim-core/heat/water-jacket';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const { heat } = realise(demo('survey-boat').candidates[0].data);
const bare: HeatPaths = {
  ...heat,
  layout: 'outrunner',
  windingToStator: 0,
  statorToCan: 0,
  statorToMagnets: 0,
  magnetsToCan: 0,
  toMount: 0,
  mount: undefined,
  canToAir: 0,
  controllerToAir: 0,
  cellsToAir: 0,
  throughFlow: 0,
  statorToAir: undefined,
  sideArea: 0,
  endArea: 0,
  jacket: undefined,
  coil: undefined,
  sink: undefined,
  strap: undefined,
  openness: 1,
  canDiameter: 0.04,
};
const inrunner: HeatPaths = { ...bare, layout: 'inrunner' };
const [winding, stator, can, magnets, controller, cells] = [400, 380, 350, 340, 330, 310];
const surroundings = { motorAirTemperature: 300, airPressure: 9e4, compartmentTemperature: 305, waterTemperature: 285 };
const motion = { shaftSpeed: 500, vehicleSpeed: 3, airSpeed: 4 };

function flows(paths: HeatPaths, losses = [0, 0, 0, 0, 0, 0]) {
  const outlets = emptyHeatOutlets();
  const net = new Float64Array(6);
  const temperatures = [winding, stator, can, magnets, controller, cells];
  surfaceOutlets(paths, surroundings, motion, temperatures, outlets);
  heatNetwork(paths, surroundings, motion, temperatures, losses, net, outlets);
  return { outlets, net: [...net] };
}
const close = (values: readonly number[]) => values.map((each) => expect.closeTo(each, 9));
/** Heat [W] leaves the body by the way, and nothing else happens. */
function leaves(paths: HeatPaths, body: number, way: HeatWay, watts: number): void {
  const { net, outlets } = flows(paths);
  expect(net).toEqual(close([0, 1, 2, 3, 4, 5].map((k) => (k === body ? -watts : 0))));
  for (const [each, leaving] of Object.entries(outlets)) expect(leaving, each).toBeCloseTo(each === way ? watts : 0, 9);
}

it('with no path at all each body keeps its loss', () => expect(flows(bare, [1, 2, 3, 4, 5, 6]).net).toEqual([1, 2, 3, 4, 5, 6]));

describe('between bodies', () => {
  it.each([
    ['windingToStator', 0, 1, 20],
    ['statorToCan', 1, 2, 30],
    ['statorToMagnets', 1, 3, 40],
    ['magnetsToCan', 3, 2, -10],
  ] as const)('%s', (path, from, to, difference) => {
    const expected = [0, 0, 0, 0, 0, 0];
    expected[from] = -0.7 * difference;
    expected[to] = 0.7 * difference;
    expect(flows({ ...bare, [path]: 0.7 }).net).toEqual(close(expected));
    // bodies that are one exchange nothing
    expect(flows({ ...bare, [path]: Number.POSITIVE_INFINITY }).net).toEqual([0, 0, 0, 0, 0, 0].map((each) => expect.closeTo(each, 12)));
  });
});

describe('to the air', () => {
  it('from controller and cells to their compartment, as its air and pressure make it', () => {
    const still = compartmentConvection(9e4, 0.2 + 0.1 * 3);
    const air = { compartmentAirSpeed: 0.2, compartmentSpeedShare: 0.1 };
    expect(compartmentAir(air, 3)).toBeCloseTo(0.5, 12);
    leaves({ ...bare, ...air, controllerToAir: 0.4, controllerConvection: 0.6 }, 4, 'controller', 0.4 * compartmentFactor(0.6, still) * 25);
    leaves({ ...bare, ...air, cellsToAir: 0.9, cellsConvection: 0.5 }, 5, 'cells', 0.9 * compartmentFactor(0.5, still) * 5);
  });

  it('through an open motor, half from the winding and half from the stator: G₁₀·openness·(ω·D/2 + v)/10', () => {
    expect(throughFlowConductance({ throughFlow: 0.5, openness: 0.8, canDiameter: 0.04 }, 500, 4)).toBeCloseTo(0.5 * 0.8 * 1.4, 12);
    expect(throughFlowConductance({ throughFlow: 0.5, openness: -0.1, canDiameter: 0.04 }, 500, 4)).toBe(0);
    const { net, outlets } = flows({ ...bare, throughFlow: 0.5 });
    expect(net).toEqual(close([-0.35 * 100, -0.35 * 80, 0, 0, 0, 0]));
    expect(outlets.throughFlow).toBeCloseTo(0.35 * 180, 9);
  });

  it('a given one all from the stator, by the speed it is given at, or at every speed', () => {
    // 14 m/s here over 0.02 m × 700 rad/s there
    leaves({ ...bare, statorToAir: { conductance: 0.3, shaftSpeed: 700 } }, 1, 'throughFlow', 0.3 * 80);
    leaves({ ...bare, statorToAir: { conductance: 0.3, shaftSpeed: 350 } }, 1, 'throughFlow', 0.6 * 80);
    leaves({ ...bare, statorToAir: { conductance: 0.3, shaftSpeed: 0 } }, 1, 'throughFlow', 0.3 * 80);
    expect(givenFlowConductance({ statorToAir: undefined, canDiameter: 0.04 }, 500, 4)).toBe(0);
  });

  it('by a given way from the can, or a joint with the mount', () => {
    leaves({ ...bare, canToAir: 0.6 }, 2, 'canSide', 30);
    leaves({ ...bare, toMount: 0.5 }, 1, 'mount', 40);
    leaves({ ...inrunner, toMount: 0.5 }, 2, 'mount', 25);
  });
});

describe('to the water', () => {
  const jacket = { conductance: 1.5, speed: 2, restShare: 0.1 };
  const carried = jacketConductance(1.5, 2, 3, 0.1);
  const coil: Omit<WaterCoil, 'covers'> = { bore: 0.003, length: 0.6, speedShare: 0.25, pumpSpeed: 0.4, contact: 2, water: 'fresh' };
  const coiled = 1 / (1 / 2 + 1 / coilConductance('fresh', 285, 0.4 + 0.25 * 3, 0.003, 0.6));

  it('by a jacket or coil from what it covers; an inrunner’s mount is its can', () => {
    leaves({ ...bare, coil: undefined, jacket: { ...jacket, covers: 'can' } } as HeatPaths, 2, 'water', carried * 65);
    leaves({ ...bare, coil: undefined, jacket: { ...jacket, covers: 'mount' } } as HeatPaths, 1, 'water', carried * 95);
    leaves({ ...inrunner, coil: undefined, jacket: { ...jacket, covers: 'mount' } } as HeatPaths, 2, 'water', carried * 65);
    leaves({ ...bare, jacket: undefined, coil: { ...coil, covers: 'can' } } as HeatPaths, 2, 'water', coiled * 65);
    leaves({ ...bare, jacket: undefined, coil: { ...coil, covers: 'mount' } } as HeatPaths, 1, 'water', coiled * 95);
    expect(fittedCoilConductance({ ...coil, covers: 'can' }, 285, 3)).toBeCloseTo(coiled, 12);
  });

  it('by a strap', () => {
    leaves({ ...bare, strap: { conductance: 0.4, covers: 'can' } }, 2, 'strap', 26);
    leaves({ ...bare, strap: { conductance: 0.4, covers: 'mount' } }, 1, 'strap', 38);
    leaves({ ...inrunner, strap: { conductance: 0.4, covers: 'mount' } }, 2, 'strap', 26);
  });
});

describe('by a heat sink', () => {
  const sink: Omit<FittedSink, 'covers'> = {
    fins: { fins: 9, finHeight: 0.008, finThickness: 0.001, length: 0.04, breadth: 0.06, conductivity: 200 },
    contact: 5,
  };
  const conductance = (base: number, air: number, speed: number): number => {
    // spacing (60 − 9)/8 mm; the channel and a plate along the fins by the cube rule
    const still = finChannelCoefficient(base, air, 9e4, 0.051 / 8, 0.04);
    const stream = speed === 0 ? 0 : plateCoefficient(air, air, 9e4, 0.04, speed);
    return 1 / (1 / 5 + 1 / heatSinkConductance(sink.fins, blendCoefficients(still, stream)));
  };

  it('from what it covers, to the air round that', () => {
    leaves({ ...bare, sink: { ...sink, covers: 'can' } }, 2, 'sink', conductance(350, 300, 4) * 50);
    leaves({ ...bare, sink: { ...sink, covers: 'mount' } }, 1, 'sink', conductance(380, 300, 4) * 80);
    leaves({ ...inrunner, sink: { ...sink, covers: 'mount' } }, 2, 'sink', conductance(350, 300, 4) * 50);
    leaves({ ...bare, sink: { ...sink, covers: 'controller' } }, 4, 'sink', conductance(330, 305, 4) * 25);
    expect(sinkConductance({ ...sink, covers: 'can' }, 350, 300, 9e4, 0)).toBeCloseTo(conductance(350, 300, 0), 12);
  });

  it('is no number where the laws of the air end', () => {
    const outlets = emptyHeatOutlets();
    for (const wild of [181, 1000]) {
      heatNetwork(
        { ...bare, sink: { ...sink, covers: 'can' } },
        surroundings,
        motion,
        [300, 300, wild, 300, 300, 300],
        [0, 0, 0, 0, 0, 0],
        new Float64Array(6),
        outlets,
      );
      expect(outlets.sink).toBeNaN();
    }
  });
});
