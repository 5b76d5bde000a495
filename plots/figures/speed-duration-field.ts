/**
 * A quantity over speed and exhaust duration as shades with labelled contours. The line on which the plug-back peak
 * meets exhaust closing is drawn on every one of them; full dots mark the points at which its middle lands as
 * wanted.
 */

import { axis, axisName, baseLayout, rangeOf, speedAxis } from '../theme/axes.ts';
import { heightOf, type Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';
import { landing } from './landing.ts';
import type { SpeedRow } from './sweep-row.ts';

export interface DurationPoint {
  readonly durationDeg: number;
  readonly row: SpeedRow;
}

export interface DurationField {
  readonly title: string;
  readonly value: (row: SpeedRow) => number | null;
  readonly reading: string;
  /** Value that gets the neutral shade; absent: light to dark. */
  readonly neutral?: number;
  readonly labelFormat: string;
}

const ascending = (values: Iterable<number>): number[] => [...new Set(values)].sort((a, b) => a - b);

/** Values on the grid of all speeds and durations, a row a duration; null where a point is missing. */
export function onGrid(
  points: readonly DurationPoint[],
  value: (row: SpeedRow) => number | null,
): { readonly speeds: number[]; readonly durations: number[]; readonly z: (number | null)[][] } {
  const speeds = ascending(points.map((point) => point.row.speed_rpm));
  const durations = ascending(points.map((point) => point.durationDeg));
  const found = new Map(
    points.map((point) => [`${point.durationDeg}/${point.row.speed_rpm}`, value(point.row)]),
  );
  const z = durations.map((duration) => speeds.map((speed) => found.get(`${duration}/${speed}`) ?? null));
  return { speeds, durations, z };
}

export function speedDurationField(
  points: readonly DurationPoint[],
  field: DurationField,
  ownDuration: number | null,
  look: Look,
): Figure {
  const { palette } = look;
  const { speeds, durations, z } = onGrid(points, field.value);
  const lead = onGrid(points, (row) => row.plugback_lead_deg);
  const [low, high] = rangeOf(z.flat(), 0);
  const [, f1, f2, f3] = palette.field;
  const neutral = field.neutral;
  const zero =
    neutral === undefined ? 0 : Math.min(0.98, Math.max(0.02, (neutral - low) / (high - low || 1)));
  const useful = points.filter((point) => landing(point.row) === 'lands');
  const scale =
    neutral === undefined
      ? [
          [0, f2],
          [1, f3],
        ]
      : [
          [0, f3],
          [zero, f2],
          [1, f1],
        ];
  return {
    data: [
      {
        type: 'contour',
        x: speeds,
        y: durations,
        z,
        zmin: low,
        zmax: high,
        ncontours: 12,
        colorscale: scale,
        showscale: false,
        contours: {
          coloring: 'heatmap',
          showlabels: true,
          labelformat: field.labelFormat,
          labelfont: { size: 11, color: palette.ink },
        },
        line: { width: 0.7, color: palette.faint },
        hovertemplate: `%{x:.0f} rpm, %{y:.0f}°: ${field.reading}<extra></extra>`,
        connectgaps: false,
      },
      {
        type: 'contour',
        x: lead.speeds,
        y: lead.durations,
        z: lead.z,
        showscale: false,
        hoverinfo: 'skip',
        contours: { start: 0, end: 0, size: 1, coloring: 'none' },
        line: { width: 3, color: palette.line.returning },
      },
      {
        type: 'scatter',
        mode: 'markers',
        x: useful.map((point) => point.row.speed_rpm),
        y: useful.map((point) => point.durationDeg),
        cliponaxis: false,
        marker: { size: look.narrow ? 5 : 6, color: palette.line.returning, opacity: 1 },
        hoverinfo: 'skip',
      },
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
          ...(ownDuration === null
            ? []
            : [
                {
                  text: 'as it is',
                  xref: 'paper',
                  x: 1,
                  xanchor: 'right',
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
