/**
 * A quantity over speed and exhaust duration as shades with labelled contours, and over them where the wave lands.
 */

import { middleLead, placeInWindow } from '../../src/findings/landing.ts';
import type { DurationPoint, SweepRow } from '../../src/findings/row.ts';
import { axis, axisName, baseLayout, rangeOf, speedAxis } from '../theme/axes.ts';
import { heightOf, type Look } from '../theme/look.ts';
import { onGrid } from './duration-grid.ts';
import type { Figure } from './figure.ts';
import { edgeNames, pointTraces, windowTraces } from './landing-plane.ts';

export interface DurationField {
  readonly title: string;
  readonly value: (row: SweepRow) => number | null;
  readonly reading: string;
  /** Value that gets the neutral shade; absent: light to dark. */
  readonly neutral?: number;
  /** Shades away from the band on both its sides, whatever the value: too early green, too late grey. */
  readonly fromWindow?: true;
  readonly labelFormat: string;
}

/** Shades of a field: their values and their scale. */
function shades(
  points: readonly DurationPoint[],
  field: DurationField,
  look: Look,
): {
  readonly z: (number | null)[][];
  readonly low: number;
  readonly high: number;
  readonly scale: unknown[];
} {
  const [, early, sheet, late] = look.palette.field;
  if (field.fromWindow) {
    const { z } = onGrid(points, placeInWindow);
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
  const { z } = onGrid(points, field.value);
  const [low, high] = rangeOf(z.flat(), 0);
  const { neutral } = field;
  if (neutral === undefined)
    return {
      z,
      low,
      high,
      scale: [
        [0, sheet],
        [1, late],
      ],
    };
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

const number = (value: number | null, decimals: number): string =>
  value === null ? '–' : value.toFixed(decimals).replace(/^-/, '−');

export function speedDurationField(
  points: readonly DurationPoint[],
  field: DurationField,
  ownDuration: number | null,
  look: Look,
): Figure {
  const { palette } = look;
  const { speeds, durations, z } = onGrid(points, field.value);
  const { z: shade, low, high, scale } = shades(points, field, look);
  const leads = onGrid(points, middleLead).z;
  const peaks = onGrid(points, (row) => row.plugback_lead_deg).z;
  const plane = { x: speeds, y: durations, showscale: false, connectgaps: false };
  return {
    data: [
      {
        ...plane,
        type: 'contour',
        z: shade,
        zmin: low,
        zmax: high,
        colorscale: scale,
        hoverinfo: 'skip',
        ncontours: 12,
        contours: { coloring: 'heatmap', showlines: false },
        line: { width: 0 },
      },
      {
        ...plane,
        type: 'contour',
        z,
        ncontours: 12,
        contours: {
          coloring: 'none',
          showlabels: true,
          labelformat: field.labelFormat,
          labelfont: { size: 11, color: palette.ink },
        },
        line: { width: 0.7, color: palette.faint },
        customdata: leads.map((row, i) =>
          row.map((lead, j) => [number(lead, 0), number(peaks[i]?.[j] ?? null, 0)]),
        ),
        hovertemplate: `%{x:,d} rpm, %{y:.0f}°${field.fromWindow ? '' : `: ${field.reading}`}<br>before EC: middle %{customdata[0]}°, peak %{customdata[1]}°<extra></extra>`,
      },
      ...windowTraces(points, field.fromWindow === true, look),
      ...pointTraces(points, look),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 380, 320, 230),
      { b: 48, t: 34, l: 46, r: 16 },
      {
        hovermode: 'closest',
        xaxis: speedAxis(look, [speeds[0] ?? 0, speeds.at(-1) ?? 1], { showgrid: false }),
        yaxis: axis(look, {
          range: [durations[0] ?? 0, durations.at(-1) ?? 1],
          showgrid: false,
          ticksuffix: '°',
          nticks: 8,
        }),
        shapes:
          ownDuration === null
            ? []
            : [
                {
                  type: 'line',
                  xref: 'paper',
                  x0: 0,
                  x1: 1,
                  y0: ownDuration,
                  y1: ownDuration,
                  line: { color: palette.line.exhaust, width: 1.5, dash: 'dash' },
                },
              ],
        annotations: [
          axisName(look, 'Exhaust duration [°]'),
          ...edgeNames(points, look),
          ...(ownDuration === null
            ? []
            : [
                {
                  text: 'as it is',
                  xref: 'paper',
                  x: 0,
                  xanchor: 'left',
                  xshift: 4,
                  y: ownDuration,
                  yanchor: 'bottom',
                  showarrow: false,
                  bgcolor: palette.sheet,
                  borderpad: 1,
                  font: { size: 11, color: palette.line.exhaust },
                },
              ]),
        ],
      },
    ),
  };
}
