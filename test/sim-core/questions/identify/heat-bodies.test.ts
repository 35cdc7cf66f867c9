/** The bodies of a motor that is run warm, the thermometer on it, and its heat data written out one by one. */
import type { DriveSystem, PropellerLoad } from '@shaftwork/sim-core/drive/drive-system';
import { heatNetwork, surfaceOutlets, throughFlowConductance } from '@shaftwork/sim-core/heat/heat-network';
import { emptyHeatOutlets } from '@shaftwork/sim-core/heat/heat-ways';
import { THERMOMETER_PLACES, type ThermometerPlaceId } from '@shaftwork/sim-core/heat/thermometer';
import { fluxRatio, ironTorque } from '@shaftwork/sim-core/parts/motor';
import { HEAT_DATA, heatWrittenOut } from '@shaftwork/sim-core/questions/identify/heat-data';
import { describe, expect, it } from 'vitest';
import { AIR, deviates, heatLog, INRUNNER, model, OUTRUNNER, sum } from './heat-bench.js';

/** How warm motor and thermometer are at first [K]. */
const HOT = 330;

describe('bodies', () => {
  it('begin alike, where a thermometer with its share of the excess shows what was read, and with what the start is off', () => {
    for (const place of ['in-slot', 'beside-coils'] as const) {
      const made = model(OUTRUNNER, heatLog([0, 1], { probe: 320 }, place));
      const own = made.ways.length;
      const { share, factor } = THERMOMETER_PLACES[place];
      const at = (some: Readonly<Record<number, number>>) => made.bodies(deviates(made.unknowns, some)).map((body) => body[0]);
      expect(at({})).toEqual(new Array(4).fill(expect.closeTo(AIR + 30 / share, 9)));
      // 1.96 deviations are the factor either way that holds 95 % of such thermometers
      expect(at({ [own + 1]: 1.96 })[0]).toBeCloseTo(AIR + 30 / (share * factor), 2);
      expect(at({ [own + 3]: 2 })).toEqual(new Array(4).fill(expect.closeTo(AIR + 30 / share + 2, 9)));
      const standing = model(OUTRUNNER, heatLog([0, 1], { probe: 320, speed: [0, 1] }, place));
      expect(standing.predict(deviates(made.unknowns))[0]).toBeCloseTo(320, 9);
      expect(standing.predict(deviates(made.unknowns, { [own + 3]: 2 }))[0]).toBeCloseTo(320 + 2 * share, 9);
    }
  });

  it.each([
    ['standing in warm air', OUTRUNNER, { speed: [700, 0], air: 300 }],
    ['turning', OUTRUNNER, { current: 0 }],
    ['turning in its own slipstream', OUTRUNNER, { current: 0, thrust: 9 }],
    ['turning, an inrunner', INRUNNER, { current: 0, thrust: 9 }],
  ] as const)('%s take and give what the heat network says', (_, of, more) => {
    const dt = 1e-3;
    const rows = heatLog([0, dt], { ...more, probe: HOT });
    const made = model(of, rows);
    // written out, each way is as it is at the mean speed of the run
    const written = heatWrittenOut(of.name, of.given, of.data, () => ({
      heat: of.system.heat,
      shaftSpeed: 700,
      outside: made.ways.find(({ way }) => way.key === 'mount' || way.key === 'can_to_air')?.start ?? 0,
      throughFlow: made.ways.find(({ way }) => way.key === 'stator_to_air')?.start ?? 0,
    })).system(deviates(made.unknowns));
    const bodies = made.bodies(deviates(made.unknowns));
    const air = rows.air[0];
    const surroundings = { ...written.surroundings, motorAirTemperature: air, compartmentTemperature: air };
    const speed = rows.speed[1];
    const slipstream =
      rows.thrust === undefined || of.system.load.kind !== 'propeller'
        ? 0
        : written.heat.slipstreamShare * 2 * Math.sqrt(9 / (2 * of.system.load.density * 0.25 * Math.PI * of.system.load.diameter ** 2));
    const motion = { shaftSpeed: speed, vehicleSpeed: 0, airSpeed: speed > 0 ? written.heat.airSpeed + slipstream : 0 };
    const whole = Float64Array.of(...bodies.map((body) => body[0]), air, air);
    const outlets = emptyHeatOutlets();
    const net = new Float64Array(6);
    // friction and iron warm a motor that turns without a current
    const { motor } = of.system;
    const flux = fluxRatio(motor, whole[0]);
    const [iron, friction] = speed > 0 ? [ironTorque(motor, speed, flux) * speed, motor.frictionTorque * speed] : [0, 0];
    const stays = motor.layout === 'outrunner';
    const loss = Float64Array.of(
      0,
      iron * (1 - motor.magnetLossShare) + (stays ? friction : 0),
      stays ? 0 : friction,
      iron * motor.magnetLossShare,
      0,
      0,
    );
    surfaceOutlets(written.heat, surroundings, motion, whole, outlets);
    heatNetwork(written.heat, surroundings, motion, whole, loss, net, outlets);
    const { winding, stator, can, magnets } = written.heat.capacity;
    const cooling = bodies.map((body, b) => ((body[1] - body[0]) * [winding, stator, can, magnets][b]) / dt);
    expect(cooling).toEqual(Array.from(net.subarray(0, 4), (each) => expect.closeTo(each, 2)));
    expect(Math.abs(sum(cooling))).toBeGreaterThan(0.5);
  });

  it('as warm as the air stay as they are, whatever air the scenario has', () => {
    const made = model(OUTRUNNER, heatLog([0, 60, 120, 180], { air: 310, probe: 310, speed: [700, 0, 0, 0] }));
    expect(Array.from(made.predict(deviates(made.unknowns)))).toEqual(new Array(4).fill(expect.closeTo(310, 9)));
  });

  it('out of the reach of the laws are no number from there on', () => {
    const made = model(OUTRUNNER, heatLog([0, 1, 2, 3], { current: [20, 20, 1e9, 20] }));
    const shown = made.predict(deviates(made.unknowns));
    expect(Array.from(shown, Number.isFinite)).toEqual([true, true, false, false]);
  });
});

describe('a thermometer', () => {
  const HEATED = {
    probe: 310,
    thrust: [0, 6, 6, 0, 9],
    speed: [700, 700, 700, 0, 0],
    current: [30, 30, 30, 0, 0],
    air: [288, 289, 290, 291, 292],
  };
  const TIME = [0, 7, 12, 30, 45];
  const sourceOf = ({ heat }: DriveSystem, bodies: readonly number[], air: number): Record<ThermometerPlaceId, number> => {
    const [winding = 0, stator = 0, can = 0, magnets = 0] = bodies;
    const { winding: a, stator: b, can: c, magnets: d } = heat.capacity;
    return {
      'in-slot': winding,
      'on-can': can,
      'on-end': heat.layout === 'outrunner' ? stator + heat.endPlace * (air - stator) : can,
      'beside-coils': (a * winding + b * stator + c * can + d * magnets) / (a + b + c + d),
      'on-controller': stator,
      'on-cells': stator,
    };
  };
  it.each(
    ([OUTRUNNER, INRUNNER] as const).flatMap((of) =>
      (Object.keys(THERMOMETER_PLACES) as ThermometerPlaceId[]).map((place) => [place, of.system.heat.layout, of] as const),
    ),
  )('%s of an %s follows its share of what it sits on, late', (place, _, of) => {
    const rows = heatLog(TIME, HEATED, place);
    const made = model(of, rows);
    const own = made.ways.length;
    const z = deviates(made.unknowns, { [own + 1]: 0.5, [own + 2]: 1, [own + 4]: 1 });
    const shown = made.predict(z);
    const bodies = made.bodies(z);
    const { share, factor, lag, film } = THERMOMETER_PLACES[place];
    const { heat, load } = of.system;
    const { density, diameter } = load as PropellerLoad;
    let theta = 310 - 288;
    for (let k = 1; k < TIME.length; k++) {
      const air = rows.air[k];
      const source = sourceOf(
        of.system,
        bodies.map((body) => body[k]),
        air,
      )[place];
      const slipstream =
        k < 3 ? heat.airSpeed + heat.slipstreamShare * 2 * Math.sqrt(6 / (2 * density * 0.25 * Math.PI * diameter ** 2)) : 0;
      const passing = place === 'beside-coils' && k < 3 ? 0.5 * heat.canDiameter * 700 + slipstream : 0;
      const shareNow = (share * factor ** (0.5 / 1.96)) / (1 + (film * Math.exp(0.71) * passing) / 10);
      const towards = shareNow * (source - air);
      theta = towards + (theta - towards) * Math.exp(-(TIME[k] - TIME[k - 1]) / (lag * Math.exp(0.3)));
      expect(shown[k] - air).toBeCloseTo(theta, 3);
    }
  });

  it('is off by what the fit would make small', () => {
    const rows = heatLog(TIME, HEATED);
    const made = model(OUTRUNNER, rows);
    const z = deviates(made.unknowns, { 0: 1 });
    const out = new Float64Array(TIME.length);
    made.residuals(z, out);
    expect(Array.from(out)).toEqual(Array.from(made.predict(z), (each, k) => expect.closeTo((each - rows.probe[k]) / 0.5, 9)));
    expect([made.count, made.channels, made.leastScale, made.unknowns]).toEqual([5, [0], 1, made.ways.length + 5]);
    expect(made.words).toEqual([
      'conductance from winding to stator',
      'conductance from stator to can',
      'conductance from stator to the air through the turning motor',
      'conductance of the mount, turning or not',
      'heat capacity of the winding',
      'heat capacity of the stator',
      'heat capacity of can and ends, of an outrunner the bell with its magnets',
      'loss of the winding',
      'share that the thermometer takes',
      'lag of the thermometer',
      'temperature at the start',
      'hold of the air on the thermometer',
    ]);
  });
});

describe('heat data written out', () => {
  const begunOf = () => (system: DriveSystem) => ({ heat: system.heat, shaftSpeed: 600, outside: 0.2, throughFlow: 0.4 });
  it.each([
    [
      'outrunner',
      OUTRUNNER,
      ['winding_to_stator', 'stator_to_can', 'stator_to_air', 'mount', 'winding_capacity', 'stator_capacity', 'can_capacity'],
    ],
    ['inrunner', INRUNNER, ['winding_to_stator', 'stator_to_can', 'can_to_air', 'winding_capacity', 'stator_capacity', 'can_capacity']],
  ] as const)('of an %s are moved each by its own deviate and by no other', (_, of, keys) => {
    const { unknowns, system } = heatWrittenOut(of.name, of.given, of.data, begunOf());
    expect(unknowns.map(({ way }) => way.key)).toEqual(keys);
    expect(new Set(unknowns.map(({ draw }) => draw)).size).toBe(keys.length);
    /** Where each is found in a drive. */
    const found = ({ heat }: DriveSystem): number[] =>
      keys.map((key) => {
        switch (key) {
          case 'stator_to_air':
            return heat.statorToAir?.conductance ?? Number.NaN;
          case 'mount':
            return heat.toMount;
          case 'can_to_air':
            return heat.canToAir;
          case 'stator_to_can':
            return heat.statorToCan;
          default:
            return HEAT_DATA.find((each) => each.key === key)?.begin({ heat, shaftSpeed: 0, outside: 0, throughFlow: 0 }) ?? Number.NaN;
        }
      });
    const nominal = unknowns.map(({ start }) => start);
    expect(found(system(nominal.map(() => 0)))).toEqual(nominal.map((each) => expect.closeTo(each, 9)));
    unknowns.forEach(({ deviation }, j) => {
      const moved = found(system(nominal.map((__, k) => (k === j ? 1.5 : 0))));
      expect(moved).toEqual(nominal.map((each, k) => expect.closeTo(k === j ? each * Math.exp(1.5 * deviation) : each, 9)));
    });
    if (of === OUTRUNNER) expect(system(nominal.map(() => 0)).heat.statorToAir?.shaftSpeed).toBe(600);
  });

  it('begin from what the drive has, those outside from the mean of the rows that turn', () => {
    for (const of of [OUTRUNNER, INRUNNER]) {
      const { heat, surroundings } = of.system;
      const outrunner = of === OUTRUNNER;
      const made = model(of, heatLog([0, 1, 2], { speed: [600, 800, 0], thrust: [4, 6, 90] }));
      const start = (key: string): number => made.ways.find(({ way }) => way.key === key)?.start ?? Number.NaN;
      expect(start('winding_to_stator')).toBe(heat.windingToStator);
      expect(start('stator_to_can')).toBe(outrunner ? heat.statorToMagnets : heat.statorToCan);
      expect(start('can_capacity')).toBe(heat.capacity.can + (outrunner ? heat.capacity.magnets : 0));
      // what still air takes of surfaces 30 K above it, and its own fan
      const outlets = emptyHeatOutlets();
      surfaceOutlets(
        heat,
        surroundings,
        { shaftSpeed: 0, vehicleSpeed: 0, airSpeed: 0 },
        new Float64Array(6).fill(surroundings.motorAirTemperature + 30),
        outlets,
      );
      expect(30 * start(outrunner ? 'mount' : 'can_to_air')).toBeCloseTo(
        outlets.mount + (outrunner ? 0 : outlets.canSide + outlets.canEnds),
        9,
      );
      if (!outrunner || of.system.load.kind !== 'propeller') continue;
      const { density, diameter } = of.system.load;
      const air = heat.airSpeed + heat.slipstreamShare * 2 * Math.sqrt(5 / (2 * density * 0.25 * Math.PI * diameter ** 2));
      const tip = 0.5 * heat.canDiameter * 700;
      expect(start('stator_to_air')).toBeCloseTo((throughFlowConductance(heat, 700, air) * tip) / (tip + air), 9);
      expect(model(of, heatLog([0, 1], { speed: 700 })).ways[2]?.start).toBeCloseTo(
        (throughFlowConductance(heat, 700, heat.airSpeed) * tip) / (tip + heat.airSpeed),
        9,
      );
    }
  });

  it('are as unsure as the rules make them, all their doubts together, within 5 % and a factor of 5', () => {
    const twice = { heat: OUTRUNNER.system.heat, shaftSpeed: 600, outside: 0.2, throughFlow: 0.4 };
    // a way that follows one number of the drive has its deviation, those that nothing moves the least
    const { unknowns } = heatWrittenOut(OUTRUNNER.name, OUTRUNNER.given, OUTRUNNER.data, () => twice);
    expect(unknowns.map(({ deviation }) => deviation)).toEqual(new Array(7).fill(0.05));
    const base = OUTRUNNER.system.heat.windingToStator;
    const power = (n: number) =>
      heatWrittenOut(OUTRUNNER.name, OUTRUNNER.given, OUTRUNNER.data, ({ heat }) => ({
        ...twice,
        outside: 0.2 * (heat.windingToStator / base) ** n,
        throughFlow: n < 0 ? Number.NaN : 0.4,
      })).unknowns[3].deviation;
    expect(power(0.5) / power(0.25)).toBeCloseTo(2, 2);
    expect(power(-0.5)).toBeCloseTo(power(0.5), 2);
    expect(power(100)).toBeCloseTo(Math.log(5) / 1.96, 12);
  });

  it('that cannot be written are told', () => {
    const { motor: _, ...rest } = OUTRUNNER.given;
    expect(() => heatWrittenOut(OUTRUNNER.name, rest, OUTRUNNER.data, begunOf())).toThrow(RangeError);
  });
});
