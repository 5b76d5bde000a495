/** The page of all keys, one table a kind. Plain HTML without scripts; every text is escaped. */

import { KINDS } from '../keys/kinds.ts';
import { type KeyRow, keysOf } from './key-list.ts';

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

function row({ path, doc, takes, needed, unstated, reason, example }: KeyRow): string {
  const otherwise = needed
    ? 'has to be stated'
    : unstated === null
      ? ''
      : `${unstated}${reason === '' ? '' : ` (${reason})`}`;
  const cells = [doc, takes, otherwise].map((text) => `<td>${escaped(text)}</td>`).join('');
  return `<tr><th scope="row"><code>${escaped(path)}</code></th>${cells}<td><code>${escaped(example)}</code></td></tr>`;
}

export function keysPage(): string {
  const parts = KINDS.map((kind) => {
    const rows = keysOf(kind).map(row).join('\n');
    return `<h2 id="${kind}">kind: ${kind}</h2>
<div class="wide"><table><thead><tr><th>Key</th><th>What it is</th><th>Takes</th><th>If left out</th><th>Example</th></tr></thead>
<tbody>${rows}</tbody></table></div>`;
  });
  const links = KINDS.map((kind) => `<a href="#${kind}">${kind}</a>`).join(' · ');
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Keys of echocone’s files</title>
<style>body{font:15px/1.45 system-ui,sans-serif;margin:1.5rem auto;max-width:72rem;padding:0 1rem;color:#222;background:#fff}
.wide{overflow-x:auto}table{border-collapse:collapse}th,td{text-align:left;vertical-align:top;padding:.3rem .7rem .3rem 0;border-bottom:1px solid #ddd}
thead th{position:sticky;top:0;background:#fff}code{font-size:.92em}</style></head>
<body><h1>Keys of echocone’s files</h1><p>${links}</p>
<p>Items of a list stand under <code>*</code>; on the command line they go by their name or their number, from 0.</p>
${parts.join('\n')}
</body></html>
`;
}
