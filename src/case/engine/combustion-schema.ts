/** The keys of heat release: where it begins, how long it lasts, and how residual gas changes that. */

import { bySort, list, orNone } from '../keys/branches.ts';
import { quantity, share } from '../keys/leaves.ts';
import { assumed, record, required } from '../keys/record.ts';
import { checked } from '../keys/schema.ts';

const NO_SOURCE = 'common practice, no source';
const startAngle = quantity('angle', { atLeast: '-90 deg', atMost: '60 deg' });
const MOST_POINTS = 50;

/** One angle, or a curve over speed. */
const start = bySort<readonly { readonly rpm: number; readonly deg: number }[]>({
  scalar: checked(startAngle, (deg) => [{ rpm: 0, deg }]),
  list: checked(
    list(
      record('a point of the ignition curve', {
        speed: required(quantity('speed', { atLeast: '100 rpm', atMost: '40000 rpm' }), 'Speed.'),
        angle: required(startAngle, 'Start of heat release there.'),
      }),
      1,
      MOST_POINTS,
    ),
    (points, judge) => {
      const fall = points.findIndex(({ speed }, k) => k > 0 && speed <= points[k - 1]!.speed);
      return fall < 0
        ? points.map(({ speed, angle }) => ({ rpm: speed, deg: angle }))
        : judge.refuse([fall, 'speed'], 'speeds have to ascend');
    },
  ),
});

export const combustion = record('combustion', {
  start: assumed(
    start,
    'Where heat release starts, after top dead centre (before it is negative); or a curve, [{ speed, angle }].',
    '-14 deg',
    'racing engines start 12 to 16 deg before top dead centre (value from memory)',
  ),
  duration: assumed(
    quantity('angle', { above: '0 deg', atMost: '180 deg' }),
    'From start to end of heat release.',
    '52 deg',
    'racing engines take 45 to 60 deg (value from memory)',
  ),
  residualAtDuration: assumed(
    orNone(share({ atLeast: '0', atMost: '0.3' })),
    'Mass share of residual gas that the duration belongs to: more of it slows the burn and leaves heat unreleased; none: it does neither.',
    '0.1',
    'a well scavenged charge; 0.05 to 0.15 are plausible; common practice, no source',
  ),
  wiebeEfficiency: assumed(
    share({ above: '0', atMost: '20' }),
    'Efficiency parameter a of the Wiebe function.',
    '6.908',
    'burns 99.9 % by its end, by definition',
  ),
  wiebeExponent: assumed(
    share({ above: '0', atMost: '10' }),
    'Exponent m of the Wiebe function.',
    '2',
    'Heywood 1988, value from memory',
  ),
  completeness: assumed(
    share({ above: '0', atMost: '1' }),
    'Share of the releasable heat that is released.',
    '0.95',
    NO_SOURCE,
  ),
});
