/** A computed solution over the exact one: the exact as a wide pale line, the computed thin upon it. */

import { axis, axisName, baseLayout } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import { heightOf, type Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';

export interface Overlay {
  /** Quantities with their units in brackets. */
  readonly xName: string;
  readonly yName: string;
  readonly computed: { readonly x: readonly number[]; readonly y: readonly number[] };
  readonly exact: { readonly x: readonly number[]; readonly y: readonly number[] };
}

export function exactOverlay(overlay: Overlay, look: Look): Figure {
  const { palette } = look;
  const few = overlay.computed.x.length <= 60;
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        x: overlay.exact.x,
        y: overlay.exact.y,
        line: { color: palette.line.outgoing, width: 6 },
        opacity: 0.45,
        name: 'exact',
        hovertemplate: '%{y:.4g}',
      },
      {
        type: 'scatter',
        mode: few ? 'markers' : 'lines',
        x: overlay.computed.x,
        y: overlay.computed.y,
        line: { color: palette.line.returning, width: 1.8 },
        marker: { color: palette.line.returning, size: 5 },
        name: 'computed',
        hovertemplate: '%{y:.4g}',
      },
    ],
    layout: baseLayout(
      look,
      heightOf(look, 290, 260, 200),
      { t: 34, b: 48, l: 56, r: 14 },
      {
        xaxis: axis(look, {
          nticks: look.narrow ? 5 : 8,
          title: { text: label(overlay.xName), font: { size: 12, color: palette.faint }, standoff: 6 },
        }),
        yaxis: axis(look, { nticks: 6 }),
        annotations: [
          axisName(look, label(overlay.yName)),
          {
            text: `<span style="color:${palette.line.outgoing}">exact, wide</span>  <span style="color:${palette.line.returning}">computed, ${few ? 'dots' : 'thin'}</span>`,
            xref: 'paper',
            yref: 'paper',
            x: 1,
            y: 1,
            xanchor: 'right',
            yanchor: 'bottom',
            yshift: 3,
            showarrow: false,
            font: { size: 12 },
          },
        ],
      },
    ),
  };
}
