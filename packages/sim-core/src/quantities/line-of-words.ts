/** What a line of words may hold: names, sources, labels. Its one home: what is read by it is also written by it. @module */

/** More than a name or a line needs; what is drawn beside a curve must have room there. */
export const LONGEST_LINE = 200;

/**
 * Characters that are not shown but steer what is: control characters, a terminal; explicit directions, in which order the rest of a line is
 * read (Unicode Standard Annex 9, 2); line and paragraph separators; halves of a character; and the two that XML has not (Extensible Markup
 * Language 1.0, 2.2), which no drawing could hold.
 */
export const CONTROL_CHARACTER = /[\p{Cc}\u202a-\u202e\u2066-\u2069\u2028\u2029\p{Cs}\ufffe\uffff]/u;
const CONTROL_CHARACTERS = new RegExp(CONTROL_CHARACTER, 'gu');

/** The text with a sign in place of each character that steers. */
export const visible = (text: string): string => text.replace(CONTROL_CHARACTERS, '\ufffd');
