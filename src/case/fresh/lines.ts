/** Lines of a case file with the comment that says how a value is measured, or that it was assumed. */

import wrapAnsi from 'wrap-ansi';
import type { Stated } from './dimensions.ts';

const COLUMNS = 34;
const WIDEST = 80;

/**
 * `key: value` and what it is; an assumed value is marked so that it can be searched for. What is too long to stand behind
 * stands above.
 */
export function line(text: string, comment: string, assumed = ''): string {
  const said = assumed === '' ? comment : `assumed (${assumed}): ${comment}`;
  const behind = `${text.padEnd(COLUMNS)} # ${said}`;
  if (behind.length <= WIDEST) return behind;
  const indent = ' '.repeat(text.length - text.trimStart().length);
  return `${wrapAnsi(said, WIDEST - indent.length - 2)}\n`.replaceAll(/^(?=.)/gm, `${indent}# `) + text;
}

/** A line of a stated or assumed value. */
export function statedLine(text: string, { assumed }: Stated, comment: string): string {
  return line(text, comment, assumed);
}

/** A length as a file has it, tenths and hundredths of a millimetre. */
export function mm(length: number, digits = 1): string {
  return `${Number((length * 1000).toFixed(digits))} mm`;
}

/** An area, whole square millimetres to some three figures. */
export function mm2(area: number): string {
  const plain = area * 1e6;
  return `${plain >= 1000 ? 10 * Math.round(plain / 10) : Math.round(plain)} mm2`;
}

/** A text as YAML keeps it whole whatever is in it. */
export function quotedText(text: string): string {
  return JSON.stringify(text);
}
