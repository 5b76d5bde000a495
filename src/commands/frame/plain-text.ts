/**
 * User text made safe to print: names in case files may hold anything, and a terminal obeys control characters. They
 * are removed, together with the marks that reorder text; line breaks become blanks.
 */

/** A control sequence: the escape (the only control character left in front of a bracket by then) and its letters. */
const controlSequence = /\p{Cc}\[[0-?]*[ -/]*[@-~]/gu;
const lineBreak = /\r\n|[\n\r\t\v\f\u0085\u2028\u2029]/g;
const control = /\p{Cc}/gu;
const reordering = /[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/g;

/** The text without control characters, on one line. */
export function plainText(text: string): string {
  return text
    .replace(lineBreak, ' ')
    .replace(controlSequence, '')
    .replace(control, '')
    .replace(reordering, '');
}

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });
const wide =
  /^(?:\p{Emoji_Presentation}|\p{Script=Han}|\p{Script=Hiragana}|\p{Script=Katakana}|\p{Script=Hangul})/u;

/** Terminal columns that a text takes. */
export function textWidth(text: string): number {
  let width = 0;
  for (const { segment } of graphemes.segment(text)) width += wide.test(segment) ? 2 : 1;
  return width;
}

/** The text cut to a number of terminal columns, with an ellipsis if anything was lost. */
export function shortened(text: string, columns: number): string {
  if (textWidth(text) <= columns) return text;
  let kept = '';
  let width = 0;
  for (const { segment } of graphemes.segment(text)) {
    const next = wide.test(segment) ? 2 : 1;
    if (width + next > columns - 1) break;
    kept += segment;
    width += next;
  }
  return columns > 0 ? `${kept}…` : '';
}
