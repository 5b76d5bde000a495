/**
 * A drawing as an SVG file of true size: one unit is one millimetre. The outline is one closed path; marks and
 * lettering are groups of their own, so that a cutter can be told to scribe them.
 */

import { type Box, beginOf, boxOf, type Drawing, endOf, letteringWidth, type Stroke } from './drawing.ts';
import { printMargin } from './paper.ts';

export function svgText(drawing: Drawing): string {
  const box = drawingBox(drawing);
  const width = box.right - box.left + 2 * printMargin;
  const height = box.top - box.bottom + 2 * printMargin;
  // The y axis of SVG points down.
  const x = (value: number): string => number(value - box.left + printMargin);
  const y = (value: number): string => number(box.top - value + printMargin);
  const to = (stroke: Stroke): string => {
    const [endX, endY] = endOf(stroke);
    if (stroke.kind === 'line') return `L${x(endX)} ${y(endY)}`;
    const large = Math.abs(stroke.sweepDeg) > 180 ? 1 : 0;
    const clockwise = stroke.sweepDeg < 0 ? 1 : 0;
    return `A${number(stroke.radius)} ${number(stroke.radius)} 0 ${large} ${clockwise} ${x(endX)} ${y(endY)}`;
  };
  const from = (stroke: Stroke): string => `M${x(beginOf(stroke)[0])} ${y(beginOf(stroke)[1])}`;
  const outline = drawing.outline
    .map((stroke, index) => (index === 0 ? from(stroke) : '') + to(stroke))
    .join('');
  const marks = drawing.marks.map((stroke) => from(stroke) + to(stroke)).join('');
  const lettering = drawing.lettering.map(
    ({ text, at, height: size }) =>
      // A capital is about 0.7 of the font size, and the middle of it 0.35 above the base line.
      `<text x="${x(at[0])}" y="${y(at[1] - size / 2)}" font-size="${number(size / 0.7)}">${escaped(text)}</text>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${number(width)}mm" height="${number(height)}mm" viewBox="0 0 ${number(width)} ${number(height)}">`,
    `<title>${escaped(drawing.title)}</title>`,
    `<g id="cut" fill="none" stroke="#000" stroke-width="0.2"><path d="${outline}Z"/></g>`,
    `<g id="mark" fill="none" stroke="#06c" stroke-width="0.2"><path d="${marks}"/></g>`,
    `<g id="text" fill="#06c" font-family="Arial, Helvetica, sans-serif" text-anchor="middle">`,
    ...lettering,
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}

/** Box around everything in the drawing, lettering included. */
export function drawingBox(drawing: Drawing): Box {
  const boxes = drawing.lettering.map(({ text, at: [x, y], height }): Stroke => {
    const half = letteringWidth(text, height) / 2;
    return { kind: 'line', from: [x - half, y - height], to: [x + half, y + height] };
  });
  return boxOf([...drawing.outline, ...drawing.marks, ...boxes]);
}

/** Ten-thousandths of a millimetre. */
function number(value: number): string {
  return String(Number(value.toFixed(4)));
}

function escaped(text: string): string {
  return text
    .replace(/[\p{Cc}\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufffe\uffff]/gu, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
