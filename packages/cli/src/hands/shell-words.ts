/** Paths in commands that are shown to be typed. @module */

/** A path as it can be typed again: in quotation marks where the shell would take it apart. */
export function typed(path: string): string {
  return /^[\w./\\:@%+,=~-]+$/.test(path) && !path.startsWith('-') ? path : path === '-' ? path : `"${path.replace(/["$`]/g, '\\$&')}"`;
}
