/** A drive from plain numbers is the drive of the scenario that says the same with units. */
import { prepareScenario, runScenario } from '@shaftwork/sim-core';
import { type DriveNumbers, driveFromNumbers, simulate } from '@shaftwork/sim-core/drive';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { expect, it } from 'vitest';

const TEXT = `
title: Two ways to say one drive
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, family: thin, diameter: 9 in, pitch: 4.5 in }
cooling: { air: { speed: 2 m/s } }
profile: [{ for: 40 s, throttle: 80 % }]
candidates:
  - name: One
    motor:
      layout: outrunner
      kv: 920 rpm/V
      resistance: 96 mohm
      no_load: { current: 0.9 A, voltage: 10 V }
      mass: 66 g
      can: { diameter: 27 mm, length: 32 mm }
`;
const NUMBERS: DriveNumbers = {
  battery: { chemistry: 'lithium-polymer', cells: { series: 3 }, capacity: 7920 },
  propeller: { kind: 'blade-element', family: 'thin', diameter: 9 * 0.0254, pitch: 4.5 * 0.0254 },
  cooling: { air: { speed: 2 } },
  motor: {
    layout: 'outrunner',
    kv: (920 * Math.PI) / 30,
    resistance: 0.096,
    noLoad: [{ current: 0.9, voltage: 10 }],
    mass: 0.066,
    can: { diameter: 0.027, length: 0.032 },
  },
};

it('makes the same system, number by number, and the same run', () => {
  const made = driveFromNumbers(NUMBERS);
  const prepared = prepareScenario(TEXT);
  if (made.kind !== 'ready' || prepared.kind !== 'ready') throw new Error(JSON.stringify([made, prepared]));
  const flat = (x: unknown, path = ''): [string, number][] =>
    typeof x === 'number'
      ? [[path, x]]
      : typeof x === 'object' && x !== null
        ? Object.entries(x).flatMap(([key, inner]) => flat(inner, `${path}.${key}`))
        : [];
  const theirs = new Map(flat(realise(prepared.prepared.candidates[0].data)));
  const ours = flat(made.system);
  expect(ours.length).toBeGreaterThan(500);
  expect(ours.length).toBe(theirs.size);
  for (const [path, value] of ours) {
    const other = theirs.get(path) ?? Number.NaN;
    if (Number.isFinite(other)) expect(Math.abs(value - other), path).toBeLessThanOrEqual(1e-9 * Math.abs(other));
    else expect(value, path).toBe(other);
  }
  const { highest } = simulate(made.system, [{ duration: 40, hold: 'throttle', value: { from: 0.8, to: 0.8 } }]);
  const [run] = runScenario(prepared.prepared).candidates;
  expect(highest.windingTemperature.value).toBeCloseTo(run.headline.peakWindingTemperature.nominal, 3);
});

it('names all that is missing or no number', () => {
  const bare = driveFromNumbers({ motor: {} });
  if (bare.kind !== 'problems') throw new Error('it was taken');
  expect(bare.problems.map(({ place }) => place.path)).toEqual(expect.arrayContaining(['motor.kv', 'motor.mass']));
  const broken = driveFromNumbers({
    ...NUMBERS,
    battery: { cells: { series: 3 }, capacity: Number.NaN },
    otherLoads: Number.POSITIVE_INFINITY,
  });
  if (broken.kind !== 'problems') throw new Error('it was taken');
  expect(broken.problems.map(({ kind, place }) => [kind, place.path])).toEqual([
    ['bad-number', 'battery.capacity'],
    ['bad-number', 'otherLoads'],
  ]);
});
