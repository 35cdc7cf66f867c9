/** A folder of identified motors: part files as any other, read for what they tell of labels, sheets and rules. @module */
import { z } from 'zod';
import type { ScenarioProblem } from '../problems/index.js';
import { type Fleet, fleetOf } from '../provenance/fleet.js';
import type { GivenMotor } from '../provenance/given.js';
import { given } from './given.js';
import { PARTS } from './schema/drive.js';
import { hashOf } from './text-hash.js';
import { validate } from './validate.js';
import { readDocument } from './yaml/located-document.js';
import { childOf, type LocatedMap, textOf, withEntries, without } from './yaml/located-tree.js';

/** The texts of a folder, and what it is called. */
export interface KnownFolder {
  readonly folder: string;
  readonly files: readonly { readonly path: string; readonly text: string }[];
}

/** What the motors among the files tell; other kinds of parts are passed over, a motor that is wrong is told. */
export function readKnown({ folder, files }: KnownFolder): { readonly fleet: Fleet; readonly problems: readonly ScenarioProblem[] } {
  const problems: ScenarioProblem[] = [];
  const motors = files.flatMap(({ path, text }): GivenMotor[] => {
    const document = readDocument(path, text);
    problems.push(...document.problems);
    const { root } = document;
    if (root === undefined || textOf(childOf(root, 'part')) !== 'motor') return [];
    // the subjects of its numbers are those of a drive
    const body: LocatedMap = withEntries(root, [['motor', { keyPlace: root.place, value: without(root, 'part', 'use') }]]);
    const read = validate(MOTOR, body);
    if (read.ok) return [given(read.value, body).motor];
    problems.push(...read.problems);
    return [];
  });
  return { fleet: fleetOf(motors, folder, hashOf(files)), problems };
}

const MOTOR = z.object({ motor: PARTS.motor });
