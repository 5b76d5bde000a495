/** The points of a map laid on its grid of durations and speeds, where its page is written. */

import ndarray from 'ndarray';
import { middleLead, placeInWindow } from '../../src/findings/landing.ts';
import type { DurationPoint, SweepRow } from '../../src/findings/row.ts';
import { type DurationGrid, GRID_FIELDS, type GridField, type GridRows } from '../figures/duration-grid.ts';

const READ: Readonly<Record<GridField, (row: SweepRow) => number | null>> = {
  lead: middleLead,
  place: placeInWindow,
  peak: (row) => row.plugback_lead_deg,
  torque: (row) => row.torque_nm,
  share: ({ plugback_share_before_closing: share }) => (share === null ? null : 100 * share),
  echo: (row) => (row.echo_return_deg === null ? null : row.echo_return_deg - (row.exhaust_opens_deg + 360)),
};

const ascending = (values: Iterable<number>): number[] => [...new Set(values)].sort((a, b) => a - b);

export function mapGrid(points: readonly DurationPoint[]): DurationGrid {
  const speeds = ascending(points.map((point) => point.row.speed_rpm));
  const durations = ascending(points.map((point) => point.durationDeg));
  const shape = [GRID_FIELDS.length, durations.length, speeds.length];
  // What is absent is NaN in here, as the array holds numbers, and null as it goes out.
  const grid = ndarray(new Float64Array(shape.reduce((a, b) => a * b, 1)).fill(Number.NaN), shape);
  for (const { durationDeg, row } of points)
    GRID_FIELDS.forEach((field, k) => {
      const value = READ[field](row) ?? Number.NaN;
      grid.set(k, durations.indexOf(durationDeg), speeds.indexOf(row.speed_rpm), value);
    });
  const rowsOf = (k: number): GridRows =>
    durations.map((_, i) =>
      speeds.map((__, j) => {
        const value = grid.get(k, i, j);
        return Number.isNaN(value) ? null : value;
      }),
    );
  const fields = Object.fromEntries(GRID_FIELDS.map((field, k) => [field, rowsOf(k)]));
  return { speeds, durations, fields: fields as DurationGrid['fields'] };
}
