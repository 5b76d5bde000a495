/**
 * The whole pipe on one A4 page: its profile drawn straight along the centreline with lengths, inside diameters, angles and
 * the numbers of its welds; two views of it as it is bent; the bends and welds in figures.
 */

import { type Picture, pictureOf, VIEWS } from './assembled.ts';
import { segmentsOf } from './centreline.ts';
import type { CutRow } from './cut-list.ts';
import type { Place } from './drawing.ts';
import { dimension, haloed, paper, stroke, text } from './ink.ts';
import { builtVolume, type Plan } from './plan.ts';

const [WIDTH, HEIGHT, FRAME] = [297, 210, 8];
/** Scales that a rule has [-]. */
const SCALES = [1, 2, 2.5, 3, 4, 5, 7.5, 10, 15, 20, 50, 100];

export interface DrawingFacts {
  readonly program: string;
  readonly material: string;
  readonly rows: readonly CutRow[];
}

export function wholeDrawing(plan: Plan, facts: DrawingFacts): string {
  const bent = plan.pipe.bends.length > 0;
  const profile = profileOf(plan, bent ? 30 : 60);
  return paper(WIDTH, HEIGHT, `${plan.name}: the whole pipe`, [
    stroke(
      [
        [FRAME, FRAME],
        [WIDTH - FRAME, FRAME],
        [WIDTH - FRAME, HEIGHT - FRAME],
        [FRAME, HEIGHT - FRAME],
      ],
      'thick',
      '#fff',
    ),
    ...profile.marks,
    ...(bent ? views(plan, profile.bottom + 4, 160) : []),
    ...bendTable(plan, 161),
    ...weldList(plan),
    ...titleBlock(plan, facts, profile.scale),
  ]);
}

function scaleFor(size: number, room: number): number {
  return SCALES.find((scale) => size / scale <= room) ?? Math.ceil(size / room);
}

interface Profile {
  readonly marks: readonly string[];
  readonly bottom: number;
  readonly scale: number;
}

/** The profile straight, dimensions below it, weld numbers above. */
function profileOf({ pipe, parts }: Plan, tallest: number): Profile {
  const total = 1000 * pipe.sections.reduce((sum, { length }) => sum + length, 0);
  const widest = 1000 * Math.max(...pipe.sections.flatMap(({ diameter }) => [...diameter]));
  const scale = Math.max(scaleFor(total, 255), scaleFor(widest, tallest));
  const left = (WIDTH - total / scale) / 2;
  const half = widest / scale / 2;
  const middle = 27 + half;
  const [diameters, lengths, whole] = [middle + half + 5, middle + half + 11, middle + half + 22];
  const marks: string[] = [
    stroke(
      [
        [left - 5, middle],
        [left + total / scale + 5, middle],
      ],
      'centre',
    ),
  ];
  let at = 0;
  for (const [index, { name, length, diameter }] of pipe.sections.entries()) {
    const [x0, x1] = [left + (1000 * at) / scale, left + (1000 * (at + length)) / scale];
    const [r0, r1] = diameter.map((d) => (1000 * d) / scale / 2) as [number, number];
    marks.push(
      stroke(
        [
          [x0, middle - r0],
          [x1, middle - r1],
          [x1, middle + r1],
          [x0, middle + r0],
        ],
        'thick',
        '#fff',
      ),
      extension(x0, middle + r0, index === 0 ? whole : lengths),
      dimension(x0, x1, lengths, (1000 * length).toFixed(1)),
      fitted(x0, x1, lengths + 3, name),
      fitted(x0, x1, lengths + 6, angleWords(diameter[1] - diameter[0], length)),
      ...(index === 0 ? [text(x0 + 0.5, diameters, 2.2, bore(diameter[0]))] : []),
      text(x1 - 0.5, diameters, Math.min(2.2, (x1 - x0) / 6), bore(diameter[1]), 'end'),
    );
    if (index === pipe.sections.length - 1) marks.push(extension(x1, middle + r1, whole));
    at += length;
  }
  marks.push(
    stroke(
      [
        [left - 5, middle],
        [left + total / scale + 5, middle],
      ],
      'centre',
    ),
    dimension(left, left + total / scale, whole, `${total.toFixed(1)} along the centreline`),
    ...weldMarks(parts, left, middle, half, scale),
    text(
      left,
      14.5,
      2.4,
      `Drawn straight along the centreline, 1:${scale}. Inside diameters, millimetres. Flow from left to right.`,
    ),
  );
  return { marks, bottom: whole, scale };
}

const bore = (diameter: number): string => `⌀${(1000 * diameter).toFixed(1)}`;

function extension(x: number, from: number, to: number): string {
  return stroke(
    [
      [x, from + 0.8],
      [x, to + 1],
    ],
    'thin',
  );
}

function fitted(x0: number, x1: number, y: number, words: string): string {
  return words === ''
    ? ''
    : text((x0 + x1) / 2, y, Math.min(2.2, (x1 - x0 - 1) / (0.56 * words.length)), words, 'middle');
}

/** Whole angle between the walls. */
function angleWords(growth: number, length: number): string {
  const angle = (360 / Math.PI) * Math.atan2(Math.abs(growth), 2 * length);
  return angle < 0.05 ? '' : `${angle.toFixed(1)}°`;
}

/** Numbers in three rows, so that those of neighbouring mitres stay apart. */
function weldMarks(
  parts: Plan['parts'],
  left: number,
  middle: number,
  half: number,
  scale: number,
): string[] {
  let row = 0;
  let last = Number.NEGATIVE_INFINITY;
  return parts.map(({ at, diameter, welds }) => {
    const x = left + (1000 * at) / scale;
    row = x - last < 6 ? (row + 1) % 3 : 0;
    last = x;
    const y = middle - half - 2.5 - 2.7 * row;
    const r = (1000 * diameter[0]) / scale / 2;
    return (
      stroke(
        [
          [x, y + 0.6],
          [x, middle + r],
        ],
        'thin',
      ) + text(x, y, 2.1, `W${welds[0]}`, 'middle')
    );
  });
}

/** Side and top view beside each other. */
function views({ parts, pipe }: Plan, top: number, bottom: number): readonly string[] {
  const pictures = VIEWS.map((view) => pictureOf(parts, view));
  const size = ({ box }: Picture): readonly [number, number] => [box.right - box.left, box.top - box.bottom];
  const width = pictures.reduce((sum, picture) => sum + size(picture)[0], 0);
  const height = Math.max(...pictures.map((picture) => size(picture)[1]));
  const scale = Math.max(scaleFor(width, 245), scaleFor(height, bottom - top - 8));
  let left = (WIDTH - width / scale - 16) / 2;
  return pictures.flatMap((picture) => {
    const { box, faces, view } = picture;
    const [w, h] = size(picture).map((side) => side / scale) as [number, number];
    const y0 = top + 4 + (bottom - top - 8 - h) / 2;
    const x0 = left;
    const at = ([x, y]: Place): Place => [x0 + (x - box.left) / scale, y0 + (box.top - y) / scale];
    const labels = pipe.bends.map(({ at: from, radius, angleDeg }, index) => {
      const middle = from + (radius * angleDeg * Math.PI) / 360;
      const face =
        faces.find(({ part }) => part.at <= middle && part.at + part.length >= middle) ?? faces[0]!;
      const [x, y] = at(face.middle);
      return haloed(x, y + 0.9, 2.4, `B${index + 1}`);
    });
    left += w + 16;
    return [
      ...faces.map(
        ({ hull, edges }) =>
          stroke(hull.map(at), 'thick', '#fff') + edges.map((edge) => stroke(edge.map(at), 'thin')).join(''),
      ),
      ...labels,
      text(x0 + w / 2, top + 3, 2.2, `${view.name}, 1:${scale}`, 'middle'),
    ];
  });
}

function bendTable({ pipe }: Plan, top: number): readonly string[] {
  if (pipe.bends.length === 0) return [text(14, top + 4, 2.4, 'No bends.')];
  const columns = [14, 24, 40, 54, 70, 86, 104];
  const step = Math.min(3.4, 20 / pipe.bends.length);
  const row = (y: number, cells: readonly string[]): string[] =>
    cells.map((cell, i) => text(columns[i]!, y, Math.min(2.3, 0.7 * step), cell));
  return [
    ...row(top + 3, ['bend', 'at mm', 'angle', 'radius', 'plane', 'segments', 'turn a joint, ends half']),
    ...pipe.bends.flatMap((bend, index) =>
      row(top + 3 + step * (index + 1), [
        `B${index + 1}`,
        (1000 * bend.at).toFixed(1),
        `${Number(bend.angleDeg.toFixed(2))}°`,
        (1000 * bend.radius).toFixed(1),
        `${Number(bend.planeDeg.toFixed(2))}°`,
        String(segmentsOf(bend)),
        `${(bend.angleDeg / segmentsOf(bend)).toFixed(2)}°`,
      ]),
    ),
  ];
}

/** Where the welds are, in as many lines as they need. */
function weldList({ parts }: Plan): readonly string[] {
  const entries = parts.map(({ welds, at }) => `W${welds[0]} ${(1000 * at).toFixed(1)}`);
  const size = entries.length > 48 ? 1.7 : 2.1;
  const perLine = Math.floor(172 / (size * 6));
  const lines = Array.from({ length: Math.ceil(entries.length / perLine) }, (_, i) =>
    entries.slice(i * perLine, (i + 1) * perLine).join(', '),
  );
  return [
    text(14, 188, 2.2, 'Welds round the pipe, mm along the centreline from the flange (W1 is the flange’s):'),
    ...lines.map((words, i) => text(14, 188 + (size + 1.2) * (i + 1), size, words)),
  ];
}

function titleBlock(plan: Plan, { program, material, rows }: DrawingFacts, scale: number): readonly string[] {
  const [left, top] = [199, 164];
  const { pipe, job, sheets } = plan;
  const total = 1000 * pipe.sections.reduce((sum, { length }) => sum + length, 0);
  const mass = rows.reduce((sum, { massG }) => sum + massG, 0);
  const seams = rows.reduce((sum, { seamWeldMm }) => sum + seamWeldMm, 0);
  const joints = rows.reduce((sum, { jointWeldMm }) => sum + jointWeldMm, 0);
  const lines = [
    `${Number((1000 * job.thickness).toFixed(2))} mm ${material}, ${rows.length} blanks on ${sheets.length} ${sheets.length === 1 ? 'sheet' : 'sheets'}, ${mass.toFixed(0)} g`,
    `length ${total.toFixed(1)} mm, volume ${(1e6 * builtVolume(plan)).toFixed(0)} cc inside`,
    `welds: seams ${(seams / 1000).toFixed(2)} m, joints ${(joints / 1000).toFixed(2)} m`,
    `root gap ${Number((1000 * job.allowances.rootGap).toFixed(2))} mm, shrinkage ${Number((1000 * job.allowances.shrinkage).toFixed(2))} mm a weld`,
    `scale 1:${scale}, A4. ${program}`,
  ];
  const size = Math.min(4, 84 / (0.58 * Math.max(1, [...plan.name].length)));
  return [
    stroke(
      [
        [left, top],
        [WIDTH - FRAME, top],
        [WIDTH - FRAME, HEIGHT - FRAME],
        [left, HEIGHT - FRAME],
      ],
      'thick',
      '#fff',
    ),
    text(left + 3, top + 7, size, plan.name),
    ...lines.map((words, i) => text(left + 3, top + 14 + 4.4 * i, 2.5, words)),
  ];
}
