/**
 * Pressure over crank angle out of a table: one turn or many, whose mean over even degrees is taken. Angles run on, or begin
 * again at each turn.
 */

import type { Problem } from '../text/problem.ts';
import type { Source } from '../text/source.ts';
import type { AskedColumn } from './column.ts';
import { readTable, type TableRow } from './table.ts';

export interface ReadTrace {
  /** From 0 deg on in steps of `STEP_DEG`, as the table has it [Pa]. */
  readonly pressure: readonly number[];
  /** Line of the first value. */
  readonly line: number;
  readonly warnings: readonly string[];
}

export const STEP_DEG = 2;
const BINS = 360 / STEP_DEG;
const EPSILON = 1e-9;
/** A table has at least so much of a turn, and no gap wider than this [deg]. */
const WHOLE = 350;
const WIDEST_GAP = 15;
/** A fall of the angle by so much is the next turn [deg]. */
const NEXT_TURN: readonly [number, number] = [330, 390];

export function readTrace(
  source: Source,
  { angle, pressure }: { readonly angle: AskedColumn; readonly pressure: AskedColumn },
  report: (problem: Problem) => void,
): ReadTrace | null {
  const table = readTable(source, [angle, pressure], report);
  if (table === null) return null;
  const { rows, warnings } = table;
  const degrees = unwrapped(rows, report);
  if (degrees === null) return null;
  const span = degrees.at(-1)! - degrees[0]!;
  const step = span / Math.max(1, rows.length - 1);
  if (span + step < WHOLE) {
    const message = `the trace ends here after ${Math.round(span)} deg: a whole turn is needed, 360 deg`;
    report({
      place: rows.at(-1)!.place,
      message,
      hint: 'export a whole turn, or more, of which the mean is taken',
    });
    return null;
  }
  const wide = degrees.findIndex((deg, k) => k > 0 && deg - degrees[k - 1]! > WIDEST_GAP);
  if (wide > 0) {
    const message = `${Math.round(degrees[wide]! - degrees[wide - 1]!)} deg are missing before this line`;
    report({ place: rows[wide]!.place, message, hint: `values are needed every ${WIDEST_GAP} deg at least` });
    return null;
  }
  return { pressure: meanTurn(degrees, rows), line: rows[0]!.line, warnings };
}

/** Angles that run on from turn to turn; null where they run backwards. */
function unwrapped(rows: readonly TableRow[], report: (problem: Problem) => void): number[] | null {
  const degrees: number[] = [];
  let added = 0;
  let before = Number.NEGATIVE_INFINITY;
  for (const { values, place, line } of rows) {
    const deg = values[0]!;
    const fall = before - deg;
    if (fall > NEXT_TURN[0] && fall < NEXT_TURN[1]) added += 360;
    else if (fall > 1e-9) {
      const message = `the angle runs backwards, from ${before} to ${deg} deg (line ${line})`;
      report({
        place,
        message,
        hint: 'angles are to rise from line to line: turn the table over, or export it again',
      });
      return null;
    }
    degrees.push(deg + added);
    before = deg;
  }
  return degrees;
}

/** Each turn straight between its values on even degrees, and the mean of all; a degree that none has lies between its neighbours. */
function meanTurn(degrees: readonly number[], rows: readonly TableRow[]): number[] {
  const sum = new Float64Array(BINS);
  const count = new Float64Array(BINS);
  for (const [k, deg] of degrees.entries()) {
    const before = degrees[k - 1];
    const value = rows[k]!.values[1]!;
    // Even degrees after the value before this one, up to it.
    for (let even = Math.floor(deg / STEP_DEG); even * STEP_DEG > (before ?? deg - EPSILON); even--) {
      const bin = ((even % BINS) + BINS) % BINS;
      const share = before === undefined ? 0 : (deg - even * STEP_DEG) / (deg - before);
      sum[bin]! += value + share * ((rows[k - 1]?.values[1] ?? value) - value);
      count[bin]! += 1;
    }
  }
  const means = Array.from(sum, (total, bin) => (count[bin]! > 0 ? total / count[bin]! : null));
  return means.map((mean, bin) => mean ?? between(means, bin));
}

function between(means: readonly (number | null)[], bin: number): number {
  const near = (way: 1 | -1): readonly [value: number, away: number] => {
    for (let away = 1; away <= BINS; away++) {
      const value = means[(bin + way * away + BINS) % BINS];
      if (value !== null && value !== undefined) return [value, away];
    }
    return [0, 1];
  };
  const [left, before] = near(-1);
  const [right, after] = near(1);
  return (left * after + right * before) / (before + after);
}
