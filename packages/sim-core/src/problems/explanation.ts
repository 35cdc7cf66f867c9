/** The shape of an explanation. @module */

/** What `explain` prints about a kind of problem or finding. */
export interface Explanation {
  readonly meaning: string;
  readonly causes: readonly string[];
  readonly tries: readonly string[];
}
