/**
 * How far the answers of one engine spread where its inputs are not known exactly: percentiles over members, each a sweep of the
 * same engine with other values of those inputs. A speed that failed or did not settle in a member is left out there and
 * counted; so is a column without a reading, such as the middle of a wave that was not found.
 *
 * Angles are those of the rows, counted through from exhaust opening over one turn, so they order as they come.
 */

import { highest } from './curve.ts';
import { lands } from './landing.ts';
import { type Percentiles, percentilesOf } from './percentile.ts';
import { COLUMNS, type NumberColumn, type Reading, type SweepRow } from './row.ts';
import { workingBand } from './working-band.ts';

/** One member's sweep: the rows that there are, ascending, and the speeds that failed. */
export interface MemberSweep {
  readonly member: number;
  readonly rows: readonly SweepRow[];
  readonly failures: readonly { readonly speedRpm: number; readonly reason: string }[];
  /** Why the reader of case files took none of it; empty: it did. */
  readonly refused: string;
}

/** Percentiles of a column at a speed. */
export interface ColumnBand extends Percentiles {
  readonly speed_rpm: number;
  readonly column: NumberColumn;
}

export const FIGURES = [
  'lands_from_rpm',
  'lands_to_rpm',
  'works_from_rpm',
  'works_to_rpm',
  'best_torque_nm',
  'best_torque_rpm',
  'best_power_kw',
  'best_power_rpm',
] as const;
export type FigureName = (typeof FIGURES)[number];

export type MemberFigures = Readonly<Record<FigureName, Reading>> & {
  /** Figures of it that lie where the computed speeds end, so that they may lie beyond. */
  readonly open: readonly FigureName[];
};

/** Percentiles of one number a sweep. */
export interface FigureBand extends Percentiles {
  readonly name: FigureName;
  /** Members in which it lies where the computed speeds end: there it may lie beyond. */
  readonly open: number;
}

/** How many members say so, of those that have an answer. */
export interface Chance {
  readonly in: number;
  readonly of: number;
}

export interface SpeedChance {
  readonly speed_rpm: number;
  readonly lands: Chance;
}

/** Counts of what cannot be used. */
export interface MemberTroubles {
  /** Members that were refused or have no settled speed. */
  readonly lost: number;
  /** Members that lack a speed, those lost among them. */
  readonly incomplete: number;
  readonly failedSpeeds: number;
  readonly unsettledSpeeds: number;
  /** The first reasons, in words. */
  readonly reasons: readonly string[];
}

export interface MemberBands {
  readonly members: number;
  readonly troubles: MemberTroubles;
  readonly columns: readonly ColumnBand[];
  readonly figures: readonly FigureBand[];
}

/** Columns that are numbers, in the order of the file. */
const NUMBERS = COLUMNS.flatMap(({ name }) =>
  name === 'speed_rpm' || name === 'settled' ? [] : [name],
) as readonly NumberColumn[];

const REASONS = 5;

/** A member's rows that hold. */
export const settledRows = ({ rows }: MemberSweep): readonly SweepRow[] =>
  rows.filter(({ settled }) => settled);

export function memberBands(members: readonly MemberSweep[], speeds: readonly number[]): MemberBands {
  const rowsAt = bySpeed(members);
  const figures = members.map((one) => memberFigures(settledRows(one)));
  return {
    members: members.length,
    troubles: troublesOf(members, speeds.length),
    columns: speeds.flatMap((speed_rpm) => {
      const rows = rowsAt.get(speed_rpm) ?? [];
      return NUMBERS.map((column) => ({
        speed_rpm,
        column,
        ...percentilesOf(rows.map((row) => row[column])),
      }));
    }),
    figures: FIGURES.map((name) => ({
      name,
      ...percentilesOf(figures.map((one) => one[name])),
      open: figures.filter(({ open }) => open.includes(name)).length,
    })),
  };
}

/** Settled rows of all members by speed. */
function bySpeed(members: readonly MemberSweep[]): ReadonlyMap<number, readonly SweepRow[]> {
  const found = new Map<number, SweepRow[]>();
  for (const row of members.flatMap(settledRows)) {
    const rows = found.get(row.speed_rpm);
    if (rows === undefined) found.set(row.speed_rpm, [row]);
    else rows.push(row);
  }
  return found;
}

/** The numbers of one sweep that bands are drawn of; null: it has none. */
export function memberFigures(rows: readonly SweepRow[]): MemberFigures {
  const { lands: landing, works } = workingBand(rows);
  const torque = highest(rows, 'torque_nm');
  const power = highest(rows, 'power_kw');
  const figures = {
    lands_from_rpm: landing?.from ?? null,
    lands_to_rpm: landing?.to ?? null,
    works_from_rpm: works?.from ?? null,
    works_to_rpm: works?.to ?? null,
    best_torque_nm: torque?.torque_nm ?? null,
    best_torque_rpm: torque?.speed_rpm ?? null,
    best_power_kw: power?.power_kw ?? null,
    best_power_rpm: power?.speed_rpm ?? null,
  };
  const ends = [rows[0]?.speed_rpm, rows.at(-1)?.speed_rpm];
  const speeds = FIGURES.filter((name) => name.endsWith('_rpm'));
  return { ...figures, open: speeds.filter((name) => ends.includes(figures[name] ?? Number.NaN)) };
}

function troublesOf(members: readonly MemberSweep[], speeds: number): MemberTroubles {
  const settled = members.map((one) => settledRows(one).length);
  const count = (of: (one: MemberSweep) => number): number => members.reduce((sum, one) => sum + of(one), 0);
  const reasons = members.flatMap(({ member, refused, failures }) => [
    ...(refused === '' ? [] : [`member ${member + 1} cannot be: ${refused}`]),
    ...failures.map(({ speedRpm, reason }) => `member ${member + 1} at ${speedRpm} rpm: ${reason}`),
  ]);
  return {
    lost: settled.filter((many) => many === 0).length,
    incomplete: settled.filter((many) => many < speeds).length,
    failedSpeeds: count(({ failures }) => failures.length),
    unsettledSpeeds: count((one) => one.rows.length - settledRows(one).length),
    reasons: reasons.slice(0, REASONS),
  };
}

/** In how many members the wave lands, speed by speed. */
export function landingChances(
  members: readonly MemberSweep[],
  speeds: readonly number[],
): readonly SpeedChance[] {
  const rowsAt = bySpeed(members);
  return speeds.map((speed_rpm) => {
    const rows = rowsAt.get(speed_rpm) ?? [];
    return { speed_rpm, lands: { in: rows.filter(lands).length, of: rows.length } };
  });
}

/** The percentiles of a column over the speeds, for a figure. */
export const columnBand = (
  { columns }: Pick<MemberBands, 'columns'>,
  name: NumberColumn,
): readonly ColumnBand[] => columns.filter(({ column }) => column === name);
