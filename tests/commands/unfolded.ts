/** What was printed for 80 columns, with each sentence in one line again; lines of a file and their carets stay. */
export function unfolded(text: string): string {
  return text.replaceAll(/(?<=\S)\n(?=\S)/g, ' ');
}
