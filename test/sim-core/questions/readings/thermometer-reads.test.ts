/** What a thermometer shows during a run and after its stop, against its law of first order stepped finely here; when it is looked at, and in which stream. */
import { THERMOMETER_PLACES, type ThermometerPlaceId } from '@shaftwork/sim-core/heat/thermometer';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import {
  looksBefore,
  rimSpeedIn,
  shownBy,
  thermometerAt,
  thermometerExcess,
} from '@shaftwork/sim-core/questions/readings/thermometer-reads';
import { coolDown } from '@shaftwork/sim-core/questions/run/after-stop';
import { simulate } from '@shaftwork/sim-core/questions/simulate/simulate';
import { describe, expect, it } from 'vitest';
import { preparedOf } from '../../provenance/drives.js';

const { candidates, scenario } = preparedOf({
  profile: [
    { for: '20 s', throttle: '40 %' },
    { for: '20 s', throttle: '90 %' },
  ],
});
const system = realise(candidates[0].data);
const STEP = 0.25;
const fine = Array.from({ length: 160 }, (_, k) => STEP * k);
const OPTIONS = { method: 'dormand-prince', relative: 1e-5, record: false } as const;
const run = simulate(system, scenario.profile, { ...OPTIONS, keepAt: Float64Array.from(fine) });
const { at } = run.kernel;
const air = system.surroundings.motorAirTemperature;
const STREAM = 12;

/** Of winding or can, from the kept states and, after the stop, from the cooling: θ' = (s·excess − θ)/τ in small steps. */
function stepped(id: 'in-slot' | 'on-can' | 'beside-coils', after: number | undefined): number {
  const place = THERMOMETER_PLACES[id];
  const { capacity } = system.heat;
  const mean = (bodies: { winding: number; stator: number; can: number; magnets: number }): number =>
    id === 'in-slot'
      ? bodies.winding
      : id === 'on-can'
        ? bodies.can
        : (capacity.winding * bodies.winding +
            capacity.stator * bodies.stator +
            capacity.can * bodies.can +
            capacity.magnets * bodies.magnets) /
          (capacity.winding + capacity.stator + capacity.can + capacity.magnets);
  const of = (y: Float64Array): number =>
    mean({ winding: y[at.winding], stator: y[at.stator], can: y[at.can], magnets: y[at.magnets] }) - air;
  const share = (speed: number): number => place.share / (1 + (place.film * speed) / 10);
  // before the run all was as cold as at its start
  let theta = share(STREAM) * of(run.kept[0]);
  for (const y of run.kept) theta += (STEP / place.lag) * (share(STREAM) * of(y) - theta);
  if (after === undefined) return theta;
  const steps = Math.round(after / STEP);
  const cooled =
    coolDown(
      system,
      run.state,
      Array.from({ length: steps + 1 }, (_, k) => STEP * k),
      1e-5,
    ) ?? [];
  for (const { bodies } of cooled.slice(1)) theta += (STEP / place.lag) * (share(0) * (mean(bodies) - air) - theta);
  return theta;
}
function shown(id: ThermometerPlaceId, after: number | undefined, infrared = false) {
  const place = thermometerAt(id, infrared);
  const looks = looksBefore(place, run.time);
  const kept = simulate(system, scenario.profile, { ...OPTIONS, keepAt: Float64Array.from(looks) }).kept;
  const known = new Map(kept.map((y, k) => [looks[k], y]));
  return thermometerExcess(place, system, run, known, () => STREAM, after);
}

describe('a thermometer', () => {
  it.each([
    ['in-slot', undefined],
    ['on-can', undefined],
    ['beside-coils', undefined],
    ['in-slot', 2],
    ['in-slot', 60],
    ['on-can', 12],
    ['beside-coils', 60],
  ] as const)('%s follows its source late: after %s s', (id, after) => {
    const [found, own] = [shown(id, after).excess, stepped(id, after)];
    expect(own).toBeGreaterThan(0.05);
    expect(Math.abs(found / own - 1)).toBeLessThan(0.02);
  });

  it('knows the winding of its moment', () => {
    expect(shown('on-can', undefined).winding).toBe(run.state[at.winding]);
    expect(shown('on-can', 0).winding).toBeCloseTo(run.state[at.winding], 9);
    for (const after of [3, 100]) {
      const [cooled] = coolDown(system, run.state, [after], 1e-5) ?? [];
      expect(shown('on-can', after).winding).toBeCloseTo(cooled.bodies.winding, 3);
    }
  });

  it('is looked at five and twenty times over its last five lags, or over the whole run', () => {
    const place = { ...THERMOMETER_PLACES['on-can'], lag: 10 };
    expect(looksBefore(place, 100)).toEqual(Array.from({ length: 25 }, (_, k) => 50 + 2 * k));
    // a run that is shorter is followed from its beginning, where all is as cold as it began
    expect(looksBefore(place, 20)).toEqual(Array.from({ length: 25 }, (_, k) => expect.closeTo(0.8 * k, 12)));
  });

  it('that only looks takes no share and is not late, and sees by the emissivity', () => {
    expect(thermometerAt('on-can', false)).toBe(THERMOMETER_PLACES['on-can']);
    expect(thermometerAt('on-can', true)).toEqual({ ...THERMOMETER_PLACES['on-can'], share: 1, factor: 1.2, lag: 0.1 });
    expect(shown('on-can', undefined, true).excess).toBeCloseTo(run.state[at.can] - air, 1);
    expect(shownBy(40, 300, undefined)).toBe(340);
    // set to 0.95 on a surface of that it shows the surface; on one of half as much a little over half of the excess, by the fourth powers
    expect(shownBy(40, 300, 0.95)).toBeCloseTo(340, 9);
    expect(shownBy(40, 300, 0.475)).toBeCloseTo((300 ** 4 + 0.5 * (340 ** 4 - 300 ** 4)) ** 0.25, 9);
  });

  it('of what burns out foretells nothing', () => {
    const glowing = run.state.slice();
    glowing[at.winding] = 5000;
    const { excess, winding } = thermometerExcess(
      thermometerAt('in-slot', false),
      system,
      { ...run, state: glowing },
      new Map(),
      () => 0,
      60,
    );
    expect([excess, winding]).toEqual([Number.NaN, Number.NaN]);
  });
});

it('the rim runs with half the can’s diameter times the speed, at the first recorded moment from then on, and not beyond', () => {
  const recorded = simulate(system, scenario.profile, { ...OPTIONS, record: true });
  const { time, shaftSpeed } = recorded.recorded?.trace ?? { time: [], shaftSpeed: [] };
  const rim = rimSpeedIn(recorded, 0.03);
  expect(rim(time[5])).toBe(0.015 * shaftSpeed[5]);
  expect(rim(0.5 * (time[5] + time[6]))).toBe(0.015 * shaftSpeed[6]);
  expect(rim(shaftSpeed.length === 0 ? 0 : time[time.length - 1] + 1)).toBe(0);
  expect(rimSpeedIn(undefined, 0.03)(1)).toBe(0);
});
