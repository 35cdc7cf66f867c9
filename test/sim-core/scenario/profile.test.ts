import { describe, expect, it } from 'vitest';
import { changed, problemsOf, scenarioOf } from './smallest-scenario.js';

const profileOf = (entries: string) => scenarioOf(changed('[{ for: 3 min, throttle: 80 % }]', `[${entries}]`)).profile;
const kindsOf = (entries: string) =>
  problemsOf(changed('[{ for: 3 min, throttle: 80 % }]', `[${entries}]`)).map(({ kind, place }) => `${kind} ${place.path}`);

describe('profile', () => {
  it.each([
    ['throttle: 60 to 100 %', 'throttle', 0.6, 1],
    ['throttle: 0 %', 'throttle', 0, 0],
    ['throttle: 0.5', 'throttle', 0.5, 0.5],
    ['vehicle_speed: 36 km/h', 'vehicleSpeed', 10, 10],
    ['shaft_speed: 0 to 6000 rpm', 'shaftSpeed', 0, 200 * Math.PI],
    ['battery_power: 150 W', 'batteryPower', 150, 150],
    ['battery_current: 15 A', 'batteryCurrent', 15, 15],
    ['motor_current: 20 A to 30 A', 'motorCurrent', 20, 30],
    ['thrust: 12 N', 'thrust', 12, 12],
  ])('holds %s', (written, hold, from, to) => {
    const [step] = profileOf(`{ for: 45 s, label: a, ${written} }`);
    expect(step).toMatchObject({ duration: 45, label: 'a', hold });
    expect(step!.value.from).toBeCloseTo(from, 10);
    expect(step!.value.to).toBeCloseTo(to, 10);
    expect(step).not.toHaveProperty('vehicleSpeed');
  });

  it('takes a vehicle speed beside another hold for a condition', () => {
    expect(profileOf('{ for: 25 s, vehicle_speed: 12 m/s, throttle: 100 % }')).toEqual([
      { duration: 25, hold: 'throttle', value: { from: 1, to: 1 }, vehicleSpeed: { from: 12, to: 12 } },
    ]);
  });

  it('reads climb with a held speed, and grade with any hold', () => {
    expect(profileOf('{ for: 1 s, vehicle_speed: 17 m/s, climb: 3.2 m/s }')[0]!.climb).toEqual({ from: 3.2, to: 3.2 });
    expect(profileOf('{ for: 1 s, throttle: 50 %, grade: -5 to 5 % }')[0]!.grade).toEqual({ from: -0.05, to: 0.05 });
  });

  it('unrolls repeats inside repeats in order', () => {
    const steps = profileOf('{ repeat: 2, steps: [{ for: 1 s, throttle: 10 % }, { repeat: 3, steps: [{ for: 2 s, throttle: 20 % }] }] }');
    expect(steps.map(({ duration }) => duration)).toEqual([1, 2, 2, 2, 1, 2, 2, 2]);
  });

  it.each([
    ['{ for: 1 s, throttle: 120 % }', ['out-of-range profile[0].throttle']],
    ['{ for: 1 s, vehicle_speed: 3 to -2 m/s }', ['out-of-range profile[0].vehicle_speed']],
    ['{ for: 0 s, throttle: 10 % }', ['out-of-range profile[0].for']],
    ['{ for: 1 s, throttle: 10 %, motor_current: 3 A }', ['conflict profile[0]']],
    ['{ for: 1 s, throttle: 10 %, vehicle_speed: 9 m/s, climb: 1 m/s }', ['conflict profile[0].climb']],
    ['{ for: 1 s, vehicle_speed: 9 m/s, climb: 1 m/s, grade: 2 % }', ['conflict profile[0].grade']],
    ['{ for: 1 s, vehicle_speed: 9 m/s, climb: 10 m/s }', ['conflict profile[0].climb']],
    ['{ for: 1 s, vehicle_speed: 9 to 3 m/s, climb: 4 m/s }', ['conflict profile[0].climb']],
    ['{ for: 1 s, vehicle_speed: 9 m/s, climb: -10 m/s }', ['conflict profile[0].climb']],
    ['{ repeat: 2 }', ['missing-datum profile[0].steps']],
    ['{ repeat: 2, steps: [] }', ['missing-datum profile[0].steps']],
    ['{ steps: [{ for: 1 s, throttle: 10 % }] }', ['missing-datum profile[0].repeat']],
    ['{ repeat: 2, for: 3 s, steps: [{ for: 1 s, throttle: 10 % }] }', ['conflict profile[0].for']],
    ['{ repeat: 0, steps: [{ for: 1 s, throttle: 10 % }] }', ['out-of-range profile[0].repeat']],
    ['{ repeat: 2, steps: [{ for: 1 s }] }', ['missing-datum profile[0].steps[0]']],
    ['{ fro: 1 s, throttle: 10 % }', ['unknown-key profile[0].fro']],
    ['{ duration: 1 s, throttle: 10 % }', ['unknown-key profile[0].duration']],
  ])('tells what is wrong with %s', (entries, kinds) => expect(kindsOf(entries)).toEqual(kinds));

  it('reads 100 000 steps and refuses one more before making them', () => {
    const repeated = (count: number) => `{ repeat: 1000, steps: [{ repeat: ${count}, steps: [{ for: 1 s, throttle: 5 % }] }] }`;
    expect(profileOf(repeated(100))).toHaveLength(100_000);
    expect(kindsOf(`${repeated(100)}, { for: 1 s, throttle: 5 % }`)).toEqual(['too-large profile']);
    expect(
      kindsOf('{ repeat: 100000, steps: [{ repeat: 100000, steps: [{ repeat: 100000, steps: [{ for: 1 s, throttle: 5 % }] }] }] }'),
    ).toEqual(['too-large profile']);
  });
});
