/**
 * The pattern of one section as a drawing: the outline to cut, a centre line and quarter marks to align the sections
 * by, the line of the seam, what to engrave, and a bar to check the print against. The wider edge is up; the seam
 * allowance is a strip along the right-hand straight edge.
 */

import type { Section } from '../model/section.ts';
import { type Development, developmentOf } from './development.ts';
import {
  arcPlace,
  type Box,
  boxOf,
  type Drawing,
  type Lettering,
  letteringWidth,
  moved,
  type Place,
  type Stroke,
} from './drawing.ts';

export interface Sheet {
  /** Thickness of the sheet and width of the seam allowance [m]. */
  readonly thickness: number;
  readonly seam: number;
}

export interface Pattern {
  readonly section: Section;
  readonly development: Development;
  readonly drawing: Drawing;
  /** Width and height of the piece to cut out [mm]. */
  readonly piece: { readonly width: number; readonly height: number };
}

/** A pattern that cannot be cut from one piece of sheet. */
export class PatternError extends Error {
  override readonly name = 'PatternError';
  readonly exitCode = 2;
}

const barLength = 50;
const origin: Place = [0, 0];

/** Pattern of a section; `label` stands first on the piece. */
export function patternOf(section: Section, sheet: Sheet, label: string): Pattern {
  const development = developmentOf(section, sheet.thickness);
  const seam = mm(sheet.seam);
  const shape =
    development.kind === 'sector' ? sectorShape(development, seam) : rectangleShape(development, seam);
  if (
    development.kind === 'sector' &&
    (2 * Math.PI - development.sweep) * development.innerRadius <= sheet.seam
  ) {
    throw new PatternError(`The seam of "${section.name}" would lie on its other edge; make it narrower.`);
  }
  const piece = boxOf(shape.outline);
  const [left, right] = section.diameter.map((diameter) => mm(diameter).toFixed(1));
  const lines = [
    label,
    `inside dia ${left}${left === right ? '' : ` to ${right}`}, length ${mm(section.length).toFixed(1)}`,
    `sheet ${shortest(mm(sheet.thickness))}${seam > 0 ? `, seam ${shortest(seam)} included` : ', no seam allowance'}`,
  ];
  const bar = scaleBar([piece.left, piece.bottom - 8]);
  const drawing = {
    title: label,
    outline: shape.outline,
    marks: [...shape.marks, ...bar.marks],
    lettering: [...fitted(lines, shape), ...bar.lettering],
  };
  return {
    section,
    development,
    drawing: moved(drawing, [-piece.left, -piece.bottom + 14]),
    piece: { width: piece.right - piece.left, height: piece.top - piece.bottom },
  };
}

interface Shape {
  readonly outline: readonly Stroke[];
  readonly marks: readonly Stroke[];
  /** Middle of the piece, where lettering goes. */
  readonly middle: Place;
  /** Whether a box around the middle lies within the piece. */
  readonly holds: (box: Box) => boolean;
}

function sectorShape(development: Development & { kind: 'sector' }, seam: number): Shape {
  const inner = mm(development.innerRadius);
  const outer = mm(development.outerRadius);
  const sweep = (development.sweep * 180) / Math.PI;
  const [low, high] = [90 - sweep / 2, 90 + sweep / 2];
  const arc = (radius: number, startDeg: number, sweepDeg: number): Stroke => ({
    kind: 'arc',
    centre: origin,
    radius,
    startDeg,
    sweepDeg,
  });
  const spoke = (directionDeg: number, from: number, to: number): Stroke =>
    line(arcPlace(origin, from, directionDeg), arcPlace(origin, to, directionDeg));
  const edge: readonly [Place, Place] = [arcPlace(origin, inner, low), arcPlace(origin, outer, low)];
  const middleRadius = (inner + outer) / 2;
  return {
    outline: [
      arc(outer, low, sweep),
      spoke(high, outer, inner),
      arc(inner, high, -sweep),
      ...seamEdge(edge, seam),
    ],
    marks: [
      ...alignment(outer - inner, (share, from, to) => spoke(low + share * sweep, inner + from, inner + to)),
      ...(seam > 0 ? [line(...edge)] : []),
    ],
    middle: [0, middleRadius],
    holds: (box) =>
      [box.left, box.right].every((x) => {
        const halfSweep = Math.min(sweep / 2, 90);
        const within = (Math.atan2(Math.abs(x), box.bottom) * 180) / Math.PI < halfSweep;
        return within && box.bottom > inner && Math.hypot(x, box.top) < outer;
      }),
  };
}

function rectangleShape(development: Development & { kind: 'rectangle' }, seam: number): Shape {
  const [width, height] = [mm(development.width), mm(development.slant)];
  const [left, right] = [-width / 2, width / 2];
  const edge: readonly [Place, Place] = [
    [right, 0],
    [right, height],
  ];
  return {
    outline: [
      line([right, height], [left, height]),
      line([left, height], [left, 0]),
      line([left, 0], [right, 0]),
      ...seamEdge(edge, seam),
    ],
    marks: [
      ...alignment(height, (share, from, to) =>
        line([left + share * width, from], [left + share * width, to]),
      ),
      ...(seam > 0 ? [line(...edge)] : []),
    ],
    middle: [0, height / 2],
    holds: (box) => box.left > left && box.right < right && box.bottom > 0 && box.top < height,
  };
}

/** The right-hand edge from its inner to its outer end, round a strip for the seam if there is one. */
function seamEdge([inner, outer]: readonly [Place, Place], seam: number): readonly Stroke[] {
  if (seam === 0) return [line(inner, outer)];
  const length = Math.hypot(outer[0] - inner[0], outer[1] - inner[1]);
  const across: Place = [(seam * (outer[1] - inner[1])) / length, (-seam * (outer[0] - inner[0])) / length];
  const besideInner: Place = [inner[0] + across[0], inner[1] + across[1]];
  const besideOuter: Place = [outer[0] + across[0], outer[1] + across[1]];
  return [line(inner, besideInner), line(besideInner, besideOuter), line(besideOuter, outer)];
}

/** Centre line, left open in the middle for the lettering, and short marks at the quarters of both edges. */
function alignment(
  slant: number,
  spoke: (share: number, from: number, to: number) => Stroke,
): readonly Stroke[] {
  const tick = Math.min(6, slant / 4);
  return [
    spoke(0.5, 0, 0.25 * slant),
    spoke(0.5, 0.75 * slant, slant),
    ...[0.25, 0.75].flatMap((share) => [spoke(share, 0, tick), spoke(share, slant - tick, slant)]),
  ];
}

/** Lines of text about the middle, as large as the piece allows up to 4 mm. */
function fitted(lines: readonly string[], shape: Shape): readonly Lettering[] {
  const [x, y] = shape.middle;
  const longest = lines.reduce((a, b) => (b.length > a.length ? b : a), '');
  let height = 4;
  const fits = (): boolean => {
    const [halfWidth, halfHeight] = [letteringWidth(longest, height) / 2, 0.9 * height * lines.length];
    return shape.holds({
      left: x - halfWidth,
      right: x + halfWidth,
      bottom: y - halfHeight,
      top: y + halfHeight,
    });
  };
  while (height > 1 && !fits()) height *= 0.95;
  return lines.map((text, index) => ({
    text,
    height,
    at: [x, y + 1.8 * height * ((lines.length - 1) / 2 - index)],
  }));
}

function scaleBar([x, y]: Place): { marks: readonly Stroke[]; lettering: readonly Lettering[] } {
  const ticks = [0, 10, 20, 30, 40, 50].map((at) =>
    line([x + at, y - (at % barLength === 0 ? 2 : 1)], [x + at, y]),
  );
  const text = `bar is ${barLength} mm: measure the print`;
  const height = 2.2;
  return {
    marks: [line([x, y], [x + barLength, y]), ...ticks],
    lettering: [{ text, height, at: [x + letteringWidth(text, height) / 2, y - 4] }],
  };
}

function line(from: Place, to: Place): Stroke {
  return { kind: 'line', from, to };
}

function mm(metres: number): number {
  return metres * 1000;
}

function shortest(millimetres: number): string {
  return String(Number(millimetres.toFixed(2)));
}
