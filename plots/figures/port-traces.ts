/**
 * One cycle at one speed against crank angle, in three panels over one crank axis: pressure at the exhaust port with
 * the wave running out and the wave running back; open areas of the ports; pressures in cylinder and crankcase. The
 * two waves superpose to the pressure at the port (Riemann variables; they do not simply add).
 */

import {
  axis,
  axisName,
  type Bag,
  baseLayout,
  crankAxis,
  landingBand,
  rangeOf,
  topMargin,
} from '../theme/axes.ts';
import type { PortEvents } from '../theme/events.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import type { Figure } from './figure.ts';

export interface CycleTraces {
  /** Crank angle, ascending from exhaust opening [deg]. */
  readonly angleDeg: ArrayLike<number>;
  /** Pressures [bar]. */
  readonly port: ArrayLike<number>;
  readonly outgoing: ArrayLike<number>;
  readonly returning: ArrayLike<number>;
  readonly cylinder: ArrayLike<number>;
  readonly crankcase: ArrayLike<number>;
  /** Open areas [mm2]. */
  readonly exhaustArea: ArrayLike<number>;
  readonly transferArea: ArrayLike<number>;
  /** Mach number where the exhaust passage ends [-]. */
  readonly mach: ArrayLike<number>;
}

/** Highest pressure the lower panel shows; compression and combustion run off its top [bar]. */
const cylinderTop = 4;

/** Index of the largest (`sign` 1) or smallest (−1) value between two angles. */
export function extreme(
  angles: ArrayLike<number>,
  values: ArrayLike<number>,
  from: number,
  to: number,
  sign: 1 | -1,
): number {
  let best = -1;
  for (let i = 0; i < angles.length; i++) {
    const angle = angles[i] ?? 0;
    if (angle < from || angle > to) continue;
    if (best < 0 || sign * ((values[i] ?? 0) - (values[best] ?? 0)) > 0) best = i;
  }
  return Math.max(best, 0);
}

/** Index of the last value, before an angle, at which a curve still stands above a level. */
function lastAbove(
  angles: ArrayLike<number>,
  values: ArrayLike<number>,
  level: number,
  before: number,
): number {
  let found = 0;
  for (let i = 0; i < angles.length; i++)
    if ((angles[i] ?? 0) < before && (values[i] ?? 0) > level) found = i;
  return found;
}

export function portTraces(traces: CycleTraces, events: PortEvents, ambientBar: number, look: Look): Figure {
  const { palette } = look;
  const height = heightOf(look, 620, 560, 320);
  const margin = { t: topMargin(look), b: 62, l: 44, r: 14 };
  const domains = look.print
    ? { port: [0.55, 1], areas: [0.31, 0.44], volumes: [0, 0.19] }
    : { port: [0.5, 1], areas: [0.28, 0.42], volumes: [0, 0.2] };
  const line = (
    name: string,
    values: ArrayLike<number>,
    quantity: Parameters<typeof lineOf>[1],
    yaxis: string,
    width = 2,
  ): Bag => ({
    type: 'scatter',
    mode: 'lines',
    x: traces.angleDeg,
    y: values,
    yaxis,
    name,
    line: lineOf(look, quantity, width),
    // The player's bar reads the instant out; a box would stand on the wave it describes.
    hoverinfo: 'none',
  });
  const note = (
    text: string,
    index: number,
    values: ArrayLike<number>,
    quantity: Parameters<typeof lineOf>[1],
    offset: readonly [number, number],
    yref = 'y',
  ): Bag => ({
    text,
    x: traces.angleDeg[index],
    y: values[index],
    yref,
    ax: offset[0],
    ay: offset[1],
    arrowhead: 0,
    arrowwidth: 1,
    standoff: 3,
    arrowcolor: palette.line[quantity],
    font: { color: palette.line[quantity], size: 12 },
  });
  const { exhaustOpens, transfersOpen, exhaustCloses } = events;
  const angles = traces.angleDeg;
  const outPeak = extreme(angles, traces.outgoing, exhaustOpens, transfersOpen + 30, 1);
  const backPeak = extreme(angles, traces.returning, transfersOpen + 60, exhaustOpens + 360, 1);
  const dip = extreme(angles, traces.port, transfersOpen, exhaustCloses, -1);
  const areaTop = rangeOf(
    [...Array.from(traces.exhaustArea), ...Array.from(traces.transferArea)],
    0.12,
    [0],
  )[1];
  const portRange = rangeOf(
    [...Array.from(traces.port), ...Array.from(traces.outgoing), ...Array.from(traces.returning)],
    0.1,
    [ambientBar],
  );
  const widest = extreme(angles, traces.exhaustArea, exhaustOpens, exhaustOpens + 360, 1);
  const closing = lastAbove(
    angles,
    traces.exhaustArea,
    0.35 * (traces.exhaustArea[widest] ?? 0),
    exhaustCloses,
  );
  // On paper the names stand beside the first pulse, where the panel has room.
  const portAt = look.print ? extreme(angles, traces.port, exhaustOpens, transfersOpen + 30, 1) : dip;
  const side = look.print ? 60 : look.narrow ? 54 : 70;
  return {
    data: [
      line('at the port', traces.port, 'port', 'y', 1.3),
      line('outgoing', traces.outgoing, 'outgoing', 'y'),
      line('returning', traces.returning, 'returning', 'y', 2.6),
      line('exhaust port', traces.exhaustArea, 'exhaust', 'y2'),
      line('transfer ports', traces.transferArea, 'transfer', 'y2'),
      line('cylinder', traces.cylinder, 'cylinder', 'y3'),
      line('crankcase', traces.crankcase, 'crankcase', 'y3'),
    ],
    layout: baseLayout(look, height, margin, {
      xaxis: crankAxis(look, events, {
        anchor: 'y3',
        ticksuffix: '',
      }),
      yaxis: axis(look, {
        domain: domains.port,
        range: [...portRange],
        nticks: 7,
        tickformat: '.1f',
      }),
      yaxis2: axis(look, {
        domain: domains.areas,
        range: [0, areaTop],
        nticks: look.print ? 3 : 4,
      }),
      yaxis3: axis(look, {
        domain: domains.volumes,
        range: [0, cylinderTop],
        nticks: 5,
      }),
      hovermode: 'x',
      hoversubplots: 'axis',
      shapes: [
        landingBand(look, events),
        {
          type: 'line',
          xref: 'paper',
          x0: 0,
          x1: 1,
          y0: ambientBar,
          y1: ambientBar,
          line: { color: palette.hairline, width: 1 },
          layer: 'below',
        },
      ],
      annotations: [
        axisName(look, 'Pressure at the exhaust port [bar]', domains.port[1]),
        axisName(look, 'Open port area [mm²]', domains.areas[1]),
        axisName(look, 'Cylinder and crankcase [bar]', domains.volumes[1]),
        note('outgoing wave', outPeak, traces.outgoing, 'outgoing', [side, look.print ? 12 : -8]),
        note('<b>returning wave</b>', backPeak, traces.returning, 'returning', [
          look.narrow && !look.print ? 48 : side * 1.25,
          look.print ? -4 : look.narrow ? -26 : -14,
        ]),
        note('at the port', portAt, traces.port, 'port', look.print ? [side * 0.9, -4] : [-side * 0.7, 18]),
        note('exhaust', closing, traces.exhaustArea, 'exhaust', [46, -10], 'y2'),
        {
          text: 'transfers',
          x: (transfersOpen + events.transfersClose) / 2,
          y: 0.4 * (traces.exhaustArea[widest] ?? 0),
          yref: 'y2',
          showarrow: false,
          font: { color: palette.line.transfer, size: 12 },
        },
        note(
          'cylinder',
          lastAbove(angles, traces.cylinder, 2, transfersOpen + 40),
          traces.cylinder,
          'cylinder',
          [side, -8],
          'y3',
        ),
        note(
          'crankcase',
          extreme(angles, traces.crankcase, 398, 402, 1),
          traces.crankcase,
          'crankcase',
          [0, -20],
          'y3',
        ),
        {
          text: 'wanted',
          xref: 'x',
          yref: 'paper',
          x: (events.transfersClose + exhaustCloses) / 2,
          y: 1,
          yanchor: 'top',
          showarrow: false,
          font: { color: palette.usefulInk, size: 11 },
        },
      ],
    }),
  };
}
