/** Rules for what must not be passed. @module */

import { byKind, celsius, type Rule, said, value, without } from './rule.js';
import { PRACTICE, SURE } from './spreads.js';

/** IEC 60085 thermal classes [K]. */
const CLASSES = {
  A: celsius(105),
  E: celsius(120),
  B: celsius(130),
  F: celsius(155),
  H: celsius(180),
  N: celsius(200),
} as const;
/** Working temperature by grade [K], magnet makers' tables; UH, EH, AH from memory. */
const GRADES = {
  N: celsius(80),
  M: celsius(100),
  H: celsius(120),
  SH: celsius(150),
  UH: celsius(180),
  EH: celsius(200),
  AH: celsius(230),
} as const;

export const LIMIT_RULES = {
  'insulation-class': said(byKind('winding limit by insulation class', 'temperature', CLASSES, SURE, 'IEC 60085')),
  'usual-insulation': value('winding limit, class B assumed', 'temperature', CLASSES.B, SURE, 'IEC 60085'),
  'magnet-grade': said(byKind('magnet limit by grade', 'temperature', GRADES, SURE, 'magnet makers’ tables')),
  'usual-magnets': value('magnet limit, grade M assumed', 'temperature', GRADES.M, SURE, PRACTICE),
  'usual-controller': value('controller limit', 'temperature', celsius(95), SURE, PRACTICE),
  'usual-cells': value('cell limit', 'temperature', celsius(60), SURE, PRACTICE),
  'no-limit': without('no such limit'),
  'no-reserve': value('charge that must be left', 'fraction', 0, SURE, 'none asked for'),
} as const satisfies Record<string, Rule>;
