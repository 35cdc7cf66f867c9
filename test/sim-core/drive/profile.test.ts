import { isRotorHeld, profileDuration, rampAt, stepOfParts, withRamps } from '@shaftwork/sim-core/drive/profile';
import { expect, it } from 'vitest';

const even = (x: number) => ({ from: x, to: x });

it('a ramp runs evenly from its one end to its other', () => {
  expect([0, 0.25, 1].map((share) => rampAt({ from: 3, to: 7 }, share))).toEqual([3, 4, 7]);
  expect(rampAt({ from: 7, to: 3 }, 0.75)).toBe(4);
});

it('a rotor is held where a shaft speed of nought is held all the while', () => {
  expect(isRotorHeld({ hold: 'shaftSpeed', value: even(0) })).toBe(true);
  expect(isRotorHeld({ hold: 'shaftSpeed', value: { from: 0, to: 9 } })).toBe(false);
  expect(isRotorHeld({ hold: 'shaftSpeed', value: { from: 9, to: 0 } })).toBe(false);
  expect(isRotorHeld({ hold: 'throttle', value: even(0) })).toBe(false);
});

it('a profile lasts as long as its steps together', () => {
  expect(profileDuration([])).toBe(0);
  expect(profileDuration([20, 30, 5].map((duration) => ({ duration, hold: 'throttle', value: even(1) })))).toBe(55);
});

it('a step has what it is made of and nothing else', () => {
  const parts = { duration: 5, label: 'Out', value: even(4), vehicleSpeed: undefined, climb: undefined, grade: undefined };
  expect(stepOfParts({ ...parts, hold: 'throttle' })).toStrictEqual({ duration: 5, label: 'Out', hold: 'throttle', value: even(4) });
  const sloped = { ...parts, hold: 'vehicleSpeed', grade: even(0.1) } as const;
  expect(stepOfParts(sloped)).toStrictEqual({ duration: 5, label: 'Out', hold: 'vehicleSpeed', value: even(4), grade: even(0.1) });
  const towed = { ...parts, hold: 'thrust', vehicleSpeed: even(2), grade: even(0.1) } as const;
  expect(stepOfParts(towed)).toStrictEqual({
    duration: 5,
    label: 'Out',
    hold: 'thrust',
    value: even(4),
    vehicleSpeed: even(2),
    grade: even(0.1),
  });
  const climbing = { ...parts, hold: 'vehicleSpeed', climb: even(1) } as const;
  expect(stepOfParts(climbing)).toStrictEqual({ duration: 5, label: 'Out', hold: 'vehicleSpeed', value: even(4), climb: even(1) });
});

it('parts that exclude one another are refused', () => {
  const parts = { duration: 5, value: even(4) };
  const climb = /climb rate goes with a held speed/;
  expect(() => stepOfParts({ ...parts, hold: 'throttle', climb: even(1) })).toThrow(climb);
  expect(() => stepOfParts({ ...parts, hold: 'vehicleSpeed', climb: even(1), grade: even(0.1) })).toThrow(climb);
  expect(() => stepOfParts({ ...parts, hold: 'vehicleSpeed', climb: even(1), vehicleSpeed: even(4) })).toThrow(climb);
  expect(() => stepOfParts({ ...parts, hold: 'vehicleSpeed', vehicleSpeed: even(4) })).toThrow(/has it as its value/);
});

it('each ramp of a step is changed, and none appears', () => {
  const twice = ({ from, to }: { from: number; to: number }) => ({ from: 2 * from, to: 2 * to });
  const towed = stepOfParts({ duration: 5, hold: 'throttle', value: even(0.5), vehicleSpeed: { from: 1, to: 2 }, grade: even(0.1) });
  expect(withRamps(towed, twice)).toStrictEqual({ ...towed, value: even(1), vehicleSpeed: { from: 2, to: 4 }, grade: even(0.2) });
  const climbing = stepOfParts({ duration: 5, hold: 'vehicleSpeed', value: even(9), climb: even(1) });
  expect(withRamps(climbing, twice)).toStrictEqual({ ...climbing, value: even(18), climb: even(2) });
});
