/** Blow-down and gas exchange against engine speed; Mach number and temperature along a cycle and a pipe. */

import { axis, axisName, baseLayout, crankAxis, rangeOf, speedAxis, topMargin } from '../theme/axes.ts';
import type { PortEvents } from '../theme/events.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import type { Figure } from './figure.ts';
import { usefulSpeedShapes } from './output-curves.ts';
import type { CycleTraces } from './port-traces.ts';
import { stackedCurves } from './stacked-curves.ts';
import { column, type SpeedRow } from './sweep-row.ts';

const styled = (look: Look, quantity: Parameters<typeof lineOf>[1]): { color: string; dash: string } => {
  const { color, dash } = lineOf(look, quantity);
  return { color, dash };
};

const speedStack = (rows: readonly SpeedRow[], look: Look) => ({
  x: rows.map((row) => row.speed_rpm),
  xaxis: speedAxis(
    look,
    rangeOf(
      rows.map((row) => row.speed_rpm),
      0.02,
    ),
  ),
  rightPx: look.narrow ? 82 : 120,
  shapes: usefulSpeedShapes(rows, look),
});

const share = (values: readonly (number | null)[]): (number | null)[] =>
  values.map((value) => (value === null ? null : 100 * value));

/** Pressures as the transfers open, what is blown back through them, peak Mach number at the passage's end. */
export const blowdown = (rows: readonly SpeedRow[], look: Look): Figure =>
  stackedCurves(
    {
      ...speedStack(rows, look),
      panelPx: heightOf(look, 120, 110, 46),
      panels: [
        {
          name: 'Pressure as the transfers open [bar]',
          reading: '%{y:.2f} bar',
          curves: [
            {
              name: 'cylinder',
              y: column(rows, 'transfer_opening_cylinder_bar'),
              ...styled(look, 'cylinder'),
            },
            {
              name: 'crankcase',
              y: column(rows, 'transfer_opening_crankcase_bar'),
              ...styled(look, 'crankcase'),
            },
          ],
        },
        {
          name: 'Blown back into the transfers [% of delivered mass]',
          reading: '%{y:.1f} %',
          include: [0, 2],
          curves: [
            {
              name: 'back-flow',
              y: share(column(rows, 'transfer_backflow_ratio')),
              ...styled(look, 'transfer'),
            },
          ],
        },
        {
          name: 'Peak Mach number where the exhaust passage ends [–]',
          reading: '%{y:.2f}',
          include: [0.5, 1],
          levels: [
            {
              at: 0.8,
              text: look.narrow ? '0.8 aim' : '0.8, usual aim',
              color: look.palette.faint,
            },
          ],
          curves: [
            {
              name: 'Mach',
              y: column(rows, 'passage_exit_mach_max'),
              ...styled(look, 'exhaust'),
            },
          ],
        },
      ],
    },
    look,
  );

/** Delivery, charging, trapping and scavenging against speed. */
export const gasExchange = (rows: readonly SpeedRow[], look: Look): Figure =>
  stackedCurves(
    {
      ...speedStack(rows, look),
      panelPx: heightOf(look, 260, 240, 84),
      panels: [
        {
          name: 'Ratios to one displacement or one charge [–]',
          reading: '%{y:.2f}',
          include: [0, 1],
          curves: [
            {
              name: 'delivery',
              y: column(rows, 'delivery_ratio'),
              color: look.palette.line.crankcase,
              dash: 'dot',
            },
            {
              name: 'charging',
              y: column(rows, 'charging_efficiency'),
              color: look.palette.ink,
              dash: 'solid',
              width: 2.8,
            },
            {
              name: 'trapping',
              y: column(rows, 'trapping_efficiency'),
              color: look.palette.line.exhaust,
              dash: 'dash',
            },
            {
              name: 'scavenging',
              y: column(rows, 'scavenging_efficiency'),
              color: look.palette.line.cylinder,
              dash: 'longdash',
            },
          ],
        },
      ],
    },
    look,
  );

/** Mach number where the exhaust passage ends, over one cycle. */
export function machTrace(traces: CycleTraces, events: PortEvents, look: Look): Figure {
  const range = rangeOf(Array.from(traces.mach), 0.1, [0, 1]);
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        x: traces.angleDeg,
        y: traces.mach,
        line: lineOf(look, 'exhaust'),
        hovertemplate: '%{y:.2f}',
        name: 'Mach',
      },
    ],
    layout: baseLayout(
      look,
      heightOf(look, 270, 250, 200),
      { t: topMargin(look), b: 62, l: 44, r: 14 },
      {
        xaxis: crankAxis(look, events, { hoverformat: '.0f' }),
        yaxis: axis(look, { range: [...range], nticks: 6 }),
        shapes: [0, 0.8].map((level) => ({
          type: 'line',
          xref: 'paper',
          x0: 0,
          x1: 1,
          y0: level,
          y1: level,
          line: {
            color: look.palette.hairline,
            width: 1,
            dash: level === 0 ? 'solid' : 'dot',
          },
          layer: 'below',
        })),
        annotations: [
          axisName(look, 'Mach number where the exhaust passage ends [–]'),
          {
            text: '0.8, usual aim of the blow-down',
            xref: 'paper',
            x: 1,
            xanchor: 'right',
            y: 0.8,
            yanchor: 'bottom',
            showarrow: false,
            font: { size: 11, color: look.palette.faint },
          },
        ],
      },
    ),
  };
}

export interface Along {
  /** Position from the port face [mm], temperatures [degC]. */
  readonly positions: ArrayLike<number>;
  readonly gas: ArrayLike<number>;
  readonly wall: ArrayLike<number>;
}

/** Mean gas and wall temperature along the pipe. */
export function temperatureAlong(along: Along, look: Look): Figure {
  const range = rangeOf([...Array.from(along.gas), ...Array.from(along.wall)], 0.1);
  const named = (text: string, values: ArrayLike<number>, quantity: 'gas' | 'wall') => {
    const index = Math.floor(values.length * 0.45);
    return {
      text,
      x: along.positions[index],
      y: values[index],
      ax: 30,
      ay: -18,
      arrowhead: 0,
      arrowwidth: 1,
      arrowcolor: look.palette.line[quantity],
      font: { size: 12, color: look.palette.line[quantity] },
    };
  };
  const trace = (name: string, values: ArrayLike<number>, quantity: 'gas' | 'wall') => ({
    type: 'scatter',
    mode: 'lines',
    x: along.positions,
    y: values,
    name,
    line: lineOf(look, quantity),
    hovertemplate: '%{y:.0f} °C',
  });
  return {
    data: [trace('gas', along.gas, 'gas'), trace('wall', along.wall, 'wall')],
    layout: baseLayout(
      look,
      heightOf(look, 300, 260, 180),
      { t: topMargin(look), b: 48, l: 46, r: 14 },
      {
        xaxis: axis(look, {
          nticks: look.narrow ? 5 : 9,
          hoverformat: '.0f',
          title: {
            text: 'Distance from the port face [mm]',
            font: { size: 12, color: look.palette.faint },
            standoff: 6,
          },
        }),
        yaxis: axis(look, { range: [...range], nticks: 7 }),
        annotations: [
          axisName(look, 'Temperature [°C], mean over the cycle'),
          named('gas', along.gas, 'gas'),
          named('wall', along.wall, 'wall'),
        ],
      },
    ),
  };
}
