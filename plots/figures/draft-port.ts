/** Port pressure and returning wave of several drafts at one speed against crank angle. */

import { window } from '../marks/band.ts';
import { crankAxis } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import type { PortEvents } from '../theme/events.ts';
import { heightOf, type Look } from '../theme/look.ts';
import { draftStyle } from './draft-curves.ts';
import type { Figure } from './figure.ts';
import { type Curve, stackedCurves } from './stacked-curves.ts';

export interface DraftWaves {
  readonly name: string;
  readonly index: number;
  readonly angleDeg: readonly number[];
  /** [bar] */
  readonly port: readonly number[];
  readonly returning: readonly number[];
}

export function draftPort(
  drafts: readonly DraftWaves[],
  events: PortEvents,
  ambientBar: number,
  look: Look,
): Figure {
  const curves = (of: 'port' | 'returning'): Curve[] =>
    drafts.map((draft) => ({
      name: label(draft.name.length > 18 ? `${draft.name.slice(0, 17)}…` : draft.name),
      x: draft.angleDeg,
      y: draft[of],
      ...draftStyle(draft.index, look),
    }));
  return stackedCurves(
    {
      x: [],
      xaxis: crankAxis(look, events, { hoverformat: '.0f' }),
      panelPx: heightOf(look, 210, 190, 114),
      rightPx: look.narrow ? 84 : 150,
      // Names and angles of the events are two lines.
      bottomPx: 62,
      shapes: [window(look, events)],
      panels: [
        {
          name: 'Returning wave at the port [bar]',
          reading: '%{y:.2f} bar',
          curves: curves('returning'),
          levels: [{ at: ambientBar, text: '', color: look.palette.hairline }],
        },
        {
          name: 'Pressure at the port [bar]',
          reading: '%{y:.2f} bar',
          curves: curves('port'),
          levels: [{ at: ambientBar, text: '', color: look.palette.hairline }],
        },
      ],
    },
    look,
  );
}
