/** How deep a document is nested, counted before it is parsed. @module */

import { type CST, Lexer } from 'yaml';

/** More levels than any scenario has; the composer of the YAML library recurses and dies of some 900. */
export const DEEPEST_NESTING = 32;

/**
 * Whether brackets, or list and key marks on one line, nest too deep. Read from the lexer, which does not recurse and knows quotes and
 * comments, so that a long text of brackets is refused at once.
 */
export function nestsTooDeepOnLexing(text: string): boolean {
  let brackets = 0;
  let marksOnLine = 0;
  for (const lexeme of new Lexer().lex(text)) {
    if (lexeme === '[' || lexeme === '{') brackets += 1;
    else if (lexeme === ']' || lexeme === '}') brackets = Math.max(0, brackets - 1);
    else if (lexeme === '-' || lexeme === '?') marksOnLine += 1;
    else if (lexeme === '\n' || lexeme === '\r\n') marksOnLine = 0;
    if (brackets > DEEPEST_NESTING || marksOnLine > DEEPEST_NESTING) return true;
  }
  return false;
}

/** Marks of the lexer that stand for no text of their own. */
const MARKS: readonly string[] = ['\u0002', '\u0018', '\u001f'];

/** The offset of the innermost bracket that is never closed; undefined where all are. */
export function bracketLeftOpen(text: string): number | undefined {
  const open: number[] = [];
  let offset = 0;
  for (const lexeme of new Lexer().lex(text)) {
    if (lexeme === '[' || lexeme === '{') open.push(offset);
    else if (lexeme === ']' || lexeme === '}') open.pop();
    if (!MARKS.includes(lexeme)) offset += lexeme.length;
  }
  return open.at(-1);
}

type Tokens = readonly CST.Token[];

/** The offset of the first list or map that lies deeper than allowed, walked without recursion. */
export function tooDeepAt(tokens: Tokens): number | undefined {
  const waiting: { readonly token: CST.Token; readonly depth: number }[] = tokens.map((token) => ({ token, depth: 0 }));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { token, depth } = next;
    if (token.type === 'document') {
      if (token.value) waiting.push({ token: token.value, depth });
    } else if ('items' in token) {
      if (depth + 1 > DEEPEST_NESTING) return token.offset;
      for (const item of token.items) {
        for (const inner of [item.key, item.value]) if (inner) waiting.push({ token: inner, depth: depth + 1 });
      }
    }
  }
  return undefined;
}
