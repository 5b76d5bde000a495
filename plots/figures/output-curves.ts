/** Torque and brake power against engine speed, useful speeds shaded, jumps marked. */

import { holesOf } from '../../src/findings/answers/torque-holes.ts';
import { landingBands } from '../../src/findings/band.ts';
import { column, highest } from '../../src/findings/curve.ts';
import type { ColumnBand } from '../../src/findings/member-bands.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { uprightBand } from '../marks/band.ts';
import { curve } from '../marks/curve.ts';
import { endLabels, lastOf } from '../marks/end-label.ts';
import { uprightLine } from '../marks/event-line.ts';
import { leader } from '../marks/note.ts';
import {
  axis,
  axisName,
  type Bag,
  baseLayout,
  type Range,
  rangeOf,
  speedAxis,
  topMargin,
} from '../theme/axes.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import { fixed, speed } from '../theme/numbers.ts';
import type { Figure } from './figure.ts';
import { memberShades, reachOf } from './member-shades.ts';
import { swingBars } from './swing.ts';

/** Shading over the speeds at which the wave lands as wanted; half a step to either side. */
export function usefulSpeedShapes(rows: readonly SweepRow[], look: Look): readonly Bag[] {
  const first = rows[0]?.speed_rpm ?? 0;
  const half = rows.length > 1 ? ((rows.at(-1)?.speed_rpm ?? 0) - first) / (rows.length - 1) / 2 : 50;
  return landingBands(rows).map(({ from, to }) => uprightBand(look.palette.useful, from - half, to + half));
}

/** Where torque jumps though the wave stands still: a dotted line between the two speeds. */
function jumpMarks(rows: readonly SweepRow[], look: Look): Bag[] {
  const stroke = { color: look.palette.faint, width: 1.5, dash: 'dot' };
  return holesOf(rows)
    .filter(({ kind }) => kind === 'jump')
    .map(({ rpm, crestRpm }) => uprightLine(stroke, 0.5 * (rpm + crestRpm)));
}

type Readings = readonly (number | null)[];

/** From nought, or what is below it, to the highest value and a share of room above it for its name. */
const upTo = (values: Readings, room: number): Range => [
  Math.min(0, rangeOf(values)[0]),
  rangeOf(values, room, [0])[1],
];

/** Names the best speed of a quantity: torque from above, power from below. */
function bestMark(rows: readonly SweepRow[], of: 'torque' | 'power', look: Look): Bag[] {
  const name = of === 'torque' ? 'torque_nm' : 'power_kw';
  const row = highest(rows, name);
  if (row === null) return [];
  const text = `${fixed(row[name], 1)} ${of === 'torque' ? 'Nm' : 'kW'}${look.print ? ', ' : '<br>'}${speed(row.speed_rpm)} rpm`;
  // Under the power, left of where the torque falls off the band; where the plot is narrow that is further away.
  const right = of === 'torque' ? 0 : look.print ? -26 : look.narrow ? -26 : -18;
  const down = (of === 'torque' ? -28 : look.narrow ? 58 : 44) * (look.print ? 0.5 : 1);
  const place = { x: row.speed_rpm, y: row[name], yref: of === 'torque' ? 'y' : 'y2' };
  return [leader(text, look.palette.line[of], place, [right, down], { standoff: 4 })];
}

function curves(rows: readonly SweepRow[], torque: Readings, power: Readings, look: Look): Bag[] {
  const speeds = rows.map((row) => row.speed_rpm);
  const halfSwing = (row: SweepRow): number =>
    ((row.torque_nm ?? 0) * (row.spread_torque_percent ?? 0)) / 200;
  return [
    curve(speeds, torque, lineOf(look, 'torque', 2.4), {
      mode: 'lines+markers',
      marker: { size: 5 },
      error_y: swingBars(rows, halfSwing, look.palette.line.torque),
      hovertemplate: '%{y:.1f} Nm',
      name: 'torque',
    }),
    curve(speeds, power, lineOf(look, 'power', 2.4), {
      yaxis: 'y2',
      hovertemplate: '%{y:.1f} kW',
      name: 'power',
    }),
  ];
}

/** @param bands percentiles over members, shaded under the curves */
export function outputCurves(
  rows: readonly SweepRow[],
  look: Look,
  bands: readonly ColumnBand[] = [],
): Figure {
  const ofTorque = bands.filter((band) => band.column === 'torque_nm');
  const ofPower = bands.filter((band) => band.column === 'power_kw');
  const { line } = look.palette;
  const torque = column(rows, 'torque_nm');
  const power = column(rows, 'power_kw');
  const torqueRange = upTo([...torque, ...reachOf(ofTorque)], look.print ? 0.4 : 0.22);
  const powerRange = upTo([...power, ...reachOf(ofPower)], look.print ? 0.7 : 0.42);
  const height = heightOf(look, 340, 300, 148);
  const margin = { t: topMargin(look), b: 48, l: 44, r: look.narrow ? 62 : 90 };
  const names = [
    { text: 'torque', colour: line.torque, y: lastOf(torque) },
    { text: 'power', colour: line.power, y: rescale(lastOf(power), powerRange, torqueRange) },
  ];
  return {
    data: [
      ...memberShades(ofTorque, line.torque),
      ...memberShades(ofPower, line.power, { yaxis: 'y2' }),
      ...curves(rows, torque, power, look),
    ],
    layout: baseLayout(look, height, margin, {
      xaxis: speedAxis(
        look,
        rangeOf(
          rows.map((row) => row.speed_rpm),
          0.02,
        ),
      ),
      yaxis: axis(look, { range: [...torqueRange], nticks: 7 }),
      yaxis2: axis(look, {
        range: [...powerRange],
        overlaying: 'y',
        tickmode: 'auto',
        side: 'right',
        showgrid: false,
        nticks: 7,
        tickfont: { color: line.power, size: look.narrow ? 11 : 12 },
      }),
      shapes: [...usefulSpeedShapes(rows, look), ...jumpMarks(rows, look)],
      annotations: [
        axisName(look, 'Torque [Nm]'),
        {
          ...axisName(look, 'Power [kW]', 1, 1),
          xanchor: 'right',
          xshift: 30,
          font: { color: line.power, size: 12 },
        },
        ...bestMark(rows, 'torque', look),
        ...bestMark(rows, 'power', look),
        ...endLabels(look, names, {
          range: torqueRange,
          heightPx: height - margin.t - margin.b,
          xshift: 28,
        }),
      ],
    }),
  };
}

const rescale = (value: number | null, from: Range, to: Range): number | null =>
  value === null ? null : to[0] + ((value - from[0]) / (from[1] - from[0])) * (to[1] - to[0]);
