/**
 * A quantity over speed and exhaust duration as shades with labelled contours, and over them where the wave lands.
 */

import type { DurationPoint } from '../../src/findings/row.ts';
import { levelLine } from '../marks/event-line.ts';
import { leftEdge, words } from '../marks/note.ts';
import { levelScale } from '../marks/pressure-shades.ts';
import { axis, axisName, type Bag, baseLayout, rangeOf, speedAxis } from '../theme/axes.ts';
import { heightOf, type Look } from '../theme/look.ts';
import { fixed } from '../theme/numbers.ts';
import type { DurationGrid, GridField, GridRows } from './duration-grid.ts';
import type { Figure } from './figure.ts';
import { edgeNames, pointTraces, windowTraces } from './landing-plane.ts';

export interface DurationField {
  /** Quantity with its unit in brackets, as the scale names it. */
  readonly title: string;
  readonly of: GridField;
  readonly reading: string;
  /** Value that gets the neutral shade; absent: it is an amount, the more the deeper its colour. */
  readonly neutral?: number;
  /** Shades away from the band on both its sides, whatever the value: too early green, too late grey. */
  readonly fromWindow?: true;
  readonly labelFormat: string;
}

/** Shades of a field: their values and their scale. */
function shades(
  { fields }: DurationGrid,
  field: DurationField,
  look: Look,
): {
  readonly z: GridRows;
  readonly low: number;
  readonly high: number;
  readonly scale: unknown[];
} {
  const [, early, sheet, late] = look.palette.field;
  if (field.fromWindow) {
    const z = fields.place;
    const [low, high] = rangeOf(z.flat(), 0, [-0.5, 1.5]);
    const at = (place: number): number => (place - low) / (high - low);
    return {
      z,
      low,
      high,
      scale: [
        [0, early],
        [at(0), sheet],
        [at(1), sheet],
        [1, late],
      ],
    };
  }
  const z = fields[field.of];
  const [low, high] = rangeOf(z.flat(), 0);
  const { neutral } = field;
  if (neutral === undefined) {
    const [least, middle, most] = look.palette.amount;
    return {
      z,
      low,
      high,
      scale: [
        [0, least],
        [0.5, middle],
        [1, most],
      ],
    };
  }
  const zero = Math.min(0.98, Math.max(0.02, (neutral - low) / (high - low || 1)));
  return {
    z,
    low,
    high,
    scale: [
      [0, late],
      [zero, sheet],
      [1, early],
    ],
  };
}

/** A scale stands below a field whose shades are its values; on paper the contours' numbers must do. */
const hasScale = (field: DurationField, look: Look): boolean => field.fromWindow !== true && !look.print;
/** Room of the horizontal axis above the scale, and of the scale below it [px]. */
const SCALE_PAD = 46;
const SCALE_PX = 42;

/** The field: shades, and over them contours that carry their values and read the wave out. */
function fieldTraces(grid: DurationGrid, field: DurationField, look: Look): Bag[] {
  const { palette } = look;
  const { speeds, durations, fields } = grid;
  const z = fields[field.of];
  const { z: shade, low, high, scale } = shades(grid, field, look);
  const { lead: leads, peak: peaks } = fields;
  const plane = { type: 'contour', x: speeds, y: durations, connectgaps: false, ncontours: 12 };
  const reading = field.fromWindow ? '' : `: ${field.reading}`;
  return [
    {
      ...plane,
      z: shade,
      zmin: low,
      zmax: high,
      colorscale: scale,
      showscale: hasScale(field, look),
      colorbar: levelScale(look, field.title, SCALE_PAD),
      hoverinfo: 'skip',
      contours: { coloring: 'heatmap', showlines: false },
      line: { width: 0 },
    },
    {
      ...plane,
      z,
      showscale: false,
      contours: {
        coloring: 'none',
        showlabels: true,
        labelformat: field.labelFormat,
        labelfont: { size: 11, color: palette.ink },
      },
      line: { width: 0.7, color: palette.faint },
      customdata: leads.map((row, i) => row.map((lead, j) => [fixed(lead, 0), fixed(peaks[i]?.[j], 0)])),
      hovertemplate: `%{x:,d} rpm, %{y:.0f}°${reading}<br>before EC: middle %{customdata[0]}°, peak %{customdata[1]}°<extra></extra>`,
    },
  ];
}

/** The duration the case has as it stands: a level line and its name. */
function ownLine(duration: number | null, look: Look): { readonly shapes: Bag[]; readonly names: Bag[] } {
  if (duration === null) return { shapes: [], names: [] };
  const colour = look.palette.line.exhaust;
  const place = { ...leftEdge(4), y: duration, yanchor: 'bottom', bgcolor: look.palette.sheet, borderpad: 1 };
  return {
    shapes: [levelLine({ color: colour, width: 1.5, dash: 'dash' }, duration)],
    names: [words('as it is', colour, place, 11)],
  };
}

export function speedDurationField(
  { grid, points }: { readonly grid: DurationGrid; readonly points: readonly DurationPoint[] },
  field: DurationField,
  ownDuration: number | null,
  look: Look,
): Figure {
  const { speeds, durations } = grid;
  const own = ownLine(ownDuration, look);
  const below = hasScale(field, look) ? SCALE_PX : 0;
  return {
    data: [
      ...fieldTraces(grid, field, look),
      ...windowTraces(grid, field.fromWindow === true, look),
      ...pointTraces(points, look),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 380, 320, 230) + below,
      { b: 48 + below, t: 34, l: 46, r: 16 },
      {
        hovermode: 'closest',
        xaxis: speedAxis(look, [speeds[0] ?? 0, speeds.at(-1) ?? 1], { showgrid: false }),
        yaxis: axis(look, {
          range: [durations[0] ?? 0, durations.at(-1) ?? 1],
          showgrid: false,
          ticksuffix: '°',
          nticks: 8,
        }),
        shapes: own.shapes,
        annotations: [axisName(look, 'Exhaust duration [°]'), ...edgeNames(grid, look), ...own.names],
      },
    ),
  };
}
