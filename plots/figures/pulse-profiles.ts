/** Pressure and velocity along the duct at one instant over the others, with the duct drawn along its axis above. */

import { curve } from '../marks/curve.ts';
import {
  lengthOf,
  type Stretch,
  silhouetteCurve,
  silhouetteRange,
  stretchNames,
} from '../marks/silhouette.ts';
import { axis, axisName, axisTitle, type Bag, baseLayout, rangeOf } from '../theme/axes.ts';
import { heightOf, type Look } from '../theme/look.ts';
import type { Figure } from './figure.ts';

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

type Shown = 'pressure' | 'velocity';

const domains = { drawing: [0.86, 1], pressure: [0.44, 0.8], velocity: [0, 0.34] } as const;

/** A profile: the chosen one dark and read out, the others faint behind it. */
function profileCurve(profile: Profile, of: Shown, chosen: boolean, look: Look): Bag {
  const { palette } = look;
  const line = chosen ? { color: palette.line.port, width: 2.4 } : { color: palette.hairline, width: 1 };
  return curve(profile.positions, profile[of], line, {
    yaxis: of === 'pressure' ? 'y2' : 'y3',
    opacity: chosen ? 1 : 0.6,
    name: of,
    ...(chosen
      ? { hoverinfo: 'y', hovertemplate: of === 'pressure' ? '%{y:.3f} bar' : '%{y:.0f} m/s' }
      : { hoverinfo: 'skip' }),
  });
}

export function pulseProfiles(
  profiles: readonly Profile[],
  chosen: number,
  outline: readonly Stretch[],
  look: Look,
): Figure {
  const { palette } = look;
  const margin = { t: 10, b: 48, l: 50, r: 14 };
  const both = (profile: Profile, front: boolean): Bag[] => [
    profileCurve(profile, 'pressure', front, look),
    profileCurve(profile, 'velocity', front, look),
  ];
  const front = profiles[chosen];
  const range = (of: Shown): number[] => [
    ...rangeOf(
      profiles.flatMap((profile) => [...profile[of]]),
      0.08,
    ),
  ];
  return {
    data: [
      silhouetteCurve(outline, palette, 'y'),
      ...profiles.filter((_, index) => index !== chosen).flatMap((profile) => both(profile, false)),
      ...(front ? both(front, true) : []),
    ],
    layout: baseLayout(look, heightOf(look, 520, 480, 280), margin, {
      xaxis: axis(look, {
        range: [0, lengthOf(outline) ?? 1],
        anchor: 'y3',
        hoverformat: '.0f',
        nticks: look.narrow ? 5 : 10,
        title: axisTitle(look, 'Distance from the left end [mm]'),
      }),
      yaxis: axis(look, { domain: domains.drawing, range: silhouetteRange(outline), visible: false }),
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
        ...stretchNames(outline, palette, { plotPx: look.width - margin.l - margin.r, size: 11, yref: 'y' }),
      ],
    }),
  };
}
