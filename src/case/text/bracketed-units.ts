/**
 * `speed: rpm [rpm]` between braces: YAML takes a square bracket there for a list, so brackets that stand behind a word are
 * read as signs of the same length, and turned back where the value is read. Places in the text stay what they are.
 */

const OPEN = '\u27E6';
const CLOSE = '\u27E7';

/** A value that begins with a word and ends in brackets. */
const VALUE = /(:[ \t]+[^\s[\]{},:#"'&*!|>%@`-][^[\]{},:#"'\r\n]*)\[([^[\]{},\r\n]*)\]/g;

/** The text with such brackets as signs that YAML passes over. */
export const withSigns = (text: string): string =>
  text.replace(VALUE, (_, word: string, unit: string) => `${word}${OPEN}${unit}${CLOSE}`);

/** A value as it was written. */
export const withBrackets = (text: string): string => text.replaceAll(OPEN, '[').replaceAll(CLOSE, ']');
