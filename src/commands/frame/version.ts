/** Name and version of the program, read from its package.json: it stands some folders above, built or not. */

import { readFileSync } from 'node:fs';

/** Version of the package, `0.1.0`. */
export function programVersion(): string {
  for (let folder = new URL('.', import.meta.url); ; folder = new URL('..', folder)) {
    try {
      const manifest = JSON.parse(readFileSync(new URL('package.json', folder), 'utf8'));
      if (manifest.name === 'echocone') return String(manifest.version);
    } catch {}
    if (folder.pathname === '/') return 'unknown';
  }
}
