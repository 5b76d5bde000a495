/** The blanks of a pipe as tables: the cut list, a file with every figure, and the short one on the terminal. */

import type { CutRow } from '../../workshop/cut-list.ts';
import { csvText } from '../frame/csv.ts';
import type { Column } from '../frame/table.ts';

export interface Blank extends CutRow {
  readonly file: string;
  readonly paper: string | null;
}

const csvColumns: readonly (readonly [column: string, of: keyof Blank])[] = [
  ['part', 'part'],
  ['panel', 'panel'],
  ['name', 'name'],
  ['section', 'section'],
  ['kind', 'kind'],
  ['ends', 'ends'],
  ['at_mm', 'atMm'],
  ['length_mm', 'lengthMm'],
  ['inside_start_mm', 'insideStartMm'],
  ['inside_end_mm', 'insideEndMm'],
  ['slant_least_mm', 'slantLeastMm'],
  ['slant_most_mm', 'slantMostMm'],
  ['inner_radius_mm', 'innerRadiusMm'],
  ['outer_radius_mm', 'outerRadiusMm'],
  ['sweep_deg', 'sweepDeg'],
  ['inner_chord_mm', 'innerChordMm'],
  ['outer_chord_mm', 'outerChordMm'],
  ['blank_width_mm', 'widthMm'],
  ['blank_height_mm', 'heightMm'],
  ['surface_cm2', 'surfaceCm2'],
  ['blank_cm2', 'blankCm2'],
  ['seam_weld_mm', 'seamWeldMm'],
  ['weld', 'weld'],
  ['joint_weld_mm', 'jointWeldMm'],
  ['mass_g', 'massG'],
  ['sheet', 'sheet'],
  ['file', 'file'],
];

export function blankCsv(blanks: readonly Blank[]): string {
  return csvText(
    csvColumns.map(([column]) => column),
    csvRows(blanks),
  );
}

/** A thousandth of a millimetre is beyond any bench. */
function csvRows(blanks: readonly Blank[]): readonly Readonly<Record<string, string | number | null>>[] {
  return blanks.map((blank) =>
    Object.fromEntries(
      csvColumns.map(([column, of]) => {
        const value = blank[of];
        return [column, typeof value === 'number' ? Number(value.toFixed(4)) : value];
      }),
    ),
  );
}

const fixed = (value: number | null, digits: number): string =>
  value === null ? '-' : value.toFixed(digits);

export const blankColumns: readonly Column<Blank>[] = [
  { header: 'pattern', align: 'left', text: (row) => row.file },
  { header: 'inner R', unit: 'mm', text: (row) => fixed(row.innerRadiusMm, 1) },
  { header: 'outer R', unit: 'mm', text: (row) => fixed(row.outerRadiusMm, 1) },
  { header: 'sweep', unit: 'deg', text: (row) => fixed(row.sweepDeg, 2) },
  { header: 'width', unit: 'mm', text: (row) => fixed(row.widthMm, 1) },
  { header: 'height', unit: 'mm', text: (row) => fixed(row.heightMm, 1) },
  { header: 'sheet', text: (row) => String(row.sheet) },
  { header: 'paper', align: 'left', text: (row) => row.paper ?? 'above A0' },
];
