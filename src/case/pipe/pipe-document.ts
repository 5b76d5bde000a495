/**
 * A pipe written back as a file: quantities with units, a section that goes on from the one before by where it tapers
 * `to`, so that the file can be changed at one place. Reading it gives the same pipe.
 */

import { type Document, isCollection, visit, Document as YamlDocument } from 'yaml';
import type { Bend, Pipe, WallTemperature } from '../../model/pipe.ts';
import type { Section } from '../../model/section.ts';
import { writeQuantity } from '../text/units.ts';

const millimetres = (value: number): string => writeQuantity(value, 'length', 'mm');
const degrees = (value: number): string => writeQuantity(value, 'angle', 'deg');
const celsius = (kelvin: number): string => writeQuantity(kelvin, 'temperature', 'degC');

/**
 * The text of a pipe file; `note` goes into it as a comment on top. A wall that was assumed is left out, so that it is
 * assumed again, along whatever the pipe's length is made then.
 */
export function pipeDocument(pipe: Pipe, note = '', wall: 'stated' | 'assumed' = 'stated'): string {
  const document: Document = new YamlDocument({
    kind: 'pipe',
    name: pipe.name,
    sections: pipe.sections.map((section, index) => sectionKeys(section, pipe.sections[index - 1])),
    ...(pipe.bends.length === 0 ? {} : { bends: pipe.bends.map(bendKeys) }),
    ...(pipe.sheet === null ? {} : { sheet: millimetres(pipe.sheet) }),
    ...(pipe.silencer === null ? {} : { silencer: silencerKeys(pipe.silencer) }),
    ...(wall === 'assumed' ? {} : { wall: wallKeys(pipe.wall) }),
    roughness: millimetres(pipe.roughness),
    coneLoss: pipe.coneLoss,
    ...(pipe.bends.length === 0 ? {} : { bendLoss: pipe.bendLoss }),
    endCorrection: pipe.endCorrection,
  });
  if (note !== '')
    document.commentBefore = note
      .split(/\r?\n/)
      .map((line) => ` ${line}`)
      .join('\n');
  // One section a line, as a drawing's table has it.
  visit(document, {
    Collection(key, node) {
      if (isCollection(node) && typeof key === 'number') node.flow = true;
    },
  });
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

function sectionKeys(section: Section, before: Section | undefined): Readonly<Record<string, unknown>> {
  const [left, right] = section.diameter;
  const joined = before !== undefined && before.diameter[1] === left;
  const shape =
    joined && right === left
      ? { diameter: 'same' }
      : joined
        ? { to: millimetres(right) }
        : { diameter: ends(left, right) };
  return {
    name: section.name,
    role: section.role,
    length: millimetres(section.length),
    ...shape,
    ...(section.step ? { step: true } : {}),
  };
}

function ends(left: number, right: number): unknown {
  return left === right ? millimetres(left) : [millimetres(left), millimetres(right)];
}

function bendKeys(bend: Bend): Readonly<Record<string, unknown>> {
  return {
    at: millimetres(bend.at),
    angle: degrees(bend.angleDeg),
    radius: millimetres(bend.radius),
    plane: degrees(bend.planeDeg),
    ...(bend.segments === null ? {} : { segments: bend.segments }),
  };
}

function silencerKeys(silencer: NonNullable<Pipe['silencer']>): unknown {
  return {
    volume: writeQuantity(silencer.volume, 'volume', 'cc'),
    outletDiameter: millimetres(silencer.outletDiameter),
    discharge: silencer.discharge,
  };
}

function wallKeys(wall: WallTemperature): unknown {
  if (wall.by === 'balance') {
    const coefficient = writeQuantity(wall.outsideCoefficient, 'heatTransfer');
    return { balance: { emissivity: wall.emissivity, outsideCoefficient: coefficient } };
  }
  return {
    given: wall.at.map((one) => ({ at: millimetres(one.position), temperature: celsius(one.temperature) })),
  };
}
