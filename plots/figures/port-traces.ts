/**
 * One cycle at one speed against crank angle, in three panels over one crank axis: pressure at the exhaust port with
 * the wave running out and the wave running back; open areas of the ports; pressures in cylinder and crankcase. The
 * two waves superpose to the pressure at the port (Riemann variables; they do not simply add).
 */

import { window } from '../marks/band.ts';
import { curve } from '../marks/curve.ts';
import { levelLine } from '../marks/event-line.ts';
import { leader, words } from '../marks/note.ts';
import { axis, axisName, type Bag, baseLayout, crankAxis, rangeOf, topMargin } from '../theme/axes.ts';
import type { PortEvents } from '../theme/events.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import type { Quantity } from '../theme/palette.ts';
import { extreme, lastAbove } from './extremes.ts';
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
const CYLINDER_TOP = 4;

type Trace = Exclude<keyof CycleTraces, 'angleDeg'>;

/** Each trace with its quantity, its name and its panel, in the order they are laid over one another. */
const drawn: readonly (readonly [
  trace: Trace,
  quantity: Quantity,
  name: string,
  yaxis: string,
  width?: number,
])[] = [
  ['port', 'port', 'at the port', 'y', 1.3],
  ['outgoing', 'outgoing', 'outgoing', 'y'],
  ['returning', 'returning', 'returning', 'y', 2.6],
  ['exhaustArea', 'exhaust', 'exhaust port', 'y2'],
  ['transferArea', 'transfer', 'transfer ports', 'y2'],
  ['cylinder', 'cylinder', 'cylinder', 'y3'],
  ['crankcase', 'crankcase', 'crankcase', 'y3'],
];

const domainsOf = (look: Look) =>
  look.print
    ? { port: [0.55, 1], areas: [0.31, 0.44], volumes: [0, 0.19] }
    : { port: [0.5, 1], areas: [0.28, 0.42], volumes: [0, 0.2] };

/** A name at the end of a leader to one point of a trace. */
type Naming = (
  text: string,
  trace: Trace,
  index: number,
  quantity: Quantity,
  offset: readonly [number, number],
  yref?: string,
) => Bag;

const namingOn =
  (traces: CycleTraces, look: Look): Naming =>
  (text, trace, index, quantity, offset, yref = 'y') =>
    leader(
      text,
      look.palette.line[quantity],
      { x: traces.angleDeg[index], y: traces[trace][index], yref },
      offset,
      { standoff: 3 },
    );

/** Names of the waves, in the upper panel. On paper that of the port stands beside the first pulse, where there is room. */
function waveNames(traces: CycleTraces, events: PortEvents, look: Look): Bag[] {
  const { exhaustOpens, transfersOpen, exhaustCloses } = events;
  const name = namingOn(traces, look);
  const find = (trace: Trace, from: number, to: number, sign: 1 | -1): number =>
    extreme(traces.angleDeg, traces[trace], from, to, sign);
  const side = look.print ? 60 : look.narrow ? 54 : 70;
  const back: readonly [number, number] = look.print
    ? [1.25 * side, -4]
    : look.narrow
      ? [64, -30]
      : [1.25 * side, -14];
  return [
    name('outgoing wave', 'outgoing', find('outgoing', exhaustOpens, transfersOpen + 30, 1), 'outgoing', [
      side,
      look.print ? 12 : -8,
    ]),
    name(
      '<b>returning wave</b>',
      'returning',
      find('returning', transfersOpen + 60, exhaustOpens + 360, 1),
      'returning',
      back,
    ),
    look.print
      ? name('at the port', 'port', find('port', exhaustOpens, transfersOpen + 30, 1), 'port', [
          0.9 * side,
          -4,
        ])
      : name('at the port', 'port', find('port', transfersOpen, exhaustCloses, -1), 'port', [
          -0.7 * side,
          18,
        ]),
  ];
}

/** Names in the two lower panels. */
function volumeNames(traces: CycleTraces, events: PortEvents, look: Look): Bag[] {
  const { exhaustOpens, transfersOpen, transfersClose, exhaustCloses } = events;
  const name = namingOn(traces, look);
  const angles = traces.angleDeg;
  const widest =
    traces.exhaustArea[extreme(angles, traces.exhaustArea, exhaustOpens, exhaustOpens + 360, 1)] ?? 0;
  const closing = lastAbove(angles, traces.exhaustArea, 0.35 * widest, exhaustCloses);
  const falling = lastAbove(angles, traces.cylinder, 2, transfersOpen + 40);
  const filling = extreme(angles, traces.crankcase, 398, 402, 1);
  return [
    name('exhaust', 'exhaustArea', closing, 'exhaust', [46, -10], 'y2'),
    words('transfers', look.palette.line.transfer, {
      x: (transfersOpen + transfersClose) / 2,
      y: 0.4 * widest,
      yref: 'y2',
    }),
    name('cylinder', 'cylinder', falling, 'cylinder', [look.print ? 60 : look.narrow ? 54 : 70, -8], 'y3'),
    name('crankcase', 'crankcase', filling, 'crankcase', [0, -20], 'y3'),
  ];
}

const together = (...traces: readonly ArrayLike<number>[]): number[] =>
  traces.flatMap((one) => Array.from(one));

export function portTraces(traces: CycleTraces, events: PortEvents, ambientBar: number, look: Look): Figure {
  const { palette } = look;
  const domains = domainsOf(look);
  const range = rangeOf(together(traces.port, traces.outgoing, traces.returning), 0.1, [ambientBar]);
  const areaTop = rangeOf(together(traces.exhaustArea, traces.transferArea), 0.12, [0])[1];
  const margin = { t: topMargin(look), b: 62, l: 44, r: 14 };
  return {
    data: drawn.map(([trace, quantity, name, yaxis, width = 2]) =>
      // The player's bar reads the instant out; a box would stand on the wave it describes.
      curve(traces.angleDeg, traces[trace], lineOf(look, quantity, width), {
        yaxis,
        name,
        hoverinfo: 'none',
      }),
    ),
    layout: baseLayout(look, heightOf(look, 620, 560, 320), margin, {
      xaxis: crankAxis(look, events, { anchor: 'y3', ticksuffix: '' }),
      yaxis: axis(look, { domain: domains.port, range: [...range], nticks: 7, tickformat: '.1f' }),
      yaxis2: axis(look, { domain: domains.areas, range: [0, areaTop], nticks: look.print ? 3 : 4 }),
      yaxis3: axis(look, { domain: domains.volumes, range: [0, CYLINDER_TOP], nticks: 5 }),
      hovermode: 'x',
      hoversubplots: 'axis',
      shapes: [
        window(look, events),
        levelLine({ color: palette.hairline, width: 1 }, ambientBar, { layer: 'below' }),
      ],
      annotations: [
        axisName(look, 'Pressure at the exhaust port [bar]', domains.port[1]),
        axisName(look, 'Open port area [mm²]', domains.areas[1]),
        axisName(look, 'Cylinder and crankcase [bar]', domains.volumes[1]),
        ...waveNames(traces, events, look),
        ...volumeNames(traces, events, look),
        words(
          'wanted',
          palette.usefulInk,
          {
            xref: 'x',
            yref: 'paper',
            x: (events.transfersClose + events.exhaustCloses) / 2,
            y: 1,
            yanchor: 'top',
          },
          11,
        ),
      ],
    }),
  };
}
