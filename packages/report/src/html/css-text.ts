/** Text inside a style sheet. @module */

/** A CSS string that holds any text: all but letters and digits are written by their number (a blank too: one after a number belongs to it), so nothing can end the rule or the element. */
export function cssString(text: string): string {
  const written = Array.from(text.slice(0, 120), (sign) =>
    /[A-Za-z0-9]/.test(sign) ? sign : `\\${(sign.codePointAt(0) ?? 0).toString(16).padStart(6, '0')}`,
  );
  return `"${written.join('')}"`;
}
