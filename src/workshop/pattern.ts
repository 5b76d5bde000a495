/**
 * The pattern of one part as a drawing, seen from outside: the outline to cut, the lines where allowances begin, a centre
 * line with an arrow along the flow, marks where the edges of neighbours meet, and what to engrave. The wider edge is up,
 * that of a cylinder the downstream one.
 *
 * Welds draw a joint together by their shrinkage; a root gap holds the edges apart. Each edge round the pipe that is
 * welded is put out by half of (shrinkage - gap), the seam's whole share lies on its right-hand edge.
 */

import { clearOf } from './clearance.ts';
import {
  arcPlace,
  type Box,
  boxOf,
  type Drawing,
  type Lettering,
  letteringWidth,
  line,
  moved,
  type Place,
  type Stroke,
} from './drawing.ts';
import {
  type End,
  edgeAt,
  type MitredCone,
  matchingDirections,
  radiusAt,
  slantOf,
  TURN,
} from './mitred-cone.ts';
import type { Part } from './parts.ts';
import { WorkshopError } from './workshop-error.ts';

/** All [m]. */
export interface Allowances {
  /** Strip along the right-hand straight edge. */
  readonly seam: number;
  /** Strip along the downstream edge, where a part follows. */
  readonly joint: number;
  readonly rootGap: number;
  readonly shrinkage: number;
}

export interface Pattern {
  readonly part: Part;
  /** Which of how many pieces round the pipe, from 1. */
  readonly panel: readonly [number: number, of: number];
  readonly drawing: Drawing;
  /** Width and height of the piece to cut out [mm]. */
  readonly piece: { readonly width: number; readonly height: number };
}

/** Developed edges of mitres are drawn in straight pieces of no more than this [rad of the sector]. */
const FINEST = 1.5e-3;
const LEAST_PIECES = 720;

/** Pattern of a part, or of one of several panels round it. `pipe` names the whole on the piece. */
export function patternOf(
  part: Part,
  allowances: Allowances,
  pipe: string,
  panel: readonly [number: number, of: number] = [1, 1],
): Pattern {
  const sheet = layout(part, panel);
  const weldShare = (allowances.shrinkage - allowances.rootGap) / 2;
  const put = (end: End): number =>
    weldShare + (end === 'end' && part.welds[1] !== null ? allowances.joint : 0);
  const extent: Record<End, number> = { start: put('start'), end: part.welds[1] === null ? 0 : put('end') };
  const strip = 1000 * (allowances.seam + 2 * weldShare);
  refuseLappedSeam(part, panel, strip / 1000);
  const [top, bottom]: readonly [End, End] = part.middle.slope >= 0 ? ['end', 'start'] : ['start', 'end'];
  const right = (end: End, extra: number): Place => sheet.place(sheet.right, end, extra);
  const edge: readonly [Place, Place] = [right(bottom, extent[bottom]), right(top, extent[top])];
  const outline: readonly Stroke[] = [
    sheet.edge(top, sheet.right, sheet.left, extent[top]),
    line(sheet.place(sheet.left, top, extent[top]), sheet.place(sheet.left, bottom, extent[bottom])),
    sheet.edge(bottom, sheet.left, sheet.right, extent[bottom]),
    ...seamEdge(edge, strip),
  ];
  const trueEdges = (['start', 'end'] as const).filter((end) => extent[end] !== 0);
  const text = fitted(wordsOf(part, panel, pipe), sheet);
  const piece = boxOf(outline);
  const drawing: Drawing = {
    title: `${labelOf(part, panel)} (${pipe})`,
    outlines: [outline],
    folds: [
      ...(strip === 0 ? [] : [line(right(bottom, 0), right(top, 0))]),
      ...trueEdges.map((end) => sheet.edge(end, sheet.left, sheet.right, 0)),
    ],
    marks: clearOf(text, [...centreLine(sheet), ...matchMarks(part, sheet)]),
    lettering: [...text, ...weldNumbers(part, sheet)],
  };
  return {
    part,
    panel,
    drawing: moved(drawing, [-piece.left, -piece.bottom]),
    piece: { width: piece.right - piece.left, height: piece.top - piece.bottom },
  };
}

export function labelOf(part: Part, [panel, of]: readonly [number, number]): string {
  return `${String(part.number).padStart(2, '0')} ${part.name}${of === 1 ? '' : `, panel ${panel} of ${of}`}`;
}

interface Layout {
  readonly cone: MitredCone;
  /** Directions round the pipe at the left and the right of the blank, and half-way [rad]. */
  readonly left: number;
  readonly right: number;
  readonly middle: number;
  /** A point of an edge put out along its slant [m], on paper [mm]. */
  readonly place: (phi: number, end: End, extra: number) => Place;
  /** A point a share of the way from the start edge to the end edge. */
  readonly between: (phi: number, share: number) => Place;
  readonly edge: (end: End, from: number, to: number, extra: number) => Stroke;
  readonly holds: (place: Place) => boolean;
}

function layout({ middle: cone, seam }: Part, [panel, of]: readonly [number, number]): Layout {
  const low = seam + ((panel - 1) * TURN) / of;
  const high = low + TURN / of;
  const middle = (low + high) / 2;
  const sin = Math.abs(cone.slope) / slantOf(cone);
  const side = cone.slope >= 0 ? 1 : -1;
  const round = cone.slope === 0;
  const directionDeg = (phi: number): number => 90 - (side * (phi - middle) * sin * 180) / Math.PI;
  const paper = (phi: number, z: number): Place => {
    const r = 1000 * radiusAt(cone, z);
    return round ? [r * (phi - middle), 1000 * z] : arcPlace([0, 0], r / sin, directionDeg(phi));
  };
  const along = (end: End, phi: number, extra: number): number =>
    edgeAt(cone, end, phi) + ((end === 'start' ? -1 : 1) * extra) / slantOf(cone);
  const place = (phi: number, end: End, extra: number): Place => paper(phi, along(end, phi, extra));
  const edge = (end: End, from: number, to: number, extra: number): Stroke => {
    if (cone[end] === null && round) return line(place(from, end, extra), place(to, end, extra));
    if (cone[end] === null) {
      const radius = (1000 * radiusAt(cone, along(end, 0, extra))) / sin;
      const [startDeg, endDeg] = [directionDeg(from), directionDeg(to)];
      return { kind: 'arc', centre: [0, 0], radius, startDeg, sweepDeg: endDeg - startDeg };
    }
    const pieces = Math.max(LEAST_PIECES, Math.ceil((Math.abs(to - from) * sin) / FINEST));
    const share = (index: number): number => from + ((to - from) * index) / pieces;
    return {
      kind: 'path',
      places: Array.from({ length: pieces + 1 }, (_, index) => place(share(index), end, extra)),
    };
  };
  const holds = ([x, y]: Place): boolean => {
    const off = round ? x / 1000 / cone.radius : (side * Math.atan2(x, y)) / sin;
    if (Math.abs(off) >= TURN / of / 2) return false;
    const z = round ? y / 1000 : ((Math.hypot(x, y) * sin) / 1000 - cone.radius) / cone.slope;
    return z > edgeAt(cone, 'start', middle + off) && z < edgeAt(cone, 'end', middle + off);
  };
  const between = (phi: number, share: number): Place => {
    const [from, to] = [edgeAt(cone, 'start', phi), edgeAt(cone, 'end', phi)];
    return paper(phi, from + share * (to - from));
  };
  const [left, right] = side > 0 ? [low, high] : [high, low];
  return { cone, left, right, middle, place, between, edge, holds };
}

/** A blunt cone's sector goes nearly round: the strip must not reach its other edge. */
function refuseLappedSeam({ middle, name }: Part, [, of]: readonly [number, number], strip: number): void {
  if (middle.slope === 0 || of > 1) return;
  const sin = Math.abs(middle.slope) / slantOf(middle);
  const least = Math.min(radiusAt(middle, 0), radiusAt(middle, middle.length));
  if ((TURN * (1 - sin) * least) / sin <= strip)
    throw new WorkshopError(`The seam of "${name}" would lie on its other edge; make it narrower (--seam).`);
}

/** The right-hand edge from its lower to its upper end, round a strip for the seam if there is one. */
function seamEdge([lower, upper]: readonly [Place, Place], strip: number): readonly Stroke[] {
  if (strip === 0) return [line(lower, upper)];
  const length = Math.hypot(upper[0] - lower[0], upper[1] - lower[1]);
  const across: Place = [(strip * (upper[1] - lower[1])) / length, (-strip * (upper[0] - lower[0])) / length];
  const besideLower: Place = [lower[0] + across[0], lower[1] + across[1]];
  const besideUpper: Place = [upper[0] + across[0], upper[1] + across[1]];
  return [line(lower, besideLower), line(besideLower, besideUpper), line(besideUpper, upper)];
}

/** Open in the middle for the lettering, its tip an arrow along the flow. */
function centreLine({ middle, between }: Layout): readonly Stroke[] {
  const [a, b, c, tip] = [0, 0.22, 0.78, 0.97].map((share) => between(middle, share)) as [
    Place,
    Place,
    Place,
    Place,
  ];
  const [dx, dy] = [tip[0] - c[0], tip[1] - c[1]];
  const length = Math.hypot(dx, dy);
  const head = Math.min(5, length / 2);
  const barb = (sideways: number): Stroke =>
    line(tip, [
      tip[0] - (head / length) * (dx + sideways * dy),
      tip[1] - (head / length) * (dy - sideways * dx),
    ]);
  return [line(a, b), line(between(middle, 1), c), barb(0.4), barb(-0.4)];
}

/** Short marks inwards from both edges where the same points of two neighbours meet. */
function matchMarks({ middle: cone }: Part, { left, right, between }: Layout): readonly Stroke[] {
  const [low, high] = [Math.min(left, right), Math.max(left, right)];
  return (['start', 'end'] as const).flatMap((end) =>
    matchingDirections(cone, end).flatMap((direction): readonly Stroke[] => {
      const phi = low + ((((direction - low) % TURN) + TURN) % TURN);
      if (phi < low + 1e-6 || phi > high - 1e-6) return [];
      const slant = 1000 * slantOf(cone) * (edgeAt(cone, 'end', phi) - edgeAt(cone, 'start', phi));
      const share = Math.min(6, slant / 4) / slant;
      const [from, to] = end === 'start' ? [0, share] : [1, 1 - share];
      return [line(between(phi, from), between(phi, to))];
    }),
  );
}

function wordsOf(part: Part, panel: readonly [number, number], pipe: string): readonly (readonly string[])[] {
  const [start, end] = part.diameter.map((diameter) => (1000 * diameter).toFixed(1));
  const size = `inside dia ${start}${start === end ? '' : ` to ${end}`}, length ${(1000 * part.length).toFixed(1)}`;
  const name = labelOf(part, panel);
  const number = String(part.number).padStart(2, '0');
  return [
    [name, pipe, size, `sheet ${Number((1000 * part.thickness).toFixed(2))}, this side out`],
    [name, size],
    [panel[1] === 1 ? number : `${number} ${panel[0]}/${panel[1]}`],
  ];
}

/** The fullest wording that fits at 1.6 mm or more, as large as the piece allows up to 4 mm. */
function fitted(wordings: readonly (readonly string[])[], sheet: Layout): readonly Lettering[] {
  const spots = [0, 0.16, -0.16, 0.25, -0.25].map((share) =>
    sheet.between(sheet.middle + share * (sheet.right - sheet.left), 0.5),
  );
  for (const lines of wordings) {
    const longest = lines.reduce((a, b) => (b.length > a.length ? b : a), '');
    for (let height = 4; height >= 1.6; height *= 0.95) {
      const [w, h] = [letteringWidth(longest, height) / 2, 1.15 * height * lines.length];
      const spot = spots.find(([x, y]) =>
        fits({ left: x - w, right: x + w, bottom: y - h, top: y + h }, sheet),
      );
      if (spot === undefined) continue;
      return lines.map((text, index) => ({
        text,
        height,
        upright: false,
        at: [spot[0], spot[1] + 1.8 * height * ((lines.length - 1) / 2 - index)],
      }));
    }
  }
  const text = wordings.at(-1)?.[0] ?? '';
  return [{ text, height: 1.6, upright: false, at: sheet.between(sheet.middle, 0.5) }];
}

function fits(box: Box, { holds }: Layout): boolean {
  const shares = [0, 0.25, 0.5, 0.75, 1];
  return shares.every((share) => {
    const [x, y] = [box.left + share * (box.right - box.left), box.bottom + share * (box.top - box.bottom)];
    return (
      [box.bottom, box.top].every((edge) => holds([x, edge])) &&
      [box.left, box.right].every((edge) => holds([edge, y]))
    );
  });
}

/** Numbers of the welds beside the centre line, where there is room. */
function weldNumbers({ welds, middle: cone }: Part, sheet: Layout): readonly Lettering[] {
  const slant =
    1000 * slantOf(cone) * (edgeAt(cone, 'end', sheet.middle) - edgeAt(cone, 'start', sheet.middle));
  if (slant < 30) return [];
  return ([0, 1] as const).flatMap((end): readonly Lettering[] => {
    const number = welds[end];
    const [x, y] = sheet.between(sheet.middle, end === 0 ? 4 / slant : 1 - 4 / slant);
    const at: Place = [x + 7, y];
    return number === null || !sheet.holds(at)
      ? []
      : [{ text: `W${number}`, height: 2.2, upright: false, at }];
  });
}
