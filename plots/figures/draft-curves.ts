/** Several drafts over engine speed, each in its own colour and dash: lead on exhaust closing, torque, power. */

import { rangeOf, speedAxis } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import { heightOf, type Look } from '../theme/look.ts';
import { draftDashes } from '../theme/palette.ts';
import type { Figure } from './figure.ts';
import { type Curve, type Panel, stackedCurves } from './stacked-curves.ts';
import { type Column, column, type SpeedRow } from './sweep-row.ts';

export interface SweptDraft {
  readonly name: string;
  readonly rows: readonly SpeedRow[];
}

const short = (name: string, look: Look): string => {
  const most = look.narrow ? 15 : 22;
  return label(name.length > most ? `${name.slice(0, most - 1)}…` : name);
};

export const draftStyle = (index: number, look: Look): { color: string; dash: string } => ({
  color: look.palette.drafts[index % look.palette.drafts.length] ?? look.palette.ink,
  dash: draftDashes[index % draftDashes.length] ?? 'solid',
});

function curvesOf(drafts: readonly SweptDraft[], name: Column, look: Look): Curve[] {
  return drafts.map((draft, index) => ({
    name: short(draft.name, look),
    x: draft.rows.map((row) => row.speed_rpm),
    y: column(draft.rows, name),
    width: index === 0 ? 2.6 : 2,
    ...draftStyle(index, look),
  }));
}

export function draftCurves(drafts: readonly SweptDraft[], targetSpeed: number | null, look: Look): Figure {
  const panel = (name: string, quantity: Column, reading: string, more: Partial<Panel> = {}): Panel => ({
    name,
    reading,
    curves: curvesOf(drafts, quantity, look),
    ...more,
  });
  const speeds = drafts.flatMap((draft) => draft.rows.map((row) => row.speed_rpm));
  return stackedCurves(
    {
      x: [],
      xaxis: speedAxis(look, rangeOf(speeds, 0.02)),
      panelPx: heightOf(look, 190, 170, 110),
      rightPx: look.narrow ? 98 : 150,
      shapes:
        targetSpeed === null
          ? []
          : [
              {
                type: 'line',
                x0: targetSpeed,
                x1: targetSpeed,
                yref: 'paper',
                y0: 0,
                y1: 1,
                line: { color: look.palette.usefulInk, width: 1.5, dash: 'dot' },
              },
            ],
      panels: [
        panel(
          look.narrow
            ? 'Lead of the plug-back’s peak on EC [°]'
            : 'Lead of the plug-back’s peak on exhaust closing [°], above 0 is in time',
          'plugback_lead_deg',
          '%{y:.0f}°',
          {
            include: [0],
            levels: [{ at: 0, text: 'EC', color: look.palette.line.exhaust }],
          },
        ),
        panel('Torque [Nm]', 'torque_nm', '%{y:.1f} Nm'),
        panel('Power [kW]', 'power_kw', '%{y:.1f} kW'),
      ],
    },
    look,
  );
}
