/**
 * One page: a single file with its style, data and scripts inside, that asks nothing of a network. The content policy
 * forbids the browser to fetch anything or to evaluate text as code.
 */

import { html, json } from '../theme/escape.ts';
import { style } from './style.ts';

/** Texts of the two scripts a page carries, read by whoever writes the page. */
export interface Assets {
  readonly plotly: string;
  readonly script: string;
}

export interface Sheet {
  readonly title: string;
  /** Name and value of each field of the title block, the first one largest; minor ones drop out on a phone. */
  readonly titleBlock: readonly (readonly [name: string, value: string, minor?: 'minor'])[];
  /** Markup, already escaped. */
  readonly body: string;
  readonly data: unknown;
  readonly program: string;
  readonly assets: Assets | null;
}

const policy =
  "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'";

/** A script's text inside a page: nothing in it may end the element. */
const inside = (script: string): string =>
  script.replace(/<\/script/gi, '<\\/script').replace(/<!--/g, '<\\!--');

export function sheet(page: Sheet): string {
  const fields = page.titleBlock
    .map(
      ([name, value, minor]) =>
        `<div${minor ? ' class="minor"' : ''}><dt>${html(name)}</dt><dd>${html(value)}</dd></div>`,
    )
    .join('');
  const scripts =
    page.assets === null
      ? ''
      : `<script>${inside(page.assets.plotly)}</script>\n<script>${inside(page.assets.script)}</script>`;
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${html(page.title)}</title>
<link rel="icon" href="data:,">
<style>${style}</style>
</head>
<body>
<header class="sheet"><dl class="titleblock">${fields}</dl></header>
<main>
${page.body}
</main>
<footer><p>${html(page.program)}. One-dimensional gas dynamics; port coefficients, scavenging and wall temperatures are models or assumptions. Compare drafts with it, then measure.</p></footer>
${page.assets === null ? '' : `<script type="application/json" id="data">${json(page.data)}</script>`}
${scripts}
</body>
</html>
`;
}

/** A figure's place, filled by the page's script, with how to read it and what to try if it looks wrong. */
export const place = (
  id: string,
  title: string,
  read: string,
  wrong: string,
  seen: string,
  kind: '' | 'noprint' = '',
): string =>
  `<figure${kind === '' ? '' : ` class="${kind}"`}><h3>${html(title)}</h3><div class="plot" id="${id}" role="img" aria-label="${html(seen)}"></div><figcaption>${html(read)} <span class="wrong"><b>Looks wrong?</b> ${html(wrong)}</span></figcaption></figure>`;
