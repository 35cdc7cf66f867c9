import { airDensity } from '@shaftwork/sim-core/media/air';
import { pressureAtAltitude } from '@shaftwork/sim-core/media/standard-atmosphere';
import { emptyPropellerPoint, evaluatePropeller } from '@shaftwork/sim-core/parts/propeller/propeller-laws';
import { complete } from '@shaftwork/sim-core/provenance/complete/complete';
import { halfWidth95 } from '@shaftwork/sim-core/quantities';
import { prepareScenario, runScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { SMALLEST } from '../../scenario/smallest-scenario.js';
import { boat, dataOf, problemsOf, type Section } from '../drives.js';

const prepared = (points: string, more = '') =>
  prepareScenario(
    new Map([
      [
        'a.yaml',
        SMALLEST.replace(/propeller: .*/, `propeller: { kind: measured-points, diameter: 9 in, points: [${points}]${more} }`).replace(
          'profile:',
          'ambient: { air: 15 °C, altitude: 0 m }\nprofile:',
        ),
      ],
    ]),
    'a.yaml',
  );
function tableOf(points: string, more = '') {
  const made = prepared(points, more);
  if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
  const { load, motor } = made.prepared.candidates[0].data;
  if (load.kind !== 'propeller') throw new Error('a propeller');
  return { table: load.table, motor };
}

describe('measured points', () => {
  it('take the air they were measured in', () => {
    const row = 'shaft_speed: 9000 rpm, thrust: 8 N, torque: 0.1 N·m';
    const here = tableOf(`{ ${row} }`).table;
    const high = tableOf(`{ ${row} }`, ', measured_at: { air: 30 °C, altitude: 1500 m }').table;
    const ratio = airDensity(288.15, pressureAtAltitude(0)) / airDensity(303.15, pressureAtAltitude(1500));
    expect(high.thrust[0] / here.thrust[0]).toBeCloseTo(ratio, 12);
    expect(high.power[0] / here.power[0]).toBeCloseTo(ratio, 12);
  });

  it('take their torque from voltage and current of this motor by balance of power', () => {
    const { motor } = tableOf('{ shaft_speed: 9000 rpm, thrust: 8 N, torque: 0.1 N·m }');
    const shaft = (9000 * 2 * Math.PI) / 60;
    const loss = motor.hysteresisTorque.value + motor.frictionTorque.value + motor.eddyTorque.value * shaft;
    // by hand, the controller's 60 mA and 4 mΩ taken off; the motor's current follows from V·i − X·i² = V·i_b, X = (3/2π)·7·ω·L. 0.5 %: switching
    const [voltage, reactance] = [11.4, (3 / (2 * Math.PI)) * 7 * shaft * motor.inductance.value];
    const watts = voltage * (11 - 0.06);
    const i = (voltage - Math.sqrt(voltage ** 2 - 4 * reactance * watts)) / (2 * reactance);
    const torque = (watts - (motor.resistance.value + 4e-3) * i ** 2) / shaft - loss;
    const by = tableOf('{ shaft_speed: 9000 rpm, thrust: 8 N, battery_current: 11 A, voltage: 11.4 V }').table;
    const direct = tableOf(`{ shaft_speed: 9000 rpm, thrust: 8 N, torque: ${torque} N·m }`).table;
    expect(Math.abs(by.power[0]! / direct.power[0]! - 1)).toBeLessThan(0.005);
    // without the voltage only the torque constant is left
    const current = tableOf('{ shaft_speed: 9000 rpm, thrust: 8 N, battery_current: 11 A }').table;
    const constant = tableOf(`{ shaft_speed: 9000 rpm, thrust: 8 N, torque: ${motor.torqueConstant.value * 11 - loss} N·m }`).table;
    expect(current.power[0]).toBeCloseTo(constant.power[0]!, 12);
  });

  it('refuse a current that cannot have been taken with this motor', () => {
    const made = prepared('{ shaft_speed: 19000 rpm, thrust: 8 N, battery_current: 11 A, voltage: 11.4 V }');
    expect(made.kind === 'problems' && made.problems[0].found).toContain('does not reach at that voltage');
  });
});

describe('how far off a measurement may be', () => {
  const factors = (points: string) => {
    const made = prepared(points);
    if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
    const { load } = made.prepared.candidates[0].data;
    if (load.kind !== 'propeller') throw new Error('a propeller');
    return [load.thrustFactor, load.powerFactor];
  };
  const widths = (points: string) => factors(points).map(({ unknown }) => halfWidth95(unknown.spread));
  const rules = (points: string) => factors(points).map(({ origin }) => origin.kind !== 'given' && origin.rule);

  it('is said: one point is a square law, several a fit', () => {
    expect(rules('{ shaft_speed: 9000 rpm, thrust: 8 N, torque: 0.1 N·m }')).toEqual(['one-point-thrust-error', 'one-point-power-error']);
    expect(
      rules('{ shaft_speed: 9000 rpm, thrust: 8 N, torque: 0.1 N·m }, { shaft_speed: 6000 rpm, thrust: 3.5 N, torque: 44 mN·m }'),
    ).toEqual(['fitted-thrust-error', 'fitted-power-error']);
  });
  it('is twice the scatter of the points about the fit, and is remarked on where they lie apart', () => {
    // thrust over speed squared: 1 and 1.3, weighed by the fourth power of speed; torque on one law
    const points = '{ shaft_speed: 6000 rpm, thrust: 4 N, torque: 64 mN·m }, { shaft_speed: 9000 rpm, thrust: 11.7 N, torque: 144 mN·m }';
    const [low, high] = [6000 ** 4, 9000 ** 4];
    const fit = (low + 1.3 * high) / (low + high);
    const scatter = Math.sqrt(((1 / fit - 1) ** 2 + (1.3 / fit - 1) ** 2) / 2);
    expect(widths(points)[0]).toBeCloseTo(2 * scatter, 10);
    expect(widths(points)[1]).toBeCloseTo(0.05, 10);
    const made = prepared(points);
    if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
    const found = runScenario(made.prepared).audit!.oddities.filter(({ kind }) => kind === 'measured-points-apart');
    expect(found).toHaveLength(1);
    expect(found[0]!.value).toBeCloseTo(scatter, 10);
    expect(found[0]!.says).toContain('thrust');
  });
  // beside it ± 10 % for other speeds than the one measured
  it('is what was written beside the points where something was', () => {
    const point = '{ shaft_speed: 9000 rpm ± 1 %, thrust: 8 N ± 3 %, torque: 0.1 N·m ± 1 % }';
    const [thrust, power] = widths(point);
    // and besides, taken to other speeds from one, 12 % of thrust and 10 % of power
    expect(thrust).toBeCloseTo(Math.hypot(0.03, 0.02, 0.12), 3);
    expect(power).toBeCloseTo(Math.hypot(0.1, 0.01, 0.02), 3);
    expect(widths('{ shaft_speed: 9000 rpm ± 1 %, thrust: 8 N, shaft_power: 90 W ± 4 % }')[1]).toBeCloseTo(Math.hypot(0.1, 0.04, 0.03), 3);
  });
});

describe('a current read with one of several motors', () => {
  const point = '{ shaft_speed: 9000 rpm, thrust: 8 N, battery_current: 11 A, voltage: 11.4 V }';
  const two = (more: string) => {
    const text = SMALLEST.replace(/propeller: .*/, `propeller: { kind: measured-points, diameter: 9 in, points: [${point}]${more} }`);
    const candidate = /candidates:\n([\s\S]*)$/.exec(text)![1]!;
    const second = candidate.replace(/name: .*/, 'name: Other').replace(/resistance: \S+ mohm/, 'resistance: 150 mohm');
    return prepareScenario(new Map([['a.yaml', `${text.trimEnd()}\n${second}`]]), 'a.yaml');
  };
  it('asks whose it was', () => {
    for (const [more, found] of [
      ['', 'nothing'],
      [', measured_with: Nobody', '"Nobody"'],
    ] as const) {
      const made = two(more);
      if (made.kind !== 'problems') throw new Error('it was taken');
      expect(made.problems.map(({ place }) => place.path)).toEqual(['propeller.measured_with']);
      expect(made.problems[0]!.found).toContain(found);
      expect(made.problems[0]!.hint).toContain('Other');
    }
  });
  it('stays with that motor when another winding of it is asked for', () => {
    const made = prepared(`{ shaft_speed: 9000 rpm, thrust: 8 N, battery_current: 11 A, voltage: 11.4 V }`);
    if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
    const [one] = made.prepared.candidates;
    const kv = one.given.motor!.kv!;
    const rewound = complete('rewound', { ...one.given, motor: { ...one.given.motor!, kv: { ...kv, value: 0.8 * kv.value } } });
    if (!rewound.ok) throw new Error(JSON.stringify(rewound.problems));
    const [before, after] = [one.data, rewound.data].map(({ load }) => (load.kind === 'propeller' ? load.table.power[0]! : Number.NaN));
    expect(after).toBe(before);
  });
  it('gives every candidate the propeller that that motor turned', () => {
    const powers = ['', 'Other'].map((name) => {
      const first = /name: (.*)/.exec(SMALLEST)![1]!;
      const made = two(`, measured_with: ${name === '' ? first : name}`);
      if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
      const tables = made.prepared.candidates.map(({ data }) => (data.load.kind === 'propeller' ? data.load.table.power[0]! : Number.NaN));
      expect(tables[0]).toBe(tables[1]);
      return tables[0]!;
    });
    expect(powers[1]).not.toBeCloseTo(powers[0]!, 3);
  });
});

describe('propellers that cannot be, or are half known', () => {
  it('say how far off an estimate by the figure of merit may be, in place of a measurement’s own tolerance', () => {
    const widths = (points: string): number[] => {
      const made = prepared(points);
      if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
      const { load } = made.prepared.candidates[0].data;
      if (load.kind !== 'propeller') throw new Error('a propeller');
      return [load.thrustFactor, load.powerFactor].map(({ unknown }) => Math.round(100 * halfWidth95(unknown.spread)));
    };
    expect(widths('{ shaft_speed: 9000 rpm, thrust: 8 N, torque: 0.1 N·m }')).toEqual([13, 11]);
    expect(widths('{ shaft_speed: 9000 rpm, thrust: 8 N }')).toEqual([13, 45]);
    expect(widths('{ shaft_speed: 9000 rpm, torque: 0.1 N·m }')).toEqual([30, 11]);
  });

  it('are set by a point at rest beside a calculated blade, which is given back, and surer then', () => {
    const loads = ['', ', points: [{ shaft_speed: 9000 rpm, thrust: 8 N, torque: 0.1 N·m }]'].map((points) => {
      const text = SMALLEST.replace(/propeller: .*/, `propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in${points} }`);
      const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
      if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
      const { load } = made.prepared.candidates[0].data;
      if (load.kind !== 'propeller') throw new Error('a propeller');
      return load;
    });
    const out = emptyPropellerPoint();
    const { diameter, table, density, kinematicViscosity } = loads[1];
    const medium = { density: density.value, kinematicViscosity: kinematicViscosity.value };
    evaluatePropeller({ diameter: diameter.value, table, thrustFactor: 1, powerFactor: 1 }, medium, 300 * Math.PI, 0, out);
    expect(out.thrust).toBeCloseTo(8, 9);
    expect(out.torque).toBeCloseTo(0.1, 9);
    const width = ({ shape }: (typeof loads)[number]) => halfWidth95(shape!.amount.unknown.spread);
    expect(width(loads[1])).toBeLessThan(0.9 * width(loads[0]));
  });
  it('say that points under way do not set a calculated blade', () => {
    const point = '{ shaft_speed: 9000 rpm, thrust: 5 N, torque: 0.13 N·m, vehicle_speed: 10 m/s }';
    const text = SMALLEST.replace(/propeller: .*/, `propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in, points: [${point}] }`);
    const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
    if (made.kind !== 'problems') throw new Error('it was taken');
    expect(made.problems[0].found).toContain('under way');
  });

  it('are remarked on where print and measured twist disagree, which widens their doubt, and where they are a fan’s', () => {
    const run = (blade: string) => {
      const text = SMALLEST.replace(/propeller: .*/, `propeller: { kind: blade-element, diameter: 9 in, pitch: 6 in, ${blade} }`);
      const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
      if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
      const { load } = made.prepared.candidates[0].data;
      if (load.kind !== 'propeller') throw new Error('a propeller');
      const kinds = runScenario(made.prepared).audit!.oddities.map(({ kind }) => kind);
      return { kinds, width: halfWidth95(load.shape!.amount.unknown.spread) };
    };
    // 6 in of pitch on 9 in stand at 15.8° at three quarters of the radius, the face ¾° below the chord
    const stations = (twist: number) =>
      `family: stout, stations: [${[0.2, 0.75, 1].map((radius) => `{ radius: ${radius}, chord: 0.16, twist: ${twist}° }`).join(', ')}]`;
    const [agreed, apart] = [run(stations(16)), run(stations(12))];
    expect(agreed.kinds).not.toContain('blade-angles-apart');
    expect(apart.kinds).toContain('blade-angles-apart');
    expect(apart.width).toBeGreaterThan(2 * agreed.width);
    expect(agreed.kinds).not.toContain('many-blades');
    expect(run('blades: 11').kinds).toContain('many-blades');
  });

  it('doubt a blade more whose family was not said', () => {
    const widths = ['', ', family: thin', ', family: broad'].map((family) => {
      const text = SMALLEST.replace(/propeller: .*/, `propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in${family} }`);
      const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
      if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
      const { load } = made.prepared.candidates[0].data;
      if (load.kind !== 'propeller') throw new Error('a propeller');
      // at rest, at the middle of the Reynolds numbers
      const power = load.table.power[2 * load.table.advanceRatio.length]!;
      return { width: halfWidth95(load.shape!.amount.unknown.spread), power };
    });
    expect(widths[0]!.power).toBe(widths[1]!.power);
    expect(widths[0]!.width / widths[1]!.width).toBeCloseTo(4 / 3, 9);
    // what the wider doubt is for
    expect(widths[2]!.power / widths[1]!.power).toBeGreaterThan(1.3);
  });

  it.each([
    ['one row', '[{ advance_ratio: 0, thrust: 0.1, power: 0.04 }]', /at least two advance ratios/],
    [
      'more thrust than its power gives',
      '[{ advance_ratio: 0, thrust: 0.2, power: 0.02 }, { advance_ratio: 0.6, thrust: 0, power: 0.01 }]',
      /momentum theory/,
    ],
  ])('refuse a table of %s', (_, table, found) => {
    const text = SMALLEST.replace(/propeller: .*/, `propeller: { kind: coefficients, diameter: 9 in, table: ${table} }`);
    const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
    if (made.kind !== 'problems') throw new Error('it was taken');
    expect(made.problems).toHaveLength(1);
    expect(made.problems[0]!.found).toMatch(found);
  });
  it('coast on their vehicle without giving it thrust', () => {
    const table = '[{ advance_ratio: 0, thrust: 0.1, power: 0.04 }, { advance_ratio: 0.5, thrust: 0.05, power: 0.035 }]';
    const text = SMALLEST.replace(
      /propeller: .*/,
      `propeller: { kind: coefficients, diameter: 10 in, table: ${table} }\nvehicle: { mass: 1 kg, drag_area: 0.001 m2 }`,
    ).replace(
      /profile: .*/,
      'profile: [{ for: 5 s, throttle: 0 %, vehicle_speed: 10 m/s }, { for: 60 s, throttle: 0 % }, { for: 60 s, throttle: 100 % }]',
    );
    const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
    if (made.kind !== 'ready') throw new Error(JSON.stringify(made));
    const [one] = runScenario(made.prepared).candidates;
    expect(one.end).toBe('finished');
    const { time, thrust, vehicleSpeed } = one.trace;
    const coasting = time.findIndex((t) => t > 6);
    expect(thrust[coasting]).toBeLessThan(0);
    expect(Math.max(...vehicleSpeed)).toBeLessThan(45);
    expect(one.headline.driveEfficiency.nominal).toBeLessThan(1);
  });

  it.each([
    ['diameter: 9 in, pitch: 45 in', 'propeller.pitch'],
    ['diameter: 9 in, pitch: 1 in', 'propeller.pitch'],
    ['diameter: 9 mm, pitch: 4.5 mm', 'propeller.diameter'],
    ['diameter: 9 m, pitch: 4.5 m', 'propeller.diameter'],
  ])('refuse %s', (size, path) => {
    const text = SMALLEST.replace(/propeller: .*/, `propeller: { kind: blade-element, ${size} }`);
    const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
    if (made.kind !== 'problems') throw new Error('it was taken');
    expect(made.problems.map(({ place }) => place.path)).toEqual([path]);
  });
});

describe('a load that is not all there', () => {
  it('is asked for: the pitch of a screw', () => {
    expect(problemsOf(boat({ propeller: { kind: 'marine-series', diameter: '40 mm' } }))).toMatchObject([
      { place: { path: 'propeller.pitch_ratio' }, found: 'no pitch' },
    ]);
  });

  it('a screw’s pitch over its diameter is its pitch ratio', () => {
    const screw = (more: Section) => dataOf(boat({ propeller: { kind: 'marine-series', diameter: '40 mm', ...more } })).load;
    const [by, direct] = [screw({ pitch: '44 mm' }), screw({ pitch_ratio: 1.1 })];
    if (by.kind !== 'propeller' || direct.kind !== 'propeller') throw new Error('screws');
    by.table.thrust.forEach((each, k) => {
      expect(each).toBeCloseTo(direct.table.thrust[k], 12);
    });
  });
});
