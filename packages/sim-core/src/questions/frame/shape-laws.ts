/**
 * How a motor scales when it is made longer or wider at one mass and one K_v, its iron, fill and flux density kept.
 *
 *   (1) M = σ·(π/2)·D²·L                    torque of a shear stress σ in the gap: force × radius, and ∝ length
 *   (2) K_m² ∝ (B·D·L)²·(copper area ∝ D²)/(L + k·D) = D⁴·L²/(L + k·D)
 *   (3) m ∝ D²·(L + b)                      b: end bells and all else that does not work
 *   (4) K_v kept, so k_t kept; R = k_t²/K_m²
 *   (5) iron loss torque ∝ D²·L; bearing friction kept
 *   (6) inductance ∝ N²·L ∝ 1/(D²·L): turns N keep k_t ∝ N·B·D·L; slots keep their proportions
 *
 * D — can diameter, to which the gap's is proportional; L — stack; k·D — what end turns add to each half turn. At equal D²·L and without end
 * bells (2) is greatest where L + k·D is least: L/D = k/2.
 * *Holds for* changes of shape by a factor of two or three. *Leaves out* that the stress a long thin or a short wide machine stands is not
 * the same, that slots and teeth do not scale exactly, critical speed of the shaft.
 * *Source* D. Hanselman, Brushless Permanent Magnet Motor Design, 2nd ed., 2003, ch. 4 (D²L, end turns); k and b common practice.
 *
 * @module
 */

import type { Datum } from '../../provenance/datum.js';
import { type GivenDrive, type GivenMotor, writtenResistance } from '../../provenance/given.js';

/** k of (2): what the end turns add to a half turn, over the can's diameter [1]; common practice, no published source. */
export const END_TURNS = { inrunner: 0.5, outrunner: 0.25 } as const;

export interface Shape {
  /** D, can diameter [m]. */
  readonly diameter: number;
  /** Can length [m], and the stack L of it [m]. */
  readonly length: number;
  readonly stack: number;
}

/** (1) Torque [N·m] of a shear `stress` [Pa] on a gap of `diameter` [m] and `length` [m]. */
export const shearTorque = (stress: number, diameter: number, length: number): number => 0.5 * Math.PI * stress * diameter ** 2 * length;

/** (2) K_m² up to a factor that is one for a whole family. `endTurns` is k [1]. */
export const motorConstantSquared = (diameter: number, stack: number, endTurns: number): number =>
  (diameter ** 4 * stack ** 2) / (stack + endTurns * diameter);

/**
 * (3) The shape of the same mass at `ratio` = can diameter : length [1], end bells as heavy and as long as the reference's. Throws
 * RangeError where nothing is left for a stack.
 */
export function shapeAt(reference: Shape, ratio: number): Shape {
  const diameter = (reference.diameter ** 2 * reference.length * ratio) ** (1 / 3);
  const length = diameter / ratio;
  const stack = length - (reference.length - reference.stack);
  if (!(stack > 0)) throw new RangeError(`A can of ${diameter} m × ${length} m leaves no room for a stack between its end bells.`);
  return { diameter, length, stack };
}

const times = <D extends Datum>(datum: D | undefined, factor: number): D | undefined =>
  datum === undefined ? undefined : { ...datum, value: datum.value * factor };
/** Keys with a value; under exact optional properties an undefined one may not stand. */
const present = <T extends object>(fields: { readonly [K in keyof T]: T[K] | undefined }): T =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;

/**
 * The given data of `drive` with its motor in another shape: (2), (4) to (6); what touches the can's side follows its area, what lies between
 * winding and can follows D·L, rotor inertia D² at equal mass, the speed limit 1/D (equal surface speed). `frictionShare` is the part of the
 * no-load torque that is bearing friction [1]. Throws RangeError without a motor's layout, resistance and can.
 */
export function reshaped(drive: GivenDrive, from: Shape, to: Shape, frictionShare: number): GivenDrive {
  const { motor, cooling } = drive;
  const written = writtenResistance(motor);
  if (motor?.layout === undefined || written === undefined || motor.can === undefined)
    throw new RangeError('A motor without layout, resistance and can has no shape to change.');
  const k = END_TURNS[motor.layout];
  const wide = to.diameter / from.diameter;
  const resistance = motorConstantSquared(from.diameter, from.stack, k) / motorConstantSquared(to.diameter, to.stack, k);
  const iron = wide ** 2 * (to.stack / from.stack);
  const loss = frictionShare + (1 - frictionShare) * iron;
  const face = wide * (to.stack / from.stack);
  const side = wide * (to.length / from.length);
  const whole = (shape: Shape): number => shape.diameter * (shape.length + 0.5 * shape.diameter);
  const { thermal, makerLimits } = motor;
  const stack = motor.stackLength ?? motor.can.length;
  const next: GivenMotor = present<GivenMotor>({
    ...motor,
    resistance: times(written, resistance),
    inductance: times(motor.inductance, 1 / iron),
    noLoad: motor.noLoad?.map((point) => ({ ...point, ...present({ current: times(point.current, loss) }) })),
    can: present<NonNullable<GivenMotor['can']>>({
      diameter: times(motor.can.diameter, wide),
      length: times(motor.can.length, to.length / from.length),
    }),
    // the family's end bells are of one length, whatever rule found the reference's stack
    stackLength: stack === undefined ? undefined : { ...stack, value: to.stack },
    statorDiameter: times(motor.statorDiameter, wide),
    rotorInertia: times(motor.rotorInertia, wide ** 2),
    thermal:
      thermal === undefined
        ? undefined
        : present<NonNullable<GivenMotor['thermal']>>({
            ...thermal,
            windingToStator: times(thermal.windingToStator, face),
            statorToCan: times(thermal.statorToCan, face),
            canToAir: times(thermal.canToAir, whole(to) / whole(from)),
            windingToHousing: times(thermal.windingToHousing, face),
            housingToAmbient: times(thermal.housingToAmbient, whole(to) / whole(from)),
            ...(thermal.statorToAir === undefined
              ? {}
              : { statorToAir: present({ ...thermal.statorToAir, conductance: times(thermal.statorToAir.conductance, face) }) }),
          }),
    makerLimits:
      makerLimits === undefined
        ? undefined
        : present<NonNullable<GivenMotor['makerLimits']>>({ ...makerLimits, shaftSpeed: times(makerLimits.shaftSpeed, 1 / wide) }),
  });
  if (cooling?.waterJacket === undefined || cooling.waterJacket.covers === 'mount') return { ...drive, motor: next };
  const { waterJacket: jacket } = cooling;
  return {
    ...drive,
    motor: next,
    cooling: { ...cooling, waterJacket: { ...jacket, ...present({ conductance: times(jacket.conductance, side) }) } },
  };
}

/**
 * The given data of `drive` with its motor rewound to `factor` times its K_v: R and L ∝ 1/K_v², i_0 ∝ K_v at the same speed, so K_m and loss torque
 * stay; rated current ∝ K_v (equal copper loss), rated voltage ∝ 1/K_v (equal free speed) unless a speed limit says the same better.
 * Throws RangeError without a motor's K_v.
 */
export function rewound(drive: GivenDrive, factor: number): GivenDrive {
  const { motor } = drive;
  if (motor === undefined || (motor.kv === undefined && motor.noLoad?.[0]?.speed === undefined))
    throw new RangeError('A motor without Kv or no-load speed cannot be rewound.');
  const { makerLimits } = motor;
  const next = present<GivenMotor>({
    ...motor,
    kv: times(motor.kv, factor),
    resistance: times(writtenResistance(motor), factor ** -2),
    inductance: times(motor.inductance, factor ** -2),
    noLoad: motor.noLoad?.map((point) => ({
      ...point,
      ...present({ current: times(point.current, factor), voltage: times(point.voltage, 1 / factor) }),
    })),
    makerLimits:
      makerLimits === undefined
        ? undefined
        : present<NonNullable<GivenMotor['makerLimits']>>({
            ...makerLimits,
            current: times(makerLimits.current, factor),
            voltage: makerLimits.shaftSpeed === undefined ? times(makerLimits.voltage, 1 / factor) : undefined,
          }),
  });
  return { ...drive, motor: next };
}
