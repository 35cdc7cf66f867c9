/** Powers and heats of a solved point: each by its part's law, their sums kept, joined bodies and rates of the state with them; the shaft that turns by its inertia. */
import { airAtMotor } from '@shaftwork/sim-core/drive/air-at-motor';
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { POWER_TERM_IDS, POWER_TERMS } from '@shaftwork/sim-core/drive/power-terms';
import { stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { canEndHeat, canSideHeat } from '@shaftwork/sim-core/heat/can-surface';
import { BODIES } from '@shaftwork/sim-core/heat/heat-paths';
import { HEAT_WAY_IDS, sharers } from '@shaftwork/sim-core/heat/heat-ways';
import { mountHeat } from '@shaftwork/sim-core/heat/mount';
import { ironTorque, lossTorque, windageTorqueAt } from '@shaftwork/sim-core/parts/motor';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';
import { solved } from './point-laws.js';

const plain = (name: string): DriveSystem => realise(demo(name).candidates[0].data);
const [boat, mapper, car] = ['survey-boat', 'hot-day-mapper', 'grass-car'].map(plain);
const even = (x: number) => ({ from: x, to: x });
const throttle = (x: number) => stepOfParts({ duration: 10, hold: 'throttle', value: even(x) });
const warm = { charge: 0.6, polarisation: 0.01, winding: 350, stator: 340, can: 325, magnets: 330, controller: 340, cells: 303 };
const two = (system: DriveSystem): DriveSystem => ({
  ...system,
  drives: 2,
  otherLoads: 9,
  gearbox: { ...system.gearbox, ratio: 1.3 * system.gearbox.ratio, efficiency: 0.93 },
  controller: { ...system.controller, deadTime: 2e-6, diodeDrop: 0.4, rippleInMotor: 0.3, motorCurrentLimit: Infinity },
  motor: { ...system.motor, windageTorque: 2e-9 },
});

const regenerative = (system: DriveSystem): DriveSystem => ({
  ...system,
  controller: { ...system.controller, braking: 'regenerative', diodeDrop: 0 },
});

describe.each([
  ['boat', two(boat), 1.5, 0.7],
  ['boat that a stream drives', regenerative(two(boat)), 8, 0.02],
  ['car that brakes', regenerative(two(car)), 9, 0.3],
  ['aircraft', two(mapper), 14, 0.8],
  ['car', two(car), 5, 0.5],
  ['car on rollers', { ...two(car), vehicle: { ...car.vehicle, carriedBy: 'bench' as const } }, 5, 0.5],
])('%s', (_, system, speed, value) => {
  const stand = (more: Partial<typeof warm> = {}) => {
    const { kernel, y } = solved(system, throttle(value), { ...warm, ...more, speed });
    return { kernel, y, point: kernel.point, at: kernel.at, powers: { ...kernel.powers(y) } };
  };

  it('powers: each by its own law', () => {
    const { point, powers } = stand();
    const { battery, motor, controller, wiring } = system;
    const own = point.packCurrent / 2;
    const flux = point.torqueConstant / motor.torqueConstant;
    const i = point.current;
    expect(powers.batteryChemical).toBeCloseTo(battery.cellsInSeries * point.openCircuit * own, 9);
    expect(powers.wiringLoss).toBeCloseTo(wiring.resistance * own ** 2, 9);
    expect(powers.otherLoads).toBe(4.5);
    expect(powers.controllerIdle).toBeCloseTo(controller.idleCurrent * point.busVoltage, 9);
    expect(powers.copperLoss).toBeCloseTo(point.windingResistance * i ** 2, 9);
    expect(powers.ironLoss).toBeCloseTo(ironTorque(motor, point.speed, flux) * point.speed + 0.3 * point.rippleLoss, 9);
    expect(powers.frictionLoss).toBeCloseTo((motor.frictionTorque + windageTorqueAt(motor, point.speed)) * point.speed, 9);
    expect(powers.shaftStored).toBe(0);
    expect(powers.gearLoss).toBeCloseTo(point.loadTorque * point.speed - point.driverTorque * point.driverSpeed, 9);
    expect(powers.useful).toBeCloseTo(point.force * speed, 9);
    expect(powers.propellerLoss).toBeCloseTo(
      system.load.kind === 'wheel' ? 0 : point.driverTorque * point.driverSpeed - point.force * speed,
      9,
    );
    // each cell: its voltage on the way from open circuit to terminal
    const perCell = point.packCurrent / battery.cellsInParallel;
    const stored = powers.polarisationStored + powers.batteryLoss;
    expect(stored).toBeCloseTo(
      (battery.cellsInSeries * battery.cellsInParallel * perCell * (point.openCircuit - point.cellVoltage)) / 2,
      9,
    );
    expect(powers.batteryLoss).toBeGreaterThan(0);
    expect(POWER_TERM_IDS.reduce((sum, id) => (id === 'batteryChemical' ? sum : sum + powers[id]), 0)).toBeCloseTo(
      powers.batteryChemical,
      8,
    );
  });

  it('heat: what the losses make is stored in the bodies or leaves by a way that is told', () => {
    for (const body of [warm, { ...warm, can: 341, stator: 352 }]) {
      const { kernel, y, point, powers } = stand(body);
      const outlets = { ...kernel.heatOutlets(y) };
      const made = POWER_TERM_IDS.reduce((sum, id) => sum + (POWER_TERMS[id].heats ? 2 * powers[id] : 0), 0);
      const left = HEAT_WAY_IDS.reduce((sum, way) => sum + sharers(way, 1) * (way === 'cells' ? 1 : 2) * outlets[way], 0);
      expect(kernel.heatStored() + left).toBeCloseTo(made, 7);
      expect(outlets.windage).toBeCloseTo(windageTorqueAt(system.motor, point.speed) * point.speed, 12);
      // the can and what stands on the mount by the plain laws, in the wash of the motor's air
      const { heat, load, surroundings } = system;
      const spins = heat.layout === 'outrunner';
      const air = [surroundings.motorAirTemperature, surroundings.airPressure, airAtMotor(heat, load, speed, point.thrust)] as const;
      const spin = spins ? point.speed : 0;
      const given = heat.canToAir * (body.can - air[0]);
      const side = given + canSideHeat(heat, body.can, ...air, spin);
      expect(Math.abs(outlets.canSide - side)).toBeLessThan(1e-6 * Math.abs(side));
      const ends = canEndHeat(heat, body.can, ...air, spin);
      expect(Math.abs(outlets.canEnds - ends)).toBeLessThanOrEqual(1e-6 * Math.abs(ends));
      const mount = mountHeat(heat, spins ? body.stator : body.can, ...air);
      expect(Math.abs(outlets.mount - mount)).toBeLessThanOrEqual(1e-6 * Math.abs(mount));
      expect(side + ends).not.toBe(0);
    }
  });

  it('rates: heat over capacity, charge by the pack’s current, the slow voltage towards R_1·i', () => {
    const { kernel, y, point, at, powers } = stand();
    const dy = new Float64Array(kernel.dimension).fill(7);
    kernel.derivative(0, y, dy);
    const { capacity } = system.heat;
    const stored = BODIES.reduce((sum, body) => sum + (body === 'cells' ? 1 : 2) * dy[at[body]] * capacity[body], 0);
    expect(stored).toBeCloseTo(kernel.heatStored(), 8);
    expect(dy[at.charge]).toBeCloseTo(-point.packCurrent / system.battery.capacity, 15);
    expect(dy[at.speed]).toBe(point.acceleration);
    // ½·(τ/R)·v² grows at what is stored
    const { battery } = system;
    const count = battery.cellsInSeries * battery.cellsInParallel;
    const settles = (dy[at.polarisation] * battery.polarisationTime + 0.01) / (point.packCurrent / battery.cellsInParallel);
    expect(2 * powers.polarisationStored).toBeCloseTo((count * 0.01 * battery.polarisationTime * dy[at.polarisation]) / settles, 9);
  });
});

it('a cell without a slow part stores nothing there, at whatever voltage that stands', () => {
  const quick: DriveSystem = { ...boat, battery: { ...boat.battery, polarisationResistance: 0 } };
  const { kernel, y } = solved(quick, throttle(0.7), { speed: 1, polarisation: 0 });
  const { battery } = quick;
  const perCell = kernel.point.packCurrent / battery.cellsInParallel;
  const ohmic = (kernel.point.openCircuit - kernel.point.cellVoltage) * perCell * battery.cellsInSeries * battery.cellsInParallel;
  const powers = kernel.powers(y);
  expect(powers.polarisationStored).toBe(0);
  expect(powers.batteryLoss).toBeCloseTo(ohmic, 9);
});

describe('bodies that are joined', () => {
  it('share one temperature and the capacity of both', () => {
    const joined: DriveSystem = { ...boat, heat: { ...boat.heat, windingToStator: Infinity, statorToMagnets: Infinity } };
    const { kernel, y } = solved(joined, throttle(0.8), { speed: 1 });
    const dy = new Float64Array(kernel.dimension);
    kernel.derivative(0, y, dy);
    expect(kernel.dimension).toBe(7);
    const { at } = kernel;
    expect([at.stator, at.magnets]).toEqual([at.winding, at.winding]);
    const { winding, stator, magnets, can, controller, cells } = boat.heat.capacity;
    const stored = dy[at.winding] * (winding + stator + magnets) + dy[at.can] * can + dy[at.controller] * controller + dy[at.cells] * cells;
    expect(stored).toBeCloseTo(kernel.heatStored(), 9);
  });
});

describe('a shaft that turns by its inertia', () => {
  const inert = (system: DriveSystem): DriveSystem => ({ ...two(system), shaftSpeed: 'with-inertia' });
  const system = inert(boat);
  const { motor, load, gearbox } = system;
  if (load.kind !== 'propeller') throw new Error('the boat has a screw');
  const efficiency = gearbox.efficiency * load.shaftEfficiency;

  it.each([
    ['speeds up under full throttle', 1, 200],
    ['slows down with the motor off', 0, 700],
    ['slows down braked into the pack', 0.1, 900],
  ])('%s: both sides of the gear by their own moments', (_, value, shaft) => {
    const { kernel, y } = solved(regenerative(system), throttle(value), { speed: 1.5, shaft }, 0, false, true);
    const { point } = kernel;
    const rate = kernel.shaftAcceleration();
    expect(point.speed).toBe(shaft);
    expect(Math.sign(rate)).toBe(value === 1 ? 1 : -1);
    const flux = point.torqueConstant / motor.torqueConstant;
    const before = point.torqueConstant * point.current - lossTorque(motor, shaft, flux) - motor.rotorInertia * rate;
    const behind = point.driverTorque + (load.inertia * rate) / gearbox.ratio;
    expect(point.loadTorque).toBeCloseTo(before, 10);
    expect(before).toBeCloseTo(behind >= 0 ? behind / (gearbox.ratio * efficiency) : (behind * efficiency) / gearbox.ratio, 10);
    const powers = { ...kernel.powers(y) };
    const inertia = motor.rotorInertia + load.inertia / gearbox.ratio ** 2;
    expect(kernel.turningInertia()).toBeCloseTo(inertia, 15);
    expect(powers.shaftStored).toBeCloseTo(inertia * shaft * rate, 8);
    expect(powers.gearLoss).toBeCloseTo((before - behind / gearbox.ratio) * shaft, 8);
    const dy = new Float64Array(kernel.dimension);
    kernel.derivative(0, y, dy);
    expect(dy[kernel.at.shaft]).toBe(rate);
  });

  it('stands at rest as long as friction holds what the motor gives, and says that it stalls', () => {
    const still = solved(system, throttle(0), { shaft: 0 }, 0, false, true).kernel;
    expect([still.shaftAcceleration(), still.point.stalled]).toEqual([0, true]);
    const starts = solved(system, throttle(0.5), { shaft: 0 }, 0, false, true).kernel;
    expect(starts.shaftAcceleration()).toBeGreaterThan(100);
    expect(starts.point.stalled).toBe(false);
    // a trial state below rest is at rest
    expect(solved(system, throttle(0.5), { shaft: -3 }, 0, false, true).kernel.point.speed).toBe(0);
  });

  it('with a current that is held turns by that current', () => {
    const step = stepOfParts({ duration: 10, hold: 'motorCurrent', value: even(7) });
    const { point } = solved(system, step, { shaft: 300, speed: 1 }, 0, false, true).kernel;
    expect([point.current, point.speed]).toEqual([7, 300]);
  });

  it('follows its balance at once until it is let turn freely, and where there is nothing to turn', () => {
    const bound = solved(system, throttle(0.5), { shaft: 300, speed: 1 }).kernel;
    expect(bound.point.speed).not.toBe(300);
    const massless: DriveSystem = { ...system, motor: { ...motor, rotorInertia: 0 }, load: { ...load, inertia: 0 } };
    expect(solved(massless, throttle(0.5), { speed: 1 }).kernel.at.shaft).toBe(-1);
  });
});

describe('torque lines', () => {
  it('the torque at a duty and speed is k_t·i − M_loss, limits kept; it ends where the back-EMF meets the bridge', () => {
    const { kernel } = solved(boat, throttle(0.8), { speed: 1 });
    const { point } = kernel;
    const here = { ...point };
    expect(kernel.shaftTorque(0.8, here.speed)).toBeCloseTo(here.loadTorque, 9);
    const flux = here.torqueConstant / boat.motor.torqueConstant;
    const ends = kernel.currentEnds(0.8, 5000);
    expect(kernel.shaftTorque(0.8, ends * 1.0001)).toBeCloseTo(-lossTorque(boat.motor, ends * 1.0001, flux), 9);
    expect(kernel.shaftTorque(0.8, ends * 0.999)).toBeGreaterThan(-lossTorque(boat.motor, ends * 0.999, flux));
    expect(kernel.shaftTorque(0.8, 0)).toBeGreaterThan(here.loadTorque);
    const limited: DriveSystem = { ...boat, controller: { ...boat.controller, motorCurrentLimit: 3 } };
    const held = solved(limited, throttle(0.8), { speed: 1 }).kernel;
    expect(held.shaftTorque(1, 0)).toBeCloseTo(3 * held.point.torqueConstant, 12);
  });
});
