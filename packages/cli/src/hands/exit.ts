/** How the command ends. @module */

/** Exit codes of the command. */
export const EXIT = { done: 0, notFeasible: 1, wrongInput: 2, fault: 3, readWrite: 4, memory: 5, interrupted: 130 } as const;

/** What a person wrote is wrong: a file or an option. */
export class InputFault extends Error {}
/** A file could not be read or written. */
export class ReadWriteFault extends Error {}
