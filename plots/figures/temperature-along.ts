/**
 * Temperature along the pipe: gas and wall as they are on the mean over time, and the gas that flows past the flange,
 * weighted by its flow. The two differ: between pulses gas stands still, and the mean over time is that of whatever
 * stands there.
 */

import { axis, axisName, baseLayout, rangeOf, topMargin } from '../theme/axes.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import type { Figure } from './figure.ts';

export interface Along {
  /** Position from the port face [mm], temperatures [degC]. */
  readonly positions: ArrayLike<number>;
  readonly gas: ArrayLike<number>;
  readonly wall: ArrayLike<number>;
}

/** Temperature of what flows past the flange, weighted by its flow: that of the table [mm, degC]. */
export interface FlangeFlow {
  readonly position: number;
  readonly temperature: number;
}

/** Gas and wall temperature along the pipe, mean over time, and that of the flow at the flange. */
export function temperatureAlong(along: Along, flange: FlangeFlow | null, look: Look): Figure {
  const range = rangeOf(
    [...Array.from(along.gas), ...Array.from(along.wall)],
    0.1,
    flange === null ? [] : [flange.temperature],
  );
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
    data: [
      trace('gas', along.gas, 'gas'),
      trace('wall', along.wall, 'wall'),
      ...(flange === null
        ? []
        : [
            {
              type: 'scatter',
              mode: 'markers',
              x: [flange.position],
              y: [flange.temperature],
              name: 'flow at the flange',
              marker: {
                size: 10,
                opacity: 1,
                color: look.palette.sheet,
                line: { color: look.palette.line.gas, width: 2.4 },
              },
              hovertemplate: '%{y:.0f} °C',
            },
          ]),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 300, 260, 180),
      { t: topMargin(look), b: 48, l: 46, r: 14 },
      {
        xaxis: axis(look, {
          nticks: look.narrow ? 5 : 9,
          hoverformat: '.0f',
          unifiedhovertitle: { text: '%{x:.0f} mm' },
          title: {
            text: 'Distance from the port face [mm]',
            font: { size: 12, color: look.palette.faint },
            standoff: 6,
          },
        }),
        yaxis: axis(look, { range: [...range], nticks: 7 }),
        annotations: [
          axisName(look, 'Temperature [°C], mean over time'),
          ...(flange === null
            ? []
            : [
                {
                  text: `the flow at the flange: ${Math.round(flange.temperature)} °C`,
                  x: flange.position,
                  y: flange.temperature,
                  xanchor: 'left',
                  xshift: 10,
                  yanchor: 'middle',
                  showarrow: false,
                  bgcolor: look.palette.sheet,
                  borderpad: 1,
                  font: { size: 12, color: look.palette.line.gas },
                },
              ]),
          named('gas', along.gas, 'gas'),
          named('wall', along.wall, 'wall'),
        ],
      },
    ),
  };
}
