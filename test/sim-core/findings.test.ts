import { realise } from '@shaftwork/sim-core/provenance/realise';
import { runCandidate } from '@shaftwork/sim-core/questions/run/run';
import { crossingsOf } from '@shaftwork/sim-core/questions/run/torque-speed-chart';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { demo } from '../demo.js';

const { candidates } = demo('survey-boat');
const [wide] = candidates;
const full = [{ duration: 5, hold: 'throttle' as const, value: { from: 1, to: 1 } }];

describe('what the physics says is a finding, never a number', () => {
  it('the voltage of a pack that cannot feed its other loads collapses: the run ends at its cut-off, at once, and is not feasible', () => {
    const data = { ...wide.data, otherLoads: { ...wide.data.otherLoads, value: 50_000 } };
    const result = runCandidate({ ...wide, data }, full);
    expect(result.end).toBe('cut-off');
    expect(result.headline.runTime.nominal).toBe(0);
    expect(result.feasible).toBe(false);
    expect(result.findings.map((finding) => finding.kind)).toContain('cut-off-reached');
  });

  it('a screw too stiff for a tiny current limit stalls the motor and says so', () => {
    const system = realise(wide.data);
    const stiff = {
      ...system,
      motor: { ...system.motor, hysteresisTorque: 0.5 },
      controller: { ...system.controller, motorCurrentLimit: 5 },
    };
    const run = simulate(stiff, full);
    expect(run.stalled.has(0)).toBe(true);
    expect(run.highest.shaftSpeed.value).toBe(0);
  });

  it('a speed that full throttle cannot hold is told with what was reached', () => {
    const result = runCandidate(wide, [{ duration: 20, hold: 'vehicleSpeed', value: { from: 7, to: 7 } }]);
    const finding = result.findings.find((each) => each.kind === 'step-not-held');
    expect(finding).toMatchObject({ step: 0, wanted: 7, time: 0, until: 20 });
    if (finding?.kind !== 'step-not-held') throw new Error('nothing was said');
    expect(finding.reached).toBeGreaterThan(4);
    expect(finding.reached).toBeLessThan(5.5);
    // nor does the boat jump to it: it gathers speed from rest, and never leaves the table that ends at 6 m/s
    expect(result.headline.topSpeed.nominal).toBeLessThan(5.5);
    expect(result.findings.map((each) => each.kind)).not.toContain('outside-drag-table');
  });

  it('a speed imposed beyond the drag table is told with where the table ends', () => {
    const beyond = { from: 7, to: 7 };
    const result = runCandidate(wide, [{ duration: 5, hold: 'throttle', value: { from: 1, to: 1 }, vehicleSpeed: beyond }]);
    expect(result.findings.find((each) => each.kind === 'outside-drag-table')).toMatchObject({ value: 7, bound: 6 });
  });
  it('braking that charges a full pack, and limits that braking passes, are told', () => {
    const [car] = demo('grass-car').candidates;
    const data = { ...car.data, controller: { ...car.data.controller, braking: 'regenerative' as const } };
    const downhill = { duration: 120, hold: 'vehicleSpeed' as const, value: { from: 9, to: 9 }, grade: { from: -0.4, to: -0.4 } };
    const result = runCandidate({ ...car, data }, [downhill]);
    const charged = result.findings.find((each) => each.kind === 'pack-overcharged');
    expect(charged?.kind === 'pack-overcharged' && charged.value).toBeGreaterThan(1.002);
    const { motorCurrent } = result.trace;
    const hardest = Math.max(...motorCurrent.map(Math.abs));
    expect(Math.min(...motorCurrent)).toBeCloseTo(-hardest, 9);
    expect(result.limits.find(({ id }) => id === 'motorCurrent')!.worst).toBeCloseTo(hardest, 9);
    expect(result.headline.peakMotorCurrent.nominal).toBeCloseTo(hardest, 9);
  });
  it('a motor that is turned past the pack’s voltage is told, since its diodes would conduct', () => {
    const [car] = demo('grass-car').candidates;
    const fast = (value: number) =>
      runCandidate(car, [
        { duration: 2, hold: 'throttle', value: { from: 0, to: 0 }, vehicleSpeed: { from: value, to: value } },
      ]).findings.find((each) => each.kind === 'motor-overrun');
    const found = fast(40);
    if (found?.kind !== 'motor-overrun') throw new Error('nothing was said');
    const system = realise(car.data);
    if (system.load.kind !== 'wheel') throw new Error('a wheel');
    expect(found.value).toBeCloseTo((system.motor.torqueConstant * 40 * system.gearbox.ratio) / system.load.radius, 0);
    expect(found.value).toBeGreaterThan(found.bound);
    expect(fast(5)).toBeUndefined();
  });

  it('a wing left to its throttle is told when it flies too slowly to carry', () => {
    const [glider] = demo('burst-glider').candidates;
    const system = realise(glider.data);
    const slow = (throttle: number) => simulate(system, [{ duration: 60, hold: 'throttle', value: { from: throttle, to: throttle } }]);
    const faint = slow(0.12);
    const found = faint.tooSlow.get(0);
    expect(found!.speed).toBeCloseTo(faint.state[faint.state.length - 1], 6);
    expect(found!.speed).toBeLessThan(found!.bound);
    expect(slow(1).tooSlow.size).toBe(0);
  });

  describe('wheels', () => {
    const [short] = demo('grass-car').candidates;
    const system = realise(short.data);
    const launch = { duration: 1, hold: 'vehicleSpeed' as const, value: { from: 4, to: 10 }, label: 'launch' };
    const ground = 0.9 * system.vehicle.mass * 9.80665;

    it('spin where a ramp asks for more than the grip, which limits the force and delays the car', () => {
      // 6 m/s² and rolling need 17.8 N; 0.5 of grip passes 12.8 N
      const grip = { ...short.data.load, grip: { ...(short.data.load as { grip: object }).grip, value: 0.5 } } as typeof short.data.load;
      const result = runCandidate({ ...short, data: { ...short.data, load: grip } }, [launch]);
      const finding = result.findings.find((each) => each.kind === 'wheels-spin');
      expect(finding).toMatchObject({ step: 0, label: 'launch' });
      if (finding?.kind !== 'wheels-spin') throw new Error('nothing was said');
      expect(finding.bound).toBeCloseTo((0.5 / 0.9) * ground, 6);
      const lost = result.findings.find((each) => each.kind === 'step-not-held');
      // (µ·m·g − rolling)/m over a second, less the air: (0.5 − 0.085)·g = 4.07 m/s²
      if (lost?.kind !== 'step-not-held') throw new Error('nothing was lost');
      expect(lost.reached).toBeGreaterThan(4 + 3);
      expect(lost.reached).toBeLessThan(4 + 4.07);
    });

    it('pass the ground’s limit at full throttle from rest, whatever the gear gives, and balance', () => {
      const run = simulate(system, [{ duration: 1, hold: 'throttle', value: { from: 1, to: 1 }, label: 'go' }]);
      expect(run.spun.get(0)).toMatchObject({ time: 0 });
      // the acceleration of a car at its grip: (µ − c_rr)·g, the air all but absent at first
      const { time, vehicleSpeed } = run.recorded!.trace;
      const early = time.findIndex((t) => t > 0.2);
      expect(vehicleSpeed[early] / time[early]).toBeCloseTo((0.9 - 0.085) * 9.80665, 1);
      expect(Math.abs(run.recorded!.energy.residual)).toBeLessThan(1e-9);
    });

    it('take only their own axle’s share of the weight: a car with two driven wheels of four spins where one with four does not', () => {
      const profile = [{ ...launch, value: { from: 4, to: 8 } }];
      const share = { ...realise(short.data).load, drivenShare: 0.55 } as typeof system.load;
      const [four, two] = [system, { ...system, load: share }].map((each) => simulate(each, profile));
      expect(four.spun.size).toBe(0);
      expect(two.spun.get(0)!.bound).toBeCloseTo(0.55 * ground, 6);
      expect(two.highest.thrust.value).toBeLessThan(0.6 * four.highest.thrust.value + 10);
      expect(two.state.at(-1)!).toBeLessThan(four.state.at(-1)! - 0.3);
    });

    it('brake through the drive only as the controller allows; what is left is the profile’s, and said', () => {
      // hard enough that the ripple's loss leaves something for the pack
      const stop = [{ duration: 1, hold: 'vehicleSpeed' as const, value: { from: 10, to: 6 } }];
      const [none, back] = (['none', 'regenerative'] as const).map((braking) =>
        simulate({ ...system, controller: { ...system.controller, braking } }, stop),
      );
      expect(none.braked.has(0)).toBe(true);
      expect(none.lowest.batteryCurrent.value).toBeGreaterThan(0);
      expect(none.recorded!.energy.imposed).toBeLessThan(back.recorded!.energy.imposed);
      expect(back.lowest.batteryCurrent.value).toBeLessThan(-0.5);
      expect(back.recorded!.energy.terms.batteryChemical).toBeLessThan(none.recorded!.energy.terms.batteryChemical);
    });

    it('stand where the rotor is held fast, pushing with the stall torque; a ramp out of rest is no stall', () => {
      const held = (from: number, to: number) => ({ duration: 1, hold: 'shaftSpeed' as const, value: { from, to } });
      const stall = simulate(system, [{ ...launch, duration: 1 }, held(0, 0)]);
      expect(stall.stalled.has(1)).toBe(true);
      expect(stall.state.at(-1)).toBe(0);
      // the jump to rest takes the car's energy, which is its own line
      expect(stall.recorded!.energy.jumps).toBeLessThan(-0.5 * system.vehicle.mass * (10 ** 2 - 4 ** 2));
      const { motorCurrent, thrust } = stall.recorded!.trace;
      const flux = stall.kernel.point.torqueConstant;
      if (system.load.kind !== 'wheel') throw new Error('the car runs on wheels');
      const push = (flux * motorCurrent.at(-1)! * system.gearbox.ratio * system.gearbox.efficiency) / system.load.radius;
      expect(thrust.at(-1)! / push).toBeCloseTo(1, 9);
      const ramp = simulate(system, [held(0, 800), held(800, 0)]);
      expect(ramp.stalled.size).toBe(0);
      expect(ramp.highest.motorCurrent.value).toBeLessThan(0.5 * stall.highest.motorCurrent.value);
      expect(ramp.state.at(-1)).toBeCloseTo(0, 6);
    });

    it('say nothing while they hold', () => {
      const result = runCandidate(short, [{ ...launch, value: { from: 4, to: 8 } }]);
      expect(result.findings.map(({ kind }) => kind)).not.toContain('wheels-spin');
    });

    it('skid where braking asks for more than the grip', () => {
      const run = simulate(system, [{ duration: 0.5, hold: 'vehicleSpeed', value: { from: 14, to: 6 } }]);
      expect(run.spun.has(0)).toBe(true);
    });
  });

  describe('wing', () => {
    const [disc] = demo('burst-glider').candidates;
    const { vehicle } = realise(disc.data);
    const slowest = Math.sqrt((2 * vehicle.mass * 9.80665) / (vehicle.density * vehicle.liftArea));
    const glide = (speed: number) =>
      runCandidate(disc, [{ duration: 5, hold: 'throttle', value: { from: 0, to: 0 }, vehicleSpeed: { from: speed, to: speed } }]).findings;

    it('a thrust above weight and drag at a held speed is a finding, never a climb steeper than straight up', () => {
      const system = realise(disc.data);
      const climb = [{ duration: 1, hold: 'throttle' as const, value: { from: 1, to: 1 }, vehicleSpeed: { from: 12, to: 12 } }];
      expect(simulate(system, climb).vertical.size).toBe(0);
      const light = simulate({ ...system, vehicle: { ...system.vehicle, mass: 1.2 } }, climb);
      const { left, weight } = light.vertical.get(0)!;
      expect(weight).toBeCloseTo(1.2 * 9.80665, 9);
      expect(left).toBeGreaterThan(weight);
      expect(light.highest.climbRate.value).toBe(12);
    });

    it('a held speed below the one at which it carries is a finding; a little above, none', () => {
      const finding = glide(0.9 * slowest).find((each) => each.kind === 'below-stall-speed');
      expect(finding).toMatchObject({ step: 0, value: 0.9 * slowest });
      if (finding?.kind !== 'below-stall-speed') throw new Error('nothing was said');
      expect(finding.bound / slowest).toBeCloseTo(1, 1);
      expect(glide(1.05 * slowest).map(({ kind }) => kind)).not.toContain('below-stall-speed');
      expect(glide(0).map(({ kind }) => kind)).not.toContain('below-stall-speed');
    });
  });

  it('a propeller’s shaft held from rest upwards is no held rotor, which takes the stall current', () => {
    const held = (from: number, to: number) => [{ duration: 2, hold: 'shaftSpeed' as const, value: { from, to } }];
    const [up, fast] = [held(0, 700), held(0, 0)].map((profile) => simulate(realise(wide.data), profile));
    expect(up.stalled.size).toBe(0);
    expect(up.highest.motorCurrent.value).toBeLessThan(30);
    expect(fast.stalled.has(0)).toBe(true);
    expect(fast.highest.motorCurrent.value).toBeGreaterThan(55);
  });

  it('counts the crossings of torque and load', () => {
    const chart = { time: 0, vehicleSpeed: 0, charge: 1, speed: [0, 1, 2, 3], crossings: [], held: false, load: [0, 3, 1, 3] };
    expect(crossingsOf({ ...chart, lines: [{ throttle: 1, torque: [2, 2, 2, 2] }] })).toBe(3);
    expect(crossingsOf({ ...chart, lines: [{ throttle: 1, torque: [5, 4, 3, 2] }] })).toBe(1);
  });
});
