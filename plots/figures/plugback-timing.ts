/**
 * Plug-back against engine speed: onset to end as a band, its middle as a thick line and its peak as a dotted one, over
 * the closing of the transfers and of the exhaust port and, above, the next opening. The window it is wanted in is
 * shaded, useful speeds carry full marks.
 */

import { column } from '../../src/findings/curve.ts';
import { landing } from '../../src/findings/landing.ts';
import type { ColumnBand } from '../../src/findings/member-bands.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { levelWindow } from '../marks/band.ts';
import { CROSS, curve } from '../marks/curve.ts';
import { type EndLabel, endLabels, lastOf } from '../marks/end-label.ts';
import { levelLine } from '../marks/event-line.ts';
import { leftEdge, topRight, words } from '../marks/note.ts';
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
import { rpm } from '../theme/numbers.ts';
import { PEAK_DASH } from '../theme/palette.ts';
import type { Figure } from './figure.ts';
import { memberShades, reachOf } from './member-shades.ts';
import { swingBars } from './swing.ts';

type Readings = readonly (number | null)[];

interface Arrivals {
  readonly rows: readonly SweepRow[];
  readonly speeds: readonly number[];
  readonly onset: Readings;
  readonly peak: Readings;
  readonly middle: Readings;
  readonly end: Readings;
  readonly handbook: Readings;
  readonly traced: readonly { readonly place: 'start' | 'middle' | 'end'; readonly values: Readings }[];
}

/** Where the ports close and, in the next turn, open [deg]. */
interface Closings {
  readonly transfers: number;
  readonly exhaust: number;
  readonly next: number;
}

const arrivalsOf = (rows: readonly SweepRow[]): Arrivals => ({
  rows,
  speeds: rows.map((row) => row.speed_rpm),
  onset: column(rows, 'plugback_onset_deg'),
  peak: column(rows, 'plugback_peak_deg'),
  middle: column(rows, 'plugback_centroid_deg'),
  end: column(rows, 'plugback_end_deg'),
  handbook: column(rows, 'handbook_return_deg'),
  traced: (['start', 'middle', 'end'] as const).map((place) => ({
    place,
    values: column(rows, `traced_return_baffle_${place}_deg`),
  })),
});

/** The middle, full where the wave lands as wanted, crossed where the cycles did not settle. */
function middleCurve({ rows, speeds, middle }: Arrivals, look: Look): Bag {
  const colour = look.palette.line.returning;
  const lands = rows.map((row) => landing(row) === 'lands');
  return curve(speeds, middle, lineOf(look, 'returning', 3), {
    mode: 'lines+markers',
    name: 'middle',
    marker: {
      opacity: 1,
      size: lands.map((full) => (full ? 10 : 6)),
      color: lands.map((full) => (full ? colour : look.palette.sheet)),
      line: { color: colour, width: 1.6 },
      symbol: rows.map((row) => (row.settled ? 'circle' : CROSS)),
    },
  });
}

function curves(arrivals: Arrivals, look: Look): Bag[] {
  const { rows, speeds, onset, end, peak, handbook, traced } = arrivals;
  const { returning } = look.palette.line;
  const edge = { color: returning, width: 1 };
  return [
    curve(speeds, onset, edge, { name: 'onset' }),
    curve(speeds, end, edge, { name: 'end', fill: 'tonexty', fillcolor: `${returning}22` }),
    ...traced.map(({ place, values }) =>
      curve(speeds, values, lineOf(look, 'traced', place === 'middle' ? 1.6 : 1), {
        name: `traced, baffle ${place}`,
      }),
    ),
    curve(speeds, handbook, lineOf(look, 'handbook', 1.6), { name: 'handbook' }),
    curve(
      speeds,
      peak,
      { color: returning, width: 1.6, dash: PEAK_DASH },
      {
        name: 'peak',
        error_y: swingBars(rows, (row) => (row.spread_plugback_deg ?? 0) / 2, returning),
      },
    ),
    middleCurve(arrivals, look),
  ].map((trace) => ({ hovertemplate: '%{y:.0f}°', connectgaps: false, ...trace }));
}

/**
 * Names at the right. On paper the lines are too near one another for all of them: the band's edges go without, and of
 * the three traced returns the middle one carries the name.
 */
function names(arrivals: Arrivals, closings: Closings, range: Range, look: Look): EndLabel[] {
  const { onset, peak, middle, end, traced, handbook } = arrivals;
  const { line } = look.palette;
  const wave = (text: string, values: Readings): EndLabel => ({
    text,
    colour: line.returning,
    y: lastOf(values),
  });
  const event = (text: string, colour: string, y: number): EndLabel => ({
    text: `${text} ${Math.round(y)}°`,
    colour,
    y,
  });
  const tracedName = (place: string): string =>
    look.print ? 'traced returns' : look.narrow ? `traced ${place}` : `traced, baffle ${place}`;
  return [
    wave(look.narrow ? '<b>middle</b>' : '<b>middle of the plug-back</b>', middle),
    wave('peak', peak),
    ...(look.print ? [] : [wave('onset', onset), wave('end', end)]),
    event('EC', line.exhaust, closings.exhaust),
    event('TC', line.transfer, closings.transfers),
    ...traced
      .filter(({ place }) => !look.print || place === 'middle')
      .map(({ place, values }) => ({ text: tracedName(place), colour: line.traced, y: lastOf(values) })),
    { text: 'handbook', colour: line.handbook, y: lastOf(handbook) },
    ...(closings.next <= range[1] ? [event('next EO', line.exhaust, closings.next)] : []),
  ];
}

function closingLines({ transfers, exhaust, next }: Closings, range: Range, look: Look): Bag[] {
  const level = (quantity: 'exhaust' | 'transfer', at: number): Bag =>
    levelLine(lineOf(look, quantity, 1.6), at, { layer: 'below' });
  return [
    levelWindow(look, transfers, exhaust),
    level('exhaust', exhaust),
    level('transfer', transfers),
    ...(next <= range[1] ? [level('exhaust', next)] : []),
  ];
}

/** @param bands percentiles over members, of which those of the middle are shaded */
export function plugbackTiming(
  rows: readonly SweepRow[],
  look: Look,
  bands: readonly ColumnBand[] = [],
): Figure {
  const first = rows[0];
  if (!first) return { data: [], layout: baseLayout(look, 200, {}) };
  const { palette } = look;
  const arrivals = arrivalsOf(rows);
  const { onset, peak, end, speeds } = arrivals;
  const closings: Closings = {
    transfers: first.transfers_close_deg,
    exhaust: first.exhaust_closes_deg,
    next: first.exhaust_opens_deg + 360,
  };
  const ofMiddle = bands.filter((band) => band.column === 'plugback_centroid_deg');
  const reach = [...onset, ...peak, ...end, ...reachOf(ofMiddle)];
  const range = rangeOf(reach, 0.04, [closings.transfers - 15, closings.exhaust + 15]);
  const height = heightOf(look, 440, 380, 182);
  const margin = { t: topMargin(look), b: 48, l: 44, r: look.narrow ? 84 : 150 };
  const place = { range, heightPx: height - margin.t - margin.b, linePx: look.print ? 12 : 14 };
  return {
    data: [...memberShades(ofMiddle, palette.usefulInk), ...curves(arrivals, look)],
    layout: baseLayout(look, height, margin, {
      xaxis: speedAxis(look, rangeOf(speeds, 0.02)),
      yaxis: axis(look, { range: [...range], ticksuffix: '°', nticks: 9 }),
      shapes: closingLines(closings, range, look),
      annotations: [
        axisName(
          look,
          look.narrow ? 'Arrival at the port [°]' : 'Arrival at the port [° after top dead centre]',
        ),
        ...endLabels(look, names(arrivals, closings, range, look), place),
        words('wanted window', palette.usefulInk, { ...leftEdge(5), y: closings.exhaust, yanchor: 'top' }),
        ...(closings.next > range[1]
          ? [words(`next EO ${Math.round(closings.next)}° ↑`, palette.line.exhaust, topRight)]
          : []),
      ],
    }),
  };
}

/** Sentence for those who cannot see the figure. */
export const plugbackTimingText = (rows: readonly SweepRow[]): string =>
  `Crank angle at which the plug-back arrives, for ${rows.length} speeds from ${rpm(rows[0]?.speed_rpm)} to ${rpm(rows.at(-1)?.speed_rpm)}.`;
