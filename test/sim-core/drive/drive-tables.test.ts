/** The short lists and sums of drive/: what starts how warm, what breaks when, what power is what, what an acceleration moves. */
import { damageTemperatures } from '@shaftwork/sim-core/drive/damage';
import { effectiveMass } from '@shaftwork/sim-core/drive/effective-mass';
import { byHeatLimit, HEAT_LIMIT_BODY, HEAT_LIMITS, isHeatLimit } from '@shaftwork/sim-core/drive/heat-limits';
import { controllerLossIn, emptyPowerFlows, POWER_TERM_IDS, POWER_TERMS } from '@shaftwork/sim-core/drive/power-terms';
import { startTemperature } from '@shaftwork/sim-core/drive/start-temperature';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { expect, it } from 'vitest';
import { demo } from '../../demo.js';

const car = realise(demo('grass-car').candidates[0].data);
const boat = realise(demo('survey-boat').candidates[0].data);

it('the motor’s bodies start with one temperature, controller and cells with their own', () => {
  const start = { charge: 1, motorTemperature: 310, controllerTemperature: 320, cellTemperature: 330 };
  expect(BODIES.map((body) => startTemperature(start, body))).toEqual([310, 310, 310, 310, 320, 330]);
});

it('enamel, magnets, solder and cells are destroyed where their sources say, but not below a limit, and not where nobody watches', () => {
  // IEC 60317-13 cut-through 320 °C; Coey, Curie point of Nd₂Fe₁₄B 585 K; SAC305 melts at 217 °C (all from memory); cells 250 °C common practice
  const unlimited = { ...car.limits, windingTemperature: 400, magnetTemperature: 350, controllerTemperature: 380, cellTemperature: 330 };
  expect(damageTemperatures(unlimited)).toEqual({
    windingTemperature: 320 + 273.15,
    magnetTemperature: 585,
    controllerTemperature: 217 + 273.15,
    cellTemperature: 250 + 273.15,
  });
  const odd = { ...unlimited, windingTemperature: 700, cellTemperature: Number.POSITIVE_INFINITY };
  expect(damageTemperatures(odd).windingTemperature).toBe(700);
  expect(damageTemperatures(odd).cellTemperature).toBe(Number.POSITIVE_INFINITY);
});

it('each temperature limit watches the body it is named after', () => {
  expect(HEAT_LIMITS.map((id) => [id, HEAT_LIMIT_BODY[id]])).toEqual([
    ['windingTemperature', 'winding'],
    ['magnetTemperature', 'magnets'],
    ['controllerTemperature', 'controller'],
    ['cellTemperature', 'cells'],
  ]);
  expect(isHeatLimit('cellTemperature')).toBe(true);
  expect(isHeatLimit('cellVoltage')).toBe(false);
  expect(byHeatLimit((id, k) => `${k} ${id}`).controllerTemperature).toBe('2 controllerTemperature');
});

it('only the cells give; the sources, losses, stores and uses of power are each said in words of their own', () => {
  const of = (kind: string) => POWER_TERM_IDS.filter((id) => POWER_TERMS[id].kind === kind);
  expect(of('source')).toEqual(['batteryChemical']);
  expect(of('store')).toEqual(['polarisationStored', 'shaftStored']);
  expect(of('use')).toEqual(['otherLoads', 'useful']);
  expect(of('loss')).toHaveLength(10);
  expect(new Set(POWER_TERM_IDS.map((id) => POWER_TERMS[id].words)).size).toBe(15);
  for (const id of POWER_TERM_IDS) expect(POWER_TERMS[id].words.length).toBeGreaterThan(3);
  // what wires, gear and propeller lose, and what is stored or used, warms no body of the network
  expect(POWER_TERM_IDS.filter((id) => POWER_TERMS[id].heats)).toEqual([
    'batteryLoss',
    'controllerIdle',
    'controllerConduction',
    'controllerSwitching',
    'copperLoss',
    'ironLoss',
    'frictionLoss',
  ]);
});

it('a fresh account is no number anywhere; a controller’s loss is the sum of its three', () => {
  const flows = emptyPowerFlows();
  expect(Object.keys(flows)).toEqual([...POWER_TERM_IDS]);
  for (const each of Object.values(flows)) expect(each).toBeNaN();
  expect(controllerLossIn({ ...flows, controllerIdle: 1, controllerConduction: 20, controllerSwitching: 300 })).toBe(321);
});

it('a vehicle carries its water and, on wheels, what turns with it: (J_w + J_r·G²)/r² for each drive', () => {
  const { load, vehicle, motor, gearbox } = car;
  if (load.kind !== 'wheel') throw new Error('the car has wheels');
  const wheeled = { ...car, drives: 2, vehicle: { ...vehicle, mass: 3, addedMass: 0.1 }, gearbox: { ...gearbox, ratio: 5 } };
  const turning = (load.inertia + motor.rotorInertia * 25) / load.radius ** 2;
  expect(effectiveMass(wheeled)).toBeCloseTo(3.3 + 2 * turning, 12);
  expect(effectiveMass({ ...boat, drives: 2, vehicle: { ...boat.vehicle, mass: 3, addedMass: 0.1 } })).toBeCloseTo(3.3, 12);
});
