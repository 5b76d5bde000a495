/** A computed solution over the exact one: the exact as a wide pale line, the computed thin upon it. */

import { curve, dots } from '../marks/curve.ts';
import { topRight, words } from '../marks/note.ts';
import { axis, axisName, axisTitle, baseLayout } from '../theme/axes.ts';
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
  const hovertemplate = '%{y:.4g}';
  const { exact, computed } = overlay;
  const exactLine = { color: palette.line.outgoing, width: 6 };
  const color = palette.line.returning;
  const named = { name: 'computed', hovertemplate };
  return {
    data: [
      curve(exact.x, exact.y, exactLine, { opacity: 0.45, name: 'exact', hovertemplate }),
      few
        ? dots(computed.x, computed.y, { color, size: 5 }, named)
        : curve(computed.x, computed.y, { color, width: 1.8 }, named),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 290, 260, 200),
      { t: 34, b: 48, l: 56, r: 14 },
      {
        xaxis: axis(look, {
          nticks: look.narrow ? 5 : 8,
          title: axisTitle(look, label(overlay.xName)),
        }),
        yaxis: axis(look, { nticks: 6 }),
        annotations: [
          axisName(look, label(overlay.yName)),
          words(
            `<span style="color:${palette.line.outgoing}">exact, wide</span>  <span style="color:${palette.line.returning}">computed, ${few ? 'dots' : 'thin'}</span>`,
            palette.ink,
            topRight,
          ),
        ],
      },
    ),
  };
}
