/** Intakes: reed valve, piston port or rotary disc, each with its tract. */

import type { Intake } from '../../model/intake.ts';
import { variant } from '../keys/branches.ts';
import { count, quantity, share } from '../keys/leaves.ts';
import { assumed, record, required, unless } from '../keys/record.ts';
import { checked, type Schema } from '../keys/schema.ts';
import { tract } from '../pipe/section-schema.ts';

const length = quantity('length', { above: '0 mm' });
const area = quantity('area', { above: '0 mm2' });
const coefficient = share({ above: '0', atMost: '1' });
const NO_SOURCE = 'common practice, no source';

const petals = record('reed petals', {
  count: required(count(1, 64), 'How many petals.'),
  width: required(length, 'Width of one petal.'),
  length: required(length, 'Free length of a petal from its clamp to its tip.'),
  thickness: required(length, 'Thickness of a petal.'),
  stop: required(length, 'Lift of the tip when the petal lies on its stop.'),
  density: assumed(
    quantity('density', { above: '0 kg/m3' }),
    'Density of the petal.',
    '1850 kg/m3',
    'woven glass in epoxy; value from memory',
  ),
  modulus: assumed(
    quantity('modulus', { above: '0 GPa' }),
    'Bending modulus of the petal.',
    '21 GPa',
    'woven glass in epoxy; value from memory',
  ),
  damping: assumed(
    share({ atLeast: '0', below: '1' }),
    "Damping ratio of the petal's first bending mode.",
    '0.05',
    NO_SOURCE,
  ),
  openSides: assumed(
    share({ atLeast: '0', atMost: '2' }),
    'Sides of a petal through which gas flows: 2 for one that stands alone, 0 for one between close walls.',
    '1',
    'neighbours shield one of two; no source',
  ),
});

const reed: Schema<Intake> = checked(
  record('a reed valve', {
    tract: required(tract, 'Tract from the open air to the reed.'),
    petals: required(petals, 'The petals.'),
    cageArea: required(area, "Flow area of the cage's openings, all together."),
    discharge: assumed(coefficient, 'Discharge coefficient of the lifted petals.', '0.7', NO_SOURCE),
  }),
  (keys, judge) => {
    if (keys.petals.thickness * 5 > keys.petals.length)
      return judge.refuse(['petals', 'thickness'], 'a petal this thick for its length does not bend');
    return { kind: 'reed', ...keys };
  },
);

const pistonPort: Schema<Intake> = checked(
  record('a piston port', {
    tract: required(tract, 'Tract from the open air to the port.'),
    duration: required(
      quantity('angle', { above: '0 deg', below: '360 deg' }),
      'Crank angle for which the skirt leaves it open, symmetrical about top dead centre.',
    ),
    width: required(length, 'Width of the window.'),
    height: required(length, 'Height of the window.'),
    corners: unless(
      quantity('length', { atLeast: '0 mm' }),
      'Corner radius.',
      '0 mm',
      'sharp corners unless stated',
    ),
    discharge: assumed(coefficient, 'Discharge coefficient of the port.', '0.75', NO_SOURCE),
  }),
  ({ duration, corners, ...keys }, judge) => {
    if (corners > Math.min(keys.width, keys.height) / 2)
      return judge.refuse(['corners'], 'the corner radius is more than half the window');
    return { kind: 'piston-port', ...keys, durationDeg: duration, cornerRadius: corners };
  },
);

const disc: Schema<Intake> = checked(
  record('a rotary disc', {
    tract: required(tract, 'Tract from the open air to the disc.'),
    opens: required(
      quantity('angle', { atLeast: '-360 deg', atMost: '360 deg' }),
      'Opening, after top dead centre (before it: negative, or above 180 deg).',
    ),
    closes: required(
      quantity('angle', { atLeast: '-180 deg', atMost: '360 deg' }),
      'Closing, after top dead centre.',
    ),
    area: required(area, 'Full open area.'),
    ramp: assumed(
      quantity('angle', { above: '0 deg', below: '180 deg' }),
      'Crank angle from first crack to full opening.',
      '35 deg',
      NO_SOURCE,
    ),
    discharge: assumed(coefficient, 'Discharge coefficient of the disc.', '0.8', NO_SOURCE),
  }),
  (keys, judge) => {
    const open = (((keys.closes - keys.opens) % 360) + 360) % 360;
    if (open === 0) return judge.refuse(['closes'], 'the disc opens and closes at the same angle');
    if (2 * keys.ramp > open + 1e-9)
      return judge.refuse(
        ['ramp'],
        `opening and closing take longer than the ${Math.round(open)} deg it is open`,
      );
    const { tract, area, discharge } = keys;
    return {
      kind: 'disc',
      tract,
      opensDeg: keys.opens,
      closesDeg: keys.closes,
      area,
      rampDeg: keys.ramp,
      discharge,
    };
  },
);

export const intake: Schema<Intake> = variant<Intake>('an intake', { reed, pistonPort, disc });
