/** Words that pages share with the terminal, as a terminal can show them. */

import { plainText } from '../frame/plain-text.ts';

/** Thin blanks and typographic marks of a page are none in many a terminal's letters. */
export function pageWords(text: string): string {
  return plainText(text)
    .replace(/[\u2009\u202f\u00a0]/g, ' ')
    .replace(/[“”]/g, '"')
    .replace(/[‘’]/g, "'");
}

/** The same with numbers in one piece, at which no line breaks: 11000 rpm. */
export const terminalWords = (text: string): string =>
  pageWords(text.replace(/(\d)[\u2009\u202f](?=\d{3}(?!\d))/g, '$1'));
