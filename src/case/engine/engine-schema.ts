/** The keys of an engine, their defaults and where those come from. What they mean together is in `engine-from-keys.ts`. */

import { ANNAND_TWO_STROKE } from '../../timing/annand.ts';
import { chargeHeat, LIGHTS, richestMixture } from '../../timing/burning.ts';
import { variant } from '../keys/branches.ts';
import { choice, quantity, share, text } from '../keys/leaves.ts';
import { assumed, group, optional, record, required, setting, unless } from '../keys/record.ts';
import { checked } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';
import { combustion } from './combustion-schema.ts';
import { head } from './head-schema.ts';
import { intake } from './intake-schema.ts';
import { exhaustDischarge, transferDischarge, windows } from './port-schema.ts';
import { scavenging } from './scavenging-schema.ts';
import { transferPassage } from './transfer-passage-schema.ts';

const NO_SOURCE = 'common practice, no source';
const BLAIR = 'two-stroke value of Blair 1996, from memory, unverified';

const length = quantity('length', { above: '0 mm', below: '2 m' });
const area = quantity('area', { above: '0 mm2' });
const wallTemperature = quantity('temperature', { above: '0 K', below: '2000 K' });

/** Largest compression ratio over the full stroke [-]. */
export const MOST_COMPRESSION = 40;
const ratio = share({ above: '1', atMost: String(MOST_COMPRESSION) });

const compression = variant<{ readonly ratio: number; readonly basis: 'full' | 'trapped' }>(
  'a compression ratio',
  {
    full: checked(ratio, (value) => ({ ratio: value, basis: 'full' })),
    trapped: checked(ratio, (value) => ({ ratio: value, basis: 'trapped' })),
  },
);

export const ambient = record('the air outside', {
  pressure: assumed(
    quantity('pressure', { above: '0 bar' }),
    'Pressure of the air.',
    '1.01325 bar',
    'sea level (ISO 2533)',
  ),
  temperature: assumed(wallTemperature, 'Temperature of the air.', '15 degC', 'sea level (ISO 2533)'),
});

const exhaust = record('the exhaust port', {
  windows: required(windows, 'The exhaust windows.'),
  discharge: group(exhaustDischarge, 'Discharge coefficients.'),
});

const transfers = record('the transfer ports', {
  windows: required(windows, 'The transfer windows.'),
  discharge: group(transferDischarge, 'Discharge coefficients, the loss of the passages included.'),
  passage: group(transferPassage, 'Passages from the crankcase to the windows.'),
});

const passage = record(
  'the exhaust passage',
  {
    length: required(length, 'From the window at the bore to the flange, along the middle.'),
    entryArea: optional(area, 'Area of the duct just behind the windows.'),
    entryDiameter: optional(length, 'The same as the diameter of a circle of that area.'),
    exitArea: optional(area, 'Area of the duct at the flange.'),
    exitDiameter: optional(length, 'The same as the diameter of a circle of that area.'),
    wallTemperature: assumed(
      wallTemperature,
      'Temperature of its walls, cooled with the cylinder.',
      '470 K',
      "as the cylinder's; no source",
    ),
  },
  [
    { keys: ['entryArea', 'entryDiameter'], needed: false },
    { keys: ['exitArea', 'exitDiameter'], needed: true },
  ],
);

const crankcase = record(
  'the crankcase',
  {
    volume: optional(
      quantity('volume', { above: '0 cc' }),
      'Volume with the piston at bottom dead centre, transfer passages included.',
    ),
    compression: optional(share({ above: '1', atMost: '5' }), 'Largest over smallest crankcase volume.'),
    wallTemperature: assumed(wallTemperature, 'Temperature of its walls.', '340 K', NO_SOURCE),
  },
  [{ keys: ['volume', 'compression'], needed: true }],
);

const fuelKeys = record('the fuel and its mixture', {
  hydrogenCarbonRatio: assumed(
    share({ atLeast: '0', atMost: '4' }),
    'Hydrogen to carbon ratio y of CH_y.',
    '1.85',
    'petrol, CH1.85; Heywood 1988, value from memory',
  ),
  equivalenceRatio: assumed(
    share({ above: '0', atMost: '2.5' }),
    'Equivalence ratio of the mixture; above 1 is rich.',
    '1.1',
    `rich of the chemically correct for power; ${NO_SOURCE}`,
  ),
  lowerHeatingValue: assumed(
    quantity('heatingValue', { above: '0 MJ/kg' }),
    'Lower heating value.',
    '43 MJ/kg',
    'petrol; value from memory',
  ),
});

/** A mixture that gives off no heat is refused; one that a spark hardly lights is warned of. */
const fuel = checked(fuelKeys, (keys, judge) => {
  const { hydrogenCarbonRatio: y, equivalenceRatio: phi } = keys;
  const heat = chargeHeat(keys);
  if (heat === null)
    return judge.refuse(
      ['equivalenceRatio'],
      `a mixture of ${phi} is too rich to burn: CH_${y} finds less than an atom of oxygen for each of carbon from ${Number(richestMixture(y).toFixed(3))} on`,
      'petrol makes most power at 1.1 to 1.2',
    );
  if (!(heat > 0))
    return judge.refuse(
      ['lowerHeatingValue'],
      `the fuel gives off no heat in a mixture of ${phi}: more stays in its CO and H2 than ${writeQuantity(keys.lowerHeatingValue, 'heatingValue', 'MJ/kg', 4)}`,
      'petrol has 43 MJ/kg, methanol about 20 with a mixture near 1 by its own CH_4 (and its oxygen, which is not modelled)',
    );
  if (phi < LIGHTS.lean || phi > LIGHTS.rich)
    judge.warn(
      `A mixture of ${phi} hardly lights: sparks fire reliably from ${LIGHTS.lean} to ${LIGHTS.rich} (common practice, no source). Leaner than 1 runs hot and can seize an engine.`,
    );
  return keys;
});

const cylinderHeat = record('heat to the cylinder walls', {
  model: setting(
    choice('annand', 'woschni', 'none'),
    "Which correlation; Annand's is its convection, without the term of radiation.",
    'annand',
    'the one with a two-stroke coefficient',
  ),
  coefficient: optional(
    share({ atLeast: '0', atMost: '5' }),
    'Coefficient a of Annand, or a factor on Woschni.',
  ),
  wallTemperature: assumed(wallTemperature, 'Mean temperature of the walls.', '470 K', NO_SOURCE),
});

const friction = record('friction of the engine', {
  constant: assumed(
    quantity('pressure', { atLeast: '0 bar' }),
    'Part of the friction pressure that does not depend on speed.',
    '0 bar',
    BLAIR,
  ),
  perSpeed: assumed(
    quantity('frictionPerSpeed', { atLeast: '0 Pa/(m rpm)' }),
    'Friction pressure per metre of stroke and per rpm.',
    '150 Pa/(m rpm)',
    BLAIR,
  ),
});

export const engineKeys = record('an engine', {
  name: optional(text(200), 'Name of the engine.'),
  note: optional(text(4000, 'lines'), 'Anything worth remembering.'),
  bore: required(length, 'Bore of the cylinder.'),
  stroke: required(length, 'Stroke: twice the throw of the crank.'),
  rod: required(length, 'Length of the connecting rod between its centres.'),
  pinOffset: unless(
    quantity('length'),
    'Offset of the gudgeon pin towards the side of the down-stroke.',
    '0 mm',
    'no offset unless stated',
  ),
  compression: required(
    compression,
    'Compression ratio, over the full stroke or trapped (from exhaust closing).',
  ),
  crownBelowDeck: unless(
    quantity('length'),
    'How far the edge of the crown stands below the deck (the top face of the barrel) at top dead centre; above it is negative. Heights named "roof" are measured from the deck.',
    '0 mm',
    'the crown is flush with the deck unless stated',
  ),
  barrelLift: unless(
    quantity('length'),
    'A packing under the barrel beyond what all other keys describe: lifts every window, lowers compression.',
    '0 mm',
    'the barrel stands as measured',
  ),
  exhaust: required(exhaust, 'The exhaust port.'),
  transfers: required(transfers, 'The transfer ports.'),
  passage: required(passage, 'The exhaust passage, from the windows to the flange.'),
  crankcase: required(crankcase, 'The crankcase, by volume or by compression.'),
  intake: required(intake, 'The intake: reed, pistonPort or disc.'),
  combustion: group(combustion, 'Heat release.'),
  head: optional(head, 'Head with a squish band; check tells its squish velocity.'),
  fuel: group(fuel, 'Fuel and mixture.'),
  scavenging: group(scavenging, 'Law of scavenging.'),
  cylinderHeat: group(cylinderHeat, 'Heat to the cylinder walls.'),
  friction: group(friction, 'Friction mean effective pressure.'),
  ambient: group(ambient, 'The air outside.'),
});

export type EngineKeys = NonNullable<ReturnType<typeof engineKeys.read>>;

export const ANNAND = { value: ANNAND_TWO_STROKE, reason: BLAIR };
