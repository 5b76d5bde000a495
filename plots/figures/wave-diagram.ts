/**
 * Wave diagram: pressure over position along the pipe and crank angle, with the paths of a wave traced out (dx/dt =
 * u + a) and back (dx/dt = u − a), the pipe's silhouette along its axis and the ports as bars along the crank axis.
 * The shade is that of the sheet at the surroundings' pressure, greyer to ink above it, green below it.
 */

import { axis, axisName, type Bag, baseLayout, eventTicks } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import type { PortEvents } from '../theme/events.ts';
import { heightOf, type Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';

export interface WaveField {
  /** Uniform positions from the port face [mm] and uniform angles [deg]. */
  readonly positions: ArrayLike<number>;
  readonly angleDeg: ArrayLike<number>;
  /** One row of pressures an angle [bar]. */
  readonly pressure: readonly ArrayLike<number>[];
  /** The same scale for every speed [bar]. */
  readonly lowest: number;
  readonly highest: number;
}

export interface WavePath {
  readonly name: string;
  /** Positions [mm] and angles [deg], out and back. */
  readonly outPositions: ArrayLike<number>;
  readonly outDeg: ArrayLike<number>;
  readonly backPositions: ArrayLike<number>;
  readonly backDeg: ArrayLike<number>;
}

/** A stretch of the pipe: where it lies and its diameters [mm]. */
export interface Stretch {
  readonly name: string;
  readonly role: string;
  readonly start: number;
  readonly end: number;
  readonly diameters: readonly [number, number];
}

/** Colours of the field with the neutral one at the reference pressure. */
export function fieldScale(
  look: Look,
  lowest: number,
  reference: number,
  highest: number,
): [number, string][] {
  const [low, lowMiddle, middle, highMiddle, high] = look.palette.field;
  const zero = Math.min(0.95, Math.max(0.05, (reference - lowest) / (highest - lowest)));
  return [
    [0, low],
    [zero * 0.55, lowMiddle],
    [zero, middle],
    [zero + (1 - zero) * 0.42, highMiddle],
    [1, high],
  ];
}

/** Outline above and below the axis as one closed line. */
export function silhouette(outline: readonly Stretch[]): {
  readonly x: number[];
  readonly y: number[];
} {
  const ends = outline.flatMap((stretch) => [
    [stretch.start, stretch.diameters[0] / 2] as const,
    [stretch.end, stretch.diameters[1] / 2] as const,
  ]);
  const there = ends.map(([x, r]) => [x, r] as const);
  const back = [...ends].reverse().map(([x, r]) => [x, -r] as const);
  const round = [...there, ...back, ...there.slice(0, 1)];
  return { x: round.map(([x]) => x), y: round.map(([, y]) => y) };
}

/** A path with a halo of the paper's colour, so that it stands out on any shade. */
function haloed(look: Look, x: ArrayLike<number>, y: ArrayLike<number>, colour: string, dash: string): Bag[] {
  const shared = { type: 'scatter', mode: 'lines', x, y, hoverinfo: 'skip' };
  return [
    { ...shared, line: { color: look.palette.sheet, width: 5 }, opacity: 0.75 },
    { ...shared, line: { color: colour, width: 2, dash } },
  ];
}

export function waveDiagram(
  field: WaveField,
  paths: readonly WavePath[],
  outline: readonly Stretch[],
  events: PortEvents,
  ambientBar: number,
  look: Look,
): Figure {
  const { palette } = look;
  const height = heightOf(look, 620, 560, 320);
  const margin = {
    t: 26,
    b: look.print ? 78 : 92,
    l: look.narrow ? 56 : 62,
    r: 14,
  };
  const length = outline.at(-1)?.end ?? field.positions[field.positions.length - 1] ?? 1;
  const widest = Math.max(...outline.map((stretch) => Math.max(...stretch.diameters)), 1);
  const { x: outlineX, y: outlineY } = silhouette(outline);
  const plot = look.width - margin.l - margin.r;
  const fieldTop = look.print ? 0.76 : 0.82;
  const barPx = look.print ? 12 : look.narrow ? 7 : 15;
  const small = look.print ? 9 : 11;
  const bars = (2 * barPx + 5) / plot;
  const plotPx = plot * (1 - bars - 0.015);
  const bar = (from: number, to: number, at: number, colour: string): Bag => ({
    type: 'rect',
    xref: 'paper',
    x0: at,
    x1: at + barPx / plot,
    y0: from,
    y1: to,
    fillcolor: colour,
    line: { width: 0 },
  });
  const upright = (text: string, at: number, from: number, to: number, colour: string): Bag => ({
    text,
    xref: 'paper',
    x: at,
    y: (from + to) / 2,
    textangle: -90,
    showarrow: false,
    font: { color: colour, size: small },
    xanchor: 'center',
    yanchor: 'middle',
  });
  const middle = paths[Math.floor(paths.length / 2)];
  const named = outline.filter(
    (stretch) =>
      ((stretch.end - stretch.start) / length) * plotPx > 0.5 * small * Math.min(stretch.name.length, 14),
  );
  return {
    data: [
      {
        type: 'heatmap',
        x: field.positions,
        y: field.angleDeg,
        z: field.pressure,
        zmin: field.lowest,
        zmax: field.highest,
        zsmooth: 'fast',
        colorscale: fieldScale(look, field.lowest, ambientBar, field.highest),
        hoverinfo: 'none',
        colorbar: {
          orientation: 'h',
          thickness: 9,
          len: look.narrow ? 0.9 : 0.5,
          x: 1,
          xanchor: 'right',
          y: 0,
          yanchor: 'top',
          ypad: look.print ? 36 : 46,
          outlinewidth: 0,
          tickfont: { size: 11, color: palette.faint },
          ticksuffix: '',
          nticks: 6,
          title: {
            text: `Pressure [bar], surroundings ${ambientBar.toFixed(2)}`,
            side: 'bottom',
            font: { size: 11, color: palette.faint },
          },
        },
      },
      ...paths.flatMap((path) => [
        ...haloed(look, path.outPositions, path.outDeg, palette.line.outgoing, 'dash'),
        ...haloed(look, path.backPositions, path.backDeg, palette.line.returning, 'solid'),
      ]),
      {
        type: 'scatter',
        mode: 'lines',
        x: outlineX,
        y: outlineY,
        yaxis: 'y2',
        fill: 'toself',
        fillcolor: palette.grid,
        line: { color: palette.ink, width: 1.4 },
        hoverinfo: 'skip',
      },
    ],
    layout: baseLayout(look, height, margin, {
      hovermode: 'closest',
      xaxis: axis(look, {
        domain: [bars + 0.015, 1],
        range: [0, length],
        showgrid: false,
        nticks: look.narrow ? 5 : 10,
        title: {
          text: 'Distance from the port face [mm]',
          font: { size: 12, color: palette.faint },
          standoff: 4,
        },
      }),
      yaxis: axis(look, {
        domain: [0, fieldTop],
        range: [events.exhaustOpens, events.exhaustOpens + 360],
        showgrid: false,
        anchor: 'free',
        position: 0,
        ...eventTicks(look, events, ' '),
      }),
      yaxis2: axis(look, {
        domain: [0.89, 1],
        range: [-widest * 0.56, widest * 0.56],
        visible: false,
        fixedrange: true,
      }),
      shapes: [
        bar(events.exhaustOpens, events.exhaustCloses, 0, palette.line.exhaust),
        bar(events.transfersOpen, events.transfersClose, (barPx + 3) / plot, palette.line.transfer),
        ...[events.transfersClose, events.exhaustCloses].map((angle, index) => ({
          type: 'line',
          x0: 0,
          x1: length,
          y0: angle,
          y1: angle,
          line: {
            color: index === 0 ? palette.line.transfer : palette.line.exhaust,
            width: 1,
            dash: index === 0 ? 'dashdot' : 'solid',
          },
        })),
      ],
      annotations: [
        {
          ...axisName(look, 'Crank angle [° after top dead centre]', fieldTop),
          xshift: -46,
          yshift: 10,
        },
        ...(look.narrow && !look.print
          ? []
          : [
              upright('exhaust', barPx / 2 / plot, events.exhaustOpens, events.transfersClose, palette.sheet),
              upright(
                'transfers',
                (1.5 * barPx + 3) / plot,
                events.transfersOpen,
                events.transfersClose,
                palette.sheet,
              ),
            ]),
        ...(middle
          ? [
              pathLabel(look, middle.outPositions, middle.outDeg, 'running out', 'outgoing'),
              pathLabel(look, middle.backPositions, middle.backDeg, 'running back', 'returning'),
            ]
          : []),
        ...named.map((stretch) => ({
          text: label(stretch.name.slice(0, 14)),
          x: (stretch.start + stretch.end) / 2,
          y: 0,
          yref: 'y2',
          showarrow: false,
          font: { color: palette.ink, size: small },
        })),
      ],
    }),
  };
}

function pathLabel(
  look: Look,
  positions: ArrayLike<number>,
  angles: ArrayLike<number>,
  text: string,
  quantity: 'outgoing' | 'returning',
): Bag {
  // Below the way out and above the way back, where no line of the ports' closing passes.
  const out = quantity === 'outgoing';
  const index = Math.floor(positions.length * (out ? 0.6 : 0.2));
  return {
    text,
    x: positions[index],
    y: angles[index],
    ax: look.narrow ? 46 : 60,
    ay: (out ? 1 : -1) * (look.print ? 10 : 18),
    arrowhead: 0,
    arrowwidth: 1,
    arrowcolor: look.palette.line[quantity],
    bgcolor: look.palette.sheet,
    borderpad: 2,
    font: { color: look.palette.line[quantity], size: 12 },
  };
}
