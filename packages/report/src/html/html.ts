/** Markup with escaping that cannot be forgotten. @module */

/** Markup that cannot carry what it was not meant to: every value set into it is escaped unless it is markup itself. */
export interface Html {
  readonly html: string;
}
export type Content = string | number | Html | false | undefined | readonly Content[];

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };
/** Control characters, which no document may hold, become the replacement character. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const FORBIDDEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/g;

export const escapeHtml = (text: string): string => text.replace(FORBIDDEN, '\ufffd').replace(/[&<>"']/g, (sign) => ESCAPES[sign]);

export const trusted = (markup: string): Html => ({ html: markup });

function written(content: Content): string {
  if (content === false || content === undefined) return '';
  if (typeof content === 'string') return escapeHtml(content);
  if (typeof content === 'number') return escapeHtml(String(content));
  return 'html' in content ? content.html : content.map(written).join('');
}

/** Template tag: html`<td>${name}</td>`. */
export function html(parts: TemplateStringsArray, ...values: readonly Content[]): Html {
  return trusted(parts.map((part, index) => part + (index < values.length ? written(values[index]) : '')).join(''));
}
