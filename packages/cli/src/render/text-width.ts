/** Columns that a text takes in a terminal: none for combining marks, two for East Asian wide characters, one for others. @module */

const WIDE =
  /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u;
const NONE = /[\p{Mn}\p{Me}\p{Cf}]/u;

const columns = (char: string): number => (NONE.test(char) ? 0 : WIDE.test(char) ? 2 : 1);

export function textWidth(text: string): number {
  let width = 0;
  for (const char of text) width += columns(char);
  return width;
}

/** Lines of at most `width` columns, broken at blanks, and inside a word only where it is longer than a line; blanks before the first word stay where there is room. */
export function lines(text: string, width: number): string[] {
  const indent = /^ */.exec(text)?.[0].length ?? 0;
  if (indent > 0 && 2 * indent < width) {
    const [first, ...others] = lines(`${'\u00a0'.repeat(indent)}${text.slice(indent)}`, width);
    return [`${' '.repeat(indent)}${first.slice(indent)}`, ...others];
  }
  const found: string[] = [''];
  for (const word of text.split(' ')) {
    const last = found[found.length - 1];
    if (last !== '' && textWidth(last) + 1 + textWidth(word) <= width) {
      found[found.length - 1] = `${last} ${word}`;
      continue;
    }
    const pieces = cut(word, width);
    if (last === '') found[found.length - 1] = pieces[0];
    else found.push(pieces[0]);
    found.push(...pieces.slice(1));
  }
  return found;
}

function cut(word: string, width: number): string[] {
  const pieces = [''];
  for (const char of word) {
    if (textWidth(pieces[pieces.length - 1]) + columns(char) > width && pieces[pieces.length - 1] !== '') pieces.push('');
    pieces[pieces.length - 1] += char;
  }
  return pieces;
}
