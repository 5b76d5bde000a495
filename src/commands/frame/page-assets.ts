/** What a page carries inside it: the plotting library, and the page's own script as the build bundled it. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { programFile } from '../../study/work/program-file.ts';

export interface PageAssets {
  readonly plotly: string;
  readonly script: string;
}

/** The assets of a page, `pulse` for `pulse-page`. */
export function pageAssets(page: string): PageAssets {
  const plotly = createRequire(import.meta.url).resolve('plotly.js-dist-min/plotly.min.js');
  return { plotly: readFileSync(plotly, 'utf8'), script: pageScript(page) };
}

/** The script of a page, `board` for `board-page`. */
export function pageScript(page: string): string {
  return readFileSync(programFile(`plots/bundle/${page}-page.js`), 'utf8');
}
