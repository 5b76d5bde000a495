/** A pulse file: gas at given states in a duct, its two ends, and where it is watched. */

import type { Pulse, PulseEnd, PulseGas } from '../../model/pulse.ts';
import { cellsOf, MOST_CELLS } from '../../pipe/cells.ts';
import { cell, courant, frictionModel, heatModel, kernel, mixing, scheme } from '../engine/case-schema.ts';
import { ambient } from '../engine/engine-schema.ts';
import { bySort, list, nothing, variant } from '../keys/branches.ts';
import { ofKind } from '../keys/kinds.ts';
import { choice, quantity, share, text } from '../keys/leaves.ts';
import { namesDiffer } from '../keys/own-names.ts';
import { group, optional, record, required, setting, unless } from '../keys/record.ts';
import { checked, type Judge, type Schema } from '../keys/schema.ts';
import { endCorrection, roughness } from '../pipe/pipe-schema.ts';
import {
  diameterKeys,
  isJump,
  joinedDiameters,
  sectionKeys,
  withoutHairSteps,
} from '../pipe/section-schema.ts';
import { writeQuantity } from '../text/units.ts';

const pressure = quantity('pressure', { above: '0 bar' });
const temperature = quantity('temperature', { above: '0 K', below: '6000 K' });
const length = quantity('length', { above: '0 mm', below: '10 m' });
const time = quantity('time', { above: '0 ms' });

const gas = bySort<PulseGas>({
  scalar: checked(choice('air', 'exhaust'), (kind) => ({ kind })),
  map: checked(
    record('a perfect gas', {
      gamma: required(share({ above: '1', atMost: '4' }), 'Ratio of specific heats.'),
      gasConstant: required(quantity('gasConstant', { above: '0 J/(kg K)' }), 'Specific gas constant.'),
    }),
    (keys) => ({ kind: 'perfect', ...keys }),
  ),
});

const section = record(
  'a section',
  {
    ...sectionKeys,
    pressure: optional(
      pressure,
      'Pressure over the section at the start; that of the ambient unless stated.',
    ),
    temperature: optional(
      temperature,
      'Temperature over the section at the start; that of the ambient unless stated.',
    ),
    velocity: unless(
      quantity('velocity'),
      'Velocity to the right over the section at the start.',
      '0 m/s',
      'at rest unless stated',
    ),
  },
  [diameterKeys],
);

interface Ambient {
  readonly pressure: number;
  readonly temperature: number;
}

const vessel = record('a vessel', {
  volume: required(quantity('volume', { above: '0 cc' }), 'Volume of the vessel.'),
  pressure: required(pressure, 'Pressure in it at the start.'),
  temperature: optional(temperature, 'Temperature in it at the start; that of the ambient unless stated.'),
  opening: required(
    record('an opening', { diameter: required(length, 'Diameter of the opening to the duct.') }),
    'Its opening to the duct.',
  ),
});

const incident = record('an incident wave', {
  shape: setting(choice('gaussian'), 'Shape of the wave.', 'gaussian', 'the only one there is'),
  amplitude: required(quantity('pressure'), 'Height of the wave, negative for a suction wave.'),
  at: required(quantity('time'), 'When its middle comes in.'),
  width: required(time, 'Time from its middle to where it has fallen to 1/e.'),
});

/** An end, whose vessel still may lack a temperature. */
type StatedEnd =
  | PulseEnd
  | (Omit<Extract<PulseEnd, { kind: 'vessel' }>, 'temperature'> & { readonly temperature: null });

const end = variant<StatedEnd>('an end', {
  closed: nothing({ kind: 'closed' }),
  open: checked(record('an open end', { endCorrection }), (keys) => ({ kind: 'open', ...keys })),
  nonreflecting: nothing({ kind: 'nonreflecting' }),
  nozzle: checked(record('a nozzle', { diameter: required(length, 'Diameter of the nozzle.') }), (keys) => ({
    kind: 'nozzle',
    ...keys,
  })),
  vessel: checked(
    vessel,
    ({ opening, ...keys }) => ({ kind: 'vessel', ...keys, openingDiameter: opening.diameter }) as StatedEnd,
  ),
  incident: checked(incident, (keys) => ({ kind: 'incident', ...keys })),
});

const walls = record('walls', {
  friction: setting(frictionModel, 'Wall friction.', 'none', 'a rig is first looked at without losses'),
  heat: setting(heatModel, 'Heat to the walls.', 'none', 'a rig is first looked at without losses'),
  temperature: optional(temperature, 'Temperature of the walls; that of the ambient unless stated.'),
  roughness,
  mixing: setting(
    mixing,
    'Factor on how far a turbulent stream mixes along the axis; 1 is the published coefficient.',
    '0',
    'a rig is first looked at without mixing',
  ),
});

const probe = record('a probe', {
  name: required(text(60), 'Name of the probe, which heads its columns.'),
  at: required(quantity('length'), 'Position from the left end of the first section.'),
});

const pulseKeys = record('a pulse', {
  name: optional(text(200), 'Name of the pulse.'),
  note: optional(text(4000, 'lines'), 'Anything worth remembering.'),
  gas: setting(gas, 'The gas: { gamma, gasConstant }, air or exhaust.', 'air', 'real air unless stated'),
  ambient: group(ambient, 'The air outside.'),
  sections: required(list(section, 1, 200), 'Stretches of duct from left to right.'),
  leftEnd: setting(end, 'The left end.', 'closed', 'closed unless stated'),
  rightEnd: setting(end, 'The right end.', 'open', 'open unless stated'),
  walls: group(walls, 'What the walls do.'),
  probes: setting(list(probe, 0, 200), 'Where it is watched.', '[]', 'no probes unless stated'),
  until: required(time, 'When to stop.'),
  sampleEvery: setting(
    time,
    'Time between samples of the probes.',
    '5 us',
    'resolves what a fast pressure gauge would',
  ),
  profilesAt: setting(
    list(quantity('time', { atLeast: '0 ms' }), 0, 1000),
    'Times at which the whole duct is written.',
    '[]',
    'no profiles unless stated',
  ),
  cell: setting(cell, 'Length of a cell of the mesh.', '2 mm', 'fine enough for a front of some centimetres'),
  courant: setting(
    courant,
    'Courant number.',
    '0.8',
    'the characteristics stay within one cell with room to spare',
  ),
  scheme: setting(
    scheme,
    'Scheme for the ducts; finite-volume is the second opinion, mesh the textbook method.',
    'conservative',
    'keeps mass and energy',
  ),
  kernel: setting(
    kernel,
    'Form of the conservative scheme: two-lane is compiled and faster, auto takes it where it can be had.',
    'auto',
    'both agree to round-off, and the faster saves two thirds of the time',
  ),
});

type PulseKeys = NonNullable<ReturnType<typeof pulseKeys.read>>;

/** A pulse; `name` is used when the file states none. */
export function pulseSchema(name: string): Schema<Pulse> {
  return checked(ofKind('pulse', pulseKeys), (keys, judge) => {
    const ends = joinedDiameters(keys.sections, judge, ['sections'], 'free');
    if (ends === undefined || !watchable(keys, judge)) return undefined;
    const joined = withoutHairSteps(ends);
    const sections = keys.sections.map((one, index) => ({
      name: one.name ?? `section ${index + 1}`,
      length: one.length,
      diameter: joined[index]!,
      step: index > 0 && isJump(ends[index - 1]![1], ends[index]![0]),
      pressure: one.pressure ?? keys.ambient.pressure,
      temperature: one.temperature ?? keys.ambient.temperature,
      velocity: one.velocity,
    }));
    const { friction, heat, roughness: wallRoughness } = keys.walls;
    const { gas: contents, ambient: air, probes, until, sampleEvery, profilesAt } = keys;
    return {
      name: keys.name ?? name,
      gas: contents,
      ambient: air,
      sections,
      leftEnd: filled(keys.leftEnd, air),
      rightEnd: filled(keys.rightEnd, air),
      friction,
      wallHeat: heat,
      wallTemperature: keys.walls.temperature ?? air.temperature,
      roughness: wallRoughness,
      mixing: keys.walls.mixing,
      probes,
      until,
      sampleEvery,
      profilesAt,
      cell: keys.cell,
      courant: keys.courant,
      scheme: keys.scheme,
      kernel: keys.kernel,
    };
  });
}

function filled(stated: StatedEnd, air: Ambient): PulseEnd {
  return stated.kind === 'vessel'
    ? { ...stated, temperature: stated.temperature ?? air.temperature }
    : stated;
}

function watchable(keys: PulseKeys, judge: Judge): boolean {
  const { probes, sections, until, sampleEvery, profilesAt } = keys;
  const length = sections.reduce((sum, one) => sum + one.length, 0);
  const before = judge.at.ledger.problems.length;
  namesDiffer(probes, judge, ['probes'], 'probe');
  for (const [index, { at }] of probes.entries()) {
    if (at < 0 || at > length * (1 + 1e-12)) {
      judge.refuse(
        ['probes', index, 'at'],
        `lies outside the duct, which goes from 0 mm to ${writeQuantity(length, 'length', 'mm', 6)}`,
      );
    }
  }
  const cells = cellsOf(sections, keys.cell);
  if (cells > MOST_CELLS) judge.refuse(['cell'], `gives ${cells} cells; at most ${MOST_CELLS} are taken`);
  if (sampleEvery > until)
    judge.refuse(['sampleEvery'], `is longer than the whole run of ${writeQuantity(until, 'time', 'ms', 6)}`);
  if (until / sampleEvery > 2e6) judge.refuse(['sampleEvery'], 'gives more than two million samples');
  for (const [index, at] of profilesAt.entries()) {
    if (at > until)
      judge.refuse(
        ['profilesAt', index],
        `lies after the end of the run at ${writeQuantity(until, 'time', 'ms', 6)}`,
      );
  }
  return judge.at.ledger.problems.length === before;
}
