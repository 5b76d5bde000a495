/**
 * Drawings as an SVG file of true size: one unit is one millimetre. What is to be cut, folded, scribed and engraved are
 * groups of their own, so that a cutter can be told them apart.
 */

import {
  type Box,
  beginOf,
  boxOf,
  type Drawing,
  endOf,
  type Lettering,
  letteringBox,
  line,
  type Stroke,
  strokesOf,
} from './drawing.ts';
import { PRINT_MARGIN } from './paper.ts';

/** Length of the bar to check a print against [mm]. */
export const BAR = 100;

/** A pattern on a page as large as it needs, the bar below. */
export function svgText(drawing: Drawing): string {
  const box = drawingBox(drawing);
  const below = 10;
  const width = Math.max(box.right - box.left, BAR) + 2 * PRINT_MARGIN;
  const height = box.top - box.bottom + 2 * PRINT_MARGIN + below;
  const window: Box = {
    left: box.left - PRINT_MARGIN,
    bottom: box.top + PRINT_MARGIN - height,
    right: box.left - PRINT_MARGIN + width,
    top: box.top + PRINT_MARGIN,
  };
  return svgOf(drawing.title, window, [drawing], scaleBar(box.left, window.bottom + PRINT_MARGIN));
}

/**
 * What of the drawings lies in a window of the plane, as an SVG of the window's true size, with marks of its own that
 * are neither cut nor engraved. `weight` thickens every line.
 */
export function svgOf(
  title: string,
  window: Box,
  drawings: readonly Drawing[],
  page: { readonly marks: readonly Stroke[]; readonly lettering: readonly Lettering[] },
  weight = 1,
): string {
  const [width, height] = [number(window.right - window.left), number(window.top - window.bottom)];
  const cut = drawings.flatMap(({ outlines }) => outlines.map((outline) => `${pathOf(outline, window)}Z`));
  const of = (pick: (drawing: Drawing) => readonly Stroke[]): string =>
    drawings.flatMap((drawing) => pick(drawing).map((stroke) => pathOf([stroke], window))).join('');
  const letters = (lettering: readonly Lettering[]): string =>
    lettering.map((one) => letterOf(one, window)).join('');
  const face = 'font-family="Arial, Helvetica, sans-serif" text-anchor="middle"';
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(title)}</title>`,
    group('cut', `fill="none" stroke="#000" stroke-width="${number(0.2 * weight)}"`, path(cut.join(''))),
    group(
      'fold',
      `fill="none" stroke="#06c" stroke-width="${number(0.2 * weight)}" stroke-dasharray="${number(3 * weight)} ${number(1.5 * weight)}"`,
      path(of(({ folds }) => folds)),
    ),
    group(
      'mark',
      `fill="none" stroke="#06c" stroke-width="${number(0.2 * weight)}"`,
      path(of(({ marks }) => marks)),
    ),
    group('engrave', `fill="#06c" ${face}`, letters(drawings.flatMap(({ lettering }) => lettering))),
    group(
      'page',
      `fill="none" stroke="#555" stroke-width="${number(0.15 * weight)}"`,
      path(page.marks.map((one) => pathOf([one], window)).join('')),
    ),
    group('page-text', `fill="#333" ${face}`, letters(page.lettering)),
    '</svg>',
    '',
  ].join('\n');
}

const group = (name: string, style: string, inner: string): string =>
  `<g class="${name}" ${style}>${inner}</g>`;
const path = (d: string): string => (d === '' ? '' : `<path d="${d}"/>`);

/** Strokes one after another as path data; the y axis of SVG points down. */
export function pathOf(strokes: readonly Stroke[], { left, top }: Pick<Box, 'left' | 'top'>): string {
  const at = ([x, y]: readonly [number, number]): string => `${number(x - left)} ${number(top - y)}`;
  const to = (stroke: Stroke): string => {
    if (stroke.kind === 'line') return `L${at(stroke.to)}`;
    if (stroke.kind === 'path')
      return stroke.places
        .slice(1)
        .map((place) => `L${at(place)}`)
        .join('');
    const large = Math.abs(stroke.sweepDeg) > 180 ? 1 : 0;
    const clockwise = stroke.sweepDeg < 0 ? 1 : 0;
    return `A${number(stroke.radius)} ${number(stroke.radius)} 0 ${large} ${clockwise} ${at(endOf(stroke))}`;
  };
  return strokes.map((stroke, index) => (index === 0 ? `M${at(beginOf(stroke))}` : '') + to(stroke)).join('');
}

function letterOf({ text, at: [x, y], height, upright }: Lettering, { left, top }: Box): string {
  // A capital is about 0.7 of the font size, and the middle of it 0.35 above the base line.
  const [px, py] = [x - left, top - y];
  const turn = upright ? ` transform="rotate(-90 ${number(px)} ${number(py)})"` : '';
  return `<text x="${number(px)}" y="${number(py + height / 2)}" font-size="${number(height / 0.7)}"${turn}>${escaped(text)}</text>`;
}

/** A bar to measure the print by, its left end at a place, its ticks upwards. */
export function scaleBar(
  x: number,
  y: number,
): { marks: readonly Stroke[]; lettering: readonly Lettering[] } {
  const ticks = Array.from({ length: BAR / 10 + 1 }, (_, index) =>
    line([x + 10 * index, y], [x + 10 * index, y + (index % 5 === 0 ? 2.5 : 1.2)]),
  );
  return {
    marks: [line([x, y], [x + BAR, y]), ...ticks],
    lettering: [
      {
        text: `this bar is ${BAR} mm: measure the print`,
        height: 2,
        upright: false,
        at: [x + BAR / 2, y + 4.6],
      },
    ],
  };
}

/** Box around everything in the drawing, lettering included. */
export function drawingBox(drawing: Drawing): Box {
  const boxes = drawing.lettering.map((one): Stroke => {
    const { left, bottom, right, top } = letteringBox(one);
    return line([left, bottom], [right, top]);
  });
  return boxOf([...strokesOf(drawing), ...boxes]);
}

/** Ten-thousandths of a millimetre. */
function number(value: number): string {
  return String(Number(value.toFixed(4)));
}

export function escaped(text: string): string {
  return text
    .replace(/[\p{Cc}\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufffe\uffff]/gu, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
