/**
 * One page: a single file with its style, data and scripts inside, that asks nothing of a network. The content policy
 * forbids the browser to fetch anything or to evaluate text as code.
 */

import { json } from '../theme/escape.ts';
import { html, type Markup, trusted } from '../theme/markup.ts';
import { style } from './style.ts';

/** Texts of the two scripts a page carries, read by whoever writes the page; empty where it draws without the library. */
export interface Assets {
  readonly plotly: string;
  readonly script: string;
}

export interface Sheet {
  readonly title: string;
  /** Name and value of each field of the title block, the first one largest; minor ones drop out on a phone. */
  readonly titleBlock: readonly (readonly [name: string, value: string, minor?: 'minor'])[];
  readonly body: Markup;
  readonly data: unknown;
  readonly program: string;
  readonly assets: Assets | null;
  /** The page's script computes: in workers made of itself, and with a compiled kernel. */
  readonly computes?: boolean;
  /** Style of this page beyond that of all. */
  readonly style?: string;
}

const POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'";

/** Workers of the page's own script, and its kernel compiled; still no text is made code, and nothing is fetched. */
const COMPUTING = POLICY.replace(
  "script-src 'unsafe-inline'",
  "script-src 'unsafe-inline' 'wasm-unsafe-eval'; worker-src blob:",
);

/** A script's text inside a page: nothing in it may end the element. */
const inside = (script: string): Markup =>
  trusted(script.replace(/<\/script/gi, '<\\/script').replace(/<!--/g, '<\\!--'));

export function sheet(page: Sheet): string {
  const fields = page.titleBlock.map(
    ([name, value, minor]) =>
      html`<div${minor && html` class="minor"`}><dt>${name}</dt><dd>${value}</dd></div>`,
  );
  const { assets } = page;
  const scripts =
    assets &&
    html`${assets.plotly !== '' && html`<script>${inside(assets.plotly)}</script>\n`}<script>${inside(assets.script)}</script>`;
  return html`<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(page.computes === true ? COMPUTING : POLICY)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${page.title}</title>
<link rel="icon" href="data:,">
<style>${trusted(style + (page.style ?? ''))}</style>
</head>
<body>
<header class="sheet"><dl class="titleblock">${fields}</dl></header>
<main>
${page.body}
</main>
<footer><p>${page.program}. One-dimensional gas dynamics; port coefficients, scavenging and wall temperatures are models or assumptions. Compare drafts with it, then measure.</p></footer>
${assets && html`<script type="application/json" id="data">${trusted(json(page.data))}</script>`}
${scripts}
</body>
</html>
`.toString();
}

/** A figure's place, filled by the page's script, with how to read it and what to try if it looks wrong. */
export const place = (
  id: string,
  title: string,
  read: string,
  wrong: string,
  seen: string,
  kind: '' | 'noprint' | 'first' = '',
): Markup =>
  html`<figure${kind && html` class="${kind}"`}><h3${kind === 'first' && html` aria-level="2"`}>${title}</h3><div class="plot" id="${id}" role="img" aria-label="${seen}"></div><figcaption><span>${read}</span> <span class="wrong"><b>Looks wrong?</b> ${wrong}</span></figcaption></figure>`;
