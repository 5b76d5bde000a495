/** At one speed: what a longer exhaust duration does to the wave, the blow-down, the echo and the torque. */

import { axis, type Bag, rangeOf } from '../theme/axes.ts';
import { heightOf, type Look, lineOf } from '../theme/look.ts';
import type { Figure } from './figure.ts';
import type { DurationPoint } from './speed-duration-field.ts';
import { type Panel, stackedCurves } from './stacked-curves.ts';
import { type Column, column } from './sweep-row.ts';

export function durationCurves(
  points: readonly DurationPoint[],
  speedRpm: number,
  ownDuration: number | null,
  look: Look,
): Figure {
  const here = points
    .filter((point) => point.row.speed_rpm === speedRpm)
    .sort((a, b) => a.durationDeg - b.durationDeg);
  const rows = here.map((point) => point.row);
  const durations = here.map((point) => point.durationDeg);
  const { palette } = look;
  const curve = (name: string, quantity: Column, line: Parameters<typeof lineOf>[1], factor = 1) => ({
    name,
    y: column(rows, quantity).map((value) => (value === null ? null : factor * value)),
    color: palette.line[line],
    dash: lineOf(look, line).dash,
  });
  const panels: Panel[] = [
    {
      name: 'Lead of the plug-back’s peak on exhaust closing [°]',
      reading: '%{y:.0f}°',
      include: [0],
      curves: [curve('lead', 'plugback_lead_deg', 'returning')],
      levels: [{ at: 0, text: 'EC', color: palette.line.exhaust }],
    },
    {
      name: 'Mass packed back after transfer closing [% of trapped]',
      reading: '%{y:.1f} %',
      include: [0],
      curves: [curve('packed', 'packed_mass_ratio', 'returning', 100)],
    },
    {
      name: 'Pressure as the transfers open [bar]',
      reading: '%{y:.2f} bar',
      curves: [
        curve('cylinder', 'transfer_opening_cylinder_bar', 'cylinder'),
        curve('crankcase', 'transfer_opening_crankcase_bar', 'crankcase'),
      ],
    },
    {
      name: 'Echo gain: settled pulse over that of a first cycle [–]',
      reading: '%{y:.2f}',
      curves: [curve('echo', 'echo_gain', 'outgoing')],
    },
    { name: 'Torque [Nm]', reading: '%{y:.1f} Nm', curves: [curve('torque', 'torque_nm', 'torque')] },
  ];
  const own: Bag[] =
    ownDuration === null
      ? []
      : [
          {
            type: 'line',
            x0: ownDuration,
            x1: ownDuration,
            yref: 'paper',
            y0: 0,
            y1: 1,
            line: { color: palette.line.exhaust, width: 1.5, dash: 'dash' },
          },
        ];
  return stackedCurves(
    {
      x: durations,
      xaxis: axis(look, {
        range: [...rangeOf(durations, 0.02)],
        ticksuffix: '°',
        nticks: look.narrow ? 6 : 14,
        title: { text: 'Exhaust duration [°]', font: { size: 12, color: palette.faint }, standoff: 6 },
      }),
      panelPx: heightOf(look, 100, 92, 60),
      rightPx: look.narrow ? 74 : 90,
      panels,
      shapes: own,
    },
    look,
  );
}
