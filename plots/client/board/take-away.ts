/** Files that a page hands over: made in the page, saved by the browser. */

import { element } from './element.ts';

export function download(name: string, type: string, content: string | Blob): void {
  const url = URL.createObjectURL(typeof content === 'string' ? new Blob([content], { type }) : content);
  const link = element('a', { href: url, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** Canvases one below the other, on the page's paper, as one picture. */
export function picture(
  canvases: readonly HTMLCanvasElement[],
  paper: string,
  done: (picture: Blob) => void,
): void {
  const sheet = document.createElement('canvas');
  sheet.width = Math.max(...canvases.map(({ width }) => width));
  sheet.height = canvases.reduce((sum, { height }) => sum + height, 0);
  const pen = sheet.getContext('2d');
  if (pen === null) return;
  pen.fillStyle = paper;
  pen.fillRect(0, 0, sheet.width, sheet.height);
  let top = 0;
  for (const canvas of canvases) {
    if (canvas.width > 0 && canvas.height > 0) pen.drawImage(canvas, 0, top);
    top += canvas.height;
  }
  sheet.toBlob((blob) => {
    if (blob !== null) done(blob);
  }, 'image/png');
}

/** A name fit for a file. */
export const fileName = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase()
    .slice(0, 60) || 'draft';
