/** The mark of a scenario's texts, by which a result is known again. @module */

/** FNV-1a over the texts' UTF-16 units, 32 bits, as eight hexadecimal digits. */
export function hashOf(files: readonly { readonly path: string; readonly text: string }[]): string {
  let hash = 0x811c9dc5;
  for (const { path, text } of files) {
    for (const part of [path, '\n', text, '\n']) {
      for (let k = 0; k < part.length; k++) hash = Math.imul(hash ^ part.charCodeAt(k), 0x01000193);
    }
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}
