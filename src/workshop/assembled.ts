/**
 * The assembled pipe seen from a side, in parallel projection. Each part is convex, so its outline is the convex hull of
 * its two edges projected; parts are drawn from the back to the front, each hiding what is behind it.
 */

import { plus, type Vector } from './centreline.ts';
import type { Box, Place } from './drawing.ts';
import { haloed, paper, stroke, text } from './ink.ts';
import { type End, edgeAt, radiusAt, slantOf, TURN } from './mitred-cone.ts';
import type { Part } from './parts.ts';

/** Which way one looks, and what is right and up in the picture. */
export interface View {
  readonly name: string;
  readonly right: Vector;
  readonly up: Vector;
  /** Towards the eye. */
  readonly eye: Vector;
}

export const VIEWS: readonly View[] = [
  { name: 'from its right side', right: [1, 0, 0], up: [0, 1, 0], eye: [0, 0, 1] },
  { name: 'from above', right: [1, 0, 0], up: [0, 0, -1], eye: [0, 1, 0] },
];

/** What a part shows, all places in mm. */
export interface Face {
  readonly part: Part;
  /** Closed. */
  readonly hull: readonly Place[];
  /** The seen half of each edge. */
  readonly edges: readonly (readonly Place[])[];
  /** Its middle, and where its axis begins and ends. */
  readonly middle: Place;
  readonly start: Place;
  readonly end: Place;
}

export interface Picture {
  readonly view: View;
  /** Back to front. */
  readonly faces: readonly Face[];
  readonly box: Box;
}

/** The pipe as it is welded, from its side and from above; a straight one from its side alone. True to itself, in mm. */
export function assembledSvg(parts: readonly Part[], title: string): string {
  const bent = parts.some(({ middle }) => middle.start !== null);
  const pictures = (bent ? VIEWS : VIEWS.slice(0, 1)).map((view) => pictureOf(parts, view));
  const [margin, gap] = [20, 40];
  const width = Math.max(...pictures.map(({ box }) => box.right - box.left)) + 2 * margin;
  const size = width / 70;
  let top = margin;
  const marks = pictures.flatMap(({ box, faces, view }) => {
    const y0 = top + 1.6 * size;
    const at = ([x, y]: Place): Place => [margin + x - box.left, y0 + box.top - y];
    top = y0 + box.top - box.bottom + gap;
    return [
      text(margin, y0 - 0.8 * size, size, `Seen ${view.name}`),
      ...faces.map(
        ({ hull, edges }) =>
          stroke(hull.map(at), 'thick', '#eee', width / 350) +
          edges.map((edge) => stroke(edge.map(at), 'thin', 'none', width / 350)).join(''),
      ),
      ...faces.map(({ part, middle }) => {
        const [x, y] = at(middle);
        return haloed(x, y + 0.35 * size, size, String(part.number));
      }),
    ];
  });
  return paper(Number(width.toFixed(1)), Number((top - gap + margin).toFixed(1)), title, marks);
}

const STEPS = 90;
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** A point of the outside of a part's edge [m]. */
export function outsidePoint(part: Part, end: End, phi: number): Vector {
  const z = edgeAt(part.middle, end, phi);
  const radius = radiusAt(part.middle, z) + (part.thickness / 2) * slantOf(part.middle);
  const { origin, along, up, right } = part.frame;
  return plus(origin, [z, along], [radius * Math.cos(phi), up], [radius * Math.sin(phi), right]);
}

export function pictureOf(parts: readonly Part[], view: View): Picture {
  const flat = (point: Vector): Place => [1000 * dot(point, view.right), 1000 * dot(point, view.up)];
  const depth = (part: Part): number =>
    dot(plus(part.frame.origin, [part.length / 2, part.frame.along]), view.eye);
  const faces = [...parts]
    .sort((a, b) => depth(a) - depth(b))
    .map((part): Face => {
      const ring = (end: End): readonly Place[] =>
        Array.from({ length: STEPS }, (_, i) => flat(outsidePoint(part, end, (i / STEPS) * TURN)));
      const { origin, along } = part.frame;
      const onAxis = (share: number): Place => flat(plus(origin, [share * part.length, along]));
      return {
        part,
        hull: convexHull([...ring('start'), ...ring('end')]),
        edges: (['start', 'end'] as const).map((end) => seenHalf(part, end, view).map(flat)),
        middle: onAxis(0.5),
        start: onAxis(0),
        end: onAxis(1),
      };
    });
  const xs = faces.flatMap(({ hull }) => hull.map(([x]) => x));
  const ys = faces.flatMap(({ hull }) => hull.map(([, y]) => y));
  return {
    view,
    faces,
    box: { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) },
  };
}

/** The points of an edge whose wall faces the eye, in order. */
function seenHalf(part: Part, end: End, { eye }: View): readonly Vector[] {
  const { along, up, right } = part.frame;
  const facing = (phi: number): boolean =>
    Math.cos(phi) * dot(up, eye) + Math.sin(phi) * dot(right, eye) > part.middle.slope * dot(along, eye);
  const directions = Array.from({ length: STEPS }, (_, i) => (i / STEPS) * TURN);
  const first = directions.findIndex((phi, i) => facing(phi) && !facing(directions.at(i - 1)!));
  const from = Math.max(first, 0);
  return [...directions.slice(from), ...directions.slice(0, from)]
    .filter(facing)
    .map((phi) => outsidePoint(part, end, phi));
}

/** Andrew's monotone chain (1979). */
function convexHull(places: readonly Place[]): readonly Place[] {
  const sorted = [...places].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (ordered: readonly Place[]): Place[] => {
    const chain: Place[] = [];
    for (const place of ordered) {
      while (chain.length > 1 && turns(chain.at(-2)!, chain.at(-1)!, place) <= 0) chain.pop();
      chain.push(place);
    }
    chain.pop();
    return chain;
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}

function turns(a: Place, b: Place, c: Place): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}
