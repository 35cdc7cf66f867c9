/** The battery current limit beyond the greatest power of a weak pack, where more current from the pack is less current of the motor. */
import { createKernel } from '@shaftwork/sim-core/kernel/kernel';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { expect, it } from 'vitest';
import { demo } from '../../demo.js';

const system = realise(demo('burst-glider').candidates[0].data);

/** Full throttle at rest with a pack whose short circuit is `short` times the limit. */
function flatOut(limit: number, short: number, more: Partial<typeof system.controller> = {}, controllerTemperature?: number) {
  const { battery, controller } = system;
  const { cellsInSeries, cellsInParallel } = battery;
  const volts = cellsInSeries * 4;
  const weak = { ...battery, cellResistance: (volts / (short * limit) / cellsInSeries) * cellsInParallel };
  const kernel = createKernel({
    ...system,
    battery: weak,
    controller: { ...controller, batteryCurrentLimit: limit, motorCurrentLimit: 1e6, ...more },
  });
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  if (controllerTemperature !== undefined) y[kernel.at.controller] = controllerTemperature;
  kernel.begin({ duration: 10, hold: 'shaftSpeed', value: { from: 0, to: 0 } }, 0, false);
  kernel.solve(0, y);
  return kernel.point;
}

// a pack gives its greatest power at half of its short-circuit current (Jacobi's theorem of maximum power transfer)
it.each([1.2, 1.6, 1.95, 2.05, 3, 10])('is what flows where the pack’s short circuit is %s times as much', (short) => {
  const limit = 20;
  const point = flatOut(limit, short);
  expect(point.packCurrent).toBeLessThanOrEqual(limit * (1 + 1e-9));
  expect(point.packCurrent).toBeGreaterThan(limit * (1 - 1e-6));
  expect(point.overloaded).toBe(false);
});

// nothing switches, idles or runs beside: v = E·R_t/(R_b + R_t) at full throttle, and i·v·d = R_t·i² at the limit
it.each([1.2, 1.6, 1.95, 2.05, 3, 10])(
  'tells what full throttle would draw, as a motor current, at a short circuit of %s times the limit',
  (short) => {
    const limit = 20;
    const point = flatOut(limit, short, {
      idleCurrent: 0,
      switchingTime: 0,
      rippleConstant: 0,
      diodeDrop: 0,
      deadTime: 0,
      deadTimeDrop: 0,
    });
    const emf = system.battery.cellsInSeries * point.openCircuit;
    const inPack = (emf - point.busVoltage) / limit;
    const inMotor = point.windingResistance + point.pathResistance;
    const bus = (emf * inMotor) / (inPack + inMotor);
    const held = Math.sqrt((limit * point.busVoltage) / inMotor);
    const free = bus / inMotor;
    // a motor that takes the pack beyond its greatest power draws more than the limit even where its own current is less
    const asked = bus < 0.5 * emf ? Math.max(free, (held * point.busVoltage) / bus) : free;
    if (free > held || bus < 0.5 * emf) expect(point.current / held).toBeCloseTo(1, 6);
    expect(point.currentUnlimited / asked).toBeCloseTo(1, 6);
  },
);

it('with its controller too hot to give any current, nothing flows and what would is told', () => {
  for (const batteryCurrentLimit of [20, Number.POSITIVE_INFINITY]) {
    const point = flatOut(20, 3, { batteryCurrentLimit, deratingFrom: 350, deratingTo: 370 }, 375);
    expect([point.current, point.limit]).toEqual([0, 0]);
    expect(point.currentUnlimited).toBeGreaterThan(0);
  }
});

// one motor current flows at a small duty and a high voltage, and at a larger duty under which the ripple has pulled the voltage down
it.each([0.5, 0.8, 1])('is not passed at throttle %s by the ripple of a motor of next to no inductance', (throttle) => {
  const limit = 100;
  const kernel = createKernel({
    ...system,
    battery: { ...system.battery, cellsInSeries: 1, cellsInParallel: 1, cellResistance: 1.6e-4 },
    wiring: { resistance: 5e-3 },
    motor: { ...system.motor, resistance: 2e-5, torqueConstant: 1.4e-3, inductance: 1e-10 },
    controller: {
      ...system.controller,
      drive: 'block',
      diodeDrop: 0,
      idleCurrent: 0,
      pathResistance: 3.5e-3,
      deadTimeDrop: 0,
      rippleConstant: 1e-5,
      batteryCurrentLimit: limit,
      motorCurrentLimit: Number.POSITIVE_INFINITY,
    },
  });
  const y = new Float64Array(kernel.dimension);
  kernel.initial(y);
  kernel.begin({ duration: 10, hold: 'throttle', value: { from: throttle, to: throttle } }, 0, false);
  kernel.solve(0, y);
  expect(kernel.point.current).toBeGreaterThan(1);
  expect(kernel.point.busCurrent / limit).toBeCloseTo(1, 9);
});
