/** What a page carries inside it: the plotting library, and the page's own script as the build bundled it. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

export interface PageAssets {
  readonly plotly: string;
  readonly script: string;
}

/** The assets of a page, `pulse` for `pulse-page`. */
export function pageAssets(page: string): PageAssets {
  const plotly = createRequire(import.meta.url).resolve('plotly.js-dist-min/plotly.min.js');
  return { plotly: readFileSync(plotly, 'utf8'), script: pageScript(page) };
}

/** The script of a page, `board` for `board-page`. It lies beside the built program, or in `dist` of a source tree. */
export function pageScript(page: string): string {
  const file = `${page}-page.js`;
  for (let folder = new URL('.', import.meta.url); folder.pathname !== '/'; folder = new URL('..', folder)) {
    for (const place of ['plots/bundle/', 'dist/plots/bundle/']) {
      try {
        return readFileSync(new URL(`${place}${file}`, folder), 'utf8');
      } catch {}
    }
  }
  throw new Error(`${file} is not there: the program was not built whole (npm run build)`);
}
