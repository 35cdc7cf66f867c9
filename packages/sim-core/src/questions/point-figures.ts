/**
 * Figures of a steady point as propeller people and motor people make them.
 *
 *   (1) J = v_a/(n·D)      (2) C_T = T/(ρ·n²·D⁴)      (3) C_P = P/(ρ·n³·D⁵), P what arrives at the propeller      (4) η_p = J·C_T/C_P
 *   (5) at rest in air: figure of merit = C_T^1.5·√(2/π)/C_P      (6) η_m = shaft power/motor input      (7) η = useful/out of the cells
 *
 * v_a = (1 − w)·v, n in turns a second. NaN where a figure has no meaning: (4), (7) at rest or braking, (5) under way, all of (1)–(5) on a wheel.
 * *Source* (1)–(5) W. Johnson, Helicopter Theory, ch. 2, and any propeller text; (5) is √(T³/(2ρA))/P, ideal power over power.
 *
 * @module
 */

import type { DriveSystem } from '../drive/drive-system.js';
import type { PowerAccount } from '../drive/power-terms.js';
import { LIQUID } from '../media/water.js';
import type { ChannelId } from '../results/channels.js';
import type { PointFigureId } from '../results/point-figures.js';

/** Below this advance ratio a propeller stands still in its medium [1]. */
const AT_REST = 1e-6;

export function pointFigures(
  { load, gearbox }: DriveSystem,
  channels: Readonly<Record<ChannelId, number>>,
  powers: PowerAccount,
): Readonly<Record<PointFigureId, number>> {
  const none = Number.NaN;
  const { shaftPower, inputPower, shaftSpeed, vehicleSpeed, thrust } = channels;
  const motorEfficiency = shaftPower > 0 && inputPower > 0 ? shaftPower / inputPower : none;
  const driveEfficiency = powers.useful > 0 && powers.batteryChemical > 0 ? powers.useful / powers.batteryChemical : none;
  const turns = shaftSpeed / gearbox.ratio / (2 * Math.PI);
  if (load.kind === 'wheel' || !(turns > 0))
    return {
      advanceRatio: none,
      thrustCoefficient: none,
      powerCoefficient: none,
      figureOfMerit: none,
      propellerEfficiency: none,
      motorEfficiency,
      driveEfficiency,
    };
  const { diameter, density, wakeFraction } = load;
  const advanceRatio = ((1 - wakeFraction) * vehicleSpeed) / (turns * diameter);
  const thrustCoefficient = thrust / (density * turns ** 2 * diameter ** 4);
  const powerCoefficient = (shaftPower - powers.gearLoss) / (density * turns ** 3 * diameter ** 5);
  const drives = thrustCoefficient > 0 && powerCoefficient > 0;
  const rests = Math.abs(advanceRatio) < AT_REST;
  return {
    advanceRatio,
    thrustCoefficient,
    powerCoefficient,
    figureOfMerit: drives && rests && density < LIQUID ? (thrustCoefficient ** 1.5 * Math.sqrt(2 / Math.PI)) / powerCoefficient : none,
    propellerEfficiency: drives && !rests ? (advanceRatio * thrustCoefficient) / powerCoefficient : none,
    motorEfficiency,
    driveEfficiency,
  };
}
