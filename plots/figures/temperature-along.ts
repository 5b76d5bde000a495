/**
 * Temperature along the pipe: gas and wall as they are on the mean over time, and the gas that flows past the flange,
 * weighted by its flow. The two differ: between pulses gas stands still, and the mean over time is that of whatever
 * stands there.
 */

import { curve, dots } from '../marks/curve.ts';
import { leader, leftEdge, words } from '../marks/note.ts';
import { axis, axisName, axisTitle, type Bag, baseLayout, rangeOf, topMargin } from '../theme/axes.ts';
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

/** Gas or wall: its curve, and its name on a leader. */
function lineAndName(along: Along, of: 'gas' | 'wall', look: Look): readonly [line: Bag, name: Bag] {
  const at = Math.floor(along[of].length * 0.45);
  return [
    curve(along.positions, along[of], lineOf(look, of), { name: of, hovertemplate: '%{y:.0f} °C' }),
    leader(of, look.palette.line[of], { x: along.positions[at], y: along[of][at] }, [30, -18]),
  ];
}

/** The flow at the flange: a dot, and its name beside it. */
function dotAndName({ position, temperature }: FlangeFlow, look: Look): readonly [dot: Bag, name: Bag] {
  const { sheet, line } = look.palette;
  return [
    dots(
      [position],
      [temperature],
      { size: 10, opacity: 1, color: sheet, line: { color: line.gas, width: 2.4 } },
      { name: 'flow at the flange', hovertemplate: '%{y:.0f} °C' },
    ),
    // Above both lines, which leave no room beside the dot.
    words(`○ the flow at the flange: ${Math.round(temperature)} °C`, line.gas, {
      ...leftEdge(6),
      yref: 'paper',
      y: 1,
      yanchor: 'top',
    }),
  ];
}

/** Gas and wall temperature along the pipe, mean over time, and that of the flow at the flange. */
export function temperatureAlong(along: Along, flange: FlangeFlow | null, look: Look): Figure {
  const shown = [...Array.from(along.gas), ...Array.from(along.wall)];
  const range = rangeOf(shown, 0.16, flange === null ? [] : [flange.temperature]);
  const [gas, gasName] = lineAndName(along, 'gas', look);
  const [wall, wallName] = lineAndName(along, 'wall', look);
  const [dot, dotName] = flange === null ? [] : dotAndName(flange, look);
  return {
    data: [gas, wall, ...(dot ? [dot] : [])],
    layout: baseLayout(
      look,
      heightOf(look, 300, 260, 180),
      { t: topMargin(look), b: 48, l: 46, r: 14 },
      {
        xaxis: axis(look, {
          nticks: look.narrow ? 5 : 9,
          hoverformat: '.0f',
          unifiedhovertitle: { text: '%{x:.0f} mm' },
          title: axisTitle(look, 'Distance from the port face [mm]'),
        }),
        yaxis: axis(look, { range: [...range], nticks: 7 }),
        annotations: [
          axisName(look, 'Temperature [°C], mean over time'),
          ...(dotName ? [dotName] : []),
          gasName,
          wallName,
        ],
      },
    ),
  };
}
