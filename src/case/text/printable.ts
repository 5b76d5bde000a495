/**
 * Text from a file made fit to print: control characters, bidirectional overrides and line breaks become one
 * replacement character each, so that a message cannot drive the terminal and a caret stays under its column.
 */

// biome-ignore lint/suspicious/noControlCharactersInRegex: finding them is the purpose.
const UNPRINTABLE = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/;
const REPLACEMENT = '\ufffd';

/** The same text, one printable character for one character. */
export function printable(text: string): string {
  if (!hasUnprintable(text)) return text;
  let out = '';
  for (const character of text) {
    if (character === '\t') out += ' ';
    else out += hasUnprintable(character) ? REPLACEMENT : character;
  }
  return out;
}

/** Whether anything in the text would have to be replaced; tabs count. */
export function hasUnprintable(text: string): boolean {
  return UNPRINTABLE.test(text) || /\p{Surrogate}/u.test(text);
}

/** A found value in quotation marks, shortened to fit a line. */
export function quoted(text: string, limit = 40): string {
  const characters = [...printable(text)];
  const shown =
    characters.length > limit ? `${characters.slice(0, limit - 1).join('')}…` : characters.join('');
  return `"${shown}"`;
}
