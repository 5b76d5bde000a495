/**
 * A drawing as a DXF file of release 12 (AutoCAD DXF Reference R12, 1992), the oldest that every program reads: LINE,
 * ARC and TEXT on layers CUT, MARK and TEXT. The format carries no unit; one drawing unit is one millimetre, and a
 * comment says so. Arcs run anticlockwise from group 50 to 51.
 */

import { boxOf, type Drawing, type Lettering, type Stroke } from './drawing.ts';

type Group = readonly [code: number, value: string];

const layers: readonly (readonly [name: string, colour: number])[] = [
  ['CUT', 7],
  ['MARK', 5],
  ['TEXT', 3],
];

export function dxfText(drawing: Drawing): string {
  const box = boxOf([...drawing.outline, ...drawing.marks]);
  const groups: readonly Group[] = [
    [999, 'one unit is one millimetre'],
    ...section('HEADER', [
      [9, '$ACADVER'],
      [1, 'AC1009'],
      [9, '$EXTMIN'],
      ...place(10, [box.left, box.bottom]),
      [9, '$EXTMAX'],
      ...place(10, [box.right, box.top]),
    ]),
    ...section('TABLES', layerTable()),
    ...section('ENTITIES', [
      ...drawing.outline.flatMap((stroke) => strokeGroups(stroke, 'CUT')),
      ...drawing.marks.flatMap((stroke) => strokeGroups(stroke, 'MARK')),
      ...drawing.lettering.flatMap(textGroups),
    ]),
    [0, 'EOF'],
  ];
  return groups.map(([code, value]) => `${String(code).padStart(3)}\n${value}\n`).join('');
}

function section(name: string, groups: readonly Group[]): readonly Group[] {
  return [[0, 'SECTION'], [2, name], ...groups, [0, 'ENDSEC']];
}

function layerTable(): readonly Group[] {
  const continuous: readonly Group[] = [
    [0, 'TABLE'],
    [2, 'LTYPE'],
    [70, '1'],
    [0, 'LTYPE'],
    [2, 'CONTINUOUS'],
    [70, '0'],
    [3, 'Solid line'],
    [72, '65'],
    [73, '0'],
    [40, '0.0'],
    [0, 'ENDTAB'],
  ];
  const entries = layers.flatMap(([name, colour]): readonly Group[] => [
    [0, 'LAYER'],
    [2, name],
    [70, '0'],
    [62, String(colour)],
    [6, 'CONTINUOUS'],
  ]);
  return [...continuous, [0, 'TABLE'], [2, 'LAYER'], [70, String(layers.length)], ...entries, [0, 'ENDTAB']];
}

function strokeGroups(stroke: Stroke, layer: string): readonly Group[] {
  if (stroke.kind === 'line')
    return [[0, 'LINE'], [8, layer], ...place(10, stroke.from), ...place(11, stroke.to)];
  const end = stroke.startDeg + stroke.sweepDeg;
  const [from, to] = stroke.sweepDeg < 0 ? [end, stroke.startDeg] : [stroke.startDeg, end];
  return [
    [0, 'ARC'],
    [8, layer],
    ...place(10, stroke.centre),
    [40, number(stroke.radius)],
    [50, direction(from)],
    [51, direction(to)],
  ];
}

function textGroups({ text, at, height }: Lettering): readonly Group[] {
  return [
    [0, 'TEXT'],
    [8, 'TEXT'],
    ...place(10, at),
    [40, number(height)],
    [1, plainAscii(text)],
    [72, '1'],
    [73, '2'],
    ...place(11, at),
  ];
}

/** x, y, z of a place; their group codes are ten apart. */
function place(code: number, [x, y]: readonly [number, number]): readonly Group[] {
  return [
    [code, number(x)],
    [code + 10, number(y)],
    [code + 20, '0.0'],
  ];
}

function number(value: number): string {
  return value.toFixed(6);
}

/** In [0, 360). Nine digits: an almost straight edge has a radius of metres. */
function direction(degrees: number): string {
  return (((degrees % 360) + 360) % 360).toFixed(9);
}

/** What release 12 can letter: ASCII, and no % (which leads its control codes). */
function plainAscii(text: string): string {
  const folded = text.normalize('NFKD').replace(/\p{M}/gu, '').replaceAll('%', ' per cent');
  return folded.replace(/[^\x20-\x7e]/g, '?').slice(0, 250);
}
