/**
 * Purity over the scavenging of one cycle: the fresh share of what the cylinder holds and of what leaves it, against how often its
 * content has been turned over, beside perfect mixing and perfect displacement.
 */

import { type PurityCurve, perfectDisplacement, perfectMixing } from '../../src/findings/purity.ts';
import { curve } from '../marks/curve.ts';
import { leader, words } from '../marks/note.ts';
import { axis, axisName, axisTitle, type Bag, baseLayout, topMargin } from '../theme/axes.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import type { Figure } from './figure.ts';

/** The references are drawn at least so far [-], in so many steps. */
const REFERENCE = { least: 1.2, steps: 60 } as const;

/** Where curves are named: scavenge ratio, and share of the axis [-]. */
const NAMED = { at: 0.6, mixing: 0.74 } as const;

const percent = (share: number | null): number | null => (share === null ? null : 100 * share);

export function purity(found: PurityCurve, look: Look): Figure {
  const { palette } = look;
  const end = Math.max(REFERENCE.least, 1.04 * (found.ratio.at(-1) ?? 0));
  const even = Array.from({ length: REFERENCE.steps + 1 }, (_, k) => (k / REFERENCE.steps) * end);
  const reference = (of: (ratio: number) => number, dash: string): Bag =>
    curve(
      even,
      even.map((ratio) => 100 * of(ratio)),
      { color: palette.faint, width: 1.3, dash },
      { hoverinfo: 'skip' },
    );
  const shown = { hovertemplate: '%{y:.0f} %' };
  const kept = found.kept.map(percent);
  const leaving = found.leaving.map(percent);
  const at = found.ratio.findIndex((ratio) => ratio > NAMED.at);
  const out = leaving.findLastIndex((share) => share !== null);
  const named = (
    text: string,
    colour: string,
    k: number,
    y: (number | null)[],
    by: [number, number],
  ): Bag[] =>
    k < 0 || found.ratio.length === 0 ? [] : [leader(text, colour, { x: found.ratio[k], y: y[k] }, by)];
  const far = NAMED.mixing * end;
  return {
    data: [
      reference(perfectMixing, 'dot'),
      reference(perfectDisplacement, 'dash'),
      curve(found.ratio, kept, lineOf(look, 'cylinder', 2.6), { name: 'held', ...shown }),
      curve(found.ratio, leaving, lineOf(look, 'exhaust', 2), { name: 'leaving', ...shown }),
    ],
    layout: baseLayout(
      look,
      heightOf(look, 300, 270, 190),
      { t: topMargin(look), b: 48, l: 46, r: 14 },
      {
        xaxis: axis(look, {
          range: [0, end],
          nticks: look.narrow ? 5 : 8,
          hoverformat: '.2f',
          unifiedhovertitle: { text: 'SR %{x:.2f}' },
          title: axisTitle(look, 'Scavenge ratio: let in over held, summed [–]'),
        }),
        yaxis: axis(look, { range: [-3, 114], nticks: 6 }),
        annotations: [
          axisName(look, 'Fresh share [% of mass]'),
          ...named(look.narrow ? 'held' : 'in the cylinder', palette.line.cylinder, at, kept, [
            look.narrow ? 34 : 62,
            12,
          ]),
          ...named('leaving', palette.line.exhaust, out, leaving, [-34, 30]),
          leader('perfect mixing', palette.faint, { x: far, y: 100 * perfectMixing(far) }, [6, 44]),
          words('perfect displacement', palette.faint, {
            x: end,
            y: 100,
            xanchor: 'right',
            yanchor: 'bottom',
          }),
        ],
      },
    ),
  };
}
