/** Where a file of the built program lies, seen from the sources, from what the compiler wrote, and from the bundled parts. */

import { existsSync } from 'node:fs';

/** A file by its place in `dist`, the nearest above this one. @throws Error where the program was not built whole */
export function programFile(place: string): URL {
  for (let folder = new URL('.', import.meta.url); ; folder = new URL('..', folder)) {
    for (const inside of ['', 'dist/']) {
      const file = new URL(inside + place, folder);
      if (existsSync(file)) return file;
    }
    if (folder.pathname === new URL('..', folder).pathname)
      throw new Error(`${place} is not there: the program was not built whole (npm run build)`);
  }
}
