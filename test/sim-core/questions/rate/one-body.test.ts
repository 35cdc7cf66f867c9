/** A motor's equilibria: what one body of one way out holds by hand, and that nothing is left over in the whole network. */
import { airAtMotor } from '@shaftwork/sim-core/drive/air-at-motor';
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { motorHeat } from '@shaftwork/sim-core/drive/motor-heat';
import { heatNetwork, surfaceOutlets } from '@shaftwork/sim-core/heat/heat-network';
import { emptyHeatOutlets } from '@shaftwork/sim-core/heat/heat-ways';
import { fluxRatio, lossTorque, windingResistance } from '@shaftwork/sim-core/parts/motor';
import { emptyPropellerPoint, evaluatePropeller } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { continuousTorque, motorEquilibria, runawayTorque } from '@shaftwork/sim-core/questions/rate/continuous-torque';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, INRUNNER, TABLE_SCREW } from '../../provenance/drives.js';
import { oneBodyOf } from './one-body.js';

const base = realise(dataOf({ propeller: TABLE_SCREW }));
const AIR = 293.15;
const G = 0.9;
const one = oneBodyOf(base, G, AIR);
const limited = (windingTemperature: number, magnetTemperature: number): DriveSystem => ({
  ...one,
  limits: { ...one.limits, windingTemperature, magnetTemperature },
});
const { resistance, resistanceCoefficient: alpha, torqueConstant } = one.motor;
/** The current that keeps it `theta` above the air for ever. */
const currentOf = (theta: number): number => Math.sqrt((G * theta) / (resistance * (1 + alpha * theta)));

describe('a current that lasts', () => {
  it('keeps the body at the limit that comes first, by hand, at any speed', () => {
    const byWinding = continuousTorque(limited(AIR + 80, AIR + 120), 0, [0, 300, 600]);
    const byMagnets = continuousTorque(limited(AIR + 120, AIR + 60), 0, [0, 300]);
    expect(byWinding.binding).toEqual(new Array(3).fill('windingTemperature'));
    expect(byMagnets.binding).toEqual(['magnetTemperature', 'magnetTemperature']);
    for (const current of byWinding.current) expect(current / currentOf(80)).toBeCloseTo(1, 3);
    for (const current of byMagnets.current) expect(current / currentOf(60)).toBeCloseTo(1, 3);
    for (const [k, torque] of byWinding.torque.entries()) expect(torque).toBeCloseTo(torqueConstant * byWinding.current[k], 9);
  });
  it('is none where the air is hotter than the limit, and has its losses taken off where it turns', () => {
    expect(continuousTorque(limited(AIR - 1, AIR + 50), 0, [100])).toEqual({ torque: [0], current: [0], binding: ['windingTemperature'] });
    expect(continuousTorque(limited(AIR + 50, AIR - 1), 0, [100])).toEqual({ torque: [0], current: [0], binding: ['magnetTemperature'] });
    const dragged = { ...limited(AIR + 80, AIR + 200), motor: { ...one.motor, frictionTorque: 1e-3 } };
    const { torque, current } = continuousTorque(dragged, 0, [0, 400]);
    expect(torque[0]).toBeCloseTo(torqueConstant * current[0], 9);
    expect(torque[1]).toBeCloseTo(torqueConstant * current[1] - 1e-3, 9);
    // friction warms it as well: 0.4 W of the 72 W that leave
    expect(current[1] / currentOf(80)).toBeLessThan(1);
  });
});

describe('an equilibrium', () => {
  it.each([
    ['in its slipstream', base, 4],
    ['of an inrunner in a boat', realise(dataOf(boat({ motor: INRUNNER }))), 3],
  ] as const)('%s leaves no heat over in any body', (_, system, vehicleSpeed) => {
    const { heat, motor, load, gearbox, surroundings } = system;
    for (const [speed, ask] of [
      [500, { current: 6 }],
      [0, { current: 4 }],
      [500, { torque: 0.04 }],
    ] as const) {
      const found = motorEquilibria(system, vehicleSpeed).at(speed, ask) ?? expect.fail();
      const flux = fluxRatio(motor, found.temperature[3]);
      const current = 'current' in ask ? ask.current : (ask.torque + lossTorque(motor, speed, flux)) / (motor.torqueConstant * flux);
      expect(found.current).toBeCloseTo(current, 9);
      let thrust = 0;
      if (load.kind === 'propeller') {
        const point = emptyPropellerPoint();
        evaluatePropeller(load, load, speed / gearbox.ratio, vehicleSpeed * (1 - load.wakeFraction), point);
        thrust = point.thrust;
      }
      const motion = { shaftSpeed: speed, vehicleSpeed, airSpeed: airAtMotor(heat, load, vehicleSpeed, thrust) };
      const [loss, net, outlets] = [new Float64Array(6), new Float64Array(6), emptyHeatOutlets()];
      motorHeat(motor, heat.layout, speed, flux, current * current * windingResistance(motor, found.temperature[0]), 0, loss);
      surfaceOutlets(heat, surroundings, motion, found.temperature, outlets);
      heatNetwork(heat, surroundings, motion, found.temperature, loss, net, outlets);
      const joined = [heat.windingToStator, heat.statorToCan, heat.statorToMagnets, heat.magnetsToCan].includes(Number.POSITIVE_INFINITY);
      const left = Array.from(net.subarray(0, 4));
      // bodies that are one body balance together
      if (joined) expect(left.reduce((sum, each) => sum + each, 0)).toBeCloseTo(0, 4);
      else for (const each of left) expect(each).toBeCloseTo(0, 4);
      expect(found.temperature[0]).toBeGreaterThan(surroundings.motorAirTemperature + 0.5);
    }
  });
  it('lies below the air where water is colder, and more torque than none lasts there', () => {
    const jacket = { water_jacket: { conductance: '4 W/K', at_speed: '3 m/s' }, air: { from: 'compartment' } };
    const cold = realise(dataOf(boat({ ambient: { water: '4 °C', compartment: '60 °C' }, cooling: jacket })));
    const idle = motorEquilibria(cold, 3).at(0, { current: 0 }, true) ?? expect.fail();
    expect(idle.temperature[0]).toBeLessThan(cold.surroundings.motorAirTemperature - 20);
    expect(idle.temperature[0]).toBeGreaterThan(cold.surroundings.waterTemperature);
    // it heats again, to be as warm as that air, at some 10 A
    const { current } = runawayTorque(cold, 3, 0);
    const warm = motorEquilibria(cold, 3).at(0, { current: 0.9 * current }, true);
    expect(current).toBeGreaterThan(10);
    expect(warm?.temperature[0]).toBeGreaterThan(cold.surroundings.motorAirTemperature);
  });
  it('is none for more current than any temperature balances', () => {
    expect(motorEquilibria(one, 0).at(100, { current: 1.01 * Math.sqrt(G / (alpha * resistance)) }, true)).toBeUndefined();
    const cool = motorEquilibria(one, 0).at(100, { current: currentOf(100) }, true);
    expect((cool?.temperature[0] ?? 0) - AIR).toBeCloseTo(100, 2);
  });
});
