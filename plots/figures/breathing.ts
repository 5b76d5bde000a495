/** Blowdown and gas exchange against engine speed, and the Mach number of the exhaust passage over one cycle. */

import { column } from '../../src/findings/curve.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { curve } from '../marks/curve.ts';
import { levelLine, stretchLine } from '../marks/event-line.ts';
import { words } from '../marks/note.ts';
import { axis, axisName, baseLayout, crankAxis, rangeOf, speedAxis, topMargin } from '../theme/axes.ts';
import type { PortEvents } from '../theme/events.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import type { Figure } from './figure.ts';
import { usefulSpeedShapes } from './output-curves.ts';
import type { CycleTraces } from './port-traces.ts';
import { stackedCurves } from './stacked-curves.ts';

/** Mach number that the blowdown through the passage is laid out for [-]. Common practice, no source. */
const USUAL_MACH = 0.8;

/** Colour and dash of a quantity. */
export const styled = (
  look: Look,
  quantity: Parameters<typeof lineOf>[1],
): { color: string; dash: string } => {
  const { color, dash } = lineOf(look, quantity);
  return { color, dash };
};

/** What figures against engine speed share. */
export const speedStack = (rows: readonly SweepRow[], look: Look) => ({
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

/**
 * Pressures as the transfers open, what is blown back through them, and the largest Mach number at the passage's end in
 * the blowdown, `mach`, one value a row: later in the cycle the pipe's waves may drive it higher.
 */
export const blowdown = (rows: readonly SweepRow[], mach: readonly (number | null)[], look: Look): Figure =>
  stackedCurves(
    {
      ...speedStack(rows, look),
      panelPx: heightOf(look, 120, 110, 42),
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
          name: 'Largest Mach number in the blowdown, EO to TO [–]',
          reading: '%{y:.2f}',
          include: [0.5, 1],
          levels: [
            {
              at: USUAL_MACH,
              text: `${USUAL_MACH}${look.narrow ? ' aim' : ', usual aim'}`,
              color: look.palette.faint,
            },
          ],
          curves: [
            {
              name: 'Mach',
              y: mach,
              ...styled(look, 'mach'),
            },
          ],
        },
      ],
    },
    look,
  );

/** Delivery, charging, trapping and scavenging against speed. */
export const gasExchange = (rows: readonly SweepRow[], look: Look): Figure =>
  stackedCurves(
    {
      ...speedStack(rows, look),
      panelPx: heightOf(look, 260, 240, 80),
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
              ...styled(look, 'trapping'),
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
      curve(traces.angleDeg, traces.mach, lineOf(look, 'mach'), {
        hovertemplate: '%{y:.2f}',
        name: 'Mach',
      }),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 270, 250, 190),
      { t: topMargin(look), b: 62, l: 44, r: 14 },
      {
        xaxis: crankAxis(look, events, { hoverformat: '.0f' }),
        yaxis: axis(look, { range: [...range], nticks: 6 }),
        shapes: [
          levelLine({ color: look.palette.hairline, width: 1 }, 0, { layer: 'below' }),
          stretchLine(
            { color: look.palette.faint, width: 1.5, dash: 'dot' },
            events.exhaustOpens,
            events.transfersOpen,
            USUAL_MACH,
          ),
        ],
        annotations: [
          axisName(look, 'Mach number where the exhaust passage ends [–]'),
          words(
            `${USUAL_MACH}, usual aim of the blowdown`,
            look.palette.faint,
            { x: events.transfersOpen, xanchor: 'left', xshift: 4, y: USUAL_MACH, yanchor: 'middle' },
            11,
          ),
        ],
      },
    ),
  };
}
