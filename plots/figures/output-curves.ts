/** Torque and brake power against engine speed, useful speeds shaded. */

import { landingBands } from '../../src/findings/band.ts';
import { column, highest } from '../../src/findings/curve.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { axis, axisName, baseLayout, endLabels, rangeOf, speedAxis, topMargin } from '../theme/axes.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import { fixed, speed } from '../theme/numbers.ts';
import type { Figure } from './figure.ts';
import { swingBars } from './swing.ts';

/** Shading over the speeds at which the wave lands as wanted; half a step to either side. */
export function usefulSpeedShapes(rows: readonly SweepRow[], look: Look): readonly object[] {
  const first = rows[0]?.speed_rpm ?? 0;
  const half = rows.length > 1 ? ((rows.at(-1)?.speed_rpm ?? 0) - first) / (rows.length - 1) / 2 : 50;
  return landingBands(rows).map((band) => ({
    type: 'rect',
    x0: band.from - half,
    x1: band.to + half,
    yref: 'paper',
    y0: 0,
    y1: 1,
    line: { width: 0 },
    fillcolor: look.palette.useful,
    layer: 'below',
  }));
}

export function outputCurves(rows: readonly SweepRow[], look: Look): Figure {
  const speeds = rows.map((row) => row.speed_rpm);
  const torque = column(rows, 'torque_nm');
  const power = column(rows, 'power_kw');
  const range = rangeOf(speeds, 0.02);
  const height = heightOf(look, 340, 300, 148);
  const margin = { t: topMargin(look), b: 48, l: 44, r: look.narrow ? 62 : 90 };
  const heightPx = height - margin.t - margin.b;
  const top = (values: readonly (number | null)[], pad: number): [number, number] => [
    Math.min(0, rangeOf(values)[0]),
    rangeOf(values, pad, [0])[1],
  ];
  const torqueRange = top(torque, look.print ? 0.4 : 0.22);
  const powerRange = top(power, look.print ? 0.7 : 0.42);
  const { palette } = look;
  const bestTorque = highest(rows, 'torque_nm');
  const bestPower = highest(rows, 'power_kw');
  const mark = (
    row: SweepRow | null,
    name: 'torque_nm' | 'power_kw',
    unit: string,
    yref: string,
  ): object[] =>
    row === null
      ? []
      : [
          {
            text: `${fixed(row[name], 1)} ${unit}${look.print ? ', ' : '<br>'}${speed(row.speed_rpm)} rpm`,
            x: row.speed_rpm,
            y: row[name],
            yref,
            ax: look.print && name === 'power_kw' ? -26 : 0,
            ay: (name === 'torque_nm' ? -28 : 34) * (look.print ? 0.5 : 1),
            arrowhead: 0,
            arrowwidth: 1,
            standoff: 4,
            arrowcolor: palette.line[name === 'torque_nm' ? 'torque' : 'power'],
            font: {
              color: palette.line[name === 'torque_nm' ? 'torque' : 'power'],
              size: 12,
            },
          },
        ];
  const lastOf = (values: readonly (number | null)[]): number | null => values.at(-1) ?? null;
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines+markers',
        x: speeds,
        y: torque,
        line: lineOf(look, 'torque', 2.4),
        marker: { size: 5 },
        error_y: swingBars(
          rows,
          (row) => ((row.torque_nm ?? 0) * (row.spread_torque_percent ?? 0)) / 200,
          palette.line.torque,
        ),
        hovertemplate: '%{y:.1f} Nm',
        name: 'torque',
      },
      {
        type: 'scatter',
        mode: 'lines',
        x: speeds,
        y: power,
        yaxis: 'y2',
        line: lineOf(look, 'power', 2.4),
        hovertemplate: '%{y:.1f} kW',
        name: 'power',
      },
    ],
    layout: baseLayout(look, height, margin, {
      xaxis: speedAxis(look, range),
      yaxis: axis(look, { range: torqueRange, nticks: 7 }),
      yaxis2: axis(look, {
        range: powerRange,
        overlaying: 'y',
        tickmode: 'auto',
        side: 'right',
        showgrid: false,
        nticks: 7,
        tickfont: { color: palette.line.power, size: look.narrow ? 11 : 12 },
      }),
      shapes: usefulSpeedShapes(rows, look),
      annotations: [
        axisName(look, 'Torque [Nm]'),
        {
          ...axisName(look, 'Power [kW]', 1, 1),
          xanchor: 'right',
          xshift: 30,
          font: { color: palette.line.power, size: 12 },
        },
        ...mark(bestTorque, 'torque_nm', 'Nm', 'y'),
        ...mark(bestPower, 'power_kw', 'kW', 'y2'),
        ...endLabels(
          look,
          [
            { text: 'torque', colour: palette.line.torque, y: lastOf(torque) },
            {
              text: 'power',
              colour: palette.line.power,
              y: rescale(lastOf(power), powerRange, torqueRange),
            },
          ],
          { range: torqueRange, heightPx },
        ).map((entry) => ({ ...entry, xshift: 28 })),
      ],
    }),
  };
}

const rescale = (
  value: number | null,
  from: readonly [number, number],
  to: readonly [number, number],
): number | null =>
  value === null ? null : to[0] + ((value - from[0]) / (from[1] - from[0])) * (to[1] - to[0]);
