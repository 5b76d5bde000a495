/** Words of a command that is to be pasted into a shell (POSIX, "Quoting", 2.2.2: all but the quote stands for itself). */

import { plainText } from './plain-text.ts';

/** The word, in quotes where a shell would take it for more than itself. */
export function shellWord(word: string): string {
  const plain = plainText(word);
  return /^[\w@%+=:,./][\w@%+=:,./-]*$/.test(plain) ? plain : `'${plain.replaceAll("'", "'\\''")}'`;
}

/** A file's name as a word: one that begins with a hyphen would be taken for a flag. */
export function shellFile(name: string): string {
  return shellWord(name.startsWith('-') ? `./${name}` : name);
}
