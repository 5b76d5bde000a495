/** Measured less predicted over speed, in measuring errors: of the case as it is, and after. */

import type { MeasuredGroup } from '../../src/findings/answers/reconcile.ts';
import { levelBand } from '../marks/band.ts';
import { curve, dots } from '../marks/curve.ts';
import { axis, axisName, baseLayout, rangeOf, speedAxis, topMargin } from '../theme/axes.ts';
import { heightOf, type Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';

export function residuals({ points: given }: MeasuredGroup, look: Look): Figure {
  const { palette } = look;
  const points = given.toSorted((a, b) => a.x - b.x);
  const x = points.map((point) => point.x);
  const before = points.map(({ value, base, error }) => (value - base) / error);
  const after = points.map((one) =>
    one.after.p50 === null ? null : (one.value - one.after.p50) / one.error,
  );
  const hover = (called: string) => ({ hovertemplate: `${called} %{y:.1f}<extra></extra>` });
  return {
    data: [
      curve(x, before, { color: palette.faint, width: 1.6, dash: 'dash' }, hover('as it is')),
      dots(x, before, { color: palette.faint, size: 5 }, { hoverinfo: 'skip' }),
      curve(x, after, { color: palette.line.returning, width: 2 }, hover('reconciled')),
      dots(x, after, { color: palette.line.returning, size: 6 }, { hoverinfo: 'skip' }),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 200, 180, 120),
      { t: topMargin(look) },
      {
        xaxis: speedAxis(look, rangeOf(x, 0.04)),
        yaxis: axis(look, {
          range: [...rangeOf([...before, ...after], 0.08, [-2.5, 2.5])],
          zeroline: true,
          zerolinecolor: palette.hairline,
        }),
        shapes: [levelBand(palette.useful, -2, 2)],
        annotations: [
          axisName(look, 'Measured less predicted [measuring errors]; two either way are chance'),
        ],
      },
    ),
  };
}
