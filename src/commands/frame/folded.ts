/** Sentences over lines of a terminal. */

/** The text with line breaks at blanks, no line longer than 80 columns unless a word is. */
export function folded(text: string, width = 80): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join('\n');
}
