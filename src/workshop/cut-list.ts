/**
 * What to cut, roll and weld: a row a blank. Radii, sweep and chord are those of the developed middle of the sheet without
 * allowances: ρ = r / sin α, sweep 2π sin α, chord 2ρ sin(sweep / 2). Masses are of the blanks.
 */

import { edgeAt, edgeLength, radiusAt, slantOf, slantRange, surfaceOf, TURN } from './mitred-cone.ts';
import { areaOf } from './nest.ts';
import { labelOf, type Pattern } from './pattern.ts';
import type { Plan } from './plan.ts';

export interface CutRow {
  readonly part: number;
  readonly panel: string;
  readonly name: string;
  readonly section: string;
  readonly kind: 'cone' | 'cylinder';
  readonly ends: 'square' | 'mitred';
  readonly atMm: number;
  readonly lengthMm: number;
  readonly insideStartMm: number;
  readonly insideEndMm: number;
  readonly slantLeastMm: number;
  readonly slantMostMm: number;
  /** Of a cone's sector; null for a cylinder. */
  readonly innerRadiusMm: number | null;
  readonly outerRadiusMm: number | null;
  readonly sweepDeg: number | null;
  readonly innerChordMm: number | null;
  readonly outerChordMm: number | null;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Of the middle of the sheet, without allowances. */
  readonly surfaceCm2: number;
  readonly blankCm2: number;
  readonly seamWeldMm: number;
  /** The weld at its start, W1 the flange's; the panels of a part share it. */
  readonly weld: number;
  readonly jointWeldMm: number;
  readonly massG: number;
  /** Sheet that it is nested on, from 1. */
  readonly sheet: number;
}

export function cutRows({ patterns, sheets, job }: Plan): readonly CutRow[] {
  return patterns.map((pattern, index) => ({
    ...sizes(pattern),
    massG: blankArea(pattern) * 1e-6 * job.thickness * job.density * 1000,
    sheet: sheets.findIndex(({ blanks }) => blanks.includes(index)) + 1,
  }));
}

function blankArea({ drawing }: Pattern): number {
  return drawing.outlines.reduce((sum, outline) => sum + areaOf(outline), 0);
}

function sizes(pattern: Pattern): Omit<CutRow, 'massG' | 'sheet'> {
  const { part, piece, panel } = pattern;
  const { middle } = part;
  const [, of] = panel;
  const sin = Math.abs(middle.slope) / slantOf(middle);
  const radii = [radiusAt(middle, 0), radiusAt(middle, middle.length)];
  const [inner, outer] = [Math.min(...radii) / sin, Math.max(...radii) / sin];
  const sweep = (TURN * sin) / of;
  const cone = middle.slope !== 0;
  const chord = (radius: number): number => 2000 * radius * Math.sin(Math.min(sweep, Math.PI) / 2);
  const [least, most] = slantRange(middle);
  const seam = part.seam + ((panel[0] - 1) * TURN) / of;
  return {
    part: part.number,
    panel: of === 1 ? '' : `${panel[0]} of ${of}`,
    name: labelOf(part, panel),
    section: part.section.name,
    kind: cone ? 'cone' : 'cylinder',
    ends: middle.start === null && middle.end === null ? 'square' : 'mitred',
    atMm: 1000 * part.at,
    lengthMm: 1000 * part.length,
    insideStartMm: 1000 * part.diameter[0],
    insideEndMm: 1000 * part.diameter[1],
    slantLeastMm: 1000 * least,
    slantMostMm: 1000 * most,
    innerRadiusMm: cone ? 1000 * inner : null,
    outerRadiusMm: cone ? 1000 * outer : null,
    sweepDeg: cone ? (360 * sweep) / TURN : null,
    innerChordMm: cone ? chord(inner) : null,
    outerChordMm: cone ? chord(outer) : null,
    widthMm: piece.width,
    heightMm: piece.height,
    surfaceCm2: (1e4 * surfaceOf(middle)) / of,
    blankCm2: blankArea(pattern) / 100,
    seamWeldMm: 1000 * slantOf(middle) * (edgeAt(middle, 'end', seam) - edgeAt(middle, 'start', seam)),
    weld: part.welds[0],
    jointWeldMm: panel[0] === 1 ? 1000 * edgeLength(middle, 'start') : 0,
  };
}
