/** What a draft of a study has to keep to. Limits that exclude each other are refused where they stand. */

import type { Dimension } from '../../model/dimension.ts';
import type { Constraints, Limit } from '../../model/study.ts';
import { choice, quantity, share } from '../keys/leaves.ts';
import { type Fields, optional, record } from '../keys/record.ts';
import { checked, type Schema } from '../keys/schema.ts';

function limit(name: string, dimension: Dimension, least: string): Schema<Limit> {
  const bound = quantity(dimension, { atLeast: least });
  return checked(
    record(name, {
      atLeast: optional(bound, 'Lowest value allowed.'),
      atMost: optional(bound, 'Highest value allowed.'),
    }),
    (stated, judge) => {
      const { atLeast, atMost } = stated;
      if (atLeast === null && atMost === null)
        return judge.refuse([], 'limits nothing', 'give atLeast, atMost or both');
      if (atLeast !== null && atMost !== null && atMost < atLeast)
        return judge.refuse(['atMost'], 'contradicts atLeast: nothing lies between the two');
      return stated;
    },
  );
}

const sheet = checked(
  record('a limit of the sheet', {
    atLeast: optional(quantity('area', { atLeast: '0 mm2' }), 'Least sheet of all sections.'),
    atMost: optional(quantity('area', { atLeast: '0 mm2' }), 'Most sheet of all sections.'),
    sameWithin: optional(
      share({ above: '0', atMost: '1' }),
      "Largest difference from the sheet of the case's own pipe, as a share of it.",
    ),
  }),
  (stated, judge) => {
    const { atLeast, atMost, sameWithin } = stated;
    if (atLeast === null && atMost === null && sameWithin === null)
      return judge.refuse([], 'limits nothing', 'give atLeast, atMost or sameWithin');
    if (atLeast !== null && atMost !== null && atMost < atLeast)
      return judge.refuse(['atMost'], 'contradicts atLeast: nothing lies between the two');
    return stated;
  },
);

const fields = {
  lengthToBaffleEnd: optional(
    limit('a limit of the length', 'length', '0 mm'),
    "Length from the piston's face to the end of the baffle.",
  ),
  largestDiameter: optional(
    limit('a limit of the diameter', 'length', '0 mm'),
    'Largest inner diameter of the pipe.',
  ),
  diffuserAngle: optional(
    limit('a limit of an angle', 'angle', '0 deg'),
    'Whole angle of every stage of the diffuser.',
  ),
  baffleAngle: optional(
    limit('a limit of an angle', 'angle', '0 deg'),
    'Whole angle of every stage of the baffle.',
  ),
  sheet: optional(sheet, 'Sheet that the sections take.'),
  passage: optional(choice('fixed'), 'The exhaust passage stays as the case has it.'),
} as const satisfies Fields;

export const constraints: Schema<Constraints> = checked(record('the constraints', fields), (stated) => ({
  lengthToBaffleEnd: stated.lengthToBaffleEnd,
  largestDiameter: stated.largestDiameter,
  diffuserAngle: stated.diffuserAngle,
  baffleAngle: stated.baffleAngle,
  sheetArea:
    stated.sheet === null || (stated.sheet.atLeast === null && stated.sheet.atMost === null)
      ? null
      : { atLeast: stated.sheet.atLeast, atMost: stated.sheet.atMost },
  sameSheet: stated.sheet?.sameWithin ?? null,
  passageFixed: stated.passage === 'fixed',
}));
