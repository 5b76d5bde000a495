/** A file of measurements: dynamometer curve, pressure traces, temperatures, and the air of the day. */

import type { MeasuredPlace } from '../../model/measured.ts';
import { list } from '../keys/branches.ts';
import { choice, quantity, share, text } from '../keys/leaves.ts';
import { assumed, optional, record, required, setting } from '../keys/record.ts';
import { note, refuse, type Schema } from '../keys/schema.ts';
import { scalarText } from '../text/tree.ts';
import { columnOf } from './column.ts';
import { loose } from './loose.ts';
import { measuringError } from './measuring-error.ts';

const NO_SOURCE = 'common practice, no source';
const speed = quantity('speed', { atLeast: '300 rpm', atMost: '30000 rpm' });
const fromFlange = quantity('length', { atLeast: '-300 mm', atMost: '5 m' });
const temperature = quantity('temperature', { above: '200 K', below: '2500 K' });
const file = text(1000);

const NAMED_PLACES = ['port', 'crankcase', 'cylinder'] as const;

/** Distance from the flange, or the name of a place. */
const place: Schema<MeasuredPlace> = {
  takes: `${fromFlange.takes}, the distance from the flange, or one of ${NAMED_PLACES.join(', ')}`,
  lone: false,
  read(node, at) {
    const word = NAMED_PLACES.find((one) => one === scalarText(node));
    if (word === undefined) {
      const said = scalarText(node) ?? '';
      if (!/^[a-z ]+$/i.test(said)) return fromFlange.read(node, at);
      return refuse(at, node.place, `there is no place of that name; it takes ${place.takes}`);
    }
    note(at, word);
    return word;
  },
  jsonSchema: () => ({ anyOf: [fromFlange.jsonSchema(), { type: 'string', enum: NAMED_PLACES }] }),
};

const outputError = measuringError('torque', ['torque', 'power']);

const dyno = record(
  "a dynamometer's curve",
  {
    file: required(file, 'Table of the curve as a spreadsheet exports it, from the folder of this file.'),
    speed: required(columnOf('speed'), 'Column of the speed and its unit.'),
    torque: optional(columnOf('torque'), 'Column of the torque and its unit.'),
    power: optional(columnOf('power'), 'Column of the power and its unit.'),
    error: setting(outputError, 'Error of torque or power.', '3 %', NO_SOURCE),
    correctedTo: setting(
      choice('none', 'ISO 1585', 'SAE J1349'),
      'What the values were corrected to; they are corrected back into the air of the day.',
      'none',
      'as the dynamometer showed it',
    ),
    factor: setting(
      loose(share({ above: '0.3', below: '1.5' }), 'the factor'),
      'What the dynamometer shows over what the crankshaft gives: losses of a chain, gears or a tyre; free: to be found.',
      '1',
      'nothing is lost unless stated',
    ),
  },
  [{ keys: ['torque', 'power'], needed: true }],
);

const trace = record('a pressure trace', {
  file: required(file, 'Table of the trace, from the folder of this file.'),
  at: required(place, 'Where the sensor sits.'),
  speed: required(speed, 'Speed that it was taken at.'),
  angle: required(columnOf('angle'), 'Column of the crank angle after top dead centre and its unit.'),
  pressure: required(columnOf('pressure'), 'Column of the pressure and its unit.'),
  reads: setting(
    choice('absolute', 'gauge'),
    'Whether the sensor reads the whole pressure or that above the air.',
    'absolute',
    'sensors for this use are mostly absolute; common practice, no source',
  ),
  error: setting(
    measuringError('pressure'),
    "Error of the pressure; a share is of the trace's swing.",
    '0.05 bar',
    NO_SOURCE,
  ),
  offset: setting(
    loose(quantity('angle', { atLeast: '-360 deg', atMost: '360 deg' }), 'the offset'),
    'Added to the angles of the table; free: to be found.',
    '0 deg',
    'the encoder is set to top dead centre unless stated',
  ),
});

const gasTemperature = record('a gas temperature', {
  at: required(fromFlange, 'Distance from the flange.'),
  speed: required(speed, 'Speed that it was read at.'),
  value: required(temperature, 'What the probe showed.'),
  error: setting(measuringError('temperature'), 'Error of the temperature.', '20 K', NO_SOURCE),
});

const wallTemperature = record('a wall temperature', {
  at: required(fromFlange, 'Distance from the flange.'),
  speed: optional(speed, 'Speed that it was read at; left out: a mean over those of the day.'),
  value: required(temperature, 'What it showed.'),
  error: setting(measuringError('temperature'), 'Error of the temperature.', '20 K', NO_SOURCE),
});

const air = record('the air of the day', {
  pressure: required(
    quantity('pressure', { above: '0.4 bar', below: '1.2 bar' }),
    'Pressure of the air where it was measured, not at sea level.',
  ),
  temperature: required(
    quantity('temperature', { above: '230 K', below: '340 K' }),
    'Temperature of the air that the engine draws.',
  ),
  humidity: assumed(share({ atLeast: '0', atMost: '1' }), 'Relative humidity of the air.', '50 %', NO_SOURCE),
});

/** The keys of a file of measurements as it states them. */
export const measuredKeys = record('measurements', {
  name: optional(text(200), 'Name of the measurements.'),
  note: optional(text(4000, 'lines'), 'Anything worth remembering.'),
  engine: optional(
    text(200),
    'Name of the engine that they are of; files of different engines are not laid together.',
  ),
  ambient: optional(air, 'The air of the day; the engine file’s unless stated.'),
  dyno: optional(dyno, 'Torque or power over speed.'),
  trace: optional(list(trace, 1, 20), 'Pressure over crank angle.'),
  exhaustTemperature: optional(list(gasTemperature, 1, 200), 'Temperatures of the exhaust gas.'),
  wall: optional(list(wallTemperature, 1, 200), 'Temperatures of the pipe’s wall.'),
});

export type MeasuredKeys = NonNullable<ReturnType<typeof measuredKeys.read>>;
export type StatedTrace = NonNullable<MeasuredKeys['trace']>[number];
