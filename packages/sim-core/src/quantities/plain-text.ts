/** One spelling for the many that people and programs write. @module */

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const SUPERSCRIPT_RUN = /([⁺⁻]?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+)/g;

/**
 * The same text in the few characters that the readers know: one spelling of each sign, plain blanks, Unicode form NFKC.
 *
 * Raised digits become `^2` first, because NFKC would flatten 10² to 102.
 */
export function plainText(text: string): string {
  return text
    .replace(SUPERSCRIPT_RUN, (_, sign: string, digits: string) => {
      const flat = Array.from(digits, (digit) => SUPERSCRIPTS.indexOf(digit)).join('');
      return `^${sign === '⁻' ? '-' : ''}${flat}`;
    })
    .replace(/[º˚]/g, '°') // ordinal sign and ring above, which keyboards offer beside the degree sign
    .normalize('NFKC')
    .replace(/\u2212/g, '-')
    .replace(/[\u22c5\u2022\u2219\u00d7*]/g, '·')
    .replace(/\u2215/g, '/')
    .replace(/\+\s?\/\s?-|\+-/g, '±')
    .replace(/[\u00ad\u200b\u2060\ufeff]/g, '') // soft hyphen, zero-width blank, word joiner, byte order mark
    .replace(/(°|\bdeg) (?=[CF]\b)/g, '$1')
    .replace(/\s+/g, ' ')
    .trim();
}
