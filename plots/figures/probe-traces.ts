/** What probes in a pulse rig saw: pressure with the wave running right and the wave running left, a panel a probe. */

import { axis, axisTitle } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import { millimetres } from '../theme/numbers.ts';
import type { Figure } from './figure.ts';
import { stackedCurves } from './stacked-curves.ts';

export interface ProbeTrace {
  readonly name: string;
  /** [m] from the left end. */
  readonly position: number;
  /** [ms] */
  readonly time: readonly number[];
  /** [bar] */
  readonly pressure: readonly number[];
  readonly forward: readonly number[];
  readonly backward: readonly number[];
}

export const timeAxis = (look: Look) =>
  axis(look, {
    nticks: look.narrow ? 6 : 12,
    hoverformat: '.3f',
    title: axisTitle(look, 'Time [ms]'),
  });

export const probeTraces = (probes: readonly ProbeTrace[], look: Look): Figure =>
  stackedCurves(
    {
      x: [],
      xaxis: timeAxis(look),
      panelPx: heightOf(look, probes.length > 3 ? 130 : 180, 140, probes.length > 2 ? 64 : 84),
      rightPx: look.narrow ? 80 : 104,
      panels: probes.map((probe) => ({
        name: `${label(probe.name)}, ${millimetres(probe.position)} from the left: pressure [bar]`,
        reading: '%{y:.3f} bar',
        curves: [
          { name: 'at the probe', x: probe.time, y: probe.pressure, ...style(look, 'port'), width: 1.3 },
          { name: 'to the right', x: probe.time, y: probe.forward, ...style(look, 'outgoing') },
          { name: 'to the left', x: probe.time, y: probe.backward, ...style(look, 'returning') },
        ],
      })),
    },
    look,
  );

const style = (look: Look, quantity: 'port' | 'outgoing' | 'returning'): { color: string; dash: string } => {
  const { color, dash } = lineOf(look, quantity);
  return { color, dash };
};
