/** The files of a plan: a pattern each, sheets as they are nested, the drawing of the whole, the flat halves. */

import { type Box, boxOf, type Drawing, line, strokesOf } from './drawing.ts';
import { dxfText } from './dxf.ts';
import type { Plan } from './plan.ts';
import { svgOf, svgText } from './svg.ts';

export interface WorkshopFile {
  readonly name: string;
  readonly text: string;
}

/** A pattern's drawing as SVG and DXF. */
export function drawingFiles(stem: string, drawing: Drawing): readonly WorkshopFile[] {
  return [
    { name: `${stem}.svg`, text: svgText(drawing) },
    { name: `${stem}.dxf`, text: dxfText([drawing]) },
  ];
}

export function sheetFiles(plan: Plan): readonly WorkshopFile[] {
  return plan.sheets.flatMap(({ drawings }, index) => [
    { name: `sheet-${index + 1}.svg`, text: sheetSvg(plan, index, 1) },
    { name: `sheet-${index + 1}.dxf`, text: dxfText(drawings) },
  ]);
}

/** A sheet with its blanks; `weight` thickens the lines and numbers the blanks, for a picture that is shown small. */
export function sheetSvg({ sheets, job, patterns, name }: Plan, index: number, weight: number): string {
  const { drawings, blanks } = sheets[index]!;
  const { width, height } = job.sheet;
  const window: Box = { left: 0, bottom: 0, right: width, top: height };
  const numbers = drawings.map((drawing, i) => {
    const { left, right, bottom, top } = boxOf(strokesOf({ ...drawing, marks: [], folds: [] }));
    const { part, panel } = patterns[blanks[i]!]!;
    const text = panel[1] === 1 ? String(part.number) : `${part.number}.${panel[0]}`;
    const size = Math.min(12 * Math.sqrt(weight), (right - left) / 3, (top - bottom) / 2.5);
    return { text, height: size, upright: false, at: [(left + right) / 2, (bottom + top) / 2] as const };
  });
  const frame = [
    line([0, 0], [width, 0]),
    line([width, 0], [width, height]),
    line([width, height], [0, height]),
    line([0, height], [0, 0]),
  ];
  const shown =
    weight === 1 ? drawings : drawings.map((drawing) => ({ ...drawing, lettering: [], marks: [] }));
  const lettering = weight === 1 ? [] : numbers;
  return svgOf(`Sheet ${index + 1} of ${name}`, window, shown, { marks: frame, lettering }, weight);
}
