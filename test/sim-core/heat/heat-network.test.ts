/** The network with fixed losses: conservation, monotonicity, what collapses at the stop, sinks and coils; kernel and plain twin over an outrunner with everything on. */
import {
  fittedCoilConductance,
  heatNetwork,
  sinkConductance,
  surfaceOutlets,
  throughFlowConductance,
} from '@shaftwork/sim-core/heat/heat-network';
import type { FittedSink, HeatPaths, WaterCoil } from '@shaftwork/sim-core/heat/heat-paths';
import { emptyHeatOutlets } from '@shaftwork/sim-core/heat/heat-ways';
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { seededRandom } from '@shaftwork/sim-core/numerics/seeded-random';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { energyMeter } from '@shaftwork/sim-core/questions/simulate/energy-account';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { plainDerivative } from '../../twin/plain-derivative.js';

const { candidates } = demo('survey-boat');
const base = realise(candidates[0].data);
const sink: FittedSink = {
  fins: { fins: 9, finHeight: 0.008, finThickness: 0.001, length: 0.04, breadth: 0.06, conductivity: 200 },
  contact: 5,
  covers: 'mount',
};
const outrunner: HeatPaths = {
  ...base.heat,
  layout: 'outrunner',
  throughFlow: 0.5,
  openness: 0.8,
  toMount: 0.2,
  mount: { area: 0.004, emissivity: 0.7 },
  statorToAir: { conductance: 0.3, shaftSpeed: 700 },
  statorToCan: 0,
  jacket: undefined,
  sink,
  airSpeed: 2,
  slipstreamShare: 0,
};
const surroundings = { motorAirTemperature: 293, airPressure: 1e5, compartmentTemperature: 300, waterTemperature: 285 };

function net(paths: HeatPaths, temperatures: readonly number[], losses: readonly number[], shaftSpeed: number, airSpeed: number) {
  const outlets = emptyHeatOutlets();
  const out = new Float64Array(6);
  const motion = { shaftSpeed, vehicleSpeed: 3, airSpeed };
  surfaceOutlets(paths, surroundings, motion, temperatures, outlets);
  heatNetwork(paths, surroundings, motion, temperatures, losses, out, outlets);
  return { out, outlets };
}

describe('the heat network', () => {
  const losses = [20, 5, 1, 1, 4, 6];
  const warm = [380, 360, 340, 345, 330, 315];

  it('keeps heat: losses less what leaves is what is stored', () => {
    for (const paths of [outrunner, base.heat, { ...base.heat, sink: { ...sink, covers: 'controller' } } as HeatPaths]) {
      const { out, outlets } = net(paths, warm, losses, 600, 2);
      const left = Object.values(outlets).reduce((sum, each) => sum + each, 0);
      expect(out.reduce((sum, each) => sum + each, 0)).toBeCloseTo(losses.reduce((sum, each) => sum + each, 0) - left, 9);
    }
  });

  it('gives off more the faster bell and air move, and collapses at the stop', () => {
    const shed = (speed: number, air: number): number => {
      const { outlets } = net(outrunner, warm, losses, speed, air);
      return outlets.canSide + outlets.canEnds + outlets.throughFlow;
    };
    expect(shed(900, 4)).toBeGreaterThan(shed(600, 4));
    expect(shed(600, 4)).toBeGreaterThan(shed(600, 2));
    expect(shed(600, 4) / shed(0, 0)).toBeGreaterThan(5);
    expect(throughFlowConductance(outrunner, 0, 0)).toBe(0);
  });

  it('cools every body less the warmer any body is: no conductance is negative', () => {
    const random = seededRandom(7, 1);
    const draw = (low: number, high: number): number => low + (high - low) * random.fraction();
    for (let trial = 0; trial < 300; trial++) {
      // every surface warmer than its sink
      const temperatures = [draw(310, 420), draw(310, 400), draw(310, 380), draw(310, 380), draw(310, 370), draw(310, 330)];
      const paths = trial % 2 === 0 ? outrunner : base.heat;
      const before = net(paths, temperatures, losses, draw(0, 1500), draw(0, 10));
      const k = trial % 6;
      const warmer = temperatures.map((each, at) => (at === k ? each + 1 : each));
      const after = net(paths, warmer, losses, 0, 0);
      const same = net(paths, temperatures, losses, 0, 0);
      // its own balance falls, nobody else's does
      expect(after.out[k]).toBeLessThan(same.out[k]);
      for (let other = 0; other < 6; other++) if (other !== k) expect(after.out[other]).toBeGreaterThanOrEqual(same.out[other] - 1e-12);
      expect(before.out.every(Number.isFinite)).toBe(true);
    }
  });

  it('gives a share of turning that is the openness itself', () => {
    const free = { ...outrunner, emissivity: 0, convectionFactor: 1, openness: 1 };
    const side = (openness: number): number =>
      net({ ...free, openness }, [300, 300, 293.0001, 300, 300, 300], losses, 3000, 0).outlets.canSide;
    // spin rules the blend so near to equal temperatures
    expect(side(0.5) / side(1)).toBeCloseTo(0.5, 2);
  });
});

describe('sinks and coils', () => {
  it('a sink is never better than its joint, and better in a stream', () => {
    const still = sinkConductance(sink, 330, 293, 1e5, 0);
    const blown = sinkConductance(sink, 330, 293, 1e5, 8);
    expect(still).toBeGreaterThan(0);
    expect(blown).toBeGreaterThan(still);
    expect(sinkConductance(sink, 330, 293, 1e5, 1e3)).toBeLessThan(5);
    expect(() => sinkConductance({ ...sink, fins: { ...sink.fins, fins: 70 } }, 330, 293, 1e5, 0)).toThrow(/leave no spacing/);
  });

  it('a coil carries nothing at rest and never more than its water can', () => {
    const coil: WaterCoil = { bore: 0.003, length: 0.6, speedShare: 0.25, pumpSpeed: 0, contact: 1e9, water: 'fresh', covers: 'can' };
    expect(fittedCoilConductance(coil, 288, 0)).toBe(0);
    const flow = (speed: number): number => (999 * 0.25 * speed * Math.PI * 0.003 ** 2) / 4;
    for (const speed of [0.5, 2, 5]) {
      const g = fittedCoilConductance(coil, 288, speed);
      expect(g).toBeGreaterThan(0);
      expect(g).toBeLessThan(flow(speed) * 4190);
    }
    expect(fittedCoilConductance({ ...coil, contact: 0.5 }, 288, 3)).toBeLessThan(0.5);
  });
});

it('kernel and plain right-hand side agree with sink, coil, through-flow, derating and dead time on', () => {
  const random = seededRandom(19, 1);
  const draw = (low: number, high: number): number => low + (high - low) * random.fraction();
  const variants: HeatPaths[] = [
    outrunner,
    { ...outrunner, sink: { ...sink, covers: 'controller' } },
    {
      ...base.heat,
      jacket: undefined,
      coil: { bore: 0.003, length: 0.5, speedShare: 0.3, pumpSpeed: 0, contact: 2, water: 'fresh', covers: 'can' },
    },
    { ...base.heat, sink: { ...sink, covers: 'can' } },
  ];
  for (let trial = 0; trial < 400; trial++) {
    const system = {
      ...base,
      heat: variants[trial % variants.length],
      controller: { ...base.controller, deadTime: draw(0, 3e-6), deratingFrom: 400, deratingTo: 420 },
    };
    const kernel = createKernel(system);
    const throttle = draw(0.4, 1);
    const state = {
      winding: draw(300, 420),
      stator: draw(300, 390),
      can: draw(300, 370),
      magnets: draw(300, 370),
      controller: draw(300, 360),
      cells: draw(290, 330),
      charge: draw(0.2, 1),
      polarisation: draw(0, 0.03),
      speed: draw(0.1, 2.5),
    };
    const y = Float64Array.from(Object.values(state));
    const dy = new Float64Array(9);
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: throttle, to: throttle } }, 0, false);
    kernel.derivative(0, y, dy);
    if (!(kernel.point.current > 0)) continue;
    Object.values(plainDerivative(system, throttle, state)).forEach((rate, k) => {
      expect(Math.abs(dy[k] - rate), `${trial} ${k}`).toBeLessThanOrEqual(1e-7 * (Math.abs(rate) + 0.2));
    });
  }
});

it('a run whose network loses heat on a way that is not told is stopped as a fault of the program', () => {
  const kernel = createKernel(base);
  const leaking = { ...kernel, heatOutlets: (y: Float64Array) => ({ ...kernel.heatOutlets(y), water: 0 }) };
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  y.fill(340, 0, 6);
  y[kernel.at.speed] = 3;
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: 0.6, to: 0.6 } }, 0, false);
  const step = { from: 0, to: 1, start: y, end: y, at: (_: number, into: Float64Array) => into.set(y) };
  const account = (each: typeof kernel) => {
    const meter = energyMeter(each, base, Number.POSITIVE_INFINITY);
    meter.add(step);
    return meter.account(y, y);
  };
  expect(Math.abs(account(kernel).heatResidual)).toBeLessThan(1e-12);
  expect(account(kernel).heatLeaves.water).toBeGreaterThan(1);
  expect(() => account(leaking)).toThrow('does not keep its heat');
});
