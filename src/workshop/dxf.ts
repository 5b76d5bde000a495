/**
 * Drawings as one DXF file (ASCII, AutoCAD DXF Reference), one unit a millimetre: LINE, ARC, LWPOLYLINE and TEXT on the
 * layers `cut`, `fold` (where allowances begin), `mark` (to scribe) and `engrave` (text). Coordinates to a millionth of a
 * millimetre, directions to nine digits: an almost straight edge has a radius of metres.
 */

import Drafting from 'dxf-writer';
import type { Drawing, Lettering, Stroke } from './drawing.ts';

const LAYERS = [
  ['cut', 'WHITE'],
  ['fold', 'BLUE'],
  ['mark', 'CYAN'],
  ['engrave', 'GREEN'],
] as const;

export function dxfText(drawings: readonly Drawing[]): string {
  const file = new Drafting();
  file.setUnits('Millimeters');
  for (const [name, colour] of LAYERS) file.addLayer(name, Drafting.ACI[colour]!, 'CONTINUOUS');
  const layer = (name: (typeof LAYERS)[number][0], draw: () => void): void => {
    file.setActiveLayer(name);
    draw();
  };
  layer('cut', () => {
    for (const { outlines } of drawings)
      for (const outline of outlines) for (const one of outline) strike(file, one);
  });
  layer('fold', () => {
    for (const { folds } of drawings) for (const one of folds) strike(file, one);
  });
  layer('mark', () => {
    for (const { marks } of drawings) for (const one of marks) strike(file, one);
  });
  layer('engrave', () => {
    for (const { lettering } of drawings) for (const one of lettering) letter(file, one);
  });
  return `${file.toDxfString()}\n`;
}

function strike(file: Drafting, stroke: Stroke): void {
  if (stroke.kind === 'line') {
    const [[x1, y1], [x2, y2]] = [stroke.from, stroke.to];
    file.drawLine(rounded(x1), rounded(y1), rounded(x2), rounded(y2));
  } else if (stroke.kind === 'path') {
    file.drawPolyline(stroke.places.map(([x, y]) => [rounded(x), rounded(y)]));
  } else {
    // Arcs run anticlockwise from the first angle to the second.
    const end = stroke.startDeg + stroke.sweepDeg;
    const [from, to] = stroke.sweepDeg < 0 ? [end, stroke.startDeg] : [stroke.startDeg, end];
    const [x, y] = stroke.centre;
    file.drawArc(rounded(x), rounded(y), rounded(stroke.radius), direction(from), direction(to));
  }
}

function letter(file: Drafting, { text, at: [x, y], height, upright }: Lettering): void {
  file.drawText(
    rounded(x),
    rounded(y),
    rounded(height),
    upright ? 90 : 0,
    plainAscii(text),
    'center',
    'middle',
  );
}

function rounded(value: number): number {
  return Number(value.toFixed(6)) + 0;
}

/** In [0, 360). */
function direction(degrees: number): number {
  return Number((((degrees % 360) + 360) % 360).toFixed(9));
}

/** ASCII, so that no reader's code page matters, and no % or ^, which lead control codes. */
function plainAscii(text: string): string {
  const folded = text.normalize('NFKD').replace(/\p{M}/gu, '').replaceAll('%', ' per cent');
  return folded.replace(/[^\x20-\x7e]|\^/g, '?').slice(0, 250);
}
