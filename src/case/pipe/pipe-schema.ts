/**
 * The pipe from the flange on: header, diffuser, belly, baffle, stinger, each of one or more sections in this order, an
 * optional silencer, and its wall.
 */

import type { Pipe } from '../../model/pipe.ts';
import type { Section } from '../../model/section.ts';
import { list } from '../keys/branches.ts';
import { ofKind } from '../keys/kinds.ts';
import { choice, quantity, share, text } from '../keys/leaves.ts';
import { namesDiffer } from '../keys/own-names.ts';
import { assumed, optional, record, required } from '../keys/record.ts';
import { checked, type Judge, note, type Schema, within } from '../keys/schema.ts';
import { writeQuantity } from '../text/units.ts';
import { bendList, bendsFit } from './bend-schema.ts';
import { bySheet, circumference, outsideKeys } from './outside-circumference.ts';
import { joinedDiameters, sectionKeys } from './section-schema.ts';
import { wall, wallOf } from './wall-schema.ts';

/** What a section can be, in the order of the pipe. */
export const PIPE_ROLES = ['header', 'diffuser', 'belly', 'baffle', 'stinger'] as const;
type PipeRole = (typeof PIPE_ROLES)[number];

const section = record(
  'a section',
  {
    ...sectionKeys,
    role: optional(
      choice(...PIPE_ROLES),
      'What the section is; left out, the first word of its name says it.',
    ),
    circumference,
  },
  [outsideKeys],
);

const silencer = record('a silencer', {
  volume: required(quantity('volume', { above: '0 cc' }), 'Volume behind the stinger.'),
  outletDiameter: required(quantity('length', { above: '0 mm' }), 'Diameter of its outlet.'),
  discharge: assumed(
    share({ above: '0', atMost: '1' }),
    'Discharge coefficient of the silencer into its outlet.',
    '0.82',
    'a pipe set flush with a sharp edge, which loses half a dynamic pressure; value from memory',
  ),
});

export const roughness = assumed(
  quantity('length', { atLeast: '0 mm', below: '5 mm' }),
  'Roughness of the wall (equivalent sand grain).',
  '0.045 mm',
  'commercial steel pipe (Moody 1944), value from memory; coked pipes are nearer 0.1 to 0.3 mm (common practice, no source)',
);

export const endCorrection = assumed(
  share({ atLeast: '0', atMost: '2' }),
  'End correction of the open end, in its radii; 0 switches it off.',
  '0.6',
  'unflanged pipe, 0.613 of the radius for weak long waves (Levine & Schwinger 1948)',
);

const lossFactor = share({ atLeast: '0', atMost: '5' });

export const pipeKeys = {
  name: optional(text(200), 'Name of the pipe.'),
  note: optional(text(4000, 'lines'), 'Anything worth remembering.'),
  sections: required(list(section, 1, 40), 'From the flange on: header, diffuser, belly, baffle, stinger.'),
  bends: optional(
    bendList,
    'Bends along the centreline, in the order of the flow; left out, the pipe is straight.',
    'none',
    'straight unless stated; a smooth quarter turn costs some 0.2 dynamic pressures, a pipe has one or two',
  ),
  sheet: optional(
    quantity('length', { above: '0 mm', atMost: '6 mm' }),
    'Thickness of the sheet; taken off circumferences, and what patterns are laid out for.',
  ),
  silencer: optional(
    silencer,
    'Silencer behind the stinger.',
    'none',
    'the stinger ends in the open unless stated',
  ),
  wall: optional(wall, 'Temperature of the wall: given along the pipe, or found from a heat balance.'),
  roughness,
  coneLoss: assumed(
    lossFactor,
    'Factor on what a stream loses that slows down in a widening cone; 0 for none.',
    '1',
    'Gibson 1912 for steady flow, value from memory; 0.5 to 2 are plausible where it pulsates (no source)',
  ),
  bendLoss: optional(lossFactor, 'Factor on what bends cost the stream; 0 for none.'),
  endCorrection,
};

/** A pipe; `name` is used when the file states none. */
export function pipeSchema(name: string): Schema<Pipe> {
  return checked(ofKind('pipe', record('a pipe', pipeKeys)), (stated, judge) => {
    const measured = bySheet(stated.sections, stated.sheet, judge);
    if (measured === undefined) return undefined;
    const ends = joinedDiameters(measured, judge, ['sections']);
    const roles = rolesOf(stated.sections, judge);
    const named = namesDiffer(stated.sections, judge, ['sections'], 'section');
    if (ends === undefined || roles === undefined || !named) return undefined;
    const sections = stated.sections.map<Section>((one, index) => ({
      name: one.name ?? numbered(roles, index),
      role: roles[index]!,
      length: one.length,
      diameter: ends[index]!,
      step: one.step,
    }));
    if (!tapersFitRoles(sections, judge)) return undefined;
    if (!roles.includes('baffle')) judge.warn('The pipe has no baffle: nothing sends a plug-back wave.');
    const length = Number(sections.reduce((sum, one) => sum + one.length, 0).toPrecision(12));
    const walls = wallOf(stated.wall, length, judge);
    if (walls === undefined) return undefined;
    const bends = stated.bends ?? [];
    if (!bendsFit(bends, sections, judge)) return undefined;
    return {
      name: stated.name ?? name,
      sections,
      bends,
      sheet: stated.sheet,
      silencer: stated.silencer,
      wall: walls,
      roughness: stated.roughness,
      coneLoss: stated.coneLoss,
      bendLoss: stated.bendLoss ?? (bends.length > 0 ? usualBendLoss(judge) : 1),
      endCorrection: stated.endCorrection,
    };
  });
}

type Stated = readonly { readonly name: string | null; readonly role: PipeRole | null }[];

function rolesOf(sections: Stated, judge: Judge): readonly PipeRole[] | undefined {
  const roles: PipeRole[] = [];
  let sound = true;
  for (const [index, { name, role }] of sections.entries()) {
    const word = name?.toLowerCase().split(/[^a-z]/)[0];
    const found = role ?? PIPE_ROLES.find((candidate) => candidate === word);
    if (found === undefined) {
      return judge.refuse(
        ['sections', index],
        'has no role, and its name begins with none',
        `add role: ${PIPE_ROLES.join(', ')}`,
      );
    }
    const before = roles.at(-1) ?? 'header';
    if (PIPE_ROLES.indexOf(found) < PIPE_ROLES.indexOf(before)) {
      judge.refuse(
        ['sections', index, role === null ? 'name' : 'role'],
        `a ${found} cannot follow a ${before}`,
        `the order is ${PIPE_ROLES.join(', ')}`,
      );
      sound = false;
    }
    roles.push(found);
  }
  return sound ? roles : undefined;
}

function numbered(roles: readonly PipeRole[], index: number): string {
  const role = roles[index]!;
  const alike = roles.filter((other) => other === role).length;
  return alike === 1 ? role : `${role} ${index - roles.indexOf(role) + 1}`;
}

function tapersFitRoles(sections: readonly Section[], judge: Judge): boolean {
  let sound = true;
  for (const [index, { role, diameter }] of sections.entries()) {
    const grows = diameter[1] - diameter[0];
    const fault =
      role === 'diffuser' && grows <= 0
        ? 'a diffuser has to widen'
        : role === 'baffle' && grows >= 0
          ? 'a baffle has to narrow'
          : '';
    if (fault === '') continue;
    const [left, right] = diameter.map((value) => writeQuantity(value, 'length', 'mm', 6));
    judge.refuse(['sections', index], `${fault}, this one goes from ${left} to ${right}`);
    sound = false;
  }
  return sound;
}

/** Losses of bends as published. */
function usualBendLoss(judge: Judge): number {
  const reason =
    'smooth after Idelchik, mitred after Weisbach, steady flow, values from memory; 0.5 to 2 are plausible (no source)';
  note({ ...within(judge.at, 'bendLoss'), assuming: { reason, sort: 'quantity' } }, '1');
  return 1;
}
