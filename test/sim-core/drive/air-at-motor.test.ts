import { airAtMotor } from '@shaftwork/sim-core/drive/air-at-motor';
import { checkScenario } from '@shaftwork/sim-core/other-questions';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { prepareScenario } from '@shaftwork/sim-core/run-scenario';
import { describe, expect, it } from 'vitest';
import { demo } from '../../demo.js';

const { load } = realise(demo('hot-day-mapper').candidates[0].data);
if (load.kind !== 'propeller') throw new Error('the mapper has a propeller');
const shares = { airSpeed: 0, vehicleSpeedShare: 0, slipstreamShare: 0 };
/** What the stream gains [m/s] at `thrust` [N] and `speed` [m/s], by actuator-disc theory: thrust = 2·ρ·A·(V + v)·v (Glauert). */
const gainOf = (thrust: number, speed: number): number => {
  const disc = (Math.PI / 4) * load.diameter ** 2;
  let v = 1;
  for (let k = 0; k < 60; k++) v -= (2 * load.density * disc * (speed + v) * v - thrust) / (2 * load.density * disc * (speed + 2 * v));
  return 2 * v;
};

describe('air at the motor', () => {
  it('a share of the slipstream is one of its whole speed', () => {
    expect(airAtMotor({ ...shares, slipstreamShare: 0.6 }, load, 16, 8)).toBeCloseTo(0.6 * (16 + gainOf(8, 16)), 9);
    expect(airAtMotor({ ...shares, slipstreamShare: 0.6 }, load, 16, 0)).toBeCloseTo(9.6, 12);
    expect(airAtMotor({ ...shares, slipstreamShare: 1 }, load, 0, 8)).toBeCloseTo(gainOf(8, 0), 9);
  });

  it('the vehicle’s own speed counts once, by whichever share brings more of it', () => {
    const both = { airSpeed: 1, vehicleSpeedShare: 0.8, slipstreamShare: 0.3 };
    expect(airAtMotor(both, load, 10, 8)).toBeCloseTo(1 + 8 + 0.3 * gainOf(8, 10), 9);
  });

  it('without a slipstream it is its own and the vehicle’s share', () => {
    expect(airAtMotor({ airSpeed: 1, vehicleSpeedShare: 0.5, slipstreamShare: 0 }, load, 10, 8)).toBe(6);
  });

  it('a wake slows what comes to the propeller, not the vehicle', () => {
    const behind = { ...load, wakeFraction: 0.25 };
    expect(airAtMotor({ ...shares, slipstreamShare: 0.6 }, behind, 16, 8)).toBeCloseTo(0.6 * (12 + gainOf(8, 12)), 9);
  });

  it('a screw in water moves no air', () => {
    const screw = { ...load, density: 998 };
    expect(airAtMotor({ ...shares, slipstreamShare: 1 }, screw, 4, 30)).toBe(0);
  });
});

const boat = (air: string): string => `title: Slipstream in water
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 5 Ah }
propeller: { kind: marine-series, diameter: 38 mm, pitch_ratio: 1.2, blades: 3, area_ratio: 0.5 }
vehicle: { mass: 1.5 kg, drag: [{ speed: 3 m/s, force: 9 N }] }
profile: [{ for: 60 s, throttle: 80 % }]
${air}
candidates:
  - name: A
    motor: { layout: inrunner, kv: 2000 rpm/V, resistance: 40 mohm, no_load: { current: 1.5 A, voltage: 10 V }, mass: 150 g, can: { diameter: 36 mm, length: 50 mm }, maker_limits: { current: 40 A } }
`;
const prepare = (text: string) => {
  const preparation = prepareScenario(new Map([['a.yaml', text]]), 'a.yaml');
  if (preparation.kind !== 'ready') throw new Error(JSON.stringify(preparation, null, 1));
  return preparation.prepared;
};

it('no audit figure of a boat’s motor follows a share of its screw’s slipstream', () => {
  const [without, withShare] = ['0 %', '100 %'].map(
    (share) => checkScenario(prepare(boat(`cooling: { air: { share_of_slipstream: ${share}, openness: 0 % } }`))).audit,
  );
  expect(withShare).toEqual(without);
  expect(JSON.stringify(without)).toContain('ratedTimeToLimit');
});

it('an inrunner behind an air propeller stands in the same air as an outrunner', () => {
  const plane = (layout: string): string => `title: Plane
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
vehicle: { mass: 1 kg, wing: { area: 0.3 m2, aspect_ratio: 7, span_efficiency: 0.8, zero_lift_drag: 0.03, most_lift: 1.2 } }
profile: [{ for: 60 s, throttle: 80 %, vehicle_speed: 15 m/s }]
candidates:
  - { name: A, motor: { layout: ${layout}, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } } }
`;
  const [inside, outside] = ['inrunner', 'outrunner'].map((layout) => prepare(plane(layout)).candidates[0].data.heat);
  expect(inside.vehicleSpeedShare).toEqual(outside.vehicleSpeedShare);
  expect(inside.slipstreamShare).toEqual(outside.slipstreamShare);
  expect(inside.slipstreamShare.value).toBeGreaterThan(0);
});
