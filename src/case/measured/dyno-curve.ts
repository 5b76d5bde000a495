/** Torque over speed out of a dynamometer's table: power to torque, and corrected values back into the air of the day. */

import type { DynoPoint } from '../../model/measured.ts';
import type { Problem } from '../text/problem.ts';
import type { Source } from '../text/source.ts';
import type { AskedColumn } from './column.ts';
import { errorOf, type MeasuringError } from './measuring-error.ts';
import { readTable, type TableRow } from './table.ts';

export interface StatedCurve {
  readonly speed: AskedColumn;
  readonly output: AskedColumn;
  readonly error: MeasuringError;
  /** What the table's values were multiplied by [-]. */
  readonly correction: number;
}

export interface ReadCurve {
  readonly points: readonly DynoPoint[];
  readonly warnings: readonly string[];
}

/** Speeds that an engine of this sort turns at [rpm], and torque that one cylinder gives at most [N m]. */
const SLOWEST = 300;
const FASTEST = 30_000;
const STRONGEST = 400;
/** Of two lines at one speed the torques lie this close together, where they are of one engine [-]. */
const ALIKE = 0.25;

/** Points in ascending order of speed; null where the table was refused. */
export function readCurve(
  source: Source,
  stated: StatedCurve,
  report: (problem: Problem) => void,
): ReadCurve | null {
  const { speed, output, error, correction } = stated;
  const table = readTable(source, [speed, output], report);
  if (table === null) return null;
  const isPower = output.dimension === 'power';
  const read = table.rows.map(({ line, place, values }) => {
    const [rpm, value] = values as readonly [number, number];
    const shown = isPower ? (30 * value) / (Math.PI * rpm) : value;
    const torque = shown / correction;
    const relative = isPower ? (30 / (Math.PI * rpm)) * errorOf(error, value) : errorOf(error, shown);
    return { place, rpm, torque, error: relative / correction, file: source.name, line };
  });
  const odd = read.find((one) => !isPlausible(one));
  if (odd !== undefined) {
    const message =
      odd.rpm < SLOWEST || odd.rpm > FASTEST
        ? `${Number(odd.rpm.toPrecision(5))} rpm is no speed of such an engine`
        : `a torque of ${Number(odd.torque.toPrecision(4))} N m is none of one cylinder`;
    report({
      place: odd.place,
      message,
      hint: 'is it the right column, in the unit that is named? A run-up or coasting goes out of the table',
    });
    return null;
  }
  const points = read.toSorted((a, b) => a.rpm - b.rpm);
  const twice = points.findIndex((one, k) => k > 0 && areTwo(points[k - 1]!, one));
  if (twice > 0) {
    const [one, other] = [points[twice - 1]!, points[twice]!];
    const later = other.line > one.line ? other : one;
    const earlier = later === other ? one : other;
    const message = `${Math.round(later.rpm)} rpm stands here with ${later.torque.toFixed(1)} N m and in line ${earlier.line} with ${earlier.torque.toFixed(1)} N m: these are two curves`;
    report({
      place: later.place,
      message,
      hint: 'put curves of different engines, or runs that were changed between, into files of their own',
    });
    return null;
  }
  return { points: points.map(({ place: _, ...point }) => point), warnings: table.warnings };
}

function isPlausible({ rpm, torque }: { readonly rpm: number; readonly torque: number }): boolean {
  return rpm >= SLOWEST && rpm <= FASTEST && torque > 0 && torque < STRONGEST;
}

/** Whether two neighbours at all but one speed differ by more than one engine does from run to run. */
function areTwo(a: DynoPoint & Pick<TableRow, 'place'>, b: DynoPoint): boolean {
  return b.rpm - a.rpm < 1e-3 * b.rpm && Math.abs(a.torque - b.torque) > ALIKE * Math.max(a.torque, b.torque);
}
