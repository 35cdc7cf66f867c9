/** The part of papaparse that is used; its own types need those of Node. The small build is the one without a trace of streams. @module */

interface ParseConfig {
  readonly delimiter: string;
  readonly newline: '\n' | '\r\n' | '\r';
  readonly preview?: number;
}
declare const Papa: { parse(text: string, config: ParseConfig): { readonly data: readonly (readonly string[])[] } };
export default Papa;
