/** Sentences over lines of a terminal. */

import wrapAnsi from 'wrap-ansi';

/** The text with line breaks at blanks, no line longer than 80 columns unless a word is. */
export function folded(text: string, width = 80): string {
  return wrapAnsi(text, width);
}
