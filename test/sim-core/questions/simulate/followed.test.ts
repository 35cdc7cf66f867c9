/** How a run follows its profile: held speeds that are lost, regained and jumped to, against the same way driven by other steps; ends, events, curves and accounts by hand. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { type ProfileStep, stepOfParts } from '@shaftwork/sim-core/drive/profile';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { recordingOf, type SimulateOptions, type Simulation, simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { CHANNEL_IDS } from '@shaftwork/sim-core/results/channels';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, type Section, WING } from '../../provenance/drives.js';

const of = (more: Section = {}): DriveSystem => realise(dataOf(more));
const bench = of();
const hull = of(boat());
const wing = of({ vehicle: { mass: '1 kg', wing: WING } });
const throttle = (duration: number, from = 1, to = from): ProfileStep => stepOfParts({ duration, hold: 'throttle', value: { from, to } });
const speed = (duration: number, from: number, to = from): ProfileStep =>
  stepOfParts({ duration, hold: 'vehicleSpeed', value: { from, to } });
const run = (system: DriveSystem, profile: readonly ProfileStep[], options: SimulateOptions = {}) => simulate(system, profile, options);
const speedOf = ({ state, kernel }: Simulation): number => state[kernel.at.speed];
const jumps = (of: Simulation): number => recordingOf(of).energy.jumps;
/** The same to what two ways of integrating differ by. */
function same(one: Simulation, other: Simulation, digits = 6): void {
  expect(one.time).toBeCloseTo(other.time, 9);
  for (const [k, value] of one.state.entries()) expect(value / other.state[k]).toBeCloseTo(1, digits);
}
/** ½·m·(b² − a²) of the hull with the water that it carries along [J]. */
const work = ({ vehicle }: DriveSystem, a: number, b: number): number => 0.5 * vehicle.mass * (1 + vehicle.addedMass) * (b ** 2 - a ** 2);

describe('a hull', () => {
  it('that is to be faster than it can drives at full throttle, in the next step too', () => {
    const [free, asked, twice] = [[throttle(3)], [speed(3, 20)], [speed(1, 20), speed(2, 20)]].map((profile) => run(hull, profile));
    same(asked, free);
    same(twice, free);
    expect([jumps(asked), jumps(twice), free.lost]).toEqual([0, 0, []]);
    const lost = { wanted: 20, climb: false };
    expect(asked.lost).toEqual([{ ...lost, step: 0, time: 0, until: 3, reached: speedOf(asked) }]);
    expect(twice.lost).toEqual([
      { ...lost, step: 0, time: 0, until: 1, reached: expect.closeTo(speedOf(run(hull, [throttle(1)])), 6) },
      { ...lost, step: 1, time: 1, until: 3, reached: speedOf(twice) },
    ]);
  });

  it('that was short of the speed before gathers up to the next one, and holds that', () => {
    const short = run(hull, [speed(1, 20), speed(3, 3.5)]);
    const met = short.passed.get('holdRegained') ?? Number.NaN;
    expect(met).toBeGreaterThan(1.05);
    expect(met).toBeLessThan(3);
    same(short, run(hull, [throttle(met), speed(4 - met, 3.5)]));
    expect(speedOf(short)).toBe(3.5);
    expect(jumps(short)).toBeCloseTo(0, 6);
    expect(short.lost.map(({ step, time, wanted, until }) => [step, time, wanted, until])).toEqual([
      [0, 0, 20, 1],
      [1, 1, 3.5, undefined],
    ]);
  });

  it('that was not is set to it at once, and so is one that lacks less than a hundredth', () => {
    const before = speedOf(run(hull, [throttle(1)]));
    const set = run(hull, [throttle(1), speed(1, 3.5)]);
    expect(jumps(set)).toBeCloseTo(work(hull, before, 3.5), 6);
    expect(set.lost).toEqual([]);
    const near = run(hull, [speed(1, 20), speed(1, before / 0.992)]);
    expect(jumps(near)).toBeCloseTo(work(hull, before, before / 0.992), 6);
    expect(near.lost).toHaveLength(1);
    expect(run(hull, [speed(1, 20), speed(1, before / 0.988)]).lost).toHaveLength(2);
    // and one that is too fast is slowed
    expect(jumps(run(hull, [speed(1, 20), speed(1, 2)]))).toBeCloseTo(work(hull, before, 2), 6);
  });

  it('joins a ramp that leads on from faster than it is, but for the first', () => {
    const first = run(hull, [speed(2, 2, 3)]);
    expect([jumps(first), first.lost]).toEqual([expect.closeTo(work(hull, 0, 2), 9), []]);
    const later = run(hull, [throttle(0.2), speed(3, 3, 3.2)]);
    expect(jumps(later)).toBe(0);
    expect(later.lost).toMatchObject([{ step: 1, time: 0.2 }]);
    const met = later.passed.get('holdRegained') ?? Number.NaN;
    const share = (met - 0.2) / 3;
    same(later, run(hull, [throttle(met), speed(3.2 - met, 3 + 0.2 * share, 3.2)]));
  });

  it('that loses a ramp on the way drives on at full throttle from there', () => {
    const lost = run(hull, [speed(4, 0, 6)]);
    const at = lost.passed.get('holdLost') ?? Number.NaN;
    expect(lost.lost).toEqual([{ step: 0, time: at, until: 4, wanted: 6, reached: speedOf(lost), climb: false }]);
    same(lost, run(hull, [speed(at, 0, 1.5 * at), throttle(4 - at)]), 5);
    // the throttle is full there
    const { time, throttle: duty, vehicleSpeed } = recordingOf(lost).trace;
    const k = time.findIndex((t) => t >= at);
    expect(duty[k - 1]).toBeLessThan(1);
    expect(duty[k - 1]).toBeGreaterThan(0.99);
    expect(vehicleSpeed[k]).toBeCloseTo(1.5 * at, 3);
    // what it was and what it becomes
    expect(time.filter((t) => t === at)).toHaveLength(2);
    expect(duty.slice(k + 1).every((each) => each === 1)).toBe(true);
  });
});

it('a hull gathers no speed that another hold imposes, nor where a first ramp begins out of reach', () => {
  const before = speedOf(run(hull, [speed(1, 20)]));
  const towed = stepOfParts({ duration: 1, hold: 'throttle', value: { from: 0.5, to: 0.5 }, vehicleSpeed: { from: 5, to: 5 } });
  const pulled = run(hull, [speed(1, 20), towed]);
  expect([jumps(pulled), speedOf(pulled)]).toEqual([expect.closeTo(work(hull, before, 5), 6), 5]);
  const ramp = run(hull, [speed(1, 20, 21)]);
  expect(jumps(ramp)).toBeCloseTo(work(hull, 0, 20), 6);
  expect(ramp.lost).toMatchObject([{ step: 0, time: 0, wanted: 21 }]);
});

it('wheels gather speed as a hull does, a wing does not', () => {
  const car = of({
    propeller: 'none',
    wheel: { radius: '40 mm' },
    gearbox: { ratio: 6, efficiency: '95 %', mass: '30 g' },
    vehicle: { mass: '2 kg', drag_area: '0.02 m2' },
  });
  same(run(car, [speed(2, 40)]), run(car, [throttle(2)]), 5);
  const first = run(wing, [speed(1, 55)]);
  const both = run(wing, [speed(1, 55), speed(1, 60)]);
  expect(both.lost.map(({ step, time }) => [step, time])).toEqual([
    [0, 0],
    [1, 1],
  ]);
  expect(jumps(both)).toBeCloseTo(work(wing, 0, 55) + work(wing, speedOf(first), 60), 6);
});

it('a wing is set to the speed it is to fly, within reach or not; a bench has it as its stream', () => {
  const flown = run(wing, [speed(1, 12), speed(1, 60), speed(1, 14)]);
  expect(jumps(flown)).toBeCloseTo(
    work(wing, 0, 12) + work(wing, 12, 60) + work(wing, speedOf(run(wing, [speed(1, 12), speed(1, 60)])), 14),
    6,
  );
  expect(flown.lost).toMatchObject([{ step: 1, time: 1, wanted: 60 }]);
  const stream = run(bench, [speed(1, 5), speed(1, 7)]);
  expect([jumps(stream), speedOf(stream), stream.end]).toEqual([0, 7, 'finished']);
});

describe('a run ends', () => {
  const small = { ...bench, battery: { ...bench.battery, capacity: 60 } };
  it('where its cells come to their cut-off, or to nothing where there is none', () => {
    const cut = run(small, [throttle(100, 0.7)]);
    expect(cut.end).toBe('cut-off');
    expect(cut.lowest.cellVoltage).toEqual({ value: expect.closeTo(small.limits.cellVoltage, 6), time: cut.time });
    expect(cut.passed.get('cellVoltage')).toBe(cut.time);
    const bare = { ...small, limits: { ...small.limits, cellVoltage: 0.1, reserve: 0.3 } };
    const empty = run(bare, [throttle(1000, 0.2)]);
    expect([empty.end, empty.state[empty.kernel.at.charge]]).toEqual(['empty', expect.closeTo(0, 7)]);
    // the reserve is met where the curve of the charge meets it
    const { time, charge } = recordingOf(empty).trace;
    const k = charge.findIndex((each) => each < 0.3);
    const met = time[k - 1] + ((charge[k - 1] - 0.3) / (charge[k - 1] - charge[k])) * (time[k] - time[k - 1]);
    expect((empty.passed.get('reserve') ?? 0) / met).toBeCloseTo(1, 5);
    // what comes after the end is not driven
    expect(run(small, [throttle(100, 0.7), throttle(1, 0)]).time).toBe(cut.time);
    expect(recordingOf(cut).trace.time.at(-1)).toBe(cut.time);
  });
  it('at once where a jump takes it there, at the start or at a break', () => {
    const under = (duty: number): number => run(bench, [throttle(0.1, duty)]).lowest.cellVoltage.value;
    const sagging = { ...bench, limits: { ...bench.limits, cellVoltage: 0.5 * (under(0.05) + under(1)) } };
    const [first, second] = [[throttle(5, 1)], [throttle(2, 0.05), throttle(3, 1), throttle(9, 0)]].map((profile) => run(sagging, profile));
    expect([first.end, first.time, first.steps]).toEqual(['cut-off', 0, 0]);
    expect([second.end, second.time]).toEqual(['cut-off', 2]);
    expect(second.lowest.cellVoltage.value).toBeLessThan(sagging.limits.cellVoltage);
    expect(first.passed.get('cellVoltage')).toBe(0);
  });
  it('burnt where a body comes to its damage', () => {
    // enamel softens at 320 °C; the start is 1 K below, with magnets that bear more
    const hardy = { ...bench, limits: { ...bench.limits, magnetTemperature: 1000 }, start: { ...bench.start, motorTemperature: 592.15 } };
    const hot = run(hardy, [throttle(300, 1)]);
    expect(hot.end).toBe('burnt');
    expect(hot.state[hot.kernel.at.winding]).toBeCloseTo(593.15, 4);
    expect(hot.time).toBeGreaterThan(0);
    expect([hot.passed.get('burnt'), hot.passed.get('windingTemperature')]).toEqual([hot.time, 0]);
  });
});

it('a limit that a jump passes is passed at that break, once; a limiter takes over where its current is reached', () => {
  const limited = { ...bench, limits: { ...bench.limits, motorCurrent: 3, shaftSpeed: 500 } };
  const jumped = run(limited, [throttle(1, 0.1), throttle(1, 1), throttle(1, 0.1), throttle(1, 1)]);
  expect([jumped.passed.get('motorCurrent'), jumped.passed.get('shaftSpeed')]).toEqual([1, 1]);
  const ramps = run(limited, [throttle(1, 0.1, 1), throttle(1, 0.1, 1)]);
  expect(ramps.passed.get('motorCurrent')).toBeLessThan(1);
  expect(recordingOf(ramps).trace.motorCurrent.filter((amperes) => amperes > 3).length).toBeGreaterThan(100);
  const held = run({ ...bench, controller: { ...bench.controller, motorCurrentLimit: 5 } }, [throttle(2, 0.1, 1), throttle(1, 0.1)]);
  const { time, motorCurrent } = recordingOf(held).trace;
  const at = held.passed.get('limiterEntered') ?? Number.NaN;
  const k = time.findIndex((t) => t > at);
  expect(motorCurrent[k - 2]).toBeLessThan(5);
  expect(motorCurrent[k]).toBeCloseTo(5, 6);
  expect([...held.limited]).toMatchObject([[0, { time: at, by: 'motor', bound: 5 }]]);
  // a jump beyond it is no moment at which it takes over
  const beyond = run({ ...bench, controller: { ...bench.controller, motorCurrentLimit: 5 } }, [throttle(1, 1)]);
  expect([beyond.passed.has('limiterEntered'), beyond.limited.get(0)?.time]).toEqual([false, 0]);
});

describe('what is recorded', () => {
  const two = of(boat({ drives: 2 }));
  const seen = () => {
    const whole = run(two, [throttle(1.001, 0.4), throttle(2, 0.8)]);
    return { whole, ...recordingOf(whole), at: whole.kernel.at };
  };

  it('are 1200 even samples, both sides of each break, and the end', () => {
    const { trace, states, at } = seen();
    const breaks = [0, 1.001, 1.001, 3.001];
    const even = trace.time.filter((t) => !breaks.includes(t));
    expect(trace.time).toHaveLength(even.length + breaks.length);
    expect(even).toHaveLength(1199);
    for (const [k, t] of even.entries()) expect(t).toBeCloseTo(((k + 1) * 3.001) / 1200, 9);
    expect(trace.time).toEqual([...trace.time].sort((a, b) => a - b));
    const k = trace.time.indexOf(1.001);
    expect([trace.throttle[k], trace.throttle[k + 1], trace.time[k + 1]]).toEqual([0.4, 0.8, 1.001]);
    for (const id of CHANNEL_IDS) expect(trace[id]).toHaveLength(trace.time.length);
    expect(states).toHaveLength(trace.time.length);
    expect(states.map((y) => y[at.winding])).toEqual(trace.windingTemperature);
    // one that falls on a break is not taken a third time: 1200 spans of 1/512 s
    const spans = recordingOf(run(bench, [throttle(400 / 512), throttle(800 / 512, 0.5)])).trace.time;
    expect(spans).toHaveLength(1202);
    expect(spans.filter((t) => t === 400 / 512)).toHaveLength(2);
    // a span of its own is sampled as finely
    expect(recordingOf(run(bench, [throttle(1)], { span: 0.1 })).trace.time.length).toBeGreaterThan(11_990);
    expect(run(bench, [throttle(1)], { record: false }).recorded).toBeUndefined();
  });

  it('agree among themselves: powers are products, and what goes in comes out or is lost', () => {
    const { trace, states, at } = seen();
    const row = (k: number) =>
      Object.fromEntries(CHANNEL_IDS.map((id) => [id, trace[id][k]])) as Record<(typeof CHANNEL_IDS)[number], number>;
    for (const k of [1, 300, 700, 1100]) {
      const now = row(k);
      expect(now.batteryPower).toBe(now.busVoltage * now.batteryCurrent);
      expect(now.shaftPower).toBe(now.motorTorque * now.shaftSpeed);
      expect((now.shaftPower + now.copperLoss + now.noLoadLoss) / now.inputPower).toBeCloseTo(1, 9);
      expect((2 * (now.inputPower + now.controllerLoss)) / now.batteryPower).toBeCloseTo(1, 9);
      expect(now.climbRate).toBe(0);
      expect(now.vehicleSpeed).toBe(states[k][at.speed]);
      expect([now.canTemperature, now.magnetTemperature, now.controllerTemperature]).toEqual([
        states[k][at.can],
        states[k][at.magnets],
        states[k][at.controller],
      ]);
      expect([now.statorTemperature, now.cellTemperature, now.charge]).toEqual([
        states[k][at.stator],
        states[k][at.cells],
        states[k][at.charge],
      ]);
    }
  });

  it('has every account as its curves have it, of both drives', () => {
    const { whole, trace, energy, at } = seen();
    const over = (watts: (k: number) => number): number =>
      trace.time.reduce((sum, t, k) => (k === 0 ? 0 : sum + 0.5 * (watts(k) + watts(k - 1)) * (t - trace.time[k - 1])), 0);
    const { terms } = energy;
    const near = (value: number, other: number) => expect(value / other).toBeCloseTo(1, 4);
    near(
      terms.batteryChemical - terms.batteryLoss - terms.polarisationStored - terms.wiringLoss,
      over((k) => trace.batteryPower[k]),
    );
    near(terms.copperLoss, 2 * over((k) => trace.copperLoss[k]));
    near(terms.ironLoss + terms.frictionLoss, 2 * over((k) => trace.noLoadLoss[k]));
    near(terms.useful, energy.drag + energy.kinetic);
    near(energy.kinetic, work(two, 0, speedOf(whole)));
    expect([energy.climb, energy.jumps, Math.abs(energy.imposed) < 1e-6 * terms.useful]).toEqual([0, 0, true]);
    const { capacity } = two.heat;
    const gained = (['winding', 'stator', 'can', 'magnets', 'controller', 'cells'] as const).map(
      (body) => capacity[body] * (body === 'cells' ? 1 : 2) * (whole.state[at[body]] - whole.initialState[at[body]]),
    );
    near(
      energy.heatStored,
      gained.reduce((sum, each) => sum + each, 0),
    );
    near(
      energy.heatShed,
      Object.values(energy.heatLeaves).reduce((sum, each) => sum + each, 0),
    );
    expect(Math.abs(energy.heatMade - energy.heatStored - energy.heatShed)).toBeLessThan(1e-6 * energy.heatMade);
    expect(Math.max(...[energy.residual, energy.heatResidual, energy.chargeResidual].map(Math.abs))).toBeLessThan(1e-6);
  });

  it('has its peaks where its curves have them, and between', () => {
    const { whole, trace } = seen();
    for (const id of CHANNEL_IDS) {
      const [most, least] = [Math.max(...trace[id]), Math.min(...trace[id])];
      const size = Math.max(Math.abs(most), Math.abs(least), 1e-9);
      expect(whole.highest[id].value).toBeGreaterThanOrEqual(most);
      expect(whole.lowest[id].value).toBeLessThanOrEqual(least);
      expect((whole.highest[id].value - most) / size).toBeLessThan(1e-4);
      expect((least - whole.lowest[id].value) / size).toBeLessThan(1e-4);
    }
  });
});
