/**
 * Aliases are refused, so that each value stands where it is used. A file may hold hundreds of thousands, each of which costs
 * the parser a node that nobody needs: where there are more than problems are shown, they are found in the words of the text.
 */

import { Lexer } from 'yaml';
import { MOST_PROBLEMS, type Problem } from './problem.ts';
import type { Place, Source } from './source.ts';

/** Words of the lexer that stand for nothing in the text: a document begins, a flow ends amiss, a scalar follows. */
const NOT_OF_TEXT = new Set(['\u0002', '\u0018', '\u001f']);
const SCALAR_FOLLOWS = '\u001f';

/** The problem of an alias at a place. */
export function aliasProblem(place: Place): Problem {
  return { place, message: 'anchors and aliases are not used in case files', hint: 'write the value out' };
}

/** Reports the first aliases of a text that has too many to be parsed; none where it has fewer. */
export function refuseManyAliases(source: Source, text: string, report: (problem: Problem) => void): void {
  if (!(text.split('*', MOST_PROBLEMS + 1).length > MOST_PROBLEMS)) return;
  const found: Place[] = [];
  let at = 0;
  let before = '';
  for (const word of new Lexer().lex(text)) {
    if (word.startsWith('*') && before !== SCALAR_FOLLOWS)
      found.push({ source, start: at, end: at + word.length });
    if (!NOT_OF_TEXT.has(word)) at += word.length;
    before = word;
    if (found.length < MOST_PROBLEMS) continue;
    for (const place of found) report(aliasProblem(place));
    return;
  }
}
