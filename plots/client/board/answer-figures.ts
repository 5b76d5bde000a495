/** The answer drawn: figures of every other page, with the base in grey behind and what is out of date faded. */

import type { BoardSpeed } from '../../../src/board/board-speed.ts';
import { column } from '../../../src/findings/curve.ts';
import type { SweepRow } from '../../../src/findings/row.ts';
import type { Figure } from '../../figures/figure.ts';
import { outputCurves } from '../../figures/output-curves.ts';
import { plugbackTiming } from '../../figures/plugback-timing.ts';
import { portTraces } from '../../figures/port-traces.ts';
import { eventsOf } from '../../figures/row-events.ts';
import { waveDiagram } from '../../figures/wave-diagram.ts';
import { uprightBand } from '../../marks/band.ts';
import { curve } from '../../marks/curve.ts';
import { uprightLine } from '../../marks/event-line.ts';
import type { Stretch } from '../../marks/silhouette.ts';
import type { Bag } from '../../theme/axes.ts';
import type { Look } from '../../theme/look.ts';

export interface OverSpeed {
  /** Rows of this draft, where there are none yet those of the last. */
  readonly rows: readonly SweepRow[];
  /** Speeds whose rows are the last draft's [rpm]. */
  readonly stale: readonly number[];
  /** Null: the draft is the base, or that has no answer on these cells. */
  readonly base: readonly SweepRow[] | null;
  readonly chosen: number;
}

const BASE_WIDTH = 2.2;

export function landingFigure(over: OverSpeed, look: Look): Figure {
  const { base } = over;
  const behind = base === null ? [] : [baseCurve(base, 'plugback_centroid_deg', 'y', look)];
  return withMarks(plugbackTiming(over.rows, look), behind, over, look);
}

export function outputFigure(over: OverSpeed, look: Look): Figure {
  const { base } = over;
  const behind =
    base === null ? [] : [baseCurve(base, 'torque_nm', 'y', look), baseCurve(base, 'power_kw', 'y2', look)];
  return withMarks(outputCurves(over.rows, look), behind, over, look);
}

const baseCurve = (
  rows: readonly SweepRow[],
  name: 'plugback_centroid_deg' | 'torque_nm' | 'power_kw',
  yaxis: string,
  look: Look,
): Bag =>
  curve(
    rows.map((row) => row.speed_rpm),
    column(rows, name),
    { color: look.palette.hairline, width: BASE_WIDTH },
    { yaxis, name: 'base' },
  );

function withMarks({ data, layout }: Figure, behind: readonly Bag[], over: OverSpeed, look: Look): Figure {
  const { palette } = look;
  const chosen = uprightLine({ color: palette.faint, width: 1, dash: 'dot' }, over.chosen);
  const faded = fadedSpans(over).map(([from, to]) => {
    const { layer: _, ...above } = uprightBand(`${palette.paper}b0`, from, to);
    return above;
  });
  const axes = Object.fromEntries(
    Object.entries(layout).map(([key, value]) => [
      key,
      /^yaxis\d*$/.test(key) ? widened(key, value, behind) : value,
    ]),
  );
  const shapes = [...(layout.shapes as readonly Bag[]), ...faded, chosen];
  return { data: [...behind, ...data], layout: { ...axes, shapes } };
}

/** An axis with room for the curves of the base on it. */
function widened(key: string, axis: unknown, behind: readonly Bag[]): unknown {
  const own = behind.filter(({ yaxis }) => yaxis === key.replace('axis', ''));
  const values = own.flatMap(({ y }) => y as readonly (number | null)[]).filter((value) => value !== null);
  const { range } = axis as { readonly range?: readonly [number, number] };
  if (range === undefined || values.length === 0) return axis;
  const room = 0.04 * (range[1] - range[0]);
  const low = Math.min(range[0], Math.min(...values) - (range[0] === 0 ? 0 : room));
  return { ...(axis as object), range: [low, Math.max(range[1], Math.max(...values) + room)] };
}

/** Stretches of speeds that are out of date, half a step to either side. */
function fadedSpans({ rows, stale }: OverSpeed): readonly (readonly [from: number, to: number])[] {
  const speeds = rows.map((row) => row.speed_rpm);
  const half = ((speeds.at(-1) ?? 0) - (speeds[0] ?? 0)) / Math.max(1, speeds.length - 1) / 2;
  const old = new Set(stale);
  return speeds.filter((at) => old.has(at)).map((at) => [at - half, at + half] as const);
}

export function diagramFigure(
  speed: BoardSpeed,
  outline: readonly Stretch[],
  ambientBar: number,
  look: Look,
): Figure {
  const { positions, angleDeg, pressure, lowest, highest } = speed.field;
  const columns = positions.length;
  const rows = Array.from(angleDeg, (_, k) => pressure.subarray(k * columns, (k + 1) * columns));
  return waveDiagram(
    { positions, angleDeg, pressure: rows, lowest, highest },
    speed.paths,
    outline,
    eventsOf(speed.row),
    ambientBar,
    look,
  );
}

/** The port's pressure with its waves; that of the base in grey behind. */
export function tracesFigure(
  speed: BoardSpeed,
  base: BoardSpeed | null,
  ambientBar: number,
  look: Look,
): Figure {
  const { data, layout } = portTraces(speed.traces, eventsOf(speed.row), ambientBar, look);
  if (base === null) return { data, layout };
  const grey = curve(base.traces.angleDeg, base.traces.returning, {
    color: look.palette.hairline,
    width: BASE_WIDTH,
  });
  return { data: [grey, ...data], layout };
}
