/**
 * Plug-back against engine speed: onset to end as a band, its middle as a thick line and its peak as a dotted one, over
 * the closing of the transfers and of the exhaust port and, above, the next opening. The window it is wanted in is
 * shaded, useful speeds carry full marks.
 */

import { column } from '../../src/findings/curve.ts';
import { landing } from '../../src/findings/landing.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import {
  axis,
  axisName,
  type Bag,
  baseLayout,
  endLabels,
  rangeOf,
  speedAxis,
  topMargin,
} from '../theme/axes.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import { rpm } from '../theme/numbers.ts';
import type { Figure } from './figure.ts';
import { swingBars } from './swing.ts';

const last = (values: readonly (number | null)[]): number | null =>
  values.reduceRight<number | null>((found, value) => found ?? value, null);

export function plugbackTiming(rows: readonly SweepRow[], look: Look): Figure {
  const first = rows[0];
  if (!first) return { data: [], layout: baseLayout(look, 200, {}) };
  const { palette } = look;
  const speeds = rows.map((row) => row.speed_rpm);
  const range = rangeOf(speeds, 0.02);
  const onset = column(rows, 'plugback_onset_deg');
  const peak = column(rows, 'plugback_peak_deg');
  const middle = column(rows, 'plugback_centroid_deg');
  const end = column(rows, 'plugback_end_deg');
  const { transfers_close_deg: closed, exhaust_closes_deg: shut, exhaust_opens_deg: opens } = first;
  const traced = (['start', 'middle', 'end'] as const).map((place) => ({
    place,
    values: column(rows, `traced_return_baffle_${place}_deg`),
  }));
  const handbook = column(rows, 'handbook_return_deg');
  const yRange = rangeOf([...onset, ...peak, ...end], 0.04, [closed - 15, shut + 15]);
  const next = opens + 360;
  const height = heightOf(look, 440, 380, 182);
  const margin = {
    t: topMargin(look),
    b: 48,
    l: 44,
    r: look.narrow ? 84 : 150,
  };
  const heightPx = height - margin.t - margin.b;
  const returning = palette.line.returning;

  const data: Bag[] = [
    {
      x: speeds,
      y: onset,
      mode: 'lines',
      line: { color: returning, width: 1 },
      name: 'onset',
    },
    {
      x: speeds,
      y: end,
      mode: 'lines',
      line: { color: returning, width: 1 },
      fill: 'tonexty',
      fillcolor: `${returning}22`,
      name: 'end',
    },
    ...traced.map(({ place, values }) => ({
      x: speeds,
      y: values,
      mode: 'lines',
      line: lineOf(look, 'traced', place === 'middle' ? 1.6 : 1),
      name: `traced, baffle ${place}`,
    })),
    {
      x: speeds,
      y: handbook,
      mode: 'lines',
      line: lineOf(look, 'handbook', 1.6),
      name: 'handbook',
    },
    {
      x: speeds,
      y: peak,
      mode: 'lines',
      line: { color: returning, width: 1.6, dash: '2px,3px' },
      error_y: swingBars(rows, (row) => (row.spread_plugback_deg ?? 0) / 2, returning),
      name: 'peak',
    },
    {
      x: speeds,
      y: middle,
      mode: 'lines+markers',
      line: lineOf(look, 'returning', 3),
      marker: {
        opacity: 1,
        size: rows.map((row) => (landing(row) === 'lands' ? 10 : 6)),
        color: rows.map((row) => (landing(row) === 'lands' ? returning : palette.sheet)),
        line: { color: returning, width: 1.6 },
        symbol: rows.map((row) => (row.settled ? 'circle' : 'x-thin')),
      },
      name: 'middle',
    },
  ].map((trace) => ({
    type: 'scatter',
    hovertemplate: '%{y:.0f}°',
    connectgaps: false,
    ...trace,
  }));

  const level = (y: number, colour: string, dash: string): Bag => ({
    type: 'line',
    xref: 'paper',
    x0: 0,
    x1: 1,
    y0: y,
    y1: y,
    line: { color: colour, width: 1.6, dash },
    layer: 'below',
  });
  // On paper the lines are too near one another for all their names: the band's edges go without, and of the three
  // traced returns the middle one carries the name.
  const labels = endLabels(
    look,
    [
      {
        text: look.narrow ? '<b>middle</b>' : '<b>middle of the plug-back</b>',
        colour: returning,
        y: last(middle),
      },
      { text: 'peak', colour: returning, y: last(peak) },
      ...(look.print
        ? []
        : [
            { text: 'onset', colour: returning, y: last(onset) },
            { text: 'end', colour: returning, y: last(end) },
          ]),
      {
        text: `EC ${Math.round(shut)}°`,
        colour: palette.line.exhaust,
        y: shut,
      },
      {
        text: `TC ${Math.round(closed)}°`,
        colour: palette.line.transfer,
        y: closed,
      },
      ...traced
        .filter(({ place }) => !look.print || place === 'middle')
        .map(({ place, values }) => ({
          text: look.print ? 'traced returns' : look.narrow ? `traced ${place}` : `traced, baffle ${place}`,
          colour: palette.line.traced,
          y: last(values),
        })),
      { text: 'handbook', colour: palette.line.handbook, y: last(handbook) },
      ...(next <= yRange[1]
        ? [
            {
              text: `next EO ${Math.round(next)}°`,
              colour: palette.line.exhaust,
              y: next,
            },
          ]
        : []),
    ],
    { range: yRange, heightPx, linePx: look.print ? 12 : 14 },
  );
  return {
    data,
    layout: baseLayout(look, height, margin, {
      xaxis: speedAxis(look, range),
      yaxis: axis(look, { range: [...yRange], ticksuffix: '°', nticks: 9 }),
      shapes: [
        {
          type: 'rect',
          xref: 'paper',
          x0: 0,
          x1: 1,
          y0: closed,
          y1: shut,
          line: { width: 0 },
          fillcolor: palette.useful,
          layer: 'below',
        },
        level(shut, palette.line.exhaust, 'solid'),
        level(closed, palette.line.transfer, 'dashdot'),
        ...(next <= yRange[1] ? [level(next, palette.line.exhaust, 'solid')] : []),
      ],
      annotations: [
        axisName(
          look,
          look.narrow ? 'Arrival at the port [°]' : 'Arrival at the port [° after top dead centre]',
        ),
        ...labels,
        {
          text: 'wanted window',
          xref: 'paper',
          x: 0,
          xanchor: 'left',
          xshift: 5,
          y: shut,
          yanchor: 'top',
          showarrow: false,
          font: { color: palette.usefulInk, size: 12 },
        },
        ...(next > yRange[1]
          ? [
              {
                text: `next EO ${Math.round(next)}° ↑`,
                xref: 'paper',
                yref: 'paper',
                x: 1,
                y: 1,
                xanchor: 'right',
                yanchor: 'bottom',
                yshift: 3,
                showarrow: false,
                font: { color: palette.line.exhaust, size: 12 },
              },
            ]
          : []),
      ],
    }),
  };
}

/** Sentence for those who cannot see the figure. */
export const plugbackTimingText = (rows: readonly SweepRow[]): string =>
  `Crank angle at which the plug-back arrives, for ${rows.length} speeds from ${rpm(rows[0]?.speed_rpm)} to ${rpm(rows.at(-1)?.speed_rpm)}.`;
