import { editDistance, nearestUnit } from '@shaftwork/sim-core/quantities/nearest-unit';
import { readQuantity } from '@shaftwork/sim-core/quantities/read-quantity';
import { describe, expect, it } from 'vitest';

describe('editDistance', () => {
  it.each([
    ['', '', 0],
    ['ohm', 'ohm', 0],
    ['ohm', 'omh', 1],
    ['mohm', 'ohm', 1],
    ['rpm', 'rpn', 1],
    ['kitten', 'sitting', 3], // the textbook example
    ['', 'abc', 3],
  ])('%j → %j: %d', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });
});

describe('the nearest valid spelling', () => {
  it.each([
    ['2200 mAH', 'charge', 'mA·h'],
    ['2200 MAH', 'charge', 'mA·h'],
    ['65 mOHM', 'resistance', 'mohm'],
    ['65 omh', 'resistance', 'ohm'],
    ['10 KM/H', 'speed', 'km/h'],
    ['10 knt', 'speed', 'kn'],
    ['610 rpn/V', 'speedConstant', 'rpm/V'],
    ['8590 Rpm', 'angularSpeed', 'rpm'],
    ['34.7 gcm²', 'inertia', 'g·cm²'],
    ['12 MM', 'length', 'mm'],
    ['5 Kg', 'mass', 'kg'],
    ['1.8 W/k', 'conductance', 'W/K'],
    ['20 mins', 'time', 'min'],
    ['10 W/m² K', 'heatTransferCoefficient', 'W/(m^2 K)'],
  ] as const)('%s (%s): %s', (text, dimension, nearest) => {
    expect(readQuantity(text, dimension)).toMatchObject({ ok: false, nearest });
  });

  it.each([
    ['65 furlong', 'resistance'],
    ['65 Q', 'current'],
    ['5 apples', 'mass'],
  ] as const)('is not guessed where nothing is near: %s', (text, dimension) => {
    const read = readQuantity(text, dimension);
    expect(read).toMatchObject({ ok: false, kind: 'wrong-unit' });
    expect(read).not.toHaveProperty('nearest');
  });
});

it('knows what people say for a short symbol', () => {
  const nearest = (text: string, dimension: 'mass' | 'time' | 'current'): string | undefined =>
    nearestUnit(text, dimension, (unit) => ['g', 's', 'h', 'A'].includes(unit));
  expect([nearest('gr', 'mass'), nearest('secs', 'time'), nearest('Amps', 'current')]).toEqual(['g', 's', 'A']);
});
