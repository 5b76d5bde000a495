/**
 * Where the wave lands over speed and exhaust duration: highlighted, the band in which the middle of the plug-back comes
 * between transfer closing (TC) and exhaust closing (EC), its two edges in the colours of the ports, and dotted the line
 * on which the peak meets EC. Full dots mark the computed points that land as wanted, crosses those that did not settle.
 */

import { landing } from '../../src/findings/landing.ts';
import type { DurationPoint } from '../../src/findings/row.ts';
import { CROSS, dots } from '../marks/curve.ts';
import { words } from '../marks/note.ts';
import type { Bag } from '../theme/axes.ts';
import { type LineStyle, type Look, lineOf } from '../theme/look.ts';
import type { DurationGrid, GridRows } from './duration-grid.ts';

/** The band between the closings, its edges, and where the peak meets exhaust closing. */
export function windowTraces(
  { speeds, durations, fields }: DurationGrid,
  filled: boolean,
  look: Look,
): Bag[] {
  const { palette } = look;
  const { place, peak } = fields;
  const shared = {
    type: 'contour',
    showscale: false,
    hoverinfo: 'skip',
    x: speeds,
    y: durations,
  };
  const edge = (at: number, line: LineStyle, z: GridRows): Bag => ({
    ...shared,
    z,
    autocontour: false,
    contours: { start: at, end: at, size: 1, coloring: 'none' },
    line,
  });
  return [
    ...(filled
      ? [
          {
            ...shared,
            name: 'window',
            z: place,
            autocontour: false,
            contours: {
              type: 'constraint', // Plotly's name for what lies inside.
              operation: '][',
              value: [0, 1],
            },
            fillcolor: palette.useful,
            line: { width: 0 },
          },
        ]
      : []),
    { ...edge(0, lineOf(look, 'transfer', 2.4), place), name: 'middle at TC' },
    { ...edge(1, lineOf(look, 'exhaust', 2.4), place), name: 'middle at EC' },
    { ...edge(0, { color: palette.line.returning, width: 1.8, dash: 'dot' }, peak), name: 'peak at EC' },
  ];
}

/** Marks of the computed points. */
export function pointTraces(points: readonly DurationPoint[], look: Look): Bag[] {
  const marks = (name: string, chosen: readonly DurationPoint[], marker: Bag): Bag =>
    dots(
      chosen.map((point) => point.row.speed_rpm),
      chosen.map((point) => point.durationDeg),
      { opacity: 1, ...marker },
      { name, cliponaxis: false, hoverinfo: 'skip' },
    );
  return [
    marks(
      'lands',
      points.filter((point) => landing(point.row) === 'lands'),
      { size: look.narrow ? 5 : 6, color: look.palette.line.returning },
    ),
    marks(
      'not settled',
      points.filter((point) => !point.row.settled),
      {
        symbol: CROSS,
        size: look.narrow ? 8 : 10,
        line: { width: 1.8, color: look.palette.line.exhaust },
      },
    ),
  ];
}

/** Where a line of values goes through a level, as the place between two of its points; null: nowhere. */
function crossing(
  values: readonly (number | null)[],
  places: readonly number[],
  level: number,
): number | null {
  for (let i = 0; i + 1 < places.length; i++) {
    const [a, b] = [values[i], values[i + 1]];
    const [from, to] = [places[i], places[i + 1]];
    if (typeof a !== 'number' || typeof b !== 'number' || from === undefined || to === undefined) continue;
    if (a !== b && (a - level) * (b - level) <= 0) return from + ((level - a) / (b - a)) * (to - from);
  }
  return null;
}

/** Names of the two edges, where they leave the plane at its top or on its right. */
export function edgeNames({ speeds, durations, fields }: DurationGrid, look: Look): Bag[] {
  const z = fields.place;
  const { line, sheet } = look.palette;
  const named = (text: string, color: string, more: Bag): Bag =>
    words(`middle at ${text}`, color, { bgcolor: sheet, borderpad: 1, ...more }, 11);
  const edges = [
    [0, 'TC', line.transfer],
    [1, 'EC', line.exhaust],
  ] as const;
  return edges.flatMap(([level, text, color]) => {
    const x = crossing(z.at(-1) ?? [], speeds, level);
    const span = (speeds.at(-1) ?? 1) - (speeds[0] ?? 0);
    if (x !== null) {
      const share = (x - (speeds[0] ?? 0)) / span;
      const xanchor = share > 0.8 ? 'right' : share < 0.2 ? 'left' : 'center';
      return [named(text, color, { x, y: durations.at(-1), xanchor, yanchor: 'top', yshift: -3 })];
    }
    const y = crossing(
      z.map((row) => row.at(-1) ?? null),
      durations,
      level,
    );
    return y === null
      ? []
      : [
          named(text, color, {
            x: speeds.at(-1),
            y,
            xanchor: 'right',
            xshift: -4,
            yanchor: 'top',
            yshift: -6,
          }),
        ];
  });
}
