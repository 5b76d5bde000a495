/** `echocone unroll`: flat patterns of the pipe's sections, an SVG and a DXF each, and a table of their sizes. */

import type { RunCard } from '../../plots/pages/run-cards.ts';
import { loadCase, loadPipe, readKind } from '../case/load.ts';
import type { Pipe } from '../model/pipe.ts';
import { placed } from '../pipe/places.ts';
import { dxfText } from '../workshop/dxf.ts';
import { paperFor } from '../workshop/paper.ts';
import { type Pattern, patternOf } from '../workshop/pattern.ts';
import { drawingBox, svgText } from '../workshop/svg.ts';
import { jsonText } from './frame/json.ts';
import { plainText } from './frame/plain-text.ts';
import { fileNameOf, openRunFolder } from './frame/run-folder.ts';
import { HERE, listRun } from './frame/run-index.ts';
import { type Column, tableText } from './frame/table.ts';
import type { Invocation } from './frame/verb.ts';

const caution =
  'Sheet edges cut: wear gloves and deburr. Weld only clean, uncoated steel, with ventilation: zinc fume is poisonous.';

interface Row {
  readonly file: string;
  readonly name: string;
  readonly kind: 'cone' | 'cylinder';
  readonly slantMm: number;
  readonly innerRadiusMm: number | null;
  readonly outerRadiusMm: number | null;
  readonly sweepDeg: number | null;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly areaCm2: number;
  readonly paper: string | null;
}

export async function run({ files, flags, terminal, program }: Invocation): Promise<void> {
  const file = files[0] as string;
  const { pipe, name } = pipeOf(file, flags.set);
  const sheet = { thickness: flags.thickness, seam: flags.seam };
  // All patterns first: a section that cannot be drawn leaves no half-filled folder.
  const drawn = pipe.sections.map((section, index) => {
    const number = String(index + 1).padStart(2, '0');
    const pattern = patternOf(section, sheet, `${number} ${section.name} (${name})`);
    return { pattern, file: `${number}-${fileNameOf(section.name)}` };
  });
  const folder = openRunFolder({
    out: flags.out,
    name: `${name} patterns`,
    overwrite: flags.overwrite,
  });
  for (const { pattern, file: fileName } of drawn) {
    folder.write(`${fileName}.svg`, svgText(pattern.drawing));
    folder.write(`${fileName}.dxf`, dxfText(pattern.drawing));
  }
  listRun(folder, HERE, unrollCard(name, pipe, drawn.length, sheet.thickness), { terminal, program });
  const rows = drawn.map(({ pattern, file: fileName }) => rowOf(pattern, fileName));
  if (flags.json) {
    const patterns = {
      schemaVersion: 1,
      kind: 'unroll',
      program,
      name,
      folder: folder.path,
      ...sheet,
      patterns: rows,
    };
    terminal.answer(jsonText(patterns));
  } else {
    terminal.answer(`${plainText(name)}: patterns on the middle of ${mm(sheet.thickness)} mm sheet\n`);
    terminal.answer(tableText(columns, rows));
    terminal.answer(`\nR: radii of the developed edges. Print at 100 %; the bar must measure 50 mm.`);
    if (pipe.silencer !== null) terminal.answer('The silencer is not unrolled.');
  }
  terminal.message(`${2 * rows.length} files in ${folder.path}. ${caution}`);
}

/** The pipe of a case or of a pipe file. */
function pipeOf(file: string, set: readonly string[]): { pipe: Pipe; name: string } {
  if (readKind(file) === 'pipe') {
    const pipe = loadPipe(file, { set });
    return { pipe, name: pipe.name };
  }
  const whole = loadCase(file, { set });
  return { pipe: whole.pipe, name: whole.name };
}

/** What the index shows of it: the pipe, from the flange on. */
function unrollCard(name: string, pipe: Pipe, count: number, thickness: number): RunCard {
  const outline = placed(pipe.sections).map(({ name: section, role, start, end, diameter }) => ({
    name: section,
    role,
    start,
    end,
    diameters: diameter,
  }));
  const patterns = `${count} ${count === 1 ? 'pattern' : 'patterns'}`;
  return {
    title: name,
    kind: 'unroll',
    line: `${patterns} for ${Number(mm(thickness).toPrecision(4))} mm sheet, an SVG and a DXF each.`,
    outlines: [outline],
    curves: [],
  };
}

function rowOf(pattern: Pattern, file: string): Row {
  const { development, drawing, piece, section } = pattern;
  const sector = development.kind === 'sector' ? development : null;
  const box = drawingBox(drawing);
  return {
    file,
    name: section.name,
    kind: sector === null ? 'cylinder' : 'cone',
    slantMm: mm(development.slant),
    innerRadiusMm: sector === null ? null : mm(sector.innerRadius),
    outerRadiusMm: sector === null ? null : mm(sector.outerRadius),
    sweepDeg: sector === null ? null : (sector.sweep * 180) / Math.PI,
    widthMm: piece.width,
    heightMm: piece.height,
    areaCm2: development.area * 1e4,
    paper: paperFor(box.right - box.left, box.top - box.bottom),
  };
}

const fixed = (value: number | null, digits: number): string =>
  value === null ? '-' : value.toFixed(digits);

const columns: readonly Column<Row>[] = [
  { header: 'pattern', align: 'left', text: (row) => row.file },
  { header: 'slant', unit: 'mm', text: (row) => fixed(row.slantMm, 1) },
  { header: 'inner R', unit: 'mm', text: (row) => fixed(row.innerRadiusMm, 1) },
  { header: 'outer R', unit: 'mm', text: (row) => fixed(row.outerRadiusMm, 1) },
  { header: 'sweep', unit: 'deg', text: (row) => fixed(row.sweepDeg, 2) },
  { header: 'width', unit: 'mm', text: (row) => fixed(row.widthMm, 1) },
  { header: 'height', unit: 'mm', text: (row) => fixed(row.heightMm, 1) },
  { header: 'paper', align: 'left', text: (row) => row.paper ?? 'above A0' },
];

function mm(metres: number): number {
  return metres * 1000;
}
