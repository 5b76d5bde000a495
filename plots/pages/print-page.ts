/**
 * Drawings on sheets of paper at true size, one sheet a page, to be printed at 100 %. The pages have no margin of their
 * own; what is drawn keeps clear of the printer's.
 */

import { html, trusted } from '../theme/markup.ts';
import { dataUrl } from './unroll-page.ts';

export interface PrintedSheet {
  readonly landscape: boolean;
  readonly svg: string;
}

export interface PrintPageResult {
  readonly title: string;
  /** Short and long side [mm]. */
  readonly sides: readonly [number, number];
  readonly sheets: readonly PrintedSheet[];
}

export function printPage({ title, sides: [short, long], sheets }: PrintPageResult): string {
  const style = `*{box-sizing:border-box}body{margin:0;background:#fff;color:#000;font:15px/1.5 Arial,sans-serif}
p{margin:12px 16px;max-width:70ch}
@page portrait{size:${short}mm ${long}mm;margin:0}@page landscape{size:${long}mm ${short}mm;margin:0}
.portrait{page:portrait}.landscape{page:landscape}
img{display:block;break-inside:avoid;break-after:page}
.portrait img{width:${short}mm;height:${long}mm}.landscape img{width:${long}mm;height:${short}mm}
@media screen{div{margin:16px;overflow-x:auto}img{border:1px solid #888;box-sizing:content-box}}
@media print{p{display:none}}`;
  const pages = sheets.map(
    ({ svg, landscape }, i) =>
      html`<div class="${landscape ? 'landscape' : 'portrait'}" tabindex="0" role="region" aria-label="Page ${i + 1}"><img alt="Page ${i + 1}" src="${dataUrl(svg)}"></div>`,
  );
  return html`<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<link rel="icon" href="data:,">
<style>${trusted(style)}</style>
</head>
<body>
<p>${title}: ${sheets.length} ${sheets.length === 1 ? 'page' : 'pages'}. Print at 100 %, without "fit to page", and measure the bar. Lay pages over one another so that the crosses meet.</p>
<main>
${pages}
</main>
</body>
</html>
`.toString();
}
