import { airDensity } from '@shaftwork/sim-core/media/air';
import { pressureAtAltitude } from '@shaftwork/sim-core/media/standard-atmosphere';
import { halfWidth95 } from '@shaftwork/sim-core/quantities';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { SMALLEST } from '../scenario/smallest-scenario.js';

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
  if (!('ok' in made) || !made.ok) throw new Error(JSON.stringify(made));
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

  it('take their torque from the current of this motor at full throttle', () => {
    const { motor } = tableOf('{ shaft_speed: 9000 rpm, thrust: 8 N, torque: 0.1 N·m }');
    const shaft = (9000 * 2 * Math.PI) / 60;
    const loss = motor.hysteresisTorque.value + motor.frictionTorque.value + motor.eddyTorque.value * shaft;
    const torque = motor.torqueConstant.value * 11 - loss;
    const by = tableOf('{ shaft_speed: 9000 rpm, thrust: 8 N, battery_current: 11 A, voltage: 11.4 V }').table;
    const direct = tableOf(`{ shaft_speed: 9000 rpm, thrust: 8 N, torque: ${torque} N·m }`).table;
    expect(by.power[0]).toBeCloseTo(direct.power[0], 12);
  });

  it('refuse a current that cannot have been taken with this motor', () => {
    const made = prepared('{ shaft_speed: 19000 rpm, thrust: 8 N, battery_current: 11 A, voltage: 11.4 V }');
    expect('ok' in made && !made.ok && made.problems[0].found).toContain('does not reach at that voltage');
  });
});

describe('propellers that cannot be, or are half known', () => {
  it('say how far off an estimate by the figure of merit may be, in place of a measurement’s own tolerance', () => {
    const widths = (points: string): number[] => {
      const made = prepared(points);
      if (!('ok' in made) || !made.ok) throw new Error(JSON.stringify(made));
      const { load } = made.prepared.candidates[0].data;
      if (load.kind !== 'propeller') throw new Error('a propeller');
      return [load.thrustFactor, load.powerFactor].map(({ unknown }) => Math.round(100 * halfWidth95(unknown.spread)));
    };
    expect(widths('{ shaft_speed: 9000 rpm, thrust: 8 N, torque: 0.1 N·m }')).toEqual([5, 5]);
    expect(widths('{ shaft_speed: 9000 rpm, thrust: 8 N }')).toEqual([5, 45]);
    expect(widths('{ shaft_speed: 9000 rpm, torque: 0.1 N·m }')).toEqual([30, 5]);
  });

  it.each([
    ['diameter: 9 in, pitch: 45 in', 'propeller.pitch'],
    ['diameter: 9 in, pitch: 1 in', 'propeller.pitch'],
    ['diameter: 9 mm, pitch: 4.5 mm', 'propeller.diameter'],
    ['diameter: 9 m, pitch: 4.5 m', 'propeller.diameter'],
  ])('refuse %s', (size, path) => {
    const text = SMALLEST.replace(/propeller: .*/, `propeller: { kind: blade-element, ${size} }`);
    const made = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
    if (!('ok' in made) || made.ok) throw new Error('it was taken');
    expect(made.problems.map(({ place }) => place.path)).toEqual([path]);
  });
});
