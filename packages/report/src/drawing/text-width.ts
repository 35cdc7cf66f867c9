/**
 * How wide words will be, without a browser: advance widths of a wide sans (Inter), so that what fits here fits in narrower ones too.
 * Digits are tabular.
 *
 * @module
 */

/** Signs U+0020 to U+007E in hundredths of the size. Measured from the fonts regular and semibold. */
const REGULAR = advances(
  '28 28 40 63 64 81 64 22 36 36 50 66 28 46 28 36 63 63 63 63 63 63 63 63 63 63 28 28 66 66 66 51 94 68 65 73 72 60 59 74 74 26 54 65 56 89 75 76 63 76 64 64 64 74 68 95 64 66 62 36 36 36 47 45 50 56 62 56 62 58 36 61 59 24 24 54 24 87 59 60 61 61 37 52 36 58 56 81 54 56 54 36 33 36 66',
);
const SEMIBOLD = advances(
  '25 31 40 64 65 84 66 21 39 39 54 67 30 47 29 38 66 66 66 66 66 66 66 66 66 66 29 30 67 67 67 54 100 72 66 74 72 61 59 75 74 27 56 68 57 91 74 77 64 78 65 65 66 73 72 101 69 70 65 39 38 39 48 47 50 57 63 58 63 59 38 63 61 26 26 57 26 90 61 61 62 62 40 55 38 61 58 84 56 58 56 39 36 39 67',
);
const FIRST = 0x20;

function advances(text: string): readonly number[] {
  return text.split(' ').map((hundredths) => Number(hundredths) / 100);
}

/** In shares of the size, for signs that the table does not hold. */
const NARROW_GAP = 0.2;
const OTHER_LETTER = 0.68;
const FULL_WIDTH = 1;
const PICTURE = 1.4;

function advance(sign: string, table: readonly number[]): number {
  const known = table[(sign.codePointAt(0) ?? 0) - FIRST];
  if (known !== undefined) return known;
  if (/\p{Mn}|\p{Me}|\p{Cf}/u.test(sign)) return 0;
  if (/[\u2006-\u200a\u202f]/.test(sign)) return NARROW_GAP;
  if (/\p{Emoji_Presentation}/u.test(sign)) return PICTURE;
  return /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60]/.test(sign) || sign.length > 1
    ? FULL_WIDTH
    : OTHER_LETTER;
}

/** [px] */
export function textWidth(text: string, size = 12, weight = 400): number {
  const table = weight >= 600 ? SEMIBOLD : REGULAR;
  let width = 0;
  for (const sign of text) width += advance(sign, table);
  return width * size;
}

/** Lines no wider than `most`, broken at blanks (never at no-break ones), inside a word only when it is too wide alone. */
export function wrapText(text: string, most: number, size = 12, weight = 400): readonly string[] {
  const fits = (line: string): boolean => textWidth(line, size, weight) <= most;
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/ +/).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const sign of word) {
      if (line !== '' && !fits(line + sign)) {
        lines.push(line);
        line = '';
      }
      line += sign;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}
