/** What fits in the space that was given, and the room that remains. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { GivenDrive } from '../../provenance/given.js';
import type { CandidateResult } from '../../results/run-result.js';

type SpaceRooms = NonNullable<CandidateResult['space']>;

export const SPACE_SIDES = ['diameter', 'length', 'mass'] as const;

/**
 * Room of one candidate by what was given of diameter [m], length [m] and mass [kg]; undefined where no space was given.
 * The can is what must fit, without its shaft, with the cooling round it; a gearbox counts with its mass only.
 */
export function spaceRoom(
  given: Pick<GivenDrive, 'space'>,
  system: Pick<DriveSystem, 'motor' | 'gearbox' | 'heat'>,
): CandidateResult['space'] {
  const { motor, gearbox, heat } = system;
  const size = {
    diameter: motor.canDiameter + 2 * heat.addedThickness,
    length: motor.canLength,
    mass: motor.mass + gearbox.mass + heat.addedMass,
  };
  const rooms: { -readonly [S in keyof SpaceRooms]: SpaceRooms[S] } = {};
  for (const side of SPACE_SIDES) {
    const bound = given.space?.[side]?.value;
    if (bound !== undefined) rooms[side] = { size: size[side], bound, room: bound - size[side] };
  }
  return Object.keys(rooms).length === 0 ? undefined : rooms;
}

/** Whether every side that was given holds the motor. */
export const fits = (room: CandidateResult['space']): boolean =>
  room === undefined || SPACE_SIDES.every((side) => room[side] === undefined || room[side].room >= 0);
