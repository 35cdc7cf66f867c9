/** From the YAML library’s nodes to the located tree. @module */

import { type Document, isAlias, isMap, isScalar, isSeq, type LineCounter, type Node, type Pair, Scalar, type YAMLMap } from 'yaml';
import type { ScenarioProblem } from '../../problems/index.js';
import type { Place } from '../../provenance/datum.js';
import { inPath, problem, quoted } from '../wording.js';
import type { LocatedEntry, LocatedNode } from './located-tree.js';
import { MISSING_BLANK, NO_BREAK_SPACE } from './yaml-complaints.js';

/** Nodes that aliases may add: enough for honest reuse, too few for a bomb. */
const MOST_ALIASED = 10_000;
/** Keys whose values are free text, where a ` #` is more likely meant than a comment. */
const FREE_TEXT = ['title', 'notes', 'name', 'label', 'source'];
const WITHOUT_BLANK = /^([a-z][a-z_]*):([^\s/].*)$/s;
const NO_BREAK = /^[\u00a0\u2007\u202f]|^\w+:[\u00a0\u2007\u202f]/;

/** Parsed YAML → located tree, with what YAML lets pass and nobody means: decimal commas in braces, a colon without a blank, a text cut by ` #`. */
export function buildTree(file: string, text: string, document: Document.Parsed, lines: LineCounter) {
  const problems: ScenarioProblem[] = [];
  const anchors = new Map<string, Node>();
  const open = new Set<unknown>();
  let insideAliases = 0;
  let aliased = 0;

  const at = (offset: number, path: string): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col, path };
  };
  /** Whether a no-break space in the indentation made the sections other than they look. */
  let misled = false;
  const object = (...args: Parameters<typeof problem>): void => {
    problems.push(problem(...args));
  };
  const offsetOf = (node: unknown): number => (node as Node | null)?.range?.[0] ?? 0;

  /** A node below `path`; `place` is that of its key. Undefined where a problem was found that leaves nothing to read. */
  function read(node: unknown, path: string, place: Place): LocatedNode | undefined {
    if (isAlias(node)) return readAlias(node.source, path, at(offsetOf(node), path));
    if (insideAliases > 0 && ++aliased > MOST_ALIASED) return undefined;
    if ((isMap(node) || isSeq(node) || isScalar(node)) && node.anchor !== undefined) anchors.set(node.anchor, node);
    if (isScalar(node)) return { kind: 'text', place: at(offsetOf(node), path), text: contentOf(node) };
    open.add(node);
    const inner = isMap(node) ? readMap(node, path, place) : isSeq(node) ? readList(node.items, path, place) : undefined;
    open.delete(node);
    return inner;
  }

  /** An alias that leads nowhere stands as its own text, so that nothing is said to be missing. */
  function readAlias(name: string, path: string, place: Place): LocatedNode | undefined {
    const target = anchors.get(name);
    if (target === undefined || open.has(target)) {
      if (target) object('broken-yaml', place, 'an anchor that is complete', `${quoted(`*${name}`)}, which contains itself`);
      else
        object('broken-yaml', place, 'the name of an anchor that stands above', quoted(`*${name}`), {
          hint: 'put a text with * in quotation marks',
        });
      return { kind: 'text', place, text: `*${name}` };
    }
    const before = aliased;
    insideAliases += 1;
    const inner = read(target, path, place);
    insideAliases -= 1;
    if (aliased > MOST_ALIASED && before <= MOST_ALIASED && insideAliases === 0) {
      object('too-large', place, `aliases that repeat at most ${MOST_ALIASED} values`, 'more');
    }
    return inner;
  }

  function readList(items: readonly unknown[], path: string, place: Place): LocatedNode {
    const read_ = items.map((item, index) => {
      const here = inPath(path, index);
      return read(item, here, at(offsetOf(item), here));
    });
    return { kind: 'list', place, items: read_.filter((item) => item !== undefined) };
  }

  function readMap(map: YAMLMap, path: string, place: Place): LocatedNode {
    const entries = new Map<string, LocatedEntry>();
    let last: { readonly key: string; readonly value: Scalar } | undefined;
    for (const pair of map.items as readonly Pair[]) {
      if (!isScalar(pair.key)) {
        object('broken-yaml', at(offsetOf(pair.key), path), 'a word before the colon', 'a list or map as a key', {
          hint: 'put texts with brackets in quotation marks',
        });
        continue;
      }
      const written = contentOf(pair.key);
      const keyOffset = offsetOf(pair.key);
      if (pair.value === null && map.flow && last && pair.key.type === Scalar.PLAIN && !WITHOUT_BLANK.test(written)) {
        objectToComma(last, pair.key, path);
        continue;
      }
      const joined = pair.value === null || contentOf(pair.value) === '' ? WITHOUT_BLANK.exec(written) : null;
      const withNoBreak = NO_BREAK.test(written) && pair.key.type === Scalar.PLAIN;
      const key = joined ? joined[1] : withNoBreak ? written.trim().replace(/:.*/s, '') : written;
      const here = inPath(path, key);
      const keyPlace = at(keyOffset, here);
      if (withNoBreak) {
        misled ||= !/^\w/.test(written);
        object('broken-yaml', keyPlace, NO_BREAK_SPACE.expected, NO_BREAK_SPACE.found, { hint: NO_BREAK_SPACE.hint });
        continue;
      }
      if (joined) {
        object('broken-yaml', at(keyOffset, here), MISSING_BLANK, quoted(written), { nearest: `${joined[1]}: ${joined[2]}` });
        entries.set(key, { keyPlace, value: { kind: 'text', place: keyPlace, text: joined[2] } });
        continue;
      }
      if (pair.value === null) {
        object('broken-yaml', keyPlace, 'a colon and a value after the key', quoted(written));
        continue;
      }
      const value = read(pair.value, here, keyPlace);
      if (value === undefined || entries.has(key)) continue;
      entries.set(key, { keyPlace, value: FREE_TEXT.includes(key) ? checkedForCut(value, pair.value) : value });
      last = isScalar(pair.value) && pair.value.type === Scalar.PLAIN ? { key, value: pair.value } : undefined;
    }
    return { kind: 'map', place, entries };
  }

  /** `{ diameter: 39,5 mm }` is read by YAML as two keys, the second without a value. */
  function objectToComma(last: { readonly key: string; readonly value: Scalar }, rest: Scalar, path: string): void {
    const value = contentOf(last.value);
    const place = at(offsetOf(last.value), inPath(path, last.key));
    const tail = contentOf(rest);
    const between = text.slice(last.value.range?.[1] ?? 0, offsetOf(rest));
    const whole = `${value}${between}${tail}`;
    if (/\d$/.test(value) && /^\d/.test(tail) && between === ',') {
      object('bad-number', place, 'a point before decimals', quoted(whole), {
        nearest: `${value}.${tail}`,
        hint: 'a comma inside { } begins the next key',
      });
    } else {
      object('broken-yaml', place, 'texts with a comma in quotation marks inside { }', quoted(whole), {
        nearest: `${last.key}: "${whole}"`,
      });
    }
  }

  /** `name: Motor #3` is a text and a comment to YAML; a comment meant as one has a blank after the #. */
  function checkedForCut(value: LocatedNode, node: unknown): LocatedNode {
    if (value.kind !== 'text' || !isScalar(node) || node.type !== Scalar.PLAIN) return value;
    const cut = /^[ \t]+(#\S.*)/.exec(text.slice(node.range?.[1] ?? text.length));
    if (cut === null) return value;
    const whole = `${value.text} ${cut[1].trim()}`;
    object(
      'broken-yaml',
      value.place,
      'texts with a # in quotation marks',
      `${quoted(value.text)}, cut off before ${quoted(cut[1].trim())}`,
      {
        nearest: `"${whole}"`,
        hint: 'if a comment was meant, leave a blank after the #',
      },
    );
    return value;
  }

  const root = document.contents === null ? undefined : read(document.contents, '', at(offsetOf(document.contents), ''));
  return { root: misled ? undefined : root, problems };
}

function contentOf(node: unknown): string {
  if (!isScalar(node)) return node === null ? '' : '\ufffd';
  return typeof node.value === 'string' ? node.value : (node.source ?? '');
}
