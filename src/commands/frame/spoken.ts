/**
 * Messages for a terminal of 80 columns: sentences are folded; what is to be typed stands whole on a line of its own, since
 * it is copied, and so do the lines of a file with the carets under them.
 */

import { Help } from 'commander';

// The library that folds the words of help is loaded in any case.
const help = new Help();
const WIDTH = 80;
/** What introduces a command to type. */
const TO_TYPE = /(?<=\S) +(?=(?:Next|To go on|Like this): )/g;
const WHOLE = /^(?:Next|To go on|Like this|Lenders): |^ *\d* \| /;

export function spoken(text: string): string {
  return text.replaceAll(TO_TYPE, '\n').split('\n').map(line).join('\n');
}

function line(text: string): string {
  if (text.length <= WIDTH || WHOLE.test(text)) return text;
  const indent = /^ */.exec(text)?.[0] ?? '';
  return help
    .boxWrap(text.trimStart(), WIDTH - indent.length)
    .split('\n')
    .map((part) => indent + part)
    .join('\n');
}
