/** What can be typed to run the program: `echocone` where that is this program on the PATH, else `npx echocone`. */

import { existsSync, realpathSync } from 'node:fs';
import { delimiter, join, sep } from 'node:path';

/** Folders that npm and npx put on the PATH of what they start, and of nothing else. */
const ofNpm = join('node_modules', '.bin');

/** The word that a shell of the user knows. */
export function typed(path = process.env.PATH ?? '', running = process.argv[1] ?? ''): string {
  const own = real(running);
  const found = path
    .split(delimiter)
    .filter((folder) => folder !== '' && !folder.includes(ofNpm) && !folder.includes(`${sep}_npx${sep}`))
    .some(
      (folder) =>
        // A shim of Windows is a file of its own, beside the programs it starts.
        real(join(folder, 'echocone')) === own || existsSync(join(folder, 'echocone.cmd')),
    );
  return found ? 'echocone' : 'npx echocone';
}

function real(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return `${path} is not there`;
  }
}
