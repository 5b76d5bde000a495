/**
 * What was measured against what was predicted, with error bars: the case as it is, the members before as a wide shade, those
 * after as two narrow ones (5 to 95 % and 25 to 75 %) and their middle. Over speed, crank angle or distance from the flange.
 */

import type { MeasuredGroup, MeasuredPoint } from '../../src/findings/answers/reconcile.ts';
import type { Percentiles } from '../../src/findings/percentile.ts';
import { curve, dots, shadeBetween } from '../marks/curve.ts';
import { topRight, words } from '../marks/note.ts';
import {
  axis,
  axisName,
  axisTitle,
  type Bag,
  baseLayout,
  rangeOf,
  speedAxis,
  topMargin,
} from '../theme/axes.ts';
import { heightOf, type Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';

interface Shown {
  /** Factor from SI to what is shown, after the offset is taken off. */
  readonly factor: number;
  readonly offset: number;
  readonly name: string;
  readonly reading: string;
}

const SHOWN: Readonly<Record<MeasuredGroup['kind'], Shown>> = {
  torque: { factor: 1, offset: 0, name: 'Torque as the dynamometer shows it [Nm]', reading: '%{y:.1f} Nm' },
  pressure: { factor: 1e-5, offset: 0, name: 'Pressure [bar]', reading: '%{y:.2f} bar' },
  gas: { factor: 1, offset: -273.15, name: 'Gas temperature [°C]', reading: '%{y:.0f} °C' },
  wall: { factor: 1, offset: -273.15, name: 'Wall temperature [°C]', reading: '%{y:.0f} °C' },
};

/** Of so many points of a trace one shows its error. */
const FEW = 5;
/** Half the width of what is predicted of one place [mm], or [rpm]. */
const BESIDE = 2;

/** Opacity of the outer and of the inner shade, as two hexadecimal digits. */
const OUTER = '38';
const INNER = '59';

type Key = 'p05' | 'p25' | 'p50' | 'p75' | 'p95';

export function measuredAgainst(group: MeasuredGroup, look: Look): Figure {
  const { palette } = look;
  const points = group.points.toSorted((a, b) => a.x - b.x);
  const { factor, offset, name, reading } = SHOWN[group.kind];
  const inside = (value: number | null): number | null => (value === null ? null : factor * (value + offset));
  const x = points.map((point) => (group.kind === 'gas' || group.kind === 'wall' ? 1000 * point.x : point.x));
  // What is predicted of a single place is drawn as wide as it can be seen.
  const alone = points.length === 1;
  const along = alone ? [x[0]! - BESIDE, x[0]! + BESIDE] : x;
  const level = <T>(values: readonly T[]): T[] => (alone ? [...values, ...values] : [...values]);
  const at = (of: (point: MeasuredPoint) => Percentiles, key: Key) =>
    level(points.map((point) => inside(of(point)[key])));
  const before = ({ before: one }: MeasuredPoint): Percentiles => one;
  const after = ({ after: one }: MeasuredPoint): Percentiles => one;
  const shade = (of: typeof before, low: Key, high: Key, colour: string): Bag[] =>
    shadeBetween(along, [at(of, low), at(of, high)], colour);
  const hover = (called: string): Bag => ({
    name: called,
    hovertemplate: `${called} ${reading}<extra></extra>`,
  });
  const measured = points.map(({ value }) => inside(value));
  const spread = [
    ...at(before, 'p05'),
    ...at(before, 'p95'),
    ...at(after, 'p05'),
    ...at(after, 'p95'),
    ...points.flatMap(({ value, error }) => [inside(value - error), inside(value + error)]),
  ];
  const many = points.length > 30;
  const errors = {
    type: 'data',
    array: points.map(({ error }, k) => (many && k % FEW !== 0 ? null : factor * error)),
    color: palette.ink,
    thickness: 1,
    width: 2,
  };
  return {
    data: [
      ...shade(before, 'p05', 'p95', palette.grid),
      ...shade(after, 'p05', 'p95', `${palette.line.returning}${OUTER}`),
      ...shade(after, 'p25', 'p75', `${palette.line.returning}${INNER}`),
      curve(
        along,
        level(points.map(({ base }) => inside(base))),
        { color: palette.faint, width: 1.6, dash: 'dash' },
        hover('as it is'),
      ),
      curve(along, at(after, 'p50'), { color: palette.line.returning, width: 2.4 }, hover('reconciled')),
      dots(
        x,
        measured,
        { color: palette.ink, size: many ? 3 : 7 },
        { ...hover('measured'), error_y: errors },
      ),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 320, 260, 190),
      { t: topMargin(look) },
      {
        xaxis: xAxis(group, x, look),
        yaxis: axis(look, { range: [...rangeOf(spread)] }),
        annotations: [axisName(look, name), key(look)],
      },
    ),
  };
}

/** What the lines and shades are, above the plot; on a narrow one the caption says it. */
const key = (look: Look): Bag =>
  words(
    look.narrow ? '' : 'dots: measured · line and shades: reconciled · dashes: as it is · grey: before',
    look.palette.faint,
    topRight,
    11,
  );

function xAxis({ kind }: MeasuredGroup, x: readonly number[], look: Look): Bag {
  if (kind === 'torque') return speedAxis(look, rangeOf(x, 0.04));
  if (kind === 'pressure')
    return axis(look, {
      range: [0, 360],
      dtick: 60,
      title: axisTitle(look, 'Crank angle as the table has it [° after top dead centre]'),
      unifiedhovertitle: { text: '%{x:.0f}°' },
    });
  return axis(look, {
    range: x.length === 1 ? [x[0]! - 5 * BESIDE, x[0]! + 5 * BESIDE] : [...rangeOf(x, 0.08)],
    title: axisTitle(look, 'From the flange [mm]'),
    unifiedhovertitle: { text: '%{x:.0f} mm' },
  });
}
