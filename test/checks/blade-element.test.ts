import { elementLoad, type Rotor, rotorCoefficients } from '@shaftwork/sim-core/parts/propeller/blade-element';
import { describe, expect, it } from 'vitest';
import { csvRows } from './csv-rows.js';

const DISC_REYNOLDS = 1e6; // neither polar below reads it

/**
 * Case A: a textbook propeller with a closed description (D 1.6 m, two blades, chord 0.10 m, pitch 1.0 m, 11 stations r = R/10 … R,
 * c_l = 6.2 α, c_d = 0.008 − 0.003 c_l + 0.01 c_l², 2100 rpm, 1.225 kg/m³, no losses, plain sum). Strip theory as in Glauert, 1935; the
 * figures were computed independently, so this verifies the equations and is no measurement. 1e-4: the printed digits and the plain sum.
 */
const DIAMETER = 1.6;
const TURNS = 2100 / 60;
const textbook: Rotor = {
  blades: 2,
  hubRadius: 0,
  losses: false,
  elements: Array.from({ length: 11 }, (_, i) => {
    const radius = 0.1 + (0.9 * i) / 10;
    return {
      radius,
      width: 0.09,
      chord: 0.1 / (DIAMETER / 2),
      twist: Math.atan(1.0 / (Math.PI * DIAMETER * radius)),
      polar: () => (angle: number) => {
        const lift = 6.2 * angle;
        return { lift, drag: 0.008 - 0.003 * lift + 0.01 * lift ** 2 };
      },
    };
  }),
};

describe('a textbook propeller', () => {
  it.each([
    [1, 1045.361193, 80.363868622],
    [5, 962.407923825, 81.30150171],
    [10, 843.134981104, 80.514191638],
    [20, 551.815917392, 68.246728268],
    [30, 195.775319296, 33.971104206],
    [34, 37.854059198, 12.209330731],
  ])('at %d m/s gives %d N and %d N·m', (speed, thrust, torque) => {
    const point = rotorCoefficients(textbook, speed / (TURNS * DIAMETER), DISC_REYNOLDS);
    const scale = 1.225 * TURNS ** 2 * DIAMETER ** 4;
    expect(Math.abs((point.thrustCoefficient * scale) / thrust - 1)).toBeLessThan(1e-4);
    expect(Math.abs((point.powerCoefficient * scale * DIAMETER) / (2 * Math.PI * torque) - 1)).toBeLessThan(1e-4);
  });
  it('at 20 m/s has CT 0.0561102 and an efficiency of 0.735351', () => {
    const advanceRatio = 20 / (TURNS * DIAMETER);
    const { thrustCoefficient, powerCoefficient } = rotorCoefficients(textbook, advanceRatio, DISC_REYNOLDS);
    expect(Math.abs(thrustCoefficient / 0.0561102 - 1)).toBeLessThan(1e-4);
    expect(Math.abs((advanceRatio * thrustCoefficient) / powerCoefficient / 0.735351 - 1)).toBeLessThan(1e-4);
  });
});

/**
 * Case B: six-inch propeller with the NACA 64 polar and Prandtl losses at 8000 rpm, published with A. Ning, "A simple solution method for the
 * blade element momentum equations with guaranteed convergence", Wind Energy 17, 2014. 3 % of the static values: hub cut-out and quadrature
 * (trapezoids there, with nothing between hub and first station in either) are not the same.
 */
const polar = csvRows('naca64-a17-polar.csv').map((row) => [Number(row['alpha_deg']), Number(row['cl']), Number(row['cd'])] as const);
const TIP = 3;
const HUB = 0.5; // in; from memory of the published case
const stations = csvRows('six-inch-propeller-geometry.csv').map((row) => ({
  radius: Number(row['r_in']) / TIP,
  chord: Number(row['chord_in']) / TIP,
  twist: (Number(row['theta_deg']) * Math.PI) / 180,
}));
const sixInch: Rotor = {
  blades: 2,
  hubRadius: HUB / TIP,
  losses: true,
  // the same trapezoids, from nothing at the hub to nothing at the tip: half the distance between a station's neighbours
  elements: stations.map((station, i) => ({
    ...station,
    width: ((stations[i + 1]?.radius ?? 1) - (stations[i - 1]?.radius ?? HUB / TIP)) / 2,
    polar: () => (angle: number) => {
      const degrees = (angle * 180) / Math.PI;
      const after = Math.max(
        1,
        polar.findIndex(([alpha]) => alpha >= degrees),
      );
      const [a0, lift0, drag0] = polar[after - 1]!;
      const [a1, lift1, drag1] = polar[after]!;
      const share = (degrees - a0) / (a1 - a0);
      return { lift: lift0 + share * (lift1 - lift0), drag: drag0 + share * (drag1 - drag0) };
    },
  })),
};

describe('a six-inch propeller', () => {
  const published = csvRows('six-inch-propeller-coefficients.csv').map((row) => ({
    advanceRatio: Number(row['J']),
    thrust: Number(row['CT']),
    power: Number(row['CP']),
  }));
  it('follows the published CT and CP from J 0.1 to 0.9, braking included', () => {
    for (const { advanceRatio, thrust, power } of published) {
      const point = rotorCoefficients(sixInch, advanceRatio, DISC_REYNOLDS);
      expect(Math.abs(point.thrustCoefficient - thrust)).toBeLessThan(0.03 * 0.1201);
      expect(Math.abs(point.powerCoefficient - power)).toBeLessThan(0.03 * 0.0488);
    }
  });
  it('has its best efficiency of 0.879 at J 0.689', () => {
    const efficiency = (advanceRatio: number) => {
      const { thrustCoefficient, powerCoefficient } = rotorCoefficients(sixInch, advanceRatio, DISC_REYNOLDS);
      return (advanceRatio * thrustCoefficient) / powerCoefficient;
    };
    expect(Math.abs(efficiency(0.689) / 0.879 - 1)).toBeLessThan(0.03);
    const grid = Array.from({ length: 71 }, (_, i) => 0.1 + 0.01 * i);
    const best = grid.reduce((a, b) => (efficiency(b) > efficiency(a) ? b : a));
    expect(Math.abs(best - 0.689)).toBeLessThan(0.03);
  });
});

/** Momentum theory (W. Froude, H. Glauert): closed forms that hold for any section. */
describe('limits of momentum theory', () => {
  // without drag or losses, ideal twist θ = θ_t/x and slow swirl (little load) make the inflow of a hovering disc even
  const ideal: Rotor = {
    blades: 4,
    hubRadius: 0,
    losses: false,
    elements: Array.from({ length: 200 }, (_, i) => {
      const radius = 0.05 + (0.95 * (i + 0.5)) / 200;
      return {
        radius,
        width: 0.95 / 200,
        chord: 0.02,
        twist: 0.05 / radius,
        polar: () => (angle: number) => ({ lift: 2 * Math.PI * angle, drag: 0 }),
      };
    }),
  };
  const discArea = (Math.PI / 4) * (1 - 0.05 ** 2); // of the bladed annulus, in D²

  it('needs the ideal hover power T^1.5/√(2ρA), but for the swirl', () => {
    const { thrustCoefficient, powerCoefficient } = rotorCoefficients(ideal, 0, DISC_REYNOLDS);
    const merit = thrustCoefficient ** 1.5 / Math.sqrt(2 * discArea) / powerCoefficient;
    expect(merit).toBeLessThan(1);
    expect(merit).toBeGreaterThan(0.995);
  });
  it('induces ½(−V + √(V² + 2T/(ρA))) at the disc under way', () => {
    const advanceRatio = 0.05;
    // 10⁻⁶: the inflow angle is solved to 10⁻⁷ and the pressure goes with its square near hover
    for (const element of ideal.elements.filter((_, i) => i > 60 && i % 20 === 0)) {
      const load = elementLoad(ideal, element, advanceRatio, DISC_REYNOLDS);
      const induced = load.speed * Math.sin(load.inflowAngle) - advanceRatio;
      const pressure = load.thrust / ((Math.PI / 2) * element.radius); // dT/dA in ρn²D²
      expect(induced).toBeCloseTo((-advanceRatio + Math.sqrt(advanceRatio ** 2 + 2 * pressure)) / 2, 6);
    }
  });
});
