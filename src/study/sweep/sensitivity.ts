/**
 * How far an input that nobody measured moves the answer: the same engine at one speed with that one input changed by
 * about as much as it may be wrong, each run in full from a cold start, less the engine as it is. The changes are the steps
 * of `ensemble/plausible-ranges.ts` and are said beside their effect; so is which way, for effects are not linear.
 * The pipe's wall is always among them, given or assumed: every kelvin of it moves the speed of sound in the pipe.
 */

import { caseOf, type OpenedFile } from '../../case/load.ts';
import { unlessRefused } from '../../case/text/problem.ts';
import { numberAndUnit } from '../../case/text/quantity-text.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';
import { type Amount, plausibleRange } from '../ensemble/plausible-ranges.ts';
import { valueOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';
import { withRun } from '../work/run-settings.ts';
import type { GroupResult } from '../work/run-sweep.ts';

/** Cells are no shorter than this: differences need less than the answer itself, and the runs are many [m]. */
const MOVES_CELL = 10e-3;
const WALL = 'pipe.wall';
/** As much as the table of ranges steps a wall [K]. */
const WALL_RISE = 50;

/** One input changed. */
export interface Variant {
  /** Path in the case. */
  readonly path: string;
  /** `+0.05`, `-3 %`. */
  readonly change: string;
  readonly subject: Case;
}

export interface Move {
  readonly path: string;
  readonly change: string;
  /**
   * What the change adds; null: it failed, or the plug-back was not found. The lead is how much earlier the middle of
   * the plug-back comes, the centroid of its impulse: the peak of a broad wave jumps from crest to crest.
   */
  readonly leadDeg: number | null;
  readonly torqueNm: number | null;
}

export interface Moves {
  /** Where they were computed: speed [rpm], cell length [m]. */
  readonly speedRpm: number;
  readonly cell: number;
  readonly of: readonly Move[];
}

/** A change written with its sign and unit. */
export function changeText(amount: Amount, unit: string, sign: 1 | -1 = 1): string {
  const signed = (value: number): string => `${value > 0 ? '+' : ''}${Number(value.toPrecision(6))}`;
  if ('share' in amount) return `${signed(100 * sign * amount.share)} %`;
  // A difference of temperature is in kelvin, however the temperature is written.
  const of = unit === 'degC' || unit === 'degF' ? 'K' : unit;
  return `${signed(sign * amount.add)}${of === '' ? '' : ` ${of}`}`;
}

/** A quantity as it would be written in the file after the change; null: it is no number with a unit. */
export function changedValue(value: string, amount: Amount, sign: 1 | -1 = 1): string | null {
  const written = numberAndUnit(value);
  if (written === null) return null;
  const { number, unit } = written;
  const by = 'share' in amount ? number * amount.share : amount.add;
  return `${Number((number + sign * by).toPrecision(10))} ${unit}`.trim();
}

/** The case with each of its assumed quantities changed; the overrides `set` stay in force. */
export function assumedVariants(opened: OpenedFile, set: readonly string[]): Variant[] {
  const subject = caseOf(opened, set);
  return subject.assumed.flatMap(({ path, value, sort }) => {
    const amount = plausibleRange(path)?.step;
    if (sort !== 'quantity' || amount === undefined || path.startsWith(WALL)) return [];
    const unit = value.replace(/^\S+\s*/, '');
    // The other way where this one leads out of what is allowed.
    for (const sign of [1, -1] as const) {
      const text = changedValue(value, amount, sign);
      const varied = text === null ? null : unlessRefused(() => caseOf(opened, [...set, `${path}=${text}`]));
      if (varied !== null) return [{ path, change: changeText(amount, unit, sign), subject: varied }];
    }
    return [];
  });
}

/** The case with a hotter wall; one found by a balance is taken as it came out. */
export function hotterWall(subject: Case, along: GroupResult['records'][number]['along']): Variant {
  const { wall } = subject.pipe;
  const from = subject.engine.passage.length;
  const found =
    wall.by === 'given'
      ? wall.at
      : along.positions
          .map((position, k) => ({ position: position - from, temperature: along.wallTemperature[k] ?? 0 }))
          .filter(({ position }) => position >= 0);
  const at = found.map(({ position, temperature }) => ({ position, temperature: temperature + WALL_RISE }));
  return {
    path: WALL,
    change: `+${WALL_RISE} K`,
    subject: { ...subject, pipe: { ...subject.pipe, wall: { by: 'given', at } } },
  };
}

/**
 * Moves of the wall and of other variants of a case at a speed [rpm], the wall first.
 * @param subject the case as it is, with the speed's own cells
 */
export async function movesAt(
  speedRpm: number,
  { subject, variants }: { readonly subject: Case; readonly variants: readonly Variant[] },
  use: {
    readonly pool: Pool;
    readonly signal?: AbortSignal;
    /** Hears of the changes run so far. */
    readonly advance?: (changes: number) => void;
  },
): Promise<Moves> {
  const speeds = [speedRpm];
  const cell = Math.max(subject.run.cell, MOVES_CELL);
  const jobOf = (one: Case) => ({
    kind: 'speed-group' as const,
    input: { subject: withRun(one, { speeds, cell }), speeds, brief: true },
  });
  const base = valueOrThrow(await use.pool.one(jobOf(subject), use.signal)).records[0];
  if (base === undefined) return { speedRpm, cell, of: [] };
  const all = [hotterWall(subject, base.along), ...variants];
  const moves: Move[] = [];
  let changes = 0;
  const jobs = all.map((variant) => jobOf(variant.subject));
  for await (const { index, outcome } of use.pool.asFinished(jobs, use.signal)) {
    const { path, change } = all[index]!;
    moves[index] = { path, change, ...moved(base.row, valueOrThrow(outcome).records[0]?.row) };
    changes += 1;
    use.advance?.(changes);
  }
  return { speedRpm, cell, of: moves };
}

function moved(base: SweepRow, row: SweepRow | undefined): Pick<Move, 'leadDeg' | 'torqueNm'> {
  const less = (a: number | null | undefined, b: number | null | undefined): number | null =>
    a == null || b == null ? null : a - b;
  return {
    // The port closes at the same angle in both, so an earlier middle is a greater lead.
    leadDeg: less(base.plugback_centroid_deg, row?.plugback_centroid_deg),
    torqueNm: less(row?.torque_nm, base.torque_nm),
  };
}
