/**
 * Wave diagram: pressure over position along the pipe and crank angle, with the paths of a wave traced out (dx/dt =
 * u + a) and back (dx/dt = u − a), the pipe's silhouette along its axis and the ports as bars along the crank axis.
 * The shade is that of the sheet at the surroundings' pressure, greyer to ink above it, green below it.
 */

import { haloed } from '../marks/curve.ts';
import { stretchLine } from '../marks/event-line.ts';
import { leader, words } from '../marks/note.ts';
import { type PressureField, pressureShades } from '../marks/pressure-shades.ts';
import {
  lengthOf,
  type Stretch,
  silhouetteCurve,
  silhouetteRange,
  stretchNames,
} from '../marks/silhouette.ts';
import { axis, axisName, axisTitle, type Bag, baseLayout, eventTicks } from '../theme/axes.ts';
import type { PortEvents } from '../theme/events.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import type { Figure } from './figure.ts';

export interface WavePath {
  readonly name: string;
  /** Positions [mm] and angles [deg], out and back. */
  readonly outPositions: ArrayLike<number>;
  readonly outDeg: ArrayLike<number>;
  readonly backPositions: ArrayLike<number>;
  readonly backDeg: ArrayLike<number>;
}

/** What is laid out by hand: the bars of the ports take a strip beside the field. */
interface Frame {
  /** Width of the strip and the field together [px]. */
  readonly plot: number;
  readonly barPx: number;
  readonly small: number;
  /** Where the field begins and how high it stands, as shares of the plot. */
  readonly left: number;
  readonly top: number;
}

function frameOf(look: Look, margin: { readonly l: number; readonly r: number }): Frame {
  const plot = look.width - margin.l - margin.r;
  const barPx = look.print ? 12 : look.narrow ? 7 : 15;
  return {
    plot,
    barPx,
    small: look.print ? 9 : 11,
    left: (2 * barPx + 5) / plot + 0.015,
    top: look.print ? 0.76 : 0.82,
  };
}

/** Bars of the open ports, upright beside the field, named where they are wide enough. */
function portBars(
  events: PortEvents,
  frame: Frame,
  look: Look,
): { readonly shapes: Bag[]; readonly names: Bag[] } {
  const { exhaustOpens, exhaustCloses, transfersOpen, transfersClose } = events;
  const { line, sheet } = look.palette;
  const bars = [
    {
      name: 'exhaust',
      from: exhaustOpens,
      to: exhaustCloses,
      px: 0,
      colour: line.exhaust,
      middle: exhaustOpens,
    },
    {
      name: 'transfers',
      from: transfersOpen,
      to: transfersClose,
      px: frame.barPx + 3,
      colour: line.transfer,
      middle: transfersOpen,
    },
  ];
  return {
    shapes: bars.map(({ from, to, px, colour }) => ({
      type: 'rect',
      xref: 'paper',
      x0: px / frame.plot,
      x1: (px + frame.barPx) / frame.plot,
      y0: from,
      y1: to,
      fillcolor: colour,
      line: { width: 0 },
    })),
    names:
      look.narrow && !look.print
        ? []
        : bars.map(({ name, px, middle }) =>
            words(
              name,
              sheet,
              {
                xref: 'paper',
                x: (px + frame.barPx / 2) / frame.plot,
                y: (middle + transfersClose) / 2,
                textangle: -90,
                xanchor: 'center',
                yanchor: 'middle',
              },
              frame.small,
            ),
          ),
  };
}

const pathCurves = (path: WavePath, look: Look): Bag[] =>
  (
    [
      ['outgoing', path.outPositions, path.outDeg],
      ['returning', path.backPositions, path.backDeg],
    ] as const
  ).flatMap(([quantity, x, y]) => haloed(look.palette.sheet, x, y, lineOf(look, quantity)));

/** The middle path carries the names, below the way out and above the way back, where no closing line passes. */
function pathNames(path: WavePath | undefined, look: Look): Bag[] {
  if (path === undefined) return [];
  const named = [
    { text: 'running out', quantity: 'outgoing', x: path.outPositions, y: path.outDeg, at: 0.6, down: 1 },
    {
      text: 'running back',
      quantity: 'returning',
      x: path.backPositions,
      y: path.backDeg,
      at: 0.2,
      down: -1,
    },
  ] as const;
  return named.map(({ text, quantity, x, y, at, down }) => {
    const index = Math.floor(x.length * at);
    const offset = [look.narrow ? 46 : 60, down * (look.print ? 10 : 18)] as const;
    return leader(text, look.palette.line[quantity], { x: x[index], y: y[index] }, offset, {
      bgcolor: look.palette.sheet,
      borderpad: 2,
    });
  });
}

export function waveDiagram(
  field: PressureField,
  paths: readonly WavePath[],
  outline: readonly Stretch[],
  events: PortEvents,
  ambientBar: number,
  look: Look,
): Figure {
  const margin = { t: 26, b: look.print ? 78 : 92, l: look.narrow ? 56 : 62, r: 14 };
  const frame = frameOf(look, margin);
  const length = lengthOf(outline) ?? field.positions[field.positions.length - 1] ?? 1;
  const bars = portBars(events, frame, look);
  const closing = (quantity: 'transfer' | 'exhaust', at: number): Bag =>
    stretchLine(lineOf(look, quantity, 1), 0, length, at);
  return {
    data: [
      pressureShades(field, ambientBar, look),
      ...paths.flatMap((path) => pathCurves(path, look)),
      silhouetteCurve(outline, look.palette, 'y2'),
    ],
    layout: baseLayout(look, heightOf(look, 620, 560, 320), margin, {
      hovermode: 'closest',
      xaxis: axis(look, {
        domain: [frame.left, 1],
        range: [0, length],
        showgrid: false,
        nticks: look.narrow ? 5 : 10,
        title: axisTitle(look, 'Distance from the port face [mm]', 4),
      }),
      yaxis: axis(look, {
        domain: [0, frame.top],
        range: [events.exhaustOpens, events.exhaustOpens + 360],
        showgrid: false,
        anchor: 'free',
        position: 0,
        ...eventTicks(look, events, ' '),
      }),
      yaxis2: axis(look, {
        domain: [0.89, 1],
        range: silhouetteRange(outline),
        visible: false,
        fixedrange: true,
      }),
      shapes: [
        ...bars.shapes,
        closing('transfer', events.transfersClose),
        closing('exhaust', events.exhaustCloses),
      ],
      annotations: [
        { ...axisName(look, 'Crank angle [° after top dead centre]', frame.top), xshift: -46, yshift: 10 },
        ...bars.names,
        ...pathNames(paths[Math.floor(paths.length / 2)], look),
        ...stretchNames(outline, look.palette, {
          plotPx: frame.plot * (1 - frame.left),
          size: frame.small,
          yref: 'y2',
        }),
      ],
    }),
  };
}
