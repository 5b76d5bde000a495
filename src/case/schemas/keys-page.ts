/** The page of all keys, one table a kind. Plain HTML without scripts; every text is escaped. */

import { KINDS } from '../keys/kinds.ts';
import { type KeyRow, keysOf } from './key-list.ts';

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const HEADINGS = ['Key', 'What it is', 'Takes', 'If left out', 'Example'] as const;

function row({ path, doc, takes, needed, unstated, reason, example }: KeyRow): string {
  const otherwise = needed
    ? 'has to be stated'
    : unstated === null
      ? ''
      : `${unstated}${reason === '' ? '' : ` (${reason})`}`;
  // On a narrow window cells stand below each other, each under its heading.
  const cells = [doc, takes, otherwise, example].map((text, k) => {
    const shown = k === 3 ? `<code>${escaped(text)}</code>` : escaped(text);
    return text === '' ? '<td class="none"></td>' : `<td data-of="${HEADINGS[k + 1]}">${shown}</td>`;
  });
  return `<tr><th scope="row"><code>${escaped(path)}</code></th>${cells.join('')}</tr>`;
}

const STYLE = `:root{color-scheme:light dark;--paper:#f3f5f5;--ink:#16212b;--faint:#55626c;--line:#c5ced2;--link:#0b51a6}
@media (prefers-color-scheme:dark){:root{--paper:#11171c;--ink:#e9eef0;--faint:#9fb0b8;--line:#39454d;--link:#7ab4ff}}
body{font:15px/1.45 "Liberation Sans",Arial,Helvetica,sans-serif;margin:1.5rem auto;max-width:74rem;padding:0 1rem;color:var(--ink);background:var(--paper)}
h1{font-size:2rem;margin:0 0 .6rem}h2{margin:2.6rem 0 .5rem;padding-top:.5rem;border-top:1.5px solid}a{color:var(--link)}
nav{display:flex;gap:1.2rem;flex-wrap:wrap}nav a{padding:.3rem 0}
table{border-collapse:collapse;width:100%;table-layout:fixed}th,td{text-align:left;vertical-align:top;padding:.35rem .8rem .35rem 0;border-bottom:1px solid var(--line);overflow-wrap:anywhere}
thead th{position:sticky;top:0;background:var(--paper)}col:first-child{width:24%}col:nth-child(2){width:24%}col:last-child{width:15%}
td+td{color:var(--faint)}td:last-child{color:inherit}code{font-size:.9em}
@media (max-width:700px){table,tbody,tr,th,td{display:block}thead,.none{display:none}tr{padding:.6rem 0;border-bottom:1px solid var(--line)}th,td{border:0;padding:.1rem 0}td[data-of]:not([data-of^=What])::before{content:attr(data-of) ": ";color:var(--faint)}}`;

export function keysPage(): string {
  const parts = KINDS.map((kind) => {
    const rows = keysOf(kind).map(row).join('\n');
    return `<h2 id="${kind}">kind: ${kind}</h2>
<table><colgroup><col><col><col><col><col></colgroup><thead><tr>${HEADINGS.map((name) => `<th scope="col">${name}</th>`).join('')}</tr></thead>
<tbody>${rows}</tbody></table>`;
  });
  const links = KINDS.map((kind) => `<a href="#${kind}">${kind}</a>`).join('');
  return `<!doctype html>
<html lang="en-GB"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Keys of echocone’s files</title>
<style>${STYLE}</style></head>
<body><main><h1>Keys of echocone’s files</h1><nav aria-label="Kinds of file">${links}</nav>
<p>Items of a list stand under <code>*</code>; on the command line they go by their name or their number, from 0.</p>
<p>A quantity that was measured may have its error behind it, two standard deviations: <code>54 mm ± 0.05 mm</code>, with
<code>+-</code> for ±, or <code>54 mm ± 1 %</code>; bands are drawn over it, and nothing else depends on it.</p>
${parts.join('\n')}
</main></body>
</html>
`;
}
