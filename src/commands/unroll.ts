/**
 * `echocone unroll`: the pipe for the bench. Patterns as SVG and DXF, nested sheets, pages to print, a drawing of the
 * whole, a cut list and a page.
 */

import { printPage } from '../../plots/pages/print-page.ts';
import type { RunCard } from '../../plots/pages/run-cards.ts';
import { unrollPage } from '../../plots/pages/unroll-page.ts';
import { loadCase, loadPipe, readKind } from '../case/load.ts';
import type { Pipe } from '../model/pipe.ts';
import { placed } from '../pipe/places.ts';
import { assembledSvg } from '../workshop/assembled.ts';
import { cutRows } from '../workshop/cut-list.ts';
import { drawingFiles, sheetFiles, sheetSvg, type WorkshopFile } from '../workshop/files.ts';
import { hydroformHalf } from '../workshop/hydroform.ts';
import { DENSITIES } from '../workshop/material.ts';
import { paperFor } from '../workshop/paper.ts';
import { builtVolume, type Plan, planOf } from '../workshop/plan.ts';
import { drawingBox } from '../workshop/svg.ts';
import { PAPERS, pagesOf } from '../workshop/tiles.ts';
import { wholeDrawing } from '../workshop/whole-drawing.ts';
import type { Flags } from './frame/flags.ts';
import { folded } from './frame/folded.ts';
import { jsonText } from './frame/json.ts';
import { plainText } from './frame/plain-text.ts';
import { fileNameOf, openRunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { tableText } from './frame/table.ts';
import type { Invocation } from './frame/verb.ts';
import { type Blank, blankColumns, blankCsv } from './words/blank-tables.ts';

const cautions = [
  'Sheet edges cut: wear gloves and deburr.',
  'Grinding and welding are hot work: clear what burns, keep an extinguisher by, watch the place afterwards.',
  'Weld only clean, uncoated steel, with ventilation: zinc and paint give poisonous fumes.',
  'Hydroform with water only, all air let out, never with air or gas: a vessel of gas bursts.',
  'Keep to your local rules for workshop, noise and exhausts.',
];
/** Usual sheet for such pipes [m]; common practice, no source. */
const USUAL_SHEET = 0.8e-3;

export async function run({ files, flags, terminal, program }: Invocation): Promise<void> {
  const { pipe, name } = pipeOf(files[0]!, flags.set);
  // Everything is drawn first: a pipe that cannot be made leaves no half-filled folder.
  const plan = planOf(pipe, name, {
    thickness: flags.thickness ?? pipe.sheet ?? USUAL_SHEET,
    allowances: { seam: flags.seam, joint: flags.joint, rootGap: flags.rootGap, shrinkage: flags.shrinkage },
    sheet: flags.sheet,
    density: DENSITIES[flags.material],
  });
  const blanks = blanksOf(plan);
  const written = filesOf(plan, blanks, flags, program);
  const folder = openRunFolder({ out: flags.out, name: `${name} patterns`, overwrite: flags.overwrite });
  for (const file of written) folder.write(file.name, file.text);
  listRun(folder, 'unroll.html', unrollCard(plan), { terminal, program });
  const { thickness, allowances } = plan.job;
  if (flags.json) {
    const document = {
      schemaVersion: 1,
      kind: 'unroll',
      program,
      name,
      folder: folder.path,
      thickness,
      ...allowances,
      sheet: flags.sheet,
      material: flags.material,
      centrelineMm: centrelineMm(pipe),
      volumeCc: 1e6 * builtVolume(plan),
      efficiencies: plan.sheets.map(({ efficiency }) => efficiency),
      patterns: blanks,
      notes: plan.notes,
      assumptions: assumptionsOf(plan, flags),
      cautions,
    };
    terminal.answer(jsonText(document));
  } else {
    terminal.answer(folded(`${plainText(name)}: patterns on the middle of ${mm(thickness)} mm sheet`));
    terminal.answer('');
    terminal.answer(tableText(blankColumns, blanks));
    terminal.answer(folded(`R: radii of the developed edges. ${lineOf(plan, flags)}`));
    for (const note of plan.notes) terminal.answer(folded(plainText(note)));
    terminal.answer('Print at 100 %; the bar must measure 100 mm.');
  }
  terminal.message(
    folded(`${written.length} files in ${folder.path}; open unroll.html. ${cautions.join(' ')}`),
  );
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

function blanksOf(plan: Plan): readonly Blank[] {
  return cutRows(plan).map((row, index) => {
    const { drawing, part, panel } = plan.patterns[index]!;
    const box = drawingBox(drawing);
    const stem = `${String(part.number).padStart(2, '0')}-${fileNameOf(part.name)}`;
    return {
      file: panel[1] === 1 ? stem : `${stem}-panel-${panel[0]}`,
      ...row,
      paper: paperFor(box.right - box.left, box.top - box.bottom + 10),
    };
  });
}

function filesOf(
  plan: Plan,
  blanks: readonly Blank[],
  flags: Flags,
  program: string,
): readonly WorkshopFile[] {
  const { pipe, name, patterns, job } = plan;
  const { material } = flags;
  const drawing = wholeDrawing(plan, { program, material, rows: blanks });
  const halves = flags.hydroform === true ? [hydroformHalf(pipe, job.thickness, flags.seam, name)] : [];
  const drawings = [...patterns.map((pattern) => pattern.drawing), ...halves];
  const prints = PAPERS.map((paper) => ({
    name: `print-${paper.name.toLowerCase()}.html`,
    text: printPage({
      title: `${name}, patterns on ${paper.name}`,
      sides: paper.sides,
      sheets: pagesOf(drawings, paper),
    }),
  }));
  return [
    ...patterns.flatMap((pattern, index) => drawingFiles(blanks[index]!.file, pattern.drawing)),
    ...halves.flatMap((half) => drawingFiles('hydroform-half', half)),
    ...sheetFiles(plan),
    ...prints,
    { name: 'drawing.svg', text: drawing },
    { name: 'cut-list.csv', text: blankCsv(blanks) },
    { name: 'unroll.html', text: pageOf(plan, blanks, flags, program, drawing) },
  ];
}

function pageOf(
  plan: Plan,
  blanks: readonly Blank[],
  flags: Flags,
  program: string,
  drawing: string,
): string {
  const { pipe, name, parts, sheets, job } = plan;
  const { width, height } = job.sheet;
  const sum = (pick: (blank: Blank) => number): number => blanks.reduce((total, one) => total + pick(one), 0);
  return unrollPage({
    program,
    name,
    line: lineOf(plan, flags),
    facts: [
      { label: 'centreline', text: `${centrelineMm(pipe).toFixed(1)} mm, as simulated` },
      { label: 'volume', text: `${(1e6 * builtVolume(plan)).toFixed(0)} cc inside, of the welded pipe` },
      {
        label: 'blanks',
        text: `${sum((one) => one.massG).toFixed(0)} g of ${mm(job.thickness)} mm ${flags.material}`,
      },
      {
        label: 'welds',
        text: `seams ${(sum((one) => one.seamWeldMm) / 1000).toFixed(2)} m, joints ${(sum((one) => one.jointWeldMm) / 1000).toFixed(2)} m`,
      },
      { label: 'print', text: 'print-a4.html or print-a3.html at 100 %; the bar must measure 100 mm' },
      {
        label: 'cut',
        text: 'a DXF for each blank and each sheet, layers cut, fold, mark, engrave; one unit is 1 mm',
      },
    ],
    notes: plan.notes,
    assumptions: assumptionsOf(plan, flags),
    cautions,
    assembled: {
      svg: assembledSvg(parts, `${name}, welded`),
      seen: `Outline of the welded pipe with its ${parts.length} parts`,
      caption: 'Numbers are those of the parts, from the flange on; up is the flange’s up.',
      file: null,
    },
    drawing: {
      svg: drawing,
      seen: 'Drawing of the whole pipe with lengths, diameters, angles and numbers of welds',
      caption: 'To be printed on A4 at 100 %.',
      file: 'drawing.svg',
    },
    sheets: sheets.map(({ efficiency, blanks: on }, i) => ({
      svg: sheetSvg(plan, i, width / 400),
      seen: `${on.length} blanks on a sheet of ${width} by ${height} mm`,
      caption: `${width} × ${height} mm, ${on.length} ${on.length === 1 ? 'blank' : 'blanks'}; ${(100 * efficiency).toFixed(0)} % of it becomes blanks. SVG and DXF are of true size.`,
      file: `sheet-${i + 1}.svg`,
    })),
    blanks,
  });
}

function lineOf({ patterns, sheets, job }: Plan, flags: Flags): string {
  const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
  const used = sheets.reduce((total, { efficiency }) => total + efficiency, 0) / Math.max(1, sheets.length);
  const size = `${job.sheet.width} x ${job.sheet.height} mm`;
  return `${count(patterns.length, 'blank')} on ${count(sheets.length, 'sheet')} of ${size}, ${mm(job.thickness)} mm ${flags.material}; ${(100 * used).toFixed(0)} % of the sheet is used.`;
}

function assumptionsOf({ job: { thickness, allowances }, pipe }: Plan, flags: Flags): readonly string[] {
  const { seam, joint, rootGap, shrinkage } = allowances;
  const stated = flags.thickness !== undefined || pipe.sheet !== null;
  return [
    `Sheet ${mm(thickness)} mm${stated ? '' : ', assumed: usual for such pipes, no source'}. Diameters are inside; patterns lie on the middle of the sheet, which keeps its length in rolling.`,
    `Allowances: seam ${mm(seam)} mm on the right-hand edge, joint ${mm(joint)} mm on the downstream edge.`,
    `Welds: root gap ${mm(rootGap)} mm, shrinkage ${mm(shrinkage)} mm across each${rootGap === 0 && shrinkage === 0 ? ', assumed: butt joints of thin sheet, to be trimmed as they come' : ''}.`,
    'Edges are taken as cut square to the sheet; ends stand off their plane by less than a tenth of a millimetre.',
    `Density of ${flags.material}: ${DENSITIES[flags.material]} kg/m³, value from memory.`,
    'A bend keeps the length along the centreline. What its shape does to the wave front is not modelled.',
  ];
}

/** What the index shows of it: the pipe, from the flange on. */
function unrollCard({ pipe, name, patterns, job }: Plan): RunCard {
  const outline = placed(pipe.sections).map(({ name: section, role, start, end, diameter }) => ({
    name: section,
    role,
    start,
    end,
    diameters: diameter,
  }));
  const count = `${patterns.length} ${patterns.length === 1 ? 'pattern' : 'patterns'}`;
  return {
    title: name,
    kind: 'unroll',
    line: `${count} for ${mm(job.thickness)} mm sheet, an SVG and a DXF each.`,
    outlines: [outline],
    curves: [],
  };
}

function centrelineMm(pipe: Pipe): number {
  return 1000 * pipe.sections.reduce((sum, { length }) => sum + length, 0);
}

function mm(metres: number): string {
  return String(Number((1000 * metres).toFixed(3)));
}
