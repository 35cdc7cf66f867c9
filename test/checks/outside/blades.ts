/** The blade-element law against closed descriptions, published coefficients and momentum theory; screws against the Wageningen B series. @module */
import { elementLoad, type Rotor, rotorCoefficients } from '@shaftwork/sim-core/parts/propeller/blade-element';
import { marineOpenWater, marinePoint } from '@shaftwork/sim-core/parts/propeller/marine-series';
import { evaluatePolynomial } from '@shaftwork/sim-core/parts/propeller/polynomial-table';
import { csvRows } from '../csv-rows.js';
import { type Allowed, amount, amountBetween, type Check, once, type Point, share, type Topic } from './check.js';

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
const TEXTBOOK_ROWS = [
  [1, 1045.361193, 80.363868622],
  [5, 962.407923825, 81.30150171],
  [10, 843.134981104, 80.514191638],
  [20, 551.815917392, 68.246728268],
  [30, 195.775319296, 33.971104206],
  [34, 37.854059198, 12.209330731],
] as const;
const pointAt = (speed: number) => rotorCoefficients(textbook, speed / (TURNS * DIAMETER), DISC_REYNOLDS);
const SCALE = 1.225 * TURNS ** 2 * DIAMETER ** 4;
const efficiencyOf = (rotor: Rotor, advanceRatio: number): number => {
  const { thrustCoefficient, powerCoefficient } = rotorCoefficients(rotor, advanceRatio, DISC_REYNOLDS);
  return (advanceRatio * thrustCoefficient) / powerCoefficient;
};
const textbookCheck = (what: string, unit: string, points: Check['points']): Check => ({
  standing: 'code',
  source: 'strip theory as in H. Glauert, 1935, computed independently (1e-4: printed digits, plain sum)',
  what,
  unit,
  allowed: share(1e-4),
  points,
});

/**
 * Case B: six-inch propeller with the NACA 64 polar and Prandtl losses at 8000 rpm. 3 % of the static values: hub cut-out and quadrature
 * (trapezoids there, with nothing between hub and first station in either) are not the same.
 */
const NING =
  'A. Ning, “A simple solution method for the blade element momentum equations with guaranteed convergence”, Wind Energy 17, 2014';
const TIP = 3;
const HUB = 0.5; // in; from memory of the published case
function sixInch(): Rotor {
  const polar = csvRows('naca64-a17-polar.csv').map((row) => [Number(row['alpha_deg']), Number(row['cl']), Number(row['cd'])] as const);
  const stations = csvRows('six-inch-propeller-geometry.csv').map((row) => ({
    radius: Number(row['r_in']) / TIP,
    chord: Number(row['chord_in']) / TIP,
    twist: (Number(row['theta_deg']) * Math.PI) / 180,
  }));
  return {
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
        const [a0, lift0, drag0] = polar[after - 1];
        const [a1, lift1, drag1] = polar[after];
        const part = (degrees - a0) / (a1 - a0);
        return { lift: lift0 + part * (lift1 - lift0), drag: drag0 + part * (drag1 - drag0) };
      },
    })),
  };
}
const sixInchRows = (column: string, ours: (point: ReturnType<typeof rotorCoefficients>) => number) => (): readonly Point[] => {
  const rotor = sixInch();
  return csvRows('six-inch-propeller-coefficients.csv').map((row) => {
    const advanceRatio = Number(row['J']);
    return { at: `J ${advanceRatio}`, theirs: Number(row[column]), ours: ours(rotorCoefficients(rotor, advanceRatio, DISC_REYNOLDS)) };
  });
};

/** Without drag or losses ideal twist θ = θ_t/x and slow swirl (little load) make the inflow of a hovering disc even. */
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
const MOMENTUM = 'momentum theory, W. Froude and H. Glauert';
function merit(): number {
  const discArea = (Math.PI / 4) * (1 - 0.05 ** 2); // of the bladed annulus, in D²
  const { thrustCoefficient, powerCoefficient } = rotorCoefficients(ideal, 0, DISC_REYNOLDS);
  return thrustCoefficient ** 1.5 / Math.sqrt(2 * discArea) / powerCoefficient;
}
function inflow(): readonly Point[] {
  const advanceRatio = 0.05;
  return ideal.elements
    .filter((_, i) => i > 60 && i % 20 === 0)
    .map((element) => {
      const load = elementLoad(ideal, element, advanceRatio, DISC_REYNOLDS);
      const pressure = load.thrust / ((Math.PI / 2) * element.radius); // dT/dA in ρn²D²
      return {
        at: `r/R ${element.radius.toFixed(2)}`,
        theirs: (-advanceRatio + Math.sqrt(advanceRatio ** 2 + 2 * pressure)) / 2,
        ours: load.speed * Math.sin(load.inflowAngle) - advanceRatio,
      };
    });
}

export const BLADES: Topic = {
  title: 'Blade elements',
  checks: [
    textbookCheck('thrust of a textbook propeller', 'N', () =>
      TEXTBOOK_ROWS.map(([speed, thrust]) => ({ at: `${speed} m/s`, theirs: thrust, ours: pointAt(speed).thrustCoefficient * SCALE })),
    ),
    textbookCheck('torque of it', 'N·m', () =>
      TEXTBOOK_ROWS.map(([speed, , torque]) => ({
        at: `${speed} m/s`,
        theirs: torque,
        ours: (pointAt(speed).powerCoefficient * SCALE * DIAMETER) / (2 * Math.PI),
      })),
    ),
    textbookCheck(
      'its C_T at 20 m/s',
      '',
      once(0.0561102, () => pointAt(20).thrustCoefficient),
    ),
    textbookCheck(
      'its efficiency at 20 m/s',
      '',
      once(0.735351, () => efficiencyOf(textbook, 20 / (TURNS * DIAMETER))),
    ),
    {
      standing: 'printed',
      source: NING,
      what: 'C_T of a six-inch propeller, J 0.1 to 0.9, braking included',
      allowed: amount(0.03 * 0.1201),
      points: sixInchRows('CT', (point) => point.thrustCoefficient),
    },
    {
      standing: 'printed',
      source: NING,
      what: 'C_P of it',
      allowed: amount(0.03 * 0.0488),
      points: sixInchRows('CP', (point) => point.powerCoefficient),
    },
    {
      standing: 'printed',
      source: NING,
      what: 'its best efficiency, at J 0.689',
      allowed: share(0.03),
      points: once(0.879, () => efficiencyOf(sixInch(), 0.689)),
    },
    {
      standing: 'printed',
      source: NING,
      what: 'J of its best efficiency',
      allowed: amount(0.03),
      points: once(0.689, () => {
        const rotor = sixInch();
        const grid = Array.from({ length: 71 }, (_, i) => 0.1 + 0.01 * i);
        return grid.reduce((a, b) => (efficiencyOf(rotor, b) > efficiencyOf(rotor, a) ? b : a));
      }),
    },
    {
      standing: 'theory',
      source: MOMENTUM,
      what: 'ideal hover power T^1.5/√(2ρA) over that of an ideal rotor, but for the swirl',
      allowed: amountBetween(-0.005, 0),
      points: once(1, merit),
    },
    {
      standing: 'theory',
      source: MOMENTUM,
      what: 'induced speed ½(−V + √(V² + 2T/(ρA))) under way, in n·D',
      // the inflow angle is solved to 10⁻⁷ and the pressure goes with its square near hover
      allowed: amount(5e-7),
      points: inflow,
    },
  ],
};

const SERIES = 'M. W. C. Oosterveld & P. van Oossanen, International Shipbuilding Progress 22 (251), 1975, tables 5 and 6';
/** Computed from the published terms by an independently typed copy: it verifies terms and evaluation, and is no measurement. */
const evaluated = (column: string, what: string, allowed: Allowed, ours: (point: ReturnType<typeof marinePoint>) => number): Check => ({
  standing: 'code',
  source: `${SERIES}, typed apart`,
  what,
  allowed,
  points: () =>
    csvRows('marine-series-evaluation.csv').map((row) => {
      const screw = { blades: Number(row['Z']), areaRatio: Number(row['AeA0']), pitchRatio: Number(row['PD']) };
      return {
        at: `B${row['Z']}, A_E/A_0 ${row['AeA0']}, P/D ${row['PD']}, J ${row['J']}`,
        theirs: Number(row[column]),
        ours: ours(marinePoint(marineOpenWater(screw), Number(row['J']))),
      };
    }),
});
const B4 = { blades: 4, areaRatio: 0.55, pitchRatio: 1 };
const corrected = (quantity: 'thrust' | 'torque') => (): number =>
  evaluatePolynomial(marineOpenWater(B4, 2e7)[quantity], 0.5) - evaluatePolynomial(marineOpenWater(B4)[quantity], 0.5);

/** How far tables 5 and 6, fitted apart, are from joining at a Reynolds number of 2·10⁶. */
const joint = (quantity: 'thrust' | 'torque') => (): readonly Point[] =>
  [2, 3, 4, 5, 6, 7].flatMap((blades) =>
    [0.3, 0.6, 1.05].flatMap((areaRatio) =>
      [0.5, 1, 1.4].flatMap((pitchRatio) => {
        const screw = { blades, areaRatio, pitchRatio };
        const [plain, after] = [marineOpenWater(screw), marineOpenWater(screw, 2e6 * (1 + 1e-9))];
        const points: Point[] = [];
        for (let j = 0; j < plain.zeroThrust; j += 0.1)
          points.push({
            at: `B${blades}, A_E/A_0 ${areaRatio}, P/D ${pitchRatio}, J ${j.toFixed(1)}`,
            theirs: evaluatePolynomial(plain[quantity], j),
            ours: evaluatePolynomial(after[quantity], j),
          });
        return points;
      }),
    ),
  );

export const SCREWS: Topic = {
  title: 'Screws in water',
  checks: [
    // 1e-6: the last printed digit of the evaluation points
    evaluated('KT', 'K_T', amount(1e-6), (point) => point.thrustCoefficient),
    evaluated('10KQ', '10·K_Q', amount(1e-6), (point) => 10 * point.torqueCoefficient),
    evaluated('eta0', 'efficiency', amount(2e-6), (point) => point.efficiency),
    {
      standing: 'code',
      source: `${SERIES}, typed apart`,
      what: 'what a Reynolds number of 2·10⁷ adds to K_T of B4-55, P/D 1, J 0.5',
      allowed: amount(5e-8),
      points: once(3.823e-4, corrected('thrust')),
    },
    {
      standing: 'code',
      source: `${SERIES}, typed apart`,
      what: 'what it adds to K_Q',
      allowed: amount(5e-8),
      points: once(-8.755e-4, corrected('torque')),
    },
    // largest for wide two-bladed screws of high pitch (1.26·10⁻³ of K_T 0.4)
    {
      standing: 'printed',
      source: SERIES,
      what: 'K_T just above a Reynolds number of 2·10⁶ against that below: the two tables join to a remainder',
      allowed: amount(1.3e-3),
      points: joint('thrust'),
    },
    { standing: 'printed', source: SERIES, what: 'K_Q likewise', allowed: amount(1.5e-4), points: joint('torque') },
  ],
};
