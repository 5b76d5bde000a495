/** Pressure and velocity along the duct at one instant over the others, with the duct drawn along its axis above. */

import { axis, axisName, type Bag, baseLayout, rangeOf } from '../theme/axes.ts';
import { label } from '../theme/escape.ts';
import { heightOf, type Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';
import { type Stretch, silhouette } from './wave-diagram.ts';

export interface Profile {
  /** [ms] */
  readonly time: number;
  /** [mm] */
  readonly positions: readonly number[];
  /** [bar] */
  readonly pressure: readonly number[];
  /** [m/s] */
  readonly velocity: readonly number[];
}

export function pulseProfiles(
  profiles: readonly Profile[],
  chosen: number,
  outline: readonly Stretch[],
  look: Look,
): Figure {
  const { palette } = look;
  const { x, y } = silhouette(outline);
  const widest = Math.max(1, ...outline.flatMap((part) => [...part.diameters]));
  const domains = { drawing: [0.86, 1], pressure: [0.44, 0.8], velocity: [0, 0.34] } as const;
  const line = (profile: Profile, of: 'pressure' | 'velocity', front: boolean): Bag => ({
    type: 'scatter',
    mode: 'lines',
    x: profile.positions,
    y: profile[of],
    yaxis: of === 'pressure' ? 'y2' : 'y3',
    line: { color: front ? palette.line.port : palette.hairline, width: front ? 2.4 : 1 },
    opacity: front ? 1 : 0.6,
    hoverinfo: front ? 'y' : 'skip',
    name: of,
    hovertemplate: front ? (of === 'pressure' ? '%{y:.3f} bar' : '%{y:.0f} m/s') : undefined,
  });
  const order = profiles.map((_, index) => index).filter((index) => index !== chosen);
  const drawn = [...order, chosen].flatMap((index) => {
    const profile = profiles[index];
    return profile
      ? [line(profile, 'pressure', index === chosen), line(profile, 'velocity', index === chosen)]
      : [];
  });
  const range = (of: 'pressure' | 'velocity'): number[] => [
    ...rangeOf(
      profiles.flatMap((profile) => [...profile[of]]),
      0.08,
    ),
  ];
  return {
    data: [
      {
        type: 'scatter',
        mode: 'lines',
        x,
        y,
        fill: 'toself',
        fillcolor: palette.grid,
        line: { color: palette.ink, width: 1.4 },
        hoverinfo: 'skip',
      },
      ...drawn,
    ],
    layout: baseLayout(
      look,
      heightOf(look, 520, 480, 280),
      { t: 10, b: 48, l: 50, r: 14 },
      {
        xaxis: axis(look, {
          range: [0, outline.at(-1)?.end ?? 1],
          anchor: 'y3',
          hoverformat: '.0f',
          nticks: look.narrow ? 5 : 10,
          title: {
            text: 'Distance from the left end [mm]',
            font: { size: 12, color: palette.faint },
            standoff: 6,
          },
        }),
        yaxis: axis(look, {
          domain: domains.drawing,
          range: [-widest * 0.56, widest * 0.56],
          visible: false,
        }),
        yaxis2: axis(look, { domain: domains.pressure, range: range('pressure'), nticks: 6 }),
        yaxis3: axis(look, {
          domain: domains.velocity,
          range: range('velocity'),
          nticks: 5,
          zeroline: true,
          zerolinecolor: palette.hairline,
        }),
        hoversubplots: 'axis',
        annotations: [
          axisName(look, 'Pressure [bar]', domains.pressure[1]),
          axisName(look, 'Velocity [m/s], to the right positive', domains.velocity[1]),
          ...outline
            .filter((part) => (part.end - part.start) / (outline.at(-1)?.end ?? 1) > 0.12)
            .map((part) => ({
              text: label(part.name.slice(0, 14)),
              x: (part.start + part.end) / 2,
              y: 0,
              showarrow: false,
              font: { size: 11, color: palette.ink },
            })),
        ],
      },
    ),
  };
}
